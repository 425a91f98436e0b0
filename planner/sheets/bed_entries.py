"""What a bed's sheet says of each planting: facts, rows with their tape marks, boxes to tick, notes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from planner.amounts import Amount, amount
from planner.crops import Figure
from planner.garden import Planting
from planner.listings.phrases import BY_HAND, START_SENTENCES, Measure, capital, counted, day_in, grams, span
from planner.plan import Plan
from planner.season.planting_dates import Dates
from planner.sheets import fonts
from planner.sheets.bed_frame import BedFrame
from planner.sheets.drawing_groups import LabelledPlanting
from planner.sheets.flow import Block, gap
from planner.sheets.inkbox import family_ink
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import FAINT, INK, PENCIL, Pen
from planner.sheets.steps import Step, steps
from planner.sheets.tape import Tape, even_step, number_ranges, tapes
from planner.sheets.text_blocks import LABEL_ROOM, SIZE, TickBox, held, paragraph, tick_boxes

_SMALL = 7.0
_CELL_PAD = 1.2
#: Columns of the table of rows: heading, width. [mm]  The last takes what is left.
_COLUMNS = (21.0, 41.0, 14.0, 22.0, 16.0, 23.0)
#: Every mark is listed for so many stations, else the first and the last.
_LISTED_MARKS = 6
_LISTED_PLACES = 60
#: An entry no higher than this is kept on one page, its notes apart. [mm]
_TOGETHER = 85.0
#: Starts for which the depth in the bed is worth printing.
_WITH_DEPTH = ("sown", "raised", "sets", "tubers", "cloves", "crowns")


@dataclass(frozen=True)
class Entry:
    """One planting on a bed's sheet."""

    plan: Plan
    frame: BedFrame
    paper: Paper
    lettered: LabelledPlanting

    @property
    def planting(self) -> Planting:
        """The planting."""
        return self.lettered.planting

    @cached_property
    def measure(self) -> Measure:
        """The garden's way of printing lengths."""
        return Measure(self.plan.garden.site.units)

    @cached_property
    def amount(self) -> Amount:
        """What it needs."""
        return amount(self.plan, self.planting)

    @cached_property
    def dates(self) -> Dates:
        """Its dates."""
        return self.plan.dates(self.planting)

    @cached_property
    def tapes(self) -> tuple[Tape, ...]:
        """Its rows by their tape marks."""
        return tapes(self.frame, self.plan.placed(self.planting).layout)

    def blocks(self) -> list[Block]:
        """Everything the sheet says of it."""
        found = [self._head(), gap(1.0), *(self._fact(label, text) for label, text in self.facts())]
        rows = self._rows()
        led = len(found) + min(len(rows), 2)
        found += [*rows, *self._ticks()]
        whole = sum(block.height for block in found) <= _TOGETHER
        found = [held(block) if whole or k < led else block for k, block in enumerate(found[:-1])] + found[
            -1:
        ]
        if self.planting.notes.strip():
            notes = paragraph(self.paper, self.planting.notes, label="Notes", style="italic")
            found += [gap(0.8), *notes]
        return [*found, gap(4.5)]

    # -- head and facts ---------------------------------------------------------------------

    @property
    def name(self) -> str:
        """Crop and variety."""
        variety = f" ‘{self.planting.variety}’" if self.planting.variety else ""
        return f"{capital(self.amount.crop)}{variety}"

    def _head(self) -> Block:
        crop = self.plan.figures_of(self.planting).crop
        ink = family_ink(crop.family if crop else "")
        form = crop.growth_form if crop else "bush"
        paper, letter = self.paper, self.lettered.letter
        box = max(6.0, fonts.width(letter, 11, "bold") + 2.5)
        lead = box + 9.0
        side = self._standing()
        aside = fonts.width(side, SIZE)
        room = paper.room - lead - 2.0
        beside = aside + 4.0 < room * 0.6
        lines = fonts.wrap(self.name, room - (aside + 4.0 if beside else 0.0), 11.0, "bold")
        under = () if beside or not side else fonts.wrap(side, room, SIZE)
        height = 2.0 + max(6.0, len(lines) * fonts.line_height(11.0) + len(under) * fonts.line_height(SIZE))

        def draw(pen: Pen, top: float) -> None:
            left = paper.left
            pen.line(left, top, left + paper.room, top, INK, 0.3)
            pen.box(left, top - 1.5 - 6.0, box, 6.0, fill=ink.tint_rgb, rgb=ink.line_rgb, weight=0.3)
            pen.text(left + box / 2, top - 1.5 - 4.4, letter, 11.0, "bold", align="middle")
            pen.one_mark(left + box + 4.4, top - 4.5, form, 2.5, ink.line_rgb)
            below = pen.lines(left + lead, top - 2.0, lines, 11.0, "bold")
            if beside:
                pen.lines(left + paper.room, top - 2.8, [side], SIZE, align="right")
            else:
                pen.lines(left + lead, below, under, SIZE)

        return Block(height, draw)

    def _standing(self) -> str:
        rows = self.amount.rows
        words = counted(self.amount.plants, "plant")
        return f"{words} in {counted(rows, 'row')}" if rows else words

    def facts(self) -> list[tuple[str, str]]:
        """Labels and what is known, absent things left out."""
        planting = self.planting
        pairs = [
            ("Start", self._start()),
            ("Sowing depth" if self.amount.start == "raised" else "Depth", self._depth()),
            ("Seed", self._seed()),
            ("To have ready", self._amounts()),
            ("Plot", self._plot()),
            ("In the bed", self._days()),
            ("Cover", "; ".join(self._covers())),
            ("Support", self._support()),
            ("For", planting.purpose if planting.purpose != "kitchen" else ""),
            ("Tended by", planting.tended_by),
        ]
        minded = (self.amount.problem, *self.amount.missing, *self.dates.missing, *self.dates.doubts)
        pairs += [("Mind", f"{capital(text)}.") for text in minded if text]
        return [(label, text) for label, text in pairs if text]

    def _days(self) -> str:
        """Days on its plot; empty where neither dates nor hand say so."""
        on, off = self.dates.on_plot, self.dates.off_plot
        days = self.plan.span_of(self.planting)
        first = days.first if on is not None or self.planting.first else None
        last = days.last if off is not None or self.planting.last else None
        return span(first, last)

    def _start(self) -> str:
        start = START_SENTENCES[self.amount.start]
        if self.amount.start == "sown":
            if self.planting.arrangement.kind == "scatter":
                return "sown in place, broadcast"
            start += ", in a drill" if self.amount.sowing == "drill" else ", station by station"
        return start

    def _figure(self, field: str) -> str:
        """A figure as printed, said to be an estimate where it is one; empty where unknown."""
        facts = self.plan.figures_of(self.planting)
        value = facts.number(field)
        if value is None:
            return ""
        own = facts.variety.number(field) if facts.variety is not None else None
        published = getattr(facts.crop, field, None)
        guess = own is None and isinstance(published, Figure) and published.provenance == "estimate"
        return self.measure.spacing(value) + (" (estimate)" if guess else "")

    def _depth(self) -> str:
        return self._figure("sowing_depth") if self.amount.start in _WITH_DEPTH else ""

    def _seed(self) -> str:
        part = self.amount
        if part.start != "sown":
            return ""
        if part.sowing == "drill":
            apart = self._figure("sowing_spacing")
            layout = self.plan.placed(self.planting).layout
            thin = self.measure.spacing(layout.in_row_spacing) if layout.in_row_spacing else ""
            if apart and thin:
                return f"one every {apart} in the drill; thin to {thin}"
            return f"one every {thin}" if thin else ""
        each = part.seeds_per_station
        if each is None:
            return ""
        if self.planting.arrangement.kind == "scatter":
            return f"{counted(each, 'seed')} for every plant"
        return f"{counted(each, 'seed')} to a station" + ("; thin to 1" if each > 1 else "")

    def _amounts(self) -> str:
        part = self.amount
        words = []
        if part.raise_:
            words.append(f"sow {counted(part.raise_, 'seed')} to have {counted(part.plants, 'plant')}")
        elif part.seeds:
            words.append(counted(part.seeds, "seed"))
        if part.acquire:
            noun = {"bought": "plant"}.get(part.start, part.start.removesuffix("s"))
            words.append(counted(part.acquire, noun))
        if part.seeds and part.seed_grams:
            words.append(f"{grams(part.seed_grams)} of seed")
        return ", ".join(words)

    def _plot(self) -> str:
        plot = self.plan.placed(self.planting).plot
        if plot.is_empty:
            return ""
        area = self.measure.area(self.amount.area)
        kind = self.planting.plot.kind
        if kind == "whole":
            return f"the whole bed, {area}"
        left, low, right, high = (float(v) for v in self.frame.shape(plot).bounds)
        length = self.measure.length
        words = f"{length(left)} to {length(right)} along the bed"
        if kind == "region":
            words += f", {length(low)} to {length(high)} across it"
        return f"{words}; {area}"

    def _covers(self) -> list[str]:
        """Covers; their days stand at the boxes, or here where they are not known there."""
        crop = self.plan.figures_of(self.planting).crop
        pests = crop.cover_keeps_off.value if crop and crop.cover_keeps_off else ()
        dated = {cover.kind for cover in self.dates.covers}
        found = []
        for cover in self.planting.covers:
            days = "" if cover.kind in dated else span(cover.first, cover.last) or "all its days"
            found.append(f"{cover.kind}, {days}" if days else cover.kind)
        if found and pests:
            found[-1] += f" (keeps off {', '.join(pests)})"
        return found

    def _support(self) -> str:
        support = self.planting.support
        if support is None:
            crop = self.plan.figures_of(self.planting).crop
            wanted = crop.support.value if crop and crop.support and crop.support.value else "none"
            return f"none planned; it usually has one ({wanted})" if wanted != "none" else ""
        words = f"{support.kind}, {self.measure.length(support.height)} high"
        if support.spacing:
            words += f", post to post {self.measure.length(support.spacing)}"
        return words

    def _fact(self, label: str, text: str) -> Block:
        lines = fonts.wrap(text, self.paper.room - LABEL_ROOM, SIZE)

        def draw(pen: Pen, top: float) -> None:
            pen.lines(self.paper.left, top, [label], SIZE, rgb=PENCIL)
            pen.lines(self.paper.left + LABEL_ROOM, top, lines, SIZE)

        return Block(len(lines) * fonts.line_height(SIZE), draw)

    # -- rows -------------------------------------------------------------------------------

    def _rows(self) -> list[Block]:
        if self.tapes:
            return self._table()
        arrangement = self.planting.arrangement
        if not self.amount.plants:
            return []
        if arrangement.kind == "scatter":
            return [self._fact("Stand", f"scattered evenly, {arrangement.density:g} to the square metre")]
        if arrangement.kind == "places":
            return [self._fact("Places", self._places())]
        return []

    def _places(self) -> str:
        points = self.frame.points(self.plan.placed(self.planting).layout.points)
        order = sorted(points.tolist(), key=lambda p: (round(p[0], 4), p[1]))
        tape = self.measure.tape_with_unit
        words = [f"{tape(x)} × {tape(y)}" for x, y in order[:_LISTED_PLACES]]
        rest = len(order) - len(words)
        more = f", and {counted(rest, 'more place')} as drawn" if rest > 0 else ""
        return f"along × across: {', '.join(words)}{more}"

    def _table(self) -> list[Block]:
        way = self.tapes[0].way
        unit = f", {self.measure.tape_unit}" if self.measure.tape_unit else ""
        where = {
            "along": f"From the lower edge{unit}",
            "across": f"From the bed's start{unit}",
            "oblique": f"Begins at, along × across{unit}",
        }[way]
        heads = (
            "Row",
            where,
            "Plants",
            f"First at{unit}",
            f"Every{unit}",
            f"Last at{unit}",
            f"Marks on the tape{unit}",
        )
        head = self._line(heads, "bold", rule=True)
        body = [self._line(self._cells(tape), "regular", repeat=head) for tape in self.tapes]
        return [gap(1.0), held(head), *body]

    def _cells(self, tape: Tape) -> tuple[str, ...]:
        show = self.measure.tape
        rows = number_ranges(tape.rows)
        if tape.pieces > 1:
            rows += f", piece\u00a0{tape.piece}/{tape.pieces}"
        return (
            rows,
            self._where(tape),
            f"{tape.count:,}" + (" each" if len(tape.rows) > 1 else ""),
            show(tape.first),
            show(tape.spacing) if tape.spacing else "–",
            show(tape.last),
            self._marks(tape),
        )

    def _where(self, tape: Tape) -> str:
        show = self.measure.tape
        if tape.way == "oblique":
            return ", ".join(f"{show(x)} × {show(y)}" for x, y in tape.begins)
        step = even_step(tape.offsets)
        if step is not None and len(tape.offsets) > 3:
            return f"{show(tape.offsets[0])}, then every {show(step)} to {show(tape.offsets[-1])}"
        return ", ".join(show(offset) for offset in tape.offsets)

    def _marks(self, tape: Tape) -> str:
        marks = tape.marks()
        show = self.measure.tape
        if len(marks) <= _LISTED_MARKS:
            return ", ".join(map(show, marks))
        return f"{', '.join(map(show, marks[:3]))} … {show(marks[-1])}"

    def _line(
        self, cells: Sequence[str], style: fonts.Style, *, rule: bool = False, repeat: Block | None = None
    ) -> Block:
        widths = (*_COLUMNS, self.paper.room - sum(_COLUMNS))
        wrapped = [
            fonts.wrap(cell, wide - _CELL_PAD, _SMALL if rule else SIZE, style)
            for cell, wide in zip(cells, widths, strict=True)
        ]
        size = _SMALL if rule else SIZE
        height = max(len(lines) for lines in wrapped) * fonts.line_height(size) + 0.9

        def draw(pen: Pen, top: float) -> None:
            x = self.paper.left
            for lines, wide in zip(wrapped, widths, strict=True):
                pen.lines(x, top - 0.4, lines, size, style, PENCIL if rule else INK)
                x += wide
            at = top - height
            pen.line(self.paper.left, at, x, at, INK if rule else FAINT, 0.15)

        return Block(height, draw, repeat=repeat)

    # -- boxes ------------------------------------------------------------------------------

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """Its work, with the days planned for it."""
        part = self.amount
        thinned = part.sowing == "drill" or (part.seeds_per_station or 1) > 1
        return steps(self.planting, self.dates, thinned, self.plan.span)

    def _ticks(self) -> list[Block]:
        return [gap(1.6), tick_boxes(self.paper, [self._box(step) for step in self.steps])]

    def _box(self, step: Step) -> TickBox:
        if step.at is None:
            return TickBox(step.word)
        words = day_in(step.at.day, self.plan.span) + (BY_HAND if step.at.pinned else "")
        return TickBox(step.word, words, step.at.origin == "done")
