"""Frost in autumn: tender plants picked after it, or left in their ground long after it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.plan import Plan
from planner.season.frosts import Frosts, shift
from planner.season.practice import UNDER_COVER, WARMING
from planner.season.spans import Span
from planner.words import capital, later, say, say_count

CHECK = "frost"
#: Most days that a planting may be left after the frost that kills it. [days]
FOR_NOTHING = 21
#: Most days that it may still be picked after the frost, from plants it missed. [days]
PICKED_AFTER = 7

_RULE = later("Frost ends what is tender")


def covered_against_cold(view: PlantingView, day: dt.date) -> bool:
    """Whether a cover that keeps the cold off lies over a planting on a day.

    Parameters
    ----------
    view : PlantingView
    day : date
    """
    return any(cover.kind in WARMING and cover.lies_on(day) for cover in view.dates.covers)


def judge_autumn(view: PlantingView, frosts: Frosts) -> Finding | None:
    """Report a tender planting that is picked after the frost that ends it, or left long after it.

    Parameters
    ----------
    view : PlantingView
        Of a tender crop in the open.
    frosts : Frosts
        Of the growing year it belongs to.
    """
    frost = frosts.first_after(view.span.first)
    if view.dates.last_harvest is None or frost is None or not view.dates.ripens:
        return None
    given = view.dates.last_harvest.origin != "worked out"
    until = _picked_until(view, frost) if given else _left_until(view)
    if until is None:
        return None
    late = (until - frost).days
    free = late - (UNDER_COVER if covered_against_cold(view, frost) else 0)
    if free <= (PICKED_AFTER if given else FOR_NOTHING):
        return None
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(_text(view, given, until, late, frost, frosts.risk)),
        say(_RULE),
        view.source("hardiness"),
        [str(until), str(frost)],
        Span(frost, until),
        topic="autumn",
        candidates=lambda plan: (
            _pick_sooner(plan, view.id, frost)
            if given
            else [fixes.clear_on(view, frost, say("the ground is free then"))]
        ),
    )


def _picked_until(view: PlantingView, frost: dt.date) -> dt.date | None:
    """The last harvest given for it; None where it does not ripen at all, which ``season`` reports."""
    first, last = view.dates.first_harvest, view.dates.last_harvest
    return None if first is None or last is None or first.day > frost else last.day


def _left_until(view: PlantingView) -> dt.date | None:
    """The last day given for it; None where it is left for its seed."""
    return None if view.planting.purpose == "seed" else view.planting.last


def _text(view: PlantingView, picked: bool, until: dt.date, late: int, frost: dt.date, risk: int) -> str:
    day, first = view.day(until), view.day(frost)
    if picked:
        return say_count(
            "{planting} is picked until {day}, {count} day after the first autumn frost ({frost}, risk {risk} %), "
            "which ends it",
            "{planting} is picked until {day}, {count} days after the first autumn frost ({frost}, risk {risk} %), "
            "which ends it",
            late,
            planting=view.name,
            day=day,
            frost=first,
            risk=risk,
        )
    return say_count(
        "{planting} stands until {day}, {count} day after the first autumn frost ({frost}, risk {risk} %), "
        "which kills it",
        "{planting} stands until {day}, {count} days after the first autumn frost ({frost}, risk {risk} %), "
        "which kills it",
        late,
        planting=view.name,
        day=day,
        frost=first,
        risk=risk,
    )


def _pick_sooner(plan: Plan, key: str, frost: dt.date) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    last = shift(frost, -1)
    pins = {**dict(planting.pinned_dates), "last_harvest": last}
    yield Fix(
        say("End the harvest on {day}", day=planting_view(plan, planting).day(last)),
        say("before the frost does"),
        fixes.changed(planting, pinned_dates=pins),
    )
