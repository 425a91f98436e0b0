"""Lay out a planting in its bed: plot, rows and stations, and the reason if some or all do not fit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely

from planner.garden import Bed, Planting, Support
from planner.garden.planting_figures import PlantingFigures
from planner.garden.units import show_area, show_length
from planner.ground.bed_spacing import spacings
from planner.ground.layout import NO_LAYOUT, Layout
from planner.ground.scatter import lay_places, lay_scatter, stations_beside, too_many
from planner.ground.shapes import bed_axis, plot_outside, plot_polygon, turned
from planner.ground.stations import TOLERANCE, lay_rows
from planner.ground.support_lines import drawn_lines
from planner.lazy import lazy_property
from planner.words import say, say_count

#: Area of a plot beyond its bed that is not reported. [m2]
SPECK = 1e-4
#: Greatest number of plants along a drawn support; more are refused.
MOST_ALONG_SUPPORT = 200_000


@dataclass(frozen=True)
class Placed:
    """Plot and layout of a planting.

    Attributes
    ----------
    plot : shapely.Geometry
        The part of the plot inside the bed, in the bed's coordinates. [m]
    layout : Layout
        Rows and stations.
    problem : str
        A sentence if nothing, or not all, fits; else empty.
    """

    plot: shapely.Geometry
    layout: Layout
    problem: str = ""

    @property
    def plants(self) -> int:
        """Number of stations, each with one plant."""
        return self.layout.count

    @lazy_property
    def area(self) -> float:
        """Area of the plot. [m2]"""
        return float(self.plot.area)


def place_planting(
    bed: Bed, planting: Planting, figures: PlantingFigures, obstacles: shapely.Geometry
) -> Placed:
    """Lay out a planting in its bed.

    Parameters
    ----------
    bed : Bed
    planting : Planting
    figures : PlantingFigures
        For spacings that the planting does not give.
    obstacles : shapely.Geometry
        Ground without plants, in the bed's coordinates. [m]

    Returns
    -------
    Placed
        Never raises: a planting that cannot be laid out has no stations and a problem.
    """
    plot = plot_polygon(bed, planting.plot)
    outside = plot_outside(bed, planting.plot)
    name = figures.crop.name if figures.crop else planting.crop
    if plot.is_empty:
        problem = say("The plot of {crop} lies outside {bed}; move it into the bed", crop=name, bed=bed.name)
        return Placed(plot, NO_LAYOUT, problem)
    try:
        layout, problem = _lay(bed, planting, figures, plot, obstacles, name)
    except ValueError as error:
        return Placed(plot, NO_LAYOUT, say("{crop}: {problem}", crop=name, problem=error))
    if not problem and outside > SPECK:
        problem = say(
            "{area} of the plot of {crop} lie outside {bed}; only the part inside is planted",
            area=show_area(outside),
            crop=name,
            bed=bed.name,
        )
    return Placed(plot, layout, problem)


def _lay(
    bed: Bed,
    planting: Planting,
    figures: PlantingFigures,
    plot: shapely.Geometry,
    obstacles: shapely.Geometry,
    name: str,
) -> tuple[Layout, str]:
    arrangement = planting.arrangement
    if arrangement.kind == "places":
        return _lay_places(plot, arrangement.points, obstacles, name)
    if arrangement.kind == "scatter":
        return lay_scatter(plot, arrangement.density, obstacles), ""
    in_row, between = spacings(arrangement, figures)
    if in_row is None or (between is None and arrangement.rows is None):
        return NO_LAYOUT, _no_spacing(figures, in_row, name)
    if planting.support is not None and planting.support.line:
        return _lay_beside_line(planting.support, plot, in_row, obstacles, name)
    direction = bed_axis(bed.outline) + arrangement.turn
    layout = lay_rows(
        plot,
        in_row,
        between,
        direction=direction,
        rows=arrangement.rows,
        edge=arrangement.edge,
        end=arrangement.end,
        staggered=arrangement.kind == "staggered",
        obstacles=obstacles,
    )
    if layout.count:
        return layout, ""
    return layout, _no_room(plot, direction, in_row, between, name)


def _lay_places(
    plot: shapely.Geometry, points: Sequence[tuple[float, float]], obstacles: shapely.Geometry, name: str
) -> tuple[Layout, str]:
    """Stations at given places, those outside the plot left out."""
    layout = lay_places(plot, points, obstacles)
    lost = len(points) - layout.count
    if not lost:
        return layout, ""
    problem = say_count(
        "{count} of {total} places of {crop} lie outside its plot",
        "{count} of {total} places of {crop} lie outside its plot",
        lost,
        total=len(points),
        crop=name,
    )
    return layout, problem


def _no_spacing(figures: PlantingFigures, in_row: float | None, name: str) -> str:
    """Sentence that names the missing spacing."""
    if figures.crop is None:
        return say("{crop} is not in the catalogue; type its spacing in the planting's details", crop=name)
    if in_row is None:
        return say(
            "{crop} has no in-row spacing there; type its spacing in the planting's details", crop=name
        )
    return say("{crop} has no row spacing there; type its spacing in the planting's details", crop=name)


def _lay_beside_line(
    support: Support, plot: shapely.Geometry, in_row: float, obstacles: shapely.Geometry, name: str
) -> tuple[Layout, str]:
    """Stations beside a support's drawn lines, on one side of each or both."""
    lines = drawn_lines(support)
    wanted = support.sides * int(sum(line.length for line in lines) / in_row)
    if wanted > MOST_ALONG_SUPPORT:
        raise too_many(wanted, MOST_ALONG_SUPPORT)
    points = np.concatenate([stations_beside(line, in_row, support.offset, support.sides) for line in lines])
    layout = replace(lay_places(plot, points, obstacles), in_row_spacing=in_row)
    if not layout.count:
        problem = say(
            "No {crop} stands along its support: the line is {length} long and lies off the plot, or plants stand "
            "{spacing} apart",
            crop=name,
            length=show_length(max(line.length for line in lines)),
            spacing=show_length(in_row),
        )
        return layout, problem
    lost = len(points) - layout.count
    if not lost:
        return layout, ""
    problem = say_count(
        "{count} of {total} {crop} along the support would stand outside the plot",
        "{count} of {total} {crop} along the support would stand outside the plot",
        lost,
        total=len(points),
        crop=name,
    )
    return layout, problem


def _no_room(
    plot: shapely.Geometry, direction: float, in_row: float, between: float | None, name: str
) -> str:
    """Sentence that says which spacing leaves no room for a row or a plant."""
    left, low, right, high = shapely.bounds(turned(plot, -direction))
    apart = between if between is not None else high - low
    if right - left < in_row * (1 - 2 * TOLERANCE) - 1e-6:
        return say(
            "No {crop} fits: the plot is {length} long and its plants stand {spacing} apart; set a smaller spacing, or "
            "place single plants",
            crop=name,
            length=show_length(right - left),
            spacing=show_length(in_row),
        )
    apart_both_ways = f"{in_row:.2f} x {apart:.2f} m"
    return say(
        "No {crop} fits in this plot at {spacings}; set a smaller spacing or edge distance",
        crop=name,
        spacings=apart_both_ways,
    )
