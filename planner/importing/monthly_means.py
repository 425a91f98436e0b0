"""Monthly means of the temperature as they are pasted from a spreadsheet: columns or rows, with or without headings."""

from __future__ import annotations

import re
from dataclasses import dataclass

from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.garden.units import parse_temperature
from planner.words import later, say

#: Longest text that is read. [characters]
LONGEST = 20_000
_MONTHS = 12
_MEND = later("Copy two columns or two rows of numbers: the mean minimum and the mean maximum of each month")


@dataclass(frozen=True)
class PastedMeans:
    """Monthly means as pasted, each from the first month on; empty where they are not among them. [deg C]

    Attributes
    ----------
    minimum, maximum : tuple of float
    either : tuple of float
        A single series of which nothing tells what it is.
    """

    minimum: tuple[float, ...] = ()
    maximum: tuple[float, ...] = ()
    either: tuple[float, ...] = ()


def read_monthly_means(text: str, units: UnitSystem = "metric") -> PastedMeans:
    """Read means as they are pasted.

    Two series lie beside each other in columns, or below each other in rows.  Cells without a digit are headings or
    names of months; a first column 1 to 12 counts the months.  Of two series the minimum is the one whose heading
    says so, else the lower one where it is the lower in every month, else the first.

    Parameters
    ----------
    text : str
        Cells are separated by tabs, semicolons or blanks, by commas where numbers have decimal points.
    units : {"metric", "feet_inches"}
        System of a temperature without a unit.

    Raises
    ------
    BedwrightError
        Where it is no such table.
    """
    if len(text) > LONGEST:
        raise BedwrightError(say("this text is too long for monthly means"), fix=say(_MEND))
    rows = [row for line in text.splitlines() if (row := _cells(line))]
    headings = [_kinds(row) for row in rows]
    numbers = [[cell for cell in row if any(sign.isdigit() for sign in cell)] for row in rows]
    numbers = [row for row in numbers if row]
    if not numbers or any(len(row) != len(numbers[0]) for row in numbers):
        raise BedwrightError(say("the rows do not hold as many numbers each"), fix=say(_MEND))
    table = [[parse_temperature(cell, units) for cell in row] for row in numbers]
    beside = len(table[0]) <= 2 or (len(table[0]) == 3 and len(table) > 2)
    series = [list(column) for column in zip(*table, strict=True)] if beside else table
    if len(series) > 1 and series[0] == list(range(1, len(series[0]) + 1)):
        series = series[1:]
    if len(series) > 2 or len(series[0]) > _MONTHS:
        raise BedwrightError(say("these are more numbers than twelve months have"), fix=say(_MEND))
    kinds = [kind for row in headings for kind in row]
    if len(series) == 1:
        name = {"min": "minimum", "max": "maximum"}[kinds[0]] if len(set(kinds)) == 1 else "either"
        return PastedMeans(**{name: tuple(series[0])})
    low, high = series[::-1] if _maximum_is_first(series, kinds) else series
    return PastedMeans(minimum=tuple(low), maximum=tuple(high))


def _cells(line: str) -> list[str]:
    """Cells of a line, without empty ones."""
    mark = next((mark for mark in ("\t", ";") if mark in line), None)
    if mark is None and re.search(r"\d\.\d", line):  # a comma that is no decimal sign
        mark = "," if "," in line else None
    if mark is None:
        line = re.sub(r"(?<=\d)\s+(?=[°º]?[CFcf]\b)", "", line)
        line = re.sub(r",(?=\s)", " ", line)
    cells = line.split(mark) if mark else line.split()
    return [cell.strip() for cell in cells if cell.strip()]


def _kinds(row: list[str]) -> list[str]:
    """Which of its headings say minimum, and which maximum, in their order."""
    found = []
    for cell in row:
        match = re.search(r"\b(min|max)", cell.casefold())
        if match and not any(sign.isdigit() for sign in cell):
            found.append(match[1])
    return found


def _maximum_is_first(series: list[list[float]], kinds: list[str]) -> bool:
    """Whether the first of two series is the maximum."""
    if sorted(kinds) == ["max", "min"]:
        return kinds[0] == "max"
    return series[0] != series[1] and all(one >= other for one, other in zip(*series, strict=True))
