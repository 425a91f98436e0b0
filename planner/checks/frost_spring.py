"""Frost in spring: plants that are out earlier than the last frost allows."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.plan import Plan
from planner.season.frosts import Frosts, shift
from planner.season.practice import UNDER_COVER, UNDER_GLASS, WARMING
from planner.season.spans import Span
from planner.words import capital, later, say, say_count

CHECK = "frost"
#: Least days too early that are reported: frost dates are no more exact. [days]
SLACK = 3
#: Days by which frost-tolerant plants may go out before their window opens. [days]
EARLY = 10
#: Days before the last frost from which shoots that it cuts grow again from the tuber, or are earthed over (practice). [days]
SHOOTS_REGROW = 14
#: Days too early from which a tender planting fails rather than suffers. [days]
FAILS = 14
#: Most days from a start to the last spring frost that it is judged by. [days]
SPRING = 150
#: The same where that frost falls in another calendar year than the growing year's. [days]
NEXT_SPRING = 120
#: Days before a start in which the autumn frost it follows is looked for. [days]
AUTUMN_BEFORE = 30
#: Days beyond those it is too early that are tried for a start of tubers: a later one comes up in fewer days. [days]
MOST_TRIED = 42

#: Starts that are in the ground before their leaves are out.
_FROM_BELOW = ("sown", "tubers")

_RULE = later("Frost kills tender plants; they go out after the last spring frost at the risk planned with")
_RULE_HARDY = later(
    "Plants that stand light frost go out in the weeks before the last spring frost that their window gives"
)


def judge_spring(view: PlantingView, frosts: Frosts) -> Finding | None:
    """Report a planting whose leaves are out before the last spring frost allows.

    Parameters
    ----------
    view : PlantingView
        Of a crop with a hardiness class.
    frosts : Frosts
        Of the growing year it belongs to.
    """
    out = _first_day_out(view)
    if out is None or (view.very_hardy and not view.tender_shoots):
        return None
    last = _last_frost_ahead(view, frosts, out)
    safe = _safe_from(view, last) if last is not None else None
    if last is None or safe is None:
        return None
    ahead = _head_start(view, out)
    early = (shift(safe, -ahead) - out).days
    if early <= SLACK:
        return None
    frost_kills = view.tender or view.tender_shoots
    return planting_finding(
        CHECK,
        "stop" if view.tender and early > FAILS else "mind",
        (view,),
        capital(_text(view, out, last, frosts.risk, ahead)),
        say(_RULE) if frost_kills else say(_RULE_HARDY),
        view.source("hardiness"),
        [str(out), str(last), ahead],
        Span(out, max(out, shift(last, -ahead))),
        topic="spring",
        candidates=lambda plan: _start_later(plan, view.id, early, out),
    )


def _first_day_out(view: PlantingView) -> dt.date | None:
    """First day on which its leaves are out in the weather; None for cloves and sets, which bear it."""
    dates = view.dates
    if dates.start in ("sets", "cloves"):
        return None
    if dates.start in _FROM_BELOW and dates.emerge is not None:
        return dates.emerge.day
    return dates.on_plot.day if dates.on_plot is not None else None


def _last_frost_ahead(view: PlantingView, frosts: Frosts, out: dt.date) -> dt.date | None:
    """The last spring frost that a planting out on a day meets; None where that is not its own spring's."""
    last = frosts.last_after(shift(out, -SLACK))
    if last is None or frosts.last is None:
        return None
    days = (last - out).days
    if days > SPRING or (last.year != frosts.last.year and days > NEXT_SPRING):
        return None
    autumn = frosts.first_after(shift(out, -AUTUMN_BEFORE))
    overwinters = autumn is not None and autumn <= last and not view.tender
    return None if overwinters else last  # the cold of a whole winter is judged in ``frost_winter``


def _safe_from(view: PlantingView, last: dt.date) -> dt.date | None:
    """First day that a last frost allows without glass or cover; None where nothing says which."""
    if view.tender_shoots:
        return shift(last, -SHOOTS_REGROW)
    if view.tender:
        return shift(last, _days_to_warm_nights(view))
    weeks = _weeks_from_frost(view)
    return None if weeks is None or view.dates.start == "sown" else shift(last, 7 * weeks - EARLY)


def _days_to_warm_nights(view: PlantingView) -> float:
    """Days from the last frost to nights that are warm enough for a crop that loves warmth. [days]"""
    if view.crop is None or view.crop.hardiness is None:
        return 0.0
    weeks = _weeks_from_frost(view)
    if view.crop.hardiness.value != "warm-loving" or weeks is None or view.dates.start == "sown":
        return 0.0
    return max(0.0, 7 * weeks)


def _weeks_from_frost(view: PlantingView) -> float | None:
    """Weeks from the last frost at which it may go out at the earliest, by any source."""
    figure = view.figure("set_out_from")
    return figure.least if figure is not None else view.number("set_out_from")


def _head_start(view: PlantingView, day: dt.date) -> int:
    """Days by which glass and covers let it out sooner. [days]"""
    covered = any(
        cover.kind in WARMING
        and cover.on.day <= shift(day, 1)
        and (cover.off is None or cover.off.day >= shift(day, 7))
        for cover in view.dates.covers
    )
    return (UNDER_GLASS if view.sheltered else 0) + (UNDER_COVER if covered else 0)


# -- the sentence --------------------------------------------------------------------------------


def _text(view: PlantingView, out: dt.date, last: dt.date, risk: int, ahead: int) -> str:
    event, before = _event(view, out, last, risk), out < last
    if view.tender_shoots:
        text = say("{event}, and its shoots bear no frost", event=event)
    elif view.tender and before:
        text = say("{event}, and bears no frost", event=event)
    elif view.tender:
        text = say("{event}, and wants warm nights", event=event)
    else:
        text = say("{event}, and bears light frost only", event=event)
    if not ahead:
        return text
    return say_count(
        "{event}; glass and cover let it out {count} day sooner",
        "{event}; glass and cover let it out {count} days sooner",
        ahead,
        event=text,
    )


def _event(view: PlantingView, out: dt.date, last: dt.date, risk: int) -> str:
    """That its leaves are out, and how long before or after the last spring frost."""
    days, day, frost = (last - out).days, view.day(out), view.day(last)
    if view.dates.start in _FROM_BELOW:
        return _comes_up(view.name, days, day, frost, risk)
    if days > 0:
        return say_count(
            "{planting} is out on {day}, {count} day before the last spring frost ({frost}, risk {risk} %)",
            "{planting} is out on {day}, {count} days before the last spring frost ({frost}, risk {risk} %)",
            days,
            planting=view.name,
            day=day,
            frost=frost,
            risk=risk,
        )
    if days < 0:
        return say_count(
            "{planting} is out on {day}, {count} day after the last spring frost ({frost}, risk {risk} %)",
            "{planting} is out on {day}, {count} days after the last spring frost ({frost}, risk {risk} %)",
            -days,
            planting=view.name,
            day=day,
            frost=frost,
            risk=risk,
        )
    return say(
        "{planting} is out on {day}, on the day of the last spring frost ({frost}, risk {risk} %)",
        planting=view.name,
        day=day,
        frost=frost,
        risk=risk,
    )


def _comes_up(name: str, days: int, day: str, frost: str, risk: int) -> str:
    """That it comes up so many days before the last spring frost, or after it where negative."""
    if days > 0:
        return say_count(
            "{planting} comes up on {day}, {count} day before the last spring frost ({frost}, risk {risk} %)",
            "{planting} comes up on {day}, {count} days before the last spring frost ({frost}, risk {risk} %)",
            days,
            planting=name,
            day=day,
            frost=frost,
            risk=risk,
        )
    if days < 0:
        return say_count(
            "{planting} comes up on {day}, {count} day after the last spring frost ({frost}, risk {risk} %)",
            "{planting} comes up on {day}, {count} days after the last spring frost ({frost}, risk {risk} %)",
            -days,
            planting=name,
            day=day,
            frost=frost,
            risk=risk,
        )
    return say(
        "{planting} comes up on {day}, on the day of the last spring frost ({frost}, risk {risk} %)",
        planting=name,
        day=day,
        frost=frost,
        risk=risk,
    )


# -- fixes ---------------------------------------------------------------------------------------


def _start_later(plan: Plan, key: str, early: int, out: dt.date) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    days = _days_later(plan, view, early, out)
    gain = say_count(
        "{count} day later, past the frost it cannot bear",
        "{count} days later, past the frost it cannot bear",
        days,
    )
    yield fixes.start_on(view, shift(view.span.first, days), gain)
    if view.sheltered or any(cover.kind in WARMING for cover in view.planting.covers):
        return
    until = shift(out, early + UNDER_COVER)
    for kind, text in (
        ("fleece", say("Keep fleece over it until {day}", day=view.day(until))),
        ("cloche", say("Keep a cloche over it until {day}", day=view.day(until))),
    ):
        cover = {"kind": kind, "first": view.span.first, "last": until}
        covers = (*view.planting.covers, cover)
        yield Fix(text, say("it may stay as early"), fixes.changed(view.planting, covers=covers))


def _days_later(plan: Plan, view: PlantingView, early: int, out: dt.date) -> int:
    """Days by which it must start later; tubers that start later come up in fewer days. [days]"""
    days, trial = early, plan.what_if(plan.garden)
    while view.dates.start == "tubers" and days < early + MOST_TRIED:
        moved = view.planting.with_(first=shift(view.span.first, days))
        comes_up = _first_day_out(planting_view(trial, moved))
        if comes_up is None or comes_up >= shift(out, early):
            break
        days += 1
    return days
