"""Remarks on a bed's sheet: how it is measured and dated, findings, cautions, notes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from planner.amounts.bed_tasks import dressing_task
from planner.amounts.spread import dressings_of_year
from planner.checks import Finding
from planner.crops.cautions import Caution
from planner.garden import Bed, Site
from planner.listings.phrases import BY_HAND
from planner.listings.tasks import task_days, task_words
from planner.plan import Plan
from planner.season.planting_dates import Dated
from planner.sheets.bed_frame import BedFrame
from planner.sheets.cautions import bed_cautions, caution_words, in_full_and_named
from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.tape import RowDirection
from planner.sheets.text_blocks import heading, note_line, paragraph, with_label
from planner.words import say

#: Size of findings and cautions. [points]
_SMALL = 7.0
#: Height of a line to write on. [mm]
_NOTE_LINE = 7.5
#: Fewest and most lines to write on; where there is room for fewer there are none.
_LEAST_NOTE_LINES, _MOST_NOTE_LINES = 3, 12
#: Most findings printed on a sheet.
_MOST_FINDINGS = 5
#: Most lines of cautions on a sheet; the cautions beyond are only named.
_MOST_CAUTION_LINES = 6


def how_measured(frame: BedFrame, site: Site, directions: Collection[RowDirection]) -> str:
    """Say from where rows and tape marks are measured.

    Parameters
    ----------
    frame : BedFrame
    site : Site
        For the direction of north.
    directions : collection of {"along", "across", "oblique"}
        How the rows on the sheet run.
    """
    start = frame.side(site, 180.0)
    edge = frame.side(site, 270.0)
    if frame.is_rectangle:
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
    if "across" in directions:
        words += " On rows across the bed the tape counts from the lower edge."
    if "oblique" in directions:
        words += " On slanting rows the tape counts from where the row begins at its plot's outline."
    return words


def how_dated(plan: Plan, days: Sequence[Dated]) -> str:
    """Say what the days at the boxes are, a space before it; empty where there are none.

    Parameters
    ----------
    plan : Plan
    days : sequence of Dated
        The days at the boxes.
    """
    if not days:
        return ""
    frosts = plan.frosts()
    frost_known = frosts.last is not None or frosts.first is not None
    worked_out = any(at.origin == "worked out" for at in days)
    risk = f" for frost at {frosts.risk} % risk" if worked_out and frost_known else ""
    hand = f"; {BY_HAND} set by hand" if any(at.pinned for at in days) else ""
    return f" The day at a box is the one planned{risk}{hand}."


def finding_blocks(bed: Bed, findings: Iterable[Finding], paper: Paper) -> list[Block]:
    """Set the findings about a bed that the gardener left, waived ones with their reason.

    Parameters
    ----------
    bed : Bed
    findings : iterable of Finding
        Of the whole plan; mere notes are left out unless they are waived.
    paper : Paper
    """
    words = []
    for finding in findings:
        if bed.id in finding.beds and (finding.severity != "note" or finding.waived):
            reason = f" (accepted: {finding.waived})" if finding.waived else ""
            words.append(f"{finding.text}{reason}.")
    if not words:
        return []
    rest = len(words) - _MOST_FINDINGS
    if rest > 0:
        words = [*words[:_MOST_FINDINGS], f"And {rest} more, in the program's list of findings."]
    blocks = [block for text in words for block in paragraph(paper, text, indent=True, size=_SMALL)]
    blocks[0] = with_label(paper, "Findings", blocks[0], _SMALL)
    return [*blocks, gap(3.0)]


def dressing_blocks(plan: Plan, bed: Bed, paper: Paper) -> list[Block]:
    """Set what is spread on a bed in the growing year, a line for each dressing; nothing without any.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    paper : Paper
    """
    tasks = [dressing_task(plan, one) for one in dressings_of_year(plan)]
    words = []
    for task in sorted((task for task in tasks if task.bed == bed.id), key=lambda task: task.date):
        work, amount = task_words(task)
        done = say(", done") if task.done is not None else ""
        day = task_days(task)
        words.append(say("{day}: {work}, {amount}{done}.", day=day, work=work, amount=amount, done=done))
    if not words:
        return []
    blocks = [block for text in words for block in paragraph(paper, text, indent=True, size=_SMALL)]
    blocks[0] = with_label(paper, say("Dressings"), blocks[0], _SMALL)
    return [*blocks, gap(3.0)]


def caution_blocks(plan: Plan, bed: Bed, paper: Paper) -> list[Block]:
    """Set the cautions for a bed, those beyond a few lines by their names only.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    paper : Paper
    """

    def lines(caution: Caution) -> list[Block]:
        return paragraph(
            paper, caution_words(plan.catalogue, caution), indent=True, size=_SMALL, together=True
        )

    in_full, named = in_full_and_named(
        bed_cautions(plan, bed), lambda caution: len(lines(caution)), _MOST_CAUTION_LINES
    )
    if not in_full:
        return []
    blocks = [block for caution in in_full for block in lines(caution)]
    blocks[0] = with_label(paper, "Take care", blocks[0], _SMALL)
    if named:
        names = "; ".join(caution.key.replace("_", " ") for caution in named)
        blocks += paragraph(paper, f"See also in the program: {names}.", indent=True, size=_SMALL)
    return [*blocks, gap(4.0)]


def note_blocks(bed: Bed, paper: Paper) -> list[Block]:
    """Set the bed's notes under their heading; nothing without notes.

    Parameters
    ----------
    bed : Bed
    paper : Paper
    """
    words = bed.notes.strip()
    return [heading(paper, "Notes"), *paragraph(paper, words), gap(1.0)] if words else []


def note_lines(bed: Bed, paper: Paper, room: float) -> list[Block]:
    """Set lines to write on, under a heading where the bed has no notes; none where the room is too little.

    Parameters
    ----------
    bed : Bed
    paper : Paper
    room : float
        Height that the page has left. [mm]
    """
    head = [] if bed.notes.strip() else [heading(paper, "Notes")]
    line = note_line(paper, _NOTE_LINE)
    number = int((room - sum(block.height for block in head)) / _NOTE_LINE + 1e-9)
    if number < _LEAST_NOTE_LINES:
        return []
    return [*head, *[line] * min(number, _MOST_NOTE_LINES)]
