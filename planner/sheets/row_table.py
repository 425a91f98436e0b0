"""The table of a bed's sheet: what is planted where, a line for each planting or each kind of row in it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planner.garden import Site
from planner.ground.bed_frame import BedFrame
from planner.sheets import fonts
from planner.sheets.flow import Block
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import INK, Pen
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.sowing_words import depth_words, plants_words
from planner.sheets.tagging_pen import ROW_HEAD
from planner.sheets.tape import RowDirection, Tape
from planner.sheets.tape_measure import TapeMeasure
from planner.sheets.text_blocks import SIZE
from planner.words import number_words, say, short_number, whole_words

#: Size of the heads of columns, and of the planting's name. [points]
HEAD_SIZE, _NAME_SIZE = 8.0, 10.0
#: Space between columns. [mm]
PAD = 1.6
#: Width for the letter; widths of the columns: what, rows, first, every, last, plants a row, depth. [mm]
LETTER_ROOM = 9.0
_COLUMNS = (50.0, 42.0, 17.0, 19.0, 17.0, 14.0, 14.0)
#: Columns between what is planted and its depth.
_BODY_COLUMNS = len(_COLUMNS) - 2
#: Side of the box of a letter. [mm]
_LETTER_BOX = 6.0
#: A planting whose rows have more kinds of marks has a table of its own for them.
_MOST_KINDS = 3
#: Single places are printed in the table up to this number.
_MOST_PLACES = 16


@dataclass(frozen=True)
class Sides:
    """Sides of a bed by the compass: the lower one as drawn, and the end at the left."""

    edge: str
    start: str

    @classmethod
    def of(cls, frame: BedFrame, site: Site) -> Sides:
        """The sides of a bed."""
        return cls(frame.side(site, 270.0), frame.side(site, 180.0))

    def rows(self, direction: RowDirection, measure: TapeMeasure) -> str:
        """From where rows are measured."""
        if direction == "oblique":
            return measure.headed(say("Rows begin at, along × across"))
        side = say("{side} side", side=self.edge) if direction == "along" else self._end
        return measure.headed(say("Rows from the {side}", side=side))

    def tape(self, direction: RowDirection, measure: TapeMeasure) -> str:
        """From where the tape counts."""
        if direction == "oblique":
            return measure.headed(say("On the tape from where the row begins"))
        side = say("{side} side", side=self.edge) if direction == "across" else self._end
        return measure.headed(say("On the tape from the {side}", side=side))

    @property
    def _end(self) -> str:
        return say("{side} end", side=self.start)

    def places(self, measure: TapeMeasure) -> str:
        """From where single places are measured."""
        head = say(
            "At these places from the {start} end × from the {edge} side", start=self.start, edge=self.edge
        )
        return measure.headed(head)


def table_head(paper: Paper, sides: Sides, direction: RowDirection, measure: TapeMeasure) -> Block:
    """The heads of the columns.

    Parameters
    ----------
    paper : Paper
    sides : Sides
    direction : str
        How most rows on the sheet run.
    measure : TapeMeasure
    """
    edges = _edges(paper)
    rows = fonts.wrap(sides.rows(direction, measure), _COLUMNS[1] - PAD, HEAD_SIZE, "bold")
    tape_room = sum(_COLUMNS[2:5])
    tape = fonts.wrap(sides.tape(direction, measure), tape_room - PAD, HEAD_SIZE, "bold")
    single = [say("First"), say("Every"), say("Last"), say("Plants a row"), say("Deep")]
    wrapped = [
        fonts.wrap(word, width - PAD, HEAD_SIZE, "bold")
        for word, width in zip(single, _COLUMNS[2:], strict=True)
    ]
    line = fonts.line_height(HEAD_SIZE)
    under = max(map(len, wrapped[:3]))
    lines = max(len(tape) + under, len(rows), *map(len, wrapped[3:]))
    height = lines * line + 1.4

    def draw(pen: Pen, top: float) -> None:
        low = top - height + 0.8
        foot = low + 0.6

        columns = [[say("What")], rows, *wrapped]
        with pen.heads(sides):
            for number, (at, words) in enumerate(zip(edges, columns, strict=True)):
                with pen.head_cell():
                    if number == 2:
                        pen.lines(at, foot + (len(tape) + under) * line, tape, HEAD_SIZE, "bold")
                    pen.lines(at, foot + len(words) * line, words, HEAD_SIZE, "bold")
        pen.line(paper.left, low, paper.left + paper.room, low, INK, 0.4)

    return Block(height, draw, with_next=True)


def below_line(block: Block, printed: PrintedPlanting, sides: Sides) -> Block:
    """What stands below a planting's line in the table, as a cell over all columns for those who have it read aloud."""

    def draw(pen: Pen, top: float) -> None:
        about = ("below", printed.planting.id)
        with (
            pen.grouped("Table", sides),
            pen.grouped("TR", about),
            pen.grouped("TD", about, attributes=f"/ColSpan {len(_COLUMNS)}"),
        ):
            block.draw(pen, top)

    return replace(block, draw=draw)


def _edges(paper: Paper) -> list[float]:
    """Left edges of the columns. [mm]"""
    found = [paper.left + LETTER_ROOM]
    for width in _COLUMNS[:-1]:
        found.append(found[-1] + width)
    return found


def is_irregular(printed: PrintedPlanting) -> bool:
    """Whether the rows of a planting have too many kinds of marks, or its places are too many, for the table."""
    if printed.tapes:
        return len(printed.tapes) > _MOST_KINDS
    places = printed.planting.arrangement.kind == "places"
    return places and printed.amount.plants > _MOST_PLACES


def table_line(
    printed: PrintedPlanting, paper: Paper, sides: Sides, direction: RowDirection, head: Block
) -> Block:
    """A planting in the table: its letter and name, its rows and the marks on the tape.

    Parameters
    ----------
    printed : PrintedPlanting
    paper : Paper
    sides : Sides
    direction : str
        Of the rows that the head of the table is about.
    head : Block
        Repeated where the line begins a page.
    """
    edges = _edges(paper)
    measure = printed.measure
    mark_room = 5.0
    name = fonts.wrap(printed.name, _COLUMNS[0] - PAD - mark_room, _NAME_SIZE, "bold")
    number = fonts.wrap(plants_words(printed.amount), _COLUMNS[0] - PAD - mark_room, SIZE)
    body = _body(printed, paper, sides, direction)
    start = "standing" if printed.begun_before else printed.amount.start
    deep = depth_words(printed.plan.figures_of(printed.planting), start, measure) or "–"
    line = fonts.line_height(SIZE)
    left_height = len(name) * fonts.line_height(_NAME_SIZE) + len(number) * line
    body_height = sum(max(map(len, cells)) for cells in body) * line
    height = max(left_height, body_height, _LETTER_BOX) + 2.0
    crop = printed.plan.figures_of(printed.planting).crop
    growth_form = crop.growth_form if crop is not None else "bush"
    wide = max(_LETTER_BOX, fonts.width(printed.letter, _NAME_SIZE, "bold") + 2.0)

    def draw(pen: Pen, top: float) -> None:
        pen.line(paper.left, top, paper.left + paper.room, top, INK, 0.2)
        high = top - 1.0

        def draw_name() -> None:
            pen.box(paper.left, high - _LETTER_BOX, wide, _LETTER_BOX, weight=0.35)
            pen.text(paper.left + wide / 2, high - 4.4, printed.letter, _NAME_SIZE, "bold", align="middle")
            pen.one_mark(edges[0] + 1.8, high - 2.4, growth_form, 1.7, INK)
            below = pen.lines(edges[0] + mark_room, high, name, _NAME_SIZE, "bold")
            pen.lines(edges[0] + mark_room, below, number, SIZE)

        at = high
        for row, cells in enumerate(body):
            with pen.row(sides):
                if row == 0:
                    with pen.tagged("TH", attributes=ROW_HEAD):
                        draw_name()
                else:
                    pen.empty_cell()
                for x, lines in zip(edges[1:], cells, strict=False):
                    with pen.cell(1 if len(cells) > 1 else _BODY_COLUMNS):
                        pen.lines(x, at, lines, SIZE)
                at -= max(map(len, cells)) * line
                if row == 0:
                    with pen.cell():
                        pen.lines(edges[-1], high, [deep], SIZE)
                else:
                    pen.empty_cell()

    return Block(height, draw, repeat=head)


def _body(
    printed: PrintedPlanting, paper: Paper, sides: Sides, direction: RowDirection
) -> list[tuple[tuple[str, ...], ...]]:
    """Cells after the name, wrapped; a single cell runs on over the others up to the depth."""
    room = sum(_COLUMNS[1:6]) - PAD
    words = where_words(printed, sides, direction)
    if words or not printed.tapes:
        return [(fonts.wrap(words or "–", room, SIZE),)]
    found: list[tuple[tuple[str, ...], ...]] = []
    if printed.tapes[0].direction != direction:
        of = printed.tapes[0].direction
        text = say(
            "{rows}; {tape}", rows=sides.rows(of, printed.measure), tape=sides.tape(of, printed.measure)
        )
        found.append((fonts.wrap(text, room, SIZE, "italic"),))
    for tape in printed.tapes:
        cells = tape_cells(printed.measure, tape)
        found.append(
            tuple(
                fonts.wrap(cell, width - PAD, SIZE) for cell, width in zip(cells, _COLUMNS[1:6], strict=True)
            )
        )
    return found


def where_words(printed: PrintedPlanting, sides: Sides, direction: RowDirection) -> str:
    """Where the plants of a planting go whose marks are not in the columns; empty where they are."""
    arrangement, measure = printed.planting.arrangement, printed.measure
    if arrangement.kind == "scatter":
        plot = printed.frame.shape(printed.plan.placed(printed.planting).plot)
        if plot.is_empty:
            return ""
        left, low, right, high = plot.bounds
        return say(
            "{start} to {end} on the tape from the {side} end, {low} to {high} from the {edge} side, {density} plants a {unit}",
            start=measure.mark(left),
            end=measure.length(right),
            side=sides.start,
            low=measure.mark(low),
            high=measure.length(high),
            edge=sides.edge,
            density=_density(arrangement.density, measure),
            unit=say("square metre") if measure.units == "metric" else say("square foot"),
        )
    if is_irregular(printed):
        return say("See the tapes of plot {letter} below", letter=printed.letter)
    if arrangement.kind == "places" and printed.amount.plants:
        return say(
            "{from_where}: {places}",
            from_where=sides.places(measure),
            places="; ".join(places_words(printed)),
        )
    return ""


def _density(each: float, measure: TapeMeasure) -> str:
    value = each if measure.units == "metric" else each * 0.3048**2
    return number_words(value, 0) if value >= 10 else short_number(round(value, 1))


def places_words(printed: PrintedPlanting) -> list[str]:
    """Single places along the bed and across it, in the order along the bed."""
    points = printed.frame.points(printed.plan.placed(printed.planting).layout.points)
    order = sorted(points.tolist(), key=lambda p: (round(p[0], 4), p[1]))
    mark = printed.measure.mark
    return [f"{mark(x)}\u00a0×\u00a0{mark(y)}" for x, y in order]


def tape_cells(measure: TapeMeasure, tape: Tape) -> tuple[str, str, str, str, str]:
    """Rows of a tape, its first mark, its step, its last mark, and the plants on it."""
    marks = measure.marks(tape)
    if tape.direction == "oblique":
        rows = "; ".join(f"{measure.mark(x)}\u00a0×\u00a0{measure.mark(y)}" for x, y in tape.begins)
    else:
        rows = measure.offsets(tape.offsets)
    if tape.pieces > 1:
        rows = say("{rows} (piece {piece} of {pieces})", rows=rows, piece=tape.piece, pieces=tape.pieces)
    return (
        rows,
        measure.bare(marks.first),
        measure.step(marks.step),
        measure.bare(marks.last) if marks.step is not None else "–",
        whole_words(tape.count),
    )
