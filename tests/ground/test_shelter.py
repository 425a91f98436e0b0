"""What shelters a bed: a roof over it, a wall behind it on the side away from the sun."""

from __future__ import annotations

import pytest
from making import bed, rectangle

from planner.garden import Structure
from planner.ground.shelter import shelter_of


def structure(key: str, outline, **fields) -> Structure:
    return Structure(id=key, outline=outline, **fields)


BED = bed("b1", rectangle(4, 1.2))


def wall(y: float, length: float = 5.0, kind: str = "wall", **fields):
    return structure("w", rectangle(length, 0.3, center=(0, y)), kind=kind, **{"height": 2.0, **fields})


@pytest.mark.parametrize(
    ("there", "found"),
    [
        ([], ()),
        ([wall(0.8)], ("south wall",)),
        ([wall(-0.8)], ()),
        ([wall(3.0)], ()),
        ([wall(0.8, height=1.0)], ()),
        ([wall(0.8, length=1.0)], ()),
        ([wall(0.8, kind="hedge")], ()),
        ([wall(0.8, kind="shed")], ("south wall",)),
        ([structure("t", rectangle(8, 5), kind="tunnel", height=2.2)], ("tunnel",)),
        ([structure("g", rectangle(8, 5), kind="glasshouse", height=2.2), wall(0.8)], ("glasshouse",)),
        ([structure("t", rectangle(8, 5, center=(5, 0)), kind="tunnel", height=2.2)], ()),
    ],
    ids=[
        "open",
        "north wall",
        "wall to the south",
        "far",
        "low",
        "short",
        "hedge",
        "shed",
        "tunnel",
        "glass",
        "beside",
    ],
)
def test_in_a_northern_garden(there, found):
    assert shelter_of(BED, there, 0.0, southern=False) == found


def test_in_the_south_the_wall_stands_on_the_other_side():
    assert shelter_of(BED, [wall(-0.8)], 0.0, southern=True) == ("south wall",)
    assert shelter_of(BED, [wall(0.8)], 0.0, southern=True) == ()


def test_a_turned_plan_turns_the_sun():
    south_is_up = 180.0
    assert shelter_of(BED, [wall(-0.8)], south_is_up, southern=False) == ("south wall",)
    assert shelter_of(BED, [wall(0.8)], south_is_up, southern=False) == ()


def test_a_bed_under_glass_without_a_drawn_roof_is_in_a_glasshouse():
    assert shelter_of(bed("b1", kind="under glass"), [], 0.0, southern=False) == ("glasshouse",)
    roof = structure("t", rectangle(8, 5), kind="tunnel", height=2.2)
    assert shelter_of(bed("b1", rectangle(4, 1.2), kind="under glass"), [roof], 0.0, southern=False) == (
        "tunnel",
    )
