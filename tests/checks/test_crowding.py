"""Crowding between plantings: the days they share, and both sides of each threshold."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from checks.faults import WARM, YEAR, beans, day, lettuce, made, places, plot, rows
from checks.thresholds import Threshold, findings, own
from making import bed, planting, rectangle

from planner.checks import check_only
from planner.checks.crowding_needs import STEP, needs_of_plantings
from planner.checks.frame.context import CheckContext
from planner.crops import load_catalogue
from planner.garden import FrostDates, Garden
from planner.garden.planting_figures import PlantingFigures
from planner.ground.bed_spacing import usual_arrangement
from planner.plan import Plan

BETWEEN = [("mind", "between")]
CLEARED = day(7, 20)


def lettuce_among_courgettes(y: float = 0.10, first: dt.date = CLEARED, **fields: Any) -> Garden:
    """Lettuce set out so far beside a courgette, which is cleared on 20 July."""
    courgette = planting(
        "p1",
        crop="courgette",
        start="raised",
        first=day(6, 1),
        last=CLEARED,
        arrangement=places((0.0, 0.0)),
    )
    salad = lettuce("p2", first=first, shares_ground=True, arrangement=places((0.0, y), (1.8, 0.4)), **fields)
    return made(bed(), courgette, salad)


def test_a_planting_cleared_on_the_day_another_starts_makes_room_for_it() -> None:
    assert findings(lettuce_among_courgettes(first=CLEARED), "crowding") == []
    assert findings(lettuce_among_courgettes(first=day(7, 19)), "crowding") == BETWEEN


def test_the_need_on_the_last_shared_day_counts() -> None:
    first = CLEARED - dt.timedelta(
        days=5 * STEP - 1
    )  # the last day is no whole number of steps after the first
    plan = Plan(lettuce_among_courgettes(first=first), YEAR)
    (pair,) = CheckContext(plan).pairs
    needs = needs_of_plantings(plan, pair.one, pair.other, pair.days)
    assert [need.day for need in needs[-2:]] == [CLEARED - dt.timedelta(days=STEP - 1), CLEARED]
    assert needs[-1].distance > needs[-2].distance + 0.001
    between = (needs[-1].distance + needs[-2].distance) / 2
    (one,) = check_only(Plan(lettuce_among_courgettes(between, first), YEAR), ["crowding"])
    assert (one.span.first, one.span.last) == (CLEARED, CLEARED)
    assert findings(lettuce_among_courgettes(needs[-1].distance + 0.001, first), "crowding") == []


def marked_row(days: int, apart: int = 0) -> Garden:
    """Radishes in a drill of parsnips, out after so many days; the parsnips sown so many days later."""
    first = day(4, 20)
    radish = planting(
        "p1",
        crop="radish",
        start="sown",
        first=first,
        last=first + dt.timedelta(days=days - 1),
        shares_ground=True,
        arrangement=rows(0.05, 0.4),
    )
    sown = first + dt.timedelta(days=apart)
    parsnip = planting("p2", crop="parsnip", start="sown", first=sown, arrangement=rows(0.15, 0.4))
    return made(bed(), radish, parsnip)


def beans_beside(gap: float) -> Garden:
    """Two plots of beans whose last and first plants are so far apart along the bed."""
    edge = 1.4 + gap / 2
    return made(
        bed(),
        beans("p1", variety="Own", plot=plot(0.0, edge), arrangement=places((-1.0, 0.0))),
        beans("p2", variety="Own", plot=plot(edge, 4.8), arrangement=places((-1.0 + gap, 0.0))),
        **own("dwarf_bean", spread=0.4, in_row_spacing=0.4),
    )


THRESHOLDS = [
    Threshold("radishes mark a row for sixty days", "crowding", marked_row, 60, [], 61, BETWEEN),
    Threshold(
        "parsnips sown two weeks after the radishes",
        "crowding",
        lambda apart: marked_row(40, apart),
        14,
        [],
        15,
        BETWEEN,
    ),
    Threshold("plants lean by a quarter of their need", "crowding", beans_beside, 0.301, [], 0.299, BETWEEN),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_threshold(threshold: Threshold) -> None:
    threshold.assert_found()


@pytest.mark.parametrize("width", [0.6, 0.9, 1.2])
def test_no_crop_is_crowded_at_its_spacing_for_beds(width: float) -> None:
    """Potatoes at 28 cm in all directions have less ground than in field rows, and have it from a handbook."""
    ground = bed(outline=rectangle(4.8, width))
    for crop in load_catalogue().crops.values():
        usual = usual_arrangement(ground, PlantingFigures(crop, None))
        assert findings(made(ground, planting(crop=crop.key, arrangement=usual)), "crowding") == [], crop.key


@pytest.mark.parametrize(("crop", "apart"), [("potato", 0.19), ("cabbage", 0.24), ("tomato", 0.40)])
def test_what_is_nearer_than_the_spacing_for_beds_is_told_by_its_source(crop: str, apart: float) -> None:
    close = {"kind": "staggered", "spacing_for": "beds", "in_row_spacing": apart}
    (one,) = check_only(Plan(made(bed(), planting(crop=crop, arrangement=close)), YEAR), ["crowding"])
    figure = load_catalogue().crops[crop].bed_spacing
    assert (one.topic, one.severity) == ("within", "mind")
    assert one.source in {figure.source, *(other.source for other in figure.other)}


#: A summer in which squash grows to its full size.
LONG_SUMMER = WARM.with_(first_frost=FrostDates(risk_10="10-27", risk_50="11-17", risk_90="11-30"))


def squashes(path: float, **other: Any) -> Garden:
    """Winter squash in two beds of 1.2 m with a path between them, side by side or end to end."""
    squash = {"crop": "winter_squash", "start": "raised", "first": day(6, 1)}
    beside = bed("b2", rectangle(center=(0.0, 1.2 + path), **other))
    return made(
        bed("b1"), beside, planting("p1", **squash), planting("p2", bed="b2", **squash), climate=LONG_SUMMER
    )


def test_a_row_of_squash_may_hang_over_a_path_but_two_over_the_same_are_told() -> None:
    assert findings(squashes(0.4), "crowding") == [("note", "hanging")]
    assert findings(squashes(0.5), "crowding") == []
    assert findings(made(bed(), squashes(0.4).plantings[0], climate=LONG_SUMMER), "crowding") == []


def test_squash_in_the_next_bed_end_to_end_needs_its_in_row_spacing_only() -> None:
    first, second = squashes(0.4).plantings
    row = made(bed("b1"), bed("b2", rectangle(center=(5.2, 0.0))), first, second, climate=LONG_SUMMER)
    assert findings(row, "crowding") == []
    assert findings(squashes(0.4, turn=90.0), "crowding") == []


def test_carrots_beside_a_row_of_squash_are_judged_plant_to_plant() -> None:
    carrots = planting("p2", bed="b2", crop="carrot", first=day(4, 20))
    both = made(
        bed("b1"),
        bed("b2", rectangle(center=(0.0, 1.6))),
        squashes(0.4).plantings[0],
        carrots,
        climate=LONG_SUMMER,
    )
    assert findings(both, "crowding") == []
