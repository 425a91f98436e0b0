"""Store: a crop grown for the store that does not keep into the winter."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import day_within, shift
from planner.season.keeping import (
    WARM_SHARE,
    Grown,
    Keeping,
    day_of_storing,
    frost_after,
    how_long_it_keeps,
    overwinters,
)
from planner.season.spans import Span
from planner.words import capital, later, number_words, say, say_count

CHECK = "store"
#: Days of keeping up to which a crop is none for the store: a store is for months (practice). [days]
SHORT = 42
#: Days after the first autumn frost that a store lasts at least, when nothing more grows (practice). [days]
INTO_WINTER = 30
#: Days after that frost that is wanted of what keeps for a shorter time than usual. [days]
WELL_INTO_WINTER = 60
#: Where frost comes late or never, winter begins on this day, north and south (practice).
WINTER, SOUTHERN_WINTER = "12-01", "06-01"
#: Families whose store is dry seed or dry leaf, which keeps whatever the fresh crop does (practice).
_DRIED = ("Fabaceae", "Lamiaceae", "Poaceae")

_RULE = later("What is grown for the store keeps into the winter")


class StoreInputs(NamedTuple):
    """What the judgement of one planting for the store depends on.

    Attributes
    ----------
    view : PlantingView
    frost : date or None
        First autumn frost after it is stored, or of its growing year.
    winter : str
        MM-DD on which winter begins at the latest.
    """

    view: PlantingView
    frost: dt.date | None
    winter: str


def check(context: CheckContext) -> Iterator[Finding]:
    """Report crops grown for the store that do not keep into the winter."""
    plan = context.plan
    winter = SOUTHERN_WINTER if plan.garden.site.southern else WINTER
    for view in context.views:
        if view.planting.purpose != "store" or view.stays_for_years or view.crop is None:
            continue
        last = _day_of_storing(view)
        # What was begun the autumn before is reported in the year it is lifted too.
        if not view.starts_here and not (last is not None and plan.span.holds(last)):
            continue
        frost = frost_after(plan.frosts(view.planting.year), last) if last is not None else None
        found = plan.cached(store_finding, view.id, StoreInputs(view, frost, winter))
        if found is not None:
            yield found


def _day_of_storing(view: PlantingView) -> dt.date | None:
    return day_of_storing(view.planting, view.dates)


def _keeping(view: PlantingView, frost: dt.date | None) -> Keeping | None:
    grown = Grown(view.planting, view.figures, view.dates, view.span)
    return how_long_it_keeps(grown, _day_of_storing(view), frost)


@fact("store finding")
def store_finding(inputs: StoreInputs) -> Finding | None:
    """Report a planting whose crop does not keep into the winter."""
    view, frost, winter = inputs
    keeping = _keeping(view, frost)
    if keeping is None or view.crop is None or view.crop.family in _DRIED:
        return None
    if keeping.days <= SHORT:
        return _judge_short_life(view, keeping)
    stored = _day_of_storing(view)
    return (
        _judge_winter(view, keeping, stored, frost, winter)
        if stored is not None and frost is not None
        else None
    )


def _judge_short_life(view: PlantingView, keeping: Keeping) -> Finding:
    """Report a crop that keeps for weeks only."""
    stored = _day_of_storing(view)
    first, end = stored or view.span.first, shift(stored, keeping.days) if stored else view.span.last
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(_keeps_briefly(view.name, keeping)),
        say(_RULE),
        view.source("store_days"),
        [keeping.days],
        Span(first, max(first, end)),
        topic="short",
        candidates=lambda plan: _keep_better(plan, view.id, 0),
    )


def _judge_winter(
    view: PlantingView, keeping: Keeping, stored: dt.date, frost: dt.date, winter: str
) -> Finding | None:
    """Report a crop that is stored too early to keep until winter."""
    end = shift(stored, keeping.days)
    wanted = min(shift(frost, INTO_WINTER), max(frost, day_within(winter, stored)))
    wanted = shift(wanted, WELL_INTO_WINTER - INTO_WINTER) if keeping.why else wanted
    if end >= wanted:
        return None
    text = say_count(
        "{keeps}: {count} day short of the winter ({day})",
        "{keeps}: {count} days short of the winter ({day})",
        (wanted - end).days,
        keeps=_keeps_until(view, keeping, view.day(stored), view.day(end)),
        day=view.day(wanted),
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE),
        view.source("store_days"),
        [keeping.days, str(stored), str(wanted)],
        Span(stored, max(stored, end)),
        topic="early",
        candidates=lambda plan: _keep_better(plan, view.id, (wanted - end).days),
    )


def _keeps_briefly(name: str, keeping: Keeping) -> str:
    days = round(keeping.days)
    match keeping.why:
        case "autumn sets":
            return say_count(
                "{planting} is grown for the store, and keeps from autumn sets {count} day at the best",
                "{planting} is grown for the store, and keeps from autumn sets {count} days at the best",
                days,
                planting=name,
            )
        case "new potatoes":
            return say_count(
                "{planting} is grown for the store, and keeps as new potatoes {count} day at the best",
                "{planting} is grown for the store, and keeps as new potatoes {count} days at the best",
                days,
                planting=name,
            )
        case "warm":
            return say_count(
                "{planting} is grown for the store, and keeps, lifted in warm weather, {share}% of its usual time: {count} day "
                "at the best",
                "{planting} is grown for the store, and keeps, lifted in warm weather, {share}% of its usual time: {count} days "
                "at the best",
                days,
                planting=name,
                share=number_words(100 * WARM_SHARE, 0),
            )
    return say_count(
        "{planting} is grown for the store, and keeps {count} day at the best",
        "{planting} is grown for the store, and keeps {count} days at the best",
        days,
        planting=name,
    )


def _keeps_until(view: PlantingView, keeping: Keeping, stored: str, end: str) -> str:
    days = round(keeping.days)
    match keeping.why:
        case "autumn sets":
            return say_count(
                "{planting} is harvested by {day} and keeps from autumn sets {count} day, until {end}",
                "{planting} is harvested by {day} and keeps from autumn sets {count} days, until {end}",
                days,
                planting=view.name,
                day=stored,
                end=end,
            )
        case "warm":
            return say_count(
                "{planting} is harvested by {day} and keeps, lifted in warm weather, {share}% of its usual time: {count} day, "
                "until {end}",
                "{planting} is harvested by {day} and keeps, lifted in warm weather, {share}% of its usual time: {count} days, "
                "until {end}",
                days,
                planting=view.name,
                day=stored,
                share=number_words(100 * WARM_SHARE, 0),
                end=end,
            )
    return say_count(
        "{planting} is harvested by {day} and keeps {count} day, until {end}",
        "{planting} is harvested by {day} and keeps {count} days, until {end}",
        days,
        planting=view.name,
        day=stored,
        end=end,
    )


def _keep_better(plan: Plan, key: str, days: int) -> Iterator[Fix]:
    """Harvest so many days later, where that is any, or eat it fresh."""
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    stored = _day_of_storing(view)
    if days and not (stored is not None and overwinters(view.span, stored)):
        for more in (days, days + 14):
            gain = say_count(
                "harvested {count} day later, it keeps", "harvested {count} days later, it keeps", more
            )
            yield fixes.start_on(view, shift(view.span.first, more), gain)
    yield Fix(
        say("Grow it to use fresh"),
        say("eaten fresh"),
        fixes.changed(view.planting, purpose="kitchen"),
    )
