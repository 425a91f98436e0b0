"""What draws: the pen of a PDF and that of an SVG offer this, so that one drawing serves both."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import AbstractContextManager
from typing import TYPE_CHECKING, Protocol

import numpy as np
import shapely

from planner.sheets.family_inks import Rgb
from planner.sheets.fonts import Style
from planner.sheets.hatches import HatchName
from planner.sheets.pen import INK, Align

if TYPE_CHECKING:
    from numpy.typing import NDArray


class DrawingPen(Protocol):
    """Draws in millimetres from the lower left corner; :class:`planner.sheets.pen.Pen` tells what each method does."""

    def line(
        self,
        x0: float,
        y0: float,
        x1: float,
        y1: float,
        rgb: Rgb = INK,
        weight: float = 0.2,
        dash: Sequence[float] = (),
    ) -> None: ...

    def polyline(
        self,
        places: Sequence[tuple[float, float]],
        rgb: Rgb = INK,
        weight: float = 0.2,
        dash: Sequence[float] = (),
    ) -> None: ...

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
    ) -> None: ...

    def shape(
        self,
        geometry: shapely.Geometry,
        *,
        fill: Rgb | None = None,
        rgb: Rgb | None = None,
        weight: float = 0.2,
        dash: Sequence[float] = (),
        opacity: float = 1.0,
    ) -> None: ...

    def clipped(self, geometry: shapely.Geometry) -> AbstractContextManager[None]: ...

    def group(self, name: str) -> AbstractContextManager[None]: ...

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float = 8.0,
        style: Style = "regular",
        rgb: Rgb = INK,
        align: Align = "left",
        turn: float = 0.0,
    ) -> None: ...

    def marks(self, points: NDArray[np.float64], form: str, radius: float, rgb: Rgb) -> None: ...

    def hatch(self, geometry: shapely.Geometry, name: HatchName, tint: Rgb, line: Rgb) -> None: ...
