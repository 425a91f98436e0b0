"""The turn of a year in words."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.crops import load_catalogue
from planner.garden import Lot, Site, Wish
from planner.listings.turn import aged_words, not_confirmed_lines, repeated_words, used_words, wish_amount
from planner.plan import Plan
from planner.proposal.repeat import Repeated
from planner.proposal.turn import Aged
from planner.proposal.turn_seed import LotUsed, NotConfirmed


@pytest.mark.parametrize(
    ("unit", "units", "words"),
    [
        ("plants", "metric", "12 plants"),
        ("m", "metric", "12.00 m of row"),
        ("m", "feet_inches", "39 ft 4 1/2 in of row"),
        ("m2", "metric", "12.00 m²"),
        ("m2", "feet_inches", "129.2 sq ft"),
        ("g", "metric", "12 g"),
        ("g", "feet_inches", "0.42 oz"),
    ],
)
def test_a_wish_is_in_the_garden_s_units(unit, units, words):
    wish = Wish(id="w1", year=2027, crop="carrot", amount=12, unit=unit)
    assert wish_amount(wish, units) == words


SITE = Site(latitude=54.0, longitude=-2.0)
PLAN = Plan(
    garden(bed(name="Bed 4"), planting(crop="strawberry", start="standing", year=2023), site=SITE),
    2026,
    load_catalogue(),
)


@pytest.mark.parametrize(
    ("before", "after", "over", "words"),
    [
        (300, 166, 0, "pea: 300 seeds before, 166 seeds left"),
        (300, 1, 0, "pea: 300 seeds before, 1 seed left"),
        (300, 0, 0, "pea: 300 seeds, used up"),
        (300, 0, 1, "pea: 300 seeds, used up; 1 seed more was sown than was in stock"),
        (300, 0, 40, "pea: 300 seeds, used up; 40 seeds more were sown than were in stock"),
    ],
)
def test_what_is_used_up_is_said(before, after, over, words):
    lot = Lot(id="l1", crop="pea", seeds=before)
    assert used_words(PLAN, LotUsed(lot, lot.with_(seeds=after), over)) == words


def test_a_little_seed_is_not_rounded_to_nothing():
    lot = Lot(id="l1", crop="celeriac", grams=0.1)
    assert used_words(PLAN, LotUsed(lot, lot.with_(grams=0.02))) == "celeriac: 0.10 g before, 0.02 g left"


@pytest.mark.parametrize(
    ("bears", "last", "words"),
    [
        (3, None, "there since 2023; such plants usually bear well for 3 years"),
        (None, dt.date(2027, 8, 10), "there since 2023, to be cleared on 10 Aug 2027"),
        (
            3,
            dt.date(2027, 8, 10),
            "there since 2023, to be cleared on 10 Aug 2027; such plants usually bear well for 3 years",
        ),
    ],
)
def test_what_is_at_the_end_of_its_years_is_said_with_its_years(bears, last, words):
    aged = Aged(PLAN.garden.plantings[0], 2023, bears, last)
    assert aged_words("strawberry in Bed 4", aged) == f"strawberry in Bed 4: {words}"


def test_sowings_that_nobody_confirmed_are_one_line_a_sort():
    lettuce = planting("p2", crop="lettuce")
    sowings = [
        NotConfirmed(lettuce, 18),
        NotConfirmed(lettuce, 20),
        NotConfirmed(planting("p3", crop="pea"), 1),
    ]
    assert not_confirmed_lines(PLAN, sowings) == [
        f"{PLAN.catalogue.name_of('lettuce')}: 38 seeds for 2 sowings",
        "pea: 1 seed for 1 sowing",
    ]


def test_what_is_planned_already_and_what_was_accepted_is_said():
    old = PLAN.garden.plantings[0]
    new = old.with_(id="p9", year=2027)
    plan = Plan(PLAN.garden, 2027, PLAN.catalogue)
    assert repeated_words(plan, Repeated(old, new, already=True)) == (
        "strawberry in Bed 4: is planned for 2027 already, in Bed 4"
    )
    assert repeated_words(plan, Repeated(old, new, accepted="too soon")) == (
        "strawberry in Bed 4: in the same place, as you accepted it before (too soon)"
    )
    assert (
        repeated_words(plan, Repeated(old, None, "too soon"))
        == "strawberry in Bed 4: no place found (too soon)"
    )
