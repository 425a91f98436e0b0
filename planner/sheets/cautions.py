"""The cautions that belong on a bed's sheet."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import shapely

from planner import shelf
from planner.crops import Crop
from planner.garden import Bed
from planner.ground.shapes import plan_polygon
from planner.plan import Plan

#: An arch stands at a bed when it comes so near. [m]
AT_THE_BED = 0.05
#: The work at which a support's cautions are said.
_SUPPORT_TASK = "support up"


@dataclass(frozen=True)
class Caution:
    """A sentence of care and where it comes from."""

    key: str
    text: str
    source: str


@lru_cache(maxsize=4)
def _tables(path: Path) -> dict[str, dict[str, Any]]:
    with path.open("rb") as file:
        return tomllib.load(file)


def bed_cautions(plan: Plan, bed: Bed) -> tuple[Caution, ...]:
    """Cautions for a bed: of the crops in it, of their supports, of an arch that stands at it."""
    plantings = plan.in_bed(bed)
    supports = {p.support.kind for p in plantings if p.support is not None}
    kinds: set[str] = {*supports, *(["arch"] if _arch_at(plan, bed) else [])}
    crops = [crop for p in plantings if (crop := plan.known(p).crop) is not None]
    tables = _tables(shelf.resource("cautions.toml"))
    return tuple(
        Caution(key, " ".join(table["text"].split()), table["source"])
        for key, table in tables.items()
        if _of_support(table, kinds) or _of_crops(key, table, crops)
    )


def _of_support(table: dict[str, Any], kinds: set[str]) -> bool:
    return (
        not table.get("about")
        and _SUPPORT_TASK in table.get("tasks", ())
        and not kinds.isdisjoint(table.get("structures", ()))
    )


def _of_crops(key: str, table: dict[str, Any], crops: Iterable[Crop]) -> bool:
    return any(crop.key in table.get("about", ()) or key in crop.cautions for crop in crops)


def _arch_at(plan: Plan, bed: Bed) -> bool:
    arches = [s for s in plan.garden.structures if s.kind == "arch" and s.in_use(plan.year)]
    if not arches:
        return False
    ground = plan_polygon(bed.outline)
    return any(shapely.dwithin(plan_polygon(arch.outline), ground, AT_THE_BED) for arch in arches)
