"""The year in the window: ribbon, board, work to tick off, climate, series."""

from __future__ import annotations

import datetime as dt
import random
from pathlib import Path

import pytest
from bench.bench_edit import big_garden
from effort import tries
from hand import LIMIT, stand
from making import bed, garden, planting
from PySide6.QtCore import QDate, QPoint, Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QCalendarWidget, QDialogButtonBox, QTreeWidgetItem
from random_edits import EDITS, random_edit

from planner import resources, storage
from planner.amounts.tasks import tasks
from planner.desk.forms.weather_dialog import WeatherDialog
from planner.desk.main_window.series_dialog import SeriesDialog
from planner.desk.pages.year_chart import fitting_name
from planner.desk.pages.year_page import _Work
from planner.garden import Climate, FrostDates, edits
from planner.plan import Plan
from planner.season.lanes import lanes_of
from planner.season.tasks import Task, monday
from planner.words import day_words

pytestmark = pytest.mark.one_window

LEFT = Qt.MouseButton.LeftButton
DAY = dt.timedelta(days=1)


@pytest.fixture
def sample(open_hand):
    return open_hand(storage.load(resources.sample_folder() / "hollow_lane.bedwright")).window


def _planting(window, crop: str, where=lambda _p: True):
    return next(p for p in window.document.plan.plantings if p.crop == crop and where(p))


def _bar(window, planting) -> tuple[int, int, int]:
    """Left end, right end and middle height of a planting's bar on the ribbon. [pixels]"""
    ribbon = window.ribbon
    window.document.select((planting.id,))
    index = next(i for i, line in enumerate(ribbon._lines) if line.planting.id == planting.id)
    span = window.document.plan.span_of(planting)
    from planner.desk.panels.ribbon_drawing import HEAD, ROW

    y = HEAD + index * ROW - ribbon._top + ROW // 2
    return round(ribbon.x_of(span.first)), round(ribbon.x_of(span.last + DAY)), y


def _drag(qtbot, ribbon, x0: int, x1: int, y: int) -> None:
    qtbot.mousePress(ribbon, LEFT, pos=QPoint(x0, y))
    qtbot.mouseMove(ribbon, QPoint((x0 + x1) // 2, y))
    qtbot.mouseMove(ribbon, QPoint(x1, y))
    qtbot.mouseRelease(ribbon, LEFT, pos=QPoint(x1, y))


def test_a_dragged_bar_moves_in_the_year_as_one_step(sample, qtbot):
    document = sample.document
    carrot = _planting(sample, "carrot")
    before = document.plan.span_of(carrot)
    left, right, y = _bar(sample, carrot)
    steps = document.undo_stack.count()
    _drag(qtbot, sample.ribbon, (left + right) // 2, (left + right) // 2 + 40, y)
    moved = document.garden.plantings_by_id[carrot.id]
    assert moved.first is not None
    assert moved.first > before.first
    assert document.undo_stack.count() == steps + 1
    document.undo_stack.undo()
    assert document.garden.plantings_by_id[carrot.id] == carrot


def test_a_dragged_end_pins_the_last_day(sample, qtbot):
    document = sample.document
    pea = _planting(sample, "pea")
    assert document.plan.span_of(pea).last < document.plan.span.last, "its end is to be seen"
    _left, right, y = _bar(sample, pea)
    _drag(qtbot, sample.ribbon, right - 1, right + 30, y)
    assert document.garden.plantings_by_id[pea.id].last > document.plan.span_of(pea).first
    assert document.garden.plantings_by_id[pea.id].first == pea.first


def test_escape_puts_a_dragged_bar_back(sample, qtbot):
    document = sample.document
    carrot = _planting(sample, "carrot")
    left, right, y = _bar(sample, carrot)
    middle = (left + right) // 2
    qtbot.mousePress(sample.ribbon, LEFT, pos=QPoint(middle, y))
    qtbot.mouseMove(sample.ribbon, QPoint(middle + 20, y))
    qtbot.mouseMove(sample.ribbon, QPoint(middle + 40, y))
    assert document.garden.plantings_by_id[carrot.id].first is not None
    qtbot.keyClick(sample.ribbon, Qt.Key.Key_Escape)
    qtbot.mouseRelease(sample.ribbon, LEFT, pos=QPoint(middle + 40, y))
    assert document.garden.plantings_by_id[carrot.id] == carrot


def test_a_planting_is_small_when_young_and_full_when_grown(sample, qtbot):
    document = sample.document
    carrot = _planting(sample, "carrot")
    span = document.plan.span_of(carrot)

    def canopy(day: dt.date) -> float | None:
        document.show_day(day)
        stands = [s for item in sample.view.sheet.beds.values() for s in item.painted]
        return next((s.canopy for s in stands if s.planting.id == carrot.id), None)

    young, grown = canopy(span.first + 30 * DAY), canopy(span.last)
    document.show_day(span.first + 30 * DAY)
    qtbot.waitUntil(lambda: not sample.view.sheet._rested.isActive(), timeout=LIMIT)
    exact = next(
        s for item in sample.view.sheet.beds.values() for s in item.painted if s.planting.id == carrot.id
    )
    size = document.plan.size(carrot, span.first + 30 * DAY)
    assert exact.canopy == pytest.approx(max(size.spread * 100, 1.2), abs=1.6)
    assert young is not None
    assert grown is not None
    assert young < grown
    assert canopy(span.first - DAY) is None


def test_work_of_the_week_is_what_the_plan_says_and_is_ticked_with_its_day(sample, qtbot):
    document = sample.document
    sample.pages.setCurrentWidget(sample.pages.year)
    page = sample.pages.year
    wanted = tasks(document.plan, page.monday, page.monday + 6 * DAY)
    assert [t.key for t in page.shown] == [t.key for t in wanted]
    item = next(
        child
        for head in (page.list.topLevelItem(i) for i in range(page.list.topLevelItemCount()))
        for child in (head.child(j) for j in range(head.childCount()))
        if isinstance(child.data(0, Qt.ItemDataRole.UserRole), Task)
    )
    task = item.data(0, Qt.ItemDataRole.UserRole)
    day = page.done.day
    item.setCheckState(0, Qt.CheckState.Checked)
    qtbot.waitUntil(lambda: any(d.planting == task.planting for d in document.garden.records), timeout=LIMIT)
    (done,) = [
        d
        for d in document.garden.records
        if d.kind == "done" and (d.planting, d.task) == (task.planting, task.kind)
    ]
    assert done.day == day
    document.undo_stack.undo()
    assert not [
        d
        for d in document.garden.records
        if d.kind == "done" and (d.planting, d.task) == (task.planting, task.kind)
    ]


def test_a_picking_of_the_week_shows_in_the_work_that_goes_on(open_hand, qtbot):
    frosts = Climate(last_frost=FrostDates(risk_50="05-01"), first_frost=FrostDates(risk_50="10-16"))
    made = garden(
        bed("b1"), planting(crop="courgette", start="raised"), site={"latitude": 52.0}, climate=frosts
    )
    hand = open_hand(made)
    document, pages = hand.document, hand.window.pages
    dates = document.plan.dates(made.plantings[0])
    day = dates.first_harvest.day + 10 * DAY
    document.show_day(day)
    pages.bring(pages.year)
    page = pages.year

    def line() -> QTreeWidgetItem:
        heads = (page.list.topLevelItem(n) for n in range(page.list.topLevelItemCount()))
        found = [head.child(n) for head in heads for n in range(head.childCount())]
        return next(item for item in found if item.data(0, Qt.ItemDataRole.UserRole).kind == "pick")

    assert line().checkState(0) == Qt.CheckState.Unchecked
    fields = {"kind": "picked", "planting": "p1", "day": day, "amount": {"value": 900.0, "unit": "g"}}
    document.edit("Pick", lambda now: edits.add_records(now, [fields])[0])
    qtbot.waitUntil(lambda: line().checkState(0) == Qt.CheckState.PartiallyChecked, timeout=LIMIT)
    assert f"picked on {day_words(day)}" in line().text(0)
    document.show_day(day + 7 * DAY)
    assert line().checkState(0) == Qt.CheckState.Unchecked
    document.undo_stack.undo()


def test_what_was_done_before_has_half_a_mark_and_may_still_get_its_day(sample, qtbot):
    document, page = sample.document, sample.pages.year
    sample.pages.setCurrentWidget(page)
    raised = next(
        task
        for task in tasks(document.plan)
        if task.kind == "set out" and document.plan.dates(document.garden.plantings_by_id[task.planting]).sow
    )
    document.edit("Tick", lambda g: edits.tick(g, raised.planting, "set out", raised.date))
    sown = next(
        task for task in tasks(document.plan) if (task.planting, task.kind) == (raised.planting, "sow")
    )
    document.show_day(sown.date)
    page._fill()
    heads = [page.list.topLevelItem(i) for i in range(page.list.topLevelItemCount())]
    items = [head.child(j) for head in heads for j in range(head.childCount())]
    (item,) = [one for one in items if one.data(0, Qt.ItemDataRole.UserRole) == sown]
    assert item.checkState(0) == Qt.CheckState.PartiallyChecked
    assert ", done before: Sow" in item.text(0)
    before = len(document.garden.records)
    item.setCheckState(0, Qt.CheckState.Checked)
    qtbot.waitUntil(lambda: len(document.garden.records) == before + 1, timeout=LIMIT)
    assert document.garden.records[-1].task == "sow"


def test_a_tick_that_is_taken_back_leaves_those_of_other_years(sample, qtbot):
    document, page = sample.document, sample.pages.year
    sample.pages.setCurrentWidget(page)
    yearly = next(
        task
        for task in tasks(document.plan)
        if task.kind == "pick"
        and document.plan.dates(document.garden.plantings_by_id[task.planting]).stays_for_years
    )
    last_year = yearly.date.replace(year=yearly.date.year - 1)
    document.edit("Tick", lambda g: edits.tick(g, yearly.planting, "pick", last_year))
    document.edit("Tick", lambda g: edits.tick(g, yearly.planting, "pick", yearly.date))
    document.show_day(yearly.date)
    page._fill()
    heads = [page.list.topLevelItem(i) for i in range(page.list.topLevelItemCount())]
    items = [head.child(j) for head in heads for j in range(head.childCount())]
    (item,) = [
        one
        for one in items
        if (task := one.data(0, Qt.ItemDataRole.UserRole)).planting == yearly.planting and task.kind == "pick"
    ]
    assert item.checkState(0) == Qt.CheckState.Checked
    item.setCheckState(0, Qt.CheckState.Unchecked)
    qtbot.waitUntil(
        lambda: len(document.garden.done(document.garden.plantings_by_id[yearly.planting])) == 1,
        timeout=LIMIT,
    )
    (left,) = document.garden.done(document.garden.plantings_by_id[yearly.planting])
    assert left.date == last_year


def test_the_week_goes_with_the_day(sample):
    sample.pages.setCurrentWidget(sample.pages.year)
    monday = sample.pages.year.monday
    sample.pages.year._step(7)
    assert sample.pages.year.monday == monday + 7 * DAY


def test_work_is_filtered_by_bed_and_by_kind(sample):
    sample.pages.setCurrentWidget(sample.pages.year)
    page = sample.pages.year
    page.bed.setCurrentIndex(1)
    page._fill()
    assert page.shown
    assert {t.bed_name for t in page.shown} == {page.bed.currentText()}


@pytest.mark.parametrize(
    ("spans", "lanes"),
    [
        ([], []),
        ([(1, 3), (4, 6)], [0, 0]),
        ([(1, 4), (4, 6)], [0, 1]),
        ([(5, 9), (1, 4), (2, 6)], [0, 0, 1]),
    ],
)
def test_plantings_of_the_same_days_have_lanes_of_their_own(spans, lanes):
    days = [(dt.date(2026, 1, a), dt.date(2026, 1, b)) for a, b in spans]
    assert lanes_of(days) == lanes


def test_a_later_frost_moves_what_is_set_by_it(sample):
    document = sample.document
    sample.docks.details.show_climate(True)
    carrot = _planting(sample, "carrot")
    before = document.plan.span_of(carrot).first
    form = sample.docks.details.climate
    for risk, day in ((10, "10 Jun"), (50, "1 Jun"), (90, "20 May")):
        field = form.days["last_frost", risk]
        field.setText(day)
        field.setModified(True)
        field.editingFinished.emit()
    assert document.garden.climate.last_frost.risk_50 == "06-01"
    assert document.plan.span_of(carrot).first > before


def test_frost_dates_in_the_wrong_order_are_told(sample):
    told: list[str] = []
    sample.document.edit_refused.connect(told.append)
    before = sample.document.garden
    form = sample.docks.details.climate
    form._set_frost_day("last_frost", 90, "06-20")
    assert sample.document.garden is before
    assert len(told) == 1
    assert told[0].startswith("The last frost at 90 % risk, 20 Jun, comes after")


def test_rubbish_as_a_weather_table_is_told_and_changes_nothing(sample, tmp_path: Path):
    file = tmp_path / "weather.csv"
    file.write_bytes(b"\x00\x01 nothing of the kind")
    before = sample.document.garden
    dialog = WeatherDialog(sample, sample.document, [file])
    assert "is no table of text" in dialog.report.toPlainText()
    assert "\n" not in dialog.report.toPlainText()
    assert not dialog.buttons.button(QDialogButtonBox.StandardButton.Ok).isEnabled()
    dialog._accept()
    assert sample.document.garden is before


def test_no_tick_is_given_while_its_day_cannot_be_read(sample, qtbot):
    page, document = sample.pages.year, sample.document
    sample.pages.setCurrentWidget(page)
    qtbot.waitUntil(lambda: bool(page.shown), timeout=LIMIT)
    page.done.setText("soon")
    page.done.setModified(True)
    page.done.editingFinished.emit()
    assert page.why.text().startswith("Done on: 'soon' is no day.")
    heads = [page.list.topLevelItem(i) for i in range(page.list.topLevelItemCount())]
    items = [head.child(j) for head in heads for j in range(head.childCount())]
    item = next(i for i in items if isinstance(i.data(0, Qt.ItemDataRole.UserRole), Task))
    before = document.garden
    item.setCheckState(0, Qt.CheckState.Checked)
    qtbot.wait(50)
    assert document.garden is before
    assert page.done.text() == "soon"


def test_days_of_a_series_are_typed_or_chosen(sample, qtbot):
    plan = sample.document.plan
    dialog = SeriesDialog(sample, "radish", plan, plan.span.first, plan.span.last)
    dialog.show()
    dialog.until.setText("25.9.")
    dialog.until.editingFinished.emit()
    assert dialog.until.day == dt.date(plan.year, 9, 25)
    dialog.until.setText("soon")
    dialog.until.editingFinished.emit()
    dialog._accept()
    assert dialog.isVisible()  # what was typed stays, with the reason
    assert (dialog.until.text(), dialog.until.is_wrong) == ("soon", True)
    assert dialog.wrong.text().startswith("Last start: 'soon' is no day.")
    dialog.until.calendar.trigger()
    (calendar,) = dialog.until.findChildren(QCalendarWidget)
    calendar.clicked.emit(QDate(plan.year, 8, 3))
    assert (dialog.until.day, dialog.until.is_wrong) == (dt.date(plan.year, 8, 3), False)
    assert dialog.wrong.text() == ""
    dialog._accept()
    assert not dialog.isVisible()
    dialog.deleteLater()


def test_a_series_is_made_as_one_step_and_says_what_was_left_out(sample):
    document = sample.document
    radish = _planting(sample, "radish")
    plan = document.plan
    dialog = SeriesDialog(sample, "radish", plan, plan.span.first, plan.span.last)
    dialog.days.setValue(20)
    steps = document.undo_stack.count()
    plantings = len(document.garden.plantings)
    sample.commands.draw.add_series(dialog, radish.id)
    dialog.deleteLater()
    assert document.undo_stack.count() == steps + 1
    assert len(document.garden.plantings) >= plantings
    assert sample.status.message.text()
    members = [p for p in document.garden.plantings if p.series and p.crop == "radish"]
    for member in members:
        assert document.plan.dates(member).ripens
    document.undo_stack.undo()
    assert len(document.garden.plantings) == plantings


def test_the_day_of_ticks_stays_as_it_was_chosen(sample, qtbot):
    page, document = sample.pages.year, sample.document
    sample.pages.setCurrentWidget(page)
    document.show_day(dt.date(document.year, 5, 13))
    assert page.done.day == dt.date(document.year, 5, 13)  # proposed
    page.done.setText("9 May")
    page.done.editingFinished.emit()
    chosen = dt.date(document.year, 5, 9)
    page._tick(page.shown[0], True, chosen)
    assert page.done.day == chosen
    document.show_day(dt.date(document.year, 5, 20))
    assert page.done.day == chosen
    document.show_year(document.year - 1)
    assert page.done.day != chosen


def test_bars_of_one_crop_show_their_varieties(sample, monkeypatch):
    from planner.desk.pages import year_chart

    document, bed = sample.document, sample.document.garden.beds[0].id
    names = ("Marvel", "Winter Density", "Lobjoits")

    def sow(garden):
        for name in names:
            garden, _ = edits.add_planting(garden, bed, "lettuce", document.year, variety=name)
        return garden

    document.edit("Sow", sow)
    document.select([bed])
    shown = {line.crop for line in sample.ribbon._lines if line.planting.crop == "lettuce"}
    assert {f"butterhead lettuce ‘{name}’" for name in names} <= shown
    line = next(line for line in sample.ribbon._lines if line.planting.variety == "Winter Density")
    assert "Butterhead lettuce ‘Winter Density’" in sample.ribbon._tip(line.planting)
    told: list[str] = []
    real = year_chart.with_variety
    monkeypatch.setattr(year_chart, "with_variety", lambda *names: told.append(real(*names)) or told[-1])
    sample.pages.setCurrentWidget(sample.pages.year)
    sample.pages.year.board.grab()
    assert {f"butterhead lettuce ‘{name}’" for name in names} <= set(told)


def test_a_short_bar_shows_the_variety_alone(qapp):
    metrics = QFontMetricsF(qapp.font())
    both = metrics.horizontalAdvance("lettuce ‘Marvel’")
    assert fitting_name(metrics, "lettuce", "Marvel", both + 1) == "lettuce ‘Marvel’"
    assert fitting_name(metrics, "lettuce", "Marvel", both - 2) == "Marvel"
    assert fitting_name(metrics, "lettuce", "", both) == "lettuce"
    assert len(fitting_name(metrics, "lettuce", "Marvel", 12)) < 3


@pytest.mark.own_window
def test_a_tick_moves_no_line_of_the_week(sample, qapp):
    sample.pages.setCurrentWidget(sample.pages.year)
    page = sample.pages.year

    def lines() -> list[tuple[str, str]]:
        found = []
        for i in range(page.list.topLevelItemCount()):
            head = page.list.topLevelItem(i)
            found += [
                (head.text(0), head.child(j).data(0, Qt.ItemDataRole.UserRole).planting)
                for j in range(head.childCount())
            ]
        return found

    before = lines()
    (going_on,) = [
        page.list.topLevelItem(i)
        for i in range(page.list.topLevelItemCount())
        if page.list.topLevelItem(i).text(0) == "Going on"
    ]
    going_on.child(2).setCheckState(0, Qt.CheckState.Checked)
    qapp.processEvents()
    assert sample.document.undo_stack.undoText().startswith("Tick off")
    assert lines() == before
    sample.document.undo_stack.undo()
    assert lines() == before


def test_aftercare_is_in_the_week_in_which_it_begins_and_is_ticked_there(open_hand, qtbot):
    made, key = stand(garden(bed("b1")), "b1", "potato", start="tubers", first=dt.date(2026, 4, 10))
    hand = open_hand(made)
    document, page = hand.document, hand.window.pages.year
    hand.window.pages.setCurrentWidget(page)
    (chit,) = [task for task in tasks(document.plan) if task.kind == "chit"]
    document.show_day(chit.date)
    page._fill()
    heads = [page.list.topLevelItem(i) for i in range(page.list.topLevelItemCount())]
    items = [head.child(j) for head in heads for j in range(head.childCount())]
    (item,) = [one for one in items if one.data(0, Qt.ItemDataRole.UserRole).kind == "chit"]
    assert "to sprout, cool and in the light" in item.text(0)
    item.setCheckState(0, Qt.CheckState.Checked)
    qtbot.waitUntil(lambda: len(document.garden.records) == 1, timeout=LIMIT)
    assert (document.garden.records[0].planting, document.garden.records[0].task) == (key, "chit")


@pytest.mark.parametrize("name", ["hollow_lane", "24 beds"])
def test_work_that_followed_edits_is_that_of_the_whole_garden(name: str) -> None:
    chance = random.Random(name)
    frosts = Climate(last_frost=FrostDates(risk_50="05-01"), first_frost=FrostDates(risk_50="10-15"))
    document = (
        big_garden(24).with_(climate=frosts)
        if name == "24 beds"
        else storage.load(resources.sample_folder() / f"{name}.bedwright")
    )
    plan, work = Plan(document, document.years()[-1]), _Work()
    done, seen = 0, False
    while done < tries(20, 40):
        after = random_edit(chance, document, chance.choice(sorted(EDITS)))
        if after is None:
            continue
        document, done = after, done + 1
        plan = plan.after(document)
        first = plan.span.first + dt.timedelta(days=chance.randint(-10, 370))
        last = first + dt.timedelta(days=6)
        found = work.between(plan, first, last)
        assert found == tasks(Plan(document, plan.year), first, last)
        seen = seen or bool(found)
    assert seen


def test_a_tick_with_a_day_of_another_week_stays_in_sight_and_says_where_it_stands(sample, qtbot):
    """So does work that is due again: the line that was ticked is the one that is done."""
    sample.pages.setCurrentWidget(sample.pages.year)
    page = sample.pages.year
    again = next(task for task in tasks(sample.document.plan) if task.every)
    for task in (again, next(one for one in tasks(sample.document.plan) if one.kind == "thin")):
        sample.document.show_day(task.date)
        page._fill()
        day = task.date - 9 * DAY
        heads = [page.list.topLevelItem(i) for i in range(page.list.topLevelItemCount())]
        items = [head.child(j) for head in heads for j in range(head.childCount())]
        (item,) = [one for one in items if one.data(0, Qt.ItemDataRole.UserRole).key == task.key]
        page.done.show_day(day)
        item.setCheckState(0, Qt.CheckState.Checked)
        week = f"week of {day_words(monday(day))}"
        qtbot.waitUntil(lambda week=week: sample.status.message.text().endswith(week))
        (line,) = [one for one in page.shown if one.base_key == task.base_key and one.done == day]
        assert line.done == day
        page._step(7)
        assert not [one for one in page.shown if one.done == day]
