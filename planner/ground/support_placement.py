"""Problems with the place of a support, on the plan.

A support must be in its bed or on permitted path ground.  Only an arch may cross a path, with the clear height over
it and the clear width between its feet and beside them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import shapely

from planner.garden.units import show_area, show_length
from planner.ground.built_support import BuiltSupport
from planner.ground.narrow_places import narrow_places
from planner.ground.support_sentences import ACROSS, BESIDE, LONGER, OUTSIDE
from planner.words import say

#: Area beyond a bed that is not reported. [m2]
SPECK = 1e-4
#: Clear height over a path. [m]  2010 ADA Standards 307.4 (ada2010, recalled): 80 inches.
CLEAR_HEIGHT = 2.032
#: Tolerance of a clear height, because heights are typed to the centimetre. [m]
HEIGHT_TOLERANCE = 0.005

SupportProblemKind = Literal["outside", "longer", "across", "low", "tight", "beside", "one bed"]


@dataclass(frozen=True, eq=False)
class SupportProblem:
    """A problem with the place of a support.

    Attributes
    ----------
    kind : str
        outside: partly beyond its bed; longer: beyond its bed because it is longer; across: blocks a path;
        low: too little height under it; tight: too little width between its feet; beside: too little path beside it;
        one bed: both feet of an arch in the same bed.
    text : str
        A sentence with the numbers, in metres, and the fix.
    where : shapely.Geometry
        On the plan. [m]
    """

    kind: SupportProblemKind
    text: str
    where: shapely.Geometry


def support_problems(
    support: BuiltSupport,
    beds: Sequence[shapely.Geometry],
    paths: shapely.Geometry,
    path_width: float,
    permitted: shapely.Geometry | None = None,
    clear_height: float = CLEAR_HEIGHT,
) -> tuple[SupportProblem, ...]:
    """Find the problems with the place of a support.

    Parameters
    ----------
    support : BuiltSupport
        On the plan.
    beds : sequence of shapely.Geometry
        Permitted beds on the plan: its own, for an arch any. [m]
    paths : shapely.Geometry
        Walkable ground; see :func:`planner.ground.paths.walkable`. [m]
    path_width : float
        Least clear width of a path. [m]
    permitted : shapely.Geometry, optional
        Permitted path ground. [m]
    clear_height : float
        Least clear height over a path. [m]
    """
    found: list[SupportProblem] = []
    crossed = shapely.intersection(support.over, paths)
    if support.kind == "arch":
        found += _span_problems(support, crossed, path_width, clear_height)
        found += _one_bed_problems(support, beds)
    found += _outside_problems(support, beds, crossed, permitted)
    if not any(one.kind == "across" for one in found):
        found += _beside_problems(support, paths, path_width)
    return tuple(found)


def _outside_problems(
    support: BuiltSupport,
    beds: Sequence[shapely.Geometry],
    crossed: shapely.Geometry,
    permitted: shapely.Geometry | None,
) -> list[SupportProblem]:
    """Ground occupied beyond the permitted beds and paths."""
    allowed = shapely.union_all([*beds, *([permitted] if permitted is not None else [])])
    beyond = shapely.difference(support.ground, allowed)
    if beyond.area <= SPECK:
        return []
    barred = shapely.intersection(beyond, crossed)
    if support.kind != "arch" and _blocks_path(support.ground, barred):
        return [
            SupportProblem(
                "across",
                say(ACROSS[support.kind]),
                barred,
            )
        ]
    longest = max((float(line.length) for line in support.lines), default=0.0)
    room = max((_longest_side(bed) for bed in beds if bed.intersects(support.over)), default=0.0)
    if room and longest > room + 1e-3 and support.kind != "arch":
        text = say(
            LONGER[support.kind],
            length=show_length(longest),
            room=show_length(room),
            excess=show_length(longest - room),
        )
        return [SupportProblem("longer", text, beyond)]
    text = say(OUTSIDE[support.kind], area=show_area(beyond.area))
    return [SupportProblem("outside", text, beyond)]


def _blocks_path(ground: shapely.Geometry, barred: shapely.Geometry) -> bool:
    """Whether the support goes on at both ends of a strip on path ground."""
    if barred.area <= SPECK:
        return False
    for part in shapely.get_parts(barred):
        rest = shapely.difference(ground, part.buffer(1e-6))
        sides = [
            piece for piece in shapely.get_parts(rest) if piece.area > SPECK and piece.distance(part) < 1e-3
        ]
        if len(sides) > 1:
            return True
    return False


def _longest_side(bed: shapely.Geometry) -> float:
    corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(bed))
    sides = [shapely.LineString(corners[i : i + 2]).length for i in range(len(corners) - 1)]
    return float(max(sides, default=0.0))


def _span_problems(
    support: BuiltSupport, crossed: shapely.Geometry, path_width: float, clear_height: float
) -> list[SupportProblem]:
    """Too little height or width under an arch over a path."""
    if crossed.area <= SPECK:
        return []
    found = []
    if support.clear_height < clear_height - HEIGHT_TOLERANCE:
        text = say(
            "The arch leaves {height} of height over the path; {wanted} are wanted, so raise it by {missing}",
            height=show_length(support.clear_height),
            wanted=show_length(clear_height),
            missing=show_length(clear_height - support.clear_height),
        )
        found.append(SupportProblem("low", text, crossed))
    if support.clear_span < path_width - 1e-6:
        text = say(
            "The feet of the arch leave {width} between them; the path needs {wanted}, so set them farther apart",
            width=show_length(support.clear_span),
            wanted=show_length(path_width),
        )
        found.append(SupportProblem("tight", text, crossed))
    return found


def _one_bed_problems(support: BuiltSupport, beds: Sequence[shapely.Geometry]) -> list[SupportProblem]:
    """Arches with both feet in the same bed."""
    found = []
    for one, other in zip(support.feet[::2], support.feet[1::2], strict=True):
        shared = [bed for bed in beds if _is_in(one, bed) and _is_in(other, bed)]
        if shared:
            text = say("Both feet of the arch stand in the same bed; set one in the bed across the path")
            found.append(SupportProblem("one bed", text, shapely.union(one, other)))
    return found


def _is_in(foot: shapely.Geometry, bed: shapely.Geometry) -> bool:
    """Whether more than half of a foot is in a bed."""
    return bool(shapely.intersection(foot, bed).area > foot.area / 2)


def _beside_problems(
    support: BuiltSupport, paths: shapely.Geometry, path_width: float
) -> list[SupportProblem]:
    """Paths that are wide enough without the support, and on neither side of it."""
    occupied = shapely.intersection(support.ground, paths)
    near = shapely.intersection(paths, support.ground.buffer(4 * path_width))
    if occupied.area <= SPECK:
        return []
    rest = shapely.difference(near, support.ground)
    if not _blocked(near, rest, path_width):
        return []
    rim = support.ground.boundary
    narrow = [place for place in narrow_places(rest, path_width) if not place.across.is_empty]
    beside = [place for place in narrow if place.across.distance(rim) < 1e-3]
    widest = max((place.width for place in beside), default=0.0)
    text = say(BESIDE[support.kind], width=show_length(widest), wanted=show_length(path_width))
    return [
        SupportProblem("beside", text, shapely.union_all([place.shape for place in beside] or [occupied]))
    ]


def _blocked(before: shapely.Geometry, after: shapely.Geometry, width: float) -> bool:
    """Whether ground that a disc of this width [m] could move about in is divided or gone."""
    half = width / 2 - 1e-3
    speck = (width / 10) ** 2
    left = after.buffer(-half)
    for room in shapely.get_parts(before.buffer(-half)):
        if room.area <= speck:
            continue
        parts = [part for part in shapely.get_parts(shapely.intersection(left, room)) if part.area > speck]
        if len(parts) != 1:
            return True
    return False
