"""Sheets of stake labels as PDF: on labels of measured sheets or on strips to cut, with a code of their text by choice."""

from __future__ import annotations

import io
import os
from collections.abc import Callable, Collection, Sequence
from typing import TYPE_CHECKING, BinaryIO, NamedTuple

from planner.listings.phrases import season
from planner.plan import Plan
from planner.sheets import fonts
from planner.sheets.label_formats import LabelFormat, plain_number
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.pen import FAINT, INK, PENCIL, WHITE, Pen
from planner.sheets.stake_labels import StakeLabel, stake_labels
from planner.words import say

if TYPE_CHECKING:
    from segno import QRCode

#: Between a label's edge and what is on it. [mm]
_PAD = 2.0
#: From the edge of the paper many printers print nothing (practice). [mm]
_UNPRINTED = 5.0
#: Least size of letters, of the name and of what stands below it. [points]
_NAME_LEAST, _LEAST = 9.0, 8.0
#: Largest size of letters, of the name and of what stands below it. [points]
_NAME_MOST, _MOST = 16.0, 10.0
#: Modules that a code keeps free about it, and the least width of one that a telephone reads well (estimate). [mm]
_QUIET, _LEAST_MODULE = 4, 0.33
#: Greatest width of a module: a code need not be larger. [mm]
_MOST_MODULE = 0.6
#: Marks of the calibration page lie so far apart. [mm]
_TICK = 5.0


class Shift(NamedTuple):
    """How far everything is moved, for a printer that is out: to the right and up. [mm]"""

    right: float = 0.0
    up: float = 0.0


NO_SHIFT = Shift()


def write_stake_labels(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    form: LabelFormat,
    beds: Collection[str] | None = None,
    *,
    used: int = 0,
    shift: Shift = NO_SHIFT,
    codes: bool = False,
    per_row: bool = False,
    progress: Callable[[int, int], None] | None = None,
) -> int:
    """Write the labels of the plantings begun in the growing year as one PDF.

    The same plan and choices give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    form : LabelFormat
        The sheet they are printed on.
    beds : collection of str, optional
        Ids of beds; all by default.
    used : int
        Labels that the first sheet lacks already.
    shift : Shift
    codes : bool
        Whether each has a QR code of its text.
    per_row : bool
        Whether each row has a label.
    progress : callable, optional
        Called as ``progress(done, all)`` after each label; may raise to stop the work, and nothing is written then.

    Returns
    -------
    int
        How many labels were written.

    Raises
    ------
    SheetError
        Where nothing is begun in the year, more labels are used than a sheet has, a code has no room on a label, or a path
        cannot be written.
    """
    labels = stake_labels(plan, beds, per_row=per_row)
    name = plan.garden.site.name
    if not labels:
        raise SheetError(
            say("nothing is sown or planted in {year}", year=plan.year),
            name,
            say("Choose another year or other beds"),
        )
    if not 0 <= used < form.number:
        raise SheetError(
            say("{used} labels cannot be used of a sheet of {number}", used=used, number=form.number),
            name,
            say("Give a number from 0 to {most}", most=form.number - 1),
        )
    stream = io.BytesIO()
    title = say("{garden}: labels {season}", garden=name, season=season(plan.garden.site, plan.year))
    with new_canvas(stream, form.on, title) as canvas:
        pen = Pen(canvas)
        for done, label in enumerate(labels, 1):
            place = (used + done - 1) % form.number
            if place == 0 and done > 1:
                canvas.showPage()
            if form.strips and (place == 0 or done == 1):
                _cut_lines(pen, form, shift)
            pen.bookmark(label.bed, form.corner(place)[1] + form.height, once=label.bed)
            _draw(pen, form, label, place, shift, codes=codes)
            if progress is not None:
                progress(done, len(labels))
        canvas.showPage()
    write_pdf(target, stream.getvalue())
    return len(labels)


def write_calibration(
    target: BinaryIO | str | os.PathLike[str], form: LabelFormat, shift: Shift = NO_SHIFT
) -> None:
    """Write a page that shows where labels will lie, to hold before a sheet of them.

    Parameters
    ----------
    target : path or binary stream
    form : LabelFormat
    shift : Shift
        As it is set now.
    """
    stream = io.BytesIO()
    with new_canvas(stream, form.on, say("Calibration of labels")) as canvas:
        canvas.bookmark(say("Calibration of labels"))
        pen = Pen(canvas)
        for number in range(form.number):
            x, y = form.corner(number)
            x, y = x + shift.right, y + shift.up
            pen.box(x, y, form.width, form.height, rgb=PENCIL)
            with pen.tagged("P"):
                pen.text(x + _PAD, y + _PAD, f"{number + 1}", 8.0, rgb=PENCIL)
        first, last = form.corner(0), form.corner(form.number - 1)
        for x, y in (first, last):
            _cross(pen, x + form.width / 2 + shift.right, y + form.height / 2 + shift.up)
        words = fonts.wrap(
            say(
                "Print at 100 % on plain paper and hold it before the labels, against the light. Marks are {tick} mm apart: read how"
                " far right and up the frames must go, and give that as the shift. Now: {right} right, {up} up.",
                tick=plain_number(_TICK),
                right=plain_number(shift.right),
                up=plain_number(shift.up),
            ),
            form.on.room - 10,
            9.0,
        )
        high = len(words) * fonts.line_height(9.0)
        x, top = form.on.left + 5, form.on.height / 2 + high / 2
        pen.box(x - 2, top - high - 2, form.on.room - 6, high + 4, fill=WHITE, rgb=INK)
        with pen.tagged("P"):
            pen.lines(x, top, words, 9.0)
        canvas.showPage()
    write_pdf(target, stream.getvalue())


def _cross(pen: Pen, x: float, y: float) -> None:
    """A cross of rulers, with a mark each few millimetres."""
    reach = 3 * _TICK
    pen.line(x - reach, y, x + reach, y)
    pen.line(x, y - reach, x, y + reach)
    for number in range(-3, 4):
        at = number * _TICK
        pen.line(x + at, y - 1, x + at, y + 1)
        pen.line(x - 1, y + at, x + 1, y + at)


def _cut_lines(pen: Pen, form: LabelFormat, shift: Shift) -> None:
    for number in range(form.number):
        x, y = form.corner(number)
        pen.box(x + shift.right, y + shift.up, form.width, form.height, rgb=FAINT, weight=0.15)


class _Pads(NamedTuple):
    """From the edges of a label to what is on it. [mm]"""

    left: float
    right: float
    low: float
    high: float

    @classmethod
    def of(cls, form: LabelFormat, x: float, y: float) -> _Pads:
        """Those of a label with its lower left corner at a place: nothing is printed too near the edge of the paper. [mm]"""
        to_edges = (x, form.on.width - x - form.width, y, form.on.height - y - form.height)
        return cls(*(max(_PAD, _UNPRINTED - away) for away in to_edges))


def _draw(pen: Pen, form: LabelFormat, label: StakeLabel, place: int, shift: Shift, *, codes: bool) -> None:
    """Draw one label at its place on the sheet."""
    corner = form.corner(place)
    pads = _Pads.of(form, *corner)
    x, y = corner[0] + shift.right, corner[1] + shift.up
    room, high = form.width - pads.left - pads.right, form.height - pads.low - pads.high
    if codes:
        with pen.tagged("Figure", alt=say("Code of {crop} to read with a telephone", crop=label.name)):
            side = _draw_code(pen, label, form, x, y, pads)
        room = min(room, form.width - pads.left - _PAD - side)
    rows = _rows(label, room, high)
    top = y + pads.low + (high + sum(fonts.line_height(size) for _, size, _ in rows)) / 2
    with pen.tagged("P"):
        for text, size, style in rows:
            top = pen.lines(x + pads.left, top, (text,), size, style)


def _rows(label: StakeLabel, room: float, high: float) -> list[tuple[str, float, fonts.Style]]:
    """The lines of a label with their sizes, as large as they fit; what has no room at the end is left out."""
    size = fonts.fitted_size(label.name, room, min(_NAME_MOST, high / 3 / fonts.POINT), "bold", _NAME_LEAST)
    rows: list[tuple[str, float, fonts.Style]] = [
        (line, size, "bold") for line in fonts.wrap(label.name, room, size, "bold")
    ]
    further: list[tuple[str, fonts.Style]] = [(line, "regular") for line in label.lines]
    if label.variety:
        further.insert(0, (label.variety, "italic"))
    left = high - sum(fonts.line_height(one[1]) for one in rows)
    each = min(_MOST, max(_LEAST, left / max(1, len(further)) / fonts.line_height(1.0)))
    for text, style in further:
        fitted = fonts.fitted_size(text, room, each, style, _LEAST)
        lines = fonts.wrap(text, room, fitted, style)
        needed = len(lines) * fonts.line_height(fitted)
        if needed > left + 0.1:
            break
        left -= needed
        rows += [(line, fitted, style) for line in lines]
    return rows


def _draw_code(pen: Pen, label: StakeLabel, form: LabelFormat, x: float, y: float, pads: _Pads) -> float:
    """Draw the code at the right end of a label; returns the width that it takes with its free edges. [mm]"""
    # The code's own free edge may lie where nothing is printed.
    cut, up = (
        pad - _QUIET * _LEAST_MODULE if pad > _PAD else 0.0 for pad in (pads.right, max(pads.low, pads.high))
    )
    room = min(form.height - 2 * up, form.width / 2)
    code = _code(label, int(room / _LEAST_MODULE) - 2 * _QUIET)
    if code is None:
        raise SheetError(
            say(
                "the code of {crop} has no room on a label of {wide} x {high} mm",
                crop=label.name,
                wide=plain_number(form.width),
                high=plain_number(form.height),
            ),
            fix=say("Choose larger labels, or print them without codes"),
        )
    modules = code.symbol_size(border=0)[0]
    side = min(room / (modules + 2 * _QUIET), _MOST_MODULE)
    left, top = x + form.width - cut - (modules + _QUIET) * side, y + (form.height + modules * side) / 2
    for row, line in enumerate(code.matrix):
        for begin, end in _dark(line):
            pen.box(
                left + begin * side,
                top - (row + 1) * side,
                (end - begin) * side,
                side,
                fill=(0.0, 0.0, 0.0),
                rgb=None,
            )
    return (modules + 2 * _QUIET) * side + cut


def _code(label: StakeLabel, most: int) -> QRCode | None:
    """The code with the fullest text and the better mending of faults of so many modules at the most; None without one."""
    import segno

    tried = (segno.make_qr(text, error=level, boost_error=False) for text in label.codes for level in "ml")
    return next((code for code in tried if code.symbol_size(border=0)[0] <= most), None)


def _dark(line: Sequence[int]) -> list[tuple[int, int]]:
    """Begin and end of the dark runs of a line of modules."""
    found: list[tuple[int, int]] = []
    for number, module in enumerate(line):
        if not module:
            continue
        if found and found[-1][1] == number:
            found[-1] = (found[-1][0], number + 1)
        else:
            found.append((number, number + 1))
    return found
