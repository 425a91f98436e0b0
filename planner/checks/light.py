"""Light: less direct sun than a crop needs, and what takes it.

What the sky and fixed things take is told of the planting that lacks it; a planting that alone takes
what others lack is told of itself, with all it takes it from: it could stand elsewhere.

All plantings are looked at roughly, on days that they share; those near their need are measured.
Every measure is kept in the plan until something else shades the planting (:mod:`planner.light.survey`).
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import shapely
import shapely.ops

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix, Severity
from planner.checks.frame.planting_view import PlantingView, planting_view, shared
from planner.ground.shapes import plan_polygon
from planner.light import (
    Caster,
    Place,
    PlaceError,
    Receiver,
    Shade,
    SunHours,
    common_days,
    sample_days,
    shade_sources,
)
from planner.plan import Plan
from planner.plan.cache import fact
from planner.plan.light import receiver_of, sun_hours
from planner.season.spans import Span
from planner.words import capital, join_list

CHECK = "light"
#: What stands so long [days] may lack sun for a part of its time that the mean hides: it is told of the darkest such
#: part, where less than DARK is left (practice).
LONG, DARKEST, DARK = 60, 0.4, 0.4
#: Hours nearer to the need than this are not said: the sky is not that exact. [h]
SLACK = 0.5
#: So many days stand for the days of a planting.
SAMPLES = 5
#: Fewer days in the lighter half of the year are not judged: needs are those of growing plants. [days]
LEAST_DAYS = 21
#: What takes less than this is not named. [h]
NAMED = 0.25
#: What takes less than this from another is no reason to stand elsewhere. [h]
WORTH = 1.0
#: What needs so much wants full sun [h]: then it is also told where less than this share of the day's sun is left,
#: weighed by its height, for long summer days have hours of low sun that do little (practice).
FULL_SUN, HALF = 6.0, 0.5
#: Fruit that needs so much [h] ripens poorly with less than this share (practice).
FRUIT_SUN, MOST = 8.0, 0.65
#: A lack greater than this makes a planting suffer. [h]
GRAVE = 2.0

#: Days from one sample of the coarse pass to the next.
ROUGH_DAYS = 20
#: A first look is so exact: a planting farther above its need than this is not measured. [h]
ROUGH = 0.75
#: And so exact in the share of the day's sun, and in that of the darkest days, which it takes other days for.
ROUGH_SHARE, ROUGH_DARKEST = 0.08, 0.2

_SIDES = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")
_RULE = "A planting has the direct sun its crop needs, on the mean of its days"


@dataclass(frozen=True, eq=False)
class Lack:
    """A planting with less direct sun than it needs.

    Attributes
    ----------
    view : PlantingView
    days : Span
        On which it is judged.
    mean, need, enough, unshaded : float
        Hours a day it has, its crop needs, below which it is told, and that there are. [h]
    share : float or None
        Of the day's sun weighed by its height, where it is that which is too little; then ``mean`` and
        ``enough`` are weighed hours.
    dark : bool
        Whether that is its share in the darkest part of its days, not in all of them.
    hours : float
        Hours a day it has, plain. [h]
    taken : tuple of Shade
        What takes sun from it, the most first.
    """

    view: PlantingView
    days: Span
    mean: float
    need: float
    enough: float
    unshaded: float
    taken: tuple[Shade, ...]
    hours: float
    share: float | None = None
    dark: bool = False

    @property
    def severity(self) -> Severity:
        """Whether it will suffer."""
        return "mind" if self.hours < self.need - GRAVE else "note"


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan; none while the garden's latitude is not known."""
    try:
        place = context.plan.place
    except PlaceError:
        return
    lacks = _lacks(context.plan, place, context.views)
    by_taker: dict[str, list[Lack]] = {}
    for lack in lacks:
        taker = _only_taker(lack, context)
        if taker is None:
            yield _of_lack(lack, context.plan)
        else:
            by_taker.setdefault(taker, []).append(lack)
    for key, shaded in by_taker.items():
        yield _of_taker(context.by_id[key], shaded)


def growing_days(plan: Plan, view: PlantingView) -> Span | None:
    """Its days of the growing year in the lighter half of the year; None where those are too few to judge."""
    southern = plan.garden.site.southern
    found: list[Span] = []
    for year in range(plan.span.first.year - 1, plan.span.last.year + 1):
        first, last = (
            (dt.date(year, 9, 23), dt.date(year + 1, 3, 21))
            if southern
            else (dt.date(year, 3, 21), dt.date(year, 9, 22))
        )
        light = shared(Span(first, last), plan.span)
        days = shared(light, view.span) if light is not None else None
        if days is not None and days.days >= LEAST_DAYS:
            found.append(days)
    return max(found, key=lambda days: days.days, default=None)


# -- measuring -----------------------------------------------------------------------------------


def _mates(plan: Plan, view: PlantingView) -> tuple[str, ...]:
    """Plantings on its own ground: meant there, their shade is meant too, and told by ``overlap`` where they are not."""
    return tuple(
        other.id
        for other in plan.in_bed(view.bed)
        if other.id != view.id
        and shared(view.span, plan.span_of(other)) is not None
        and view.placed.plot.intersects(plan.placed(other).plot)
    )


class Measure(NamedTuple):
    """How closely light is measured.

    Attributes
    ----------
    step : float
        [min]
    cell : float
        Side of the cells, at most. [m]
    """

    step: float
    cell: float


COARSE, FULL = Measure(30, 0.30), Measure(10, 0.10)


def _receiver(plan: Plan, view: PlantingView) -> Receiver:
    """A planting as what light falls on; what grows on its own ground does not count."""
    return receiver_of(plan, view.planting, _mates(plan, view))


def measured(plan: Plan, judged: Iterable[tuple[PlantingView, Span]]) -> dict[str, SunHours]:
    """Light of some plantings over some of their days, fully measured.

    Parameters
    ----------
    plan : Plan
    judged : iterable of (PlantingView, Span)
    """
    return sun_hours(
        plan, [(_receiver(plan, view), sample_days(span, SAMPLES)) for view, span in judged], *FULL
    )


def coarsely_measured(plan: Plan, judged: Iterable[tuple[PlantingView, Span]]) -> dict[str, SunHours]:
    """Light of some plantings over some of their days, on days that they share: off by :data:`ROUGH` at most.

    Parameters
    ----------
    plan : Plan
    judged : iterable of (PlantingView, Span)
    """
    wanted = [(_receiver(plan, view), common_days(span, ROUGH_DAYS)) for view, span in judged]
    return sun_hours(plan, wanted, *COARSE)


class ShadeInputs(NamedTuple):
    """What the shade on a planting depends on.

    Attributes
    ----------
    shape : shapely.Geometry
        Its plot on the plan. [m]
    heights : tuple of float
        On each of the days. [m]
    place : Place
    days : tuple of (date, float)
    shading : tuple of tuple of Caster
        For each of the days, what can shade it.
    weighed : bool
        Whether hours are weighed by the height of the sun.
    """

    shape: shapely.Geometry
    heights: tuple[float, ...]
    place: Place
    days: tuple[tuple[dt.date, float], ...]
    shading: tuple[tuple[Caster, ...], ...]
    weighed: bool


@fact("shade sources")
def shade_on_planting(inputs: ShadeInputs) -> tuple[Shade, ...]:
    """What takes sun from a planting, the most first."""
    height = dict(zip((day for day, _ in inputs.days), inputs.heights, strict=True))
    casters = dict(zip((day for day, _ in inputs.days), inputs.shading, strict=True))
    receiver = Receiver("", inputs.shape, height.__getitem__)
    return shade_sources(receiver, inputs.place, inputs.days, casters.__getitem__, weighed=inputs.weighed)


def _enough(mean: SunHours, need: float) -> float:
    return min(need, mean.unshaded) - SLACK


def _least_share(need: float) -> float:
    return MOST if need >= FRUIT_SUN else HALF


def _darkest(mean: SunHours, view: PlantingView, days: Span, need: float) -> float:
    """Share of the sun that is left in the darkest part of its days; all of it where that is not asked.

    What stands for years is not asked: it rests in the weeks of low sun.
    """
    return (
        mean.darkest(DARKEST) if need >= FULL_SUN and days.days >= LONG and not view.stays_for_years else 1.0
    )


def _share(mean: SunHours, need: float) -> float:
    """Share of the day's sun by its height; all of it where the crop does not want full sun."""
    return mean.weighed / mean.unshaded if need >= FULL_SUN and mean.unshaded > 0 else 1.0


def _lacks(plan: Plan, place: Place, views: Iterable[PlantingView]) -> list[Lack]:
    judged: list[tuple[PlantingView, Span, float]] = []
    for view in views:
        need, days = view.number("sun_hours"), growing_days(plan, view)
        if need is not None and days is not None and not view.placed.plot.is_empty and not view.manure:
            judged.append((view, days, need))
    rough = coarsely_measured(plan, [(view, days) for view, days, _ in judged])
    near = [
        (view, days, need)
        for view, days, need in judged
        if rough[view.id].hours < _enough(rough[view.id], need) + ROUGH
        or _share(rough[view.id], need) < _least_share(need) + ROUGH_SHARE
        or _darkest(rough[view.id], view, days, need) < DARK + ROUGH_DARKEST
    ]
    exact = measured(plan, [(view, days) for view, days, _ in near])
    found: list[Lack] = []
    for view, days, need in near:
        mean = exact[view.id]
        enough, share = _enough(mean, need), _share(mean, need)
        low = mean.hours >= enough and share < _least_share(need)
        dark = mean.hours >= enough and not low and _darkest(mean, view, days, need) < DARK
        if mean.hours >= enough and not low and not dark:
            continue
        low = low or dark
        samples, receiver = tuple(sample_days(days, SAMPLES)), _receiver(plan, view)
        heights = tuple(receiver.height_on(day) for day, _ in samples)
        inputs = ShadeInputs(receiver.shape, heights, place, samples, mean.shading, low)
        taken = plan.cached(shade_on_planting, view.id, inputs)
        has, wanted = (mean.weighed, _least_share(need) * mean.unshaded) if low else (mean.hours, enough)
        if dark:
            share, wanted = mean.darkest(DARKEST), mean.weighed + WORTH
        found.append(
            Lack(
                view,
                days,
                has,
                need,
                wanted,
                mean.unshaded,
                taken,
                mean.hours,
                share if low else None,
                dark,
            )
        )
    return found


# -- saying --------------------------------------------------------------------------------------


def _only_taker(lack: Lack, context: CheckContext) -> str | None:
    """The planting without which it would have enough; None where there is none, or more is wrong."""
    for one in lack.taken:
        if one.key in context.by_id:
            worth = one.hours >= WORTH and lack.mean + one.hours >= lack.enough
            return one.key if worth else None
    return None


def _of_lack(lack: Lack, plan: Plan) -> Finding:
    view, named = lack.view, [one for one in lack.taken if one.hours >= NAMED]
    called = [_called(plan, one, view) for one in named[:2]]
    if lack.share is None:
        has = f"{lack.mean:.1f} h of direct sun a day and needs {lack.need:g} h"
        parts = [f"{name} {one.hours:.1f} h" for name, one in zip(called, named, strict=False)]
        takes = f"; {' and '.join(parts)} of it taken" if parts else ""
    else:
        when = " in the darkest weeks" if lack.dark else ""
        has = (
            f"{lack.hours:.1f} h of direct sun a day, but{when} {_percent(lack.share)} of the day's sun weighed by its "
            f"height (it wants {_percent(_wants(lack))} or more)"
        )
        shares = [_percent(one.hours / lack.unshaded) for one in named]
        parts = [f"{name} takes {share}" for name, share in zip(called, shares, strict=False)]
        takes = f"; {' and '.join(parts)}" if parts else ""
    text = f"{view.name} has {has}{takes}"
    keys = [one.key for one in named]
    return planting_finding(
        CHECK,
        lack.severity,
        (view,),
        capital(text),
        _RULE,
        view.source("sun_hours"),
        [round(lack.hours, 1), lack.need, *keys],
        lack.days,
        candidates=lambda plan: _brighter(plan, [view.id], keys),
        structures=[key for key in keys if key in plan.garden.structures_by_id],
    )


def _wants(lack: Lack) -> float:
    return DARK if lack.dark else _least_share(lack.need)


def _percent(share: float) -> str:
    return f"{100 * share:.0f} %"


def _called(plan: Plan, one: Shade, view: PlantingView) -> str:
    """What takes the sun; a structure without a name by where it stands."""
    structure = plan.garden.structures_by_id.get(one.key)
    if structure is None or structure.name:
        return one.name
    nearest = shapely.ops.nearest_points(view.plot.centroid, plan_polygon(structure.outline))[1]
    x, y = nearest.x - view.plot.centroid.x, nearest.y - view.plot.centroid.y
    if plan_polygon(structure.outline).contains(view.plot.centroid):
        return f"{one.name} over it"
    bearing = (math.degrees(math.atan2(x, y)) + plan.garden.site.bearing_up) % 360
    return f"{one.name} to the {_SIDES[round(bearing / 45) % 8]}"


def _of_taker(taker: PlantingView, lacks: Sequence[Lack]) -> Finding:
    taken = {lack.view.id: next(t.hours for t in lack.taken if t.key == taker.id) for lack in lacks}
    ordered = sorted(lacks, key=lambda lack: (-taken[lack.view.id], lack.view.id))
    parts = [_taking(lack, taken[lack.view.id], number == 0) for number, lack in enumerate(ordered)]
    keys = [lack.view.id for lack in ordered]
    severity: Severity = "mind" if any(lack.severity == "mind" for lack in lacks) else "note"
    days = Span(min(lack.days.first for lack in lacks), max(lack.days.last for lack in lacks))
    return planting_finding(
        CHECK,
        severity,
        (taker, *(lack.view for lack in ordered)),
        capital(f"{taker.name} takes {join_list(parts)}"),
        _RULE,
        ordered[0].view.source("sun_hours"),
        [fact for lack in ordered for fact in (round(lack.hours, 1), lack.need)],
        shared(days, taker.span) or days,
        place=shapely.union_all([lack.view.plot for lack in ordered]),
        topic="takes",
        candidates=lambda plan: _brighter(plan, keys, [taker.id]),
    )


def _taking(lack: Lack, taken: float, first: bool) -> str:
    if lack.share is None:
        what = f"{taken:.1f} h {'of direct sun a day ' if first else ''}from {lack.view.name}"
        return f"{what}, which keeps {lack.mean:.1f} h and needs {lack.need:g} h"
    return (
        f"{_percent(taken / lack.unshaded)} of the day's sun, weighed by its height, from {lack.view.name}, which keeps "
        f"{_percent(lack.share)}{' in the darkest weeks' if lack.dark else ''} ({lack.hours:.1f} h; it wants "
        f"{_percent(_wants(lack))} or more)"
    )


# -- mending -------------------------------------------------------------------------------------


def _brighter(plan: Plan, keys: Sequence[str], takers_of: Sequence[str]) -> Iterator[Fix]:
    """Other plots for the plantings that lack sun, or for those that take it; the brightest first."""
    before = _light(plan, keys)
    tried: list[Fix] = []
    for key in (*takers_of, *keys):
        planting = plan.garden.plantings_by_id.get(key)
        if planting is not None and not planting.pinned:
            view = planting_view(plan, planting)
            tried += fixes.elsewhere(plan, view, "")
            tried += fixes.swapped(plan, view, "")
            tried += fixes.beds_swapped(plan, view, "")
    found: list[tuple[float, int, Fix]] = []
    for number, mend in enumerate(tried):
        after = _light(plan.what_if(mend.apply(plan.garden)), keys)
        if all(key in after and _brightens(before[key], after[key]) for key in keys):
            names = {key: planting_view(plan, plan.garden.plantings_by_id[key]).crop_name for key in keys}
            gain = capital(join_list(_gained(names[key], before[key], after[key]) for key in keys))
            gained = round(2 * sum(after[key].weighed - before[key].weighed for key in keys)) / 2
            found.append(
                (-gained, number, replace(mend, gain=f"{gain}{', ' + mend.gain if mend.gain else ''}"))
            )
    for _, _, mend in sorted(found, key=lambda item: item[:2]):
        yield mend


def _brightens(before: SunHours, after: SunHours) -> bool:
    return after.hours > before.hours + SLACK or after.weighed > before.weighed + SLACK


def _gained(name: str, before: SunHours, after: SunHours) -> str:
    if after.hours > before.hours + SLACK:
        return f"{name} has {after.hours:.1f} h of sun a day instead of {before.hours:.1f} h"
    shares = [_percent(mean.weighed / max(mean.unshaded, 1e-9)) for mean in (after, before)]
    return f"{name} has {shares[0]} of the day's sun, weighed by its height, instead of {shares[1]}"


def _light(plan: Plan, keys: Iterable[str]) -> dict[str, SunHours]:
    views = [planting_view(plan, plan.garden.plantings_by_id[key]) for key in keys]
    judged = [(view, days) for view in views if (days := growing_days(plan, view)) is not None]
    return measured(plan, judged)
