"""What is spread on beds, and what is in the shed."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.garden import Dressing, ShedItem, Whole
from planner.garden import edits as e
from planner.garden.conflict_words import conflict_words
from planner.garden.differences import difference_words
from planner.garden.edits import EditError
from planner.garden.join import join
from planner.storage import dump, parse

MARCH = dt.date(2026, 3, 1)
START = garden(bed("b1", name="North"), bed("b2", name="South"), planting("p1", "b1"))


def dressed():
    return e.put_dressing(START, bed="b1", kind="compost", day=MARCH, depth=0.02)[0]


def test_a_dressing_is_added_changed_and_removed():
    there = dressed()
    assert there.dressings == (Dressing(id="d1", bed="b1", kind="compost", day=MARCH, depth=0.02),)
    deeper, key = e.put_dressing(there, "d1", depth=0.05)
    assert (key, deeper.dressings[0].depth) == ("d1", 0.05)
    assert e.put_dressing(there, "d1", depth=0.02)[0] is there
    assert e.remove_material(deeper, "d1") == START


def test_dressings_go_with_their_bed():
    there = dressed()
    assert e.remove(there, ["b1"]).dressings == ()
    assert e.remove(there, ["b2"]).dressings == there.dressings


def test_a_dressing_of_a_planting_goes_with_it():
    there, key = e.put_dressing(START, bed="b1", planting="p1", kind="straw", day=MARCH, depth=0.1)
    assert e.remove(there, ["p1"]).dressings == ()
    assert e.move_planting(there, "p1", "b2", Whole()).dressings == there.dressings
    with pytest.raises(EditError, match="no planting 'p9' to spread it on"):
        e.put_dressing(there, key, planting="p9")
    with pytest.raises(ValueError, match="of planting 'p9', which is not in the garden"):
        there.with_(dressings=(there.dressings[0].with_(planting="p9"),))


def test_a_planting_that_one_removed_stays_for_what_the_other_spreads_on_it():
    theirs = e.put_dressing(START, bed="b1", planting="p1", kind="straw", day=MARCH, depth=0.1)[0]
    assert "p1" in join(START, e.remove(START, ["b1"]), theirs).garden.plantings_by_id


def test_dressings_of_new_plantings_of_two_people_keep_to_their_own():
    mine, first = e.add_planting(START, "b1", "leek", 2026)
    theirs, second = e.add_planting(START, "b2", "pea", 2026)
    theirs = e.put_dressing(theirs, bed="b2", planting=second, kind="straw", day=MARCH, depth=0.1)[0]
    joined = join(START, mine, theirs).garden
    assert first == second
    assert joined.plantings_by_id[joined.dressings[0].planting].crop == "pea"


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"bed": "b9"}, "no bed 'b9'"),
        ({"bed": "b1", "depth": 0.1, "rate": 5.0}, "give one of depth and rate"),
        ({"bed": "b1"}, "give one of depth and rate"),
        ({"bed": "b1", "kind": "lime", "depth": 0.1}, "lime is spread by mass"),
        ({"bed": "b1", "depth": 3.0}, "depth 3.0"),
    ],
)
def test_what_cannot_be_spread_is_one_line(fields, words):
    with pytest.raises(EditError, match=words) as caught:
        e.put_dressing(START, **{"kind": "compost", "day": MARCH, **fields})
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"kind": "fleece", "length": 5.0}, "fleece needs its length and width"),
        ({"kind": "pole"}, "a pole needs its length"),
        ({"kind": "compost"}, "compost needs its litres or grams"),
        ({"kind": "cage", "number": -1}, "number -1"),
    ],
)
def test_what_has_no_size_is_one_line(fields, words):
    with pytest.raises(EditError, match=words) as caught:
        e.put_shed_item(START, **fields)
    assert "\n" not in str(caught.value)


def test_the_shed_is_filled_changed_and_emptied():
    there, key = e.put_shed_item(START, kind="hoop", length=3.0, number=8)
    assert there.shed == (ShedItem(id=key, kind="hoop", length=3.0, number=8),)
    fewer, _ = e.put_shed_item(there, key, number=6)
    assert fewer.shed[0].number == 6
    assert e.remove_material(fewer, key) == START
    with pytest.raises(EditError, match="nothing in the shed with the id 'm9'"):
        e.put_shed_item(there, "m9", number=6)
    with pytest.raises(EditError, match="no dressing"):
        e.remove_material(there, "m9")


def test_what_is_missing_from_a_dressing_of_no_bed():
    with pytest.raises(ValueError, match="spread on bed 'b9', which is not in the garden"):
        START.with_(dressings=(Dressing(id="d1", bed="b9", kind="straw", day=MARCH, depth=0.1),))


def test_both_are_in_the_file():
    there = e.put_shed_item(dressed(), kind="string", length=100.0)[0]
    assert parse(dump(there)) == there
    assert "dressings" not in dump(START)


def test_both_are_joined_by_their_ids():
    base = e.put_shed_item(dressed(), kind="hoop", length=3.0, number=8)[0]
    mine = e.put_dressing(base, "d1", depth=0.05)[0]
    theirs = e.put_shed_item(base, "m1", number=3)[0]
    joined = join(base, mine, theirs)
    assert not joined.conflicts
    assert (joined.garden.dressings[0].depth, joined.garden.shed[0].number) == (0.05, 3)
    other = e.put_dressing(base, "d1", depth=0.1)[0]
    found = join(base, mine, other)
    assert "compost on North" in conflict_words(found.garden, found.conflicts[0])
    assert e.settle(found.garden, found.conflicts[0], take_other=True).dressings[0].depth == 0.1


def test_a_bed_that_one_removed_stays_for_what_the_other_spreads_on_it():
    joined = join(
        START, e.remove(START, ["b2"]), e.put_dressing(START, bed="b2", kind="straw", day=MARCH, depth=0.1)[0]
    )
    assert "b2" in joined.garden.beds_by_id
    assert len(joined.garden.dressings) == 1


def test_both_are_told_in_differences():
    assert difference_words(START, dressed()) == "1 dressing added"
    assert difference_words(START, e.put_shed_item(START, kind="cage")[0]) == "1 material added"
