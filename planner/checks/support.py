"""Support: a climber without one, one too low or of the wrong kind, and supports that stand badly."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

import shapely

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, bed_finding, planting_finding
from planner.checks.frame.finding import Finding, Fix, Severity
from planner.checks.frame.phrases import in_units
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.crops.neighbours import genus
from planner.garden import Structure, Support
from planner.garden import edits as e
from planner.garden.planting import SupportKind
from planner.garden.units import show_length
from planner.ground.built_support import BuiltSupport, build_arch
from planner.ground.shapes import own_polygon, plan_polygon, polygons_of
from planner.ground.support_placement import CLEAR_HEIGHT, SupportProblem, support_problems
from planner.ground.supports import built_support
from planner.plan import Plan
from planner.words import capital

CHECK = "support"
#: Other plants lean when they grow so high. [m]
TALL = 1.2
#: A support may be so much lower than the plants on it: climbers, what is tied to a stake or stands in a cage,
#: others (practice).
LOW_CLIMBER, LOW_STAKE, LOW = 0.75, 0.6, 0.5
#: Climbers that do well on the ground too (practice).
_TRAILERS = ("Cucumis", "Cucurbita")
#: Ground for each, from which on they are meant to run over it (practice). [m2]
ROOM_TO_RUN = 0.5
#: Kinds that plants cannot hold on to, by how they climb: tendrils need thin wood or net, twining
#: stems something upright (practice).
_TENDRILS = ("Pisum", "Lathyrus", "Cucumis", "Cucurbita")
_TWINERS = ("Phaseolus", "Vigna")
_WRONG: dict[str, tuple[SupportKind, ...]] = {
    **dict.fromkeys(_TENDRILS, ("stake", "tower")),
    **dict.fromkeys(_TWINERS, ("cage",)),
}
#: Crops that bear beans, and how long they must have grown before (practice). [days]
POLES, AHEAD = ("sweet_corn", "popcorn", "sunflower"), 14
#: Plants as near as this to an arch climb it. [m]
AT_THE_ARCH = 0.75
#: Ground so far around a support is looked at. [m]
AROUND = 1.5
#: The feet of a support may stand so far out of the bed: nobody stumbles over them (practice). [m]
FEET = 0.10
#: Above everything it bears a support stands so high. [m]
STEP = 0.1

_RULE = "What climbs needs something to climb, as high as it grows"


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = context.plan
    every = sorted(plan.garden.structures, key=lambda s: s.id)
    arches = tuple(s for s in every if s.kind == "arch" and s.in_use(plan.year))
    for view in context.views:
        poles = _poles(context, view)
        found = plan.once("support", view.id, (view, arches, poles), partial(_of, view, arches, poles))
        if found is not None:
            yield found
    yield from _standing_badly(context, arches)


def _wanted(view: PlantingView) -> SupportKind | None:
    entry = view.crop.support if view.crop is not None else None
    if entry is None or not entry.applies or entry.value in (None, "none"):
        return None
    return entry.value  # type: ignore[return-value]  # the catalogue checks the word


def _at_arch(view: PlantingView, arches: tuple[Structure, ...]) -> Structure | None:
    """The arch by which most of a planting's plants stand."""
    if not arches or not len(view.points):
        return None
    stations = shapely.points(view.points)
    for arch in arches:
        near = shapely.dwithin(stations, plan_polygon(arch.outline), AT_THE_ARCH)
        if 2 * int(near.sum()) >= len(near):
            return arch
    return None


def _poles(context: CheckContext, view: PlantingView) -> tuple[str, ...]:
    """Upright plants that it shares its ground with and that stand before it: it climbs them (practice)."""
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


def _of(view: PlantingView, arches: tuple[Structure, ...], poles: tuple[str, ...]) -> Finding | None:
    wanted, support, height = _wanted(view), view.planting.support, view.number("height")
    if wanted is None or not view.placed.plants or view.manure:
        return None
    assert view.crop is not None
    climbs = view.crop.growth_form == "climber"
    if support is None:
        if not climbs and (height is None or height < TALL):
            return None
        if climbs and (_at_arch(view, arches) is not None or poles):
            return None
        if _trails(view) and view.placed.area >= ROOM_TO_RUN * view.placed.plants:
            return None
        return _missing(view, wanted, height, climbs)
    if support.kind in _WRONG.get(genus(view.crop.latin), ()):
        text = f"{view.name} cannot hold on to a {support.kind}; it climbs {_said(wanted)}"
        return _found(view, "mind" if climbs else "note", text, [support.kind], "kind", wanted)
    share = LOW_CLIMBER if climbs else LOW_STAKE if support.kind in ("stake", "cage") else LOW
    if height is not None and support.height < height * share - 1e-6:
        units = view.units
        text = (
            f"{view.name} grows {show_length(height, units)} high and its {_word(support.kind)} only "
            f"{'reach' if support.kind == 'sticks' else 'reaches'} {show_length(support.height, units)}"
        )
        return _found(view, "mind" if climbs else "note", text, [support.height, height], "low", support.kind)
    return None


def _missing(view: PlantingView, wanted: SupportKind, height: float | None, climbs: bool) -> Finding:
    high = f" {show_length(height, view.units)} high" if height is not None else ""
    verb = "climbs" if climbs else "grows"
    text = f"{view.name} {verb}{high} and has no support; {_said(wanted)} would hold it"
    severity: Severity = "mind" if climbs and not _trails(view) else "note"
    return _found(view, severity, text, [wanted], "none", wanted)


def _trails(view: PlantingView) -> bool:
    """Whether it does well on the ground too."""
    return view.crop is not None and genus(view.crop.latin) in _TRAILERS


def _word(kind: str) -> str:
    return {"sticks": "pea sticks", "frame": "A-frame", "wire": "wires"}.get(kind, kind)


def _said(kind: str) -> str:
    words = {"sticks": "pea sticks", "wire": "wires", "stake": "a stake each", "cage": "a cage each"}
    return words.get(kind, f"an {kind}" if kind == "arch" else f"a {'frame' if kind == 'frame' else kind}")


def _found(
    view: PlantingView, severity: Severity, text: str, facts: list[str | float], topic: str, kind: SupportKind
) -> Finding:
    return planting_finding(
        CHECK,
        severity,
        (view,),
        capital(text),
        _RULE,
        view.source("support"),
        facts,
        topic=topic,
        candidates=lambda plan: _fixes(plan, view.id, kind),
    )


def _fixes(plan: Plan, key: str, kind: SupportKind) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    height = view.number("height") or 1.8
    high = math.ceil(height / STEP - 1e-9) * STEP
    support = Support(kind=kind, height=round(high, 2))
    yield Fix(
        f"Give it {_said(kind)}, {show_length(support.height, view.units)} high",
        "as high as it grows",
        fixes.changed(view.planting, support=support),
    )


# -- where supports stand -----------------------------------------------------------------------


def _standing_badly(context: CheckContext, arches: tuple[Structure, ...]) -> Iterator[Finding]:
    plan, least = context.plan, context.plan.garden.site.path_width
    for view in context.views:
        support = view.planting.support
        if support is None or not view.placed.plants:
            continue
        if support.kind == "arch" and _at_arch(view, arches) is not None:
            continue  # it climbs the arch that is drawn
        built = plan.once("support beyond", view.id, (view,), partial(_beyond_its_bed, view))
        if built is not None:
            near = context.grounds_near(built.over, AROUND)
            inputs = (view, near, least)
            yield from plan.once(
                "support stands", view.id, inputs, partial(_of_support, view, built, near, least)
            )
    for arch in arches:
        outline = plan_polygon(arch.outline)
        near = context.grounds_near(outline, AROUND)
        for trouble in plan.once(
            f"arch {arch.id}", "", (arch, near, least), partial(_arch_troubles, arch, near, least)
        ):
            ids = [bed.id for bed in context.beds if context.outline(bed).intersects(outline)]
            yield _of_arch(plan, arch, trouble, ids or [bed.id for bed in context.beds[:1]])


def _beyond_its_bed(view: PlantingView) -> BuiltSupport | None:
    """The support of a planting on the plan, where it does not stand wholly in its bed."""
    support = view.planting.support
    if support is None:
        return None
    own = built_support(support, view.placed.layout, view.placed.plot)
    if own.over.is_empty:  # a foot broader than its bed: there is no place for it
        return None
    if own_polygon(view.bed.outline).buffer(FEET, join_style="mitre").covers(own.over):
        return None
    return own.on_plan(view.bed.outline)


def _walkable(about: shapely.Geometry, near: tuple[shapely.Geometry, ...]) -> shapely.Geometry:
    whole = shapely.box(*about.bounds).buffer(AROUND, join_style="mitre")
    return polygons_of(shapely.difference(whole, shapely.union_all(list(near))))


def _of_support(
    view: PlantingView, built: BuiltSupport, near: tuple[shapely.Geometry, ...], least: float
) -> tuple[Finding, ...]:
    ground = plan_polygon(view.bed.outline).buffer(FEET, join_style="mitre")
    return tuple(
        planting_finding(
            CHECK,
            "mind",
            (view,),
            f"{capital(view.name)}: {in_units(trouble.text, view.units)}",
            "A support stands in its bed; only an arch crosses a path, with room to walk under it",
            "practice" if trouble.kind != "low" else "ada2010",
            [trouble.kind, round(float(trouble.where.area), 1)],
            place=trouble.where,
            topic=trouble.kind,
            candidates=lambda plan: _other_kinds(plan, view.id),
        )
        for trouble in support_problems(built, [ground], _walkable(built.over, near), least)
    )


def _arch_troubles(
    arch: Structure, near: tuple[shapely.Geometry, ...], least: float
) -> tuple[SupportProblem, ...]:
    built = build_arch(arch)
    found = support_problems(built, list(near), _walkable(built.over, near), least, clear_height=CLEAR_HEIGHT)
    return tuple(trouble for trouble in found if trouble.kind in ("low", "tight"))


def _other_kinds(plan: Plan, key: str) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    support, wanted = view.planting.support, _wanted(view)
    assert support is not None
    kinds: list[SupportKind] = [wanted] if wanted is not None else []
    for kind in (*kinds, "net", "sticks", "stake"):
        if kind != support.kind:
            yield Fix(
                f"Put up {_said(kind)} instead",
                "it stands within the bed",
                fixes.changed(view.planting, support=support.with_(kind=kind)),
            )


def _of_arch(plan: Plan, arch: Structure, trouble: SupportProblem, beds: list[str]) -> Finding:
    name = f"{arch.name}: " if arch.name else ""
    return bed_finding(
        CHECK,
        "mind",
        beds,
        capital(f"{name}{in_units(trouble.text, plan.garden.site.units)}"),
        "One walks upright under an arch, and as wide as the path",
        "ada2010" if trouble.kind == "low" else "practice",
        [arch.id, trouble.kind, arch.clear_height, arch.foot],
        plan.span,
        trouble.where,
        f"{trouble.kind} {arch.id}",
        lambda plan: _raised(plan, arch.id, trouble.kind),
        (arch.id,),
    )


def _raised(plan: Plan, key: str, kind: str) -> Iterator[Fix]:
    arch = plan.garden.structures_by_id[key]
    units = plan.garden.site.units
    if kind == "low":
        high = max(arch.height, CLEAR_HEIGHT)
        yield Fix(
            f"Raise it to {show_length(CLEAR_HEIGHT, units)} clear",
            "one walks upright under it",
            lambda garden: e.change_structure(garden, key, clear_height=CLEAR_HEIGHT, height=high),
        )
    elif arch.outline.shape == "rectangle":
        length = plan.garden.site.path_width + 2 * arch.foot + 0.01
        yield Fix(
            f"Set its feet {show_length(length, units)} apart",
            "the path keeps its width",
            lambda garden: e.change_structure(
                garden, key, outline=garden.structures_by_id[key].outline.with_(length=length)
            ),
        )
