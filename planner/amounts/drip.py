"""Drip lines of beds that are watered by them: where they lie, their emitters, flow, zones and run time.

A line lies along each row; where rows are near, one line waters two.  How far emitters are apart, what they give and how much
a zone may take is common practice (``crop_water.toml``).
"""

from __future__ import annotations

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple

import numpy as np
import shapely

from planner.amounts.sharing import Job
from planner.crops.crop_water import water_figures
from planner.garden import Bed, Planting
from planner.garden.materials import MaterialKind
from planner.garden.soil import Texture
from planner.ground.place import Placed
from planner.ground.shapes import bed_axis, bed_polygon, turned
from planner.plan import Plan
from planner.plan.cache import fact
from planner.plan.walking import beds_in_walking_order, walk_from
from planner.plan.water import soil_texture
from planner.season.spans import Span
from planner.words import say

#: Soils in which water spreads little, and far.
_COARSE: tuple[Texture, ...] = ("sand", "loamy sand", "peat")
_FINE: tuple[Texture, ...] = ("clay", "silty clay", "sandy clay", "clay loam", "silty clay loam")
#: Shorter pieces of line are not laid. [m]
_SHORTEST = 0.15
#: Pieces of line are cut to such steps. [m]
_STEP = 0.05

Point = tuple[float, float]


class DripLine(NamedTuple):
    """One line, straight, in its bed's coordinates. [m]"""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """[m]"""
        return math.dist(self.start, self.end)

    def emitters(self, apart: float) -> int:
        """Emitters on it, so far apart. [m]"""
        return max(int(self.length / apart + 1e-9) + 1, 1)


class DripPlanting(NamedTuple):
    """The lines of a planting, on the days on which it stands.

    Attributes
    ----------
    planting : Planting
    lines : tuple of DripLine
    first, last : date
    emitters : int
    flow : float
        Of all of them. [l/h]
    """

    planting: Planting
    lines: tuple[DripLine, ...]
    first: dt.date
    last: dt.date
    emitters: int
    flow: float

    @property
    def length(self) -> float:
        """Of all its lines. [m]"""
        return math.fsum(one.length for one in self.lines)


class DripBed(NamedTuple):
    """A bed with drip lines.

    Attributes
    ----------
    bed : Bed
    spacing : float
        Between emitters. [m]
    plantings : tuple of DripPlanting
    header : float
        Pipe across the bed from which its lines branch off. [m]
    """

    bed: Bed
    spacing: float
    plantings: tuple[DripPlanting, ...]
    header: float

    def on(self, day: dt.date) -> tuple[DripPlanting, ...]:
        """Lines that lie on a day."""
        return tuple(one for one in self.plantings if one.first <= day <= one.last)

    @property
    def flow(self) -> float:
        """Most that its lines take at a time. [l/h]"""
        days = {one.first for one in self.plantings}
        return max((math.fsum(one.flow for one in self.on(day)) for day in days), default=0.0)

    def hours(self, litres: float, week_of: dt.date) -> float | None:
        """How long its lines run for so many litres at the roots in the week of a Monday; None where none lie then. [h]"""
        flow = max(
            math.fsum(one.flow for one in self.on(week_of + dt.timedelta(days=day))) for day in range(7)
        )
        return litres / water_figures().number("drip_efficiency") / flow if flow > 0 else None


class DripZone(NamedTuple):
    """Beds that are watered together.

    Attributes
    ----------
    beds : tuple of DripBed
    flow : float
        [l/h]
    supply : float
        Pipe from the tap, from bed to bed; 0 where no tap is drawn. [m]
    """

    beds: tuple[DripBed, ...]
    flow: float
    supply: float


class LineInputs(NamedTuple):
    """Where a planting's lines lie depends on this."""

    bed: Bed
    placed: Placed


@fact("drip lines")
def lines_of_planting(inputs: LineInputs) -> tuple[DripLine, ...]:
    """Lines along the rows of a planting; across its plot where it has no rows."""
    rows = inputs.placed.layout.rows
    apart = water_figures().number("line_apart")
    if not rows:
        return _over_plot(inputs.bed, inputs.placed.plot, apart)
    by_line: dict[int, list[DripLine]] = defaultdict(list)
    across: dict[int, float] = {}
    for row in rows:
        by_line[row.index].append(DripLine(row.start, row.end))
        across[row.index] = row.across
    found: list[DripLine] = []
    order = sorted(by_line)
    place = 0
    while place < len(order):
        here = order[place]
        pair = order[place + 1] if place + 1 < len(order) else None
        near = pair is not None and across[pair] - across[here] < apart - 1e-9
        if pair is not None and near:
            found += _between(by_line[here], by_line[pair])
            place += 2
        else:
            found += by_line[here]
            place += 1
    return tuple(one for one in found if one.length >= _SHORTEST)


def _between(one: list[DripLine], other: list[DripLine]) -> list[DripLine]:
    """Lines between two rows: midway where both have as many pieces, else along the longer one."""
    if len(one) != len(other):
        return max(one, other, key=lambda lines: math.fsum(line.length for line in lines))
    return [
        DripLine(_middle(left.start, right.start), _middle(left.end, right.end))
        for left, right in zip(one, other, strict=True)
    ]


def _middle(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def _over_plot(bed: Bed, plot: shapely.Geometry, apart: float) -> tuple[DripLine, ...]:
    """Lines over a plot along the bed's long axis, evenly apart and no farther than two rows that share one."""
    if plot.is_empty:
        return ()
    axis = bed_axis(bed.outline)
    along = turned(plot, -axis)
    left, low, right, high = along.bounds
    count = max(math.ceil((high - low) / apart - 1e-9), 1)
    found = []
    for number in range(count):
        y = low + (number + 0.5) * (high - low) / count
        cut = along.intersection(shapely.LineString([(left - 1, y), (right + 1, y)]))
        for piece in shapely.get_parts(cut):
            if piece.geom_type == "LineString" and piece.length >= _SHORTEST:
                ends = shapely.get_coordinates(turned(piece, axis))
                found.append(DripLine(tuple(ends[0].tolist()), tuple(ends[-1].tolist())))
    return tuple(found)


def emitter_spacing(texture: Texture) -> float:
    """How far emitters are apart in a soil. [m]"""
    number = water_figures().number
    if texture in _COARSE:
        return number("emitter_sand")
    return number("emitter_clay" if texture in _FINE else "emitter_loam")


def drip_beds(plan: Plan) -> tuple[DripBed, ...]:
    """The beds of a plan that drip lines water, in walking order.

    Parameters
    ----------
    plan : Plan
    """
    flow = water_figures().number("emitter_flow")
    found = []
    for bed in beds_in_walking_order(plan):
        if not bed.drip_lines:
            continue
        spacing = emitter_spacing(soil_texture(plan.garden.soil_of(bed), bed)[0])
        there = []
        for planting in plan.in_bed(bed):
            lines = plan.cached(lines_of_planting, planting.id, LineInputs(bed, plan.placed(planting)))
            span: Span = plan.span_of(planting)
            if lines:
                emitters = sum(one.emitters(spacing) for one in lines)
                first, last = max(span.first, plan.span.first), min(span.last, plan.span.last)
                there.append(DripPlanting(planting, lines, first, last, emitters, emitters * flow))
        if there:
            left, low, right, high = turned(bed_polygon(bed), -bed_axis(bed.outline)).bounds
            found.append(DripBed(bed, spacing, tuple(there), min(right - left, high - low)))
    return tuple(found)


def drip_zones(plan: Plan, beds: Iterable[DripBed] | None = None) -> tuple[DripZone, ...]:
    """Beds put together into zones that a tap can feed, in walking order.

    A zone takes no more than a garden tap gives at low pressure; a bed that takes more alone is a zone of its own.

    Parameters
    ----------
    plan : Plan
    beds : iterable of DripBed, optional
        Those of the plan.
    """
    most = water_figures().number("zone_flow")
    from_tap = walk_from(plan, "tap")
    groups: list[list[DripBed]] = []
    for one in beds if beds is not None else drip_beds(plan):
        if groups and math.fsum(bed.flow for bed in groups[-1]) + one.flow <= most:
            groups[-1].append(one)
        else:
            groups.append([one])
    return tuple(
        DripZone(tuple(group), math.fsum(one.flow for one in group), _supply(group, from_tap))
        for group in groups
    )


def _supply(group: list[DripBed], from_tap: dict[str, float]) -> float:
    """Pipe to the nearest bed of a zone, and from each bed to the next one."""
    ways = [from_tap[one.bed.id] for one in group if one.bed.id in from_tap]
    if not ways:
        return 0.0
    middles = np.array([one.bed.outline.center for one in group], dtype=np.float64)
    between = float(np.hypot(*np.diff(middles, axis=0).T).sum()) if len(group) > 1 else 0.0
    return min(ways) + between


def drip_jobs(plan: Plan) -> dict[MaterialKind, list[Job]]:
    """Lines, pipe and fittings of a growing year, by kind of material.

    Each line needs a branch from its header and a stop; each zone one pressure reducer with a filter.
    """
    jobs: dict[MaterialKind, list[Job]] = defaultdict(list)
    beds = drip_beds(plan)
    for one in beds:
        for part in one.plantings:
            sizes: dict[float, int] = defaultdict(int)
            for line in part.lines:
                sizes[math.ceil(line.length / _STEP - 1e-9) * _STEP] += 1
            key = _key(part.planting.id)
            for size, number in sorted(sizes.items()):
                jobs["drip line"].append(Job(key, part.first, part.last, (round(size, 2),), number))
            jobs["drip branch"].append(Job(key, part.first, part.last, (), len(part.lines)))
            jobs["drip stop"].append(Job(key, part.first, part.last, (), len(part.lines)))
        first, last = min(p.first for p in one.plantings), max(p.last for p in one.plantings)
        jobs["water pipe"].append(Job(_key(one.bed.id), first, last, (round(one.header, 2),), 1))
    for zone in drip_zones(plan, beds):
        key = _key(zone.beds[0].bed.id)
        first = min(p.first for one in zone.beds for p in one.plantings)
        last = max(p.last for one in zone.beds for p in one.plantings)
        jobs["pressure reducer"].append(Job(key, first, last, (), 1))
        if zone.supply > 0:
            jobs["water pipe"].append(Job(key, first, last, (round(zone.supply, 1),), 1))
    return dict(jobs)


def _key(key: str) -> str:
    """Key of the jobs of a planting or bed."""
    return f"drip/{key}"


def drip_names(plan: Plan) -> dict[str, str]:
    """What each job of :func:`drip_jobs` is for, in words, by its key."""
    found = {}
    for one in drip_beds(plan):
        found[_key(one.bed.id)] = one.bed.name
        for part in one.plantings:
            crop = plan.figures_of(part.planting).crop
            found[_key(part.planting.id)] = say(
                "{planting} in {bed}",
                planting=crop.name if crop is not None else part.planting.crop,
                bed=one.bed.name,
            )
    return found


def drip_plantings(plan: Plan) -> dict[str, tuple[str, ...]]:
    """Ids of the plantings that each job of :func:`drip_jobs` serves, by its key."""
    found: dict[str, tuple[str, ...]] = {}
    for one in drip_beds(plan):
        found[_key(one.bed.id)] = tuple(part.planting.id for part in one.plantings)
        found |= {_key(part.planting.id): (part.planting.id,) for part in one.plantings}
    return found
