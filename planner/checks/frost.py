"""Frost: out before spring allows, picked or left after autumn ends it, in colder winters than it bears.

Cold is that which kills it at its stage; glass and covers hold off what ``cover_effects.toml`` says, in all three.
"""

from __future__ import annotations

from collections.abc import Iterator

from planner.checks.frame.context import CheckContext
from planner.checks.frame.finding import Finding
from planner.checks.frame.odds import (
    LivedYears,
    blossom_words,
    ended_words,
    frosts_by,
    frosts_in_spring,
    taken_words,
    with_odds,
)
from planner.checks.frame.weather import WeatherInputs, outside_weather, weather_inputs
from planner.checks.frost_autumn import judge_autumn
from planner.checks.frost_blossom import judge_blossom
from planner.checks.frost_spring import judge_spring
from planner.checks.frost_winter import judge_winter
from planner.checks.odds_alone import judge_frost_in_years
from planner.plan.cache import fact

CHECK = "frost"


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings that are out before the last frost, or stay through more cold than they bear."""
    plan, outside = context.plan, outside_weather(context.plan)
    for view in context.views:
        yield from plan.cached(frost_findings, view.id, weather_inputs(plan, view, outside))


@fact("frost findings")
def frost_findings(inputs: WeatherInputs) -> tuple[Finding, ...]:
    """Judge one planting in spring, autumn and winter."""
    found = _judged(inputs)
    years = inputs.years
    if years.odds is None:
        return found
    spoken = tuple(_in_odds(one, inputs, years) for one in found)
    if any(one.topic in ("spring", "winter") for one in spoken):
        return spoken
    alone = judge_frost_in_years(inputs.view, years, inputs.southern)
    return spoken if alone is None else (*spoken, alone)


def _judged(inputs: WeatherInputs) -> tuple[Finding, ...]:
    """What the usual year says."""
    view, frosts, outside = inputs.view, inputs.frosts, inputs.outside
    if view.crop is None or view.crop.hardiness is None or frosts.frost_free:
        return ()
    annual = view.starts_here and not view.stays_for_years
    found: list[Finding | None] = []
    if annual and view.dates.start != "standing":
        found.append(judge_spring(view, frosts, outside))
    winter = judge_winter(view, inputs.zone, inputs.southern)
    if annual and winter is None and not (view.tender and view.sheltered):
        found.append(judge_autumn(view, frosts, outside, inputs.zone))
    if view.stays_for_years:
        found.append(judge_blossom(view, frosts, outside))
    found.append(winter)
    return tuple(one for one in found if one is not None)


def _in_odds(finding: Finding, inputs: WeatherInputs, years: LivedYears) -> Finding:
    """A finding with what the recorded years say of it."""
    lived, odds, view = years.lived, years.odds, inputs.view
    assert lived is not None
    assert odds is not None
    if finding.topic == "blossom":
        return with_odds(finding, years, blossom_words(odds.frost, odds.years), odds.frost)
    if finding.topic == "autumn":
        ended = frosts_by(lived, finding.span.last)
        return with_odds(finding, years, ended_words(ended, odds.years), None)
    if view.stays_for_years or view.dates.on_plot is None:
        return finding  # whether its roots live is not worked out
    if finding.topic == "spring":
        lost = frosts_in_spring(lived, view.dates.on_plot.day, inputs.southern)
        only_warm_nights = view.tender and not view.tender_shoots and lost == 0
        return with_odds(finding, years, taken_words(lost, odds.years), None if only_warm_nights else lost)
    return with_odds(finding, years, taken_words(odds.frost, odds.years), odds.frost)
