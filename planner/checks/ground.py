"""Reach and paths: ground no hand gets to, and ways one cannot walk."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np
import shapely

from planner.checks.asked import Asked, of_beds
from planner.checks.finding import Finding, Mend
from planner.checks.stands import capital, share_words
from planner.garden import Bed
from planner.garden import edits as e
from planner.garden.units import show_area, show_length
from planner.ground.obstacles import footprint
from planner.ground.paths import Narrow, narrow_places
from planner.ground.reach import out_of_reach
from planner.ground.shapes import bed_axis, bed_polygon, outline_area, shape_to_plan, turned
from planner.plan import Plan

REACH, PATH = "reach", "path"
#: Less of a bed than this is not said.
LEAST_SHARE = 0.05
#: A gap this narrow is a joint between two beds, not a path. [m]
JOINT = 0.12
#: So far off the outline of a bed still is at it. [m]
AT_BED = 0.02

_RULE_REACH = "All ground of a bed lies within a hand's reach of a side one can stand at"
_RULE_PATH = "A path is as wide everywhere as the least width of the garden's paths"


def check_reach(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan about ground out of reach."""
    plan, beds = asked.plan, asked.beds
    if not beds:
        return
    site = plan.garden.site
    solid = [footprint(s) for s in plan.garden.structures if s.in_use(plan.year) and s.kind in _WALLS]
    grounds = [asked.outline(bed) for bed in beds]
    everything = np.array([*grounds, *solid])
    near, far = shapely.STRtree(everything).query(
        [ground.buffer(0.05) for ground in grounds], predicate="intersects"
    )
    beside: dict[int, list[shapely.Geometry]] = {}
    for i, j in sorted(zip(near.tolist(), far.tolist(), strict=True)):
        if i != j:
            beside.setdefault(i, []).append(everything[j])
    for i, bed in enumerate(beds):
        others = tuple(beside.get(i, ()))
        found = plan.once(
            "reach",
            bed.id,
            (bed, site.reach, others, site.units, plan.span.first),
            partial(_of_bed, asked, bed, others),
        )
        if found is not None:
            yield found


_WALLS = ("wall", "fence", "hedge", "shed", "glasshouse", "other")


def _of_bed(asked: Asked, bed: Bed, others: tuple[shapely.Geometry, ...]) -> Finding | None:
    reach, units = asked.plan.garden.site.reach, asked.units
    blocked = shapely.union_all(list(others)) if others else None
    far = out_of_reach(bed, reach, blocked)
    area, whole = float(far.area), outline_area(bed.outline)
    if area < LEAST_SHARE * whole:
        return None
    text = (
        f"{show_area(area, units)} of {bed.name} ({share_words(area / whole)}) lie farther than "
        f"{show_length(reach, units)} from where one can stand"
    )
    return of_beds(
        REACH,
        "note",
        (bed.id,),
        text,
        _RULE_REACH,
        "practice",
        [round(area / whole, 2), reach],
        asked.plan.span,
        shape_to_plan(bed.outline, far),
        candidates=lambda plan: _within_reach(plan, bed.id),
    )


def _within_reach(plan: Plan, key: str) -> Iterator[Mend]:
    bed, reach = plan.garden.beds_by_id[key], plan.garden.site.reach
    units = plan.garden.site.units
    every = ("start", "end", "left", "right")
    if set(bed.access) != set(every):
        yield Mend(
            "Make all its sides ones to stand at",
            "a hand comes from both sides",
            lambda garden: e.change_bed(garden, key, access=every),
        )
    if bed.outline.shape == "rectangle":
        level = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
        across = float(level[3] - level[1])
        for wide in (2 * reach, reach):
            if wide < across - 1e-6:
                side = "width" if bed.outline.length >= bed.outline.width else "length"
                outline = bed.outline.with_(**{side: round(wide, 4)})
                yield Mend(
                    f"Make it {show_length(wide, units)} wide",
                    f"{show_length(across - wide, units)} narrower, all of it in reach",
                    partial(e.resize_bed, key=key, outline=outline),
                )
    yield Mend(
        "Reach farther",
        "the garden's reach is set so that the bed is in it",
        lambda garden: e.change_site(garden, reach=round(_needed(bed), 2)),
    )


def _needed(bed: Bed) -> float:
    level = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
    across = float(level[3] - level[1])
    return across + 0.01 if set(bed.access) != {"start", "end", "left", "right"} else across / 2 + 0.01


def check_path(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan about paths."""
    plan, beds = asked.plan, asked.beds
    if not beds:
        return
    paths, least = asked.paths, plan.garden.site.path_width
    yield from plan.once(
        "narrow", "", (paths, least, beds, asked.units), lambda: tuple(_of_paths(asked, paths, least))
    )


def _of_paths(asked: Asked, paths: shapely.Geometry, least: float) -> Iterator[Finding]:
    beds = asked.beds
    rims = np.array([asked.outline(bed) for bed in beds])
    told: set[tuple[str, ...]] = set()
    for narrow in narrow_places(paths, least):
        if narrow.width < JOINT or narrow.across.is_empty:
            continue
        ends = shapely.points(shapely.get_coordinates(narrow.across)[[0, -1]])
        at = [np.nonzero(shapely.distance(rims, end) <= AT_BED)[0] for end in ends]
        touching = sorted({int(i) for found in at for i in found})
        between = len(at[0]) > 0 and len(at[1]) > 0
        if not touching:
            continue
        ids = tuple(beds[i].id for i in touching)
        if ids in told:
            continue
        told.add(ids)
        yield _narrow(asked, narrow, [beds[i] for i in touching], least, between)


def _narrow(asked: Asked, narrow: Narrow, beds: list[Bed], least: float, between: bool) -> Finding:
    units = asked.units
    names = " and ".join(bed.name for bed in beds[:2])
    where = f"between {names}" if between and len(beds) > 1 else f"at {names}"
    text = f"the path {where} narrows to {show_length(narrow.width, units)}; {show_length(least, units)} are wanted"
    return of_beds(
        PATH,
        "mind" if between else "note",
        [bed.id for bed in beds],
        capital(text),
        _RULE_PATH,
        "practice",
        [round(narrow.width, 2), least],
        asked.plan.span,
        narrow.shape,
        candidates=lambda plan: _wider(plan, [bed.id for bed in beds], narrow, least),
    )


def _wider(plan: Plan, keys: list[str], narrow: Narrow, least: float) -> Iterator[Mend]:
    """Move a bed out along the narrow way by what it lacks."""
    start, end = shapely.get_coordinates(narrow.across)[[0, -1]]
    way = (end - start) / max(float(np.hypot(*(end - start))), 1e-9)
    units = plan.garden.site.units
    for key in keys:
        bed = plan.garden.beds_by_id[key]
        outward = (
            1.0 if np.hypot(*(end - bed.outline.center)) < np.hypot(*(start - bed.outline.center)) else -1.0
        )
        for lacks in (least - narrow.width + 0.005, 1.5 * (least - narrow.width) + 0.01):
            dx, dy = (outward * lacks * way).tolist()
            yield Mend(
                f"Move {bed.name} by {show_length(lacks, units)}",
                f"the path is {show_length(least, units)} wide",
                partial(e.move_things, ids=(key,), dx=dx, dy=dy),
            )
    yield Mend(
        f"Let paths be {show_length(narrow.width, units)} wide",
        "narrower ones are meant",
        lambda garden: e.change_site(garden, path_width=max(0.0, int(narrow.width * 1000) / 1000)),
    )
