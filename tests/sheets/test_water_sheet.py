"""Water on paper: the watering sheet, the block of a week sheet and of a bed sheet, beside what the plan works out."""

from __future__ import annotations

import datetime as dt
import io

import pypdfium2
import pytest
from making import bed, planting, rectangle
from plan.test_water import grown

from planner.amounts.watering import watering_of_week
from planner.garden import Climate
from planner.garden.volumes import show_water
from planner.plan import Plan
from planner.sheets.bed_sheets import write_bed_sheets
from planner.sheets.output import SheetError
from planner.sheets.water_sheet import write_water_sheet
from planner.sheets.week_sheets import write_week_sheets

MONDAY = dt.date(2026, 7, 6)
PRINTED = dt.date(2026, 3, 1)


@pytest.fixture(scope="module")
def plan():
    beds = (
        bed("a", name="North", outline=rectangle(4.8, 1.2), drip_lines=True),
        bed("b", name="South", outline=rectangle(4.8, 1.2, center=(0.0, 4.0))),
    )
    plantings = (
        planting("p1", crop="cabbage", bed="a", year=2026, start="raised"),
        planting("p2", crop="lettuce", bed="b", year=2026),
    )
    return Plan(grown(*beds, plantings=plantings), 2026)


def words(write, *given, **named) -> str:
    out = io.BytesIO()
    write(*given[:1], out, *given[1:], **named)
    pages = pypdfium2.PdfDocument(out.getvalue())
    return " ".join(" ".join(page.get_textpage().get_text_range() for page in pages).split())


def test_the_sheet_gives_what_the_week_takes_bed_by_bed(plan):
    text = words(write_water_sheet, plan, MONDAY + dt.timedelta(days=2), printed=PRINTED)
    assert "Watering 6 – 12 Jul" in text
    found = watering_of_week(plan, MONDAY)
    assert {one.bed.name for one in found} == {"North", "South"}
    for one in found:
        assert one.bed.name in text
        assert show_water(one.litres, "metric") in text
        assert show_water(one.dry_litres, "metric") in text
    assert "Zone 1: North;" in text


def test_a_day_before_the_first_watering_means_its_week(plan):
    text = words(write_water_sheet, plan, dt.date(2026, 1, 5), printed=PRINTED)
    assert "Jan" not in text.split("page")[0]


def test_the_sheet_of_one_bed_names_no_other(plan):
    assert "North" not in words(write_water_sheet, plan, MONDAY, printed=PRINTED, beds={"b"}).split("Zone")[0]


@pytest.mark.parametrize(
    ("day", "climate", "said"),
    [
        (dt.date(2026, 12, 28), None, "nothing is to be watered"),
        (MONDAY, Climate(), "nothing is known of the climate"),
    ],
)
def test_what_cannot_be_written_is_said(plan, day, climate, said):
    made = plan.garden if climate is None else grown(*plan.garden.beds, weather=False, climate=climate)
    with pytest.raises(SheetError, match=said):
        write_water_sheet(Plan(made, 2026), io.BytesIO(), day)


def test_week_sheets_say_what_is_watered(plan):
    text = words(write_week_sheets, plan, MONDAY, MONDAY + dt.timedelta(days=6), today=PRINTED)
    for one in watering_of_week(plan, MONDAY):
        assert f"{one.bed.name}: " in text
        assert f"{show_water(one.litres, 'metric')} in the week" in text


def test_a_bed_sheet_says_its_water_where_daily_weather_is_kept(plan):
    north = plan.beds[:1]
    text = words(write_bed_sheets, plan, north, "a4", PRINTED)
    assert "in the median year" in text
    assert "Drip lines: " in text
    rough = Plan(grown(*plan.garden.beds, plantings=plan.garden.plantings, weather=False), 2026)
    assert "in the median year" not in words(write_bed_sheets, rough, north, "a4", PRINTED)
