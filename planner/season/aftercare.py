"""When the work falls due that a crop needs between its start and its end, from the crop's own data."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.crops.aftercare import CARE_WORDS, Care
from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import day_within, shift
from planner.season.planting_dates import CareDays, Dated
from planner.sun import next_longest_day
from planner.words import later, say, say_count
from planner.words.dates import month_words

#: Fruit that is ripe so long after the longest day ripens in autumn: the first week of August in the north (practice).
#: [days]
AUTUMN_FRUIT = 45
#: Days of a year.
_YEAR = 365.25
#: Half of them.
_HALF_OF_YEAR = 183
#: Work in a month is done south of the equator so many months later.
_HALF_YEAR = 6


#: Reasons of work before, on and after the day it is counted from.
_BEFORE = {
    "start": later("{days} before planting"),
    "emergence": later("{days} before it comes up"),
    "flowering": later("{days} before it flowers"),
    "first harvest": later("{days} before the first harvest"),
    "last harvest": later("{days} before the last harvest"),
    "last frost": later("{days} before the last spring frost"),
    "first frost": later("{days} before the first autumn frost"),
    "clearing": later("{days} before it is cleared"),
}
_ON = {
    "start": later("On the day of planting"),
    "emergence": later("When it comes up"),
    "flowering": later("When it flowers"),
    "first harvest": later("With the first harvest"),
    "last harvest": later("When the harvest is over"),
    "last frost": later("With the last spring frost"),
    "first frost": later("With the first autumn frost"),
    "clearing": later("When its plot is cleared"),
}
_AFTER = {
    "start": later("{days} after planting"),
    "emergence": later("{days} after it comes up"),
    "flowering": later("{days} after it flowers"),
    "first harvest": later("{days} after the first harvest"),
    "last harvest": later("{days} after the last harvest"),
    "last frost": later("{days} after the last spring frost"),
    "first frost": later("{days} after the first autumn frost"),
    "clearing": later("{days} after it is cleared"),
}


class Known(NamedTuple):
    """The days of a planting from which its aftercare is counted; None where one is not known.

    ``expected_harvest`` is the first harvest as it was worked out before it was seen; work ahead of the harvest is counted from
    that, since an early picking makes no work overdue that waits for the plants to be so high.
    """

    start: Dated | None
    emergence: Dated | None
    flowering: Dated | None
    first_harvest: Dated | None
    last_harvest: Dated | None
    clearing: Dated | None
    expected_harvest: Dated | None = None


def aftercare(context: DateContext, known: Known) -> tuple[CareDays, ...]:
    """The work of a planting between its start and its end, one of each kind, in the order of the catalogue's kinds.

    What was done comes before what is due; work that was done is listed though its crop's data do not ask for it.

    Parameters
    ----------
    context : DateContext
    known : Known
    """
    found: dict[str, CareDays] = {}
    for care in _usual(context):
        if care.kind in found or not _applies(context, care, known):
            continue
        days = _due(context, care, known)
        if days is not None:
            found[care.kind] = days
    for kind in CARE_WORDS:
        done = context.given_day(kind, None, say("Done on this day"))
        if done is not None:
            due = found.get(kind)
            if due is not None and due.every:  # it is due from its first day on, whenever it was done
                found[kind] = due._replace(on=done) if done.day < due.on.day else due
                continue
            until = max(due.until, done.day) if due is not None else done.day
            found[kind] = (
                due._replace(on=done, until=until) if due is not None else CareDays(kind, kind, done, until)
            )
    return tuple(found[kind] for kind in CARE_WORDS if kind in found)


def _usual(context: DateContext) -> tuple[Care, ...]:
    """What the crop's data ask for; nothing of a green manure."""
    if context.crop is None or context.planting.purpose == "green manure":
        return ()
    return context.crop.aftercare


def _applies(context: DateContext, care: Care, known: Known) -> bool:
    """Whether a piece of work belongs to a planting at all."""
    if care.starts and context.start not in care.starts:
        return False
    support = context.planting.support
    if care.supports and (support is None or support.kind not in care.supports):
        return False
    if care.kind == "chit" and practice.is_unsprouted(context.start, context.planting.state):
        return False
    if care.planted == "before winter" and not _lies_through_winter(context, known):
        return False
    if care.planted == "before summer" and not _planted_before_summer(context, known):
        return False
    return care.ripens is None or care.ripens == _ripens(context, known)


def _lies_through_winter(context: DateContext, known: Known) -> bool:
    if known.start is None or context.frosts.last is None:
        return False
    spring = context.frosts.last_after(known.start.day)
    return spring is not None and (spring - known.start.day).days > practice.WINTER_AHEAD


def _planted_before_summer(context: DateContext, known: Known) -> bool:
    if known.start is None:
        return False
    longest = next_longest_day(known.start.day, context.southern)
    return (longest - known.start.day).days < _HALF_OF_YEAR


def _ripens(context: DateContext, known: Known) -> str:
    """The half of the season in which its fruit ripens; empty where its harvest is not known."""
    if known.first_harvest is None:
        return ""
    first = known.first_harvest.day
    longest = next_longest_day(shift(first, -182), context.southern)
    return "autumn" if first >= shift(longest, AUTUMN_FRUIT) else "summer"


def _due(context: DateContext, care: Care, known: Known) -> CareDays | None:
    """The days of a piece of work; None where they are not known, or outside of the planting's life."""
    first = _first_day(context, care, known)
    if first is None:
        return None
    until = _last_day(context, care, known, first.day)
    start, end = known.start, known.clearing
    ahead = care.after == "start" and care.days < 0
    if start is not None and not ahead and first.day < start.day:
        return None
    if end is not None:
        if first.day > end.day:
            return None
        until = min(until, end.day) if until is not None else None
    if until is None or until < first.day:
        return None
    if context.stays_for_years and not _of_this_year(context, care, known, first.day):
        return None
    return CareDays(care.kind, care.task, first, until, care.every_days or 0)


def _first_day(context: DateContext, care: Care, known: Known) -> Dated | None:
    if care.month is not None:
        begins = _month_begins(context, care.month, known)
        return (
            Dated(begins, when_due(care, context.southern), care.source or "") if begins is not None else None
        )
    ahead = care.after == "first harvest" and care.days < 0 and known.expected_harvest is not None
    anchor = _anchor(context, "expected harvest" if ahead else care.after or "", known)
    if anchor is None:
        return None
    return Dated(shift(anchor, care.days), when_due(care, context.southern), care.source or "")


def when_due(care: Care, southern: bool = False) -> str:
    """When a piece of work is due, in words: ``14 days after it comes up``.

    Parameters
    ----------
    care : Care
    southern : bool
        Months are those south of the equator.
    """
    if care.month is not None:
        month = month_words(_month_here(care.month, southern))
        if care.to_month is None or care.to_month == care.month:
            return say("Usual in {month}", month=month)
        return say(
            "Usual from {month} to {last}",
            month=month,
            last=month_words(_month_here(care.to_month, southern)),
        )
    anchor = care.after or ""
    if not care.days:
        return say(_ON[anchor])
    days = say_count("{count} day", "{count} days", abs(care.days))
    return say(_BEFORE[anchor], days=days) if care.days < 0 else say(_AFTER[anchor], days=days)


def _last_day(context: DateContext, care: Care, known: Known, first: dt.date) -> dt.date | None:
    """Last day of a piece of work that begins on a day; None where what ends it is not known."""
    if care.until is not None:
        end = _anchor(context, care.until, known)
        return shift(end, care.until_days) if end is not None else None
    if care.month is None:
        return first
    month = _month_here(care.to_month or care.month, context.southern)
    ends = shift(day_within(f"{month % 12 + 1:02d}-01", shift(first, 1)), -1)
    # Records belong to the growing year they lie in.
    return min(ends, context.year[1]) if context.year is not None and context.stays_for_years else ends


def _anchor(context: DateContext, anchor: str, known: Known) -> dt.date | None:
    """The day that a piece of work is counted from."""
    start = known.start
    if anchor == "last frost":
        if context.stays_for_years:
            return context.harvest_frosts.last
        return context.frosts.last_after(start.day) if start is not None else None
    if anchor == "first frost":
        if context.stays_for_years:
            return context.harvest_frosts.autumn
        frost = context.frosts.first_after(start.day) if start is not None else None
        return shift(frost, practice.UNDER_GLASS) if frost is not None and context.sheltered else frost
    dated: Dated | None = getattr(known, anchor.replace(" ", "_"))
    return dated.day if dated is not None else None


def _month_here(month: int, southern: bool) -> int:
    return (month - 1 + _HALF_YEAR) % 12 + 1 if southern else month


def _month_begins(context: DateContext, month: int, known: Known) -> dt.date | None:
    """First day of a month: of what stays for years in the year wanted, else the next one after its start."""
    first = f"{_month_here(month, context.southern):02d}-01"
    if context.stays_for_years and context.year is not None:
        return day_within(first, context.year[0])
    return day_within(first, known.start.day) if known.start is not None else None


def _of_this_year(context: DateContext, care: Care, known: Known, day: dt.date) -> bool:
    """Whether work on what stays for years falls due in the year of a day."""
    last_done = context.done_before.get(care.kind)
    if care.every_years > 1 and last_done is not None:
        return _years(last_done, day) % care.every_years == 0 and _years(last_done, day) > 0
    grown = context.start == "standing"
    if known.start is None:
        return grown and care.every_years == 1
    if care.after not in ("start", "emergence") and day <= known.start.day:
        return False
    age = _years(known.start.day, day)
    if care.every_years == 1:
        return grown or age >= care.from_year
    return age >= care.from_year and (age - care.from_year) % care.every_years == 0


def _years(since: dt.date, day: dt.date) -> int:
    """Whole years between two days, rounded."""
    return int((day - since).days / _YEAR + 0.5)
