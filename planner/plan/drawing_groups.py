"""Which plantings of a bed go into one drawing, and the letters of their plots on every sheet and page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from planner.garden import Bed, Planting
from planner.ground.bed_frame import BedFrame
from planner.ground.place import SPECK
from planner.plan import Plan


@dataclass(frozen=True)
class LabelledPlanting:
    """A planting with the letter of its plot on the sheet."""

    letter: str
    planting: Planting


def letter(index: int) -> str:
    """The letter of a plot, counted from 0: A, B ... Z, AA, AB ...

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    text = ""
    number = index + 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(65 + rest) + text
    return text


def drawing_groups(plan: Plan, plantings: Sequence[Planting]) -> tuple[tuple[LabelledPlanting, ...], ...]:
    """Share plantings out over drawings so that none is drawn over another.

    Plantings that follow each other on the same ground come into different drawings, the earlier
    first; those meant to share ground at the same time into the same one.  Days are those of the plan before
    anything was recorded: what happens deals no letters anew.

    Parameters
    ----------
    plan : Plan
    plantings : sequence of Planting
        Of one bed.

    Returns
    -------
    tuple of tuple of LabelledPlanting
        One group a drawing, the letters running through them from left to right; one empty group where
        there are no plantings.
    """
    plan = plan.as_planned
    order = sorted(plantings, key=lambda p: plan.span_of(p).first)
    # Those that stand at the same time are drawn together, where that takes no more drawings.
    groups = min((_shared_out(plan, order, together=one) for one in (True, False)), key=len)
    labelled: list[tuple[LabelledPlanting, ...]] = []
    for group in groups:
        first = sum(map(len, labelled))
        ordered = sorted(group, key=lambda p: _beginning(plan, p))
        labelled.append(tuple(LabelledPlanting(letter(first + k), p) for k, p in enumerate(ordered)))
    return tuple(labelled) or ((),)


def plot_letters(plan: Plan, bed: Bed) -> dict[str, str]:
    """The letters of a bed's plots in the growing year, by the ids of their plantings: the same on sheets and pages.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    """
    groups = drawing_groups(plan, plan.in_bed(bed))
    return {one.planting.id: one.letter for group in groups for one in group}


def _shared_out(plan: Plan, order: Sequence[Planting], *, together: bool) -> list[list[Planting]]:
    """Plantings in groups without a clash, each in the first that takes it or in that with which it stands longest."""
    groups: list[list[Planting]] = []
    for planting in order:
        free = [group for group in groups if not any(_clash(plan, planting, other) for other in group)]
        if not free:
            groups.append([planting])
        elif together:
            max(free, key=lambda group: _days_with(plan, planting, group)).append(planting)
        else:
            free[0].append(planting)
    return groups


def _days_with(plan: Plan, planting: Planting, group: Sequence[Planting]) -> int:
    """Days on which a planting stands beside others of a group, each counted; within the growing year."""
    of = plan.span_of(planting)
    days = 0
    for other in group:
        span = plan.span_of(other)
        first, last = max(of.first, span.first, plan.span.first), min(of.last, span.last, plan.span.last)
        days += max(0, (last - first).days + 1)
    return days


def _beginning(plan: Plan, planting: Planting) -> tuple[float, float]:
    """Where a plot begins on the sheet: along the bed, then from its lower edge. [m]"""
    plot = BedFrame(plan.bed_of(planting)).shape(plan.placed(planting).plot)
    if plot.is_empty:
        return (0.0, 0.0)
    left, low, _, _ = shapely.bounds(plot)
    return (round(float(left), 3), round(float(low), 3))


def _clash(plan: Plan, one: Planting, other: Planting) -> bool:
    """Whether one planting would be drawn over the other, and they are not meant to share ground."""
    first, second = plan.placed(one).plot, plan.placed(other).plot
    if first.is_empty or second.is_empty or shapely.intersection(first, second).area <= SPECK:
        return False
    shared = one.shares_ground or other.shares_ground
    return not (shared and plan.span_of(one).meets(plan.span_of(other)))
