"""A weather table taken apart: its file, its rows, and the dates and numbers in its cells."""

from __future__ import annotations

import csv
import datetime as dt
import gzip
import io
import re
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import numpy as np

from planner.plain_file import open_plain

#: Unit of a table's temperatures.
Unit = Literal["C", "F", "tenths C"]
#: Order of day, month and year in a table's dates.
Order = Literal["year first", "day first", "month first"]

#: What reading a file may raise that is missing, no file, or packed and damaged.
UNREADABLE = (OSError, EOFError, zlib.error)
#: Years outside these are taken for misread dates.
FIRST_YEAR, LAST_YEAR = 1700, 2400
#: Cells, in lower case, that stand for a missing value.
BLANK = ("", "na", "nan", "null", "none", "-", "m", "t")


def open_table(path: Path) -> io.BufferedIOBase:
    """Open a table's file, plain or packed with gzip; reading it may raise one of ``UNREADABLE``."""
    with open_plain(path) as stream:
        packed = stream.read(2) == b"\x1f\x8b"
    return gzip.open(path, "rb") if packed else path.open("rb")


def separator_of(text: str) -> str:
    """The sign that parts the cells: of comma, semicolon and tab the one most frequent in every line."""
    head = text[:4000].splitlines()[:20]
    counts = {sign: min((line.count(sign) for line in head if line.strip()), default=0) for sign in ",;\t"}
    best = max(counts, key=lambda sign: counts[sign])
    return best if counts[best] else ","


def rows_of(text: str) -> Iterator[list[str]]:
    """Rows of cells, empty ones left out."""
    reader = csv.reader(io.StringIO(text), delimiter=separator_of(text))
    return (row for row in reader if any(cell.strip() for cell in row))


def quality_flag(attributes: str) -> bool:
    """Whether the attributes of a GHCN-Daily value hold a quality flag: their second part is not empty."""
    parts = attributes.split(",")
    return len(parts) > 1 and bool(parts[1].strip())


def celsius(value: float, unit: Unit) -> float:
    """A temperature of a table in degrees Celsius. [deg C]"""
    return value / 10 if unit == "tenths C" else (value - 32) / 1.8 if unit == "F" else value


def number(text: str) -> float | None:
    """A number with a point or a comma for its fraction; None where the cell holds none."""
    try:
        value = float(text.strip().replace(",", "."))
    except ValueError:
        return None
    return value if np.isfinite(value) else None


def day_of(text: str, order: Order) -> dt.date | None:
    """The day at the beginning of a cell; None where there is none.

    Parameters
    ----------
    text : str
    order : str
        Whether the day or the month comes first where the year comes last.
    """
    match = re.match(r"\s*(\d{4})[-/.]?(\d{1,2})[-/.]?(\d{1,2})(?!\d)", text)
    if match:
        year, month, day = int(match[1]), int(match[2]), int(match[3])
    else:
        match = re.match(r"\s*(\d{1,2})[./-](\d{1,2})[./-](\d{4})(?!\d)", text)
        if not match:
            return None
        one, two, year = int(match[1]), int(match[2]), int(match[3])
        month, day = (one, two) if order == "month first" else (two, one)
    try:
        return dt.date(year, month, day) if FIRST_YEAR <= year <= LAST_YEAR else None
    except ValueError:
        return None


def cut(text: str) -> str:
    """A text at most 40 characters long, for messages."""
    return text if len(text) <= 40 else f"{text[:37]}..."
