"""Season, where the autumn frost comes first: started after it, ripe after it, or ripe only as it comes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Candidate, Finding, Fix
from planner.checks.frame.fixes import other_start
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import cold_from
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.season.frosts import Frosts, shift
from planner.season.practice import LIGHT_FROST
from planner.season.spans import Span
from planner.season.usual_weather import UsualWeather
from planner.words import capital, later, say, say_count

CHECK = "season"
#: Days from a start to the next spring frost from which a winter lies between them. [days]
WINTER = 100
#: Days before a start in which the autumn frost that it follows is looked for. [days]
AUTUMN_BEFORE = 200
#: Days ripe too late from which a planting fails rather than suffers. [days]
CLOSE = 14
#: Crops that give all they have in the last warmth, besides those that are harvested at once (practice).
_ALL_AT_THE_END = ("melon", "okra", "peanut", "sweet_potato", "watermelon")
#: Days before the frost from which they are sure to be ripe (practice). [days]
BARELY = 14
#: Most days sooner that are tried. [days]
MOST_TRIED = 150
#: Days to maturity of a crop without a figure. [days]
USUAL_DAYS = 60

_RULE = later("A crop ripens before the first autumn frost, or so soon after it as it can bear")


def _frost_kills(view: PlantingView) -> bool:
    return view.tender and not view.sheltered


# -- started after the frost ---------------------------------------------------------------------


def judge_start_in_frost(view: PlantingView, frosts: Frosts) -> Finding | None:
    """Report a tender planting that starts after the autumn frost, with the winter still before it.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    """
    start = view.span.first
    spring, autumn = frosts.last_after(start), frosts.first_after(start)
    if not _frost_kills(view) or spring is None or autumn is None or spring > autumn:
        return None
    frost = frosts.first_after(shift(start, -AUTUMN_BEFORE))
    if frost is None or (spring - start).days < WINTER:
        return None
    late = (start - frost).days
    text = say_count(
        "{planting} starts on {day}, {count} day after the first autumn frost ({frost}, risk {risk} %), and frost kills it",
        "{planting} starts on {day}, {count} days after the first autumn frost ({frost}, risk {risk} %), and frost kills it",
        late,
        planting=view.name,
        day=view.day(start),
        frost=view.day(frost),
        risk=frosts.risk,
    )
    wait = late + round(view.number("days_to_maturity") or USUAL_DAYS)
    return planting_finding(
        CHECK,
        "stop",
        (view,),
        capital(text),
        say(_RULE),
        view.source("hardiness"),
        [str(start), str(frost)],
        Span(start, view.span.last),
        topic="frost",
        candidates=lambda plan: _start_sooner(plan, view.id, wait),
    )


# -- ripe after the frost ------------------------------------------------------------------------


def judge_ripe_after_frost(view: PlantingView, frosts: Frosts, first: dt.date) -> Finding | None:
    """Report a planting whose first harvest comes later after the autumn frost than it bears.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    first : date
        First harvest.
    """
    frost = frosts.first_after(view.span.first)
    if frost is None or (view.dates.ripens and not (_frost_kills(view) and first > frost)):
        return None
    late = (first - frost).days
    wait = late if view.tender else late - LIGHT_FROST
    return planting_finding(
        CHECK,
        "stop" if wait > CLOSE else "mind",
        (view,),
        capital(_ripe_after_frost(view, first, frost, frosts.risk)),
        say(_RULE),
        view.source("days_to_maturity"),
        [str(first), str(frost)],
        Span(min(frost, first), max(frost, first)),
        topic="frost",
        candidates=lambda plan: _start_sooner(plan, view.id, wait),
    )


def _ripe_after_frost(view: PlantingView, first: dt.date, frost: dt.date, risk: int) -> str:
    if view.tender:
        return say_count(
            "{planting} would be ripe on {day}, {count} day after the first autumn frost ({frost}, risk {risk} %), "
            "which ends it",
            "{planting} would be ripe on {day}, {count} days after the first autumn frost ({frost}, risk {risk} %), "
            "which ends it",
            (first - frost).days,
            planting=view.name,
            day=view.day(first),
            frost=view.day(frost),
            risk=risk,
        )
    return say_count(
        "{planting} would be ripe on {day}, {count} day after the first autumn frost ({frost}, risk {risk} %), "
        "which stops it within {limit} days",
        "{planting} would be ripe on {day}, {count} days after the first autumn frost ({frost}, risk {risk} %), "
        "which stops it within {limit} days",
        (first - frost).days,
        planting=view.name,
        day=view.day(first),
        frost=view.day(frost),
        risk=risk,
        limit=LIGHT_FROST,
    )


def judge_never_ripe(view: PlantingView, frosts: Frosts) -> Finding | None:
    """Report a planting that the autumn frost ends before it is ripe, where its warmth is not known by month.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    """
    frost = frosts.first_after(view.span.first)
    if view.dates.ripens or frost is None or not _frost_kills(view):
        return None
    text = say(
        "{planting} is not ripe before the first autumn frost ({frost}, risk {risk} %), which ends it",
        planting=view.name,
        frost=view.day(frost),
        risk=frosts.risk,
    )
    return planting_finding(
        CHECK,
        "mind" if view.dates.heat is not None and view.dates.heat.enough else "stop",
        (view,),
        capital(text),
        say(_RULE),
        view.source("days_to_maturity"),
        [str(view.span.first), str(frost)],
        Span(view.span.first, frost),
        topic="frost",
        candidates=lambda plan: _start_sooner(plan, view.id, 0),
    )


def judge_killed_before_ripe(
    view: PlantingView, frosts: Frosts, outside: UsualWeather | None
) -> Finding | None:
    """Report a hardy planting that colder nights than it bears end before it can first be picked.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    outside : UsualWeather, optional
        The usual weather of the garden.
    """
    frost, bears = frosts.first_after(view.span.first), view.number("least_night_temperature")
    if view.dates.ripens or view.tender or frost is None or outside is None or bears is None:
        return None
    killed = cold_from(view, outside, bears, frost)
    if killed is None:
        return None
    text = say(
        "{planting} is killed before it can be picked: nights colder than the {temperature} that it bears are usual from {day}",
        planting=view.name,
        temperature=show_temperature(bears, view.units),
        day=view.day(killed),
    )
    return planting_finding(
        CHECK,
        "stop",
        (view,),
        capital(text),
        say(_RULE),
        view.source("least_night_temperature"),
        [str(view.span.first), str(killed)],
        Span(view.span.first, max(killed, view.span.first)),
        topic="cold",
        candidates=lambda plan: _start_sooner(plan, view.id, 0),
    )


# -- ripe only as the frost comes ----------------------------------------------------------------


def _gives_all_at_the_end(view: PlantingView) -> bool:
    ends = view.crop.harvest_ends if view.crop is not None else None
    return view.planting.crop in _ALL_AT_THE_END or (ends is not None and ends.value == "at once")


def judge_barely_ripe(view: PlantingView, frosts: Frosts, first: dt.date) -> Finding | None:
    """Report a planting that ripens in the last warmth, only days before the autumn frost.

    Parameters
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    first : date
        First harvest.
    """
    frost = frosts.first_after(view.span.first)
    if frost is None or not _frost_kills(view) or not _gives_all_at_the_end(view):
        return None
    left = (frost - first).days
    if left >= BARELY:
        return None
    text = say_count(
        "{planting} would be ripe on {day}, only {count} day before the first autumn frost ({frost}, risk {risk} %): "
        "a cool summer leaves it unripe",
        "{planting} would be ripe on {day}, only {count} days before the first autumn frost ({frost}, risk {risk} %): "
        "a cool summer leaves it unripe",
        left,
        planting=view.name,
        day=view.day(first),
        frost=view.day(frost),
        risk=frosts.risk,
    )
    return planting_finding(
        CHECK,
        "mind" if left <= BARELY / 2 else "note",
        (view,),
        capital(text),
        say(_RULE),
        view.source("days_to_maturity"),
        [str(first), str(frost)],
        Span(first, frost),
        topic="barely",
        candidates=lambda plan: _start_sooner(plan, view.id, BARELY - left - 7),
    )


# -- fixes ---------------------------------------------------------------------------------------


def _sooner(days: int) -> str:
    return say_count(
        "{count} day sooner, ripe before the frost", "{count} days sooner, ripe before the frost", -days
    )


def _start_sooner(plan: Plan, key: str, late: int) -> Iterator[Candidate]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    least = max(late, 1)
    yield other_start(view, range(-least, -least - MOST_TRIED, -1), _sooner)
    yield Fix(
        say("Count {crop} back from the first frost", crop=view.crop_name),
        say("the latest start that still ripens"),
        fixes.changed(view.planting, timing="count back", first=None, last=None),
    )
    yield fixes.remove(view, say("no ground is lost to what does not ripen"))
