"""Tables of the turn of the year: work to answer for, own seed, and plantings to repeat."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from typing import get_args

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.desk.pages.tables import HeadedModel, Index
from planner.desk.theme.plain_tips import plain_tip
from planner.errors import BedwrightError
from planner.garden import Lot, Planting
from planner.garden.planting import Work
from planner.garden.records import EndedWhy
from planner.garden.units import month_first
from planner.listings.turn import crop_and_variety
from planner.plan import Plan
from planner.proposal.repeat import Repeated
from planner.season.tasks import Task
from planner.words import capital, day_words, full_day_words, later, say, say_count, short_number
from planner.words.typed_days import date_as_typed

#: What may have become of work that is not ticked off; the last ones are why a planting ended.
WHAT_WORDS = {
    "open": later("not answered"),
    "planned": later("done as planned"),
    "other day": later("done on another day"),
    "not begun": later("never begun"),
    "failed": later("lost: failed"),
    "eaten": later("lost: eaten by animals"),
    "frozen": later("lost: killed by frost"),
    "bolted": later("lost: ran to seed"),
    "made room": later("cleared to make room"),
}
_Work = tuple[str, Work]


class WorkModel(HeadedModel):
    """Work that is not ticked off, and what became of it; nothing of it is in the garden before the year is turned.

    Signals
    -------
    changed
        Another answer was given.
    wrong : str
        What was typed is not possible; one line says why.
    """

    changed = Signal()
    wrong = Signal(str)
    WORK, WHEN, WHAT, DAY = range(4)

    def __init__(self) -> None:
        super().__init__()
        self.heads = (say("Work"), say("Planned for"), say("Answer"), say("On"))
        self.tasks: tuple[Task, ...] = ()
        self.chosen_rows: Callable[[], Iterable[int]] = lambda: ()
        self.today: Callable[[], dt.date] = dt.date.today
        self._plan: Plan | None = None
        self._what: dict[_Work, tuple[str, dt.date]] = {}

    def show_work(self, plan: Plan, tasks: tuple[Task, ...]) -> None:
        """Show work of a growing year; answers to work that is there still stay."""
        self.beginResetModel()
        self._plan, self.tasks = plan, tasks
        there = {_key(task) for task in tasks}
        self._what = {key: answer for key, answer in self._what.items() if key in there}
        self.endResetModel()

    def forget(self) -> None:
        """Forget all answers."""
        self._what = {}

    def what(self, row: int) -> str:
        """The answer of a row: a key of :data:`WHAT_WORDS`."""
        return self._what.get(_key(self.tasks[row]), ("open", None))[0]

    # -- answers ----------------------------------------------------------------------------

    def answer(self, rows: Iterable[int], what: str) -> None:
        """Give the same answer for several rows; what is still to come was not done as planned, and stays open."""
        to_come, today = 0, self.today()
        for row in rows:
            task = self.tasks[row]
            if what in ("open", "planned", "other day"):
                self._take_back_end(task.planting)
                self._what.pop(_key(task), None)
                if what == "planned" and task.date > today:
                    to_come += 1
                elif what != "open":
                    self._what[_key(task)] = what, self._that_has_been(task.date)
            else:  # of the whole planting
                of_it = [one for one in self.tasks if one.planting == task.planting]
                for one in of_it:
                    self._what[_key(one)] = what, self._that_has_been(of_it[-1].date)
        self._show_changed()
        if to_come:
            self.wrong.emit(
                say_count(
                    "{count} piece of work is planned for a day after today and stays open",
                    "{count} pieces of work are planned for days after today and stay open",
                    to_come,
                )
            )

    def _that_has_been(self, day: dt.date) -> dt.date:
        """A day, or today where it is still to come in a growing year that has begun."""
        today = self.today()
        return today if self._plan is not None and self._plan.span.first <= today < day else day

    def answer_all(self, what: str) -> None:
        """Give the same answer for all work that has none yet; where it is none, take all back."""
        if what == "open":
            self._what = {}
            self._show_changed()
        else:
            self.answer([row for row in range(len(self.tasks)) if self.what(row) == "open"], what)

    def _take_back_end(self, planting: str) -> None:
        for key, (what, _) in list(self._what.items()):
            if key[0] == planting and what not in ("planned", "other day"):
                del self._what[key]

    def _set_day(self, row: int, day: dt.date) -> None:
        task, what = self.tasks[row], self.what(row)
        if what == "not begun":
            return
        if what in ("open", "planned", "other day"):
            self._what[_key(task)] = ("planned" if day == task.date else "other day"), day
        else:
            for one in self.tasks:
                if one.planting == task.planting:
                    self._what[_key(one)] = what, day
        self._show_changed()

    def _show_changed(self) -> None:
        if self.tasks:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.tasks) - 1, self.DAY))
        self.changed.emit()

    @property
    def not_begun(self) -> frozenset[str]:
        """Ids of plantings that were never begun."""
        return frozenset(key[0] for key, (what, _) in self._what.items() if what == "not begun")

    @property
    def ended(self) -> dict[str, tuple[dt.date, EndedWhy]]:
        """How plantings ended, by id."""
        return {
            key[0]: (day, why)
            for key, (what, day) in self._what.items()
            for why in get_args(EndedWhy)
            if why == what
        }

    @property
    def done(self) -> dict[_Work, dt.date]:
        """Work that was done, and when; in the order of its planned days."""
        return {
            key: self._what[key][1]
            for key in map(_key, self.tasks)
            if self._what.get(key, ("", None))[0] in ("planned", "other day")
        }

    # -- the table --------------------------------------------------------------------------

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.tasks)

    @override
    def is_editable(self, column: int) -> bool:
        return column in (self.WHAT, self.DAY)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.tasks):
            return None
        task, column = self.tasks[index.row()], index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            what, day = self._what.get(_key(task), ("open", task.date))
            if column == self.WORK:
                return task.text.removesuffix(".")
            if column == self.WHEN:
                return day_words(task.date)
            if column == self.WHAT:
                return say(WHAT_WORDS[what])
            return "" if what in ("open", "not begun") else day_words(day)
        return plain_tip(str(self.data(index))) if role == Qt.ItemDataRole.ToolTipRole else None

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or index.row() >= len(self.tasks) or self._plan is None:
            return False
        text = str(value).strip()
        if index.column() == self.WHAT:
            what = next((key for key in WHAT_WORDS if say(WHAT_WORDS[key]) == text), None)
            if what is None or what == self.what(index.row()):
                return False
            rows = list(self.chosen_rows())
            self.answer(rows if index.row() in rows else [index.row()], what)
            return True
        if not text or text == self.data(index):
            return False
        try:
            day = date_as_typed(
                text, self._plan.span.first, month_first=month_first(self._plan.garden.site.units)
            )
            if not self._plan.span.holds(day):
                raise BedwrightError(
                    say(
                        "{day} is not in the growing year {year}",
                        day=full_day_words(day),
                        year=self._plan.year,
                    ),
                    fix=say("Type a day of that year; what was done later is ticked off in the next one"),
                )
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return False
        self._set_day(index.row(), day)
        return True


class SeedModel(HeadedModel):
    """Own seed that the year brought, and how much of it there is.

    Signals
    -------
    changed
        Another amount was typed.
    wrong : str
        What was typed is not possible; one line says why.
    """

    changed = Signal()
    wrong = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.heads = (say("Own seed"), say("Grams"))
        self.lots: tuple[Lot, ...] = ()
        self.grams: dict[str, float] = {}
        self._plan: Plan | None = None

    def show_seed(self, plan: Plan, lots: tuple[Lot, ...]) -> None:
        """Show packets of own seed; where they are those that are shown, a cell that is typed into stays as it is."""
        if self._plan is plan and self._shown(lots) == self._shown(self.lots):
            self.lots = lots
            return
        self.beginResetModel()
        self._plan, self.lots = plan, lots
        self.endResetModel()

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.lots)

    @override
    def is_editable(self, column: int) -> bool:
        return column == 1

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.lots) or self._plan is None:
            return None
        lot = self.lots[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            if index.column() == 0:
                return capital(crop_and_variety(self._plan, lot.crop, lot.variety))
            return self._grams(lot)
        if role == Qt.ItemDataRole.TextAlignmentRole and index.column() == 1:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or index.row() >= len(self.lots):
            return False
        text, key = str(value).strip(), self.lots[index.row()].saved_from
        if key is None or text == self.data(index):
            return False
        if not text:
            self.grams.pop(key, None)
        else:
            try:
                grams = float(text.replace(",", "."))
            except ValueError:
                grams = -1.0
            if not 0 < grams < 1e6:  # also refuses what is no number at all
                self.wrong.emit(say("'{text}' is no weight of seed. Type grams, like 12.5", text=text))
                return False
            self.grams[key] = grams
        self.dataChanged.emit(index, index)
        self.changed.emit()
        return True

    def _grams(self, lot: Lot) -> str:
        """The amount typed, which holds at once; else the one that is recorded."""
        grams = self.grams.get(lot.saved_from or "", lot.grams)
        return "" if grams is None else short_number(grams)

    def _shown(self, lots: tuple[Lot, ...]) -> list[tuple[str | None, str]]:
        return [(one.saved_from, self._grams(one)) for one in lots]


class RepeatModel(HeadedModel):
    """Plantings that may be repeated, with a tick each, and where they would stand.

    Signals
    -------
    changed
        Others are to be repeated.
    """

    changed = Signal()
    #: The columns.
    NAME, BED, FROM, NEW_BED, WHY = range(5)

    def __init__(self) -> None:
        super().__init__()
        self.heads = (
            say("Grow again"),
            say("Stood in"),
            say("From"),
            say("New place"),
            say("Why"),
        )
        self.plantings: tuple[Planting, ...] = ()
        self.ticked: set[str] = set()
        self._found: dict[str, Repeated] = {}
        self._plan: Plan | None = None

    def show_plantings(self, plan: Plan, plantings: tuple[Planting, ...]) -> None:
        """Show plantings of a growing year; ticks of those that are there still stay."""
        self.beginResetModel()
        self._plan, self.plantings = plan, plantings
        self.ticked &= {one.id for one in plantings}
        self._found = {}
        self.endResetModel()

    def show_found(self, repeated: Iterable[Repeated]) -> None:
        """Show where some would stand; of the others that is not known."""
        self._found = {one.old.id: one for one in repeated}
        self._redraw()

    def tick(self, rows: Iterable[int], *, on: bool) -> None:
        """Repeat plantings, or do not."""
        keys = {self.plantings[row].id for row in rows}
        new = self.ticked | keys if on else self.ticked - keys
        if new != self.ticked:
            self.ticked = new
            self._redraw()
            self.changed.emit()

    def keys(self) -> tuple[str, ...]:
        """Ids of the plantings to repeat, in the order of the table."""
        return tuple(one.id for one in self.plantings if one.id in self.ticked)

    def _redraw(self) -> None:
        if self.plantings:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.plantings) - 1, self.WHY))

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.plantings)

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        return flags | Qt.ItemFlag.ItemIsUserCheckable if index.isValid() and index.column() == 0 else flags

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.plantings) or self._plan is None:
            return None
        planting = self.plantings[index.row()]
        if role == Qt.ItemDataRole.CheckStateRole and index.column() == 0:
            return Qt.CheckState.Checked if planting.id in self.ticked else Qt.CheckState.Unchecked
        if role == Qt.ItemDataRole.DisplayRole:
            return self._words(planting, index.column())
        return (
            plain_tip(self._words(planting, index.column())) if role == Qt.ItemDataRole.ToolTipRole else None
        )

    def _words(self, planting: Planting, column: int) -> str:
        assert self._plan is not None
        beds = self._plan.garden.beds_by_id
        if column == self.NAME:
            return capital(crop_and_variety(self._plan, planting.crop, planting.variety))
        if column == self.BED:
            return beds[planting.bed].name
        if column == self.FROM:
            return day_words(self._plan.span_of(planting).first)
        if planting.id not in self.ticked:
            return ""
        found = self._found.get(planting.id)
        if found is None:
            return say("looking for a place…") if column == self.NEW_BED else ""
        if column == self.WHY:
            if found.accepted:
                return say("Accepted before: {why}", why=found.accepted)
            if found.best:
                return say("{why}. {best}", why=capital(found.why), best=capital(found.best))
            return capital(found.why)
        if found.new is None:
            return say("no place found")
        bed = beds[found.new.bed].name
        if found.already:
            return say("planned already, in {bed}", bed=bed)
        if not found.moved:
            return say("the same place")
        if found.fewer:
            return say("{bed}, {plants} of {all} plants", bed=bed, plants=found.plants, all=found.of)
        return say("{bed}, elsewhere in it", bed=bed) if found.new.bed == planting.bed else bed

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.CheckStateRole or index.column() != 0:
            return False
        self.tick([index.row()], on=Qt.CheckState(value) == Qt.CheckState.Checked)
        return True


def _key(task: Task) -> _Work:
    return task.planting, task.kind
