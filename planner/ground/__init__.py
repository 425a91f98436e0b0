"""Geometry: outlines, plots, rows and stations, free ground, supports, reach and paths."""

from planner.ground.layout import Layout, Row
from planner.ground.scatter import lay_places, lay_scatter
from planner.ground.shapes import (
    bed_axis,
    bed_polygon,
    extent_along_axis,
    outline_area,
    plan_polygon,
    plot_polygon,
    to_own,
    to_plan,
)
from planner.ground.stations import lay_rows

__all__ = [
    "Layout",
    "Row",
    "bed_axis",
    "bed_polygon",
    "extent_along_axis",
    "lay_places",
    "lay_rows",
    "lay_scatter",
    "outline_area",
    "plan_polygon",
    "plot_polygon",
    "to_own",
    "to_plan",
]
