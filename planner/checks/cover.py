"""Cover: a crop covered in flower or under hoops too low for it, pests kept off by nothing, film over sown rows."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.cover_height import too_high_for_hoops
from planner.checks.cover_in_flower import covered_in_flower, leave_away
from planner.checks.cover_pests import carrot_fly_lives, judge_pests
from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView
from planner.garden import Climate
from planner.garden.units import show_spacing
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import capital, later, say

CHECK = "cover"
#: Distance in the row below which seed has no hole of its own in a film (practice). [m]
CLOSE = 0.15

_RULE_FILM = later("Film lies where plants are set through it, not over seed that comes up row by row")


class CoverInputs(NamedTuple):
    """What the judgement of one planting's covers depends on.

    Attributes
    ----------
    view : PlantingView
    climate : Climate
    southern : bool
        Whether the garden lies in the south.
    carrot_fly : bool
        Whether carrot fly may live there.
    """

    view: PlantingView
    climate: Climate
    southern: bool
    carrot_fly: bool


def check(context: CheckContext) -> Iterator[Finding]:
    """Report covers that stay on in flower or stand too low, crops that pests find uncovered, and film over sown rows."""
    plan = context.plan
    climate, southern = plan.garden.climate, plan.garden.site.southern
    carrot_fly = carrot_fly_lives(plan.garden.site)
    for view in context.views:
        inputs = CoverInputs(view, climate, southern, carrot_fly)
        yield from plan.cached(cover_findings, view.id, inputs)


@fact("cover findings")
def cover_findings(inputs: CoverInputs) -> tuple[Finding, ...]:
    """Judge the covers of one planting."""
    view = inputs.view
    if view.crop is None or not view.placed.plants:
        return ()
    found: list[Finding | None] = [*covered_in_flower(view), *too_high_for_hoops(view)]
    if view.starts_here and not view.sheltered and not view.manure:
        found.append(judge_pests(view, inputs.climate, inputs.southern, inputs.carrot_fly))
    found.append(_judge_film(view))
    return tuple(one for one in found if one is not None)


def _judge_film(view: PlantingView) -> Finding | None:
    """Report film over broadcast seed or drills, which cannot come up through it."""
    film = next((cover for cover in view.dates.covers if cover.kind == "film"), None)
    sown = view.dates.start == "sown" and view.planting.sowing != "stations"
    scattered = view.planting.arrangement.kind == "scatter"
    apart = view.placed.layout.in_row_spacing
    drilled = view.planting.sowing == "drill" or (apart is not None and apart < CLOSE)
    if film is None or not sown or not (scattered or drilled):
        return None
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(_under_film(view, None if scattered else apart, view.day(film.on.day))),
        say(_RULE_FILM),
        "practice",
        [],
        topic="film",
        candidates=lambda plan: _no_film(plan, view.id),
    )


def _under_film(view: PlantingView, apart: float | None, day: str) -> str:
    """How it is sown under film: broadcast, so close in the row, or in drills."""
    if apart is None:
        return say(
            "{planting} is broadcast, and film lies over it from {day}: it cannot come up",
            planting=view.name,
            day=day,
        )
    if apart < CLOSE:
        return say(
            "{planting} is sown {spacing} apart, and film lies over it from {day}: it cannot come up",
            planting=view.name,
            spacing=show_spacing(apart, view.units),
            day=day,
        )
    return say(
        "{planting} is sown in drills, and film lies over it from {day}: it cannot come up",
        planting=view.name,
        day=day,
    )


def _no_film(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    rest = tuple(cover for cover in planting.covers if cover.kind != "film")
    yield Fix(leave_away("film"), say("the rows come up"), fixes.changed(planting, covers=rest))
