"""Season, where the start itself is out of time: long before its window, or too late to grow large."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix
from planner.checks.frame.fixes import other_start
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import covers_on, weather_over
from planner.garden import PinnedDates
from planner.plan import Plan
from planner.season.counting_back import days_on_plot
from planner.season.frosts import Frosts, shift, zone_minimum
from planner.season.practice import (
    BEARS,
    BEYOND_WINTER,
    LIFTED,
    LONG_CROP,
)
from planner.season.spans import Span
from planner.season.start_doubts import WARMER
from planner.season.usual_weather import UsualWeather
from planner.sun import next_longest_day
from planner.words import capital, later, number_words, percent, say, say_count

CHECK = "season"
#: Days before the earliest start any source knows from which it is reported (practice). [days]
EARLY = 21
#: Sets and tubers root in ground of this warmth (practice). [deg C]
ROOTS = 6.0
#: Most days from a start to the last spring frost: one before that belongs to the autumn. [days]
SPRING = 110
#: Least days on its plot from which a hardy crop counts as slow (practice). [days]
SLOW = 80
#: Days longer than those in which bulbs swell from which on planted cloves grow few leaves before (practice: cloves of
#: spring are in the ground by the end of April at 55 degrees, by mid May at 45). [h]
GROWING_DAYS = 2.0
#: Days after the first autumn frost in which a start belongs to the autumn. [days]
AFTER_FROST = 75
#: Crops that are started in autumn for the spring (practice).
_FOR_SPRING = (
    "cabbage",
    "cauliflower",
    "chard",
    "collards",
    "cos_lettuce",
    "crisphead_lettuce",
    "kale",
    "leaf_lettuce",
    "lettuce",
    "onion",
    "parsley",
    "spinach",
    "spring_onion",
)
#: Most days sooner that are tried. [days]
MOST_TRIED = 150
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


def judge_early_start(view: PlantingView, frosts: Frosts, outside: UsualWeather | None) -> Finding | None:
    """Report seed, tubers and sets of hardy crops that lie in cold ground long before their window opens.

    Cloves, which like it so, are left out.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    outside : UsualWeather, optional
        The usual weather of the garden.
    """
    dates, on = view.dates, view.dates.on_plot
    if dates.start not in ("sown", "sets", "tubers") or view.tender or on is None or on.origin == "done":
        return None
    if outside is not None and not outside.rough and _ground_is_warm(view, outside):
        return None
    field = "sow_from" if dates.start == "sown" else "set_out_from"
    figure = view.figure(field)
    weeks = figure.least if figure is not None else view.number(field)
    last = frosts.last_after(on.day)
    if weeks is None or last is None or (last - on.day).days > SPRING:
        return None
    opens = shift(last, 7 * weeks)
    if (opens - on.day).days <= EARLY or covers_on(view, on.day):
        return None  # what lies under glass or a cover is judged by its soil alone
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(_early(view, on.day, opens, last, frosts.risk)),
        say(_RULE_EARLY),
        view.source(field),
        [str(on.day), str(opens)],
        Span(on.day, opens),
        topic="early",
        candidates=lambda plan: _when_it_opens(plan, view.id, (opens - on.day).days),
    )


def _ground_is_warm(view: PlantingView, outside: UsualWeather) -> bool:
    """Whether the ground is warm when it starts, as it is all winter where winters are mild."""
    day = view.span.first
    soil = weather_over(view, outside, day).soil_on(day)
    wanted, least = view.number("start_temperature"), view.number("soil_least")
    if view.dates.start != "sown":
        return soil >= ROOTS
    if wanted is None and least is not None:
        wanted = least + WARMER
    return wanted is not None and soil >= wanted


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


def _when_it_opens(plan: Plan, key: str, days: int) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield other_start(
        view, range(1, days + 1), lambda _: say("when the ground is warm enough for it to come up quickly")
    )


# -- late ----------------------------------------------------------------------------------------


def judge_late_start(view: PlantingView, frosts: Frosts, southern: bool, zone: str) -> Finding | None:
    """Report slow hardy crops begun so long after midsummer that the cold finds them small.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    southern : bool
        Whether the garden lies in the south.
    zone : str
        USDA hardiness zone of the garden; may be empty.
    """
    on = view.span.first
    frost = frosts.first_after(shift(on, -AFTER_FROST))
    if frost is None or not _slow_and_hardy(view) or _grows_on_in_spring(view, zone):
        return None
    if (view.planting.last or on) > shift(frost, BEYOND_WINTER) and frost > on:
        return None
    if next_longest_day(shift(on, -SPRING), southern) > on:
        return None
    if frost <= on:
        return _late_finding(view, _after_frost(view, on, frost), frost, 0.0)
    heat = view.dates.heat
    share = heat.found / _usual_need(view, heat.wanted) if heat is not None else 1.0
    first = view.dates.first_harvest
    if heat is None or share >= GROWN or (first is not None and first.day < heat.until):
        return None
    return _late_finding(view, _late(view, on, share, heat.until), heat.until, share)


def _late_finding(view: PlantingView, text: str, cold: dt.date, share: float) -> Finding:
    on = view.span.first
    return planting_finding(
        CHECK,
        "note" if share else "mind",
        (view,),
        capital(text),
        say(_RULE_LATE),
        view.source("days_to_maturity"),
        [str(on), round(share, 2)],
        Span(min(on, cold), max(on, cold)),
        topic="late",
        candidates=lambda plan: _start_sooner(plan, view.id),
    )


def _usual_need(view: PlantingView, soonest: float) -> float:
    """Warmth that the usual sort needs, from that of the soonest. [deg C days]"""
    usual, early = view.number("days_to_maturity"), view.number("days_early")
    return soonest * max(usual / early, 1.0) if usual and early else soonest


def _grows_on_in_spring(view: PlantingView, zone: str) -> bool:
    """Whether it is a crop that is started in autumn for the spring, where it lives through the winter."""
    cold, bears = zone_minimum(zone), view.number("least_night_temperature")
    if view.planting.crop not in _FOR_SPRING or cold is None or bears is None:
        return False
    return bears <= cold + BEARS


def _slow_and_hardy(view: PlantingView) -> bool:
    """Whether it is an annual of the open that stands frost and grows slowly, and has no autumn window."""
    if view.tender or view.stays_for_years or view.sheltered or view.manure or view.crop is None:
        return False
    days = days_on_plot(view.number, view.crop, view.dates.start, view.planting.state)
    return days is not None and SLOW <= days < LONG_CROP and view.number("autumn_from") is None


def _after_frost(view: PlantingView, on: dt.date, frost: dt.date) -> str:
    return say_count(
        "{planting} starts on {day}, {count} day after the first autumn frost ({frost}): it stays small",
        "{planting} starts on {day}, {count} days after the first autumn frost ({frost}): it stays small",
        (on - frost).days,
        planting=view.name,
        day=view.day(on),
        frost=view.day(frost),
    )


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


def _start_sooner(plan: Plan, key: str) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    yield other_start(view, range(-1, -MOST_TRIED, -1), _more_to_grow)
    yield fixes.remove(view, say("no ground is lost to what stays small"))


def _more_to_grow(days: int) -> str:
    return say_count(
        "{count} day more to grow before the cold", "{count} days more to grow before the cold", -days
    )


# -- small bulbs ---------------------------------------------------------------------------------


def judge_small_bulbs(view: PlantingView, first: dt.date, outside: UsualWeather | None) -> Finding | None:
    """Report cloves planted so late in spring that long days ripen them before they have grown.

    Parameters
    ----------
    view : PlantingView
    first : date
        First harvest.
    outside : UsualWeather, optional
        The usual weather of the garden.
    """
    days, on, swells = (
        view.number("days_to_maturity") or 0,
        view.span.first,
        view.number("day_length_to_bulb"),
    )
    if view.dates.start not in LIFTED or view.dates.stays_for_years or days < LONG_CROP:
        return None
    if outside is None or swells is None or outside.hours_on(on) <= swells + GROWING_DAYS:
        return None
    text = say(
        "{planting} is planted on {day}, when days are {hours} h long; from {least} h on its bulbs swell, so they stay small, or "
        "do not part into cloves",
        planting=view.name,
        day=view.day(on),
        hours=number_words(outside.hours_on(on), 1),
        least=number_words(swells, 1),
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        say(_RULE_SMALL),
        view.source("day_length_to_bulb"),
        [str(on)],
        Span(on, first),
        topic="small",
        candidates=lambda plan: _in_autumn(plan, view.id),
    )


def _more_before_midsummer(days: int) -> str:
    return say_count(
        "{count} day more to grow before midsummer", "{count} days more to grow before midsummer", -days
    )


def _in_autumn(plan: Plan, key: str) -> Iterator[Candidate]:
    planting = plan.garden.plantings_by_id[key]
    view = planting_view(plan, planting)
    yield Fix(
        say("Plant {crop} in autumn", crop=view.crop_name),
        say("it roots before winter and has all spring to grow"),
        fixes.changed(planting, timing="autumn", first=None, last=None, pinned_dates=PinnedDates()),
    )
    yield other_start(view, range(-1, -MOST_TRIED, -1), _more_before_midsummer)
    yield fixes.remove(view, say("no ground is lost to small bulbs"))
