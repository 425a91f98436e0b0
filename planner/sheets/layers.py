"""Which plantings of a bed go into one drawing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from planner.garden import Planting
from planner.ground.place import SPECK
from planner.plan import Plan


@dataclass(frozen=True)
class Lettered:
    """A planting with the letter its plot carries on the sheet."""

    letter: str
    planting: Planting


def letter(index: int) -> str:
    """A, B ... Z, AA, AB ...

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    text = ""
    number = index + 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(65 + rest) + text
    return text


def lettered(plan: Plan, plantings: Sequence[Planting]) -> tuple[Lettered, ...]:
    """Plantings in the order they come, each with its letter."""
    order = sorted(
        range(len(plantings)),
        key=lambda k: (plan.span_of(plantings[k]).first, _place(plan, plantings[k]), k),
    )
    return tuple(Lettered(letter(n), plantings[k]) for n, k in enumerate(order))


def _place(plan: Plan, planting: Planting) -> tuple[float, float]:
    plot = plan.placed(planting).plot
    if plot.is_empty:
        return (0.0, 0.0)
    left, low, _, _ = shapely.bounds(plot)
    return (round(float(left), 3), round(float(low), 3))


def layers(plan: Plan, entries: Sequence[Lettered]) -> tuple[tuple[Lettered, ...], ...]:
    """Plantings shared out over drawings so that none is drawn over another.

    Plantings that follow each other on the same ground come into different drawings; those meant
    to share ground at the same time into the same one.  There is always one drawing at least.
    """
    found: list[list[Lettered]] = []
    for entry in entries:
        for layer in found:
            if not any(_clash(plan, entry.planting, other.planting) for other in layer):
                layer.append(entry)
                break
        else:
            found.append([entry])
    return tuple(tuple(layer) for layer in found) or ((),)


def _clash(plan: Plan, one: Planting, other: Planting) -> bool:
    first, second = plan.placed(one).plot, plan.placed(other).plot
    if first.is_empty or second.is_empty or shapely.intersection(first, second).area <= SPECK:
        return False
    shared = one.shares_ground or other.shares_ground
    return not (shared and plan.span_of(one).meets(plan.span_of(other)))
