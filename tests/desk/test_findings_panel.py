"""Findings in the window: listed, shown, fixed, waived, and said before a drop."""

from __future__ import annotations

import pytest
from begun_garden import garden_of_all_stock
from hand import LIMIT
from making import bed, garden, planting, rectangle
from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QPushButton

from planner import resources, storage
from planner.checks import CHECKS, check_all
from planner.desk.model.drop_preview import LIVE
from planner.desk.panels import findings_list, findings_panel
from planner.garden import edits


@pytest.fixture
def sample(open_hand, qtbot):
    window = open_hand(storage.load(resources.sample_folder() / "hollow_lane.bedwright")).window
    window.docks.right.setCurrentWidget(window.docks.findings)
    qtbot.waitUntil(lambda: bool(window.findings.all), timeout=LIMIT)
    return window


def _choose(window, key: str) -> None:
    for item in items(window.docks.findings.list.invisibleRootItem()):
        item.setSelected(item.data(0, Qt.ItemDataRole.UserRole) == key)


def items(item):
    """All lines below a line of the list."""
    for i in range(item.childCount()):
        yield item.child(i)
        yield from items(item.child(i))


def _keys(window) -> set[str]:
    return {finding.key for finding in window.findings.all}


def test_the_list_holds_what_the_checks_say_and_the_tab_their_number(sample):
    wanted = check_all(sample.document.plan)
    assert [f.key for f in sample.findings.all] == [f.key for f in wanted]
    assert sample.docks.right.tabText(1) == f"Findings ({sum(not f.waived for f in wanted)})"


def test_a_chosen_finding_is_shown_with_its_things_rule_and_source(sample):
    finding = next(f for f in sample.findings.all if f.plantings)
    _choose(sample, finding.key)
    assert sample.view.finding.key == finding.key
    assert set(sample.document.selection) == set(finding.plantings)
    assert sample.document.catalogue.source_line(finding.source) in sample.docks.findings.rule.text()
    assert sample.document.day is None or finding.span.holds(sample.document.day)


def test_a_fix_is_one_step_and_the_finding_is_gone(sample, qtbot):
    finding = next(f for f in sample.findings.open if f.severity != "note" and f.fixes)
    _choose(sample, finding.key)
    steps = sample.document.undo_stack.count()
    sample.docks.findings._apply_fix(0)
    assert sample.document.undo_stack.count() == steps + 1
    qtbot.waitUntil(lambda: finding.key not in _keys(sample), timeout=LIMIT)
    sample.document.undo_stack.undo()
    qtbot.waitUntil(lambda: finding.key in _keys(sample), timeout=LIMIT)


def test_waving_aside_needs_a_reason_and_is_taken_back(sample, qtbot):
    finding = sample.findings.open[0]
    _choose(sample, finding.key)
    panel = sample.docks.findings
    before = sample.document.garden
    panel._waive_or_reopen()
    assert sample.document.garden is before
    panel.reason.setText("grafted plants, new soil")
    panel._waive_or_reopen()
    qtbot.waitUntil(lambda: finding.key not in {f.key for f in sample.findings.open}, timeout=LIMIT)
    assert sample.findings.by_key(finding.key).waived == "grafted plants, new soil"
    panel._waive_or_reopen()
    qtbot.waitUntil(lambda: finding.key in {f.key for f in sample.findings.open}, timeout=LIMIT)


def test_findings_are_grouped_by_bed(sample):
    panel = sample.docks.findings
    panel.order.setCurrentIndex(1)
    panel.refresh()
    titles = [panel.list.topLevelItem(i).text(0) for i in range(panel.list.topLevelItemCount())]
    assert "Tunnel west" in titles


def test_an_empty_garden_has_none(hand, qtbot):
    qtbot.waitUntil(lambda: not hand.window.findings._timer.isActive(), timeout=LIMIT)
    assert hand.window.findings.all == ()
    assert hand.window.docks.right.tabText(1) == "Findings"


def test_what_a_drop_would_cause_is_told_before_it(sample, qtbot):
    view = sample.view
    view.place_crop(sample.document.catalogue.crops["tomato"])
    bed = next(b for b in sample.document.plan.beds if b.name == "Tunnel west")
    gesture = view.gesture
    gesture.hold_over(bed, (0.0, 0.0), "whole")
    gesture._resting.stop()
    gesture.work_out_consequences()
    assert any("both take" in line for line in gesture.preview.causes)
    assert set(LIVE) <= set(CHECKS)
    view.cancel_gesture()


def test_light_is_checked_beside_the_window_unless_it_is_left_out(sample, qtbot):
    sample.docks.findings.light.setChecked(False)
    wanted = {f.key for f in check_all(sample.document.plan, light=False)}
    qtbot.waitUntil(lambda: _keys(sample) == wanted, timeout=LIMIT)
    sample.docks.findings.light.setChecked(True)
    wanted = {f.key for f in check_all(sample.document.plan)}
    qtbot.waitUntil(lambda: _keys(sample) == wanted, timeout=LIMIT)


def test_nothing_is_checked_once_the_window_is_closed(hand):
    hand.window.close()
    hand.document.garden_settled.emit()  # the document outlives the window
    hand.document.year_changed.emit()
    assert not [timer for timer in hand.window.findings.findChildren(QTimer) if timer.isActive()]


# -- several at once ------------------------------------------------------------------------------


@pytest.fixture
def carrots(open_hand, qtbot):
    """Carrots in six beds, none of them covered."""
    beds = [bed(f"b{i}", rectangle(center=(0.0, 3.0 * i)), name=f"Bed {i}") for i in range(6)]
    days = {"crop": "carrot", "first": "2026-04-20", "last": "2026-09-20"}
    window = open_hand(garden(*beds, *[planting(f"p{i}", f"b{i}", **days) for i in range(6)])).window
    window.docks.right.setCurrentWidget(window.docks.findings)
    qtbot.waitUntil(lambda: len(window.findings.all) == 6, timeout=LIMIT)
    return window


def _line(window, text: str):
    return next(one for one in items(window.docks.findings.list.invisibleRootItem()) if text in one.text(0))


def _mends(window) -> list[str]:
    layout = window.docks.findings.fixes
    widgets = [layout.itemAt(i).widget() for i in range(layout.count())]
    return [one.accessibleName() for one in widgets if isinstance(one, QPushButton)]


def test_many_of_one_kind_are_one_line_that_opens(carrots):
    line = _line(carrots, "Carrot in 6 beds is never covered against carrot fly")
    assert line.childCount() == 6
    assert line.text(0).splitlines()[1] == "Bed 0, Bed 1, Bed 2, Bed 3, Bed 4 and Bed 5"
    assert not line.isExpanded()
    line.setExpanded(True)
    carrots.docks.findings.refresh()
    assert _line(carrots, "Carrot in 6 beds").isExpanded()


def test_a_line_of_very_many_is_filled_when_it_opens(carrots, monkeypatch):
    monkeypatch.setattr(findings_list, "FILLED_AT_ONCE", 5)
    carrots.docks.findings.refresh()
    line = _line(carrots, "Carrot in 6 beds is never covered against carrot fly")
    assert line.childCount() == 0
    assert line.childIndicatorPolicy() == line.ChildIndicatorPolicy.ShowIndicator
    line.setExpanded(True)
    assert line.childCount() == 6
    line.child(2).setSelected(True)
    chosen = line.child(2).data(0, Qt.ItemDataRole.UserRole)
    assert carrots.view.finding.key == chosen
    carrots.docks.findings.refresh()
    line = _line(carrots, "Carrot in 6 beds")
    assert line.isExpanded()
    assert [one.data(0, Qt.ItemDataRole.UserRole) for one in carrots.docks.findings.list.selectedItems()] == [
        chosen
    ]
    line.setExpanded(False)
    carrots.docks.findings.list.clearSelection()
    carrots.docks.findings.refresh()
    assert _line(carrots, "Carrot in 6 beds").childCount() == 0


def test_a_line_of_seed_names_the_sorts(open_hand, qtbot):
    window = open_hand(garden_of_all_stock()).window
    window.document.show_year(2026)
    window.docks.right.setCurrentWidget(window.docks.findings)
    qtbot.waitUntil(lambda: bool(window.findings.all), timeout=LIMIT)
    line = _line(window, "Of 2 sorts no seed is on hand")
    assert line.text(0).splitlines()[1] == "Carrot 'Long' and spinach"
    line.setExpanded(True)
    window.docks.findings.refresh()
    assert _line(window, "Of 2 sorts no seed").isExpanded()


def test_a_mend_for_all_is_one_step(carrots, qtbot):
    _line(carrots, "Carrot in 6 beds").setSelected(True)
    assert set(carrots.document.selection) == {f"p{i}" for i in range(6)}
    assert _mends(carrots) == ["Cover it with netting: all 6"]
    carrots.findings.changed.emit()
    assert carrots.view.finding.place.area == pytest.approx(6 * 4.8 * 1.2), "all of them are hatched"
    steps = carrots.document.undo_stack.count()
    carrots.docks.findings._apply_group_mend(0)
    assert carrots.document.undo_stack.count() == steps + 1
    qtbot.waitUntil(lambda: carrots.findings.all == (), timeout=LIMIT)
    carrots.document.undo_stack.undo()
    qtbot.waitUntil(lambda: len(carrots.findings.all) == 6, timeout=LIMIT)


def test_a_mend_for_some_leaves_the_others(carrots, qtbot):
    line = _line(carrots, "Carrot in 6 beds")
    line.setExpanded(True)
    for i in (1, 4):
        line.child(i).setSelected(True)
    assert _mends(carrots) == ["Cover it with netting: all 2"]
    carrots.docks.findings._apply_group_mend(0)
    qtbot.waitUntil(lambda: len(carrots.findings.all) == 4, timeout=LIMIT)
    assert _line(carrots, "Carrot in 4 beds").childCount() == 4


def test_mends_of_very_many_are_looked_for_when_asked(carrots, monkeypatch):
    monkeypatch.setattr(findings_panel, "AT_ONCE", 5)
    _line(carrots, "Carrot in 6 beds").setSelected(True)
    (ask,) = _mends(carrots)
    assert ask == "Look for what mends these 6 at once"
    carrots.docks.findings._ask_for_group_mends()
    assert _mends(carrots) == ["Cover it with netting: all 6"]


def test_several_are_accepted_with_one_reason_in_one_step(carrots, qtbot):
    _line(carrots, "Carrot in 6 beds").setSelected(True)
    panel = carrots.docks.findings
    panel.reason.setText("no fly so high up")
    steps = carrots.document.undo_stack.count()
    panel._waive_or_reopen()
    assert carrots.document.undo_stack.count() == steps + 1
    assert {waiver.reason for waiver in carrots.document.garden.waived} == {"no fly so high up"}
    qtbot.waitUntil(lambda: carrots.findings.open == (), timeout=LIMIT)
    assert len(carrots.findings.all) == 6


def test_by_bed_each_finding_stands_by_itself(carrots):
    panel = carrots.docks.findings
    panel.order.setCurrentIndex(1)
    panel.refresh()
    lines = list(items(panel.list.invisibleRootItem()))
    assert len([line for line in lines if "Carrot in Bed" in line.text(0)]) == 6


def _placed(window):
    return next(f for f in window.findings.all if f.plantings and not f.place.is_empty and not f.waived)


def test_hatching_goes_with_a_finding_that_was_mended(sample, qtbot):
    finding = _placed(sample)
    _choose(sample, finding.key)
    assert sample.view.finding.key == finding.key
    sample.document.edit("Leave out", lambda garden: edits.remove(garden, finding.plantings))
    qtbot.waitUntil(lambda: finding.key not in _keys(sample), timeout=LIMIT)
    assert sample.view.finding is None


def test_hatching_stays_with_a_finding_that_stays(sample, qtbot):
    finding = _placed(sample)
    _choose(sample, finding.key)
    sample.document.edit("Name", lambda garden: edits.change_site(garden, name="Other name"))
    with qtbot.waitSignal(sample.findings.changed, timeout=LIMIT):
        pass
    assert sample.view.finding.key == finding.key
    assert sample.view.finding is sample.findings.by_key(finding.key)


def test_hatching_goes_with_a_finding_that_is_waved_aside(sample, qtbot):
    finding = _placed(sample)
    _choose(sample, finding.key)
    sample.document.edit("Wave aside", lambda garden: edits.waive(garden, finding.key, "seen"))
    qtbot.waitUntil(lambda: bool(sample.findings.by_key(finding.key).waived), timeout=LIMIT)
    assert sample.view.finding is None


def test_hatching_goes_with_another_garden_or_year(sample):
    _choose(sample, _placed(sample).key)
    sample.document.show_year(sample.document.year - 1)
    assert sample.view.finding is None


def test_accepted_findings_take_the_grey_of_another_look_at_once(sample):
    accepted = [item for item in items(sample.docks.findings.list.invisibleRootItem()) if "–" in item.text(0)]
    assert accepted
    for look in ("dark", "light"):
        sample.look.choose(look)
        grey = sample.docks.findings.list.palette().placeholderText().color()
        assert {item.foreground(0).color().rgba() for item in accepted} == {grey.rgba()}
