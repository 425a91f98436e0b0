"""The steps of a planting on its bed's sheet, each a box to tick beside its day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import get_args

from planner.crops.aftercare import IN_SHORT
from planner.garden import Planting
from planner.garden.planting import CoverKind
from planner.season.planting_dates import Dated, Dates
from planner.season.practice import CURED
from planner.season.spans import Span
from planner.sheets.work_order import place_in_day
from planner.words import key_words, later, say

#: Steps that week sheets call by another name; a cover has its kind in its own.
_WORK = {
    "pick from": "pick",
    "pick until": "pick",
    "pick all at once": "pick",
    "plant": "set out",
    "dig in": "clear",
}
#: Steps without a day that come before what they follow in the list: what is sown or set out goes into film and up supports.
_BEFORE = ("get", "film down", "support up")


#: Steps with which plants come onto their plot, or into a tray.
_BEGINS = ("sow", "set out", "plant")
#: Steps in words.
_SHOWN = {
    "inspect": later("inspect"),
    "sow": later("sow"),
    "comes up": later("comes up"),
    "thin": later("thin"),
    "prick out": later("prick out"),
    "pot on": later("pot on"),
    "harden off": later("harden off"),
    "set out": later("set out"),
    "plant": later("plant"),
    "film down": later("lay film"),
    "film up": later("take up film"),
    "pick": later("pick"),
    "pick from": later("pick from"),
    "pick until": later("pick until"),
    "pick all at once": later("pick all at once"),
    "lift and cure": later("lift and cure"),
    "clear": later("clear"),
    "dig in": later("dig in"),
}
#: What is got, by how a planting starts.
_GOT = {
    "bought": later("get plants"),
    "plugs": later("get plug plants"),
    "large plants": later("get large plants"),
    "cuttings": later("get cuttings"),
    "sets": later("get sets"),
    "tubers": later("get tubers"),
    "cloves": later("get cloves"),
    "crowns": later("get crowns"),
}


@dataclass(frozen=True)
class Step:
    """A piece of work, and the day planned for it where there is one.

    Attributes
    ----------
    word : str
        Names its kind.
    at : Dated or None
    shown : str
        In words, where they tell more than its kind.
    by : date or None
        The last day for it, where it has no day of its own.
    """

    word: str
    at: Dated | None = None
    shown: str = ""
    by: dt.date | None = None

    @property
    def words(self) -> str:
        """What stands beside its box."""
        return self.shown or (say(_SHOWN[self.word]) if self.word in _SHOWN else self.word)


def steps(planting: Planting, dates: Dates, thinned: bool, year: Span) -> tuple[Step, ...]:
    """List the steps of a planting in the order of their days; a step without a day follows the one before.

    Parameters
    ----------
    planting : Planting
    dates : Dates
    thinned : bool
        Whether the planting is thinned, even where no day for it is known.
    year : Span
        The growing year; of a perennial only the work in it is listed.
    """
    on = dates.on_plot
    planted_before = dates.stays_for_years and on is not None and on.day < year.first
    found = (
        [Step("inspect")] if planted_before else _starting(planting, dates, thinned or dates.thin is not None)
    )
    if planting.support is not None:
        shown = say("put up {support}", support=key_words(planting.support.kind))
        found.append(Step("support up", dates.support_up, shown))
    laid, taken_off = _covering(planting, dates)
    found += laid
    found += [Step(care.kind, care.on, say(IN_SHORT[care.task])) for care in dates.aftercare]
    found += [*_harvesting(planting, dates), *taken_off]
    ends = "dig in" if planting.purpose == "green manure" else "clear"
    if not dates.stays_for_years or dates.clear is not None:
        found.append(Step(ends, dates.clear))
    if dates.stays_for_years:
        found = [step for step in found if step.at is None or year.holds(step.at.day)]
    dated: list[tuple[tuple[dt.date, int], Step]] = []
    begun = [step.at.day for step in found if step.at is not None and step.word in _BEGINS]
    day, place = dt.date.min, 0
    for step in found:
        if step.at is not None:
            day = step.at.day
        if step.at is not None or step.word in _BEFORE:
            place = place_in_day(_work_of(step.word), begins=day in begun)
        dated.append(((day, place), step))
    return tuple(step for _, step in sorted(dated, key=lambda pair: pair[0]))


def _work_of(word: str) -> str:
    """The kind of work that a step is."""
    if word in _WORK:
        return _WORK[word]
    what, _, ends = word.rpartition(" ")
    return f"cover {ends}" if ends in ("on", "off") and what in get_args(CoverKind) else word


def _starting(planting: Planting, dates: Dates, thinned: bool) -> list[Step]:
    if dates.start == "sown":
        thin = [Step("thin", dates.thin)] if thinned else []
        return [Step("sow", dates.sow), Step("comes up", dates.emerge), *thin]
    if dates.start == "raised":
        dated = dates.sow is not None and dates.set_out is not None
        prick = [] if dated and dates.prick_out is None else [Step("prick out", dates.prick_out)]
        return [
            Step("sow", dates.sow),
            *prick,
            *([Step("pot on", dates.pot_on)] if dates.pot_on is not None else []),
            Step("harden off", dates.harden_off),
            Step("set out", dates.set_out),
        ]
    if dates.start == "bought":
        return [_got(planting, dates), Step("harden off", dates.harden_off), Step("set out", dates.set_out)]
    if dates.start == "standing":
        return [Step("inspect")]
    return [_got(planting, dates), Step("plant", dates.set_out), Step("comes up", dates.emerge)]


def _got(planting: Planting, dates: Dates) -> Step:
    """Getting what is planted: at the latest on the day of the first work on it."""
    what = planting.bought_as(dates.start) if dates.start == "bought" else dates.start
    first = [care.on.day for care in dates.aftercare if care.kind == "chit"]
    first += [at.day for at in (dates.harden_off, dates.set_out) if at is not None]
    return Step("get", None, say(_GOT[what]), min(first, default=None))


def _covering(planting: Planting, dates: Dates) -> tuple[list[Step], list[Step]]:
    """Steps of laying covers, and of taking them off; film stays down where no day is known for it."""
    laid, taken_off = [], []
    left = list(dates.covers)
    for cover in planting.covers:
        days = next((days for days in left if days.kind == cover.kind), None)
        if days is not None:
            left.remove(days)
        on, off = (days.on, days.off) if days is not None else (None, None)
        if cover.kind == "film":
            laid.append(Step("film down", on))
            if off is not None:
                taken_off.append(Step("film up", off))
        else:
            laid.append(Step(f"{cover.kind} on", on, say("{cover} on", cover=key_words(cover.kind))))
            taken_off.append(Step(f"{cover.kind} off", off, say("{cover} off", cover=key_words(cover.kind))))
    return laid, taken_off


def _harvesting(planting: Planting, dates: Dates) -> list[Step]:
    if planting.purpose == "green manure" and dates.first_harvest is None:
        return []
    first, last = dates.first_harvest, dates.last_harvest
    cleared_before = first is not None and dates.clear is not None and first.day > dates.clear.day
    if cleared_before or not dates.ripens:
        first = last = None
    if planting.crop in CURED:
        return [Step("lift and cure", first)]
    if first is None and last is None:
        return [Step("pick")]
    if first is not None and last is not None and first.day == last.day:
        return [Step("pick all at once", first)]
    return [Step("pick from", first), Step("pick until", last)]
