"""The search for a layout of the document: where it stands, and what it has found so far."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace
from typing import Literal

import shapely
from PySide6.QtCore import QObject, Signal

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.layout_process import (
    Failed,
    LayoutProcess,
    LayoutTask,
    Remarks,
    Told,
    Unlikes,
    UnlikeTask,
    Whys,
)
from planner.garden import Garden
from planner.listings.found_layout import FoundLayout, LayoutRow
from planner.proposal.layouts import SHARED
from planner.words import say

#: Nothing was begun; where each wish could stand is being worked out; better layouts are searched for; what was found is being
#: judged by the checks; the search is over; layouts unlike the one found are searched for.
State = Literal["idle", "begun", "searching", "judging", "over", "unlike"]


class LayoutSearch(QObject):
    """Searches for the layout of a growing year of the document, in a process beside the window.

    An edit of the garden ends the search: what it found is of the garden before.

    Signals
    -------
    changed
        It has begun, found something, or ended.
    whys_known
        It is known why wishes are not met, or what is to be said of the layout.

    Attributes
    ----------
    state : str
    found : FoundLayout or None
        What is shown: what was found last, or one that is unlike it.
    layouts : tuple of FoundLayout
        What was found, and then those unlike it; none before they are asked for.
    no_others : bool
        Whether unlike ones were asked for and there are none.
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
        self.layouts: tuple[FoundLayout, ...] = ()
        self.no_others = False
        self._whys: dict[str, tuple[str, ...]] | None = None
        self._remarks: tuple[str, ...] | None = None
        self._whys_of: tuple[dict[str, tuple[str, ...]], ...] = ()
        self._taken = False
        document.garden_changed.connect(self._follow)
        document.opened.connect(self.forget)

    @property
    def is_running(self) -> bool:
        """Whether something more will be found."""
        return self.state in ("begun", "searching", "judging", "unlike")

    @property
    def may_find_unlike(self) -> bool:
        """Whether layouts unlike the one found can be asked for."""
        over = self.state == "over" and not self.failed and not self.is_outdated and not self._taken
        told = self._whys is not None and self._remarks is not None
        return over and told and self.found is not None and self.found.solver

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
        self._remarks = None
        self._forget_unlike()
        task = LayoutTask(garden, year, frozenset(beds) if beds is not None else None, seconds, seed, rounds)

        def work(cancelled: Cancelled) -> object:
            return self.process.search(task, cancelled)

        self.jobs.start(work, self._receive)  # type: ignore[arg-type]
        self.changed.emit()

    def go_on_without(self, taken: Collection[str]) -> None:
        """Some of what is shown is planted now: the rest can still be taken over in the garden as it is.

        Unlike layouts stay as far as what they plant leaves that ground free.

        Parameters
        ----------
        taken : collection of str
            Ids of the wishes that are planted.
        """
        if self.found is None:
            return
        shown = self.found
        planted = [
            replace(one, stays=True, planting=one.planting.with_(pinned=True))
            for one in shown.rows
            if one.planting is not None and one.is_proposed and one.wish in taken
        ]
        here = _with_planted(shown, planted)
        layouts, whys = [], []
        for one, why in zip(self.layouts, self._whys_of, strict=True):
            if one is shown or not _on_the_ground_of(one, planted):
                layouts.append(here if one is shown else _with_planted(one, planted))
                whys.append(why)
        self.found = here
        self._base = self.document.stable
        self.no_others = False
        self.layouts, self._whys_of = (tuple(layouts), tuple(whys)) if len(layouts) > 1 else ((), ())
        self._taken = True  # more unlike ones would be of the garden before
        self.changed.emit()

    def find_unlike(self, count: int = 3) -> None:
        """Search for layouts unlike the one that was found, and about as good.

        Parameters
        ----------
        count : int
        """
        if not self.may_find_unlike:
            return
        if self.layouts:
            self.show_layout(0)
        self._forget_unlike()
        self.state = "unlike"

        def work(cancelled: Cancelled) -> object:
            return self.process.search(UnlikeTask(count), cancelled)

        self.jobs.start(work, self._receive)  # type: ignore[arg-type]
        self.changed.emit()

    def _forget_unlike(self) -> None:
        self._taken = False
        self.layouts, self._whys_of, self.no_others = (), (), False

    def _keep_unlike(self, told: Unlikes) -> None:
        self.state, self.no_others = "over", not told.layouts
        if told.layouts and self.found is not None and self._whys is not None:
            self.layouts = (self.found, *told.layouts)
            self._whys_of = (self._whys, *told.whys)
        self.changed.emit()

    def show_layout(self, number: int) -> None:
        """Show what was found (0), or one of those unlike it.

        Parameters
        ----------
        number : int
        """
        self.found, self._whys = self.layouts[number], self._whys_of[number]
        self.changed.emit()

    @property
    def shown_number(self) -> int:
        """Which of the layouts is shown; 0 where there is one only."""
        return next((n for n, one in enumerate(self.layouts) if one is self.found), 0)

    def _receive(self, told: Told) -> None:
        if isinstance(told, Unlikes):
            self._keep_unlike(told)
            return
        if isinstance(told, Whys):
            self._whys = told.lines
            self.whys_known.emit()
            return
        if isinstance(told, Remarks):
            self._remarks = told.lines
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

    @property
    def remarks(self) -> tuple[str, ...]:
        """What the layout found first leaves bare; nothing before that is known, and of another one."""
        return self._remarks or () if self.shown_number == 0 and not self.is_outdated else ()

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
        elif self.state == "unlike":
            self.process.stop()

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
        self._forget_unlike()
        self.changed.emit()

    def close(self) -> None:
        """The window closes."""
        self.jobs.stop()
        self.process.close()

    def _follow(self) -> None:
        if self.is_outdated:
            self.cancel()


def _on_the_ground_of(layout: FoundLayout, planted: Iterable[LayoutRow]) -> bool:
    """Whether a layout plants other wishes on ground that is taken now."""
    planted = tuple(planted)
    taken = {one.wish for one in planted}
    for one in layout.rows:
        if one.wish in taken or one.span is None:
            continue
        for other in planted:
            meet = other.span is not None and one.span.meets(other.span)
            if meet and shapely.intersection(one.ground, other.ground).area > SHARED:
                return True
    return False


def _with_planted(layout: FoundLayout, planted: Iterable[LayoutRow]) -> FoundLayout:
    """A layout in which some wishes are planted already, where it proposed them or elsewhere."""
    planted = tuple(planted)
    taken, left = {one.wish for one in planted}, {_place(one): one for one in planted}
    rows = []
    for one in layout.rows:
        if one.is_proposed and one.wish in taken:
            there = left.pop(_place(one), None)
            rows += [there] if there is not None else []
        else:
            rows.append(one)
    ids = {one.planting.id for one in planted if one.planting is not None}
    freed = tuple(key for key in layout.freed if key not in ids)
    return replace(layout, rows=(*rows, *left.values()), freed=freed)


def _place(row: LayoutRow) -> tuple[object, ...]:
    one = row.planting
    return (row.wish, *((one.bed, one.plot, one.first) if one is not None else ()))
