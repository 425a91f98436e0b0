"""Materials of supports: posts, sticks, poles, hoops, rails, panels, net, wire and string.

Measures without a source are common practice.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planner.garden.planting import SupportKind
from planner.ground.arcs import half_ellipse

#: Post to post. [m]  Minnesota extension, Trellises and cages (umn_trellis): 1.5 to 1.8 m.
POST_SPACING = 1.5
#: Depth of posts and stakes in the ground. [m]  Same source: a 6 ft stake driven 1 ft.
DRIVEN = 0.30
#: Stick to stick, pole to pole along an A-frame, hoop to hoop along an arch. [m]
STICK_SPACING, FRAME_POLE_SPACING, ARCH_HOOP_SPACING = 0.15, 0.30, 0.50
#: Number of poles of a tower.
TOWER_POLES = 6
#: Wire above wire. [m]
WIRE_SPACING = 0.40
#: Tie above tie on a stake or tower, and length of string in one tie. [m]
TIE_SPACING, TIE_LENGTH = 0.30, 0.40
#: String to string along a rail, and what its knots and loops take of each. [m]
STRING_SPACING, STRING_KNOTS = 0.30, 0.40
#: Length of a panel of mesh. [m]
PANEL = 1.80
#: Tolerance when dividing a length by a spacing.
_TOLERANCE = 1e-9


@dataclass(frozen=True)
class Material:
    """A material of a support.

    Attributes
    ----------
    name : str
        post, stick, stake, cage, pole, hoop, rail, panel, net, wire or string.
    amount : float
        Pieces, square metres of net, or metres of wire and string.
    unit : str
        "pieces", "m2" or "m".
    length : float or None
        Of one piece. [m]
    """

    name: str
    amount: float
    unit: str = "pieces"
    length: float | None = None


def posts_along(length: float, spacing: float) -> int:
    """Number of posts along a length, with one at either end.

    Parameters
    ----------
    length, spacing : float
        [m]
    """
    return max(1, math.ceil(length / spacing - _TOLERANCE)) + 1


def line_materials(
    kind: SupportKind,
    lengths: Sequence[float],
    height: float,
    spacing: float | None,
    width: float,
    plants: int | None = None,
) -> tuple[Material, ...]:
    """Materials of sticks, A-frames, nets, wires, panels, and strings from a rail.

    Parameters
    ----------
    kind : str
    lengths : sequence of float
        Of each line. [m]
    height : float
        [m]
    spacing : float or None
        Post to post or stick to stick; the usual one if None. [m]
    width : float
        Foot to foot across an A-frame. [m]
    plants : int, optional
        That climb strings; one every :data:`STRING_SPACING` by default.
    """
    total = sum(lengths)
    if not lengths:
        return ()
    if kind == "sticks":
        sticks = sum(posts_along(length, spacing or STICK_SPACING) for length in lengths)
        return (Material("stick", sticks, length=height + DRIVEN),)
    if kind == "frame":
        slant = math.hypot(height, width / 2)
        poles = sum(2 * posts_along(length, spacing or FRAME_POLE_SPACING) for length in lengths)
        ridge = tuple(Material("pole", 1, length=length) for length in lengths)
        return add_up([Material("pole", poles, length=slant + DRIVEN), *ridge])
    posts = sum(posts_along(length, spacing or POST_SPACING) for length in lengths)
    if kind == "panel":
        return _panels(lengths, height)
    post = Material("post", posts, length=height + DRIVEN)
    if kind == "strings":
        strings = plants if plants is not None else sum(posts_along(one, STRING_SPACING) for one in lengths)
        rails = [Material("rail", 1, length=length) for length in lengths]
        return add_up([post, *rails, Material("string", strings * (height + STRING_KNOTS), "m")])
    if kind == "wire":
        return post, Material("wire", total * max(1, math.ceil(height / WIRE_SPACING - _TOLERANCE)), "m")
    return post, Material("net", total * height, "m2"), Material("string", 2 * total, "m")


def _panels(lengths: Sequence[float], height: float) -> tuple[Material, ...]:
    """Panels side by side, and a post at each of their ends."""
    panels = [math.ceil(length / PANEL - _TOLERANCE) for length in lengths]
    posts = sum(number + 1 for number in panels)
    return Material("post", posts, length=height + DRIVEN), Material("panel", sum(panels), length=PANEL)


def point_materials(kind: SupportKind, count: int, height: float, radius: float) -> tuple[Material, ...]:
    """Materials of stakes, cages and towers.

    Parameters
    ----------
    kind : {"stake", "cage", "tower"}
    count : int
    height : float
        [m]
    radius : float
        On the ground. [m]
    """
    if not count:
        return ()
    ties = count * math.ceil(height / TIE_SPACING - _TOLERANCE)
    if kind == "stake":
        return Material("stake", count, length=height + DRIVEN), Material("string", ties * TIE_LENGTH, "m")
    if kind == "cage":
        return (Material("cage", count, length=height),)
    slant = math.hypot(height, radius)
    return (
        Material("pole", count * TOWER_POLES, length=slant + DRIVEN),
        Material("string", ties * 2 * math.pi * radius / 2, "m"),
    )


def arch_materials(spans: Sequence[float], height: float, clear: float, width: float) -> tuple[Material, ...]:
    """Hoops and net of arches: half an ellipse on two upright legs.

    Parameters
    ----------
    spans : sequence of float
        Foot to foot of each arch. [m]
    height : float
        Of the top. [m]
    clear : float
        Of the upright legs. [m]
    width : float
        Along the path. [m]
    """
    found: list[Material] = []
    for span in spans:
        rise = max(0.0, height - clear)
        hoop = 2 * clear + half_ellipse(span, rise)
        found.append(Material("hoop", posts_along(width, ARCH_HOOP_SPACING), length=hoop + 2 * DRIVEN))
        found.append(Material("net", hoop * width, "m2"))
    return add_up(found)


def add_up(materials: Iterable[Material]) -> tuple[Material, ...]:
    """Add up the amounts of equal materials; pieces are equal if their lengths are, to a centimetre."""
    sums: dict[tuple[str, str, float | None], float] = {}
    for one in materials:
        length = round(one.length, 2) if one.length is not None else None
        key = (one.name, one.unit, length)
        sums[key] = sums.get(key, 0.0) + one.amount
    return tuple(Material(name, amount, unit, length) for (name, unit, length), amount in sums.items())
