"""The order in which one walks to the beds: by hand, else a short round from the gate."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Bed, Structure
from planner.garden.outlines import Outline
from planner.ground.shapes import plan_polygon

#: Up to this many beds a round is shortened by turning stretches of it round; of more it stays the nearest bed after each bed.
MOST_SHORTENED = 400
#: Gains below this end the search. [m]
_LEAST_GAIN = 1e-6

Points = NDArray[np.float64]


class WalkInputs(NamedTuple):
    """What the walking order depends on."""

    beds: tuple[Bed, ...]
    gates: tuple[Outline, ...]
    by_hand: tuple[str, ...]


def walking_order(inputs: WalkInputs) -> tuple[Bed, ...]:
    """The beds in the order in which one walks to them.

    Those that were put in order by hand come first, in that order; the others are on a short round from the first gate and
    back to it, from the first bed where there is no gate.

    Parameters
    ----------
    inputs : WalkInputs
    """
    known = {bed.id: bed for bed in inputs.beds}
    by_hand = [known[key] for key in dict.fromkeys(inputs.by_hand) if key in known]
    placed = {bed.id for bed in by_hand}
    others = [bed for bed in inputs.beds if bed.id not in placed]
    if len(others) < 2:
        return (*by_hand, *others)
    points = middles([bed.outline for bed in others])
    if by_hand:
        start = middles([by_hand[-1].outline])[0]
    elif inputs.gates:
        start = middles(inputs.gates[:1])[0]
    else:
        start = points[0]
    return (*by_hand, *(others[number] for number in short_round(start, points)))


def middles(outlines: Sequence[Outline]) -> Points:
    """Middles of outlines on the plan (n, 2). [m]"""
    found: Points = shapely.get_coordinates(shapely.centroid([plan_polygon(one) for one in outlines]))
    return found


def short_round(start: Points, points: Points) -> list[int]:
    """The order of a short round from a place over all points and back.

    From the start always the nearest point next; then stretches of the round are walked the other way round as long as that
    makes it shorter (2-opt).

    Parameters
    ----------
    start : ndarray (2,)
        [m]
    points : ndarray (n, 2)
        [m]

    Returns
    -------
    list of int
        Numbers of the points.
    """
    left = list(range(len(points)))
    order: list[int] = []
    at = start
    while left:
        far = np.hypot(*(points[left] - at).T)
        order.append(left.pop(int(np.argmin(far))))
        at = points[order[-1]]
    if len(order) > MOST_SHORTENED:
        return order
    return _shortened(np.vstack([start, points]), [0, *(number + 1 for number in order)])


def _shortened(places: Points, tour: list[int]) -> list[int]:
    """Turn stretches of a round about while that makes it shorter; its first place stays the first."""
    far = np.hypot(*(places[:, None, :] - places[None, :, :]).transpose(2, 0, 1))
    size = len(tour)
    while True:
        now = np.asarray(tour)
        after = np.roll(now, -1)
        links = far[now, after]
        # Of the stretch from the place after i to j: its two links are replaced by those of its ends the other way round.
        gain = links[:, None] + links[None, :] - far[np.ix_(now, now)] - far[np.ix_(after, after)]
        gain[np.tril_indices(size)] = 0.0
        i, j = divmod(int(np.argmax(gain)), size)
        if gain[i, j] <= _LEAST_GAIN:
            return [number - 1 for number in tour[1:]]
        tour[i + 1 : j + 1] = reversed(tour[i + 1 : j + 1])


def gates_of(structures: Sequence[Structure], year: int) -> tuple[Outline, ...]:
    """Outlines of the gates that are there in a growing year."""
    return tuple(one.outline for one in structures if one.kind == "gate" and one.in_use(year))
