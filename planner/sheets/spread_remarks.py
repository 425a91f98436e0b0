"""What still stands in a bed on the day on which something is spread on all of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import NamedTuple

from planner.amounts.spread import Spread
from planner.garden import Bed
from planner.plan import Plan
from planner.sheets.material_words import spread_words
from planner.sheets.tape_measure import TapeMeasure
from planner.words import day_words, join_list, say, say_count

#: Spreading waits until a crop is cleared that is gone so soon (practice). [days]
_WAITS = 30


class SpreadLine(NamedTuple):
    """What is spread on a whole bed, in words, and whether it is done."""

    text: str
    done: bool


def standing_remark(plan: Plan, bed: Bed, day: dt.date) -> str:
    """What stands in a bed on a day on which all of it is dressed, and what to do about that; empty where it is bare.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    day : date
    """
    there = [
        one for one in plan.garden_in_bed(bed.id) if plan.span_of(one).first < day < plan.span_of(one).last
    ]
    if not there:
        return ""
    crops = dict.fromkeys(
        crop.name if (crop := plan.figures_of(one).crop) is not None else one.crop for one in there
    )
    names, last = join_list(crops), max(plan.span_of(one).last for one in there)
    if (last - day).days > _WAITS:
        return say_count(
            "{crops} stands there: spread around it",
            "{crops} stand there: spread around them",
            len(crops),
            crops=names,
        )
    return say_count(
        "{crops} stands there until {day}: spread around it, or afterwards",
        "{crops} stand there, the last until {day}: spread around them, or afterwards",
        len(crops),
        crops=names,
        day=day_words(last, plan.span.first.year),
    )


def bed_spread_lines(found: Iterable[Spread], measure: TapeMeasure, plan: Plan) -> list[SpreadLine]:
    """What is spread on a whole bed, each with its day and with what stands there then.

    Parameters
    ----------
    found : iterable of Spread
        In the bed; what is spread on a plot is left out.
    measure : TapeMeasure
    plan : Plan
    """
    lines = []
    for one in found:
        if one.planting is not None:
            continue
        text = say(
            "On the whole bed, {day}: {spread}",
            day=day_words(one.day, plan.span.first.year),
            spread=spread_words(one, measure),
        )
        remark = "" if one.done else standing_remark(plan, one.bed, one.day)
        lines.append(
            SpreadLine(say("{spread}; {remark}", spread=text, remark=remark) if remark else text, one.done)
        )
    return lines
