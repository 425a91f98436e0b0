"""The key of a drawn plan: names of what has no room for them on the drawing."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.sheets import fonts
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.plan_labels import PlanNames
from planner.words import join_list, say, say_count

#: Size of the key's text. [points]
KEY_SIZE = 8.0
#: Most lines of what is too small for a number; of more, only their number is told.
_MOST_REST = 8
#: Least width of its columns. [mm]
_COLUMN = 46.0


@dataclass(frozen=True)
class Key:
    """What the numbers of a drawing stand for, in columns, and below it what is too small for a number.

    Attributes
    ----------
    numbers : tuple of str
        An entry each.
    columns : int
    rest : tuple of str
        Lines over the whole width.
    """

    numbers: tuple[str, ...]
    columns: int
    rest: tuple[str, ...]

    @classmethod
    def of(cls, names: PlanNames, width: float) -> Key:
        """The key of a drawing's names, on a width. [mm]"""
        numbers = [say("{number} {name}", number=number, name=name) for name, number in names.numbers.items()]
        small = say_count(
            "{count} plot is too small for a name at this scale",
            "{count} plots are too small for a name at this scale",
            sum(map(len, names.unnamed.values())),
        )
        lines = [small]
        if len(names.unnamed) <= _MOST_REST:  # a bed has a line of its own at the least
            rest = [
                say("{bed}: {names}", bed=bed, names=join_list(of_bed))
                for bed, of_bed in names.unnamed.items()
            ]
            wrapped = [line for text in rest for line in fonts.wrap(text, width, KEY_SIZE)]
            lines = wrapped if len(wrapped) <= _MOST_REST else lines
        return cls(tuple(numbers), max(1, int(width / _COLUMN)), tuple(lines))

    @property
    def rows(self) -> int:
        """Rows of the columns."""
        return math.ceil(len(self.numbers) / self.columns)

    @property
    def height(self) -> int:
        """Lines in all."""
        return self.rows + len(self.rest)

    def cut(self, most: int) -> Key:
        """The key in no more than so many lines, the last of which says how much is left out."""
        numbers = self.numbers[: self.columns * (most - 1)]
        rest = self.rest[: most - 1 - math.ceil(len(numbers) / self.columns)]
        left_out = len(self.numbers) - len(numbers) + len(self.rest) - len(rest)
        words = say_count("and {count} more entry", "and {count} more entries", left_out)
        return Key(numbers, self.columns, (*rest, words))

    def draw(self, pen: DrawingPen, left: float, low: float, width: float) -> None:
        """Draw it from its lower left corner. [mm]"""
        line, wide = fonts.line_height(KEY_SIZE), width / self.columns
        top = low + self.height * line
        for k, text in enumerate(self.numbers):
            column, row = divmod(k, self.rows)
            short = "".join(fonts.wrap(text, wide - 2.0, KEY_SIZE)[:1])
            pen.text(left + column * wide, top - (row + 0.8) * line, short, KEY_SIZE)
        for row, text in enumerate(self.rest, self.rows):
            pen.text(left, top - (row + 0.8) * line, text, KEY_SIZE)
