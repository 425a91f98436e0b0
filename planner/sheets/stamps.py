"""Marks and hatches as stamps of a PDF: drawn once, placed as often as they are needed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

import numpy as np

from planner.sheets.family_inks import Rgb
from planner.sheets.fonts import MM
from planner.sheets.growth_marks import mark
from planner.sheets.hatches import HATCHES, HatchName, hatch_sheet

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: A mark of a smaller radius is drawn as a dot. [mm]
LEAST_MARK = 0.55
#: Radius of the dot, as a share of the mark's.
DOT = 0.7
#: Sides of the sheets of hatching that are clipped to plots; what is larger is hatched in part. [mm]
HATCH_SIDES = (10.0, 25.0, 60.0, 130.0, 300.0, 700.0, 2000.0)
#: Weight of a hatch's lines, size of its dots, and share of the family's ink in them. [mm, mm, 0 to 1]
HATCH_LINE, HATCH_DOT, HATCH_SHARE = 0.1, 0.35, 0.35

#: Most marks of a planting that are drawn on one page; on A4 two of them lie within a millimetre of each other.
MOST_MARKS = 100_000


class Stamps:
    """The stamps of one canvas, each made at its first use.

    Parameters
    ----------
    canvas : reportlab.pdfgen.canvas.Canvas
    """

    def __init__(self, canvas: Any) -> None:
        self._canvas = canvas
        self._names: dict[tuple[object, ...], str] = {}

    def mark(self, form: str, radius: float, rgb: Rgb) -> str:
        """Return the stamp of a growth form's mark, about its middle.

        Parameters
        ----------
        form : str
            Growth form.
        radius : float
            [mm]
        rgb : tuple of float
        """
        radius = round(radius, 2)
        key = ("mark", form, radius, rgb)
        if key not in self._names:
            name = f"m{len(self._names)}"
            reach = radius * MM * 1.15
            self._canvas.beginForm(name, -reach, -reach, reach, reach)
            if radius < LEAST_MARK:
                self._canvas.set_fill(rgb)
                self._canvas.circle(0, 0, DOT * radius * MM, stroke=0, fill=1)
            else:
                draw_mark(self._canvas, form, radius, rgb)
            self._canvas.endForm()
            self._names[key] = name
        return self._names[key]

    def hatch(self, name: HatchName, rgb: Rgb, side: float) -> str:
        """Return the stamp of a sheet of hatching, from its lower left corner.

        Parameters
        ----------
        name : str
            Key of the hatch.
        rgb : tuple of float
        side : float
            Of the sheet, see :func:`hatch_side`. [mm]
        """
        key = ("hatch", name, rgb, side)
        if key not in self._names:
            stamp = f"h{len(self._names)}"
            self._canvas.beginForm(stamp, 0, 0, side * MM, side * MM)
            self._draw_hatch(name, rgb, side)
            self._canvas.endForm()
            self._names[key] = stamp
        return self._names[key]

    def _draw_hatch(self, name: HatchName, rgb: Rgb, side: float) -> None:
        hatch = HATCHES[name]
        if hatch.angles:
            self._canvas.set_stroke(rgb, HATCH_LINE, ())
        else:
            # Dots are round-capped dashes of no length.
            self._canvas.set_stroke(rgb, HATCH_DOT, (0.0, hatch.gap))
            self._canvas.setLineCap(1)
        self._canvas.lines([[v * MM for v in line] for line in hatch_sheet(hatch, side)])


def hatch_side(wide: float, high: float) -> float:
    """Side of the sheet of hatching for a plot: programs are slow to clip more lines than are seen. [mm]

    Parameters
    ----------
    wide, high : float
        Of the plot on paper. [mm]
    """
    return next((side for side in HATCH_SIDES if side >= max(wide, high)), HATCH_SIDES[-1])


def mark_weight(radius: float) -> float:
    """Weight of the lines of a mark. [mm]

    Parameters
    ----------
    radius : float
        [mm]
    """
    return min(0.22, 0.07 + 0.08 * radius)


def draw_mark(canvas: Any, form: str, radius: float, rgb: Rgb) -> None:
    """Draw a growth form's mark about the origin of a canvas.

    Parameters
    ----------
    canvas : reportlab.pdfgen.canvas.Canvas
    form : str
        Growth form.
    radius : float
        [mm]
    rgb : tuple of float
    """
    canvas.set_fill(rgb)
    canvas.set_stroke(rgb, mark_weight(radius), ())
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    for stroke in mark(form):
        path = canvas.beginPath()
        corners = [(x * radius * MM, y * radius * MM) for x, y in stroke.points]
        path.moveTo(*corners[0])
        for corner in corners[1:]:
            path.lineTo(*corner)
        if stroke.closed:
            path.close()
        canvas.drawPath(path, stroke=not stroke.filled, fill=stroke.filled)
    canvas.setLineCap(0)
    canvas.setLineJoin(0)


def told_apart(points: NDArray[np.float64]) -> NDArray[np.float64]:
    """Of very many places on a page those that can be told apart, in their order: one in each square of a grid.

    Parameters
    ----------
    points : array (n, 2)
        [mm]

    Returns
    -------
    ndarray (m, 2)
        The same where they are at most :data:`MOST_MARKS`.
    """
    if len(points) <= MOST_MARKS:
        return points
    low = points.min(axis=0)
    wide, high = np.maximum(points.max(axis=0) - low, 1e-6)
    side = max(math.sqrt(wide * high / MOST_MARKS), max(wide, high) / MOST_MARKS)
    across, up = ((points - low) // side).astype(np.int64).T
    _, first = np.unique(across * (MOST_MARKS + 1) + up, return_index=True)
    return points[np.sort(first)]


def stamps_in_steps(name: str, steps: Iterable[tuple[int, int]]) -> str:
    """Write the placing of a stamp as text of a PDF, each place as a step from the one before.

    Parameters
    ----------
    name : str
        Of the stamp.
    steps : iterable of (int, int)
        Right and up. [thousandths of a point]
    """
    from reportlab.pdfbase.pdfdoc import xObjectName

    stamp = xObjectName(name)
    return "\n".join(f"1 0 0 1 {_thousandths(dx)} {_thousandths(dy)} cm /{stamp} Do" for dx, dy in steps)


def _thousandths(value: int) -> str:
    """An integer of thousandths as the shortest decimal."""
    sign = "-" if value < 0 else ""
    whole, part = divmod(abs(value), 1000)
    text = f"{sign}{whole}.{part:03d}" if part else f"{sign}{whole}"
    return text.rstrip("0") if part else text
