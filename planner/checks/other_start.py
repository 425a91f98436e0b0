"""Another day for the start of a planting: the first on which no check of the planting itself has a word against it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from planner.checks import bolting, frost, season, soil
from planner.checks.frame import fixes
from planner.checks.frame.finding import Candidate, Finding, Fix, OtherStart
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.frame.weather import outside_weather
from planner.errors import BedwrightError
from planner.plan import Plan
from planner.season.frosts import shift
from planner.season.usual_weather import UsualWeather

#: Days that are offered of one search, and how far they lie apart: what else stands on the ground may rule one out.
MOST_OFFERED = 3
STEP = 7

#: A check and its topic.
_Word = tuple[str, str]


def with_other_starts(plan: Plan, finding: Finding, candidates: Iterable[Candidate]) -> Iterator[Fix]:
    """Candidates of a finding, in which each search for another start has become the days that it found.

    Parameters
    ----------
    plan : Plan
    finding : Finding
    candidates : iterable of Fix or OtherStart
    """
    for one in candidates:
        if isinstance(one, OtherStart):
            yield from _good_starts(plan, finding, one)
        else:
            yield one


def _good_starts(plan: Plan, finding: Finding, wanted: OtherStart) -> Iterator[Fix]:
    """Fixes that start a planting on another day: of days without a word first, else of those without a new one."""
    view = planting_view(plan, plan.garden.plantings_by_id[wanted.planting])
    trial, outside = plan.what_if(plan.garden), outside_weather(plan)
    now = words_against(trial, view, outside) - {(finding.check, finding.topic)}
    good: list[int] = []
    bearable: list[int] = []
    for days in wanted.days:
        if good and abs(days - good[-1]) < STEP:
            continue
        moved = _moved(plan, trial, view, days)
        against = words_against(trial, moved, outside) if moved is not None else None
        if against is None:
            continue
        if not against:
            good.append(days)
        elif against <= now and (not bearable or abs(days - bearable[-1]) >= STEP):
            bearable.append(days)
        if len(good) >= MOST_OFFERED:
            break
    for days in (good or bearable)[:MOST_OFFERED]:
        yield fixes.start_on(view, shift(view.span.first, days), wanted.gain(days))


def _moved(plan: Plan, trial: Plan, view: PlantingView, days: int) -> PlantingView | None:
    """A planting started so many days later; None where that contradicts its other dates."""
    fix = fixes.start_on(view, shift(view.span.first, days), "")
    try:
        planting = fix.apply(plan.garden).plantings_by_id[view.id]
    except BedwrightError:
        return None
    dates, span = trial.dates(planting), trial.span_of(planting)
    return replace(view, planting=planting, dates=dates, span=span)


def words_against(plan: Plan, view: PlantingView, outside: UsualWeather | None) -> set[_Word]:
    """Checks and topics that have a word against the days of a planting.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    outside : UsualWeather, optional
        The usual weather of the garden.
    """
    found: list[Finding] = [*frost.frost_findings.work(frost.inputs_of(plan, view, outside))]
    if not view.stays_for_years:
        found += season.season_findings.work(season.inputs_of(plan, view, outside))
    if outside is not None and not outside.rough:
        found += soil.soil_findings.work(soil.SoilInputs(view, outside))
    found += bolting.bolting_findings.work(bolting.BoltingInputs(view, outside))
    return {(one.check, one.topic) for one in found}
