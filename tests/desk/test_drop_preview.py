"""The preview of a drop, without a window: its stations, its words, and what it would cause."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from making import bed, garden, planting, rectangle

from planner.desk.model.drop_preview import (
    MOST_CAUSES,
    DropPreview,
    causes_of,
    planted_fields,
    preview_drop,
    preview_lines,
)
from planner.garden import Garden, Rows, StaggeredRows, Stretch
from planner.plan import Plan
from planner.plan.dropping import find_drop

D = dt.date
LONG = bed("b1", rectangle(4.0, 1.0), name="Long")


def preview(document: Garden, crop: str, at=(0.0, 0.0), manner="free") -> tuple[Plan, DropPreview]:
    plan = Plan(document, 2026)
    kind = plan.catalogue.get(crop)
    found = find_drop(plan, LONG, kind, "", at, manner, 0.05)
    assert found is not None
    return plan, preview_drop(plan, LONG, kind, "", found)


def lines(document: Garden, crop: str, at=(0.0, 0.0), manner="free") -> list[str]:
    plan, made = preview(document, crop, at, manner)
    return preview_lines(made, plan.catalogue.get(crop), "metric")


def test_rows_of_one_length_are_multiplied():
    _, made = preview(garden(LONG), "thyme")  # no spacing for beds is known: field rows
    assert made.may_land
    assert not made.warns
    rows = made.placed.layout.rows
    assert (
        lines(garden(LONG), "thyme")[0]
        == f"Thyme · {len(rows)} rows × {rows[0].count} = {made.placed.plants}"
    )
    assert lines(garden(LONG), "thyme")[1].endswith("between rows")


def test_a_bed_is_planted_by_the_spacing_for_beds():
    """Cabbage at 42 cm in all directions: by field rows a single row of ten would fit."""
    _, made = preview(garden(LONG), "cabbage")
    assert made.planting.arrangement == StaggeredRows(spacing_for="beds")
    assert made.placed.plants == 18
    assert lines(garden(LONG), "cabbage") == [
        "Cabbage · 2 rows × 9 = 18",
        "41.9 cm in the row, 36.3 cm between rows",
    ]


def test_a_field_is_planted_in_field_rows():
    field = bed("b1", rectangle(12.0, 8.0), name="Field")
    plan = Plan(garden(field), 2026)
    kind = plan.catalogue.get("cabbage")
    made = preview_drop(plan, field, kind, "", find_drop(plan, field, kind, "", (0.0, 0.0), "free", 0.05))
    assert made.planting.arrangement == Rows()


def test_a_row_by_itself_has_no_distance_between_rows():
    assert lines(garden(LONG), "rhubarb")[1].endswith("in the row")


def test_one_plant_is_one_plant():
    assert lines(garden(LONG), "carrot", manner="single") == ["Carrot · 1 plant"]


def test_a_crop_that_waits_says_from_when():
    taken = planting(first=D(2026, 4, 1), last=D(2026, 7, 14))
    assert "from 15 Jul 2026, when this ground falls free" in lines(garden(LONG, taken), "carrot")


def test_a_bed_without_room_says_why_and_warns():
    _, made = preview(garden(LONG, planting(first=D(2026, 1, 1), last=D(2026, 12, 31))), "carrot")
    assert not made.may_land
    assert made.warns
    assert lines(garden(LONG, planting(first=D(2026, 1, 1), last=D(2026, 12, 31))), "carrot") == [
        "carrot",
        "Long has no free ground at this time",
    ]


def test_over_no_bed_only_the_crop_is_named():
    plan = Plan(garden(LONG), 2026)
    assert preview_lines(None, plan.catalogue.get("carrot"), "metric") == ["carrot"]


def test_losses_of_sun_are_named_the_first_three():
    plan, made = preview(garden(LONG), "carrot")
    losses = (("pea", 2.04), ("beet", 1.0), ("leek", 0.5), ("kale", 0.3))
    shaded = DropPreview(made.bed, made.planting, made.placed, shaded=losses)
    assert preview_lines(shaded, plan.catalogue.get("carrot"), "metric")[-1] == (
        "takes sun from pea 2.0 h, beet 1.0 h, leek 0.5 h"
    )


@pytest.fixture
def taken_twice() -> tuple[Plan, DropPreview]:
    """Carrots held over a bed that other carrots take as a whole."""
    return preview(garden(LONG, planting(plot=Stretch(start=0, end=4))), "carrot", manner="whole")


def test_what_the_checks_would_say_is_told_before_the_drop(taken_twice):
    plan, made = taken_twice
    causes = causes_of(plan, made.planting)
    assert 1 <= len(causes) <= MOST_CAUSES
    assert any("both take" in text for text in causes)
    assert plan.garden.plantings == (plan.garden.plantings[0],)


def test_a_drop_that_is_refused_says_so(taken_twice):
    plan, made = taken_twice
    (text,) = causes_of(plan, made.planting.with_(bed="b9"))
    assert "b9" in text


def test_fields_of_a_drop_make_the_same_planting_again(taken_twice):
    _, made = taken_twice
    fields = planted_fields(made.planting)
    assert planting(made.planting.id, **fields) == made.planting


def test_what_is_to_be_remembered_is_said_but_is_no_warning():
    plan, made = preview(garden(LONG), "thyme")
    told = replace(made, lessons=("Remember: too dry (2025)",))
    assert preview_lines(told, plan.catalogue.get("thyme"), "metric")[-1] == "Remember: too dry (2025)"
    assert not told.warns
