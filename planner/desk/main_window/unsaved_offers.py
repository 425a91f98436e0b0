"""Offers unsaved work that earlier windows have left."""

from __future__ import annotations

import datetime as dt

from PySide6.QtWidgets import QWidget

from planner.desk.main_window.prompts import Prompts
from planner.desk.model import recovery
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.garden.differences import difference_words
from planner.garden.join import Joined, join
from planner.storage import GardenFile
from planner.storage.unsaved import UnsavedWork, taken_up, throw_away, unsaved_of, unsaved_untitled
from planner.storage.versions import Versions
from planner.words import moment_words, say


class UnsavedOffers:
    """Asks what is to become of unsaved work that was found.

    Whatever is answered, nothing goes but by the person's word: work that is left for later is offered
    again, and what was thrown away lies beside the garden under another name.

    Parameters
    ----------
    window : QWidget
        Parent of the dialogs.
    document : Document
    prompts : Prompts
    recovery : Recovery
        The journal of this window, in which work that is taken up goes on.
    """

    def __init__(
        self, window: QWidget, document: Document, prompts: Prompts, recovery: recovery.Recovery
    ) -> None:
        self._window, self._document, self._prompts, self._recovery = window, document, prompts, recovery

    def offer_of(self, opened: GardenFile) -> None:
        """Offer the unsaved work on a garden file that was opened just now."""
        base = opened.state.digest.hex()
        for work in unsaved_of(opened.path, opened.garden, base, recovery.folder()):
            earlier = self._base_of(work, opened) if work.other_version else None
            self._offer(work, opened.path.name, opened.garden, earlier)

    def offer_untitled(self) -> None:
        """Offer unsaved work on gardens without a file; one of them can be taken up at a time."""
        for work in unsaved_untitled(recovery.folder()):
            if self._offer(work, say("a garden without a file"), Garden(), None):
                return

    @staticmethod
    def _base_of(work: UnsavedWork, opened: GardenFile) -> Garden | None:
        """The version of the file from which the work began; None where it was not kept."""
        version = Versions(opened.path, recovery.folder()).with_digest(work.head.base)
        try:
            return version.read() if version is not None else None
        except BedwrightError:
            return None

    def _offer(self, work: UnsavedWork, name: str, saved: Garden, base: Garden | None) -> bool:
        """Ask about one journal; True where its work was taken up."""
        when = moment_words(dt.datetime.fromtimestamp(work.written))
        garden = work.garden
        if garden is None:
            text = say(
                "There is unsaved work on {garden}, of {when}, but it is damaged. {fault}",
                garden=name,
                when=when,
                fault=work.fault,
            )
            answers: tuple[str, ...] = ("later", "drop")
            answer = self._prompts.recover(self._window, text, answers[::-1])
        else:
            difference = difference_words(saved, garden)
            text = (
                say(
                    "There is unsaved work on {garden}, of {when}. Compared with what is saved: {difference}. "
                    "The file has been changed since that work began.",
                    garden=name,
                    when=when,
                    difference=difference,
                )
                if work.other_version
                else say(
                    "There is unsaved work on {garden}, of {when}. Compared with what is saved: {difference}.",
                    garden=name,
                    when=when,
                    difference=difference,
                )
            )
            answers = ("join", "take", "drop", "later") if base is not None else ("take", "drop", "later")
            answer = self._prompts.recover(self._window, text, answers)
        if answer == "drop":
            throw_away(work, self._recovery.journal.folder)
        elif garden is not None and answer in ("take", "join"):
            joined = join(base, saved, garden) if answer == "join" else Joined(garden, ())
            # A step of its own: undoing it shows what the file holds.
            self._document.commit(say("Take up unsaved work"), joined.garden)
            if self._recovery.write():
                taken_up(work)
            return True
        return False
