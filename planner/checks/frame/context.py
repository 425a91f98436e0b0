"""Context of one run of the checks: the views of a plan's plantings, and which of them are near each other."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely

from planner.checks.frame.finding import Candidate, Finding, KeyPart, Severity, key_of
from planner.checks.frame.planting_view import NOWHERE, PlantingView, planting_views
from planner.garden import Bed, Outline, Planting, Structure
from planner.ground.obstacles import footprint
from planner.ground.shapes import plan_polygon
from planner.lazy import lazy_property
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.spans import Span

#: Greatest distance of plantings that are compared in pairs. [m]
NEAR = 1.25


class SolidInputs(NamedTuple):
    """A structure."""

    structure: Structure


@fact("solid ground")
def solid_ground(inputs: SolidInputs) -> shapely.Geometry:
    """Ground on the plan that a structure takes. [m]"""
    return footprint(inputs.structure)


class OutlineInputs(NamedTuple):
    """Of a bed."""

    outline: Outline


@fact("outline on plan")
def outline_on_plan(inputs: OutlineInputs) -> shapely.Polygon:
    """A bed on the plan. [m]

    It is never prepared: several threads read it, and what GEOS prepares is built up at its use by whichever comes first.
    """
    return plan_polygon(inputs.outline)


@dataclass(frozen=True, eq=False)
class Pair:
    """Two plantings near each other on the same days, in the order of their ids.

    Attributes
    ----------
    one, other : PlantingView
    days : Span
        Shared days, within the growing year.
    apart : float
        Distance of their plots. [m]
    """

    one: PlantingView
    other: PlantingView
    days: Span
    apart: float


class Part(NamedTuple):
    """A part of a garden that is checked by itself.

    Attributes
    ----------
    plantings : tuple of Planting
        Of any growing year.
    beds : tuple of Bed
        Whether in use or not.
    arches : frozenset of str
        Ids of the arches that are judged.
    """

    plantings: tuple[Planting, ...]
    beds: tuple[Bed, ...]
    arches: frozenset[str]


class CheckContext:
    """Context shared by all checks of one run: the plan and its cached views.

    Parameters
    ----------
    plan : Plan
    lore : bool
        Whether rules that are only handed down count.
    part : Part, optional
        The part of the garden that is looked at; all of it by default.
    kept : dict, optional
        What checks over the whole garden keep for the run after an edit, by the name of the check; filled by them.
    """

    def __init__(
        self,
        plan: Plan,
        lore: bool = False,
        part: Part | None = None,
        kept: dict[str, object] | None = None,
    ) -> None:
        self.plan = plan
        self.lore = lore
        self.part = part
        self.kept = kept if kept is not None else {}
        self.units = plan.garden.site.units

    @lazy_property
    def views(self) -> tuple[PlantingView, ...]:
        """Views of the plantings of the growing year, by id."""
        plan = self.plan
        if self.part is None:
            return planting_views(plan, plan.plantings)
        return planting_views(plan, (p for p in self.part.plantings if plan.span_of(p).meets(plan.span)))

    @property
    def plantings(self) -> tuple[Planting, ...]:
        """Plantings of all growing years, in no order that counts."""
        return self.plan.garden.plantings if self.part is None else self.part.plantings

    @lazy_property
    def by_id(self) -> dict[str, PlantingView]:
        """The views, keyed by the ids of their plantings."""
        return {view.id: view for view in self.views}

    @lazy_property
    def pairs(self) -> tuple[Pair, ...]:
        """Plantings near each other on at least two shared days, ordered by their ids."""
        there = [view for view in self.views if not view.placed.plot.is_empty]
        if len(there) < 2:
            return ()
        plots = np.array([view.plot for view in there])
        left, low, right, high = shapely.bounds(plots).T
        boxes = shapely.box(left - NEAR, low - NEAR, right + NEAR, high + NEAR)
        first, second = shapely.STRtree(plots).query(boxes)
        ordered = first < second
        first, second = first[ordered], second[ordered]
        year = self.plan.span
        begin = np.array([max(view.span.first, year.first).toordinal() for view in there])
        end = np.array([min(view.span.last, year.last).toordinal() for view in there])
        begin, end = np.maximum(begin[first], begin[second]), np.minimum(end[first], end[second])
        together = begin < end  # a planting cleared on the day another starts makes room for it
        first, second, begin, end = first[together], second[together], begin[together], end[together]
        apart = shapely.distance(plots[first], plots[second])
        near = apart <= NEAR
        ordered = np.lexsort((second[near], first[near]))
        columns = (part[near][ordered].tolist() for part in (first, second, begin, end, apart))
        day = dt.date.fromordinal
        return tuple(
            Pair(there[i], there[j], Span(day(one), day(last)), far)
            for i, j, one, last, far in zip(*columns, strict=True)
        )

    @lazy_property
    def beds(self) -> tuple[Bed, ...]:
        """Beds in use, by id."""
        if self.part is None:
            return tuple(sorted(self.plan.beds, key=lambda bed: bed.id))
        return tuple(
            sorted((bed for bed in self.part.beds if bed.in_use(self.plan.year)), key=lambda bed: bed.id)
        )

    @property
    def arches(self) -> tuple[Structure, ...]:
        """Arches in use, by id."""
        plan, part = self.plan, self.part
        every = sorted(plan.garden.structures, key=lambda one: one.id)
        return tuple(
            one
            for one in every
            if one.kind == "arch" and one.in_use(plan.year) and (part is None or one.id in part.arches)
        )

    @lazy_property
    def solid(self) -> tuple[tuple[str, shapely.Geometry], ...]:
        """Ids and ground, on the plan, of structures that nobody walks through; trees, arches and what one stands on left out."""
        plan = self.plan
        found = []
        for structure in sorted(plan.garden.structures, key=lambda s: s.id):
            if not structure.in_use(plan.year) or structure.kind in ("tree", "arch") or structure.stood_on:
                continue
            ground = plan.cached(solid_ground, structure.id, SolidInputs(structure))
            if not ground.is_empty:
                found.append((structure.id, ground))
        return tuple(found)

    @lazy_property
    def stood_on(self) -> tuple[shapely.Geometry, ...]:
        """Boards and paths in use, on the plan: ground to stand on in the beds."""
        plan = self.plan
        return tuple(
            plan.cached(solid_ground, structure.id, SolidInputs(structure))
            for structure in sorted(plan.garden.structures, key=lambda one: one.id)
            if structure.stood_on and structure.in_use(plan.year)
        )

    @lazy_property
    def grounds(self) -> tuple[tuple[str, shapely.Geometry], ...]:
        """Ids and ground, on the plan, of all beds and solid structures."""
        return (*((bed.id, self.outline(bed)) for bed in self.beds), *self.solid)

    @lazy_property
    def _tree(self) -> shapely.STRtree:
        return shapely.STRtree([ground for _, ground in self.grounds])

    def grounds_near(self, shape: shapely.Geometry, reach: float) -> tuple[shapely.Geometry, ...]:
        """Ground of beds and solid structures near a shape.

        Parameters
        ----------
        shape : shapely.Geometry
            On the plan. [m]
        reach : float
            Greatest distance. [m]
        """
        found = self._tree.query(shape, predicate="dwithin", distance=reach)
        return tuple(self.grounds[i][1] for i in sorted(found.tolist()))

    def outline(self, bed: Bed) -> shapely.Polygon:
        """A bed on the plan. [m]"""
        return self.plan.cached(outline_on_plan, bed.id, OutlineInputs(bed.outline))


def planting_finding(
    check: str,
    severity: Severity,
    views: Sequence[PlantingView],
    text: str,
    rule: str,
    source: str,
    facts: Iterable[KeyPart],
    span: Span | None = None,
    place: shapely.Geometry | None = None,
    topic: str = "",
    candidates: Callable[[Plan], Iterable[Candidate]] = lambda plan: (),
    structures: Sequence[str] = (),
) -> Finding:
    """A finding about plantings.

    Parameters
    ----------
    check, severity, text, rule, source, topic, candidates, structures
        As for :class:`Finding`.
    views : sequence of PlantingView
        The plantings concerned, the one it is about first.
    facts : iterable of str, int, float or None
        What else makes its key: a waiver holds while they are the same.
    span : Span, optional
        That of the first planting by default.
    place : shapely.Geometry, optional
        On the plan; the plot of the first planting by default. [m]
    """
    ids = tuple(dict.fromkeys(view.id for view in views))
    crops = [view.planting.crop for view in views]
    return Finding(
        check=check,
        severity=severity,
        key=key_of(check, ids, [topic, *crops, *facts]),
        plantings=ids,
        beds=tuple(dict.fromkeys(view.bed.id for view in views)),
        place=place if place is not None else views[0].plot,
        span=span if span is not None else views[0].span,
        text=text,
        rule=rule,
        source=source,
        topic=topic,
        candidates=candidates,
        structures=tuple(structures),
    )


def bed_finding(
    check: str,
    severity: Severity,
    beds: Sequence[str],
    text: str,
    rule: str,
    source: str,
    facts: Iterable[KeyPart],
    span: Span,
    place: shapely.Geometry = NOWHERE,
    topic: str = "",
    candidates: Callable[[Plan], Iterable[Candidate]] = lambda plan: (),
    structures: Sequence[str] = (),
) -> Finding:
    """A finding about beds.

    Parameters
    ----------
    check, severity, text, rule, source, span, place, topic, candidates, structures
        As for :class:`Finding`.
    beds : sequence of str
        Ids of the beds concerned, the one it is about first.
    facts : iterable of str, int, float or None
        What else makes its key: a waiver holds while they are the same.
    """
    return Finding(
        check=check,
        severity=severity,
        key=key_of(check, beds, [topic, *facts]),
        plantings=(),
        beds=tuple(beds),
        place=place,
        span=span,
        text=text,
        rule=rule,
        source=source,
        topic=topic,
        candidates=candidates,
        structures=tuple(structures),
    )
