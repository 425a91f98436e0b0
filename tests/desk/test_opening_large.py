"""A large garden is seen before all of it is placed; then it is what a garden placed at once is."""

from __future__ import annotations

import pytest
from bench.bench_edit import big_garden
from desk.test_following_edits import drawn, same

from planner.desk.canvas.scene import SheetScene
from planner.desk.forms.garden_form import GardenForm
from planner.desk.model import document as documents
from planner.garden import edits as e


@pytest.fixture
def large(open_hand, monkeypatch: pytest.MonkeyPatch):
    """A window that has just opened a garden that counts as large; few beds are placed in one go."""
    monkeypatch.setattr(documents, "PLACED_AT_ONCE", 10)
    monkeypatch.setattr(documents, "PLACING_TIME", 0.0)
    monkeypatch.setattr(documents, "SHOWN_TOGETHER", 3)
    hand = open_hand(big_garden(2))
    settled: list[int] = []
    hand.document.garden_settled.connect(lambda: settled.append(len(hand.document.unplaced)))
    hand.document.open(big_garden(12))
    hand.settled = settled
    return hand


def place_all(hand, qtbot) -> None:
    qtbot.waitUntil(lambda: not hand.document.unplaced, timeout=10_000)


def is_all_shown(hand) -> None:
    """Hold sheet and sums against those of a garden that is placed at once."""
    hand.window.view.sheet._rested.stop()
    hand.window.view.sheet._follow_beds()
    fresh = SheetScene(hand.document, hand.window.look)
    ours, theirs = drawn(hand.window.view.sheet), drawn(fresh)
    assert ours.keys() == theirs.keys()
    assert [key for key in ours if not same(ours[key], theirs[key])] == []
    form = GardenForm(hand.document)
    form.refresh()
    assert hand.window.docks.details.garden.totals.text() == form.totals.text()
    fresh.deleteLater()


def test_beds_are_seen_at_once_and_their_plants_follow(large, qtbot) -> None:
    sheet, document = large.window.view.sheet, large.document
    assert len(document.unplaced) > 9
    assert sheet.beds.keys() == set(document.garden.beds_by_id)
    assert not any(item.painted for item in sheet.beds.values())
    assert "plants" not in large.window.docks.details.garden.totals.text()
    large.view.grab()
    qtbot.waitUntil(lambda: len(document.unplaced) <= 6, timeout=10_000)
    assert any(item.painted for item in sheet.beds.values())
    assert large.settled == []
    place_all(large, qtbot)
    assert large.settled == [0]
    assert all(item.painted for item in sheet.beds.values())
    is_all_shown(large)


def test_edits_meanwhile_are_shown(large, qtbot) -> None:
    document = large.document
    assert document.edit("Move", lambda g: e.move_things(g, ["b11"], 3.0, 0.0))
    assert document.edit("Remove", lambda g: e.remove(g, ["b12"]))
    assert document.edit("Crop", lambda g: e.change_planting(g, "p5", crop="leek"))
    document.undo_stack.undo()
    document.show_day(None)
    assert large.settled == []
    place_all(large, qtbot)
    assert set(large.settled) == {0}
    is_all_shown(large)


def test_what_an_edit_of_many_beds_moves_is_drawn_as_before_until_it_is_placed(large, qtbot) -> None:
    place_all(large, qtbot)
    document, sheet = large.document, large.window.view.sheet
    before = drawn(sheet)
    ids = [bed.id for bed in document.garden.beds]
    assert document.edit("Turn", lambda g: e.turn_things(g, ids, 30.0))
    assert set(document.unplaced) == set(ids)
    assert all(document.unplaced.values())
    assert drawn(sheet).keys() == before.keys()
    assert all(item.painted for item in sheet.beds.values())
    large.view.grab()
    # What is in another bed now, or gone, is not drawn where it was.
    assert document.edit("Remove", lambda g: e.remove(g, [g.plantings[0].id]))
    place_all(large, qtbot)
    is_all_shown(large)
    document.undo_stack.undo()
    document.undo_stack.undo()
    place_all(large, qtbot)
    is_all_shown(large)


def test_plantings_that_an_edit_of_many_adds_or_removes_are_not_drawn_as_before(large, qtbot) -> None:
    place_all(large, qtbot)
    document = large.document
    ids = [bed.id for bed in document.garden.beds]
    gone = document.garden.plantings[0]

    def change(garden):
        return e.remove(e.turn_things(garden, ids, 30.0), [gone.id])

    assert document.edit("Both", change)
    assert document.unplaced[gone.bed] is False
    assert not large.window.view.sheet.beds[gone.bed].painted
    place_all(large, qtbot)
    is_all_shown(large)


def test_a_second_day_of_a_large_garden_is_drawn_a_few_beds_at_a_time(large, qtbot) -> None:
    place_all(large, qtbot)
    two_days = large.window.pages.two_days
    two_days.show_second(True)
    second = two_days.second
    assert not second.sheet.beds
    qtbot.waitUntil(lambda: not second.document.unplaced, timeout=10_000)
    assert second.sheet.beds.keys() == large.window.view.sheet.beds.keys()
    assert second.sheet.sceneRect().contains(second.sheet.content_rect())
    assert large.document.edit("Move", lambda g: e.move_things(g, ["b1"], 0.5, 0.0))
    qtbot.waitUntil(lambda: not second.document.unplaced, timeout=10_000)
    qtbot.waitUntil(lambda: not large.document.unplaced, timeout=10_000)
    ours, theirs = drawn(second.sheet), drawn(large.window.view.sheet)
    assert [key for key in ours if not same(ours[key], theirs[key])] == []
    two_days.close_second()


def test_a_small_garden_opened_after_it_is_placed_at_once(large) -> None:
    large.document.open(big_garden(2))
    assert not large.document.unplaced
    assert all(item.painted for item in large.window.view.sheet.beds.values())
    assert large.settled == [0]


def test_findings_come_when_all_is_placed(large, qtbot) -> None:
    findings = large.window.findings
    findings._timer.stop()
    findings._check()
    assert findings.run is None or findings.run.plan is not large.document.plan
    place_all(large, qtbot)
    qtbot.waitUntil(
        lambda: findings.run is not None and findings.run.plan is large.document.plan, timeout=20_000
    )
