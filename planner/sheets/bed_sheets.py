"""Bed sheets: a PDF with one sheet for each bed and growing year."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import BinaryIO

from planner.checks import Finding, check_all
from planner.crops.cautions import Caution
from planner.garden import Bed
from planner.listings.phrases import BY_HAND, Measure, capital, season
from planner.plan import Plan
from planner.season.planting_dates import Dated
from planner.sheets import fonts
from planner.sheets.bed_drawing import BedDrawing
from planner.sheets.bed_entries import Entry
from planner.sheets.bed_frame import BedFrame
from planner.sheets.cautions import bed_cautions, weighed
from planner.sheets.drawing_groups import layers
from planner.sheets.flow import Block, Page, gap, paginate
from planner.sheets.output import SheetError, new_canvas, put
from planner.sheets.page_chrome import Foot, Paper, draw_page, north_arrow, paper_named
from planner.sheets.pen import INK, PENCIL, Pen
from planner.sheets.tape import RowDirection
from planner.sheets.text_blocks import heading, note_line, paragraph

_ARROW_ROOM = 52.0
_NOTE_LINE = 7.5
_LEAST_NOTE_LINES, _MOST_NOTE_LINES = 3, 12
#: Findings named on a sheet.
_MOST_FINDINGS = 5
#: Lines of cautions on a sheet; what goes beyond is only named.
_MOST_CAUTION_LINES = 6


def write_bed_sheets(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    beds: Iterable[str | Bed] | None = None,
    paper: str = "a4",
    today: dt.date | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> None:
    """Write the sheets of some beds as one PDF.

    The same plan, beds, paper and day give the same bytes.  A path is written whole or not at all:
    into a temporary file beside it, which then takes its place.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    beds : iterable of str or Bed, optional
        Beds, or their ids or names; all beds in use by default, in the document's order.
    paper : {"a4", "letter"}
    today : date, optional
        Day of printing, on every page.
    progress : callable, optional
        Called as ``progress(done, all)`` after each bed; may raise to stop the work, and nothing is
        written then.

    Raises
    ------
    SheetError
        For an unknown bed, a garden without beds, or a path that cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    sheet = paper_named(paper)
    chosen = beds_named(plan, beds)
    data = _pdf(plan, chosen, sheet, today or dt.date.today(), progress)
    put(target, data)


def beds_named(plan: Plan, names: Iterable[str | Bed] | None) -> tuple[Bed, ...]:
    """Beds of a plan by id or name, each once; all in use where no names are given.

    Raises
    ------
    SheetError
        Names the beds that are not there.
    """
    if names is None:
        chosen = plan.beds
        if not chosen:
            raise SheetError(f"no bed is in use in {plan.year}", plan.garden.site.name, "Draw a bed first")
        return chosen
    by_name: dict[str, list[Bed]] = {}
    for bed in plan.garden.beds:
        by_name.setdefault(bed.name.strip().casefold(), []).append(bed)
    found: dict[str, Bed] = {}
    unknown = []
    for given in names:
        name = given if isinstance(given, str) else given.id
        exact = plan.garden.beds_by_id.get(name)
        hits = [exact] if exact else by_name.get(name.strip().casefold(), [])
        if not hits:
            unknown.append(name)
        found.update({bed.id: bed for bed in hits})
    if unknown:
        there = ", ".join(f"'{bed.name}'" for bed in plan.garden.beds[:12])
        listed = " and ".join(f"'{name}'" for name in unknown)
        raise SheetError(f"no bed {listed}", plan.garden.site.name, f"Its beds are {there}" if there else "")
    if not found:
        raise SheetError("no bed was named", mend="Name one bed at least, or leave the names out for all")
    return tuple(found.values())


def _pdf(
    plan: Plan,
    beds: Sequence[Bed],
    paper: Paper,
    today: dt.date,
    progress: Callable[[int, int], None] | None,
) -> bytes:
    stream = io.BytesIO()
    name, year = plan.garden.site.name, season(plan.garden.site, plan.year)
    with new_canvas(stream, paper, f"{name}: bed sheets {year}") as canvas:
        pen = Pen(canvas)
        findings = check_all(plan)
        for done, bed in enumerate(beds, 1):
            sheet = BedSheet(plan, bed, paper, today, findings)
            for number in range(len(sheet.pages)):
                if number == 0:
                    canvas.bookmarkPage(f"bed{done}")
                    canvas.addOutlineEntry(bed.name, f"bed{done}", 0)
                sheet.draw(pen, number)
                canvas.showPage()
            if progress is not None:
                progress(done, len(beds))
    return stream.getvalue()


@dataclass(frozen=True)
class BedSheet:
    """The pages of one bed."""

    plan: Plan
    bed: Bed
    paper: Paper
    today: dt.date
    findings: tuple[Finding, ...] = ()

    @cached_property
    def measure(self) -> Measure:
        """The garden's way of printing lengths."""
        return Measure(self.plan.garden.site.units)

    @cached_property
    def frame(self) -> BedFrame:
        """The bed's frame."""
        return BedFrame(self.bed)

    @cached_property
    def foot(self) -> Foot:
        """Foot of every page."""
        words = f"{self.plan.garden.site.name} · {self.bed.name} · {self._season}"
        return Foot.of(self.paper, words, self.today)

    @property
    def _season(self) -> str:
        return f"growing year {season(self.plan.garden.site, self.plan.year)}"

    @cached_property
    def drawing(self) -> BedDrawing:
        """The bed's drawings."""
        found = layers(self.plan, self.plan.in_bed(self.bed))
        room = self._room - self._head.height
        return BedDrawing(self.plan, self.bed, self.frame, self.paper, found, room)

    @property
    def _room(self) -> float:
        return self.paper.high - self.paper.top - self.paper.bottom - self.foot.height

    @cached_property
    def pages(self) -> list[Page]:
        """Blocks of each page, their heads included."""
        further = self._further_head
        pages = paginate(self._blocks(), self._room - self._head.height, self._room - further.height)
        found = [[self._head, *pages[0]], *([further, *page] for page in pages[1:])]
        found[-1] += self._note_lines(self._room - sum(block.height for block in found[-1]))
        return found

    def draw(self, pen: Pen, number: int) -> None:
        """Draw one page, counted from 0."""
        draw_page(pen, self.paper, self.pages, number, self.foot)

    # -- heads ------------------------------------------------------------------------------

    @cached_property
    def _head(self) -> Block:
        paper, site = self.paper, self.plan.garden.site
        room = paper.room - _ARROW_ROOM
        size = fonts.fitted_size(self.bed.name, room, 18.0, "bold", least=13.0)
        title = fonts.wrap(self.bed.name, room, size, "bold")
        under = fonts.wrap(f"{site.name} · {self._season}", room, 9.5)
        facts = fonts.wrap(self._bed_words(), room, 8.0)
        height = (
            len(title) * fonts.line_height(size)
            + len(under) * fonts.line_height(9.5)
            + len(facts) * fonts.line_height(8.0)
        )
        height = max(height, 19.0) + 3.5

        def draw(pen: Pen, top: float) -> None:
            below = pen.lines(paper.left, top, title, size, "bold")
            below = pen.lines(paper.left, below, under, 9.5)
            pen.lines(paper.left, below, facts, 8.0, rgb=PENCIL)
            right = paper.left + paper.room
            north_arrow(pen, right - 10.0, top - 9.5, self.frame.north(site))
            end = right - 22.0
            pen.lines(end, top - 3.0, self._scale_lines(), 9.0, "bold", align="right")
            pen.line(paper.left, top - height + 1.5, right, top - height + 1.5, INK, 0.35)

        return Block(height, draw)

    def _scale_lines(self) -> list[str]:
        words = self.drawing.scale_words
        return words.replace(" (", "\n(").splitlines()

    @cached_property
    def _further_head(self) -> Block:
        paper = self.paper
        words = f"{self.bed.name} · {self.plan.garden.site.name} · {self._season}"
        lines = fonts.wrap(words, paper.room, 9.0, "bold")
        height = len(lines) * fonts.line_height(9.0) + 4.5

        def draw(pen: Pen, top: float) -> None:
            pen.lines(paper.left, top, lines, 9.0, "bold")
            pen.line(paper.left, top - height + 2.5, paper.left + paper.room, top - height + 2.5, INK, 0.35)

        return Block(height, draw)

    def _bed_words(self) -> str:
        length, bed = self.measure.length, self.bed
        size = f"{length(self.frame.length)} × {length(self.frame.width)}"
        if bed.outline.shape == "circle":
            size = f"round, {length(2 * bed.outline.radius)} across"
        elif bed.outline.shape == "polygon":
            size += " over all"
        kind = {"open": "open bed", "raised": "raised bed"}.get(bed.kind, bed.kind)
        words = [kind, size, self.measure.area(self.plan.area(bed))]
        if bed.height > 0:
            words.append(f"{length(bed.height)} high")
        if bed.depth:
            words.append(f"soil {length(bed.depth)} deep")
        return capital(" · ".join(words))

    # -- body -------------------------------------------------------------------------------

    def _blocks(self) -> list[Block]:
        blocks = self.drawing.blocks()
        entries = [
            Entry(self.plan, self.frame, self.paper, entry)
            for layer in self.drawing.layers
            for entry in layer
        ]
        if entries:
            words = self._how_measured({tape.way for entry in entries for tape in entry.tapes})
            words += self._how_dated([step.at for entry in entries for step in entry.steps if step.at])
            blocks += [*paragraph(self.paper, words, style="italic", size=7.5), gap(2.5)]
        else:
            blocks += [*paragraph(self.paper, "Nothing is planted here in this growing year."), gap(3.0)]
        for entry in entries:
            blocks += entry.blocks()
        blocks += self._left_standing()
        blocks += self._cautions()
        return blocks + self._notes()

    def _how_measured(self, ways: set[RowDirection]) -> str:
        site = self.plan.garden.site
        start = self.frame.side(site, 180.0)
        edge = self.frame.side(site, 270.0)
        if self.frame.is_rectangle:
            words = (
                f"Tape marks count from the bed's start: its {start} end, left on the drawing. "
                f"Rows are measured from the lower edge as drawn: the {edge} side."
            )
        else:
            words = (
                "Stretch a string along the dashed base line, where it touches the bed on its "
                f"{edge} side, and one square to it at the {start} end. Rows are measured from the "
                "base line, tape marks from the other string."
            )
        if "across" in ways:
            words += " On rows across the bed the tape counts from the lower edge."
        if "oblique" in ways:
            words += " On slanting rows the tape counts from where the row begins at its plot's outline."
        return words

    def _how_dated(self, days: Sequence[Dated]) -> str:
        if not days:
            return ""
        worked_out = any(at.origin == "worked out" for at in days)
        risk = f" for frost at {self.plan.frosts().risk} % risk" if worked_out and self._frost_known else ""
        hand = f"; {BY_HAND} given by hand" if any(at.pinned for at in days) else ""
        return f" The day at a box is the one planned{risk}{hand}."

    @property
    def _frost_known(self) -> bool:
        frosts = self.plan.frosts()
        return frosts.last is not None or frosts.first is not None

    def _left_standing(self) -> list[Block]:
        """What the checks had to say of the bed and the gardener let stand, with the reason where one was given."""
        words = []
        for finding in self.findings:
            if self.bed.id in finding.beds and (finding.severity != "note" or finding.waived):
                reason = f" (let stand: {finding.waived})" if finding.waived else ""
                words.append(f"{finding.text}{reason}.")
        if not words:
            return []
        rest = len(words) - _MOST_FINDINGS
        if rest > 0:
            words = [*words[:_MOST_FINDINGS], f"And {rest} more, in the program's list of findings."]
        found = [block for text in words for block in paragraph(self.paper, text, indent=True, size=7.0)]
        found[0] = self._labelled("Left standing", found[0])
        return [*found, gap(3.0)]

    def _cautions(self) -> list[Block]:
        def lines(caution: Caution) -> list[Block]:
            words = f"{caution.text} [{caution.source}]"
            return paragraph(self.paper, words, indent=True, size=7.0, together=True)

        def high(caution: Caution) -> int:
            return len(lines(caution))

        said, rest = weighed(bed_cautions(self.plan, self.bed), high, _MOST_CAUTION_LINES)
        if not said:
            return []
        found = [block for caution in said for block in lines(caution)]
        found[0] = self._labelled("Take care", found[0])
        if rest:
            names = "; ".join(caution.key.replace("_", " ") for caution in rest)
            found += paragraph(self.paper, f"See also in the program: {names}.", indent=True, size=7.0)
        return [*found, gap(4.0)]

    def _labelled(self, label: str, block: Block) -> Block:
        """A line with a label before it."""

        def draw(pen: Pen, top: float) -> None:
            pen.lines(self.paper.left, top, [label], 7.0, rgb=PENCIL)
            block.draw(pen, top)

        return replace(block, draw=draw)

    def _notes(self) -> list[Block]:
        words = self.bed.notes.strip()
        return [heading(self.paper, "Notes"), *paragraph(self.paper, words), gap(1.0)] if words else []

    def _note_lines(self, room: float) -> list[Block]:
        """Lines to write on, in the room a page has left; none where it is too little for a few."""
        head = [] if self.bed.notes.strip() else [heading(self.paper, "Notes")]
        line = note_line(self.paper, _NOTE_LINE)
        number = int((room - sum(block.height for block in head)) / _NOTE_LINE + 1e-9)
        if number < _LEAST_NOTE_LINES:
            return []
        return [*head, *[line] * min(number, _MOST_NOTE_LINES)]
