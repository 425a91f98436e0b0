"""Stock, store and seed purity: both sides of each threshold."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import YEAR, beans, beet_for_the_store, day, lettuce, made, places, rows
from checks.thresholds import Threshold
from making import bed, planting, rectangle

from planner.checks import check_only
from planner.garden import Garden, Lot
from planner.plan import Plan


def crossing(first: dt.date) -> Garden:
    """Beans for seed until 5 September, and others begun on a day: those of 9 August flower from 1 September."""
    seed = {"first_harvest": day(8, 25), "last_harvest": day(9, 1)}
    return made(
        bed("b1"),
        bed("b2", rectangle(center=(6.0, 0.0))),
        beans("p1", variety="Black", purpose="seed", pinned_dates=seed, last=day(9, 5)),
        beans("p2", bed="b2", variety="White", first=first),
    )


def lettuce_for_seed(plants: int) -> Garden:
    seed = {"first_harvest": day(8, 25), "last_harvest": day(9, 1)}
    at = places(*((0.3 * number - 2.0, 0.0) for number in range(plants)))
    return made(bed(), lettuce(purpose="seed", pinned_dates=seed, last=day(9, 5), arrangement=at))


def early_potato(last: dt.date) -> Garden:
    one = planting(
        crop="potato",
        start="tubers",
        first=day(4, 12),
        last=last,
        purpose="store",
        arrangement=rows(0.35, 0.6),
    )
    return made(bed(), one)


SHORT, EARLY = [("note", "short")], [("note", "early")]

THRESHOLDS = [
    Threshold(
        "keeps 42 or 43 days", "store", lambda d: beet_for_the_store(d, day(9, 1)), 42, SHORT, 43, EARLY
    ),
    Threshold(
        "keeps until 30 days after the frost",
        "store",
        lambda d: beet_for_the_store(d, day(9, 1)),
        76,
        [],
        75,
        EARLY,
    ),
    Threshold(
        "lifted 60 or 61 days before the frost",
        "store",
        lambda lifted: beet_for_the_store(130, lifted),
        day(8, 18),
        [],
        day(8, 17),
        EARLY,
    ),
    Threshold("nine tenths of their days", "store", early_potato, day(8, 3), [], day(8, 2), SHORT),
    Threshold(
        "one seed is short",
        "stock",
        lambda seeds: made(
            bed(), beans(), stock=(Lot(id="l1", crop="dwarf_bean", seeds=seeds, packed=2025),)
        ),
        147,
        [],
        146,
        [("note", "short ")],
    ),
    Threshold(
        "in flower together for 5 days",
        "seed purity",
        crossing,
        day(8, 10),
        [],
        day(8, 9),
        [("note", "crossing")],
    ),
    Threshold("ten plants for seed", "seed purity", lettuce_for_seed, 10, [], 9, [("mind", "few")]),
    Threshold(
        "keeps half its time when lifted warm, and 60 days are wanted",
        "store",
        lambda days: beet_for_the_store(days, day(8, 1)),
        274,
        [],
        273,
        EARLY,
    ),
    Threshold(
        "stored 271 or 270 days before a frost, which is that of the year before or not",
        "store",
        lambda lifted: beet_for_the_store(100, lifted),
        day(1, 19, 2027),
        [],
        day(1, 20, 2027),
        EARLY,
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()


def test_two_plantings_for_seed_that_cross_are_told_once() -> None:
    seed = {
        "purpose": "seed",
        "pinned_dates": {"first_harvest": day(8, 25), "last_harvest": day(9, 1)},
        "last": day(9, 5),
    }
    garden = made(
        bed("b1"),
        bed("b2", rectangle(center=(6.0, 0.0))),
        beans("p1", variety="Black", **seed),
        beans("p2", bed="b2", variety="White", **seed),
    )
    (one,) = [one for one in check_only(Plan(garden, YEAR), ["seed purity"]) if one.topic == "crossing"]
    assert set(one.plantings) == {"p1", "p2"}
    for mend in one.fixes:
        after = check_only(Plan(mend.apply(garden), YEAR), ["seed purity"])
        assert "crossing" not in {other.topic for other in after}, mend.text


@pytest.mark.parametrize(("crop", "crosses"), [("sunflower", True), ("snapdragon", True), ("radish", False)])
def test_what_is_cut_in_flower_crosses_and_what_is_picked_before_does_not(crop: str, crosses: bool) -> None:
    """Two sorts in two beds, one of them for seed."""
    seed = {"first_harvest": day(9, 5), "last_harvest": day(9, 10)}
    fields = {"crop": crop, "first": day(5, 20), "last": day(9, 12), "arrangement": rows(0.3, 0.4)}
    start = "raised" if crop == "snapdragon" else "sown"
    garden = made(
        bed("b1"),
        bed("b2", rectangle(center=(6.0, 0.0))),
        planting("p1", "b1", start=start, variety="Tall", purpose="seed", pinned_dates=seed, **fields),
        planting("p2", "b2", start=start, variety="Short", **fields),
    )
    found = {one.topic for one in check_only(Plan(garden, YEAR), ["seed purity"])}
    assert ("crossing" in found) == crosses
