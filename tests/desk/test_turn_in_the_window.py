"""The turn of the year worked by hand in the window, the end of plantings, and wishes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

import pytest
from hand import LEFT, LIMIT, Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QTableView

from planner.crops import load_catalogue
from planner.desk.main_window.end_dialog import EndDialog
from planner.desk.main_window.turn_dialog import TurnDialog
from planner.desk.pages.turn_tables import WHAT_WORDS, WorkModel
from planner.garden import Climate, FrostDates, Garden, Lot, Site
from planner.garden import edits as e
from planner.plan import Plan
from planner.proposal.turn import Answers, turn_year, unfinished_work

D = dt.date
CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
BEDS = [bed(f"b{n}", rectangle(center=(0.0, 3.0 * n)), name=f"Bed {n}") for n in range(1, 5)]
#: Two plantings for the kitchen, garlic that goes over, and lettuce for seed.
SMALL = garden(
    *BEDS,
    planting("p1", "b1", crop="carrot"),
    planting("p2", "b2", crop="pea"),
    planting("p3", "b3", crop="garlic", timing="autumn"),
    planting("p5", "b4", crop="lettuce", purpose="seed", first=D(2026, 4, 10), last=D(2026, 9, 20)),
    site=Site(latitude=54.0, longitude=-2.0),
    climate=CLIMATE,
    stock=(Lot(id="l1", crop="carrot", seeds=5000, packed=2025),),
)


@pytest.fixture
def turning(reopen: Callable[[Garden], Hand], qtbot: Any) -> Any:
    """The window on a garden in 2026, with the dialog of its turn, worked out."""
    opened: list[TurnDialog] = []

    def begin(one: Garden = SMALL) -> tuple[Hand, TurnDialog]:
        hand = reopen(one)
        hand.document.show_year(2026)
        hand.do("turn year")
        dialog = hand.window.findChild(TurnDialog)
        dialog.work.today = lambda: D(2027, 2, 1)
        opened.append(dialog)
        whole(qtbot, dialog)
        return hand, dialog

    yield begin
    for dialog in opened:
        dialog.close()


def whole(qtbot: Any, dialog: TurnDialog) -> None:
    """Wait until the turn is worked out to its end."""
    qtbot.waitUntil(lambda: dialog.go.isEnabled() and dialog._whole, timeout=LIMIT)


def editor(table: QTableView, kind: type) -> Any:
    """The editor of the cell that is open."""
    (found,) = [one for one in table.viewport().findChildren(kind) if one.isVisible()]
    return found


def choose(table: QTableView, row: int, column: int, words: str) -> None:
    index = table.model().index(row, column)
    table.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.NoUpdate)
    table.edit(index)
    box = editor(table, QComboBox)
    box.showPopup()
    box.view().setCurrentIndex(box.model().index(box.findText(words), 0))
    QTest.keyClick(box.view(), Qt.Key.Key_Return)
    QApplication.processEvents()


def type_in(table: QTableView, row: int, column: int, text: str) -> None:
    table.setFocus()
    table.setCurrentIndex(table.model().index(row, column))
    QTest.keyClick(table, Qt.Key.Key_F2)
    line = editor(table, QLineEdit)
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()


def row_of(dialog: TurnDialog, planting: str, kind: str) -> int:
    return next(i for i, t in enumerate(dialog.work.tasks) if (t.planting, t.kind) == (planting, kind))


def click(button: Any) -> None:
    assert button.isEnabled()
    QTest.mouseClick(button, LEFT)


def test_the_dialog_asks_what_the_plan_asks(turning):
    hand, dialog = turning()
    assert dialog.work.tasks == unfinished_work(hand.document.plan)
    lines = [
        dialog.left.lines.topLevelItem(i).child(k).text(0)
        for i in range(dialog.left.lines.topLevelItemCount())
        for k in range(dialog.left.lines.topLevelItem(i).childCount())
    ]
    assert "Garlic in Bed 3" in lines
    assert "Carrot: 1280 seeds for 1 sowing" in lines  # that nobody confirmed: they are asked about
    assert [one.crop for one in dialog.repeat.plantings] == ["carrot", "pea", "garlic", "lettuce"]
    assert [one.crop for one in dialog.wishes.model.records] == ["carrot", "garlic", "lettuce", "pea"]
    assert hand.steps == 0


def test_all_as_planned_turns_the_year_in_one_step(turning, qtbot):
    hand, dialog = turning()
    before, plan = hand.garden, hand.document.plan
    click(dialog.all_planned)
    click(dialog.go)
    qtbot.waitUntil(lambda: not dialog.isVisible(), timeout=LIMIT)
    assert hand.steps == 1
    assert hand.step == "Turn the year: 2027 begins"
    assert hand.document.year == 2027
    done = {(one.planting, one.kind): one.date for one in unfinished_work(plan)}
    assert hand.garden == turn_year(plan, Answers(done=done)).garden
    assert hand.message() == "2027 begins."
    hand.do("undo")
    assert hand.garden is before
    assert hand.document.year == 2026  # of which it was turned
    hand.do("redo")
    assert hand.document.year == 2027


def test_what_is_still_to_come_was_not_done_as_planned(turning):
    _, dialog = turning()
    dialog.work.today = lambda: D(2026, 6, 1)
    click(dialog.all_planned)
    assert dialog.work.done
    assert max(dialog.work.done.values()) <= D(2026, 6, 1)
    left = [task for task in dialog.work.tasks if task.date > D(2026, 6, 1)]
    assert left
    assert dialog.state.text() == f"{len(left)} pieces of work are planned for days after today and stay open"
    dialog.work.answer([len(dialog.work.tasks) - 1], "eaten")
    assert {day for day, _ in dialog.work.ended.values()} == {D(2026, 6, 1)}


def test_work_is_answered_for_by_hand(turning, qtbot):
    hand, dialog = turning()
    table = dialog.work_table
    type_in(table, row_of(dialog, "p1", "sow"), WorkModel.DAY, "2 May")
    # a day typed where nothing was chosen says that it was done on that day
    assert dialog.work.what(row_of(dialog, "p1", "sow")) == "other day"
    choose(table, row_of(dialog, "p2", "sow"), WorkModel.WHAT, "lost: eaten by animals")
    # of the whole planting
    assert dialog.work.what(row_of(dialog, "p2", "clear")) == "eaten"
    type_in(table, row_of(dialog, "p2", "sow"), WorkModel.DAY, "3 July")
    choose(table, row_of(dialog, "p3", "set out"), WorkModel.WHAT, "never begun")
    whole(qtbot, dialog)
    click(dialog.go)
    qtbot.waitUntil(lambda: not dialog.isVisible(), timeout=LIMIT)
    one = hand.garden
    assert one.outcome(one.plantings_by_id["p2"]) == ("eaten", D(2026, 7, 3))
    assert "p3" not in one.plantings_by_id
    assert [(r.planting, r.task, r.day) for r in one.records if r.kind == "done"] == [
        ("p1", "sow", D(2026, 5, 2))
    ]


def test_a_choice_holds_for_all_rows_that_are_selected(turning):
    hand, dialog = turning()
    dialog.work_table.selectAll()
    choose(dialog.work_table, 0, WorkModel.WHAT, "done as planned")
    assert {dialog.work.what(row) for row in range(dialog.work.rowCount())} == {"planned"}
    hand.choose(dialog.what, "not begun")
    assert dialog.work.not_begun == {"p1", "p2", "p3", "p5"}
    click(dialog.all_open)
    assert dialog.answers == Answers()


def test_taking_an_end_back_opens_all_work_of_the_planting(turning):
    _, dialog = turning()
    sown, cleared = row_of(dialog, "p2", "sow"), row_of(dialog, "p2", "clear")
    choose(dialog.work_table, sown, WorkModel.WHAT, "lost: failed")
    choose(dialog.work_table, cleared, WorkModel.WHAT, "done as planned")
    assert (dialog.work.what(sown), dialog.work.what(cleared)) == ("open", "planned")
    assert dialog.work.ended == {}


@pytest.mark.parametrize("what", [key for key in WHAT_WORDS if key != "open"])
def test_every_answer_can_be_given(turning, qtbot, what):
    hand, dialog = turning()
    dialog.work.answer([row_of(dialog, "p1", "sow")], what)
    whole(qtbot, dialog)
    assert "carrot" not in [task.crop for task in dialog._turn.unfinished if task.kind == "sow"]
    assert hand.steps == 0


def test_a_day_of_another_year_or_none_is_refused_in_words(turning):
    _, dialog = turning()
    for text, says in (("3 May 2031", "not in the growing year 2026"), ("soon", "soon")):
        type_in(dialog.work_table, 0, WorkModel.DAY, text)
        assert says in dialog.state.text()
        assert dialog.state.property("warn")
    assert dialog.answers == Answers()


def test_days_in_a_wrong_order_are_said_and_nothing_is_turned(turning, qtbot):
    hand, dialog = turning()
    type_in(dialog.work_table, row_of(dialog, "p1", "clear"), WorkModel.DAY, "1 Feb")
    type_in(dialog.work_table, row_of(dialog, "p1", "sow"), WorkModel.DAY, "2 May")
    qtbot.waitUntil(lambda: bool(dialog.state.property("warn")), timeout=LIMIT)
    click(dialog.go)
    assert dialog.isVisible()
    assert dialog.state.property("warn")
    assert hand.steps == 0


def test_plantings_to_repeat_are_ticked_and_their_ground_is_shown(turning, qtbot):
    hand, dialog = turning()
    dialog.tabs.setCurrentIndex(2)
    dialog.repeat_table.setFocus()
    dialog.repeat_table.setCurrentIndex(dialog.repeat.index(0, 0))
    QTest.keyClick(dialog.repeat_table, Qt.Key.Key_Space)  # with the keys
    assert dialog.repeat.keys() == ("p1",)
    whole(qtbot, dialog)
    expected = turn_year(hand.document.plan, Answers(repeat=("p1",)))
    (found,) = expected.repeated
    bed_name = hand.garden.beds_by_id[found.new.bed].name
    assert dialog.repeat.index(0, dialog.repeat.NEW_BED).data() == bed_name
    assert dialog.repeat.index(3, dialog.repeat.FROM).data() == "10 Apr"
    assert dialog.repeat_why.text().casefold() == found.why.casefold()
    click(dialog.all_repeated)
    assert len(dialog.repeat.keys()) == 4
    click(dialog.none_repeated)
    assert dialog.repeat.keys() == ()
    dialog.repeat_table.selectRow(1)
    click(dialog.chosen_repeated)
    assert dialog.repeat.keys() == ("p2",)
    click(dialog.go)  # at once: it turns as soon as the ground is found
    qtbot.waitUntil(lambda: not dialog.isVisible(), timeout=LIMIT)
    assert [(one.crop, one.year) for one in hand.garden.plantings][4:] == [("pea", 2027)]
    assert hand.steps == 1


def test_what_was_repeated_before_is_shown_as_planned_already(turning, qtbot):
    one = turn_year(Plan(SMALL, 2026, CATALOGUE), Answers(repeat=("p1",))).garden
    hand, dialog = turning(one)
    dialog.repeat.tick([0], on=True)
    whole(qtbot, dialog)
    new = next(p for p in one.plantings if p.repeats == "p1")
    name = one.beds_by_id[new.bed].name
    assert dialog.repeat.index(0, dialog.repeat.NEW_BED).data() == f"planned already, in {name}"
    click(dialog.go)
    qtbot.waitUntil(lambda: not dialog.isVisible(), timeout=LIMIT)
    assert hand.garden.plantings == one.plantings


def test_own_seed_and_wishes_are_edited_before_the_turn(turning, qtbot):
    hand, dialog = turning()
    dialog.tabs.setCurrentIndex(1)
    type_in(dialog.left.seed_table, 0, 1, "31.5")
    type_in(dialog.left.seed_table, 0, 1, "much")
    assert "much" in dialog.state.text()
    whole(qtbot, dialog)
    dialog.tabs.setCurrentIndex(3)
    wishes = dialog.wishes
    type_in(wishes.table, 0, 2, "12")
    choose(wishes.table, 0, 3, "kg")  # the number that is shown stays
    wishes.table.selectRow(1)
    QTest.keyClick(wishes.table, Qt.Key.Key_Delete)
    wishes.crop.setCurrentIndex(wishes.crop.findData("kale"))
    click(wishes.add)
    QTest.keyClick(editor(wishes.table, QLineEdit), Qt.Key.Key_Escape)  # of the amount, which is open
    type_in(wishes.table, 3, 6, "tasted well")
    assert hand.steps == 0
    click(dialog.go)
    qtbot.waitUntil(lambda: not dialog.isVisible(), timeout=LIMIT)
    assert [(w.crop, w.amount, w.unit, w.reason, w.year) for w in hand.garden.wishes] == [
        ("carrot", 12_000.0, "g", "", 2027),
        ("lettuce", hand.garden.wishes[1].amount, "plants", "", 2027),
        ("pea", hand.garden.wishes[2].amount, "plants", "", 2027),
        ("kale", None, "plants", "tasted well", 2027),
    ]
    assert [lot.grams for lot in hand.garden.stock if lot.saved_from == "p5"] == [31.5]
    assert hand.steps == 1


def test_wishes_begin_anew(turning):
    _, dialog = turning()
    dialog.tabs.setCurrentIndex(3)
    dialog.wishes.table.selectAll()
    click(dialog.wishes.remove)
    assert dialog.wishes.model.records == ()
    click(dialog.anew)
    assert [one.crop for one in dialog.wishes.model.records] == ["carrot", "garlic", "lettuce", "pea"]


def test_the_dialog_follows_the_garden_and_keeps_its_answers(turning, qtbot):
    hand, dialog = turning()
    dialog.work.answer([row_of(dialog, "p1", "sow")], "planned")
    dialog.repeat.tick([1], on=True)
    hand.document.edit("Remove", lambda one: e.remove(one, ["p2"]))
    whole(qtbot, dialog)
    assert dialog.work.what(row_of(dialog, "p1", "sow")) == "planned"
    assert "p2" not in {task.planting for task in dialog.work.tasks}
    assert dialog.repeat.keys() == ()
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()
    hand.do("turn year")
    assert dialog.work.what(row_of(dialog, "p1", "sow")) == "planned"
    hand.document.show_year(2027)  # no answer is about another year
    whole(qtbot, dialog)
    assert dialog.answers == Answers()
    assert "2028" in dialog.go.text()


def test_a_garden_that_is_only_shown_is_not_turned(turning):
    hand, dialog = turning()
    hand.document.only_shown = "Another window has this file open."
    click(dialog.go)
    assert dialog.isVisible()
    assert hand.garden is SMALL
    assert hand.document.year == 2026
    assert hand.message() == "Another window has this file open."


def test_a_cell_that_is_typed_into_is_not_overwritten_by_what_is_worked_out(turning, qtbot):
    _, dialog = turning()
    dialog.tabs.setCurrentIndex(1)
    type_in(dialog.left.seed_table, 0, 1, "31.5")
    QTest.keyClick(dialog.left.seed_table, Qt.Key.Key_F2)
    line = editor(dialog.left.seed_table, QLineEdit)
    line.selectAll()
    QTest.keyClicks(line, "4")
    whole(qtbot, dialog)  # with the first amount
    assert line.text() == "4"
    QTest.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()
    assert dialog.seed.grams == {"p5": 4.0}


def test_an_empty_garden_turns_and_says_so(turning):
    hand, dialog = turning(Garden())
    click(dialog.go)
    assert hand.document.year == 2027
    assert hand.message() == "2027 begins; there was nothing to write down."
    assert hand.steps == 0


# -- wishes afterwards ----------------------------------------------------------------------------


def test_wishes_of_this_year_and_the_next_are_edited_on_their_page(reopen):
    one, _ = e.put_wish(SMALL, year=2027, crop="kale", amount=12)
    hand = reopen(one)
    hand.document.show_year(2026)
    page = hand.window.pages.wishes
    hand.window.pages.bring(page)
    assert page.year.value == 2027  # there are none for 2026
    type_in(page.wishes.table, 0, 2, "15")
    assert (hand.garden.wishes[0].amount, hand.steps, hand.step) == (15, 1, "Change a wish")
    type_in(page.wishes.table, 0, 0, "no such thing")
    assert hand.garden.wishes[0].crop == "kale"
    assert "no such thing" in hand.message()
    type_in(page.wishes.table, 0, 0, "leek")
    assert hand.garden.wishes[0].crop == "leek"
    type_in(page.wishes.table, 0, 2, "-3")
    assert hand.garden.wishes[0].amount == 15
    page.year.showPopup()
    page.year.view().setCurrentIndex(page.year.model().index(0, 0))
    QTest.keyClick(page.year.view(), Qt.Key.Key_Return)
    assert page.wishes.model.records == ()
    assert "No wishes for 2026" in page.none.text()
    QTest.keyClicks(page.wishes.crop.lineEdit(), "kale")
    click(page.wishes.add)
    assert hand.garden.wishes[-1].year == 2026
    hand.document.show_year(2027)
    assert [one.crop for one in page.wishes.model.records] == ["leek"]
    hand.window.pages.show_sheet()


def test_wishes_are_in_the_gardens_units(reopen):
    one, _ = e.put_wish(
        SMALL.with_(site=Site(latitude=40.0, longitude=-80.0, units="feet_inches")),
        year=2027,
        crop="kale",
        amount=453.59237,
        unit="g",
    )
    hand = reopen(one)
    hand.document.show_year(2026)
    page = hand.window.pages.wishes
    hand.window.pages.bring(page)
    assert [page.wishes.model.index(0, column).data() for column in (2, 3)] == ["1", "lb"]
    choose(page.wishes.table, 0, 3, "ft of row")
    assert (hand.garden.wishes[0].amount, hand.garden.wishes[0].unit) == (pytest.approx(0.3048), "m")
    hand.window.pages.show_sheet()


# -- the end of plantings -------------------------------------------------------------------------


def finish(hand: Hand, day: str) -> EndDialog:
    """Type the day of the dialog that is open, and accept it."""
    dialog = hand.window.findChild(EndDialog)
    hand.type(dialog.day, day)  # Return in the field accepts, as in any dialog
    return dialog


def closed(hand: Hand) -> None:
    QApplication.sendPostedEvents(None, 52)  # deferred deletion
    QApplication.processEvents()


def test_what_failed_is_sown_anew_and_both_say_so(reopen):
    hand = reopen(SMALL)
    hand.document.show_year(2026)
    form = hand.window.docks.details.planting
    hand.document.select(("p5",))
    click(form.course.anew)
    finish(hand, "15 May")
    closed(hand)
    one = hand.garden
    new = next(p for p in one.plantings if p.replaces == "p5")
    assert one.outcome(one.plantings_by_id["p5"]) == ("resown", D(2026, 5, 15))
    assert (hand.steps, hand.step) == (1, "Sow butterhead lettuce anew")
    assert hand.selected() == {new.id}
    assert form.course.lines.text() == "It was sown or planted anew in place of that of 10 Apr 2026."
    hand.document.select(("p5",))
    assert form.course.lines.text().splitlines() == [
        "It ended on 15 May 2026: sown anew.",
        "It was sown or planted anew on 15 May 2026.",
    ]
    assert not form.course.anew.isVisible()
    hand.do("sow anew")  # it is over
    assert hand.window.findChild(EndDialog) is None
    assert "not ended yet" in hand.message()


def test_plantings_end_together_in_one_step(reopen):
    hand = reopen(SMALL)
    hand.document.show_year(2026)
    hand.document.select(("p1", "p2"))
    assert not hand.window.action("sow anew").isEnabled()
    hand.do("ended")
    dialog = hand.window.findChild(EndDialog)
    hand.choose(dialog.why, "frozen")
    finish(hand, "soon")
    assert dialog.isVisible()  # that is no day
    assert "soon" in dialog.wrong.text()
    finish(hand, "30 May")
    closed(hand)
    assert [(r.planting, r.why, r.day) for r in hand.garden.records] == [
        ("p1", "frozen", D(2026, 5, 30)),
        ("p2", "frozen", D(2026, 5, 30)),
    ]
    assert hand.steps == 1


def test_the_year_page_ends_what_is_selected_in_its_list(reopen):
    hand = reopen(SMALL)
    hand.document.show_year(2026)
    page = hand.window.pages.year
    hand.window.pages.bring(page)
    hand.document.select(())
    assert not page.ended.isEnabled()
    hand.document.select(("p2",))
    click(page.ended)
    finish(hand, "2 June")
    closed(hand)
    assert hand.garden.outcome(hand.garden.plantings_by_id["p2"]) == ("harvested", D(2026, 6, 2))
    hand.window.pages.show_sheet()


def test_where_a_planting_came_from_is_chosen_in_its_form(reopen):
    hand = reopen(SMALL)
    hand.document.show_year(2026)
    hand.document.select(("p1",))
    form = hand.window.docks.details.planting
    hand.choose(form.course.came_from, "self-sown")
    assert hand.garden.plantings_by_id["p1"].came_from == "self-sown"
    hand.choose(form.course.came_from, None)
    assert hand.garden.plantings_by_id["p1"].came_from is None
