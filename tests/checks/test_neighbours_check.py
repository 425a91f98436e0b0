"""Neighbours: both sides of each threshold."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import WARM, beans, day, made, places, plot, rows
from checks.thresholds import Threshold
from making import bed, planting, rectangle

from planner.garden import Circle, Garden, Structure


def corn_and_beans(last: dt.date) -> Garden:
    corn = planting(
        "p1",
        crop="sweet_corn",
        start="raised",
        first=day(6, 1),
        arrangement=rows(0.3, 0.4),
        plot=plot(0, 2.4),
    )
    return made(bed(outline=rectangle(8.0)), corn, beans("p2", plot=plot(2.4, 8.0), last=last), climate=WARM)


def two_rows_of_corn(apart: float) -> Garden:
    lines = {"kind": "rows", "in_row_spacing": 0.3, "row_spacing": apart, "rows": 2}
    corn = planting(crop="sweet_corn", start="raised", first=day(6, 1), arrangement=lines)
    return made(bed(), corn, climate=WARM)


def corn_in_two_beds(apart: float) -> Garden:
    """A row of corn in each of two beds 0.4 m wide."""
    lines = {"kind": "rows", "in_row_spacing": 0.3, "rows": 1}
    beds = (bed("b1", rectangle(4.8, 0.4)), bed("b2", rectangle(4.8, 0.4, center=(0.0, 0.4 + apart))))
    corn = (
        planting(f"p{i}", bed=f"b{i}", crop="sweet_corn", start="raised", first=day(6, 1), arrangement=lines)
        for i in (1, 2)
    )
    return made(*beds, *corn, climate=WARM)


def potato_and_tomato(apart: float) -> Garden:
    """A row of each in two beds; blight reaches 5 m within a bed, and plots up to 1.25 m apart are looked at."""
    potato = planting(
        "p1", bed="b1", crop="potato", start="tubers", first=day(5, 1), arrangement=rows(0.35, 0.7, rows=1)
    )
    tomatoes = planting(
        "p2",
        bed="b2",
        crop="tomato",
        start="raised",
        first=day(6, 5),
        support={"kind": "stake", "height": 1.8},
        arrangement=rows(0.6, 0.6, rows=1),
    )
    return made(bed("b1"), bed("b2", rectangle(center=(0.0, apart))), potato, tomatoes)


def tomatoes_by_a_walnut(x: float) -> Garden:
    """The nearest plant is 2 m nearer than the middle of the bed."""
    tree = Structure(
        id="s1", kind="tree", name="black walnut", outline=Circle(radius=1, center=(x, 0.0)), height=6
    )
    return made(
        bed(),
        planting(
            crop="tomato",
            start="raised",
            first=day(5, 10),
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
        ),
        structures=(tree,),
    )


def corn_and_bean_over_an_edge(from_edge: float) -> Garden:
    """A plant of corn 5 cm from the edge of its bed, and beans so far beyond it; they do harm within 50 cm."""
    corn = planting(
        "p1", bed="b1", crop="sweet_corn", start="raised", first=day(6, 1), arrangement=places((0.0, 0.55))
    )
    bean = beans("p2", bed="b2", arrangement=places((0.0, from_edge - 0.6)))
    return made(bed("b1"), bed("b2", rectangle(center=(0.0, 1.2))), corn, bean, climate=WARM)


def potato_and_tomato_until(last: dt.date, planted: dt.date, set_out: dt.date) -> Garden:
    """Potatoes from one day to another, and tomatoes near them."""
    potato = planting(
        "p1",
        crop="potato",
        start="tubers",
        first=planted,
        last=last,
        pinned_dates={"first_harvest": last, "last_harvest": last},
        arrangement=rows(0.35, 0.7),
    )
    tomatoes = planting(
        "p2",
        bed="b2",
        crop="tomato",
        start="raised",
        first=set_out,
        support={"kind": "stake", "height": 1.8},
        arrangement=rows(0.6, 0.6),
    )
    return made(bed("b1"), bed("b2", rectangle(center=(0.0, 1.8))), potato, tomatoes, climate=WARM)


BAD = [("mind", "bad")]

THRESHOLDS = [
    Threshold("13 or 14 days side by side", "neighbours", corn_and_beans, day(6, 13), [], day(6, 14), BAD),
    Threshold(
        "two rows 26 or 25 cm apart", "neighbours", two_rows_of_corn, 0.26, [], 0.25, [("note", "block")]
    ),
    Threshold(
        "two beds of corn 1.5 m apart", "neighbours", corn_in_two_beds, 1.5, [], 1.51, [("note", "block")] * 2
    ),
    Threshold("plots 1.25 m apart", "neighbours", potato_and_tomato, 2.46, [], 2.45, [("note", "bad")]),
    Threshold(
        "within 18 m of a walnut", "neighbours", tomatoes_by_a_walnut, 20.0, [], 19.9, [("mind", "s1")]
    ),
    Threshold(
        "half of the reach over a path",
        "neighbours",
        corn_and_bean_over_an_edge,
        0.203,
        [("note", "block")],
        0.2,
        [*BAD, ("note", "block")],
    ),
    Threshold(
        "blight until a week before the longest day",
        "neighbours",
        lambda last: potato_and_tomato_until(last, day(3, 20), day(5, 15)),
        day(6, 13),
        [],
        day(6, 14),
        [("note", "bad")],
    ),
    Threshold(
        "together from 150 days before the longest day on",
        "neighbours",
        lambda first: potato_and_tomato_until(day(6, 5), day(1, 2), first),
        day(1, 23),
        [],
        day(1, 22),
        [("note", "bad")],
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()
