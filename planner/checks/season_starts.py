"""Season, where the start itself is out of time: long before its window, or too late to grow large."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Climate, PinnedDates
from planner.plan import Plan
from planner.season.counting_back import days_on_plot
from planner.season.frosts import Frosts, shift
from planner.season.practice import (
    BEYOND_WINTER,
    LIFTED,
    LONG_CROP,
    SPRING_CLOVES,
    UNDER_COVER,
    UNDER_GLASS,
    WARMING,
)
from planner.season.spans import Span
from planner.season.temperatures import mean_on
from planner.sun import next_longest_day
from planner.words import capital, later, percent, say, say_count

CHECK = "season"
#: Days before the earliest start any source knows from which it is reported (practice). [days]
EARLY = 21
#: Sets and tubers root in ground of this warmth (practice). [deg C]
ROOTS = 5.0
#: Seed comes up quickly in ground that is by so much warmer than its least (practice). [deg C]
WARMER = 3.5
#: Most days from a start to the last spring frost: one before that belongs to the autumn. [days]
SPRING = 110
#: Least days on its plot from which a hardy crop counts as slow (practice). [days]
SLOW = 80
#: Share of the warmth it needs that a slow crop must find (practice).
GROWN = 0.75

_RULE_LATE = later("What grows slowly is in the ground early enough to be full-grown before the cold")
_RULE_EARLY = later(
    "Seed sown long before its window lies in cold ground; what comes up late catches up, what rots does not"
)
_RULE_SMALL = later(
    "Garlic wants its cold and its spring before the long days: it is planted in autumn, or as soon as the ground opens"
)


# -- early ---------------------------------------------------------------------------------------


def judge_early_start(view: PlantingView, frosts: Frosts, climate: Climate) -> Finding | None:
    """Report seed, tubers and sets of hardy crops that lie in cold ground long before their window opens.

    Cloves, which like it so, are left out.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    climate : Climate
    """
    dates, on = view.dates, view.dates.on_plot
    if dates.start not in ("sown", "sets", "tubers") or view.tender or on is None or on.origin == "done":
        return None
    if _ground_is_warm(view, climate):
        return None
    field = "sow_from" if dates.start == "sown" else "set_out_from"
    figure = view.figure(field)
    weeks = figure.least if figure is not None else view.number(field)
    last = frosts.last_after(on.day)
    if weeks is None or last is None or (last - on.day).days > SPRING:
        return None
    opens = shift(last, 7 * weeks)
    covered = any(cover.kind in WARMING and cover.on.day <= on.day for cover in dates.covers)
    ahead = (UNDER_GLASS if view.sheltered else 0) + (UNDER_COVER if covered else 0)
    if (opens - on.day).days - ahead <= EARLY:
        return None
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(_early(view, on.day, opens, last, frosts.risk)),
        say(_RULE_EARLY),
        view.source(field),
        [str(on.day), str(opens), ahead],
        Span(on.day, opens),
        topic="early",
        candidates=lambda plan: _when_it_opens(plan, view.id, shift(opens, -ahead)),
    )


def _ground_is_warm(view: PlantingView, climate: Climate) -> bool:
    """Whether the ground is warm when it starts, as it is all winter where winters are mild."""
    mean, least = mean_on(climate, view.span.first), view.number("soil_least")
    if mean is None:
        return False
    return mean >= ROOTS if view.dates.start != "sown" else least is not None and mean >= least + WARMER


def _early(view: PlantingView, on: dt.date, opens: dt.date, last: dt.date, risk: int) -> str:
    if view.dates.start == "sown":
        return say_count(
            "{planting} is sown on {day}, {count} day before the earliest that is usual ({opens}, by the last spring frost "
            "of {frost}, risk {risk} %)",
            "{planting} is sown on {day}, {count} days before the earliest that is usual ({opens}, by the last spring frost "
            "of {frost}, risk {risk} %)",
            (opens - on).days,
            planting=view.name,
            day=view.day(on),
            opens=view.day(opens),
            frost=view.day(last),
            risk=risk,
        )
    return say_count(
        "{planting} is planted on {day}, {count} day before the earliest that is usual ({opens}, by the last spring frost "
        "of {frost}, risk {risk} %)",
        "{planting} is planted on {day}, {count} days before the earliest that is usual ({opens}, by the last spring frost "
        "of {frost}, risk {risk} %)",
        (opens - on).days,
        planting=view.name,
        day=view.day(on),
        opens=view.day(opens),
        frost=view.day(last),
        risk=risk,
    )


def _when_it_opens(plan: Plan, key: str, opens: dt.date) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield fixes.start_on(view, opens, say("when its window opens, and it comes up quickly"))


# -- late ----------------------------------------------------------------------------------------


def judge_late_start(view: PlantingView, frosts: Frosts, southern: bool) -> Finding | None:
    """Report slow hardy crops begun so long after midsummer that the cold finds them small.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    southern : bool
        Whether the garden lies in the south.
    """
    on, frost, heat = view.span.first, frosts.first_after(view.span.first), view.dates.heat
    if frost is None or heat is None or not _slow_and_hardy(view):
        return None
    if (view.planting.last or on) > shift(frost, BEYOND_WINTER):
        return None
    after_midsummer = next_longest_day(shift(on, -SPRING), southern) <= on
    if not after_midsummer or heat.found >= GROWN * heat.wanted:
        return None
    share = heat.found / heat.wanted
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(_late(view, on, share, heat.until)),
        say(_RULE_LATE),
        view.source("days_to_maturity"),
        [str(on), round(share, 2)],
        Span(on, heat.until),
        topic="late",
        candidates=lambda plan: _start_sooner(plan, view.id),
    )


def _slow_and_hardy(view: PlantingView) -> bool:
    """Whether it is an annual of the open that stands frost and grows slowly, and has no autumn window."""
    if view.tender or view.stays_for_years or view.sheltered or view.manure or view.crop is None:
        return False
    days = days_on_plot(view.number, view.crop, view.dates.start, view.planting.state)
    return days is not None and SLOW <= days < LONG_CROP and view.number("autumn_from") is None


def _late(view: PlantingView, on: dt.date, share: float, stops: dt.date) -> str:
    if view.dates.start == "sown":
        return say(
            "{planting} is sown on {day} and finds {share} of the warmth it needs before the cold stops it "
            "({stops}): it stays small",
            planting=view.name,
            day=view.day(on),
            share=percent(share),
            stops=view.day(stops),
        )
    return say(
        "{planting} is planted on {day} and finds {share} of the warmth it needs before the cold stops it "
        "({stops}): it stays small",
        planting=view.name,
        day=view.day(on),
        share=percent(share),
        stops=view.day(stops),
    )


def _start_sooner(plan: Plan, key: str) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for days in (14, 28, 42, 56):
        gain = say_count(
            "{count} day more to grow before the cold", "{count} days more to grow before the cold", days
        )
        yield fixes.start_on(view, shift(view.span.first, -days), gain)
    yield fixes.remove(view, say("no ground is lost to what stays small"))


# -- small bulbs ---------------------------------------------------------------------------------


def judge_small_bulbs(view: PlantingView, first: dt.date) -> Finding | None:
    """Report cloves planted so late in spring that the length of the day ripens them small.

    Parameters
    ----------
    view : PlantingView
    first : date
        First harvest.
    """
    days, on = view.number("days_to_maturity") or 0, view.span.first
    grows = (first - on).days
    if view.dates.start not in LIFTED or view.dates.stays_for_years:
        return None
    if days < LONG_CROP or grows > SPRING_CLOVES:
        return None
    text = say_count(
        "{planting} is planted on {day} and has no more than {count} day until long days ripen it ({harvest}): its bulbs stay "
        "small, or do not part into cloves",
        "{planting} is planted on {day} and has no more than {count} days until long days ripen it ({harvest}): its bulbs stay "
        "small, or do not part into cloves",
        grows,
        planting=view.name,
        day=view.day(on),
        harvest=view.day(first),
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE_SMALL),
        "practice",
        [str(on), grows],
        Span(on, first),
        topic="small",
        candidates=lambda plan: _in_autumn(plan, view.id),
    )


def _in_autumn(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    view = planting_view(plan, planting)
    yield Fix(
        say("Plant {crop} in autumn", crop=view.crop_name),
        say("it roots before winter and has all spring to grow"),
        fixes.changed(planting, timing="autumn", first=None, last=None, pinned_dates=PinnedDates()),
    )
    for days in (21, 42):
        gain = say_count(
            "{count} day more to grow before midsummer", "{count} days more to grow before midsummer", days
        )
        yield fixes.start_on(view, shift(view.span.first, -days), gain)
    yield fixes.remove(view, say("no ground is lost to small bulbs"))
