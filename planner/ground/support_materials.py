"""Materials of supports: posts, sticks, poles, hoops, rails, panels, net, wire and string.

Measures without a source are common practice.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from planner.garden.planting import SupportKind
from planner.ground.arcs import half_ellipse

#: Post to post of nets: of peas 6 to 8 ft (practice, as recalled); University of Minnesota Extension, Trellises and cages
#: (umn_trellis), prints 5 to 6 ft.  Of a rail with strings 8 to 10 ft, of wires farther (practice, as recalled). [m]
POST_SPACING, RAIL_POST_SPACING, WIRE_POST_SPACING = 1.8, 2.4, 3.0
#: Depth of stakes, sticks, poles and of posts of nets in the ground: a 6 ft stake driven 1 ft (umn_trellis). [m]
DRIVEN = 0.30
#: Depth of posts that bear more: of nets and panels higher than :data:`LOW_NET` 12 to 18 in, of rails 18 to 24 in, of wires
#: 2 ft (practice, as recalled). [m]
TALL_NET_DRIVEN, RAIL_DRIVEN, WIRE_DRIVEN = 0.45, 0.45, 0.60
#: Highest net whose posts are driven as stakes are. [m]
LOW_NET = 1.55
#: Stick to stick, hoop to hoop along an arch. [m]
STICK_SPACING, ARCH_HOOP_SPACING = 0.15, 0.50
#: Pole to pole along one side of an A-frame: a pole for each plant, no closer than 9 in (practice, as recalled), and a pair at
#: least every 1.5 m, so that it stands. [m]
FRAME_POLE_SPACING, FRAME_PAIR_SPACING = 0.23, 1.5
#: Number of poles of a tower, one for each plant.
TOWER_POLES = 6
#: Wire above wire: at 2 1/2 and 5 ft (practice, as recalled), and what each is longer than its line, for fixing. [m]
WIRE_SPACING, WIRE_FIXING = 0.75, 0.50
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
        That climb strings or poles; a string every :data:`STRING_SPACING` and a pole every :data:`FRAME_POLE_SPACING` by default.
    """
    total = sum(lengths)
    if not lengths:
        return ()
    if kind == "sticks":
        sticks = sum(posts_along(length, spacing or STICK_SPACING) for length in lengths)
        return (Material("stick", sticks, length=height + DRIVEN),)
    if kind == "frame":
        slant = math.hypot(height, width / 2)
        poles = sum(_frame_poles(length, spacing, plants, total) for length in lengths)
        ridge = tuple(Material("pole", 1, length=length) for length in lengths)
        return add_up([Material("pole", poles, length=slant + DRIVEN), *ridge])
    deep = post_depth(kind, height)
    if kind == "panel":
        return _panels(lengths, height, deep)
    usual = {"strings": RAIL_POST_SPACING, "wire": WIRE_POST_SPACING}.get(kind, POST_SPACING)
    posts = sum(posts_along(length, spacing or usual) for length in lengths)
    post = Material("post", posts, length=height + deep)
    if kind == "strings":
        strings = plants if plants is not None else sum(posts_along(one, STRING_SPACING) for one in lengths)
        rails = [Material("rail", 1, length=length) for length in lengths]
        return add_up([post, *rails, Material("string", strings * (height + STRING_KNOTS), "m")])
    if kind == "wire":
        return post, Material("wire", wires_of(height) * (total + WIRE_FIXING * len(lengths)), "m")
    return post, Material("net", total * height, "m2"), Material("string", 2 * total, "m")


def post_depth(kind: SupportKind, height: float) -> float:
    """Depth of the posts of a support in the ground. [m]

    Parameters
    ----------
    kind : str
    height : float
        Of the support. [m]
    """
    if kind == "wire":
        return WIRE_DRIVEN
    if kind == "strings":
        return RAIL_DRIVEN
    return TALL_NET_DRIVEN if kind in ("net", "panel") and height > LOW_NET else DRIVEN


def wires_of(height: float) -> int:
    """How many wires run one above another up to a height [m]."""
    return max(1, math.ceil(height / WIRE_SPACING - _TOLERANCE))


def _frame_poles(length: float, spacing: float | None, plants: int | None, total: float) -> int:
    """Poles of an A-frame along a line: as far apart as is given, else one for each plant in pairs that stand."""
    if spacing is not None:
        return 2 * posts_along(length, spacing)
    most = 2 * posts_along(length, FRAME_POLE_SPACING)
    if plants is None:
        return most
    here = math.ceil(plants * length / total - _TOLERANCE) if total else plants
    return max(2 * posts_along(length, FRAME_PAIR_SPACING), min(here + here % 2, most))


def level_net_materials(
    sizes: Sequence[tuple[float, float]], height: float, spacing: float | None
) -> tuple[Material, ...]:
    """Materials of nets that lie level over plants: posts at their corners and along their sides, string about their edges.

    Parameters
    ----------
    sizes : sequence of (float, float)
        Length and width of each. [m]
    height : float
        At which it lies. [m]
    spacing : float or None
        Post to post; the usual one if None. [m]
    """
    if not sizes:
        return ()
    apart = spacing or POST_SPACING
    posts = sum(2 * sum(posts_along(side, apart) - 1 for side in size) for size in sizes)
    return (
        Material("post", posts, length=height + DRIVEN),
        Material("net", sum(length * width for length, width in sizes), "m2"),
        Material("string", sum(2 * (length + width) for length, width in sizes), "m"),
    )


def _panels(lengths: Sequence[float], height: float, deep: float) -> tuple[Material, ...]:
    """Panels side by side, and a post at each of their ends."""
    panels = [math.ceil(length / PANEL - _TOLERANCE) for length in lengths]
    posts = sum(number + 1 for number in panels)
    return Material("post", posts, length=height + deep), Material("panel", sum(panels), length=PANEL)


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
    """Add up the amounts of equal materials; pieces are equal if their lengths are, to a tenth of a millimetre."""
    sums: dict[tuple[str, str, float | None], float] = {}
    for one in materials:
        length = round(one.length, 4) if one.length is not None else None
        key = (one.name, one.unit, length)
        sums[key] = sums.get(key, 0.0) + one.amount
    return tuple(Material(name, amount, unit, length) for (name, unit, length), amount in sums.items())
