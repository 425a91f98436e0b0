"""Season and soil warmth: both sides of each threshold."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import CLIMATE, beans, day, made, rows
from checks.thresholds import Threshold
from making import bed, planting

from planner.garden import Garden


def late_corn(first: dt.date) -> Garden:
    return made(
        bed(),
        planting(crop="sweet_corn", start="raised", first=first, arrangement=rows(0.3, 0.4)),
        climate=CLIMATE.with_(monthly_minimum=None, monthly_maximum=None),
    )


def garlic(first: dt.date) -> Garden:
    return made(bed(), planting(crop="garlic", start="cloves", first=first, arrangement=rows(0.15, 0.3)))


def parsnip(first: dt.date) -> Garden:
    return made(
        bed(),
        planting(crop="parsnip", start="sown", first=first, last=day(12, 20), arrangement=rows(0.15, 0.3)),
    )


def leek(first: dt.date) -> Garden:
    return made(bed(), planting(crop="leek", start="raised", first=first, arrangement=rows(0.15, 0.3)))


def corn_in_a_cool_summer(first: dt.date) -> Garden:
    return made(bed(), planting(crop="sweet_corn", start="raised", first=first, arrangement=rows(0.3, 0.4)))


def sown(crop: str, first: dt.date) -> Garden:
    return made(bed(), planting(crop=crop, start="sown", first=first, arrangement=rows(0.1, 0.3)))


def sweet_potato(may: float) -> Garden:
    """Sweet potatoes set out on 20 May, in a place with such a mean in that month."""
    one = planting(crop="sweet_potato", start="bought", first=day(5, 20), arrangement=rows(0.3, 0.9))
    climate = CLIMATE.with_(
        monthly_minimum=(0.4, 0.4, 1.5, 3.0, may - 6, 15.0, 16.0, 16.0, 14.0, 9.6, 2.7, 0.6),
        monthly_maximum=(6.5, 7.1, 9.1, 11.8, may + 6, 28.0, 30.0, 30.0, 26.0, 19.6, 9.0, 6.7),
    )
    return made(bed(), one, climate=climate)


THRESHOLDS = [
    Threshold(
        "ripe 14 or 15 days after the frost",
        "season",
        lambda first: made(bed(), beans(first=first)),
        day(9, 13),
        [("mind", "frost")],
        day(9, 14),
        [("stop", "frost")],
    ),
    Threshold(
        "ripe the day of the frost or the day after",
        "season",
        lambda first: made(bed(), beans(first=first)),
        day(8, 30),
        [],
        day(8, 31),
        [("mind", "frost")],
    ),
    Threshold(
        "ripe less than 14 days before the frost",
        "season",
        late_corn,
        day(7, 24),
        [],
        day(7, 25),
        [("note", "barely")],
    ),
    Threshold(
        "ripe a week before the frost",
        "season",
        late_corn,
        day(7, 28),
        [("note", "barely")],
        day(7, 29),
        [("mind", "barely")],
    ),
    Threshold(
        "cloves 91 or 90 days before they ripen",
        "season",
        garlic,
        day(4, 28),
        [],
        day(4, 29),
        [("mind", "small")],
    ),
    Threshold(
        "seed 110 or 111 days before the last frost",
        "season",
        parsnip,
        day(1, 16),
        [("note", "early")],
        day(1, 15),
        [],
    ),
    Threshold(
        "slow crop that finds 75 % of its warmth or 74 %",
        "season",
        leek,
        day(8, 1),
        [],
        day(8, 2),
        [("note", "late")],
    ),
    Threshold(
        "heat sum of 75 % of the need or 74 %",
        "season",
        corn_in_a_cool_summer,
        day(7, 9),
        [("mind", "heat")],
        day(7, 10),
        [("stop", "heat")],
    ),
    Threshold(
        "fewer than half of the seeds",
        "soil warmth",
        lambda d: sown("carrot", d),
        day(2, 12),
        [],
        day(2, 11),
        [("note", "")],
    ),
    Threshold(
        "fewer than 20 of 100 seeds",
        "soil warmth",
        lambda d: sown("turnip", d),
        day(2, 19),
        [("note", "")],
        day(2, 18),
        [("mind", "")],
    ),
    Threshold(
        "tender seed that lies longer than 21 days",
        "soil warmth",
        lambda d: sown("sweet_corn", d),
        day(5, 2),
        [],
        day(5, 1),
        [("note", "")],
    ),
    Threshold(
        "a third colder than its least, without a table",
        "soil warmth",
        lambda d: sown("courgette", d),
        day(6, 4),
        [],
        day(6, 3),
        [("note", "")],
    ),
    Threshold(
        "half as cold again",
        "soil warmth",
        lambda d: sown("courgette", d),
        day(5, 2),
        [("note", "")],
        day(5, 1),
        [("mind", "")],
    ),
    Threshold(
        "3.5 degrees colder than its least, without a table",
        "soil warmth",
        lambda d: sown("leek", d),
        day(2, 10),
        [],
        day(2, 9),
        [("note", "")],
    ),
    Threshold("roots 5 degrees colder", "soil warmth", sweet_potato, 11.4, [], 11.3, [("note", "roots")]),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()
