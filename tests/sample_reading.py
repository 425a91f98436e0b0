"""The shipped sample gardens as tests read them: from the file's own numbers."""

from __future__ import annotations

import itertools
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import shapely
import shapely.affinity

from planner.garden import Garden, Planting
from planner.plan import Plan

FOLDER = Path(__file__).resolve().parents[1] / "sample_gardens"
YEAR = 2026
#: Plots may overlap by so much. [m2]
SPECK = 1e-4


def sample(name: str) -> Path:
    return FOLDER / f"{name}.bedwright"


def own_ground(outline: dict[str, Any]) -> shapely.Polygon:
    """An outline in its own coordinates, built from the file's own numbers."""
    if outline["shape"] == "circle":
        return shapely.Point(0, 0).buffer(outline["radius"], quad_segs=128)
    if outline["shape"] == "polygon":
        return shapely.Polygon(outline["points"])
    x, y = outline["length"] / 2, outline["width"] / 2
    return shapely.Polygon([(-x, -y), (x, -y), (x, y), (-x, y)])


def ground(thing: dict[str, Any]) -> shapely.Polygon:
    """An outline on the plan."""
    outline = thing["outline"]
    turned = shapely.affinity.rotate(own_ground(outline), outline.get("turn", 0.0), origin=(0, 0))
    return shapely.affinity.translate(turned, *outline.get("center", (0.0, 0.0)))


def grounds(file: Path, part: str) -> dict[str, shapely.Polygon]:
    document = json.loads(file.read_text("utf-8"))
    return {thing["name"]: ground(thing) for thing in document[part]}


def named(garden: Garden, bed: str) -> str:
    return next(b.id for b in garden.beds if b.name == bed)


def these(plan: Plan, wanted: Callable[[Planting], bool]) -> list[Planting]:
    return [p for p in plan.plantings if p.year == plan.year and wanted(p)]


def overlaps(garden: Garden, plan: Plan) -> Iterator[tuple[str, Planting, Planting]]:
    """Pairs of plantings, of whatever years, that have ground of a bed in common."""
    for bed in garden.beds:
        for a, b in itertools.combinations(garden.in_bed(bed.id), 2):
            if shapely.intersection(plan.placed(a).plot, plan.placed(b).plot).area > SPECK:
                yield bed.name, a, b


def used_twice(garden: Garden, plan: Plan) -> set[str]:
    """Beds in which one planting of the plan's year follows another on the same ground."""
    return {
        bed
        for bed, a, b in overlaps(garden, plan)
        if a.year == b.year == plan.year and not plan.span_of(a).meets(plan.span_of(b))
    }


def back_on_their_ground(garden: Garden, plan: Plan) -> list[tuple[str, str, str]]:
    """Bed and crops, wherever a family comes back to its ground in another year; not what stands for years."""
    back = []
    for bed, a, b in overlaps(garden, plan):
        one, other = plan.catalogue.get(a.crop), plan.catalogue.get(b.crop)
        assert one is not None
        assert other is not None
        if a.year != b.year and one.family == other.family and "standing" not in (a.start, b.start):
            back.append((bed, a.crop, b.crop))
    return back
