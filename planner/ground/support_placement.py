"""Whether a support may stand where it stands; all on the plan.

A support stands in its bed or on ground that is permitted for it; only an arch may cross a path, with
its clear height over it and the path's clear width between its feet and beside them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import shapely

from planner.ground.paths import narrow_places
from planner.ground.supports import BuiltSupport

#: Ground beyond a bed by so little is not said. [m2]
SPECK = 1e-4
#: Clear height over a path. [m]  2010 ADA Standards 307.4 (ada2010, recalled): 80 inches.
CLEAR_HEIGHT = 2.032
#: A height typed in centimetres may be so much below. [m]
SHOWN = 0.005

TroubleKind = Literal["outside", "longer", "across", "low", "tight", "beside", "one bed"]


@dataclass(frozen=True, eq=False)
class SupportProblem:
    """Something wrong with where a support stands.

    Attributes
    ----------
    kind : str
        outside: stands beyond its bed; longer: the same, as it is longer than the bed; across: bars a
        path; low: not enough height under it; tight: not enough width between its feet; beside: not
        enough path left beside it; one bed: both feet of an arch in the same bed.
    text : str
        A sentence with the numbers, and what would mend it.
    where : shapely.Geometry
    """

    kind: TroubleKind
    text: str
    where: shapely.Geometry


def troubles(
    stand: BuiltSupport,
    beds: Sequence[shapely.Geometry],
    paths: shapely.Geometry,
    path_width: float,
    permitted: shapely.Geometry | None = None,
    clear_height: float = CLEAR_HEIGHT,
) -> tuple[SupportProblem, ...]:
    """What is wrong with where a support stands.

    Parameters
    ----------
    stand : BuiltSupport
        On the plan.
    beds : sequence of shapely.Geometry
        Beds in which it may stand: its own, of an arch any.
    paths : shapely.Geometry
        Walkable ground; see :func:`planner.ground.paths.walkable`.
    path_width : float
        Least clear width of a path. [m]
    permitted : shapely.Geometry, optional
        Path ground on which it may stand.
    clear_height : float
        Wanted over a path. [m]
    """
    found: list[SupportProblem] = []
    crossed = shapely.intersection(stand.over, paths)
    if stand.kind == "arch":
        found += _of_the_span(stand, crossed, path_width, clear_height)
        found += _one_bed(stand, beds)
    found += _outside(stand, beds, crossed, permitted)
    if not any(one.kind == "across" for one in found):
        found += _beside(stand, paths, path_width)
    return tuple(found)


def _outside(
    stand: BuiltSupport,
    beds: Sequence[shapely.Geometry],
    crossed: shapely.Geometry,
    permitted: shapely.Geometry | None,
) -> list[SupportProblem]:
    allowed = shapely.union_all([*beds, *([permitted] if permitted is not None else [])])
    beyond = shapely.difference(stand.ground, allowed)
    if beyond.area <= SPECK:
        return []
    barred = shapely.intersection(beyond, crossed)
    if stand.kind != "arch" and _bars(stand.ground, barred, crossed):
        return [
            SupportProblem(
                "across",
                f"The {_name(stand)} stands across a path; end it at the bed's edge, or use an arch",
                barred,
            )
        ]
    longest = max((float(line.length) for line in stand.lines), default=0.0)
    room = max((_longest_side(bed) for bed in beds if bed.intersects(stand.over)), default=0.0)
    if room and longest > room + 1e-3 and stand.kind != "arch":
        text = f"The {_name(stand)} is {longest:.2f} m long and its bed {room:.2f} m; shorten it by {longest - room:.2f} m"
        return [SupportProblem("longer", text, beyond)]
    text = f"{beyond.area:.2f} m² of the {_name(stand)} stand outside its bed; move or narrow it"
    return [SupportProblem("outside", text, beyond)]


def _bars(ground: shapely.Geometry, barred: shapely.Geometry, paths: shapely.Geometry) -> bool:
    """Whether a strip on path ground has the support going on at both ends of it."""
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


def _name(stand: BuiltSupport) -> str:
    return {"sticks": "row of sticks", "frame": "A-frame", "wire": "row of wires"}.get(stand.kind, stand.kind)


def _of_the_span(
    stand: BuiltSupport, crossed: shapely.Geometry, path_width: float, clear_height: float
) -> list[SupportProblem]:
    if crossed.area <= SPECK:
        return []
    found = []
    if stand.clear_height < clear_height - SHOWN:
        text = (
            f"The arch leaves {stand.clear_height:.2f} m of height over the path; "
            f"{clear_height:.2f} m are wanted, so raise it by {clear_height - stand.clear_height:.2f} m"
        )
        found.append(SupportProblem("low", text, crossed))
    if stand.clear_span < path_width - 1e-6:
        text = (
            f"The feet of the arch leave {stand.clear_span:.2f} m between them; "
            f"the path needs {path_width:.2f} m, so set them farther apart"
        )
        found.append(SupportProblem("tight", text, crossed))
    return found


def _one_bed(stand: BuiltSupport, beds: Sequence[shapely.Geometry]) -> list[SupportProblem]:
    found = []
    for one, other in zip(stand.feet[::2], stand.feet[1::2], strict=True):
        shared = [bed for bed in beds if _stands_in(one, bed) and _stands_in(other, bed)]
        if shared:
            text = "Both feet of the arch stand in the same bed; set one in the bed across the path"
            found.append(SupportProblem("one bed", text, shapely.union(one, other)))
    return found


def _stands_in(foot: shapely.Geometry, bed: shapely.Geometry) -> bool:
    return bool(shapely.intersection(foot, bed).area > foot.area / 2)


def _beside(stand: BuiltSupport, paths: shapely.Geometry, path_width: float) -> list[SupportProblem]:
    """Paths one could walk without the support, and on neither side of it."""
    taken = shapely.intersection(stand.ground, paths)
    near = shapely.intersection(paths, stand.ground.buffer(4 * path_width))
    if taken.area <= SPECK:
        return []
    rest = shapely.difference(near, stand.ground)
    if not _blocked(near, rest, path_width):
        return []
    rim = stand.ground.boundary
    ways = [place for place in narrow_places(rest, path_width) if not place.across.is_empty]
    beside = [place for place in ways if place.across.distance(rim) < 1e-3]
    widest = max((place.width for place in beside), default=0.0)
    text = f"The {_name(stand)} leaves {widest:.2f} m of path beside it; {path_width:.2f} m are wanted"
    return [SupportProblem("beside", text, shapely.union_all([place.shape for place in beside] or [taken]))]


def _blocked(before: shapely.Geometry, after: shapely.Geometry, width: float) -> bool:
    """Whether ground that a disc of a width could go about in falls apart, or is gone."""
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
