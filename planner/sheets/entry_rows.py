"""The rows of a planting on its bed's sheet: a table of tape marks, or where its plants go without rows."""

from __future__ import annotations

from collections.abc import Sequence

from planner.listings.phrases import counted
from planner.sheets import fonts
from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import FAINT, INK, PENCIL, Pen
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.tape import Tape, even_step, number_ranges
from planner.sheets.text_blocks import SIZE, kept_with_next, labelled_text

#: Size of the table's head. [points]
_HEAD_SIZE = 7.0
#: Space between columns. [mm]
_CELL_PAD = 1.2
#: Widths of the columns of the table but for the last, which takes what is left. [mm]
_COLUMNS = (21.0, 41.0, 14.0, 22.0, 16.0, 23.0)
#: Marks of a row are all printed up to this number, then only the first three and the last.
_LISTED_MARKS = 6
#: Single places are printed up to this number.
_LISTED_PLACES = 60


def row_blocks(printed: PrintedPlanting, paper: Paper) -> list[Block]:
    """Return the blocks that say where the plants of a planting go; none without plants.

    Parameters
    ----------
    printed : PrintedPlanting
    paper : Paper
    """
    if printed.tapes:
        return _table(printed, paper)
    arrangement = printed.planting.arrangement
    if not printed.amount.plants:
        return []
    if arrangement.kind == "scatter":
        words = f"scattered evenly, {arrangement.density:g} to the square metre"
        return [labelled_text(paper, "Spacing", words)]
    if arrangement.kind == "places":
        return [labelled_text(paper, "Places", _places(printed))]
    return []


def _places(printed: PrintedPlanting) -> str:
    points = printed.frame.points(printed.plan.placed(printed.planting).layout.points)
    order = sorted(points.tolist(), key=lambda p: (round(p[0], 4), p[1]))
    tape = printed.measure.tape_with_unit
    words = [f"{tape(x)} × {tape(y)}" for x, y in order[:_LISTED_PLACES]]
    rest = len(order) - len(words)
    more = f", and {counted(rest, 'more place')} as drawn" if rest > 0 else ""
    return f"along × across: {', '.join(words)}{more}"


def _table(printed: PrintedPlanting, paper: Paper) -> list[Block]:
    unit = f", {printed.measure.tape_unit}" if printed.measure.tape_unit else ""
    where = {
        "along": f"From the lower edge{unit}",
        "across": f"From the bed's start{unit}",
        "oblique": f"Begins at, along × across{unit}",
    }[printed.tapes[0].direction]
    heads = (
        "Row",
        where,
        "Plants",
        f"First at{unit}",
        f"Every{unit}",
        f"Last at{unit}",
        f"Marks on the tape{unit}",
    )
    head = _line(paper, heads, is_head=True)
    body = [_line(paper, _cells(printed, tape), repeat=head) for tape in printed.tapes]
    return [gap(1.0), kept_with_next(head), *body]


def _cells(printed: PrintedPlanting, tape: Tape) -> tuple[str, ...]:
    show = printed.measure.tape
    rows = number_ranges(tape.rows)
    if tape.pieces > 1:
        rows += f", piece\u00a0{tape.piece}/{tape.pieces}"
    return (
        rows,
        _where(printed, tape),
        f"{tape.count:,}" + (" each" if len(tape.rows) > 1 else ""),
        show(tape.first),
        show(tape.spacing) if tape.spacing else "–",
        show(tape.last),
        _marks(printed, tape),
    )


def _where(printed: PrintedPlanting, tape: Tape) -> str:
    """Where the rows of a tape are; evenly spaced ones by their step."""
    show = printed.measure.tape
    if tape.direction == "oblique":
        return ", ".join(f"{show(x)} × {show(y)}" for x, y in tape.begins)
    step = even_step(tape.offsets)
    if step is not None and len(tape.offsets) > 3:
        return f"{show(tape.offsets[0])}, then every {show(step)} to {show(tape.offsets[-1])}"
    return ", ".join(show(offset) for offset in tape.offsets)


def _marks(printed: PrintedPlanting, tape: Tape) -> str:
    marks = tape.marks()
    show = printed.measure.tape
    if len(marks) <= _LISTED_MARKS:
        return ", ".join(map(show, marks))
    return f"{', '.join(map(show, marks[:3]))} … {show(marks[-1])}"


def _line(paper: Paper, cells: Sequence[str], *, is_head: bool = False, repeat: Block | None = None) -> Block:
    """A line of the table, each cell wrapped in its column, over a rule."""
    widths = (*_COLUMNS, paper.room - sum(_COLUMNS))
    size = _HEAD_SIZE if is_head else SIZE
    style: fonts.Style = "bold" if is_head else "regular"
    wrapped = [
        fonts.wrap(cell, width - _CELL_PAD, size, style) for cell, width in zip(cells, widths, strict=True)
    ]
    height = max(len(lines) for lines in wrapped) * fonts.line_height(size) + 0.9

    def draw(pen: Pen, top: float) -> None:
        x = paper.left
        for lines, width in zip(wrapped, widths, strict=True):
            pen.lines(x, top - 0.4, lines, size, style, PENCIL if is_head else INK)
            x += width
        at = top - height
        pen.line(paper.left, at, x, at, INK if is_head else FAINT, 0.15)

    return Block(height, draw, repeat=repeat)
