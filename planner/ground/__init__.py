"""Geometry: outlines, plots, rows and stations, free ground."""

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
from planner.ground.stations import Layout, Row, lay, lay_places, lay_scatter

__all__ = [
    "Layout",
    "Row",
    "bed_axis",
    "bed_polygon",
    "extent_along_axis",
    "lay",
    "lay_places",
    "lay_scatter",
    "outline_area",
    "plan_polygon",
    "plot_polygon",
    "to_own",
    "to_plan",
]
