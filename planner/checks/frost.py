"""Frost: out before spring allows, picked or left after autumn ends it, in colder winters than it bears.

Cold is that which kills it at its stage; glass and covers hold off what ``cover_effects.toml`` says, in all three.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame.context import CheckContext
from planner.checks.frame.finding import Finding
from planner.checks.frame.planting_view import PlantingView
from planner.checks.frame.weather import outside_weather
from planner.checks.frost_autumn import judge_autumn
from planner.checks.frost_blossom import judge_blossom
from planner.checks.frost_spring import judge_spring
from planner.checks.frost_winter import judge_winter
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.frosts import Frosts
from planner.season.usual_weather import UsualWeather

CHECK = "frost"


class FrostInputs(NamedTuple):
    """What the judgement of one planting depends on.

    Attributes
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    outside : UsualWeather or None
        The usual weather of the garden.
    zone : str
        USDA hardiness zone of the garden; may be empty.
    southern : bool
        Whether the garden lies in the south.
    """

    view: PlantingView
    frosts: Frosts
    outside: UsualWeather | None
    zone: str
    southern: bool


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings that are out before the last frost, or stay through more cold than they bear."""
    plan, outside = context.plan, outside_weather(context.plan)
    for view in context.views:
        yield from plan.cached(frost_findings, view.id, inputs_of(plan, view, outside))


def inputs_of(plan: Plan, view: PlantingView, outside: UsualWeather | None) -> FrostInputs:
    """What the judgement of a planting depends on.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
    outside : UsualWeather, optional
        Of the garden.
    """
    garden = plan.garden
    frosts = plan.frosts(view.planting.year)
    return FrostInputs(view, frosts, outside, garden.climate.zone, garden.site.southern)


@fact("frost findings")
def frost_findings(inputs: FrostInputs) -> tuple[Finding, ...]:
    """Judge one planting in spring, autumn and winter."""
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
