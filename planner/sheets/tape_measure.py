"""Measures as a tape shows them: whole centimetres, or halves of an inch in a garden measured in feet.

Marks are rounded together, so that a row still holds all its plants: whoever begins at the first mark and goes on
step by step ends at the last.  The garden file keeps the true values.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from planner.garden.site import UnitSystem
from planner.garden.units import INCH, show_area
from planner.sheets.tape import Tape, even_step
from planner.words import number_words, say

#: Spacings are printed for one plant, or for several together, where that is truer; so many at most.
_MOST_TOGETHER = 5
#: Difference from the true spacing that is let pass. [share]
_NEAR = 0.03
#: A row may grow by so much of its spacing: its end plants stand half a spacing from its ends. [share]
_GROWTH = 0.5
#: Depths up to this are printed to half a centimetre, or a quarter of an inch. [m]
_SHALLOW = 0.0265
#: Distances below these are printed to half a centimetre, and to a tenth. [m]
_CLOSE, _VERY_CLOSE = 0.10, 0.02
_FRACTIONS = {1: "¼", 2: "½", 3: "¾"}


class Step(NamedTuple):
    """The step from plant to plant: so many plants in so many units of the tape."""

    plants: int
    units: int


class Marks(NamedTuple):
    """Marks of a row in units of the tape: the first, the step, the last.

    Attributes
    ----------
    first, last : int
    step : Step or None
        None with a single mark.
    """

    first: int
    step: Step | None
    last: int

    def places(self, count: int) -> list[float]:
        """All marks, in units of the tape."""
        if self.step is None:
            return [float(self.first)] * count
        return [self.first + k * self.step.units / self.step.plants for k in range(count)]


def rounded_marks(first: float, last: float, count: int, unit: float) -> Marks:
    """Round evenly spaced marks to a tape's units, together.

    Parameters
    ----------
    first, last : float
        [m]
    count : int
        How many marks there are.
    unit : float
        [m]
    """
    first, last = first / unit, last / unit
    if count < 2 or last - first < 0.5:
        at = _nearest(first)
        return Marks(at, None, at)
    step = _step((last - first) / (count - 1), count)
    length = (count - 1) * step.units / step.plants
    begin = _nearest(first + (last - first - length) / 2)
    return Marks(begin, step, math.ceil(begin + length - 0.5 - 1e-9))


def _step(true: float, count: int) -> Step:
    """The step nearest to a true spacing with which a row still fits. [units of the tape]"""
    growth = _GROWTH * true / (count - 1)
    for plants in range(1, _MOST_TOGETHER + 1):
        for units in (math.floor(plants * true + 1e-6), math.ceil(plants * true - 1e-6)):
            printed = units / plants
            if units and abs(printed - true) <= _NEAR * true and printed <= true + growth + 1e-9:
                return Step(plants, units)
    fewer = [Step(plants, math.floor(plants * true + 1e-6)) for plants in range(1, _MOST_TOGETHER + 1)]
    best = max(fewer, key=lambda step: (step.units / step.plants, -step.plants))
    return best if best.units else Step(_MOST_TOGETHER, 1)


def _nearest(value: float) -> int:
    """The nearest whole number; of two the greater."""
    return math.floor(value + 0.5 + 1e-9)


@dataclass(frozen=True)
class TapeMeasure:
    """Prints lengths as a tape shows them.

    Attributes
    ----------
    units : {"metric", "feet_inches"}
    """

    units: UnitSystem

    @property
    def unit(self) -> float:
        """The least step of the tape. [m]"""
        return 0.01 if self.units == "metric" else INCH / 2

    @property
    def unit_words(self) -> str:
        """Unit of bare marks, for the head of a column; empty where each mark has its own."""
        return say("cm") if self.units == "metric" else ""

    def headed(self, head: str) -> str:
        """A head of a column, with the unit of the marks in it."""
        return say("{head}, {unit}", head=head, unit=self.unit_words) if self.unit_words else head

    def marks(self, tape: Tape) -> Marks:
        """The rounded marks of a tape."""
        return rounded_marks(tape.first, tape.last, tape.count, self.unit)

    def offsets(self, values: Sequence[float]) -> str:
        """Distances of rows: each, or where they are many and even the first, the step and the last. [m]"""
        if even_step(values) is not None:
            marks = rounded_marks(values[0], values[-1], len(values), self.unit)
            if marks.step is not None and marks.step.plants == 1:
                if len(values) > 6:
                    return say(
                        "{first}, then every {step} to {last}",
                        first=self.bare(marks.first),
                        step=self.bare(marks.step.units),
                        last=self.bare(marks.last),
                    )
                return ", ".join(self.bare(round(place)) for place in marks.places(len(values)))
        return ", ".join(self.bare(_nearest(value / self.unit)) for value in values)

    def bare(self, units: float) -> str:
        """A mark without its unit in centimetres, ``7′ 10½″`` in feet and inches; from units of the tape."""
        if self.units == "metric":
            return number_words(units, 0)
        halves = round(units)
        feet, rest = divmod(abs(halves), 24)
        inches, half = divmod(rest, 2)
        words = f"{inches or (0 if not half else '')}{'½' if half else ''}″"
        if feet and not rest:
            words = f"{feet}′"
        elif feet:
            words = f"{feet}′\u202f{words}"
        return f"−{words}" if halves < 0 else words

    def mark(self, metres: float) -> str:
        """A mark, rounded by itself, without its unit. [m]"""
        return self.bare(_nearest(metres / self.unit))

    def step(self, step: Step | None) -> str:
        """A step: ``45``, or ``2 in 15`` where two plants share fifteen centimetres; a dash without one."""
        if step is None:
            return "–"
        if step.plants == 1:
            return self.bare(step.units)
        return say("{plants} in {length}", plants=step.plants, length=self.bare(step.units))

    def length(self, metres: float) -> str:
        """A length with its unit: ``240 cm``, ``7′ 10½″``. [m]"""
        return self._with_unit(self.mark(metres))

    def at_least(self, metres: float) -> str:
        """A length to cut, rounded up. [m]"""
        return self._with_unit(self.bare(math.ceil(metres / self.unit - 1e-6)))

    def size(self, length: float, width: float) -> str:
        """A sheet to cut, rounded up: ``590 × 210 cm``. [m]"""
        units = [math.ceil(side / self.unit - 1e-6) for side in (length, width)]
        return self._with_unit(f"{self.bare(units[0])}\u00a0×\u00a0{self.bare(units[1])}")

    def spacing(self, metres: float) -> str:
        """A distance from plant to plant in a sentence: ``45 cm``, ``7½ cm``, ``1.3 cm``; ``3″`` in feet and inches. [m]"""
        if self.units != "metric" or metres >= _CLOSE:
            return self.length(metres)
        if metres < _VERY_CLOSE:
            return self._with_unit(number_words(metres * 100, 1))
        return self._with_unit(_quarters(_nearest(metres * 200) * 2))

    def depth(self, metres: float) -> str:
        """A depth: ``½ cm``, ``4 cm``; ``¼ in`` of a garden in feet. [m]"""
        if self.units == "metric":
            halves = max(1, _nearest(metres * 200))
            if metres > _SHALLOW:
                return say("{number} cm", number=_nearest(metres * 100)).replace(" ", "\u00a0")
            return say("{number} cm", number=_quarters(halves * 2)).replace(" ", "\u00a0")
        quarters = max(1, _nearest(metres / INCH * 4))
        if metres > _SHALLOW:
            quarters = _nearest(metres / INCH * 2) * 2
        return say("{number} in", number=_quarters(quarters)).replace(" ", "\u00a0")

    def area(self, square_metres: float) -> str:
        """An area to a tenth. [m2]"""
        if self.units == "metric":
            return say("{number} m²", number=number_words(square_metres, 1)).replace(" ", "\u00a0")
        return show_area(square_metres, self.units).replace(" ", "\u00a0")

    def _with_unit(self, words: str) -> str:
        return f"{words}\u00a0{say('cm')}" if self.units == "metric" else words


def _quarters(quarters: int) -> str:
    whole, part = divmod(quarters, 4)
    return f"{whole or ''}{_FRACTIONS.get(part, '')}" if quarters else "0"
