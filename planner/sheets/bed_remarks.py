"""Remarks on a bed's sheet: how it is measured and dated, findings, cautions, notes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from planner.checks import Finding
from planner.crops.cautions import Caution
from planner.garden import Bed
from planner.ground.bed_frame import BedFrame
from planner.listings.phrases import BY_HAND
from planner.plan import Plan
from planner.season.planting_dates import Dated
from planner.sheets.cautions import by_importance
from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.row_table import Sides
from planner.sheets.tape import RowDirection
from planner.sheets.tape_measure import TapeMeasure
from planner.sheets.text_blocks import heading, kept_with_next, note_and_lessons, paragraph
from planner.words import say, table_words

#: Size of findings and cautions. [points]
SMALL = 8.0
#: Most findings printed on a sheet, the gravest first.
_MOST_FINDINGS = 5
_SEVERITY = ("stop", "mind", "note")


def how_measured(
    frame: BedFrame, sides: Sides, directions: Collection[RowDirection], measure: TapeMeasure, *, shared: bool
) -> str:
    """Say from where rows and tape marks are measured, and how they are rounded.

    Parameters
    ----------
    frame : BedFrame
    sides : Sides
    directions : collection of {"along", "across", "oblique"}
        How the rows on the sheet run.
    measure : TapeMeasure
    shared : bool
        Whether some step is printed for several plants together.
    """
    if frame.is_rectangle:
        words = [
            say(
                "The {start} end of the bed is at the left of the drawing, its {edge} side below.",
                start=sides.start,
                edge=sides.edge,
            )
        ]
    else:
        words = [
            say(
                "Stretch a string along the dashed base line, where it touches the bed on its {edge} side, and one square "
                "to it at the {start} end. Rows are measured from the base line, tape marks from the other string.",
                start=sides.start,
                edge=sides.edge,
            )
        ]
    if "oblique" in directions:
        words.append(say("On slanting rows the tape counts from where the row begins at its plot's outline."))
    if directions:
        words.append(
            say("Marks are rounded to whole centimetres.")
            if measure.units == "metric"
            else say("Marks are rounded to half inches.")
        )
    if shared:
        words.append(say("“2 in 15” means two plants, evenly, to every 15."))
    return " ".join(words)


def how_dated(plan: Plan, days: Sequence[Dated]) -> str:
    """Say what the days at the boxes are; empty where there are none.

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
    words = (
        say("The day at a box is the one planned for frost at {risk} % risk.", risk=frosts.risk)
        if worked_out and frost_known
        else say("The day at a box is the one planned.")
    )
    if not any(at.pinned for at in days):
        return words
    return say("{sentence} {mark} set by hand.", sentence=words, mark=BY_HAND)


def bed_findings(bed: Bed, findings: Iterable[Finding]) -> list[str]:
    """Findings about a bed that the gardener left, the gravest first, waived ones with their reason.

    Parameters
    ----------
    bed : Bed
    findings : iterable of Finding
        Of the whole plan; mere notes are left out unless they are waived.
    """
    found = [one for one in findings if bed.id in one.beds and (one.severity != "note" or one.waived)]
    found.sort(key=lambda one: _SEVERITY.index(one.severity))
    return [
        say("{finding} (accepted: {reason}).", finding=one.text, reason=one.waived)
        if one.waived
        else say("{finding}.", finding=one.text)
        for one in found[:_MOST_FINDINGS]
    ]


def caution_blocks(found: Iterable[Caution], paper: Paper) -> list[Block]:
    """Set cautions under their heading, each complete, the most important first.

    Parameters
    ----------
    found : iterable of Caution
    paper : Paper
    """
    words = [table_words(caution.text) for caution in by_importance(found)]
    return listed_blocks(paper, say("Take care"), words)


def listed_blocks(paper: Paper, title: str, sentences: Sequence[str]) -> list[Block]:
    """Set sentences under a heading, each with a point before it.

    Parameters
    ----------
    paper : Paper
    title : str
    sentences : sequence of str
        Nothing is set where there are none.
    """
    if not sentences:
        return []
    lines = [
        block
        for text in sentences
        for block in paragraph(paper, text, label="", inset=3.0, size=SMALL, together=True, mark="•")
    ]
    return [heading(paper, title), kept_with_next(lines[0]), *lines[1:], gap(2.5)]


def note_blocks(bed: Bed, paper: Paper, lessons: Sequence[str] = ()) -> list[Block]:
    """Set the bed's notes, and lessons to remember, under their heading; nothing without any.

    Parameters
    ----------
    bed : Bed
    paper : Paper
    lessons : sequence of str
        Of the bed and of what grows in it.
    """
    blocks = note_and_lessons(paper, bed.notes, lessons)
    return [heading(paper, say("Notes")), *blocks, gap(2.0)] if blocks else []
