"""The search for a layout of the document: where it stands, and what it has found so far."""

from __future__ import annotations

from collections.abc import Collection
from typing import Literal

from PySide6.QtCore import QObject, Signal

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.layout_process import Failed, LayoutProcess, LayoutTask, Told, Whys
from planner.garden import Garden
from planner.listings.found_layout import FoundLayout, LayoutRow
from planner.words import say

#: Nothing was begun; where each wish could stand is being worked out; better layouts are searched for; what was found is being
#: judged by the checks; the search is over.
State = Literal["idle", "begun", "searching", "judging", "over"]


class LayoutSearch(QObject):
    """Searches for the layout of a growing year of the document, in a process beside the window.

    An edit of the garden ends the search: what it found is of the garden before.

    Signals
    -------
    changed
        It has begun, found something, or ended.
    whys_known
        It is known why wishes are not met.

    Attributes
    ----------
    state : str
    found : FoundLayout or None
        What was found last.
    failed : str
        Why nothing can be proposed, in one line.
    year : int
        That was laid out.
    """

    changed = Signal()
    whys_known = Signal()

    def __init__(self, parent: QObject, document: Document) -> None:
        super().__init__(parent)
        self.document = document
        self.jobs = JobQueue(self)
        self.process = LayoutProcess()
        self.state: State = "idle"
        self.found: FoundLayout | None = None
        self.failed = ""
        self.year = document.year
        self._base: Garden | None = None
        self._whys: dict[str, tuple[str, ...]] | None = None
        document.garden_changed.connect(self._follow)
        document.opened.connect(self.forget)

    @property
    def is_running(self) -> bool:
        """Whether something more will be found."""
        return self.state in ("begun", "searching", "judging")

    @property
    def is_outdated(self) -> bool:
        """Whether the garden is another one than that for which it was searched."""
        return self._base is not None and self._base is not self.document.stable

    def begin(
        self,
        year: int,
        beds: Collection[str] | None = None,
        *,
        seconds: float | None = None,
        seed: int = 0,
        rounds: int | None = None,
    ) -> None:
        """Search anew, for the garden as it is now.

        Parameters
        ----------
        year : int
        beds : collection of str, optional
            Ids of the beds that are planned anew; all by default.
        seconds : float, optional
            How long to search. [s]
        seed : int
            Another one searches elsewhere.
        rounds : int, optional
            Of search, instead of a time.
        """
        garden = self._base = self.document.stable
        self.year, self.found, self.failed, self.state, self._whys = year, None, "", "begun", None
        task = LayoutTask(garden, year, frozenset(beds) if beds is not None else None, seconds, seed, rounds)

        def work(cancelled: Cancelled) -> object:
            return self.process.search(task, cancelled)

        self.jobs.start(work, self._receive)  # type: ignore[arg-type]
        self.changed.emit()

    def _receive(self, told: Told) -> None:
        if isinstance(told, Whys):
            self._whys = told.lines
            self.whys_known.emit()
            return
        if isinstance(told, Failed):
            self.failed, self.state = told.why, "over"
        else:
            self.found = told
            if told.judged:
                self.state = "over"
            elif self.state == "begun":
                self.state = "searching"
        self.changed.emit()

    def why_words(self, row: LayoutRow) -> tuple[str, ...]:
        """Why a planting is proposed where it is, or why a wish is not met and what would help.

        Parameters
        ----------
        row : LayoutRow
            Of what was found last.
        """
        if row.planting is not None:
            return row.why
        if self._whys is not None:
            return self._whys.get(row.wish, ())
        if self.is_running:
            return (say("Why, and what would help, is told when the search is over"),)
        return () if self.is_outdated else (say("Why, and what would help, is being worked out…"),)

    def stop(self) -> None:
        """Search no further; what was found so far is still judged."""
        if self.state in ("begun", "searching"):
            self.process.stop()
            self.state = "judging"
            self.changed.emit()

    def cancel(self) -> None:
        """End it, whatever it is about to find."""
        self.jobs.cancel()
        if self.is_running:
            self.state = "over"
            self.changed.emit()

    def forget(self) -> None:
        """Another garden is open: nothing of what was found is of it."""
        self.jobs.cancel()
        self._base = self.found = None
        self.failed, self.state = "", "idle"
        self.changed.emit()

    def close(self) -> None:
        """The window closes."""
        self.jobs.stop()
        self.process.close()

    def _follow(self) -> None:
        if self.is_outdated:
            self.cancel()
