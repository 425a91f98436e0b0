"""The steps of a planting on its bed's sheet, each a box to tick beside its day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.garden import Planting
from planner.season.planting_dates import Dated, Dates
from planner.season.practice import CURED
from planner.season.spans import Span


@dataclass(frozen=True)
class Step:
    """A piece of work with the day planned for it; None where there is none."""

    word: str
    at: Dated | None = None


def steps(planting: Planting, dates: Dates, thinned: bool, year: Span) -> tuple[Step, ...]:
    """The steps of a planting in the order of their days; those without a day keep their place.

    Parameters
    ----------
    planting : Planting
    dates : Dates
    thinned : bool
        Whether the planting is thinned, a day for it known or not.
    year : Span
        The growing year: of what stands for years only its work in that year is meant.
    """
    on = dates.on_plot
    stood = dates.stays_for_years and on is not None and on.day < year.first
    found = [Step("look over")] if stood else _starting(dates, thinned or dates.thin is not None)
    if planting.support is not None:
        found.append(Step("support up", dates.support_up))
    laid, taken = _covering(planting, dates)
    found += laid
    found += [Step(word, at) for word, at in (("mulch", dates.mulch), ("earth up", dates.earth_up)) if at]
    found += [*_harvesting(planting, dates), *taken]
    ends = "dig in" if planting.purpose == "green manure" else "clear"
    if not dates.stays_for_years or dates.clear is not None:
        found.append(Step(ends, dates.clear))
    if dates.stays_for_years:
        found = [step for step in found if step.at is None or year.holds(step.at.day)]
    placed, day = [], dt.date.min
    for step in found:
        day = step.at.day if step.at else day
        placed.append((day, step))
    return tuple(step for _, step in sorted(placed, key=lambda pair: pair[0]))


def _starting(dates: Dates, thinned: bool) -> list[Step]:
    if dates.start == "sown":
        thin = [Step("thin", dates.thin)] if thinned else []
        return [Step("sow", dates.sow), Step("comes up", dates.emerge), *thin]
    if dates.start == "raised":
        known = dates.sow is not None and dates.set_out is not None
        prick = [] if known and dates.prick_out is None else [Step("prick out", dates.prick_out)]
        return [
            Step("sow", dates.sow),
            *prick,
            Step("harden off", dates.harden_off),
            Step("set out", dates.set_out),
        ]
    if dates.start == "bought":
        return [Step("get"), Step("harden off", dates.harden_off), Step("set out", dates.set_out)]
    if dates.start == "standing":
        return [Step("look over")]
    return [Step("get"), Step("plant", dates.set_out), Step("comes up", dates.emerge)]


def _covering(planting: Planting, dates: Dates) -> tuple[list[Step], list[Step]]:
    laid, taken = [], []
    left = list(dates.covers)
    for cover in planting.covers:
        days = next((days for days in left if days.kind == cover.kind), None)
        if days is not None:
            left.remove(days)
        on, off = (days.on, days.off) if days is not None else (None, None)
        if cover.kind == "film":
            laid.append(Step("film down", on))
        else:
            laid.append(Step(f"{cover.kind} on", on))
            taken.append(Step(f"{cover.kind} off", off))
    return laid, taken


def _harvesting(planting: Planting, dates: Dates) -> list[Step]:
    if planting.purpose == "green manure" and dates.first_harvest is None:
        return []
    first, last = dates.first_harvest, dates.last_harvest
    late = first is not None and dates.clear is not None and first.day > dates.clear.day
    if late or not dates.ripens:
        first = last = None
    if planting.crop in CURED:
        return [Step("lift and cure", first)]
    return [Step("pick from", first), Step("pick until", last)]
