"""What an edited garden knows of its ids from the one before, against looking at all of it."""

from __future__ import annotations

from random import Random

import pytest
from making import bed, garden, planting
from pydantic import ValidationError
from random_edits import random_edit

from planner.garden import Garden


def test_an_edited_garden_knows_its_ids_as_if_it_were_new():
    handed_on = 0
    for seed in range(12):
        rng, now = Random(seed), garden(bed("b1", name="Bed 1"), planting("p1"))
        for _ in range(40):
            _ = now.every_id, now.highest_numbers, now.positions
            now = random_edit(rng, now) or now
            handed_on += "every_id" in now.__dict__
            now._check_references()
            new = Garden.model_construct(**{name: getattr(now, name) for name in Garden.model_fields})
            assert now.every_id == new.every_id
            assert now.highest_numbers == new.highest_numbers
            assert now.positions == new.positions
    assert handed_on > 100


@pytest.mark.parametrize(
    "added",
    [
        {"plantings": (planting("b1"),)},
        {"plantings": (planting("p2"), planting("p2"))},
        {"plantings": (planting("p2", bed="b9"),)},
        {"plantings": (planting("p2", replaces="p9"),)},
        {"plantings": (planting("p2", repeats="p9"),)},
        {"beds": (bed("p1"),)},
        {"beds": (bed("b2"),), "plantings": (planting("b2"),)},
    ],
    ids=str,
)
def test_what_is_added_must_have_an_id_of_its_own_and_name_what_is_there(added):
    now = garden(bed("b1"), planting("p1"))
    _ = now.every_id
    with pytest.raises(ValidationError):
        now.with_(**{part: (*getattr(now, part), *things) for part, things in added.items()})


def test_a_planting_may_come_with_its_bed():
    now = garden(bed("b1"), planting("p1"))
    after = now.with_(beds=(*now.beds, bed("b2")), plantings=(*now.plantings, planting("p2", bed="b2")))
    assert after.plantings[1].bed == after.beds[1].id
