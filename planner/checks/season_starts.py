"""Season, where the start itself is out of time: seed long before its window, cloves long after theirs."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import plural_days
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Climate
from planner.plan import Plan
from planner.season.counting_back import days_on_plot
from planner.season.covers import WARMING
from planner.season.frosts import Frosts, shift
from planner.season.heat import COOL_BASE, heat_between, mean_on
from planner.season.practice import (
    BEYOND_WINTER,
    LIFTED,
    LIGHT_FROST,
    LONG_CROP,
    SPRING_CLOVES,
    UNDER_COVER,
    UNDER_GLASS,
)
from planner.season.spans import Span
from planner.sun import next_longest_day
from planner.words import capital

CHECK = "season"
#: Sown or planted so long before the earliest day any source knows is said (practice). [days]
EARLY = 21
#: Sets and tubers root in ground of this warmth; seed comes up quickly in ground so much warmer than its least
#: (practice). [deg C]
ROOTS, WARMER = 5.0, 3.5
#: Farther ahead of the last spring frost a start belongs to the autumn before. [days]
SPRING = 110

#: A hardy crop so slow [days] must find this share of the warmth of its usual season (practice).
SLOW, GROWN = 80, 0.75

_RULE_LATE = "What grows slowly is in the ground early enough to be full-grown before the cold"
_RULE_EARLY = (
    "Seed sown long before its window lies in cold ground; what comes up late catches up, what rots does not"
)
_RULE_SMALL = "Garlic wants its cold and its spring before the long days: it is planted in autumn, or as soon as the ground opens"


def warm_enough(view: PlantingView, climate: Climate) -> bool:
    """Whether the ground is warm when it starts, as it is all winter where winters are mild."""
    mean, least = mean_on(climate, view.span.first), view.number("soil_least")
    if mean is None:
        return False
    return mean >= ROOTS if view.dates.start != "sown" else least is not None and mean >= least + WARMER


def early(view: PlantingView, frosts: Frosts, climate: Climate) -> Finding | None:
    """Seed, tubers and sets of hardy crops in the ground long before their window opens; cloves like it so."""
    dates, on = view.dates, view.dates.on_plot
    if (
        warm_enough(view, climate)
        or view.tender
        or on is None
        or on.origin == "done"
        or dates.start not in ("sown", "sets", "tubers")
    ):
        return None
    field = "sow_from" if dates.start == "sown" else "set_out_from"
    figure, weeks = view.figure(field), view.number(field)
    weeks = figure.least if figure is not None else weeks
    last = frosts.last_after(on.day)
    if weeks is None or last is None or (last - on.day).days > SPRING:
        return None
    opens = shift(last, 7 * weeks)
    covered = any(cover.kind in WARMING and cover.on.day <= on.day for cover in dates.covers)
    ahead = (UNDER_GLASS if view.sheltered else 0) + (UNDER_COVER if covered else 0)
    days = (opens - on.day).days
    if days - ahead <= EARLY:
        return None
    verb = "sown" if dates.start == "sown" else "planted"
    text = (
        f"{view.name} is {verb} on {view.day(on.day)}, {plural_days(days)} before the earliest that is usual "
        f"({view.day(opens)}, by the last spring frost of {view.day(last)}, risk {frosts.risk} %)"
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        _RULE_EARLY,
        view.source(field),
        [f"{on.day}", f"{opens}", ahead],
        Span(on.day, opens),
        topic="early",
        candidates=lambda plan: _when_it_opens(plan, view.id, shift(opens, -ahead)),
    )


def _when_it_opens(plan: Plan, key: str, opens: dt.date) -> Iterator[Fix]:
    yield fixes.start_on(
        planting_view(plan, plan.garden.plantings_by_id[key]),
        opens,
        "when its window opens, and it comes up quickly",
    )


def late(view: PlantingView, frosts: Frosts, climate: Climate, southern: bool) -> Finding | None:
    """Slow hardy crops begun so long after midsummer that the cold finds them small."""
    if view.tender or view.stays_for_years or view.sheltered or view.manure or view.crop is None:
        return None
    days = days_on_plot(view.number, view.crop, view.dates.start)
    on = view.span.first
    longest, frost = next_longest_day(shift(on, -SPRING), southern), frosts.first_after(on)
    if days is None or not SLOW <= days < LONG_CROP or longest > on or frost is None:
        return None
    if view.number("autumn_from") is not None or (view.planting.last or on) > shift(frost, BEYOND_WINTER):
        return None
    weeks = view.number("sow_from" if view.dates.start == "sown" else "set_out_from")
    last = frosts.last_after(shift(longest, -200))
    if weeks is None or last is None or last > longest:
        return None
    usual = heat_between(climate, shift(last, 7 * weeks), round(days), COOL_BASE)
    found = heat_between(climate, on, (shift(frost, LIGHT_FROST) - on).days, COOL_BASE)
    if not usual or found is None or found >= GROWN * usual:
        return None
    verb = "sown" if view.dates.start == "sown" else "planted"
    text = (
        f"{view.name} is {verb} on {view.day(on)} and finds {100 * found / usual:.0f} % of the warmth of its usual season "
        f"before the cold stops it ({view.day(shift(frost, LIGHT_FROST))}): it stays small"
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        _RULE_LATE,
        view.source("days_to_maturity"),
        [f"{on}", round(found / usual, 2)],
        Span(on, shift(frost, LIGHT_FROST)),
        topic="late",
        candidates=lambda plan: _sooner(plan, view.id),
    )


def _sooner(plan: Plan, key: str) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for days in (14, 28, 42, 56):
        yield fixes.start_on(
            view, shift(view.span.first, -days), f"{plural_days(days)} more to grow before the cold"
        )
    yield fixes.remove(view, "no ground is lost to what stays small")


def small(view: PlantingView, first: dt.date) -> Finding | None:
    """Cloves planted so late in spring that the length of the day ripens them small."""
    days = view.number("days_to_maturity") or 0
    grows = (first - view.span.first).days
    if (
        view.dates.start not in LIFTED
        or days < LONG_CROP
        or grows > SPRING_CLOVES
        or view.dates.stays_for_years
    ):
        return None
    text = (
        f"{view.name} is planted on {view.day(view.span.first)} and has no more than {plural_days(grows)} until long "
        f"days ripen it ({view.day(first)}): its bulbs stay small, or do not part into cloves"
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        _RULE_SMALL,
        "practice",
        [f"{view.span.first}", grows],
        Span(view.span.first, first),
        topic="small",
        candidates=lambda plan: _in_autumn(plan, view.id),
    )


def _in_autumn(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    view = planting_view(plan, planting)
    yield Fix(
        f"Plant {view.crop_name} in autumn",
        "it roots before winter and has all spring to grow",
        fixes.changed(
            planting, timing="autumn", first=None, last=None, pinned_dates=type(planting.pinned_dates)()
        ),
    )
    for days in (21, 42):
        yield fixes.start_on(
            view, shift(view.span.first, -days), f"{plural_days(days)} more to grow before midsummer"
        )
    yield fixes.remove(view, "no ground is lost to small bulbs")
