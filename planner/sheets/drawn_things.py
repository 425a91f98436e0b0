"""Covers and supports as they are drawn on a bed's sheet, in the frame of the bed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from planner.amounts.covers import LaidCover
from planner.garden import Bed, Structure
from planner.ground.bed_frame import BedFrame
from planner.ground.covers import ABOUT_PLANT, HOOP_SPACING
from planner.ground.shapes import plan_polygon, shape_to_own
from planner.plan import Plan
from planner.plan.drawing_groups import LabelledPlanting
from planner.words import join_list, key_words, later, say

#: An arch beside a bed is drawn up to so far from it. [m]
ARCH_BESIDE = 0.05
#: Supports that stand beside single plants, and how they are drawn.
_SUPPORT = {
    "stake": later("Black dots: {support} of {letters}"),
    "cage": later("Thick circles: {support} of {letters}"),
    "tower": later("Thick circles: {support} of {letters}"),
}
#: The same kinds: they stand along no line.
STAND_ALONE = frozenset(_SUPPORT)


@dataclass(frozen=True)
class DrawnCover:
    """A cover over ground of a bed.

    Attributes
    ----------
    kind : str
    ground : shapely.Polygon
        The rectangle under it, in the frame. [m]
    hoops : tuple of float
        Places of its hoops along the bed. [m]
    letters : tuple of str
        Of the plots under it.
    """

    kind: str
    ground: shapely.Polygon
    hoops: tuple[float, ...]
    letters: tuple[str, ...]


@dataclass(frozen=True)
class DrawnSupport:
    """A support of a planting.

    Attributes
    ----------
    kind, letter : str
    ground : shapely.Geometry
        That it takes, in the frame. [m]
    lines : tuple of shapely.LineString
        Along which it stands, in the frame. [m]
    """

    kind: str
    letter: str
    ground: shapely.Geometry
    lines: tuple[shapely.LineString, ...]


def drawn_covers(
    frame: BedFrame,
    plan: Plan,
    group: Sequence[LabelledPlanting],
    laid: Mapping[str, Sequence[LaidCover]],
) -> tuple[DrawnCover, ...]:
    """The covers over the plantings of a drawing.

    Parameters
    ----------
    frame : BedFrame
    plan : Plan
    group : sequence of LabelledPlanting
    laid : mapping of str to sequence of LaidCover
        By the ids of the plantings under them.
    """
    letters = {one.planting.id: one.letter for one in group}
    covers = {cover.key: cover for one in group for cover in laid.get(one.planting.id, ())}
    found = []
    for cover in covers.values():
        parts = [part.planting for part in cover.parts if part.planting.id in letters]
        shapes = []
        for planting in parts:
            placed = plan.placed(planting)
            shape = placed.plot
            if planting.arrangement.kind == "places" and placed.plants:
                shape = shapely.MultiPoint(placed.layout.points).buffer(ABOUT_PLANT)
            shapes.append(frame.shape(shape))
        ground = shapely.box(*shapely.union_all(shapes).bounds)
        left, _, right, _ = ground.bounds
        hoops = cover.size.hoops if len(parts) == len(cover.parts) else 0
        if cover.size.hoops and not hoops:  # only a part of the sheet lies on this bed
            hoops = max(2, round((right - left) / HOOP_SPACING) + 1)
        places = tuple(np.linspace(left, right, hoops).tolist()) if hoops else ()
        order = tuple(sorted(letters[planting.id] for planting in parts))
        found.append(DrawnCover(cover.kind, ground, places, order))
    return tuple(found)


def drawn_supports(
    frame: BedFrame, plan: Plan, bed: Bed, group: Iterable[LabelledPlanting]
) -> tuple[DrawnSupport, ...]:
    """The supports of the plantings of a drawing, and arches beside the bed that they climb.

    Parameters
    ----------
    frame : BedFrame
    plan : Plan
    bed : Bed
    group : iterable of LabelledPlanting
    """
    found = []
    for one in group:
        arch = plan.arch_of(one.planting)
        built = plan.built_support(one.planting)
        if arch is not None:
            found.append(DrawnSupport("arch", one.letter, _arch_ground(frame, bed, arch), ()))
        elif built is not None:
            alone = built.kind in _SUPPORT
            lines = () if alone else tuple(frame.shape(line) for line in built.lines)
            found.append(DrawnSupport(built.kind, one.letter, frame.shape(built.ground), lines))
    return tuple(found)


def _arch_ground(frame: BedFrame, bed: Bed, arch: Structure) -> shapely.Geometry:
    """The ground of an arch, as far as it is at the bed."""
    own = shape_to_own(bed.outline, plan_polygon(arch.outline))
    return shapely.intersection(frame.shape(own), frame.outline.buffer(ARCH_BESIDE, join_style="mitre"))


def cover_caption(covers: Iterable[DrawnCover]) -> list[str]:
    """What the dashed lines of a drawing mean, a sentence for each kind of cover."""
    kinds: dict[tuple[str, bool], list[str]] = {}
    for one in covers:
        kinds.setdefault((one.kind, bool(one.hoops)), []).extend(one.letters)
    found = []
    for (kind, hoops), letters in kinds.items():
        plots = join_list(dict.fromkeys(letters))
        if kind == "film":
            found.append(say("Dotted line: film under {letters}", letters=plots))
        elif hoops:
            found.append(
                say("Dashed line with hoops: {cover} over {letters}", cover=key_words(kind), letters=plots)
            )
        else:
            found.append(say("Dashed line: {cover} over {letters}", cover=key_words(kind), letters=plots))
    return found


def support_caption(supports: Iterable[DrawnSupport]) -> list[str]:
    """What the thick lines of a drawing mean, a sentence for each kind of support."""
    kinds: dict[str, list[str]] = {}
    for one in supports:
        kinds.setdefault(one.kind, []).append(one.letter)
    found = []
    for kind, letters in kinds.items():
        plots = join_list(letters)
        if kind in _SUPPORT:
            found.append(say(_SUPPORT[kind], support=key_words(kind), letters=plots))
        else:
            found.append(say("Thick line: {support} of {letters}", support=key_words(kind), letters=plots))
    return found
