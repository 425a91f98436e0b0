"""What is bought to be cut is enough: once it is there nothing is bought, and each piece comes from somewhere."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from making import bed, garden

from planner.amounts.materials import ANY, Material, Sort, materials_of
from planner.amounts.sharing import Job
from planner.garden import ShedItem
from planner.ground.covers import OVERLAP
from planner.plan import Plan

MAY, JUNE = dt.date(2026, 5, 1), dt.date(2026, 6, 30)
SORTS = (ANY, Sort(mesh=0.0013), Sort(mesh=0.007))

sizes = st.tuples(st.integers(10, 180), st.integers(3, 55)).map(lambda size: (size[0] / 10, size[1] / 10))
wanted = st.lists(
    st.tuples(sizes, st.integers(1, 4), st.sampled_from(SORTS), st.booleans()), min_size=1, max_size=7
)
stored = st.lists(st.tuples(sizes, st.integers(1, 2), st.sampled_from(SORTS), st.booleans()), max_size=4)
lengths = st.lists(st.tuples(st.integers(5, 90), st.integers(1, 9)), min_size=1, max_size=5)


def material(kind: str, shed: tuple[ShedItem, ...], jobs: list[Job]) -> Material:
    (found,) = materials_of(Plan(garden(bed(), shed=shed), 2026), {kind: jobs})
    return found


def bought(found: Material) -> int:
    return sum(one.cuts.bought for one in found.cuttings)


def ordered_for(found: Material) -> tuple[ShedItem, ...]:
    """What its cut lists say is to be bought, to be cut, and what is longer than any as whole pieces."""
    items = []
    for cutting in found.cuttings:
        plain = {
            "kind": found.kind,
            "mesh": cutting.sort.mesh,
            "width": cutting.width or None,
            "ordered": True,
        }
        for length, number in cutting.cuts.bars(on_hand=False).items():
            items.append({**plain, "length": length / 1000, "number": number, "uncut": True})
        for length, number in cutting.cuts.too_long:
            items.append({**plain, "length": length / 1000, "number": number})
    return tuple(ShedItem(id=f"o{n}", **fields) for n, fields in enumerate(items))


def hold(found: Material) -> None:
    """Pieces are no longer than what they are cut from, parts make up their whole, and sources are not counted twice."""
    for cutting in found.cuttings:
        for cut in cutting.cuts.cuts:
            assert cut.rest >= 0
            assert not cut.width or cut.width >= round(cutting.strip * 1000) - 1
        for one in cutting.cuts.joined:
            longest = max(cut.bar for cut in cutting.cuts.cuts)
            assert all(part <= longest for part in one.parts)
            laps = sum(one.parts) - one.length
            assert laps == (len(one.parts) - 1) * round(OVERLAP * 1000) or not cutting.width
    new = [pile for pile in found.piles if pile.origin == "new"]
    assert all(pile.cut >= 0 and pile.cut_of_order >= 0 for pile in new)
    got = all(pile.cut + pile.cut_of_order == pile.number for pile in new)
    too_long = any(one.cuts.too_long for one in found.cuttings)
    assert got is not (bought(found) > 0 or too_long)


def cuts_are_from(found: Material, shed: tuple[ShedItem, ...]) -> None:
    """What is cut of the shed is there: bars by their length, sheets by their area."""
    there = sum((one.length or 0.0) * (one.width or 1.0) * one.number for one in shed)
    taken = sum(
        cut.bar * cut.times * (cutting.strip * 1000 if cutting.width else 1000)
        for cutting in found.cuttings
        for cut in cutting.cuts.cuts
        if cut.on_hand
    )
    assert taken / 1e6 <= there + 1e-6


def shed_of(kind: str, pieces: list) -> tuple[ShedItem, ...]:
    return tuple(
        ShedItem(id=f"m{n}", kind=kind, length=max(size), width=min(size), number=number, mesh=sort.mesh, uncut=uncut)
        for n, (size, number, sort, uncut) in enumerate(pieces)
    )  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(wanted, stored)
def test_nothing_is_bought_once_what_the_cut_list_of_sheets_says_is_ordered(pieces, there):
    shed = shed_of("netting", there)
    jobs = [
        Job(f"{n}", MAY if early else JUNE, JUNE, size, number, sort)
        for n, (size, number, sort, early) in enumerate(pieces)
    ]
    found = material("netting", shed, jobs)
    hold(found)
    cuts_are_from(found, shed)
    orders = ordered_for(found)
    after = material("netting", (*shed, *orders), jobs)
    hold(after)
    cuts_are_from(after, (*shed, *orders))
    assert bought(after) == 0
    arrived = material("netting", (*shed, *(one.with_(ordered=False) for one in orders)), jobs)
    hold(arrived)
    assert bought(arrived) == 0
    assert not any(pile.cut_of_order for pile in arrived.piles)


@pytest.mark.parametrize("kind", ["rail", "post", "wire"])
@settings(max_examples=25, deadline=None)
@given(
    pieces=lengths,
    there=st.lists(st.tuples(st.integers(5, 60), st.integers(1, 3), st.booleans()), max_size=3),
)
def test_nothing_is_bought_once_what_the_cut_list_of_bars_says_is_ordered(kind, pieces, there):
    shed = tuple(
        ShedItem(id=f"m{n}", kind=kind, length=length / 10, number=number, uncut=uncut, width=2.1)
        for n, (length, number, uncut) in enumerate(there)
    )
    jobs = [Job(f"{n}", MAY, JUNE, (length / 10,), number) for n, (length, number) in enumerate(pieces)]
    found = material(kind, shed, jobs)
    hold(found)
    orders = ordered_for(found)
    after = material(kind, (*shed, *orders), jobs)
    hold(after)
    assert bought(after) == 0
    assert not any(one.cuts.too_long for one in after.cuttings)
    arrived = material(kind, (*shed, *(one.with_(ordered=False) for one in orders)), jobs)
    hold(arrived)
    assert bought(arrived) == 0


def test_a_sheet_of_two_strips_from_the_shed_is_one_that_is_not_bought():
    roll = ShedItem(id="m1", kind="netting", length=20.0, width=4.0, uncut=True)
    found = material("netting", (roll,), [Job("wide", MAY, JUNE, (6.0, 5.0), 1, ANY)])
    (pile,) = found.piles
    assert (bought(found), pile.number, pile.cut, pile.cut_of_order) == (0, 1, 1, 0)


def test_many_rails_that_are_joined_are_not_bought_again():
    pieces = {6.7: 29, 6.1: 10, 5.3: 10, 2.1: 12, 2.0: 13, 0.8: 23}
    jobs = [Job(f"{length}", MAY, JUNE, (length,), number) for length, number in pieces.items()]
    orders = ordered_for(material("rail", (), jobs))
    assert bought(material("rail", orders, jobs)) == 0


def test_what_is_there_is_cut_before_what_is_ordered():
    roll = ShedItem(id="m1", kind="netting", length=5.0, width=2.0, uncut=True)
    coming = roll.with_(id="m2", ordered=True)
    jobs = [Job(key, MAY, JUNE, (4.8, 1.9), 1, ANY) for key in "ab"]
    (first, second) = material("netting", (coming, roll), jobs).piles
    assert (first.cut, first.cut_of_order) == (1, 0)
    assert (second.cut, second.cut_of_order) == (0, 1)


def test_a_long_rail_of_parts_from_the_shed_is_not_bought():
    shed = (ShedItem(id="m1", kind="rail", length=4.8, number=2),)
    found = material("rail", shed, [Job("a", MAY, JUNE, (9.0,), 1)])
    (pile,) = found.piles
    assert (bought(found), pile.cut) == (0, 1)
