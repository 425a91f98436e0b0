"""Covers: both sides of each threshold."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import CLIMATE, SITE, WARM, day, made, rows
from checks.thresholds import Threshold
from making import bed, planting

from planner.garden import FrostDates, Garden


def courgette(off: dt.date) -> Garden:
    """Courgettes that flower from 20 June."""
    return made(
        bed(),
        planting(
            crop="courgette",
            start="raised",
            first=day(6, 1),
            covers=[{"kind": "fleece", "last": off}],
            arrangement=rows(0.9, 0.9),
        ),
    )


def strawberry(on: dt.date) -> Garden:
    """Strawberries that flower from 17 May."""
    netting = {"kind": "netting", "first": on, "last": day(7, 20)}
    one = planting(
        crop="strawberry",
        year=2024,
        start="crowns",
        first=day(9, 1, 2024),
        covers=[netting],
        arrangement=rows(0.45, 0.6),
    )
    return made(bed(), one)


def cabbage(last: dt.date) -> Garden:
    return made(
        bed(),
        planting(crop="cabbage", start="raised", first=day(5, 8), last=last, arrangement=rows(0.4, 0.4)),
    )


def netted_kale(off: dt.date) -> Garden:
    one = planting(
        crop="kale",
        start="raised",
        first=day(5, 10),
        last=day(12, 20),
        covers=[{"kind": "netting", "first": day(5, 10), "last": off}],
        arrangement=rows(0.45, 0.5),
    )
    return made(bed(), one)


def beetroot_under_film(apart: float) -> Garden:
    one = planting(
        crop="beetroot",
        start="sown",
        first=day(5, 10),
        arrangement=rows(apart, 0.3),
        covers=[{"kind": "film"}],
    )
    return made(bed(), one)


def autumn_kale(october: float) -> Garden:
    """Kale from September to November, where October goes from 5.6 degrees to so many on the mean."""
    highest = (*(CLIMATE.monthly_maximum or ())[:9], october, 9.0, 6.7)
    frost = FrostDates(risk_10="11-09", risk_50="11-17", risk_90="11-26")
    one = planting(
        crop="kale",
        start="raised",
        first=day(9, 8),
        last=day(11, 20),
        pinned_dates={"first_harvest": day(11, 1)},
        arrangement=rows(0.45, 0.5),
    )
    return made(bed(), one, climate=CLIMATE.with_(first_frost=frost, monthly_maximum=highest))


def carrots(july: float) -> Garden:
    """Carrots where nights of July are of 14.4 degrees, and its days so hot."""
    highest = list(WARM.monthly_maximum or ())
    highest[6] = july
    one = planting(crop="carrot", start="sown", first=day(5, 10), arrangement=rows(0.05, 0.3))
    return made(bed(), one, climate=WARM.with_(monthly_maximum=tuple(highest)))


def southern_cabbage(first: dt.date, last: dt.date) -> Garden:
    """Cabbage in the open of New Zealand."""
    south = CLIMATE.with_(
        last_frost=FrostDates(risk_10="11-05", risk_50="10-15", risk_90="09-25"),
        first_frost=FrostDates(risk_10="04-02", risk_50="04-25", risk_90="05-18"),
        monthly_minimum=tuple((CLIMATE.monthly_minimum or ())[(month + 6) % 12] for month in range(12)),
        monthly_maximum=tuple((CLIMATE.monthly_maximum or ())[(month + 6) % 12] for month in range(12)),
    )
    one = planting(crop="cabbage", start="raised", first=first, last=last, arrangement=rows(0.4, 0.4))
    return made(bed(), one, climate=south, site=SITE.with_(latitude=-41.0, longitude=174.0))


THRESHOLDS = [
    Threshold("11 or 12 days in flower", "cover", courgette, day(7, 1), [], day(7, 2), [("mind", "flower")]),
    Threshold(
        "netting over the set fruit", "cover", strawberry, day(5, 25), [], day(5, 24), [("mind", "flower")]
    ),
    Threshold("27 or 28 days among pests", "cover", cabbage, day(6, 3), [], day(6, 4), [("note", "pests")]),
    Threshold(
        "74 or 75 such days of a covered crop",
        "cover",
        netted_kale,
        day(7, 18),
        [],
        day(7, 17),
        [("note", "pests")],
    ),
    Threshold(
        "seed 15 cm apart under film", "cover", beetroot_under_film, 0.15, [], 0.14, [("mind", "film")]
    ),
    Threshold(
        "pests fly in an October of 10 degrees", "cover", autumn_kale, 14.4, [], 14.5, [("note", "pests")]
    ),
    Threshold("no carrot fly in a July of 23 degrees", "cover", carrots, 31.6, [("note", "pests")], 31.7, []),
    Threshold(
        "pests of the south from November on",
        "cover",
        lambda last: southern_cabbage(day(9, 20), last),
        day(11, 27),
        [],
        day(11, 28),
        [("note", "pests")],
    ),
    Threshold(
        "pests of the south until the end of March",
        "cover",
        lambda first: southern_cabbage(first, day(7, 20, 2027)),
        day(3, 5, 2027),
        [],
        day(3, 4, 2027),
        [("note", "pests")],
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()
