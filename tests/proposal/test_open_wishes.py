"""What is still wished of a proposed layout, and the bare ground that could take some of it, counted alike in both."""

from __future__ import annotations

from typing import Any

import pytest
from making import bed, garden, planting, rectangle

from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Site, Wish
from planner.garden.arrangements import Rows
from planner.listings.filling import bare_summer_lines
from planner.listings.found_layout import unmet_whys
from planner.listings.shut_beds import names_words
from planner.plan import Plan
from planner.proposal.bare_summer import bare_in_summer
from planner.proposal.filling import fillings, most_wished
from planner.proposal.layouts import garden_with
from planner.proposal.open_wishes import open_wishes
from planner.proposal.propose import Proposal, propose
from planner.proposal.reasons import Reasons

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
)


def proposed(*wishes: Wish) -> Proposal:
    there = garden(
        bed("b1", rectangle(3.0, 1.2), name="Bed 1"),
        planting(
            "p1", "b1", crop="potato", year=2021, arrangement=Rows(row_spacing=0.9, in_row_spacing=0.45)
        ),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        wishes=wishes,
    )
    *_, last = propose(Plan(there, 2027, CATALOGUE), rounds=1)
    return last


def wish(key: str, crop: str, amount: float, **fields: Any) -> Wish:
    return Wish(id=key, year=2027, crop=crop, amount=amount, **fields)


def test_bare_ground_and_the_reasons_count_a_wish_alike() -> None:
    last = proposed(
        wish("w0", "leek", 2.0, unit="m2", importance="must"),
        wish("w1", "potato", 6, like="p1", in_part=False),
    )
    most = Reasons(last.of, last.layout).most_that_fits(1)
    assert most is not None
    after = last.of.plan.what_if(garden_with(last.of, last.layout))
    (bare,) = bare_in_summer(after, wished=open_wishes(last))
    first = bare.offers[0]
    assert first.wish is not None
    assert (first.crop.key, first.plants) == ("potato", most.amount)
    unspaced = fillings(after, bare.bed, first.span.first, crops=("potato",), wished={})
    assert {one.plants for one in unspaced} != {most.amount}  # it is the spacing of the wish that counts
    (line,) = bare_summer_lines(after, [bare])[1:]
    assert f"could take potato, still wished ({most.amount:.0f} from " in line
    span = most.offer.way.span
    assert any(f" m on, {span.first.day} " in words for words in unmet_whys(last)["w1"])


def test_what_lacks_of_a_wish_that_is_met_in_part_is_still_wished() -> None:
    last = proposed(wish("w1", "beetroot", 5.0, unit="m2"))
    (part,) = last.in_part
    rest = open_wishes(last)["beetroot"]
    (planted,) = garden_with(last.of, last.layout).plantings[1:]
    plan = Plan(last.garden, 2027, CATALOGUE)
    assert part.id == rest.id
    assert rest.amount == pytest.approx(5.0 - plan.placed(planted).area)


def test_nothing_is_wished_any_more_where_all_is_met() -> None:
    last = proposed(wish("w1", "radish", 10))
    assert not last.unmet
    assert open_wishes(last) == {}


def test_of_several_wishes_for_a_crop_the_one_that_matters_most_is_told() -> None:
    some = (wish("w1", "leek", 3, importance="could"), wish("w2", "leek", 4), wish("w3", "leek", 5))
    assert {key: one.id for key, one in most_wished(some).items()} == {"leek": "w2"}


def test_the_reasons_name_the_beds_up_to_three_of_them() -> None:
    assert names_words(["A"]) == "A"
    assert names_words(["A", "B", "C"]) == "A, B and C"
    assert names_words(["A", "B", "C", "D"]) == "A, B and 2 more"
    last = proposed(
        wish("w0", "leek", 3.0, unit="m2", importance="must"), wish("w1", "potato", 6, in_part=False)
    )
    assert any("1 is full (Bed 1)" in words for words in unmet_whys(last)["w1"])
