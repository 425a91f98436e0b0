"""The preview of a drop, without a window: its stations, its words, and what it would cause."""

from __future__ import annotations

import datetime as dt

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
from planner.garden import Garden, Stretch
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
    _, made = preview(garden(LONG), "carrot")
    assert made.may_land
    assert not made.warns
    rows = made.placed.layout.rows
    assert (
        lines(garden(LONG), "carrot")[0]
        == f"Carrot · {len(rows)} rows × {rows[0].count} = {made.placed.plants}"
    )
    assert lines(garden(LONG), "carrot")[1].endswith("between rows")


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
