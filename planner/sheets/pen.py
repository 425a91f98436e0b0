"""Drawing on a PDF page in millimetres from its lower left corner."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from typing import TYPE_CHECKING, Any, Literal

import numpy as np
import shapely

from planner.sheets import fonts
from planner.sheets.family_inks import Rgb, mixed
from planner.sheets.fonts import MM
from planner.sheets.hatches import HatchName
from planner.sheets.stamps import HATCH_SHARE, Stamps, draw_mark, hatch_side, stamps_in_steps, told_apart
from planner.sheets.tagging_pen import TaggingPen
from planner.sheets.text_pieces import pieces
from planner.sheets.text_setting import line_of_text

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Inks of a sheet: lines and text, lighter ones, faint ones, the bed's ground, the paper.
INK: Rgb = (0.11, 0.11, 0.13)
PENCIL: Rgb = (0.42, 0.42, 0.44)
FAINT: Rgb = (0.78, 0.77, 0.74)
GROUND: Rgb = (0.965, 0.945, 0.905)
WHITE: Rgb = (1.0, 1.0, 1.0)

Align = Literal["left", "middle", "right"]

#: Corners of outlines that lie off a straight line by less are left out. [mm]
HAIR = 0.01
#: Marks that are placed by one piece of the PDF, so that no line of it grows too long.
_PLACES_AT_ONCE = 400


class Pen(TaggingPen):
    """Draws on a reportlab canvas in millimetres.

    Parameters
    ----------
    canvas : reportlab.pdfgen.canvas.Canvas
    """

    def __init__(self, canvas: Any) -> None:
        super().__init__(canvas)
        self._stamps = Stamps(canvas)

    # -- lines and grounds ------------------------------------------------------------------

    def line(
        self,
        x0: float,
        y0: float,
        x1: float,
        y1: float,
        rgb: Rgb = INK,
        weight: float = 0.2,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a line.

        Parameters
        ----------
        x0, y0, x1, y1 : float
            Its ends. [mm]
        rgb : tuple of float
        weight : float
            [mm]
        dash : sequence of float
            Dashes and gaps in turn; solid where empty. [mm]
        """
        self._canvas.set_stroke(rgb, weight, dash)
        self._canvas.addLiteral(f"{x0 * MM:.3f} {y0 * MM:.3f} m {x1 * MM:.3f} {y1 * MM:.3f} l S")

    def polyline(
        self,
        places: Sequence[tuple[float, float]],
        rgb: Rgb = INK,
        weight: float = 0.2,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a line through several places; the dashes run on over its corners.

        Parameters
        ----------
        places : sequence of (float, float)
            Two at least. [mm]
        rgb : tuple of float
        weight : float
            [mm]
        dash : sequence of float
            Dashes and gaps in turn; solid where empty. [mm]
        """
        self._canvas.set_stroke(rgb, weight, dash)
        parts = [f"{x * MM:.3f} {y * MM:.3f} {'l' if at else 'm'}" for at, (x, y) in enumerate(places)]
        self._canvas.addLiteral("\n".join([*parts, "S"]))

    def segments(self, ends: Sequence[Sequence[float]], rgb: Rgb = INK, weight: float = 0.2) -> None:
        """Draw many solid lines at once.

        Parameters
        ----------
        ends : sequence of (x0, y0, x1, y1)
            [mm]
        rgb : tuple of float
        weight : float
            [mm]
        """
        self._canvas.set_stroke(rgb, weight, ())
        # Written here: reportlab's own way of writing numbers takes most of the time of a sheet of many lines.
        lines = ([value * MM for value in line] for line in ends)
        parts = (f"{x0:.3f} {y0:.3f} m {x1:.3f} {y1:.3f} l" for x0, y0, x1, y1 in lines)
        self._canvas.addLiteral("\n".join([*parts, "S"]))

    def box(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        *,
        fill: Rgb | None = None,
        rgb: Rgb | None = INK,
        weight: float = 0.2,
    ) -> None:
        """Draw a rectangle.

        Parameters
        ----------
        x, y : float
            Its lower left corner. [mm]
        width, height : float
            [mm]
        fill, rgb : tuple of float or None
            Inks of the area and of its line; None for none.
        weight : float
            Of the line. [mm]
        """
        if fill is not None:
            self._canvas.set_fill(fill)
        if rgb is not None:
            self._canvas.set_stroke(rgb, weight, ())
        if fill is None and rgb is None:
            return
        paint = "B" if fill is not None and rgb is not None else "f" if fill is not None else "S"
        self._canvas.addLiteral(f"{x * MM:.3f} {y * MM:.3f} {width * MM:.3f} {height * MM:.3f} re {paint}")

    def disc(
        self, x: float, y: float, radius: float, *, fill: Rgb | None = None, rgb: Rgb | None = INK
    ) -> None:
        """Draw a circle.

        Parameters
        ----------
        x, y : float
            Its middle. [mm]
        radius : float
            [mm]
        fill, rgb : tuple of float or None
            Inks of the area and of its line; None for none.
        """
        if fill is not None:
            self._canvas.set_fill(fill)
        if rgb is not None:
            self._canvas.set_stroke(rgb, 0.2, ())
        self._canvas.circle(x * MM, y * MM, radius * MM, stroke=rgb is not None, fill=fill is not None)

    def shape(
        self,
        geometry: shapely.Geometry,
        *,
        fill: Rgb | None = None,
        rgb: Rgb | None = None,
        weight: float = 0.2,
        dash: Sequence[float] = (),
        opacity: float = 1.0,
    ) -> None:
        """Draw polygons, their holes left open.

        Parameters
        ----------
        geometry : shapely.Geometry
            In page millimetres.
        fill, rgb : tuple of float or None
            Inks of the area and of its line; None for none.
        weight : float
            Of the line. [mm]
        dash : sequence of float
            Dashes and gaps in turn; solid where empty. [mm]
        opacity : float
            Of the area. [0 to 1]
        """
        path = self._path(geometry)
        if path is None:
            return
        if fill is not None:
            self._canvas.set_fill(fill)
        if opacity < 1.0:
            self._canvas.setFillAlpha(opacity)
        if rgb is not None:
            self._canvas.set_stroke(rgb, weight, dash)
        self._canvas.drawPath(path, stroke=rgb is not None, fill=fill is not None, fillMode=0)
        if opacity < 1.0:
            self._canvas.setFillAlpha(1.0)

    def group(self, name: str) -> AbstractContextManager[None]:
        """Draw what belongs together; a PDF has no word for it.

        Parameters
        ----------
        name : str
            What it is.
        """
        return nullcontext()

    @contextmanager
    def clipped(self, geometry: shapely.Geometry) -> Iterator[None]:
        """Draw only inside some polygons."""
        self._canvas.saveState()
        path = self._path(geometry)
        if path is not None:
            self._canvas.clipPath(path, stroke=0, fill=0, fillMode=0)
        yield
        self._canvas.restoreState()

    def _path(self, geometry: shapely.Geometry) -> Any:
        fine = shapely.simplify(geometry, HAIR)  # not all of a circle's corners need be written
        rings = [ring for ring in shapely.get_rings(shapely.get_parts(fine)) if not ring.is_empty]
        if not rings:
            return None
        path = self._canvas.beginPath()
        for ring in rings:
            corners = (shapely.get_coordinates(ring)[:-1] * MM).tolist()
            path.moveTo(*corners[0])
            for corner in corners[1:]:
                path.lineTo(*corner)
            path.close()
        return path

    # -- text -------------------------------------------------------------------------------

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float = 8.0,
        style: fonts.Style = "regular",
        rgb: Rgb = INK,
        align: Align = "left",
        turn: float = 0.0,
        *,
        spaced: bool = False,
    ) -> None:
        """Draw a line of text on its base line.

        Parameters
        ----------
        x, y : float
            Beginning, middle or end of the base line, after ``align``. [mm]
        text : str
        size : float
            [points]
        style : {"regular", "bold", "italic"}
        rgb : tuple of float
        align : {"left", "middle", "right"}
        turn : float
            Anticlockwise about the place. [degrees]
        spaced : bool
            Whether a space follows, which keeps words of two lines apart for what reads them.
        """
        if align != "left":
            width = fonts.width(text, size, style)
            shift = width / 2 if align == "middle" else width
        else:
            shift = 0.0
        self._canvas.set_fill(rgb)
        if turn:
            self._canvas.saveState()
            self._canvas.translate(x * MM, y * MM)
            self._canvas.rotate(turn)
            x, y = 0.0, 0.0
        parts = pieces(text, style)
        line = line_of_text(self._canvas._doc, parts, text, (x - shift) * MM, y * MM, size, spaced=spaced)
        self._canvas.addLiteral(line)
        if turn:
            self._canvas.restoreState()

    def lines(
        self,
        x: float,
        top: float,
        lines: Iterable[str],
        size: float = 8.0,
        style: fonts.Style = "regular",
        rgb: Rgb = INK,
        align: Align = "left",
    ) -> float:
        """Draw lines of text below a height, and return the height below the last.

        Parameters
        ----------
        x, top : float
            Beginning, middle or end of the lines, after ``align``, and their upper edge. [mm]
        lines : iterable of str
        size : float
            [points]
        style : {"regular", "bold", "italic"}
        rgb : tuple of float
        align : {"left", "middle", "right"}
        """
        for line in lines:
            self.text(x, top - 0.8 * size * fonts.POINT * 1.18, line, size, style, rgb, align, spaced=True)
            top -= fonts.line_height(size)
        return top

    # -- marks and hatches ------------------------------------------------------------------

    def marks(self, points: NDArray[np.float64], form: str, radius: float, rgb: Rgb) -> None:
        """Draw a growth form's mark at every point; the mark is one object, placed n times.

        Places are rounded to a thousandth of a point; each is written as the step from the one
        before, so rounding does not add up.

        Parameters
        ----------
        points : numpy.ndarray
            Places (n, 2). [mm]
        form : str
            Growth form.
        radius : float
            [mm]
        rgb : tuple of float
        """
        if not len(points):
            return
        name = self._stamps.mark(form, radius, rgb)
        places = np.rint(told_apart(points) * (MM * 1000.0)).astype(np.int64)
        for begin in range(0, len(places), _PLACES_AT_ONCE):
            part = places[begin : begin + _PLACES_AT_ONCE]
            self._canvas.saveState()
            self._canvas.translate(part[0, 0] / 1000.0, part[0, 1] / 1000.0)
            self._canvas.doForm(name)
            steps = np.diff(part, axis=0).tolist()
            self._canvas.addLiteral(stamps_in_steps(name, steps))
            self._canvas.restoreState()

    def one_mark(self, x: float, y: float, form: str, radius: float, rgb: Rgb) -> None:
        """Draw a growth form's mark once, as in a key.

        Parameters
        ----------
        x, y : float
            Its middle. [mm]
        form : str
            Growth form.
        radius : float
            [mm]
        rgb : tuple of float
        """
        self._canvas.saveState()
        self._canvas.translate(x * MM, y * MM)
        draw_mark(self._canvas, form, radius, rgb)
        self._canvas.restoreState()

    def hatch(self, geometry: shapely.Geometry, name: HatchName, tint: Rgb, line: Rgb) -> None:
        """Hatch polygons.

        Parameters
        ----------
        geometry : shapely.Geometry
            In page millimetres.
        name : str
            Key of the hatch.
        tint, line : tuple of float
            Inks of the ground and of the family's lines, between which the hatch's own lies.
        """
        if geometry.is_empty:
            return
        left, low, right, high = (float(value) for value in shapely.bounds(geometry))
        side = hatch_side(right - left, high - low)
        stamp = self._stamps.hatch(name, mixed(line, tint, HATCH_SHARE), side)
        with self.clipped(geometry):
            self._canvas.translate(left * MM, low * MM)
            self._canvas.doForm(stamp)
