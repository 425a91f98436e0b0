"""A pen that draws a part of a large drawing on a page: all is moved, and what lies outside is left out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from typing import TYPE_CHECKING

import numpy as np
import shapely

from planner.sheets import fonts
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.family_inks import Rgb
from planner.sheets.hatches import HatchName
from planner.sheets.pen import INK, Align

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: What lies so far outside may still reach in with its line. [mm]
_ROUND = 2.0


class TilePen:
    """Draws what of a large drawing lies in a window, in millimetres of that drawing.

    Parameters
    ----------
    pen : DrawingPen
        Of the page.
    window : tuple of float
        Left, low, right and high of the part, on the large drawing. [mm]
    corner : tuple of float
        Where its lower left corner comes to lie on the page. [mm]
    """

    def __init__(
        self, pen: DrawingPen, window: tuple[float, float, float, float], corner: tuple[float, float]
    ) -> None:
        self._pen, self._window = pen, window
        self._step = np.array([corner[0] - window[0], corner[1] - window[1]])

    def _seen(self, left: float, low: float, right: float, high: float, reach: float = _ROUND) -> bool:
        """Whether some box reaches into the window."""
        window = self._window
        return (
            left <= window[2] + reach
            and right >= window[0] - reach
            and low <= window[3] + reach
            and high >= window[1] - reach
        )

    def _moved(self, geometry: shapely.Geometry) -> shapely.Geometry:
        return shapely.transform(geometry, lambda points: points + self._step)

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
        """Draw a line."""
        if self._seen(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)):
            dx, dy = self._step.tolist()
            self._pen.line(x0 + dx, y0 + dy, x1 + dx, y1 + dy, rgb, weight, dash)

    def polyline(
        self,
        places: Sequence[tuple[float, float]],
        rgb: Rgb = INK,
        weight: float = 0.2,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a line through several places."""
        xs, ys = [x for x, _ in places], [y for _, y in places]
        if self._seen(min(xs), min(ys), max(xs), max(ys)):
            dx, dy = self._step.tolist()
            self._pen.polyline([(x + dx, y + dy) for x, y in places], rgb, weight, dash)

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
        """Draw a rectangle."""
        if self._seen(x, y, x + width, y + height):
            dx, dy = self._step.tolist()
            self._pen.box(x + dx, y + dy, width, height, fill=fill, rgb=rgb, weight=weight)

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
        """Draw polygons."""
        if not geometry.is_empty and self._seen(*shapely.bounds(geometry).tolist()):
            self._pen.shape(
                self._moved(geometry), fill=fill, rgb=rgb, weight=weight, dash=dash, opacity=opacity
            )

    @contextmanager
    def clipped(self, geometry: shapely.Geometry) -> Iterator[None]:
        """Draw only inside some polygons."""
        with self._pen.clipped(self._moved(geometry)):
            yield

    def group(self, name: str) -> AbstractContextManager[None]:
        """Draw what belongs together."""
        return self._pen.group(name)

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
    ) -> None:
        """Draw a line of text, where any of it can be seen."""
        wide = fonts.width(text, size, style)
        before = {"left": 0.0, "middle": wide / 2, "right": wide}[align]
        ends = np.array([[-before, 0.0], [wide - before, 0.0]])
        angle = np.radians(turn)
        ends = ends @ np.array([[np.cos(angle), np.sin(angle)], [-np.sin(angle), np.cos(angle)]]) + (x, y)
        (left, low), (right, high) = ends.min(axis=0).tolist(), ends.max(axis=0).tolist()
        if self._seen(left, low, right, high, size * fonts.POINT):
            dx, dy = self._step.tolist()
            self._pen.text(x + dx, y + dy, text, size, style, rgb, align, turn)

    def marks(self, points: NDArray[np.float64], form: str, radius: float, rgb: Rgb) -> None:
        """Draw marks, those that reach into the window."""
        left, low, right, high = self._window
        reach = 1.2 * radius + _ROUND
        x, y = points[:, 0], points[:, 1]
        seen = (x >= left - reach) & (x <= right + reach) & (y >= low - reach) & (y <= high + reach)
        self._pen.marks(points[seen] + self._step, form, radius, rgb)

    def hatch(self, geometry: shapely.Geometry, name: HatchName, tint: Rgb, line: Rgb) -> None:
        """Hatch polygons; the hatch begins at their corner, so that it goes on from page to page."""
        if not geometry.is_empty and self._seen(*shapely.bounds(geometry).tolist()):
            self._pen.hatch(self._moved(geometry), name, tint, line)
