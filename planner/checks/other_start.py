"""Another day for the start of a planting: the first on which no check of the planting itself has a word against it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from planner.checks import bolting, frost, season, soil
from planner.checks.frame import fixes
from planner.checks.frame.finding import Candidate, Finding, Fix, OtherStart
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import outside_weather, weather_inputs
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.usual_weather import UsualWeather

#: Days that are offered of one search, and how far they lie apart: what else stands on the ground may rule one out.
MOST_OFFERED = 3
STEP = 7

#: A check and its topic.
_Word = tuple[str, str]
#: What is said of a planting whenever it starts.
WHENEVER: frozenset[_Word] = frozenset({(frost.CHECK, "winter")})


def alternatives(plan: Plan, finding: Finding, candidate: Candidate) -> Iterator[Fix]:
    """The edits of which the first that helps is offered: a fix itself, of a search for another start the days it found.

    Parameters
    ----------
    plan : Plan
    finding : Finding
    candidate : Fix or OtherStart
    """
    if isinstance(candidate, OtherStart):
        yield from _good_starts(plan, finding, candidate)
    else:
        yield candidate


def with_other_starts(plan: Plan, finding: Finding, candidates: Iterable[Candidate]) -> Iterator[Fix]:
    """Candidates of a finding, in which each search for another start has become the first day that it found.

    Parameters
    ----------
    plan : Plan
    finding : Finding
    candidates : iterable of Fix or OtherStart
    """
    for one in candidates:
        first = next(alternatives(plan, finding, one), None)
        if first is not None:
            yield first


def _good_starts(plan: Plan, finding: Finding, wanted: OtherStart) -> Iterator[Fix]:
    """Fixes that start a planting on another day, on which nothing is said against it but what no day changes."""
    view = planting_view(plan, plan.garden.plantings_by_id[wanted.planting])
    trial, outside = plan.what_if(plan.garden), outside_weather(plan)
    always = words_against(trial, view, outside) & WHENEVER - {(finding.check, finding.topic)}
    good: list[int] = []
    for days in wanted.days:
        if good and abs(days - good[-1]) < STEP:
            continue
        moved = _moved(plan, trial, view, days)
        against = words_against(trial, moved, outside) if moved is not None else None
        if against is None or not against <= always:
            continue
        good.append(days)
        yield fixes.start_on(view, shift(view.span.first, days), wanted.gain(days))
        if len(good) >= MOST_OFFERED:
            return


def _moved(plan: Plan, trial: Plan, view: PlantingView, days: int) -> PlantingView | None:
    """A planting started so many days later; None where that contradicts its other dates."""
    fix = fixes.start_on(view, shift(view.span.first, days), "")
    try:
        planting = fix.apply(plan.garden).plantings_by_id[view.id]
    except BedwrightError:
        return None
    dates, span = trial.dates(planting), trial.span_of(planting)
    return replace(view, planting=planting, dates=dates, span=span)


def objection(plan: Plan, garden: Garden, key: str) -> Finding | None:
    """What the checks of a planting itself have against its days in an edited garden, but for what no day changes.

    Parameters
    ----------
    plan : Plan
        Before the edit.
    garden : Garden
        The edited one.
    key : str
        Id of the planting.
    """
    trial = plan.what_if(garden)
    view = planting_view(trial, garden.plantings_by_id[key])
    found = said_against(trial, view, outside_weather(trial))
    return next((one for one in found if (one.check, one.topic) not in WHENEVER), None)


def words_against(plan: Plan, view: PlantingView, outside: UsualWeather | None) -> set[_Word]:
    """Checks and topics that have a word against the days of a planting.

    Parameters
    ----------
    plan, view, outside
        As in :func:`said_against`.
    """
    return {(one.check, one.topic) for one in said_against(plan, view, outside)}


def said_against(plan: Plan, view: PlantingView, outside: UsualWeather | None) -> list[Finding]:
    """Findings of the checks of frost, season, soil and bolting about the days of a planting.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    outside : UsualWeather, optional
        The usual weather of the garden.
    """
    found: list[Finding] = [*frost.frost_findings.work(weather_inputs(plan, view, outside))]
    if not view.stays_for_years:
        found += season.season_findings.work(weather_inputs(plan, view, outside))
    if outside is not None and not outside.rough:
        found += soil.soil_findings.work(soil.SoilInputs(view, outside))
    found += bolting.bolting_findings.work(bolting.bolting_inputs(plan, view, outside))
    return found
