"""Light: less direct sun than a crop needs, and what takes it.

Sun taken by structures, or by several things together, is reported of the planting that lacks it.  A planting
that alone takes what others lack is reported itself, with all of them: it could grow elsewhere.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import shapely
import shapely.ops

from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import SEVERITIES, Finding, Severity
from planner.checks.frame.phrases import significant
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.checks.light_fixes import move_into_light
from planner.checks.light_known import KnownLight
from planner.checks.light_lack import WORTH, Lack
from planner.garden.beds import StructureKind
from planner.ground.shapes import plan_polygon
from planner.light import PlaceError, Shade
from planner.plan import Plan
from planner.season.spans import Span
from planner.words import capital, join_list, later, number_words, percent, say

CHECK = "light"
#: Least loss whose cause is named. [h]
NAMED = 0.25

#: Structures without a name, by the eighth of the compass in which they stand, from the north by the east.
_AT_SIDE = (
    later("{structure} to the north"),
    later("{structure} to the north-east"),
    later("{structure} to the east"),
    later("{structure} to the south-east"),
    later("{structure} to the south"),
    later("{structure} to the south-west"),
    later("{structure} to the west"),
    later("{structure} to the north-west"),
)
_STRUCTURES: dict[StructureKind, str] = {
    "wall": later("wall"),
    "fence": later("fence"),
    "hedge": later("hedge"),
    "tree": later("tree"),
    "shed": later("shed"),
    "glasshouse": later("glasshouse"),
    "tunnel": later("tunnel"),
    "arch": later("arch"),
    "board": later("board"),
    "path": later("path"),
    "gate": later("gate"),
    "tap": later("tap"),
    "compost": later("compost"),
    "lawn": later("lawn"),
    "other": later("other"),
}
_RULE = later("A planting has the direct sun its crop needs, on the mean of its days")


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings with less direct sun than their crop needs, and plantings that alone take it from others.

    Nothing is reported while the garden's latitude is not given.
    """
    try:
        known = _known_light(context)
    except PlaceError:
        return
    plan = context.plan
    by_shading: dict[str, list[Lack]] = {}
    for lack in known.lacks:
        shading = _only_shading(lack, plan)
        if shading is None:
            yield _lack_finding(lack, plan)
        else:
            by_shading.setdefault(shading, []).append(lack)
    for key, lacks in by_shading.items():
        yield _shading_finding(planting_view(plan, plan.garden.plantings_by_id[key]), lacks)


def _known_light(context: CheckContext) -> KnownLight:
    """What is known of the light of the plan, followed from before an edit or worked out."""
    known = context.kept.get(CHECK)
    if not isinstance(known, KnownLight):
        known = context.kept[CHECK] = KnownLight.of(context.plan)
    return known


def _only_shading(lack: Lack, plan: Plan) -> str | None:
    """Id of the planting without which another would have enough sun; None if there is none, or more is wrong."""
    for shade in lack.shades:
        planting = plan.garden.plantings_by_id.get(shade.key)
        if planting is not None and plan.span_of(planting).meets(plan.span):
            worth = shade.hours >= WORTH and lack.has + shade.hours >= lack.wanted
            return shade.key if worth else None
    return None


# -- a planting that lacks sun --------------------------------------------------------------------


def _lack_finding(lack: Lack, plan: Plan) -> Finding:
    view, named = lack.view, [shade for shade in lack.shades if shade.hours >= NAMED]
    text = _lack_words(lack)
    if named:
        text = say("{lack}; {cause}", lack=text, cause=_cause_words(plan, lack, named))
    keys = [shade.key for shade in named]
    return planting_finding(
        CHECK,
        lack.severity,
        (view,),
        capital(text),
        say(_RULE),
        view.source("sun_hours"),
        [round(lack.hours, 1), lack.need, *keys],
        lack.days,
        candidates=lambda plan: move_into_light(plan, [view.id], keys),
        structures=[key for key in keys if key in plan.garden.structures_by_id],
    )


def _lack_words(lack: Lack) -> str:
    """How much sun a planting has and needs."""
    hours = number_words(lack.hours, 1)
    if lack.share is None:
        return say(
            "{planting} has {hours} h of direct sun a day and needs {need} h",
            planting=lack.view.name,
            hours=hours,
            need=significant(lack.need),
        )
    if lack.dark:
        return say(
            "{planting} has {hours} h of direct sun a day, but in the darkest weeks {share} of the sun of an open place "
            "(it wants {wanted} or more)",
            planting=lack.view.name,
            hours=hours,
            share=percent(lack.share),
            wanted=percent(lack.wanted_share),
        )
    return say(
        "{planting} has {hours} h of direct sun a day, but mostly while the sun is low: {share} of the sun of an open "
        "place (it wants {wanted} or more)",
        planting=lack.view.name,
        hours=hours,
        share=percent(lack.share),
        wanted=percent(lack.wanted_share),
    )


def _cause_words(plan: Plan, lack: Lack, named: Sequence[Shade]) -> str:
    """What takes the sun, the one or two that take most."""
    causes = [_shade_name(plan, shade, lack.view) for shade in named[:2]]
    if lack.share is None:
        taken = [number_words(shade.hours, 1) for shade in named]
        if len(named) == 1:
            return say("{cause} {hours} h of it taken", cause=causes[0], hours=taken[0])
        return say(
            "{first} {hours} h and {second} {less} h of it taken",
            first=causes[0],
            hours=taken[0],
            second=causes[1],
            less=taken[1],
        )
    shares = [percent(shade.hours / lack.unshaded) for shade in named]
    if len(named) == 1:
        return say("{cause} takes {share}", cause=causes[0], share=shares[0])
    return say(
        "{first} takes {share} and {second} takes {less}",
        first=causes[0],
        share=shares[0],
        second=causes[1],
        less=shares[1],
    )


def _shade_name(plan: Plan, shade: Shade, view: PlantingView) -> str:
    """What shades a planting; a structure without a name by the side on which it stands."""
    structure = plan.garden.structures_by_id.get(shade.key)
    if structure is None or structure.name:
        return shade.name
    kind, outline, middle = (
        say(_STRUCTURES[structure.kind]),
        plan_polygon(structure.outline),
        view.plot.centroid,
    )
    if outline.contains(middle):
        return say("{structure} over it", structure=kind)
    nearest = shapely.ops.nearest_points(middle, outline)[1]
    east, north = nearest.x - middle.x, nearest.y - middle.y
    bearing = (math.degrees(math.atan2(east, north)) + plan.garden.site.bearing_up) % 360
    return say(_AT_SIDE[round(bearing / 45) % 8], structure=kind)


# -- a planting that takes the sun of others ------------------------------------------------------


def _shading_finding(shading: PlantingView, lacks: Sequence[Lack]) -> Finding:
    """The finding about a planting that alone takes what some others lack."""
    taken = {lack.view.id: next(s.hours for s in lack.shades if s.key == shading.id) for lack in lacks}
    ordered = sorted(lacks, key=lambda lack: (-taken[lack.view.id], lack.view.id))
    losses = [_loss_words(lack, taken[lack.view.id], number == 0) for number, lack in enumerate(ordered)]
    keys = [lack.view.id for lack in ordered]
    severity: Severity = min((lack.severity for lack in lacks), key=SEVERITIES.index)
    days = Span(min(lack.days.first for lack in lacks), max(lack.days.last for lack in lacks))
    return planting_finding(
        CHECK,
        severity,
        (shading, *(lack.view for lack in ordered)),
        capital(say("{planting} takes {losses}", planting=shading.name, losses=join_list(losses))),
        say(_RULE),
        ordered[0].view.source("sun_hours"),
        [number for lack in ordered for number in (round(lack.hours, 1), lack.need)],
        shared(days, shading.span) or days,
        place=shapely.union_all([lack.view.plot for lack in ordered]),
        topic="takes",
        candidates=lambda plan: move_into_light(plan, keys, [shading.id]),
    )


def _loss_words(lack: Lack, taken: float, first: bool) -> str:
    """What one planting loses to another.

    Parameters
    ----------
    lack : Lack
    taken : float
        [h]
    first : bool
        Whether it is the first of a list, which says what is counted.
    """
    name, need = lack.view.name, significant(lack.need)
    if lack.share is None and first:
        return say(
            "{taken} h of direct sun a day from {planting}, which keeps {hours} h and needs {need} h",
            taken=number_words(taken, 1),
            planting=name,
            hours=number_words(lack.hours, 1),
            need=need,
        )
    if lack.share is None:
        return say(
            "{taken} h from {planting}, which keeps {hours} h and needs {need} h",
            taken=number_words(taken, 1),
            planting=name,
            hours=number_words(lack.hours, 1),
            need=need,
        )
    if lack.dark:
        return say(
            "{taken} of the sun of an open place from {planting}, which keeps {share} in the darkest weeks "
            "({hours} h; it wants {wanted} or more)",
            taken=percent(taken / lack.unshaded),
            planting=name,
            share=percent(lack.share),
            hours=number_words(lack.hours, 1),
            wanted=percent(lack.wanted_share),
        )
    return say(
        "{taken} of the sun of an open place from {planting}, which keeps {share} ({hours} h; it wants "
        "{wanted} or more)",
        taken=percent(taken / lack.unshaded),
        planting=name,
        share=percent(lack.share),
        hours=number_words(lack.hours, 1),
        wanted=percent(lack.wanted_share),
    )
