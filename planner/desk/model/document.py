"""The open garden: its value, its undo history, what is selected, and signals of changes."""

from __future__ import annotations

import datetime as dt
import time
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QEventLoop, QObject, QTimer, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack
from typing_extensions import override

from planner.crops import Catalogue, load_catalogue
from planner.desk.model.garbage import note_work
from planner.errors import BedwrightError
from planner.garden import Garden, Planting
from planner.plan import Plan
from planner.plan.fullest_day import fullest_day
from planner.season.lived.assumed import Assumed
from planner.season.spans import high_summer, usual_year
from planner.words import say

#: Steps that can be undone. Values share their parts, so a step costs what it changed.
MOST_STEPS = 1_000
#: Least time between two updates of panels of numbers while a gesture runs. [ms]
SETTLING = 80
#: More plantings than this are placed a few beds at a time when a garden is opened, or an edit concerns them: the window is painted,
#: and answers, meanwhile.
PLACED_AT_ONCE = 300
#: Time that is given to them between two looks at what the person does. [s]
PLACING_TIME = 0.03
#: So many beds that are placed are shown together: each time the whole sheet is painted.
SHOWN_TOGETHER = 50
#: Hour whose shadows are shown first. [h]
USUAL_HOUR = 14.0

#: Stands in a selection for the edge of the plot, which has no id; no id is written with a space.
PLOT_EDGE = "plot edge"


class ReplaceGarden(QUndoCommand):
    """One step of the history: the value before, and the value after; the growing years shown then, where it changes them."""

    def __init__(
        self,
        document: Document,
        text: str,
        old: Garden,
        new: Garden,
        merge: str,
        years: tuple[int, int] | None = None,
    ) -> None:
        super().__init__(text.replace("&", "&&"))  # it becomes the text of a menu entry
        self._document = document
        self._old, self._new = old, new
        self._merge = merge
        self._years = years
        self._done = False

    @override
    def redo(self) -> None:
        if self._done:
            self._document.about_to_change_history.emit()
        self._done = True
        self._document._show(self._new)
        if self._years is not None:
            self._document.show_year(self._years[1])

    @override
    def undo(self) -> None:
        self._document.about_to_change_history.emit()
        self._document._show(self._old)
        if self._years is not None:
            self._document.show_year(self._years[0])

    @override
    def id(self) -> int:
        return hash(self._merge) % 2_000_000_000 if self._merge else -1

    @override
    def mergeWith(self, other: QUndoCommand) -> bool:
        if not isinstance(other, ReplaceGarden) or other._merge != self._merge or other._old is not self._new:
            return False
        self._new = other._new
        return True


class Document(QObject):
    """One open garden.

    The garden is a value: an edit is a function from garden to garden, given to :meth:`edit`.
    While a gesture runs, :meth:`preview` shows its result without a step of history; the gesture
    ends with :meth:`commit` or :meth:`cancel_preview`.

    Attributes
    ----------
    only_shown : str
        Why the garden can only be looked at, as one line; empty where it can be edited.
    unplaced : dict of str to bool
        Ids of the beds whose plantings are still to be placed after a large garden was opened or much was edited, in the order in
        which that is done; whether what was drawn of a bed before may stand meanwhile.

    opening : bool
        Whether another garden or year is worked out, and will be shown in a moment.
    outlines_first : bool
        Whether all beds of a garden that is placed a few beds at a time are drawn at once, still without plants.

    Signals
    -------
    garden_changed
        Another value is shown (also during a preview).
    garden_settled
        The same, at most some ten times a second while a gesture previews: for panels of numbers.  Not before all of a
        garden that was opened is placed.
    beds_placed : set of str
        Ids of beds whose plantings are placed now.
    about_to_change_history
        Emitted before undo, redo and open, so that a running gesture can cancel.
    opened
        Another garden was opened.
    selection_changed
    year_changed
    day_changed
        Another day is shown, or the whole year.
    hour_changed
        Shadows of another hour are shown.
    assumed_changed
        Something else is assumed of the recorded years.
    renamed
        The file, or whether there is anything to save, has changed.
    edit_refused : str
        An edit was not possible; one line says why.
    """

    garden_changed = Signal()
    garden_settled = Signal()
    beds_placed = Signal(object)
    about_to_change_history = Signal()
    opened = Signal()
    selection_changed = Signal()
    year_changed = Signal()
    day_changed = Signal()
    hour_changed = Signal()
    assumed_changed = Signal()
    renamed = Signal()
    edit_refused = Signal(str)
    outlines_first = True
    opening = False

    def __init__(self, garden: Garden | None = None, catalogue: Catalogue | None = None) -> None:
        super().__init__()
        catalogue = catalogue if catalogue is not None else load_catalogue()
        self.path: Path | None = None
        self.untitled = say("Untitled")
        self.only_shown = ""
        self._previewing = False
        self._settling = QTimer(self)
        self._settling.setSingleShot(True)
        self._settling.setInterval(SETTLING)
        self._settling.timeout.connect(self.garden_settled)
        self.garden_changed.connect(self._settle)
        self.unplaced: dict[str, bool] = {}
        self._placed = set[str]()
        self._placing = QTimer(self)
        self._placing.setInterval(0)
        self._placing.timeout.connect(self._place_some)
        self.undo_stack = QUndoStack(self)
        self.undo_stack.setUndoLimit(MOST_STEPS)
        self.undo_stack.cleanChanged.connect(self._follow_clean)
        garden = garden if garden is not None else Garden()
        self._stable = garden
        self.plan = self._stable_plan = Plan(garden, usual_year(garden, dt.date.today()), catalogue)
        self.selection: tuple[str, ...] = ()
        self.day: dt.date | None = usual_day(self.plan)
        self.hour = USUAL_HOUR

    def _follow_clean(self, _clean: bool) -> None:
        self.renamed.emit()

    def _settle(self) -> None:
        if self.unplaced:
            return
        if not self._previewing:
            self._settling.stop()
            self.garden_settled.emit()
        elif not self._settling.isActive():
            self._settling.start()

    def end(self) -> None:
        """Drop the history, before the document itself goes.

        Steps that Python's garbage collector meets together with their stack are destroyed twice: by it, and by the stack.
        """
        self._placing.stop()
        self.undo_stack.blockSignals(True)
        self.undo_stack.clear()
        self.undo_stack.blockSignals(False)

    # -- the value --------------------------------------------------------------------------

    @property
    def garden(self) -> Garden:
        """The value shown."""
        return self.plan.garden

    @property
    def catalogue(self) -> Catalogue:
        """The catalogue, with the names of the garden's English."""
        return self.plan.catalogue

    @property
    def year(self) -> int:
        """The growing year shown."""
        return self.plan.year

    def open(self, garden: Garden, path: Path | None = None, title: str = "") -> None:
        """Open another garden, with a new history.

        Parameters
        ----------
        garden : Garden
        path : Path, optional
            Its file; None for a garden without one.
        title : str
            What it is called while it has no file.
        """
        self._placing.stop()  # what is not placed of the garden before need not be any more
        plan = Plan(garden, usual_year(garden, dt.date.today()), self.catalogue)
        self._work_out_in_slices(plan)
        self.about_to_change_history.emit()
        self.path = path
        self.untitled = title or say("Untitled")
        self.only_shown = ""
        self.undo_stack.clear()
        self.undo_stack.setClean()
        self.selection = ()
        self._stable = garden
        self.plan = self._stable_plan = plan
        self.day = usual_day(self.plan)
        self._place_later(self.plan.plantings, anew=True)
        self.garden_changed.emit()
        self.year_changed.emit()
        self.day_changed.emit()
        self.selection_changed.emit()
        self.renamed.emit()
        self.assumed_changed.emit()
        self.opened.emit()

    def _work_out_in_slices(self, plan: Plan) -> None:
        """Work out the days of all plantings, and place them where they are few; the window is painted meanwhile, and takes no input."""
        self.opening, begun = True, time.perf_counter()
        try:
            for planting in plan.garden.plantings:
                plan.span_of(planting)
                begun = _breathe(begun)
            if len(plan.plantings) <= PLACED_AT_ONCE:
                for planting in plan.plantings:
                    plan.placed(planting)
                    begun = _breathe(begun)
        finally:
            self.opening = False

    def _place_later(self, plantings: Sequence[Planting], *, anew: bool = False) -> None:
        """Place plantings a few beds at a time, where they are many.

        Parameters
        ----------
        plantings : sequence of Planting
        anew : bool
            Whether nothing of the garden is placed yet: beds without plantings are shown a few at a time too.
        """
        if anew:
            self.unplaced, self._placed = {}, set()
            self._placing.stop()
        if len(plantings) > PLACED_AT_ONCE:
            beds = (bed.id for bed in self.plan.beds) if anew else (one.bed for one in plantings)
            self.unplaced = {**self.unplaced, **dict.fromkeys(beds, False)}
            self._placing.start()

    def _place_edited(self, before: Plan) -> None:
        """Place what an edit concerns a few beds at a time, where that is much."""
        old, new = before.garden, self._stable_plan.garden
        moved = {key for key, bed in new.beds_by_id.items() if old.beds_by_id.get(key) is not bed}
        same = old.plantings_by_id
        concerned = [
            one for one in self._stable_plan.plantings if same.get(one.id) is not one or one.bed in moved
        ]
        if len(concerned) <= PLACED_AT_ONCE:
            return
        # What is drawn of a bed may stand for a moment where the same plantings are in it.
        other = {one.bed for one in old.plantings if one.id not in new.plantings_by_id}
        for one in concerned:
            was = same.get(one.id)
            other |= {one.bed} if was is None else {was.bed, one.bed} if was.bed != one.bed else set()
        for one in concerned:
            self.unplaced.setdefault(one.bed, one.bed not in other)
        for key in other & self.unplaced.keys():
            self.unplaced[key] = False
        self._placing.start()

    def _place_some(self) -> None:
        """Place some beds, or show those that were placed: both together would take too long."""
        if self.unplaced and len(self._placed) < SHOWN_TOGETHER:
            self._place_next()
            if self.unplaced:
                return
        placed, self._placed = self._placed, set()
        if not self.unplaced:
            self._placing.stop()
        self.beds_placed.emit(placed)
        if not self.unplaced:
            self._settle()

    def _place_next(self) -> None:
        end = time.perf_counter() + PLACING_TIME
        while self.unplaced:
            key = next(iter(self.unplaced))
            bed = self.garden.beds_by_id.get(key)
            for planting in self.plan.in_bed(bed) if bed is not None else ():
                self.plan.placed(planting)
            self._placed.add(key)
            del self.unplaced[key]
            if time.perf_counter() >= end or len(self._placed) >= SHOWN_TOGETHER:
                break

    def saved_as(self, path: Path) -> None:
        """The value shown is what a file holds now."""
        self.path = path
        self.only_shown = ""
        self.undo_stack.setClean()
        self.renamed.emit()

    @property
    def changed(self) -> bool:
        """Whether there is anything to save."""
        return not self.undo_stack.isClean()

    @property
    def title(self) -> str:
        """Name of the file, or what the garden is called without one."""
        return self.path.stem if self.path is not None else self.untitled

    def show_year(self, year: int) -> None:
        """Show another growing year; what is not there in it is no longer selected."""
        if year != self.year:
            plan = self._stable_plan.after(self._stable, year)
            self._work_out_in_slices(plan)
            self.about_to_change_history.emit()
            self.plan = self._stable_plan = plan
            if self.day is not None:
                self.day = usual_day(self.plan)
            self._drop_gone_selection()
            self._place_later(self.plan.plantings, anew=True)
            self.year_changed.emit()
            self.garden_changed.emit()
            self.day_changed.emit()

    def assume(self, assumed: Assumed) -> None:
        """Show everything with another assumption about the recorded years; the garden stays as it is."""
        if assumed != self.plan.assumed:
            self.about_to_change_history.emit()
            self._stable_plan = self._stable_plan.assuming(assumed)
            self._show_plan(self._stable_plan)
            self.assumed_changed.emit()

    def show_day(self, day: dt.date | None) -> None:
        """Show what grows on a day of the growing year, or (None) everything of it."""
        if day is not None:
            day = min(max(day, self.plan.span.first), self.plan.span.last)
        if day != self.day:
            self.day = day
            self.day_changed.emit()

    def show_growing(self, ids: Iterable[str]) -> dt.date | None:
        """Show a day of the growing year on which one of several plantings takes its plot, the nearest one.

        Parameters
        ----------
        ids : iterable of str
            Of plantings; others are passed over.

        Returns
        -------
        date or None
            The day shown now; None where one of them could be seen already, or takes its plot in another year only.
        """
        day, year = self.day, self.plan.span
        spans = [
            self.plan.span_of(self.garden.plantings_by_id[k]) for k in ids if k in self.garden.plantings_by_id
        ]
        if day is None or any(span.holds(day) for span in spans):
            return None
        days = [
            min(max(day, span.first, year.first), span.last, year.last) for span in spans if span.meets(year)
        ]
        if not days:
            return None
        self.show_day(min(days, key=lambda each: abs(each - day)))
        return self.day

    def show_hour(self, hour: float) -> None:
        """Show the shadows of an hour of the day, by the garden's clocks."""
        hour = min(max(hour, 0.0), 23.99)
        if hour != self.hour:
            self.hour = hour
            self.hour_changed.emit()

    @property
    def moment(self) -> dt.datetime:
        """Day and hour shown; of the whole year its high summer."""
        day = self.day if self.day is not None else high_summer(self.garden.site, self.year)
        return dt.datetime.combine(day, dt.time()) + dt.timedelta(hours=self.hour)

    def is_growing_on_day_shown(self, planting: Planting) -> bool:
        """Whether a planting takes its plot on the day shown."""
        return self.day is None or self.plan.span_of(planting).holds(self.day)

    def _show(self, garden: Garden) -> None:
        seen = garden is self.garden
        if garden is not self._stable:
            before = self._stable_plan
            self._stable_plan = before.after(garden)
            if not seen:
                self._place_edited(before)
        self._stable = garden
        if seen:  # the end of a preview: everything shows it already
            self.plan = self._stable_plan
        else:
            self._show_plan(self._stable_plan)

    def _show_plan(self, plan: Plan) -> None:
        note_work()
        self.plan = plan
        self._drop_gone_selection()
        self.garden_changed.emit()

    # -- edits ------------------------------------------------------------------------------

    def edit(self, text: str, change: Callable[[Garden], Garden], merge: str = "") -> bool:
        """Do an edit as one step of the history; False where it is refused or changes nothing.

        An edit that is refused emits :attr:`edit_refused`.

        Parameters
        ----------
        text : str
            Name of the step in the Edit menu.
        change : callable
            The edit, from garden to garden.
        merge : str
            Steps of the same word that follow each other become one; empty for a step of its own.
        """
        try:
            new = change(self._stable)
        except BedwrightError as error:
            self.cancel_preview()
            self.edit_refused.emit(str(error))
            return False
        return self.commit(text, new, merge)

    def commit(self, text: str, new: Garden, merge: str = "", year: int | None = None) -> bool:
        """Make a value the document's, as one step; see :meth:`edit`. False where it is the value already.

        A growing year that is shown with it is left again with it.
        """
        old = self._stable
        if self.only_shown and new != old:
            self.cancel_preview()
            self.edit_refused.emit(self.only_shown)
            return False
        if new is old or new == old:
            self.cancel_preview()
            return False
        years = (self.year, year) if year is not None else None
        self.undo_stack.push(ReplaceGarden(self, text, old, new, merge, years))
        return True

    def preview(self, change: Callable[[Garden], Garden]) -> bool:
        """Show what an edit would give, without a step of history; False where it is refused."""
        try:
            new = change(self._stable)
        except BedwrightError as error:
            self.edit_refused.emit(str(error))
            return False
        if new is not self.garden:
            self._previewing = True
            self._show_plan(self._stable_plan.what_if(new))
            self._previewing = False
        return True

    @property
    def stable(self) -> Garden:
        """The value of the last step, whatever is previewed."""
        return self._stable

    def cancel_preview(self) -> None:
        """End a preview with nothing changed."""
        if self.garden is not self._stable:
            self._show_plan(self._stable_plan)

    # -- selection --------------------------------------------------------------------------

    def select(self, ids: Iterable[str]) -> None:
        """Select beds, structures and plantings by id."""
        new = tuple(dict.fromkeys(ids))
        if new != self.selection:
            self.selection = new
            self.selection_changed.emit()

    def _drop_gone_selection(self) -> None:
        if self.selection:
            self.select(key for key in self.selection if self._is_there(key))

    def _is_there(self, key: str) -> bool:
        """Whether a thing is in the garden in the growing year shown."""
        plan, garden = self.plan, self.garden
        if key == PLOT_EDGE:
            return garden.site.outline is not None
        if key in garden.plantings_by_id:
            return plan.span_of(garden.plantings_by_id[key]).meets(plan.span)
        thing = garden.beds_by_id.get(key) or garden.structures_by_id.get(key)
        return thing is not None and thing.in_use(plan.year)

    @property
    def selected_beds(self) -> tuple[str, ...]:
        """Ids of the selected beds."""
        return tuple(key for key in self.selection if key in self.garden.beds_by_id)

    @property
    def selected_plantings(self) -> tuple[str, ...]:
        """Ids of the selected plantings."""
        return tuple(key for key in self.selection if key in self.garden.plantings_by_id)

    @property
    def selected_things(self) -> tuple[str, ...]:
        """Ids of the selected beds and structures."""
        garden = self.garden
        return tuple(k for k in self.selection if k in garden.beds_by_id or k in garden.structures_by_id)

    def is_locked(self, key: str) -> bool:
        """Whether a bed or structure is locked: no gesture moves, resizes, turns or removes it."""
        thing = self.garden.beds_by_id.get(key) or self.garden.structures_by_id.get(key)
        return thing is not None and thing.locked

    @property
    def movable_things(self) -> tuple[str, ...]:
        """Ids of the selected beds and structures that are not locked."""
        return tuple(key for key in self.selected_things if not self.is_locked(key))


def usual_day(plan: Plan) -> dt.date:
    """The day to show first: that on which most of the ground is planted."""
    return fullest_day(plan)


def _breathe(begun: float) -> float:
    """Let the event loop turn once where a slice of work, begun at a time, is over; when the slice now at work was begun. [s]"""
    if time.perf_counter() - begun < PLACING_TIME:
        return begun
    QCoreApplication.processEvents(QEventLoop.ProcessEventsFlag.ExcludeUserInputEvents)
    return time.perf_counter()
