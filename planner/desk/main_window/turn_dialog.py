"""The turn of the year as a dialog: work to answer for, what the year leaves, plantings to repeat, wishes."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from PySide6.QtCore import QSize
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QPushButton,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.fields import ChoiceField
from planner.desk.main_window.docks import room_on_screen
from planner.desk.main_window.turn_left import LeftPage
from planner.desk.main_window.turn_parts import chosen_rows, turn_page, turn_table
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.own_plan import OwnPlan
from planner.desk.pages.choice_cells import ChoiceCells
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.turn_tables import WHAT_WORDS, RepeatModel, SeedModel, WorkModel
from planner.desk.pages.wish_table import WishTable
from planner.errors import BedwrightError
from planner.garden import Garden, Planting
from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.repeat import repeatable
from planner.proposal.turn import Answers, Turn, turn_steps, unfinished_work, with_wishes
from planner.season.tasks import Task
from planner.words import later, say, say_count

#: Its size at first, and the least: it fits the screen of a notebook at 200 %. [pixels]
_SIZE, _LEAST = (940, 600), (540, 380)
_WORK_WIDTHS, _REPEAT_WIDTHS = (300, 110, 200, 110), (180, 110, 80, 170, 300)
_WORK_HINT = later(
    "Say of each work whether it was done as planned, or type the day on which it was done. An answer holds for all rows that are selected; "
    "that a planting was lost or never begun holds for all its work. Seed is taken off the stock only for what was sown. What you do not "
    "answer is asked again."
)
_REPEAT_HINT = later(
    "Tick what you want to grow again. It stays in its place if rotation, light and its neighbours allow it; otherwise the nearest fit place "
    "is looked for. Nothing is planted twice."
)
_WISH_HINT = later(
    "A first list of what to grow, made from this year: more of what ran out, less of what spoiled. Change it as you like."
)


class _Asked(NamedTuple):
    """What the dialog asks about, of the plan that it was worked out on."""

    plan: Plan
    work: tuple[Task, ...]
    repeatable: tuple[Planting, ...]


def _asked(plan: Plan, own: OwnPlan) -> _Asked:
    tried = own.of(plan)
    return _Asked(plan, unfinished_work(tried), repeatable(tried))


class _Whole(NamedTuple):
    """The turn is worked out to its end."""

    turn: Turn


class _Draft:
    """A garden that is only made ready: its wishes are changed before the year is turned."""

    def __init__(self, show: Callable[[], None], refused: Callable[[str], None]) -> None:
        self.garden = Garden()
        self.changed = False
        self._show, self._refused = show, refused

    def edit(self, _text: str, change: Callable[[Garden], Garden], _merge: str = "") -> bool:
        """Change the garden; no step of the history."""
        try:
            new = change(self.garden)
        except BedwrightError as error:
            self._refused(str(error))
            return False
        if new is self.garden or new == self.garden:
            return False
        self.garden, self.changed = new, True
        self._show()
        return True


class TurnDialog(QDialog):
    """Asks what became of a growing year, and shows what the next one begins with.

    It is not modal: the plan can be looked at and changed meanwhile, and what is shown follows.  All of it is worked out beside
    the window; nothing is in the garden before the year is turned.  Closed, it keeps its answers until another garden or growing
    year is shown.

    Parameters
    ----------
    parent : QWidget
    document : Document
    take : callable
        Puts what a turn writes down into the document; False where that is refused.

    Attributes
    ----------
    work, seed, repeat
        The tables' models.
    wishes : WishTable
    state : QLabel
        How far it is worked out, or what is wrong.

    """

    def __init__(self, parent: QWidget, document: Document, take: Callable[[Turn], bool]) -> None:
        super().__init__(parent)
        self.document, self._take = document, take
        self.jobs = JobQueue(self)
        self._own_plan = OwnPlan()
        self.work, self.seed, self.repeat = WorkModel(), SeedModel(), RepeatModel()
        self._draft = _Draft(self._follow_wishes, self._complain)
        self._plan: Plan | None = None
        self._asked: Plan | None = None
        self._year = document.year
        self._turn: Turn | None = None
        self._whole = self._wanted = False
        self._failed = self._wrong = ""
        self.tabs = QTabWidget()
        self.tabs.setAccessibleName(say("Parts of the turn"))
        self.tabs.addTab(self._make_work(), "")
        self.left = LeftPage(self.seed)
        self.tabs.addTab(self.left, say("What the year leaves"))
        self.tabs.addTab(self._make_repeat(), "")
        self.tabs.addTab(self._make_wishes(), "")
        self.state = wrapped_label()
        self.go, self.later = QPushButton(), QPushButton(say("Close"))
        self.go.clicked.connect(self._accept)
        self.later.clicked.connect(self.reject)
        foot = QHBoxLayout()
        foot.addWidget(self.state, 1)
        foot.addWidget(self.go)
        foot.addWidget(self.later)
        column = QVBoxLayout(self)
        column.addWidget(self.tabs, 1)
        column.addLayout(foot)
        for button in self.findChildren(QPushButton):
            button.setAutoDefault(False)  # the return key belongs to the tables
        for changed in (self.work.changed, self.seed.changed, self.repeat.changed):
            changed.connect(self._work_out)
        for wrong in (self.work.wrong, self.seed.wrong, self.wishes.wrong):
            wrong.connect(self._complain)
        document.garden_settled.connect(self._follow)
        document.year_changed.connect(self._follow)
        document.opened.connect(self._forget)
        self.setMinimumSize(*_LEAST)
        self.resize(QSize(*_SIZE).boundedTo(room_on_screen(parent)))

    # -- making -----------------------------------------------------------------------------

    def _make_work(self) -> QWidget:
        self.work_table = turn_table(self.work, say("Work that is not ticked off"), _WORK_WIDTHS)
        self.work_table.setItemDelegateForColumn(
            WorkModel.WHAT, ChoiceCells(self.work_table, [say(WHAT_WORDS[what]) for what in WHAT_WORDS])
        )
        self.work.chosen_rows = lambda: chosen_rows(self.work_table)
        self.all_planned = QPushButton(say("All as planned"))
        self.all_open = QPushButton(say("Clear all answers"))
        self.all_planned.clicked.connect(lambda: self.work.answer_all("planned"))
        self.all_open.clicked.connect(lambda: self.work.answer_all("open"))
        self.what = ChoiceField(
            say("Answer for the selected rows"),
            [("", say("Answer for selected rows…")), *((what, say(WHAT_WORDS[what])) for what in WHAT_WORDS)],
        )
        self.what.chosen.connect(self._answer_chosen)
        return turn_page(say(_WORK_HINT), (self.all_planned, self.all_open, self.what), self.work_table)

    def _make_repeat(self) -> QWidget:
        self.repeat_table = turn_table(
            self.repeat, say("Plantings to grow again"), _REPEAT_WIDTHS, RepeatModel.WHY
        )
        self.all_repeated, self.none_repeated = QPushButton(say("Tick all")), QPushButton(say("Tick none"))
        self.chosen_repeated = QPushButton(say("Tick only the selected rows"))
        self.all_repeated.clicked.connect(lambda: self._tick_all(on=True))
        self.none_repeated.clicked.connect(lambda: self._tick_all(on=False))
        self.chosen_repeated.clicked.connect(self._tick_chosen)
        buttons = (self.all_repeated, self.none_repeated, self.chosen_repeated)
        self.repeat_why = wrapped_label()
        self.repeat_table.selectionModel().currentChanged.connect(lambda *_: self._show_why())
        return turn_page(say(_REPEAT_HINT), buttons, self.repeat_table, self.repeat_why)

    def _show_why(self) -> None:
        """Show in full why the planting of the current row cannot stand where it stood."""
        index = self.repeat_table.currentIndex()
        why = index.sibling(index.row(), RepeatModel.WHY).data() if index.isValid() else ""
        self.repeat_why.setText(str(why or ""))
        self.repeat_why.setVisible(bool(why))

    def _make_wishes(self) -> QWidget:
        self.wishes = WishTable(self.document, self._draft, lambda: self._year + 1)
        self.anew = QPushButton(say("Make the list anew"))
        self.anew.setToolTip(say("Make the list from this year again; what you changed in it is lost"))
        self.anew.clicked.connect(self._wishes_anew)
        return turn_page(say(_WISH_HINT), (self.anew,), self.wishes)

    # -- showing ----------------------------------------------------------------------------

    def begin(self) -> None:
        """Show the dialog on the garden and growing year that are shown now."""
        self.show()
        self.raise_()
        self.activateWindow()
        self._follow()

    def _follow(self) -> None:
        """Another value or year of the document is shown."""
        if not self.isVisible() or self.document.plan is self._plan:
            return
        if self.document.year != self._year:
            self._forget()
        self._plan, self._year = self.document.plan, self.document.year
        self.setWindowTitle(say("The turn of the year {year}", year=self._year))
        self.go.setText(say("Turn the year: {year} begins", year=self._year + 1))
        self._work_out()

    def _forget(self) -> None:
        """Another garden or year: no answer is about it."""
        self.jobs.cancel()
        self._plan = self._asked = self._turn = None
        self._draft.changed = self._whole = self._wanted = False
        self.work.forget()
        self.seed.grams = {}
        self.repeat.ticked = set()
        if self.isVisible() and self.document.year == self._year:
            self._follow()

    @property
    def answers(self) -> Answers:
        """What is answered now."""
        return Answers(
            not_begun=self.work.not_begun,
            ended=self.work.ended,
            done=self.work.done,
            seed=self.seed.grams,
            repeat=self.repeat.keys(),
        )

    def _work_out(self) -> None:
        """Work the turn out beside the window, with what is answered now.

        Where the garden has changed, what it asks about comes first: answers to what is not asked any more do not count.
        """
        plan = self.document.plan
        self._whole = self._wanted = False
        self._failed = self._wrong = ""
        self.repeat.show_found(())
        self._show_why()
        self._show_state()
        own = self._own_plan
        if self._asked is not plan:
            self.jobs.start(lambda _cancelled: (_asked(plan, own),), self._show_asked)
            return
        answers = self.answers

        def work(cancelled: Cancelled) -> Iterator[Turn | _Whole | str]:
            turn: Turn | None = None
            try:
                for turn in turn_steps(own.of(plan), answers):
                    if cancelled():
                        return
                    yield turn
            except BedwrightError as error:
                yield str(error)
            else:
                if turn is not None:
                    yield _Whole(turn)

        self.jobs.start(work, self._receive)

    def _show_asked(self, asked: _Asked) -> None:
        if asked.plan is self.document.plan:
            self._asked = asked.plan
            self.work.show_work(asked.plan, asked.work)
            self.repeat.show_plantings(asked.plan, asked.repeatable)
            self._work_out()

    def _receive(self, result: Turn | _Whole | str) -> None:
        plan = self._asked
        if plan is None or plan is not self.document.plan:
            return
        if isinstance(result, str):
            self._failed = result
            self._complain(result)
            return
        if isinstance(result, Turn):
            self._turn = result
            self.repeat.show_found(result.repeated)
            self._show_why()
            if not result.repeated:
                self._show_left(plan, result)
        else:
            self._turn, self._whole = result.turn, True
        self._show_state()
        if self._whole and self._wanted:
            self._finish()

    def _show_left(self, plan: Plan, turn: Turn) -> None:
        """Show what the year leaves, whatever is repeated."""
        if not self._draft.changed:
            self._draft.garden = turn.garden
            if self.wishes.model.records != self._wished:  # a cell that is typed into stays as it is
                self.wishes.refresh()
        self.left.show_turn(plan, turn)

    def _show_state(self) -> None:
        """Say how far the turn is worked out, and how much there is in each part."""
        turn, wanted = self._turn, len(self.repeat.ticked)
        self.tabs.setTabText(0, say("Open work ({count})", count=len(self.work.tasks)))
        self.tabs.setTabText(2, say("Grow again ({count})", count=wanted))
        self.tabs.setTabText(3, say("Wishes for {year}", year=self._year + 1))
        self._mark_state(warn=bool(self._wrong))
        if self._wrong:
            self.state.setText(self._wrong)
        elif self._whole and turn is not None:
            homeless = sum(one.new is None for one in turn.repeated)
            lost = (
                say_count(
                    "No fit place was found for {count} planting; it is not grown again.",
                    "No fit place was found for {count} plantings; they are not grown again.",
                    homeless,
                )
                if homeless
                else ""
            )
            few = sum(one.fewer for one in turn.repeated)
            smaller = (
                say_count(
                    "{count} planting has room for part of its plants only.",
                    "{count} plantings have room for part of their plants only.",
                    few,
                )
                if few
                else ""
            )
            self.state.setText(
                " ".join(filter(None, (lost, smaller)))
                or say("Nothing is changed until you turn the year. Undo takes all of it back.")
            )
        elif wanted and turn is not None:
            self.state.setText(
                say("Looking for places: {done} of {all}…", done=min(len(turn.repeated), wanted), all=wanted)
            )
        else:
            self.state.setText(say("Working it out…"))
        self.go.setEnabled(not self._wanted)

    def _mark_state(self, *, warn: bool) -> None:
        if bool(self.state.property("warn")) != warn:
            self.state.setProperty("warn", warn)
            self.state.style().unpolish(self.state)
            self.state.style().polish(self.state)

    def _complain(self, why: str) -> None:
        """Say what is wrong until something else is answered."""
        self._wanted, self._wrong = False, why
        self._show_state()

    # -- what is chosen ---------------------------------------------------------------------

    def _answer_chosen(self, what: object) -> None:
        self.what.show_value("")
        if what:
            self.work.answer(chosen_rows(self.work_table), str(what))

    def _tick_all(self, *, on: bool) -> None:
        self.repeat.tick(range(self.repeat.rowCount()), on=on)

    def _tick_chosen(self) -> None:
        rows = set(chosen_rows(self.repeat_table))
        new = {self.repeat.plantings[row].id for row in rows}
        if new != self.repeat.ticked:
            self.repeat.ticked = new
            self.repeat.changed.emit()

    def _follow_wishes(self) -> None:
        self._wrong = ""
        self.wishes.refresh()
        self._show_state()

    def _wishes_anew(self) -> None:
        self._draft.changed = False
        if self._turn is not None:
            self._draft.garden = self._turn.garden
            self.wishes.refresh()

    @property
    def _wished(self) -> tuple[Wish, ...]:
        return tuple(one for one in self._draft.garden.wishes if one.year == self._year + 1)

    # -- turning ----------------------------------------------------------------------------

    def _accept(self) -> None:
        """Turn the year, as soon as all of it is worked out."""
        if self._failed:
            self._complain(self._failed)
            return
        self._wanted = True
        self.go.setEnabled(False)
        if self._whole:
            self._finish()

    def _finish(self) -> None:
        """Put what the turn writes down into the garden, as one step."""
        self._wanted = False
        self.go.setEnabled(True)
        turn = self._turn
        if turn is None:
            return
        if self._draft.changed:
            turn = with_wishes(turn, self._wished)
        self.hide()  # first: it must not follow what it has done itself
        if not self._take(turn):
            self.begin()
            return
        self._draft.changed = False
        self.repeat.ticked = set()  # they are repeated now
