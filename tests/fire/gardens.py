"""Random gardens for the attacks."""

from __future__ import annotations

from random import Random

from making import bed, garden, planting
from random_edits import random_edit

from planner.garden import Garden, Stretch


def random_garden(rng: Random, steps: int = 20) -> Garden:
    """A garden after some random edits."""
    now = garden(bed("b1", name="Bed 1"), planting("p1", plot=Stretch(start=0, end=1)))
    for _ in range(steps):
        now = random_edit(rng, now) or now
    return now
