"""Season: what starts out of time, does not ripen, or is cleared before it can be picked."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix
from planner.checks.frame.fixes import other_start
from planner.checks.frame.odds import LivedYears, ripe_words, ripening_is_known, with_odds
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import WeatherInputs, outside_weather, weather_inputs
from planner.checks.odds_alone import judge_ripening_in_years
from planner.checks.season_frost import (
    judge_barely_ripe,
    judge_killed_before_ripe,
    judge_never_ripe,
    judge_ripe_after_frost,
    judge_start_in_frost,
)
from planner.checks.season_heat import judge_cold_nights, judge_heat_sum
from planner.checks.season_starts import judge_early_start, judge_late_start, judge_small_bulbs
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import Frosts, shift
from planner.season.practice import CLEARED_SOONER, LIGHT_FROST, cleared_sooner
from planner.season.spans import Span
from planner.season.usual_weather import UsualWeather
from planner.words import capital, later, say, say_count

CHECK = "season"
#: Days cleared too soon from which a planting fails rather than suffers. [days]
CLOSE = 14
#: Most days by which a start is moved forward where it may also stay longer: the season begins when it begins. [days]
MOST_SOONER = 28
#: Most days by which a planting is left longer: one that needs more had to start sooner. [days]
MOST_LATER = 120
#: Most days by which such a start is moved forward. [days]
MOST_TRIED = 180
#: Length of a harvest where the crop has no figure. [days]
A_WEEK = 7
#: Topics of what is feared not to ripen.
_FEARS_UNRIPE = ("frost", "barely", "cold", "heat", "late", "cleared")

_RULE_CLEARED = later("A planting stays until it can be picked")
_RULE_ORDER = later("A planting is picked after it is begun")


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings that start out of time, will not ripen, or are cleared before they can be picked."""
    plan, outside = context.plan, outside_weather(context.plan)
    for view in context.views:
        if not view.stays_for_years and view.starts_here and view.placed.plants:
            yield from plan.cached(season_findings, view.id, weather_inputs(plan, view, outside))


@fact("season findings")
def season_findings(inputs: WeatherInputs) -> tuple[Finding, ...]:
    """Judge the start and the harvest of one planting."""
    view, frosts, outside = inputs.view, inputs.frosts, inputs.outside
    zone, southern = inputs.zone, inputs.southern
    start = judge_early_start(view, frosts, outside) or judge_late_start(view, frosts, southern, zone)
    harvest = _judge_harvest(view, frosts, outside)
    years = inputs.years
    if years.odds is None:
        return tuple(one for one in (start, harvest) if one is not None)
    alone = judge_ripening_in_years(view, years, southern) if harvest is None else None
    return tuple(_in_odds(one, years) for one in (start, harvest, alone) if one is not None)


def _in_odds(finding: Finding, years: LivedYears) -> Finding:
    """A finding with the odds that it ripens, where that is what it fears."""
    odds = years.odds
    if odds is None or finding.topic not in _FEARS_UNRIPE or not ripening_is_known(years):
        return finding
    return with_odds(finding, years, ripe_words(odds.picked, odds.years), odds.lost)


def _judge_harvest(view: PlantingView, frosts: Frosts, outside: UsualWeather | None) -> Finding | None:
    """The first reason why there is no full harvest."""
    first = view.dates.first_harvest
    if view.manure or (view.dates.outcome is not None and view.dates.outcome.lost):
        return None  # what was lost is told by its record
    if first is None:
        return (
            judge_start_in_frost(view, frosts)
            or judge_heat_sum(view, frosts)
            or judge_cold_nights(view, outside)
            or judge_never_ripe(view, frosts)
            or judge_killed_before_ripe(view, frosts, outside)
        )
    return (
        _judge_order(view, first.day)
        or judge_small_bulbs(view, first.day, outside)
        or judge_start_in_frost(view, frosts)
        or judge_heat_sum(view, frosts)
        or judge_cold_nights(view, outside)
        or judge_ripe_after_frost(view, frosts, first.day)
        or judge_barely_ripe(view, frosts, first.day)
        or _judge_clearing(view, first.day)
    )


def _judge_clearing(view: PlantingView, first: dt.date) -> Finding | None:
    """Report a planting that is cleared before its first harvest."""
    clear = view.span.last
    short = (first - clear).days
    if short <= cleared_sooner(view.span.first, clear) or view.planting.purpose == "cutting":
        return None
    if view.dates.clear is not None and view.dates.clear.origin == "done":
        return None
    early = short <= CLEARED_SOONER + _days_of_early_sorts(view)
    return planting_finding(
        CHECK,
        "note" if early else "stop" if short > CLOSE else "mind",
        (view,),
        capital(_cleared_before(view, first, early)),
        say(_RULE_CLEARED),
        view.source("days_to_maturity"),
        [str(first), str(clear)],
        Span(clear, first),
        topic="cleared",
        candidates=lambda plan: _leave_longer(plan, view.id),
    )


def _cleared_before(view: PlantingView, first: dt.date, early: bool) -> str:
    """That a planting is cleared before its first harvest, and whether early sorts are ready by then."""
    clear = view.span.last
    text = say_count(
        "{planting} is cleared on {day}, {count} day before it can first be picked ({harvest})",
        "{planting} is cleared on {day}, {count} days before it can first be picked ({harvest})",
        (first - clear).days,
        planting=view.name,
        day=view.day(clear),
        harvest=view.day(first),
    )
    return say("{cleared}; only the earliest sorts are ready by then", cleared=text) if early else text


def _judge_order(view: PlantingView, first: dt.date) -> Finding | None:
    """Report a planting that was picked before it starts; only the gardener knows when it was started."""
    start = view.dates.set_out or view.dates.sow
    if start is None or first >= start.day:
        return None
    text = say(
        "{planting} is picked from {harvest}, before it starts on {start}: give its first day, or tick off when it was "
        "started",
        planting=view.name,
        harvest=view.day(first),
        start=view.day(start.day),
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE_ORDER),
        "practice",
        [str(first), str(start.day)],
        Span(first, start.day),
        topic="order",
    )


def _days_of_early_sorts(view: PlantingView) -> int:
    """Days by which the earliest sorts that any source knows are ahead of the figure. [days]

    None where the days of early sorts are known: a planting with a last day is taken for one if it must be.
    """
    if view.number("days_early") is not None:
        return 0
    figure = view.figure("days_to_maturity")
    if figure is None or figure.value is None or figure.least is None:
        return 0
    return round(figure.value - figure.least)


def _as_early_sort(view: PlantingView, first: dt.date) -> Iterator[Fix]:
    """Pick a planting before it is cleared, where the earliest sorts are ready by then."""
    clear, soonest = view.span.last, shift(first, -_days_of_early_sorts(view))
    if soonest > shift(clear, CLEARED_SOONER):
        return
    day = min(max(soonest, shift(clear, -A_WEEK)), clear)
    pins = view.planting.pinned_dates
    dates = {name: getattr(pins, name) for name in type(pins).model_fields} | {"first_harvest": day}
    yield Fix(
        say("Grow an early sort of {crop}, picked from {day}", crop=view.crop_name, day=view.day(day)),
        say("it is picked before it is cleared"),
        fixes.changed(view.planting, first=view.span.first, pinned_dates=dates),
    )


def _sooner(days: int) -> str:
    return say_count(
        "{count} day sooner, so that it is picked in time",
        "{count} days sooner, so that it is picked in time",
        -days,
    )


def _leave_longer(plan: Plan, key: str) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    last, first = view.dates.last_harvest, view.dates.first_harvest
    if first is None:
        return
    frost = plan.frosts(view.planting.year).first_after(view.span.first)
    tender = (view.tender or view.tender_shoots) and not view.sheltered
    if tender and frost is not None and first.day > shift(frost, LIGHT_FROST):
        yield fixes.remove(view, say("no ground is lost to what the frost ends"))
        return
    late = (first.day - view.span.last).days
    if late > MOST_LATER:  # beyond a winter: it had to start sooner
        yield other_start(view, range(-A_WEEK, -MOST_TRIED, -1), _sooner)
        yield fixes.remove(view, say("no ground is lost to what is never picked"))
        return
    end = last.day if last is not None and last.day >= first.day else first.day
    days = view.number("harvest_days") or A_WEEK
    end = max(end, shift(first.day, days - 1))
    if tender and frost is not None:
        end = min(end, max(frost, first.day))  # after the frost there is nothing to wait for
    yield fixes.clear_on(view, end, say("it is picked to its end"))
    yield from _as_early_sort(view, first.day)
    yield other_start(view, range(-late, -MOST_SOONER - 1, -1), _sooner)
    if view.planting.last is not None:
        yield Fix(
            say("Leave its day of clearing to be worked out"),
            say("it is picked to its end"),
            fixes.changed(view.planting, last=None),
        )
    if not tender or frost is None or shift(first.day, A_WEEK) <= frost:
        yield fixes.clear_on(view, shift(first.day, A_WEEK), say("it is picked for a week"))
    yield fixes.clear_on(view, first.day, say("it is picked once"))
    yield fixes.remove(view, say("no ground is lost to what is never picked"))
