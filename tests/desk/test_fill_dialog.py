"""What could still go into free ground: asked on the plan, planted by one step, and what is wrong is said."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from hand import LEFT, LIMIT, Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner.crops import load_catalogue
from planner.desk.main_window.fill_dialog import FillDialog
from planner.garden import Climate, FrostDates, Garden, Site
from planner.plan import Plan
from planner.proposal.filling import fillings
from planner.words import capital

D = dt.date
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
SMALL = garden(
    bed("b1", rectangle(3.0, 1.2), name="Full bed"),
    bed("b2", rectangle(3.0, 1.2, center=(0.0, 3.0)), name="Free bed"),
    planting("p1", "b1", crop="rhubarb", year=2025),
    site=Site(latitude=54.0, longitude=-2.0),
    climate=CLIMATE,
)


@pytest.fixture
def filling(reopen: Callable[[Garden], Hand], qtbot: Any) -> Iterator[Callable[..., tuple[Hand, FillDialog]]]:
    opened: list[FillDialog] = []

    def begin(select: str, one: Garden = SMALL) -> tuple[Hand, FillDialog]:
        hand = reopen(one)
        hand.document.show_year(2026)
        hand.document.show_day(D(2026, 5, 20))
        hand.document.select([select])
        hand.view.setFocus()
        QTest.keyClick(hand.view, Qt.Key.Key_F)
        dialog = hand.window.commands.season._filling
        assert dialog is not None
        opened.append(dialog)
        worked_out(qtbot, dialog)
        return hand, dialog

    yield begin
    for dialog in opened:
        dialog.close()


def worked_out(qtbot: Any, dialog: FillDialog) -> None:
    qtbot.waitUntil(lambda: dialog._found is not None, timeout=LIMIT)


def crops(dialog: FillDialog) -> list[str]:
    return [cells[0] for cells in dialog.rows.cells]


def test_the_list_is_that_of_the_plan_and_one_of_it_is_planted(filling, qtbot):
    hand, dialog = filling("b2")
    assert dialog.isVisible()
    assert (dialog.bed.currentText(), dialog.day.text()) == ("Free bed", "20 May 2026")
    plan = Plan(SMALL, 2026, load_catalogue())
    expected = fillings(plan, plan.garden.beds_by_id["b2"], D(2026, 5, 20))
    assert crops(dialog) == [capital(one.crop.name) for one in expected]
    assert len(expected) > 3
    assert dialog.chosen is not None
    first = dialog.chosen.planting
    QTest.mouseClick(dialog.plant, LEFT)
    (new,) = [one for one in hand.garden.plantings if one.id != "p1"]
    assert new == first.with_(id=new.id)
    assert (hand.steps, hand.selected()) == (1, {new.id})
    assert hand.step == f"Plant {dialog.document.catalogue.name_of(new.crop)} in Free bed"
    worked_out(qtbot, dialog)  # the list follows: its ground is taken now
    assert all(one.span.first > new.first or one.length < 3.0 for one in dialog._found.fillings)
    hand.document.undo_stack.undo()
    assert hand.garden is SMALL


def test_another_bed_and_day_are_asked_for_in_the_dialog(filling, qtbot):
    _, dialog = filling("b1")
    assert crops(dialog) == []
    assert "Nothing: no ground is free" in dialog.state.text()
    assert not dialog.plant.isEnabled()
    dialog.bed.show_value("b2")
    dialog.bed.chosen.emit("b2")
    worked_out(qtbot, dialog)
    in_may = crops(dialog)
    dialog.day.setFocus()
    dialog.day.selectAll()
    QTest.keyClicks(dialog.day, "20 Aug")
    QTest.keyClick(dialog.day, Qt.Key.Key_Return)
    worked_out(qtbot, dialog)
    assert dialog._found.day == D(2026, 8, 20)
    assert crops(dialog) != in_may
    dialog.day.setFocus()
    dialog.day.selectAll()
    QTest.keyClicks(dialog.day, "soon")
    QTest.keyClick(dialog.day, Qt.Key.Key_Return)
    assert "soon" in dialog.state.text()
    dialog.day.restore()


def test_without_a_bed_it_says_so(reopen):
    hand = reopen(Garden())
    hand.do("fill ground")
    assert "Draw a bed first" in hand.window.status.message.text()
    assert not any(one.isVisible() for one in hand.window.findChildren(FillDialog))
