"""The measures of a drawing: a tape along the bed's lower edge, and dimension lines."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import shapely

from planner.garden.site import UnitSystem
from planner.garden.units import FOOT
from planner.ground.bed_frame import BedFrame
from planner.sheets.page_chrome import dimension, tick_step, upright_dimension
from planner.sheets.part_layout import DIMENSION_ROW, FIGURE_SIZE
from planner.sheets.pen import PENCIL, Pen
from planner.sheets.scale import Division, Part
from planner.sheets.tape_measure import TapeMeasure
from planner.words import say

#: Most lengths in the chain of dimension lines; where there are more it is left out.
_MOST_CHAIN = 16
#: Plots that end closer to each other share a place in the chain. [m]
_SAME_PLACE = 0.005
#: Least distance on paper from tick to tick, and from number to number. [mm]
_LEAST_TICK, _LEAST_LABEL = 1.6, 11.0
#: Steps from tick to tick of the tape. [m]
_TICKS: dict[UnitSystem, tuple[float, ...]] = {
    "metric": (0.05, 0.1, 0.25, 0.5, 1.0, 5.0, 10.0, 50.0),
    "feet_inches": tuple(FOOT * n for n in (1 / 6, 0.25, 0.5, 1, 5, 10, 50, 100)),
}
#: Steps from number to number of the tape. [m]
_LABELS: dict[UnitSystem, tuple[float, ...]] = {
    "metric": (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0),
    "feet_inches": tuple(FOOT * n for n in (0.5, 1, 2, 5, 10, 20, 50, 100, 200)),
}


@dataclass(frozen=True)
class PartMeasures:
    """Tape and dimension lines of the drawing of a part of a bed.

    Attributes
    ----------
    frame : BedFrame
    measure : TapeMeasure
    division : Division
        Scale and parts of the bed.
    part : Part
        The part that is drawn.
    plots : tuple of shapely.Geometry
        Plots of the plantings drawn, in the frame. [m]
    whole : bool
        Whether the whole length has a dimension line too.
    """

    frame: BedFrame
    measure: TapeMeasure
    division: Division
    part: Part
    plots: tuple[shapely.Geometry, ...]
    whole: bool = True

    @cached_property
    def breaks(self) -> list[float]:
        """Where plots begin and end along the part, its own ends included. [m]

        Empty where they would make a chain of one length, or of too many.
        """
        first, last = self._ends
        found = {round(first, 4), round(last, 4)}
        for plot in self.plots:
            if not plot.is_empty:
                left, _, right, _ = shapely.bounds(plot)
                found |= {round(float(v), 4) for v in (left, right) if first < v < last}
        merged: list[float] = []
        for value in sorted(found):
            if not merged or value - merged[-1] > _SAME_PLACE:
                merged.append(value)
        return merged if 2 < len(merged) <= _MOST_CHAIN else []

    @property
    def height(self) -> float:
        """Of the dimension lines. [mm]"""
        return DIMENSION_ROW * (bool(self.breaks) + self.whole)

    def draw(self, pen: Pen, base: float, below: float, x: Callable[[float], float], left: float) -> None:
        """Draw tape and dimension lines.

        Parameters
        ----------
        pen : Pen
        base, below : float
            Heights of the bed's lower edge, and of the upper end of the dimension lines' room, above the page's
            bottom. [mm]
        x : callable
            Page millimetres of a distance along the bed in metres.
        left : float
            Left margin. [mm]
        """
        self._draw_tape(pen, base, x)
        self._draw_dimensions(pen, below, x)
        scale = 1000.0 / self.division.scale
        words = self.measure.length(self.frame.width)
        upright_dimension(pen, base, base + self.frame.width * scale, left + 4.6, words)

    @property
    def _ends(self) -> tuple[float, float]:
        """Ends of the part between its joins, overlaps left out. [m]"""
        part = self.part
        return (
            part.left if part.left is not None else part.start,
            part.right if part.right is not None else part.end,
        )

    def _draw_tape(self, pen: Pen, base: float, x: Callable[[float], float]) -> None:
        """Ticks and numbers along the lower edge, counted from the bed's beginning."""
        units, scale = self.measure.units, self.division.scale
        small = tick_step(_TICKS[units], scale, _LEAST_TICK)
        large = tick_step([s for s in _LABELS[units] if _is_whole(s / small)], scale, _LEAST_LABEL)
        y = base - 1.2
        ticks = [(x(self.part.start), y, x(self.part.end), y)]
        first, last = self.part.start - 1e-9, self.part.end + 1e-9
        for k in range(round(last / small) + 1):
            at = k * small
            if not first <= at <= last:
                continue
            labelled = _is_whole(at / large)
            ticks.append((x(at), y, x(at), y - (1.5 if labelled else 0.8)))
            if labelled:
                pen.text(x(at), y - 4.2, self.measure.mark(at), FIGURE_SIZE, align="middle")
        pen.segments(ticks, PENCIL, 0.13)

    def _draw_dimensions(self, pen: Pen, below: float, x: Callable[[float], float]) -> None:
        """A chain from plot to plot, and the whole length below it."""
        length = self.measure.length
        y = below - 3.9
        for a, b in itertools.pairwise(self.breaks):
            dimension(pen, x(a), x(b), y, length(b - a))
        if not self.whole:
            return
        if self.breaks:
            y -= DIMENSION_ROW
        first, last = self._ends
        words = length(last - first)
        if len(self.division.parts) > 1:
            words = say("{length} of {whole}", length=words, whole=length(self.frame.length))
        dimension(pen, x(first), x(last), y, words)


def _is_whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-6
