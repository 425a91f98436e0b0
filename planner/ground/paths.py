"""Walkable ground of a garden: its paths, on the plan."""

from __future__ import annotations

from collections.abc import Iterable

import shapely

from planner.garden import Bed, Garden, Structure
from planner.ground.obstacles import footprint
from planner.ground.shapes import plan_polygon, polygons_of


def walkable(
    beds: Iterable[Bed], structures: Iterable[Structure], site: shapely.Geometry | None = None
) -> shapely.Geometry:
    """Walkable ground: the site without its beds and solid structures, with the paths through the beds.

    Trees do not count; a board in a bed is stood on, not walked along.

    Parameters
    ----------
    beds : iterable of Bed
    structures : iterable of Structure
    site : shapely.Geometry, optional
        On the plan; the convex hull of all beds by default. [m]
    """
    planted = [plan_polygon(bed.outline) for bed in beds]
    there = tuple(structures)
    whole = site if site is not None else shapely.convex_hull(shapely.union_all(planted))
    solid = [footprint(one) for one in there if one.kind != "tree" and not one.stood_on]
    paths = shapely.union_all([footprint(one) for one in there if one.kind == "path"])
    taken = shapely.union_all([shapely.difference(shapely.union_all(planted), paths), *solid])
    return polygons_of(shapely.difference(whole, taken))


def garden_paths(garden: Garden, year: int) -> shapely.Geometry:
    """Walkable ground of a garden in a growing year.

    Parameters
    ----------
    garden : Garden
    year : int
        Sets which beds and structures are in use.
    """
    site = plan_polygon(garden.site.outline) if garden.site.outline is not None else None
    return walkable(
        (bed for bed in garden.beds if bed.in_use(year)),
        (one for one in garden.structures if one.in_use(year)),
        site,
    )
