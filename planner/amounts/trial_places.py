"""Places for a new trial: plots of one bed in blocks of neighbours, the treatments of each block at random.

Conditions change along a bed, light and soil alike.  Plots beside each other are one block, as compact as they can be, so that
treatments are compared under like conditions and what changes along the bed lies between the blocks; chance lays the treatments
out within each (Fisher 1935, The Design of Experiments, chapters II and IV).
"""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from planner.errors import BedwrightError
from planner.garden import Bed, Stretch
from planner.ground.shapes import plot_polygon, shape_to_plan
from planner.ground.stretches import free_stretches
from planner.light import hours_over
from planner.plan import Plan
from planner.season.spans import high_summer
from planner.words import join_list, say

#: Least length of a plot of a trial (practice). [m]
LEAST_PLOT = 0.3
#: Days before and after the middle of summer on which light is measured besides. [days]
AROUND = 45
MOST_PLOTS = 200


class TrialPlacesError(BedwrightError):
    """A trial that cannot be laid out."""


class TrialPlot(NamedTuple):
    """A plot of a trial.

    Attributes
    ----------
    treatment, block : str
    plot : Stretch
        Of the bed. [m]
    hours : float or None
        Direct sun a day from spring to autumn; None where the garden's latitude is not known. [h]
    """

    treatment: str
    block: str
    plot: Stretch
    hours: float | None


def propose_places(
    plan: Plan, bed: Bed, treatments: Sequence[str], blocks: int, seed: int = 0
) -> tuple[TrialPlot, ...]:
    """Places for a trial in the longest free stretch of a bed.

    Parameters
    ----------
    plan : Plan
        Of the growing year.
    bed : Bed
    treatments : sequence of str
        At least two.
    blocks : int
        Each treatment stands once in each; at least 1.
    seed : int
        The same one gives the same places.

    Raises
    ------
    TrialPlacesError
        Where there is too little room, or too little to compare.
    """
    names = list(dict.fromkeys(treatments))
    if len(names) < 2:
        raise TrialPlacesError(
            say("a trial compares at least two treatments"), fix=say("Name two or more that differ")
        )
    count = len(names) * blocks
    if blocks < 1 or count > MOST_PLOTS:
        raise TrialPlacesError(
            say("each stands there at least once, and a trial has at most {most} plots", most=MOST_PLOTS),
            fix=say("Let each stand there less often, or compare fewer"),
        )
    free = free_stretches(bed, plan.free(bed))
    begin, end = max(free, key=lambda one: one[1] - one[0], default=(0.0, 0.0))
    each = (end - begin) / count
    if each < LEAST_PLOT:
        standing = in_the_way(plan, bed)
        raise TrialPlacesError(
            say(
                "{count} plots do not fit there in {year}, when it has {plantings}",
                count=count,
                year=str(plan.year),
                plantings=join_list(standing),
            )
            if standing
            else say("{count} plots do not fit there in {year}", count=count, year=str(plan.year)),
            bed.name,
            say("Let each stand there less often, or take another year or a bed with more free ground"),
        )
    plots = [
        Stretch(start=round(begin + n * each, 3), end=round(begin + (n + 1) * each, 3)) for n in range(count)
    ]
    hours = _hours(plan, bed, plots)
    rng = random.Random(seed)
    found: list[TrialPlot] = []
    for block in range(blocks):
        there = range(block * len(names), (block + 1) * len(names))
        mixed = rng.sample(names, len(names))
        found += [
            TrialPlot(name, str(block + 1), plots[n], hours[n]) for n, name in zip(there, mixed, strict=True)
        ]
    return tuple(found)


def in_the_way(plan: Plan, bed: Bed) -> tuple[str, ...]:
    """What stands in a bed in the plan's growing year, each crop and variety once, in words."""
    names = []
    for planting in plan.plantings:
        if planting.bed == bed.id:
            crop = plan.figures_of(planting).crop
            names.append(f"{crop.name if crop is not None else planting.crop} {planting.variety}".strip())
    return tuple(dict.fromkeys(names))


def _hours(plan: Plan, bed: Bed, plots: Sequence[Stretch]) -> list[float | None]:
    """Direct sun of each plot of a bed, as its soil gets it when nothing grows in it. [h]"""
    if plan.garden.site.latitude is None:
        return [None] * len(plots)
    ground = plan.ground_of(bed)
    receivers = [
        replace(ground, key=str(n), shape=shape_to_plan(bed.outline, plot_polygon(bed, plot)))
        for n, plot in enumerate(plots)
    ]
    middle = high_summer(plan.garden.site, plan.year)
    days = tuple((middle + dt.timedelta(days=n), 1 / 3) for n in (-AROUND, 0, AROUND))
    light = hours_over(receivers, plan.place, days, plan.casters)
    return [light[str(n)].mean if str(n) in light else None for n in range(len(plots))]
