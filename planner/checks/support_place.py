"""Supports and arches in a bad place: beyond their bed, across a path, too low or too narrow to walk under."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import shapely

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, bed_finding, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import in_units
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.support_phrases import PUT_UP
from planner.garden import Structure
from planner.garden import edits as e
from planner.garden.planting import SupportKind
from planner.garden.units import show_length
from planner.ground.built_support import BuiltSupport, build_arch
from planner.ground.shapes import own_polygon, plan_polygon, polygons_of
from planner.ground.support_placement import CLEAR_HEIGHT, SupportProblem, support_problems
from planner.ground.supports import built_support
from planner.plan import Plan
from planner.plan.cache import fact
from planner.words import capital, later, say

CHECK = "support"
#: Distance around a support within which ground is looked at. [m]
AROUND = 1.5
#: Distance by which the feet of a support may stand beyond the bed: nobody stumbles over them (practice). [m]
FEET = 0.10
#: Length an arch gets beyond the least, so that rounding does not undo it. [m]
SPARE = 0.01

_RULE_PLACE = later("A support stands in its bed; only an arch crosses a path, with room to walk under it")
_RULE_ARCH = later("One walks upright under an arch, and as wide as the path")


def check_places(context: CheckContext) -> Iterator[Finding]:
    """Report supports beyond their bed or across a path, and arches too low or too narrow to walk under."""
    plan, least = context.plan, context.plan.garden.site.path_width
    for view in context.views:
        support = view.planting.support
        if support is None or not view.placed.plants:
            continue
        if plan.arch_of(view.planting) is not None:
            continue  # it climbs the arch that is drawn
        built = plan.cached(support_beyond_bed, view.id, BeyondBedInputs(view))
        if built is not None:
            near = context.grounds_near(built.over, AROUND)
            yield from plan.cached(judge_place, view.id, PlaceInputs(view, built, near, least))
    for arch in context.arches:
        outline = plan_polygon(arch.outline)
        near = context.grounds_near(outline, AROUND)
        for problem in plan.cached(arch_problems, arch.id, ArchInputs(arch, near, least)):
            beds = [bed.id for bed in context.beds if context.outline(bed).intersects(outline)]
            yield _arch_finding(plan, arch, problem, beds or _first_bed(plan))


def _first_bed(plan: Plan) -> list[str]:
    """Id of the first bed of the garden, in a list that is empty if there is none."""
    return sorted(bed.id for bed in plan.beds)[:1]


# -- supports of plantings ------------------------------------------------------------------------


class BeyondBedInputs(NamedTuple):
    """A planting with a support."""

    view: PlantingView


@fact("support beyond bed")
def support_beyond_bed(inputs: BeyondBedInputs) -> BuiltSupport | None:
    """The support of a planting on the plan; None if it stands wholly in its bed."""
    view = inputs.view
    support, outline = view.planting.support, view.bed.outline
    if support is None:
        return None
    own = built_support(support, view.placed.layout, view.placed.plot)
    if own.over.is_empty:  # a foot broader than its bed: there is no place for it
        return None
    if own_polygon(outline).buffer(FEET, join_style="mitre").covers(own.over):
        return None
    return own.on_plan(outline)


class PlaceInputs(NamedTuple):
    """A planting whose support stands beyond its bed.

    Attributes
    ----------
    view : PlantingView
    built : BuiltSupport
        On the plan.
    near : tuple of shapely.Geometry
        Beds and solid structures around it, on the plan. [m]
    least : float
        Least width of a path. [m]
    """

    view: PlantingView
    built: BuiltSupport
    near: tuple[shapely.Geometry, ...]
    least: float


@fact("support place")
def judge_place(inputs: PlaceInputs) -> tuple[Finding, ...]:
    """The findings about the place of a planting's support."""
    view, built, near, least = inputs
    ground = plan_polygon(view.bed.outline).buffer(FEET, join_style="mitre")
    problems = support_problems(built, [ground], _walkable(built.over, near), least)
    return tuple(_place_finding(view, problem) for problem in problems)


def _walkable(about: shapely.Geometry, near: tuple[shapely.Geometry, ...]) -> shapely.Geometry:
    """Ground about a shape that is neither bed nor solid structure."""
    whole = shapely.box(*about.bounds).buffer(AROUND, join_style="mitre")
    return polygons_of(shapely.difference(whole, shapely.union_all(list(near))))


def _place_finding(view: PlantingView, problem: SupportProblem) -> Finding:
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        say(
            "{planting}: {problem}",
            planting=capital(view.name),
            problem=in_units(problem.text, view.units),
        ),
        say(_RULE_PLACE),
        "practice" if problem.kind != "low" else "ada2010",
        [problem.kind, round(float(problem.where.area), 1)],
        place=problem.where,
        topic=problem.kind,
        candidates=lambda plan: _put_up_another(plan, view.id),
    )


def _put_up_another(plan: Plan, key: str) -> Iterator[Fix]:
    """Change the kind of a planting's support: to the one its crop wants first."""
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    support, wanted = view.planting.support, view.wanted_support
    if support is None:
        return
    kinds: list[SupportKind] = [wanted] if wanted is not None else []
    for kind in (*kinds, "net", "sticks", "stake"):
        if kind != support.kind:
            yield Fix(
                say(PUT_UP[kind]),
                say("it stands within the bed"),
                fixes.changed(view.planting, support=support.with_(kind=kind)),
            )


# -- arches that are drawn ------------------------------------------------------------------------


class ArchInputs(NamedTuple):
    """An arch.

    Attributes
    ----------
    arch : Structure
    near : tuple of shapely.Geometry
        Beds and solid structures around it, on the plan. [m]
    least : float
        Least width of a path. [m]
    """

    arch: Structure
    near: tuple[shapely.Geometry, ...]
    least: float


@fact("arch problems")
def arch_problems(inputs: ArchInputs) -> tuple[SupportProblem, ...]:
    """What is wrong with an arch over a path: too low, or too narrow."""
    arch, near, least = inputs
    built = build_arch(arch)
    found = support_problems(built, list(near), _walkable(built.over, near), least, clear_height=CLEAR_HEIGHT)
    return tuple(problem for problem in found if problem.kind in ("low", "tight"))


def _arch_finding(plan: Plan, arch: Structure, problem: SupportProblem, beds: list[str]) -> Finding:
    """The finding about an arch between some beds.

    Parameters
    ----------
    plan : Plan
    arch : Structure
    problem : SupportProblem
    beds : list of str
        Ids of the beds at it.
    """
    key, kind = arch.id, problem.kind
    text = in_units(problem.text, plan.garden.site.units)
    if arch.name:
        text = say("{arch}: {problem}", arch=arch.name, problem=text)
    return bed_finding(
        CHECK,
        "mind",
        beds,
        capital(text),
        say(_RULE_ARCH),
        "ada2010" if kind == "low" else "practice",
        [key, kind, arch.clear_height, arch.foot],
        plan.span,
        problem.where,
        " ".join((kind, key)),
        lambda plan: _change_arch(plan, key, kind),
        (key,),
    )


def _change_arch(plan: Plan, key: str, kind: str) -> Iterator[Fix]:
    """Raise an arch of an id, or set its feet farther apart, by the kind of its problem."""
    arch = plan.garden.structures_by_id[key]
    units = plan.garden.site.units
    if kind == "low":
        high = max(arch.height, CLEAR_HEIGHT)
        yield Fix(
            say("Raise it to {height} clear", height=show_length(CLEAR_HEIGHT, units)),
            say("one walks upright under it"),
            lambda garden: e.change_structure(garden, key, clear_height=CLEAR_HEIGHT, height=high),
        )
    elif arch.outline.shape == "rectangle":
        length = plan.garden.site.path_width + 2 * arch.foot + SPARE
        yield Fix(
            say("Set its feet {distance} apart", distance=show_length(length, units)),
            say("the path keeps its width"),
            lambda garden: e.change_structure(
                garden, key, outline=garden.structures_by_id[key].outline.with_(length=length)
            ),
        )
