"""What is in the shed is cut and joined before anything is bought."""

from __future__ import annotations

import datetime as dt

import pytest
from divided_sheets import held_by
from hypothesis import given, settings
from hypothesis import strategies as st
from making import bed, garden

from planner.amounts.materials import ANY, Material, Sort, materials_of
from planner.amounts.sharing import Job
from planner.garden import ShedItem
from planner.ground.covers import OVERLAP
from planner.plan import Plan

MAY, JUNE = dt.date(2026, 5, 1), dt.date(2026, 6, 30)


def nets(*sizes: tuple[float, float], kind: str = "netting") -> tuple[ShedItem, ...]:
    return tuple(
        ShedItem(id=f"m{i}", kind=kind, length=length, width=width) for i, (length, width) in enumerate(sizes)
    )


def material(shed: tuple[ShedItem, ...], *jobs: Job, kind: str = "netting") -> Material:
    (found,) = materials_of(Plan(garden(bed(), shed=shed), 2026), {kind: list(jobs)})
    return found


def sheet(key: str, length: float, width: float = 1.9, first: dt.date = MAY, last: dt.date = JUNE) -> Job:
    return Job(key, first, last, (length, width), 1, ANY)


def bought(found: Material) -> int:
    return sum(one.cuts.bought for one in found.cuttings)


@settings(max_examples=120, deadline=None)
@given(
    st.lists(st.integers(2, 12), min_size=1, max_size=3).filter(lambda sheets: sum(sheets) <= 20),
    st.lists(st.integers(2, 12), min_size=1, max_size=3),
)
def test_nothing_is_bought_where_brute_force_finds_a_way_to_cut_it_from_the_shed(sheets, there):
    unit = OVERLAP  # so that an overlap is a whole number
    # As narrow as the shortest is long: nothing is turned.
    shed = nets(*((round(length * unit, 3), 0.7) for length in there))
    found = material(shed, *(sheet(f"{i}", round(length * unit, 3), 0.7) for i, length in enumerate(sheets)))
    assert (bought(found) == 0) is held_by(sheets, there, 1)


def test_two_small_nets_are_joined_for_a_long_bed():
    found = material(nets((6, 2), (6, 2)), sheet("long", 11.2))
    assert bought(found) == 0
    assert [pile.cut for pile in found.piles] == [1]


def test_a_large_net_is_cut_for_both_beds_side_by_side_and_one_after_the_other():
    found = material(nets((20, 4)), sheet("a", 11.2), sheet("b", 5.9), sheet("c", 17.0), sheet("d", 3.0))
    assert bought(found) == 0
    assert found.cuttings[0].strip == pytest.approx(1.9)
    assert sum(cut.times for cut in found.cuttings[0].cuts.cuts) == 2, "two strips"


def test_a_large_net_stays_whole_where_a_smaller_one_serves():
    found = material(nets((8, 2), (2, 2)), sheet("a", 1.9), sheet("b", 7.0))
    assert {pile.key: pile.size[0] for pile in found.piles} == {"m1": 2.0, "m0": 8.0}
    assert not found.cuttings


def test_a_piece_that_is_cut_stays_cut_for_the_year():
    # 8 m would serve whole in August, were it not cut for the two sheets of spring.
    spring, summer = dt.date(2026, 3, 1), dt.date(2026, 8, 1)
    early = [sheet("a", 3.9, first=spring, last=MAY), sheet("b", 3.9, first=spring, last=MAY)]
    late = sheet("c", 7.9, first=summer, last=dt.date(2026, 9, 1))
    assert bought(material(nets((8, 2)), *early)) == 0
    both = material(nets((8, 2)), *early, late)
    assert bought(both) > 0
    held = [pile for pile in both.piles if pile.origin == "new"]
    assert sum(pile.size[0] for pile in held if pile.cut) <= 8.0


def test_what_lies_since_last_year_is_not_cut_for_another():
    old = sheet("old", 5.9, first=dt.date(2025, 10, 1), last=JUNE)
    found = material(nets((6, 2)), old, sheet("new", 5.9))
    assert bought(found) > 0
    assert {pile.key: pile.uses[0].job.key for pile in found.piles} == {"m0": "old", "": "new"}


def test_fleece_of_another_weight_is_not_cut():
    shed = (ShedItem(id="m1", kind="fleece", length=20.0, width=2.0, weight=17.0),)
    jobs = [Job(key, MAY, JUNE, (5.0, 1.9), 1, Sort(weight=30.0)) for key in "ab"]
    assert bought(material(shed, *jobs, kind="fleece")) > 0
    jobs = [Job(key, MAY, JUNE, (5.0, 1.9), 1, Sort(weight=17.0)) for key in "ab"]
    assert bought(material(shed, *jobs, kind="fleece")) == 0


def test_one_pole_is_cut_for_two_stakes_before_one_is_bought():
    shed = (ShedItem(id="m1", kind="stake", length=3.0),)
    jobs = [Job("a", MAY, JUNE, (1.6,), 1), Job("b", MAY, JUNE, (1.3,), 1)]
    assert bought(material(shed, *jobs, kind="stake")) == 0


def test_a_long_rail_is_joined_and_a_long_post_is_not():
    rail = material((), Job("a", MAY, JUNE, (10.0,), 1), kind="rail")
    (cutting,) = rail.cuttings
    (joined,) = cutting.cuts.joined
    assert sum(joined.parts) == joined.length + 300 * (len(joined.parts) - 1)
    post = material((), Job("a", MAY, JUNE, (4.0,), 2), kind="post")
    assert post.cuttings[0].cuts.too_long == ((4000, 2),)
