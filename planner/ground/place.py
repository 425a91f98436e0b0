"""Lay out a planting in its bed: plot, rows and stations, and the reason if some or all do not fit."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import shapely

from planner.garden import Bed, Planting, Support
from planner.garden.arrangements import Rows, StaggeredRows
from planner.garden.planting_figures import PlantingFigures
from planner.ground.layout import NO_LAYOUT, Layout
from planner.ground.scatter import lay_places, lay_scatter, stations_beside
from planner.ground.shapes import bed_axis, plot_outside, plot_polygon, turned
from planner.ground.stations import lay_rows
from planner.lazy import lazy_property

#: Area of a plot beyond its bed that is not reported. [m2]
SPECK = 1e-4


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
        return Placed(plot, NO_LAYOUT, f"The plot of {name} lies outside {bed.name}; move it into the bed")
    try:
        layout, problem = _lay(bed, planting, figures, plot, obstacles, name)
    except ValueError as error:
        return Placed(plot, NO_LAYOUT, f"{name}: {error}")
    if not problem and outside > SPECK:
        problem = (
            f"{outside:.2f} m² of the plot of {name} lie outside {bed.name}; only the part inside is planted"
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
        layout = lay_places(plot, arrangement.points, obstacles)
        lost = len(arrangement.points) - layout.count
        return (
            layout,
            f"{lost} of {len(arrangement.points)} places of {name} lie outside its plot" if lost else "",
        )
    if arrangement.kind == "scatter":
        return lay_scatter(plot, arrangement.density, obstacles), ""
    in_row, between = spacings(arrangement, figures)
    if in_row is None or (between is None and arrangement.rows is None):
        missing = "in-row spacing" if in_row is None else "row spacing"
        why = "is not in the catalogue" if figures.crop is None else f"has no {missing} there"
        return NO_LAYOUT, f"{name} {why}; type its spacing in the planting's details"
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


def _lay_beside_line(
    support: Support, plot: shapely.Geometry, in_row: float, obstacles: shapely.Geometry, name: str
) -> tuple[Layout, str]:
    """Stations beside a support's drawn line, on one side of it or both."""
    line = shapely.LineString(support.line)
    points = stations_beside(line, in_row, support.offset, support.sides)
    layout = replace(lay_places(plot, points, obstacles), in_row_spacing=in_row)
    if not layout.count:
        return (
            layout,
            f"No {name} stands along its support: the line is {line.length:.2f} m long and lies off the plot, or plants stand {in_row:.2f} m apart",
        )
    lost = len(points) - layout.count
    return (
        layout,
        f"{lost} of {len(points)} {name} along the support would stand outside the plot" if lost else "",
    )


def spacings(
    arrangement: Rows | StaggeredRows, figures: PlantingFigures
) -> tuple[float | None, float | None]:
    """In-row and row spacing of an arrangement in rows: its own, else those of the variety or crop.

    Parameters
    ----------
    arrangement : Rows or StaggeredRows
    figures : PlantingFigures

    Returns
    -------
    in_row, between : float or None
        None if unknown; the row spacing also if a number of rows shares the plot evenly. [m]
    """
    in_row = arrangement.in_row_spacing or figures.number("in_row_spacing")
    between = arrangement.row_spacing
    if between is None and arrangement.rows is None:
        if arrangement.kind == "staggered":
            between = in_row * math.sqrt(3) / 2 if in_row is not None else None
        else:
            between = figures.number("row_spacing") or in_row
    return in_row, between


def _no_room(
    plot: shapely.Geometry, direction: float, in_row: float, between: float | None, name: str
) -> str:
    """Sentence that says which spacing leaves no room for a row or a plant."""
    left, low, right, high = shapely.bounds(turned(plot, -direction))
    apart = between if between is not None else high - low
    if high - low < apart - 1e-6:
        return (
            f"No row of {name} fits: the plot is {high - low:.2f} m across and its rows stand {apart:.2f} m apart; "
            "set the number of rows to 1, or a smaller row spacing"
        )
    if right - left < in_row - 1e-6:
        return (
            f"No {name} fits: the plot is {right - left:.2f} m long and its plants stand {in_row:.2f} m apart; "
            "set a smaller spacing, or place single plants"
        )
    return (
        f"No {name} fits in this plot at {in_row:.2f} x {apart:.2f} m; set a smaller spacing or edge distance"
    )
