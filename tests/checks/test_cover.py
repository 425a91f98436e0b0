"""Covers: both sides of each threshold."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import CLIMATE, SITE, WARM, YEAR, day, made, rows
from checks.thresholds import Threshold
from making import bed, planting

from planner.checks import check_only
from planner.garden import FrostDates, Garden
from planner.plan import Plan


def courgette(off: dt.date) -> Garden:
    """Courgettes that flower from 17 July: ten days before they are first picked."""
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


def netted_carrots(on: dt.date | None, off: dt.date | None, **fields: object) -> Garden:
    """Carrots from 7 April to 21 July, under netting for a while."""
    netting = {"kind": "netting", "first": on, "last": off}
    days = {"first": day(4, 7), "last": day(7, 21), **fields}
    return made(
        bed(), planting(crop="carrot", start="sown", covers=[netting], arrangement=rows(0.05, 0.3), **days)
    )


def cabbage_netted_from(on: dt.date) -> Garden:
    return made(
        bed(),
        planting(
            crop="cabbage",
            start="raised",
            first=day(5, 8),
            last=day(9, 20),
            covers=[{"kind": "netting", "first": on}],
            arrangement=rows(0.4, 0.4),
        ),
    )


THRESHOLDS = [
    Threshold(
        "11 or 12 days in flower", "cover", courgette, day(7, 28), [], day(7, 29), [("mind", "flower")]
    ),
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
        "27 or 28 days before the netting",
        "cover",
        cabbage_netted_from,
        day(6, 4),
        [],
        day(6, 5),
        [("note", "pests")],
    ),
    Threshold(
        "27 or 28 days of the first flight of carrot fly",
        "cover",
        lambda on: netted_carrots(on, None),
        day(5, 28),
        [],
        day(5, 29),
        [("note", "pests")],
    ),
    Threshold(
        "27 or 28 days of the second and third flight",
        "cover",
        lambda off: netted_carrots(None, off, last=day(9, 30)),
        day(8, 14),
        [],
        day(8, 13),
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


def test_carrots_netted_late_or_for_a_short_while_are_told_with_the_flights() -> None:
    for garden, days, flights in (
        (netted_carrots(day(7, 10), None), 46, "from 15 Apr to 15 Jun"),
        (netted_carrots(None, day(5, 20)), 33, "from 15 Apr to 15 Jun and from 15 Jul to 31 Aug"),
    ):
        (one,) = check_only(Plan(garden, YEAR), ["cover"])
        assert one.text == (
            f"Carrot in b1 stands uncovered for {days} days on which carrot fly flies ({flights})"
        )
        (mend,) = one.candidates(Plan(garden, YEAR))
        assert check_only(Plan(mend.apply(garden), YEAR), ["cover"]) == ()


def test_carrots_bare_between_two_flights_are_not_told() -> None:
    netting = [
        {"kind": "netting", "last": day(6, 15)},
        {"kind": "netting", "first": day(7, 15)},
    ]
    one = netted_carrots(None, None).plantings[0].with_(covers=netting)
    assert check_only(Plan(made(bed(), one), YEAR), ["cover"]) == ()


def test_flights_of_the_south_are_half_a_year_off() -> None:
    south = southern_cabbage(day(9, 20), day(12, 30))
    netting = {"kind": "netting", "first": day(12, 20)}
    one = planting(
        crop="carrot",
        start="sown",
        first=day(9, 20),
        last=day(3, 30, 2027),
        covers=[netting],
        arrangement=rows(0.05, 0.3),
    )
    garden = made(bed(), one, climate=south.climate, site=south.site.with_(longitude=174.0))
    (found,) = check_only(Plan(garden, YEAR), ["cover"])
    assert "(from 15 Oct to 15 Dec)" in found.text
