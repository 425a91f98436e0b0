"""Casters: upright prisms that cast shadows, each with a base, a top and an opacity.

Ground is level; heights are above it.  A thing that is not one prism becomes several with the same key: an arch is two
feet and its span, a plot in two pieces two prisms.  The trunk of a tree with a clear stem is left out, because it is
thin compared with the crown.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Bed, Outline, Structure
from planner.ground.built_support import BuiltSupport, support_opacity
from planner.ground.obstacles import footprint
from planner.ground.shapes import plan_polygon, shape_to_plan
from planner.lazy import lazy_property

#: Share of the direct sun that closed foliage blocks (``estimate``: leaf cover in full growth). [0 to 1]
FOLIAGE = 0.85
#: Tolerance when round outlines are simplified. [m]
ROUNDNESS = 1e-3
#: Prisms of less height cast no shadow. [m]
LEAST_HEIGHT = 1e-6
#: More posts of one support cast one shadow together, as leaves do: that of their hull, with the opacity of their share of
#: its ground.
MOST_POSTS = 1_000
#: The same for so many corners: posts that touch are one outline of many corners.
MOST_POST_CORNERS = 40_000
#: Opacity of what lets nothing through. [0 to 1]
SOLID = 1.0


@dataclass(frozen=True, eq=False)
class Footprint:
    """Ground under a prism: prisms of the same ground on several days share one.

    Attributes
    ----------
    shape : shapely.Polygon
        On the plan; may be concave and have holes. [m]
    """

    shape: shapely.Polygon

    @lazy_property
    def convex(self) -> bool:
        """Whether it is convex."""
        return not self.shape.interiors and bool(self.shape.area >= self.shape.convex_hull.area * (1 - 1e-12))

    @lazy_property
    def rings(self) -> tuple[NDArray[np.float64], ...]:
        """Corners of its rings, the outer one anticlockwise, the first corner not repeated. [m]"""
        shape = shapely.orient_polygons(self.shape)
        return tuple(shapely.get_coordinates(ring)[:-1] for ring in (shape.exterior, *shape.interiors))

    @lazy_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, low, right, high. [m]"""
        left, low, right, high = self.shape.bounds
        return left, low, right, high


@dataclass(frozen=True, eq=False, slots=True)
class Caster:
    """An upright prism on one day.

    Attributes
    ----------
    key : str
        Id of the structure, planting or bed it belongs to.
    name : str
        Name shown to the user.
    ground : Footprint
        Its footprint on the plan; made of a polygon where one is given. [m]
    base, top : float
        Above the ground. [m]
    opacity : float
        Share of the direct sun that it blocks. [0 to 1]
    """

    key: str
    name: str
    ground: shapely.Polygon | Footprint
    base: float
    top: float
    opacity: float = 1.0

    def __post_init__(self) -> None:
        if not isinstance(self.ground, Footprint):
            object.__setattr__(self, "ground", Footprint(self.ground))

    @property
    def footprint(self) -> Footprint:
        """Its footprint on the plan."""
        assert isinstance(self.ground, Footprint)
        return self.ground

    @property
    def shape(self) -> shapely.Polygon:
        """Its footprint on the plan. [m]"""
        return self.footprint.shape

    @property
    def casts(self) -> bool:
        """Whether it can cast a shadow: it has a height, a footprint and an opacity."""
        return self.top - self.base > LEAST_HEIGHT and self.opacity > 0 and not self.shape.is_empty

    @property
    def convex(self) -> bool:
        """Whether its footprint is convex."""
        return self.footprint.convex

    @property
    def rings(self) -> tuple[NDArray[np.float64], ...]:
        """Corners of its footprint's rings; see :class:`Footprint`. [m]"""
        return self.footprint.rings

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, low, right, high of its footprint. [m]"""
        return self.footprint.bounds


def in_month(shares: tuple[float, ...], day: dt.date) -> float:
    """The share in the month of a day, of one for the whole year or twelve from January on. [0 to 1]"""
    return shares[day.month - 1] if len(shares) == 12 else shares[0]


def opacity_on(structure: Structure, day: dt.date, usual: float = SOLID) -> float:
    """Share of the direct sun that a structure blocks in the month of a day. [0 to 1]

    Parameters
    ----------
    structure : Structure
    day : date
    usual : float
        That of its material in that month, for a structure without an opacity of its own. [0 to 1]
    """
    return in_month(structure.opacity or (usual,), day)


def prisms(
    key: str, name: str, ground: shapely.Geometry, base: float, top: float, opacity: float = 1.0
) -> tuple[Caster, ...]:
    """Make a prism for each polygon of a piece of ground.

    Parameters
    ----------
    key, name : str
    ground : shapely.Geometry
        On the plan. [m]
    base, top : float
        Above the ground. [m]
    opacity : float
        Values above 1 count as 1. [0 to 1]

    Returns
    -------
    tuple of Caster
        Without prisms that cannot cast a shadow.
    """
    return prisms_over(key, name, footprints(ground), base, top, opacity)


def footprints(ground: shapely.Geometry) -> tuple[Footprint, ...]:
    """A footprint for each polygon of a piece of ground."""
    return tuple(Footprint(part) for part in shapely.get_parts(ground) if part.geom_type == "Polygon")


def prisms_over(
    key: str, name: str, grounds: Iterable[Footprint], base: float, top: float, opacity: float = 1.0
) -> tuple[Caster, ...]:
    """Make a prism over each of some footprints; see :func:`prisms`."""
    found = (Caster(key, name, ground, base, top, min(1.0, opacity)) for ground in grounds)
    return tuple(caster for caster in found if caster.casts)


def structure_casters(
    structure: Structure, day: dt.date, stem: float = 0.0, usual: float = SOLID
) -> tuple[Caster, ...]:
    """Prisms of a structure.

    Parameters
    ----------
    structure : Structure
    day : date
        Sets the month of its opacity.
    stem : float
        Height of a tree's clear stem. [m]
    usual : float
        Opacity of its material in that month, for a structure without one of its own. [0 to 1]

    Returns
    -------
    tuple of Caster
        Empty for a structure without height, and for one that lies flat on the ground.
    """
    if structure.stood_on:
        return ()
    name = structure.name or structure.kind
    opacity = opacity_on(structure, day, usual)
    whole = _plan_shape(structure)
    if structure.kind == "arch":
        spring = min(structure.clear_height, structure.height)
        feet = prisms(structure.id, name, footprint(structure), 0.0, spring, opacity)
        return feet + prisms(structure.id, name, whole, spring, structure.height, opacity)
    base = stem if structure.kind == "tree" else 0.0
    return prisms(structure.id, name, whole, base, structure.height, opacity)


def _plan_shape(thing: Structure | Bed) -> shapely.Polygon:
    """Outline on the plan, with fewer corners if it is a circle. [m]"""
    shape = plan_polygon(thing.outline)
    return shapely.simplify(shape, ROUNDNESS) if thing.outline.shape == "circle" else shape


def bed_casters(bed: Bed) -> tuple[Caster, ...]:
    """Prism of the body of a raised bed or container; none for a bed on the ground."""
    return prisms(bed.id, bed.name, _plan_shape(bed), 0.0, bed.height)


def foliage_opacity(plants: int, spread: float, area: float, closed: float = FOLIAGE) -> float:
    """Share of the direct sun that plants block over the ground they grow on. [0 to 1]

    The discs of all plants over the area, at most all of it, times the opacity of closed foliage.

    Parameters
    ----------
    plants : int
        Number of plants.
    spread : float
        Diameter of one plant on the day. [m]
    area : float
        Of the plot. [m2]
    closed : float
        Opacity of closed foliage. [0 to 1]

    Examples
    --------
    >>> round(foliage_opacity(16, 0.1, 1.0), 2)  # seedlings
    0.11
    >>> foliage_opacity(16, 0.5, 1.0)
    0.85
    """
    if area <= 0:
        return 0.0
    return closed * min(1.0, plants * math.pi * (spread / 2) ** 2 / area)


def planting_footprints(outline: Outline, ground: shapely.Geometry) -> tuple[Footprint, ...]:
    """Footprints of a planting without a support.

    Parameters
    ----------
    outline : Outline
        Of its bed.
    ground : shapely.Geometry
        Its plot, or the discs of its plants, in the bed's coordinates. [m]
    """
    shape = shape_to_plan(outline, ground)
    if shapely.get_num_coordinates(shape) > 64:
        shape = shapely.simplify(shape, ROUNDNESS)
    return footprints(shape)


def planting_casters(
    key: str,
    name: str,
    outline: Outline,
    soil: float,
    ground: shapely.Geometry,
    height: float,
    opacity: float = FOLIAGE,
) -> tuple[Caster, ...]:
    """Prisms of a planting without a support: its ground at its height.

    Parameters
    ----------
    key, name : str
    outline, ground
        See :func:`planting_footprints`.
    soil : float
        Height of its bed's soil above the ground. [m]
    height : float
        Of the plants above the bed's soil on that day. [m]
    opacity : float
        See :func:`foliage_opacity`. [0 to 1]
    """
    return prisms_over(key, name, planting_footprints(outline, ground), soil, soil + height, opacity)


def support_casters(
    key: str,
    name: str,
    outline: Outline,
    soil: float,
    support: BuiltSupport,
    height: float,
    leafed: float,
) -> tuple[Caster, ...]:
    """Prisms of a support with its plants.

    Up to the plants' height it has the opacity of their foliage, above that of its bare frame.  More than
    :data:`MOST_POSTS` stakes, cages or towers, or :data:`MOST_POST_CORNERS` corners, are one prism.  Plants that outgrow the
    support hang down, so that nothing is higher than it.  Below an arch's clear height there are only its feet.

    Parameters
    ----------
    key, name : str
        Of the planting.
    outline : Outline
        Of its bed.
    soil : float
        Height of its bed's soil above the ground. [m]
    support : BuiltSupport
        In the bed's coordinates.
    height : float
        Of the plants above the bed's soil on that day. [m]
    leafed : float
        Closure of the foliage, 0 bare to 1 in full leaf.
    """
    reached = min(height, support.height)
    bare, leafy = support_opacity(support.kind, 0.0), support_opacity(support.kind, leafed)
    over, ground = support.over, support.ground
    if shapely.get_num_geometries(over) > MOST_POSTS or shapely.get_num_coordinates(over) > MOST_POST_CORNERS:
        whole = shapely.convex_hull(over)
        share = float(over.area / whole.area)
        over, ground, bare, leafy = whole, whole, bare * share, leafy * share
    over, ground = (shape_to_plan(outline, shape) for shape in (over, ground))
    spring = support.clear_height if support.kind == "arch" else 0.0
    found: tuple[Caster, ...] = ()
    for shape, low, high in ((ground, 0.0, spring), (over, spring, support.height)):
        cut = min(max(reached, low), high)
        found += prisms(key, name, shape, soil + low, soil + cut, leafy)
        found += prisms(key, name, shape, soil + cut, soil + high, bare)
    return found
