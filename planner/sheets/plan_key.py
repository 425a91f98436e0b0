"""The key of a drawn plan: names of what has no room for them on the drawing."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from functools import cached_property

from planner.sheets import fonts
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.plan_labels import PlanNames
from planner.words import join_list, say, say_count

#: Size of the key's text. [points]
KEY_SIZE = 8.0
#: Most lines of what is too small for a number, a bed in a line of its own, and one bed after the other; of more, only
#: their number is told.
_MOST_APART, _MOST_REST = 4, 10
#: Most plots that are too small for a number of which the names are listed.
_MOST_UNNAMED = 300
#: Between columns. [mm]
_BETWEEN = 2.0
#: Least width of its columns. [mm]
_COLUMN = 46.0


@dataclass(frozen=True)
class Key:
    """What the numbers of a drawing stand for, in columns, and below it what is too small for a number.

    Attributes
    ----------
    numbers : tuple of str
        An entry each, which is broken into lines of its column.
    width : float
        Of all columns. [mm]
    rest : tuple of str
        Lines over the whole width.
    """

    numbers: tuple[str, ...]
    width: float
    rest: tuple[str, ...]

    @classmethod
    def of(cls, names: PlanNames, width: float) -> Key:
        """The key of a drawing's names, on a width. [mm]"""
        numbers = [say("{number} {name}", number=number, name=name) for name, number in names.numbers.items()]
        count = sum(map(len, names.unnamed.values()))
        small = say_count(
            "{count} plot is too small for a name at this scale",
            "{count} plots are too small for a name at this scale",
            count,
        )
        lines = [small] if count else []
        if count <= _MOST_UNNAMED:
            beds = [
                say("{bed}: {names}", bed=bed, names=join_list(of_bed))
                for bed, of_bed in names.unnamed.items()
            ]
            apart = [line for text in beds for line in fonts.wrap(text, width, KEY_SIZE)]
            running = fonts.wrap(" · ".join(beds), width, KEY_SIZE)
            if len(apart) <= _MOST_APART:
                lines = apart
            elif len(running) <= _MOST_REST:
                lines = list(running)
        return cls(tuple(numbers), width, tuple(lines))

    @property
    def columns(self) -> int:
        """Columns of the numbers."""
        return max(1, int(self.width / _COLUMN))

    @cached_property
    def entries(self) -> tuple[tuple[str, ...], ...]:
        """Lines of each entry."""
        room = self.width / self.columns - _BETWEEN
        return tuple(tuple(fonts.wrap(text, room, KEY_SIZE)) for text in self.numbers)

    @property
    def rows(self) -> int:
        """Rows of the columns."""
        return math.ceil(len(self.numbers) / self.columns)

    @cached_property
    def row_lines(self) -> tuple[int, ...]:
        """Lines of each row: as many as its longest entry has."""
        return tuple(max(map(len, self.entries[row :: self.rows])) for row in range(self.rows))

    @property
    def height(self) -> int:
        """Lines in all."""
        return sum(self.row_lines) + len(self.rest)

    def cut(self, most: int) -> Key:
        """The key in no more than so many lines, the last of which says how much is left out."""
        kept = len(self.numbers)
        while kept and Key(self.numbers[:kept], self.width, ()).height > most - 1:
            kept -= 1
        numbers = self.numbers[:kept]
        rest = self.rest[: max(0, most - 1 - Key(numbers, self.width, ()).height)]
        left_out = len(self.numbers) - len(numbers) + len(self.rest) - len(rest)
        words = say_count("and {count} more entry", "and {count} more entries", left_out)
        return Key(numbers, self.width, (*rest, words))

    def draw(self, pen: DrawingPen, left: float, low: float) -> None:
        """Draw it from its lower left corner. [mm]"""
        line, wide = fonts.line_height(KEY_SIZE), self.width / self.columns
        top = low + self.height * line
        begins = list(itertools.accumulate(self.row_lines, initial=0))
        for k, texts in enumerate(self.entries):
            column, row = divmod(k, self.rows)
            for number, text in enumerate(texts, begins[row]):
                pen.text(left + column * wide, top - (number + 0.8) * line, text, KEY_SIZE)
        for number, text in enumerate(self.rest, begins[-1]):
            pen.text(left, top - (number + 0.8) * line, text, KEY_SIZE)
