"""Charts drawn on paper: their marks in the inks of the sheets."""

from __future__ import annotations

import shapely

from planner.sheets import fonts
from planner.sheets.chart_marks import Area, Chart, ChartInk, Dot, Line, Room, Words
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.family_inks import Rgb
from planner.sheets.pen import FAINT, INK, PENCIL, WHITE

#: Size of the words of a chart [points], and their height. [mm]
SIZE = 8.0
LINE = 3.4
#: A line of usual weight. [mm]
_WEIGHT = 0.2
_INKS: dict[ChartInk, Rgb] = {
    "ink": INK,
    "pencil": PENCIL,
    "faint": FAINT,
    "warm": (0.64, 0.24, 0.0),
    "cold": (0.08, 0.39, 0.72),
    "wet": (0.08, 0.39, 0.72),
}


def room_on_paper(width: float, height: float, gutter: float = 0.0) -> Room:
    """A room for a chart. [mm]"""
    return Room(width, height, LINE, lambda text: fonts.width(text, SIZE), gutter)


def draw_on_paper(pen: DrawingPen, chart: Chart, left: float, top: float) -> None:
    """Draw a chart.

    Parameters
    ----------
    pen : DrawingPen
    chart : Chart
        Made for a room of millimetres.
    left, top : float
        Where its upper left corner lies. [mm]
    """
    for mark in chart.marks:
        ink = _INKS[mark.ink]
        if isinstance(mark, Line):
            dash = [part * LINE for part in mark.dash]
            pen.polyline([(left + x, top - y) for x, y in mark.places], ink, _WEIGHT * mark.weight, dash)
        elif isinstance(mark, Area):
            area = shapely.Polygon([(left + x, top - y) for x, y in mark.corners])
            pen.shape(area, fill=ink, opacity=mark.share)
        elif isinstance(mark, Dot):
            disc = shapely.Point(left + mark.x, top - mark.y).buffer(mark.radius, quad_segs=8)
            pen.shape(disc, fill=ink if mark.filled else WHITE, rgb=ink, weight=0.2)
        elif isinstance(mark, Words):
            style: fonts.Style = "bold" if mark.bold else "regular"
            pen.text(left + mark.x, top - mark.y, mark.text, SIZE, style, ink, mark.anchor)
