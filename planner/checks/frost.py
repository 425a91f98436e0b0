"""Frost: out before spring allows, picked or left after autumn ends it, in colder winters than it bears.

Glass and covers that keep the cold off count in all three.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame.context import CheckContext
from planner.checks.frame.finding import Finding
from planner.checks.frame.planting_view import PlantingView
from planner.checks.frost_autumn import judge_autumn
from planner.checks.frost_spring import judge_spring
from planner.checks.frost_winter import judge_winter
from planner.plan.cache import fact
from planner.season.frosts import Frosts

CHECK = "frost"


class FrostInputs(NamedTuple):
    """What the judgement of one planting depends on.

    Attributes
    ----------
    view : PlantingView
    frosts : Frosts
        Of the growing year it belongs to.
    zone : str
        USDA hardiness zone of the garden; may be empty.
    southern : bool
        Whether the garden lies in the south.
    """

    view: PlantingView
    frosts: Frosts
    zone: str
    southern: bool


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings that are out before the last frost, or stay through more cold than they bear."""
    plan = context.plan
    zone, southern = plan.garden.climate.zone, plan.garden.site.southern
    for view in context.views:
        inputs = FrostInputs(view, plan.frosts(view.planting.year), zone, southern)
        yield from plan.cached(frost_findings, view.id, inputs)


@fact("frost findings")
def frost_findings(inputs: FrostInputs) -> tuple[Finding, ...]:
    """Judge one planting in spring, autumn and winter."""
    view, frosts = inputs.view, inputs.frosts
    if view.crop is None or view.crop.hardiness is None or frosts.frost_free:
        return ()
    annual = view.starts_here and not view.stays_for_years
    found: list[Finding | None] = []
    if annual and view.dates.start != "standing":
        found.append(judge_spring(view, frosts))
    if annual and view.tender and not view.sheltered:
        found.append(judge_autumn(view, frosts))
    found.append(judge_winter(view, inputs.zone, inputs.southern))
    return tuple(one for one in found if one is not None)
