"""The page of water: the year that is shown, a week, the beds, and watering in the list of a week's work."""

from __future__ import annotations

import datetime as dt

import numpy as np
from making import bed, planting, rectangle
from plan.test_water import grown

from planner.amounts.tank import tank_of
from planner.amounts.watering import watering_of_week
from planner.desk.model.document import Document
from planner.desk.pages.water_page import WaterPage
from planner.desk.pages.watering_group import watering_group
from planner.desk.theme.palette import LookSwitch
from planner.garden import Climate
from planner.garden.volumes import show_water
from planner.plan import Plan
from planner.plan.water import garden_water

MONDAY = dt.date(2026, 7, 6)


def plot(**fields):
    beds = (
        bed("a", name="North", outline=rectangle(4.8, 1.2), drip_lines=True),
        bed("b", name="South", outline=rectangle(4.8, 1.2, center=(0.0, 4.0))),
    )
    plantings = (
        planting("p1", crop="cabbage", bed="a", year=2026, start="raised"),
        planting("p2", crop="lettuce", bed="b", year=2026),
    )
    return grown(*beds, plantings=plantings, **fields)


def page_of(qtbot, made):
    document = Document(made)
    document.show_year(2026)
    page = WaterPage(document, LookSwitch())
    qtbot.addWidget(page)
    water = garden_water(document.plan)
    page.show_water((document.plan, water, tank_of(document.plan, water) if water is not None else None))
    return page, water


def test_the_year_shown_is_the_median_the_dry_or_the_drought_year(qtbot):
    page, water = page_of(qtbot, plot())
    assert page.choice.values == ("median", "dry", "drought")
    shown = {}
    for choice in ("median", "dry", "drought"):
        page.choice.chosen.emit(choice)
        shown[choice] = page.basis.text()
    sums = water.litres.sum(axis=0)
    assert show_water(float(np.median(sums)), "metric") in shown["median"]
    assert show_water(float(np.quantile(sums, 0.8)), "metric") in shown["dry"]
    assert show_water(float(sums[water.drought]), "metric") in shown["drought"]


def test_a_week_is_told_for_the_garden_and_for_each_bed(qtbot):
    page, water = page_of(qtbot, plot())
    page._show_week(water.week_of(MONDAY))
    found = watering_of_week(page.document.plan, MONDAY)
    assert page.week.text().startswith("6 – 12 Jul: ")
    cells = [
        page.model.index(row, column).data() for row in range(2) for column in range(page.model.columnCount())
    ]
    for one in found:
        assert any(cell and show_water(one.litres, "metric") in str(cell) for cell in cells)


def test_without_daily_weather_it_is_rough_and_only_one_year_is_shown(qtbot):
    page, _ = page_of(qtbot, plot(weather=False))
    assert page.basis.text().startswith("Rough: ")
    assert page.choice.values == ("median",)


def test_without_a_climate_the_page_says_what_is_missing(qtbot):
    page, water = page_of(qtbot, plot(weather=False, climate=Climate()))
    assert water is None
    assert page.basis.text().startswith("Nothing is known of the climate")
    assert page.table.isHidden()


def test_watering_is_a_group_of_the_weeks_work(qapp):
    plan = Plan(plot(), 2026)
    sunday = MONDAY + dt.timedelta(days=6)
    group = watering_group(plan, MONDAY, sunday)
    assert [group.child(row).text(0).partition(":")[0] for row in range(group.childCount())] == [
        "North",
        "South",
    ]
    assert watering_group(plan, MONDAY, sunday, "South").childCount() == 1
    assert watering_group(Plan(plot(weather=False), 2026), MONDAY, sunday) is None
