"""Measures that are typed while a gesture runs: digits into one of them, Tab to the next."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from planner.desk.canvas.measure_box import MeasureRow
from planner.errors import BedwrightError
from planner.garden.angles import parse_angle, show_angle
from planner.garden.site import UnitSystem
from planner.garden.units import parse_length, show_length
from planner.words import say

#: What a measure can begin with; what may follow are letters of units too.
_BEGINS = frozenset("0123456789.,")
_FOLLOWS = frozenset(" .,/'\"′″’”°½¼¾⅛⅜⅝⅞⅓⅔-−")
#: A unit is no longer than this.
_LONGEST = 24
_NO_TEXT = (
    Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.MetaModifier
)


@dataclass(frozen=True)
class Measured:
    """A measure that can be typed.

    Attributes
    ----------
    key : str
    name : str
        As it is shown.
    kind : {"length", "angle"}
    """

    key: str
    name: str
    kind: Literal["length", "angle"] = "length"


class TypedMeasures:
    """Reads the keys of a gesture as measures.

    Parameters
    ----------
    measures : Measured
        In the order in which Tab goes through them.
    units : callable
        The garden's units.
    one_of : bool
        Whether each says the same in another way, so that only the one typed last holds.
    """

    def __init__(self, *measures: Measured, units: Callable[[], UnitSystem], one_of: bool = False) -> None:
        self.measures = measures
        self._units, self._one_of = units, one_of
        self._texts: dict[str, str] = {}
        self._index = 0
        self.clear()

    def clear(self, keys: Collection[str] = ()) -> None:
        """Forget what was typed, of some measures or of all: they follow the pointer."""
        for measure in self.measures:
            if not keys or measure.key in keys:
                self._texts[measure.key] = ""
        if not keys:
            self._index = 0
        self._begins_anew = False

    def is_typed(self, key: str) -> bool:
        """Whether a measure is typed."""
        return bool(self._texts[key].strip())

    @property
    def any_typed(self) -> bool:
        """Whether any of them is typed."""
        return any(text.strip() for text in self._texts.values())

    @property
    def active(self) -> Measured:
        """The one into which digits go."""
        return self.measures[self._index]

    def value(self, key: str) -> float | None:
        """The value of a measure, as far as it can be read [m or degrees]; None where none is typed."""
        try:
            return self._read(key)
        except BedwrightError:
            return None

    def fault(self) -> str:
        """Why the first measure that cannot be read has no value; empty where all can."""
        for measure in self.measures:
            try:
                self._read(measure.key)
            except BedwrightError as error:
                return say("{measure}: {why}", measure=measure.name, why=str(error))
        return ""

    def _read(self, key: str) -> float | None:
        measure = next(each for each in self.measures if each.key == key)
        text = self._texts[key].strip().rstrip(".,-−/")  # it is still being typed
        if not text:
            return None
        if measure.kind == "angle":
            return parse_angle(text)
        length = parse_length(text, self._units())
        if length <= 0:
            raise BedwrightError(say("it must be more than nothing"), fix=say("Type another length"))
        return length

    def go_to(self, key: str) -> None:
        """Let digits go into a measure."""
        self._index = next(i for i, each in enumerate(self.measures) if each.key == key)
        self._begins_anew = True

    # -- keys -------------------------------------------------------------------------------

    def takes(self, event: QKeyEvent) -> bool:
        """Whether a key is part of a measure."""
        text = event.text()
        if event.key() in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            return True
        typed = self._texts[self.active.key]
        if event.key() == Qt.Key.Key_Backspace:
            return bool(typed)
        if not text or not text.isprintable() or event.modifiers() & _NO_TEXT:
            return False
        if not typed or self._begins_anew:
            return text in _BEGINS or (text in "-−" and self.active.kind == "angle")
        return text.isalnum() or text in _FOLLOWS

    def key(self, event: QKeyEvent) -> bool:
        """Take a key; returns whether it was part of a measure."""
        if not self.takes(event):
            return False
        if event.key() in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            step = -1 if event.key() == Qt.Key.Key_Backtab else 1
            self._index = (self._index + step) % len(self.measures)
            self._begins_anew = True
            return True
        key = self.active.key
        if event.key() == Qt.Key.Key_Backspace:
            self._texts[key] = "" if self._begins_anew else self._texts[key][:-1]
        else:
            if self._one_of:
                self._texts.update({other: "" for other in self._texts if other != key})
            before = "" if self._begins_anew else self._texts[key]
            self._texts[key] = (before + event.text())[:_LONGEST]
        self._begins_anew = False
        return True

    # -- words ------------------------------------------------------------------------------

    def rows(self, now: Mapping[str, float]) -> list[MeasureRow]:
        """The rows of the box beside the pointer.

        Parameters
        ----------
        now : mapping of str to float
            What the measures are, for those that are not typed. [m or degrees]
        """
        rows = []
        for measure in self.measures:
            typed = self._texts[measure.key]
            rows.append(
                MeasureRow(
                    measure.name,
                    typed or self._show(measure, now[measure.key]),
                    is_active=measure is self.active,
                    is_typed=bool(typed),
                    is_wrong=bool(typed) and self.value(measure.key) is None,
                )
            )
        return rows

    def _show(self, measure: Measured, value: float) -> str:
        return show_angle(value) if measure.kind == "angle" else show_length(value, self._units())
