"""Marks on a tape that is laid along a row: where each station is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from planner.ground.bed_frame import BedFrame
from planner.ground.layout import Layout

RowDirection = Literal["along", "across", "oblique"]

#: Marks that differ by less count as the same mark. [m]
SAME_MARK = 0.0005


@dataclass(frozen=True)
class Tape:
    """Rows whose tape carries the same marks.

    Attributes
    ----------
    direction : {"along", "across", "oblique"}
        How the rows run: along the bed (zero at the bed's beginning), across it (zero at the lower
        edge), or slanting (zero where the row begins at the plot's outline).
    rows : tuple of int
        Their numbers, from 1.
    piece, pieces : int
        Number of the piece of the row, from 1, and of how many, where the plot cuts rows into pieces.
    offsets : tuple of float
        Distance of each row from the lower edge (along), or from the bed's beginning (across). [m]
    begins : tuple of (float, float)
        Where each row begins, in the frame. [m]
    count : int
        Stations on each row.
    first, last : float
        Marks of the first and last station. [m]
    spacing : float or None
        From mark to mark; None with a single station. [m]
    """

    direction: RowDirection
    rows: tuple[int, ...]
    piece: int
    pieces: int
    offsets: tuple[float, ...]
    begins: tuple[tuple[float, float], ...]
    count: int
    first: float
    last: float
    spacing: float | None

    def marks(self) -> list[float]:
        """Every mark on the tape. [m]"""
        return [self.first + k * (self.spacing or 0.0) for k in range(self.count)]

    def has_marks_of(self, other: Tape) -> bool:
        """Whether both tapes carry the same marks."""
        return (
            self.direction == other.direction
            and self.count == other.count
            and (self.piece, self.pieces) == (other.piece, other.pieces)
            and abs(self.first - other.first) < SAME_MARK
            and abs(self.last - other.last) < SAME_MARK
        )


def row_direction(angle: float) -> RowDirection:
    """How rows run that make an angle with the bed's long axis. [degrees]"""
    turn = angle % 180.0
    if min(turn, 180.0 - turn) < 1e-6:
        return "along"
    return "across" if abs(turn - 90.0) < 1e-6 else "oblique"


def tapes(frame: BedFrame, layout: Layout) -> tuple[Tape, ...]:
    """Work out the tapes of a layout, those with the same marks together, in the order of their first rows.

    Parameters
    ----------
    frame : BedFrame
        Frame of the bed's sheet, in which the marks are counted.
    layout : Layout
        Rows and stations of a planting, in the bed's coordinates.

    Returns
    -------
    tuple of Tape
        Empty for plants that are in no rows.
    """
    return grouped(single_tapes(frame, layout))


def single_tapes(frame: BedFrame, layout: Layout) -> list[Tape]:
    """Work out a tape for each piece of each row that holds a station.

    Parameters
    ----------
    frame : BedFrame
    layout : Layout
    """
    planted = [row for row in layout.rows if row.count]
    if not planted:
        return []
    direction = row_direction(layout.direction - frame.axis)
    stations = frame.points(layout.points)
    begins = frame.points([row.start for row in planted])
    ends = frame.points([row.end for row in planted])
    found: list[tuple[int, Tape]] = []
    for row, begin, end in zip(planted, begins, ends, strict=True):
        points = stations[row.first : row.first + row.count]
        found.append((row.index, _tape(direction, points, begin, end)))
    return _numbered(found)


def _tape(direction: RowDirection, points: np.ndarray, begin: np.ndarray, end: np.ndarray) -> Tape:
    """The tape of one piece of a row with its stations (n, 2), in the frame; not yet numbered."""
    if direction == "oblique":
        marks = np.hypot(*(points - begin).T)
        offset = 0.0
    else:
        measured = 0 if direction == "along" else 1
        if end[measured] < begin[measured]:
            begin = end
        marks = np.sort(points[:, measured])
        offset = float(points[0, 1 - measured])
    count = len(marks)
    first, last = float(marks[0]), float(marks[-1])
    return Tape(
        direction=direction,
        rows=(),
        piece=1,
        pieces=1,
        offsets=(offset,),
        begins=((float(begin[0]), float(begin[1])),),
        count=count,
        first=first,
        last=last,
        spacing=(last - first) / (count - 1) if count > 1 else None,
    )


def _numbered(found: list[tuple[int, Tape]]) -> list[Tape]:
    """Number rows from the lower edge (or the beginning), and the pieces of a row by their first marks."""
    lines: dict[int, list[Tape]] = {}
    for index, tape in found:
        lines.setdefault(index, []).append(tape)
    ordered = list(lines.values())
    if found[0][1].direction != "oblique":
        ordered.sort(key=lambda pieces: pieces[0].offsets[0])
    numbered = []
    for number, pieces in enumerate(ordered, 1):
        pieces.sort(
            key=lambda tape: (tape.begins[0][0], tape.first) if tape.direction == "oblique" else (tape.first,)
        )
        numbered += [
            replace(tape, rows=(number,), piece=k, pieces=len(pieces)) for k, tape in enumerate(pieces, 1)
        ]
    return numbered


def grouped(single: Sequence[Tape]) -> tuple[Tape, ...]:
    """Put tapes with the same marks together.

    They are looked up by their first mark in steps of :data:`SAME_MARK`, and in the steps beside it.
    """
    groups: dict[tuple[object, ...], list[Tape]] = {}
    for tape in single:
        near = (tape.direction, tape.count, tape.piece, tape.pieces)
        for shift in (0, -1, 1):
            key = (*near, math.floor(tape.first / SAME_MARK) + shift)
            if key in groups and groups[key][0].has_marks_of(tape):
                groups[key].append(tape)
                break
        else:
            groups.setdefault((*near, math.floor(tape.first / SAME_MARK)), []).append(tape)
    return tuple(
        replace(
            group[0],
            rows=tuple(row for tape in group for row in tape.rows),
            offsets=tuple(offset for tape in group for offset in tape.offsets),
            begins=tuple(begin for tape in group for begin in tape.begins),
        )
        for group in groups.values()
    )


def number_ranges(numbers: Sequence[int]) -> str:
    """Numbers as read aloud: ``1–4``, ``1, 3, 5``, ``2–4, 7``.

    >>> number_ranges([1, 2, 3, 5])
    '1–3, 5'
    """
    parts: list[list[int]] = []
    for number in numbers:
        if parts and number == parts[-1][-1] + 1:
            parts[-1].append(number)
        else:
            parts.append([number])
    words = []
    for part in parts:
        words += [f"{part[0]}–{part[-1]}"] if len(part) > 2 else [str(number) for number in part]
    return ", ".join(words)


def even_step(values: Sequence[float]) -> float | None:
    """The step between evenly spaced values; None for fewer than three, or uneven ones. [m]"""
    if len(values) < 3:
        return None
    step = (values[-1] - values[0]) / (len(values) - 1)
    if all(abs(value - values[0] - k * step) < SAME_MARK for k, value in enumerate(values)):
        return step
    return None
