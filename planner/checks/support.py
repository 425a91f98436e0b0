"""Support: climbers without one, supports too low or of the wrong kind, and supports in a bad place."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix, Severity
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.support_phrases import CANNOT_HOLD_ON, CLIMBS, GIVE, TOO_LOW, WOULD_HOLD
from planner.checks.support_place import check_places
from planner.crops.neighbours import genus
from planner.garden import Structure, Support
from planner.garden.planting import SupportKind
from planner.garden.units import show_length
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import capital, later, say

CHECK = "support"
#: Least height at which plants that do not climb lean without a support. [m]
TALL = 1.2
#: Least height of a climber's support, as a share of the plants' height (practice).
LOW_CLIMBER = 0.75
#: The same for plants that are tied to a stake or grow in a cage (practice).
LOW_STAKE = 0.6
#: The same for all others (practice).
LOW = 0.5
#: Climbers that do well on the ground too, by genus (practice).
_TRAILERS = ("Cucumis", "Cucurbita")
#: Least ground per plant on which such climbers are meant to run over the ground (practice). [m2]
ROOM_TO_RUN = 0.5
#: Climbers with tendrils, which need thin wood or net, by genus (practice).
_TENDRILS = ("Pisum", "Lathyrus", "Cucumis", "Cucurbita")
#: Climbers with twining stems, which need something upright, by genus (practice).
_TWINERS = ("Phaseolus", "Vigna")
#: Kinds of support that climbers of a genus cannot hold on to (practice).
_WRONG: dict[str, tuple[SupportKind, ...]] = {
    **dict.fromkeys(_TENDRILS, ("stake", "tower")),
    **dict.fromkeys(_TWINERS, ("cage",)),
}
#: Crops that bean stems may climb (practice).
POLES = ("flour_corn", "popcorn", "sorghum", "sunflower", "sweet_corn")
#: Days such a crop must have grown before the climber begins (practice). [days]
AHEAD = 14
#: Height of a new support if the crop's height is unknown. [m]
USUAL_HEIGHT = 1.8
#: Step to which the height of a new support is rounded up. [m]
STEP = 0.1

_RULE = later("What climbs needs something to climb, as high as it grows")


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plants that need a support and have none, or one too low, of the wrong kind or in a bad place."""
    plan = context.plan
    for view in context.views:
        inputs = SupportInputs(view, plan.arch_of(view.planting), _poles(context, view))
        found = plan.cached(judge_support, view.id, inputs)
        if found is not None:
            yield found
    yield from check_places(context)


def _poles(context: CheckContext, view: PlantingView) -> tuple[str, ...]:
    """Ids of upright plantings on the ground of a climber, begun before it: it climbs them (practice)."""
    if view.crop is None or view.crop.growth_form != "climber":
        return ()
    return tuple(
        other.id
        for planting in context.plan.in_bed(view.bed)
        if planting.crop in POLES
        and (planting.shares_ground or view.planting.shares_ground)
        and (other := context.by_id.get(planting.id)) is not None
        and other.plot.intersects(view.plot)
        and (view.span.first - other.span.first).days >= AHEAD
        and other.span.holds(view.span.first)
    )


class SupportInputs(NamedTuple):
    """A planting and what it may climb.

    Attributes
    ----------
    view : PlantingView
    arch : Structure or None
        The arch that is drawn beside it.
    poles : tuple of str
        Ids of plantings that it climbs.
    """

    view: PlantingView
    arch: Structure | None
    poles: tuple[str, ...]


@fact("support")
def judge_support(inputs: SupportInputs) -> Finding | None:
    """The finding about the support of a planting; None if it has a good one, or needs none."""
    view, arch, poles = inputs
    wanted = view.wanted_support
    if wanted is None or view.crop is None or not view.placed.plants or view.manure:
        return None
    climbs = view.crop.growth_form == "climber"
    support = view.planting.support
    if support is not None:
        return _judge_kind(view, support, wanted, climbs) or _judge_height(view, support, climbs)
    if climbs and (arch is not None or poles):
        return None
    if _trails(view) and view.placed.area >= ROOM_TO_RUN * view.placed.plants:
        return None
    return _judge_missing(view, wanted, climbs)


def _trails(view: PlantingView) -> bool:
    """Whether a planting does well on the ground too."""
    return view.crop is not None and genus(view.crop.latin) in _TRAILERS


def _judge_missing(view: PlantingView, wanted: SupportKind, climbs: bool) -> Finding | None:
    """The finding about a planting without a support; None if it is too low to need one."""
    height = view.number("height")
    if not climbs and (height is None or height < TALL):
        return None
    if height is None:
        grows = say("{planting} climbs and has no support", planting=view.name)
    elif climbs:
        grows = say(
            "{planting} climbs {height} high and has no support",
            planting=view.name,
            height=show_length(height, view.units),
        )
    else:
        grows = say(
            "{planting} grows {height} high and has no support",
            planting=view.name,
            height=show_length(height, view.units),
        )
    text = say("{grows}; {help}", grows=grows, help=say(WOULD_HOLD[wanted]))
    severity: Severity = "mind" if climbs and not _trails(view) else "note"
    return _support_finding(view, severity, text, [wanted], "none", wanted)


def _judge_kind(view: PlantingView, support: Support, wanted: SupportKind, climbs: bool) -> Finding | None:
    """The finding about a support that a planting cannot hold on to."""
    if view.crop is None or support.kind not in _WRONG.get(genus(view.crop.latin), ()):
        return None
    text = say(
        "{cannot}; {climbs}",
        cannot=say(CANNOT_HOLD_ON[support.kind], planting=view.name),
        climbs=say(CLIMBS[wanted]),
    )
    return _support_finding(view, "mind" if climbs else "note", text, [support.kind], "kind", wanted)


def _judge_height(view: PlantingView, support: Support, climbs: bool) -> Finding | None:
    """The finding about a support that is too low for its plants."""
    height = view.number("height")
    share = LOW_CLIMBER if climbs else LOW_STAKE if support.kind in ("stake", "cage") else LOW
    if height is None or support.height >= height * share - 1e-6:
        return None
    text = say(
        TOO_LOW[support.kind],
        planting=view.name,
        height=show_length(height, view.units),
        support=show_length(support.height, view.units),
    )
    severity: Severity = "mind" if climbs else "note"
    return _support_finding(view, severity, text, [support.height, height], "low", support.kind)


def _support_finding(
    view: PlantingView, severity: Severity, text: str, facts: list[str | float], topic: str, kind: SupportKind
) -> Finding:
    """A finding about the support of a planting, with a support of a kind as its fix."""
    return planting_finding(
        CHECK,
        severity,
        (view,),
        capital(text),
        say(_RULE),
        view.source("support"),
        facts,
        topic=topic,
        candidates=lambda plan: _give_support(plan, view.id, kind),
    )


def _give_support(plan: Plan, key: str, kind: SupportKind) -> Iterator[Fix]:
    """Give a planting of an id a support of a kind, as high as it grows."""
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    height = view.number("height") or USUAL_HEIGHT
    high = math.ceil(height / STEP - 1e-9) * STEP
    support = Support(kind=kind, height=round(high, 2))
    yield Fix(
        say(GIVE[kind], height=show_length(support.height, view.units)),
        say("as high as it grows"),
        fixes.changed(view.planting, support=support),
    )
