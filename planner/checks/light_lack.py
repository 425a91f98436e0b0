"""Which plantings have less direct sun than they need, and what takes it.

All plantings are measured coarsely, on days that they share; those near their need are measured fully.
Every measure is cached until something else shades the planting (:mod:`planner.light.survey`).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from planner.checks.frame.finding import Severity
from planner.checks.frame.planting_view import PlantingView
from planner.checks.light_measure import coarsely_measured, growing_days, measured, shades_of
from planner.light import Place, Shade, SunHours
from planner.plan import Plan
from planner.season.spans import Span

#: Tolerance of the need: the sky is not more exact than this. [h]
SLACK = 0.5
#: Lack of sun beyond which a planting suffers (practice). [h]
GRAVE = 2.0
#: Share of its need from which on a lack is more than it bears: it fails (practice).
HALF = 0.5

#: Least need of a crop that wants full sun: its share of the day's sun, weighed by the sun's height, is judged too,
#: because long summer days have hours of low sun that do little (practice). [h]
FULL_SUN = 6.0
#: Least share of the day's weighed sun for such a crop (practice).
LEAST_SHARE = 0.5
#: Least need of fruit that ripens poorly in part shade (practice). [h]
FRUIT_SUN = 8.0
#: Least share of the day's weighed sun for such fruit (practice).
LEAST_FRUIT_SHARE = 0.65

#: Least days of a planting whose darkest part is judged by itself, because the mean hides it (practice). [days]
LONG = 60
#: Share of the days that counts as the darkest part (practice).
DARKEST = 0.4
#: Least share of the weighed sun in the darkest part (practice).
DARK = 0.4

#: Least loss that justifies suggesting another plot. [h]
WORTH = 1.0

#: Error bound of the coarse pass; plantings with more margin are skipped. [h]
COARSE_ERROR = 0.75
#: Error bound of the coarse pass in the share of the day's weighed sun.
COARSE_SHARE_ERROR = 0.08
#: Error bound of the coarse pass in the share of the darkest part, for which it samples other days.
COARSE_DARKEST_ERROR = 0.2


@dataclass(frozen=True, eq=False)
class Lack:
    """A planting with less direct sun than it needs.

    Attributes
    ----------
    view : PlantingView
    days : Span
        On which it is judged.
    need, hours, unshaded : float
        Hours of direct sun a day: needed by its crop, at its plot, and without any shade. [h]
    has, wanted : float
        What is too little and its least value: hours, or hours weighed by the height of the sun. [h]
    shades : tuple of Shade
        What takes sun from it, the most first; in the hours of ``has``.
    share : float or None
        Share of the day's weighed sun, if that is what is too little.
    dark : bool
        Whether ``share`` is that of the darkest part of its days.
    lacks_high_sun : float
        Hours weighed by the height of the sun that are missing of their least share of the day. [h]
    """

    view: PlantingView
    days: Span
    need: float
    hours: float
    unshaded: float
    has: float
    wanted: float
    shades: tuple[Shade, ...]
    share: float | None = None
    dark: bool = False
    lacks_high_sun: float = 0.0

    @property
    def severity(self) -> Severity:
        """By the hours that are missing: ``mind`` if it will suffer, ``stop`` if it lacks half of what it needs."""
        if self.missing >= HALF * self.need:
            return "stop"
        return "mind" if self.missing > GRAVE else "note"

    @property
    def missing(self) -> float:
        """Hours of sun that are missing, by their number or by the height of the sun, whichever are more. [h]"""
        lacking = max(self.need - self.hours, self.lacks_high_sun)
        if self.dark and self.share is not None:
            return max(lacking, (DARK - self.share) * self.unshaded)
        return lacking

    @property
    def wanted_share(self) -> float:
        """Least value of ``share``."""
        return DARK if self.dark else least_share(self.need)


class Judged(NamedTuple):
    """A planting, its growing days, and the hours of direct sun a day that it needs. [h]"""

    view: PlantingView
    days: Span
    need: float


def judged_of(plan: Plan, views: Iterable[PlantingView]) -> list[Judged]:
    """The plantings whose light is judged: their need is known, and they grow long enough in the lighter half of the year.

    Parameters
    ----------
    plan : Plan
    views : iterable of PlantingView
    """
    judged = []
    for view in views:
        need, days = view.number("sun_hours"), growing_days(plan, view)
        if need is not None and days is not None and not view.placed.plot.is_empty and not view.manure:
            judged.append(Judged(view, days, need))
    return judged


class Looked(NamedTuple):
    """What was found when plantings were looked at.

    Attributes
    ----------
    closely : frozenset of str
        Ids of those that were measured fully.
    lacks : tuple of Lack
        Of those with less direct sun than they need.
    """

    closely: frozenset[str]
    lacks: tuple[Lack, ...]


def look_at(plan: Plan, place: Place, judged: Sequence[Judged]) -> Looked:
    """Find the plantings with less direct sun than they need.

    Parameters
    ----------
    plan : Plan
    place : Place
        Where the garden lies.
    judged : sequence of Judged
    """
    coarse = coarsely_measured(plan, ((view, days) for view, days, _ in judged))
    near = [one for one in judged if _near_need(one, coarse[one.view.id])]
    exact = measured(plan, ((view, days) for view, days, _ in near))
    found = (_lack_of(plan, place, one, exact[one.view.id]) for one in near)
    lacks = tuple(lack for lack in found if lack is not None)
    return Looked(frozenset(one.view.id for one in near), lacks)


def _near_need(judged: Judged, coarse: SunHours) -> bool:
    """Whether the coarse pass leaves open if a planting has enough sun."""
    need = judged.need
    return (
        coarse.hours < _least_hours(coarse, need) + COARSE_ERROR
        or _share(coarse, need) < least_share(need) + COARSE_SHARE_ERROR
        or _darkest(coarse, judged) < DARK + COARSE_DARKEST_ERROR
    )


def _lack_of(plan: Plan, place: Place, judged: Judged, sun: SunHours) -> Lack | None:
    """The lack of a planting that has so much sun; None if that is enough."""
    view, days, need = judged
    least, share = _least_hours(sun, need), _share(sun, need)
    low = max(least_share(need) - share, 0.0) * sun.unshaded
    if sun.hours < least:
        shades = shades_of(plan, place, (view, days), sun, weighed=False)
        return Lack(view, days, need, sun.hours, sun.unshaded, sun.hours, least, shades, lacks_high_sun=low)
    if share < least_share(need):
        shades, wanted = (
            shades_of(plan, place, (view, days), sun, weighed=True),
            least_share(need) * sun.unshaded,
        )
        return Lack(
            view, days, need, sun.hours, sun.unshaded, sun.weighed, wanted, shades, share, lacks_high_sun=low
        )
    if _darkest(sun, judged) < DARK:
        shades, wanted = shades_of(plan, place, (view, days), sun, weighed=True), sun.weighed + WORTH
        share = sun.darkest(DARKEST)
        return Lack(view, days, need, sun.hours, sun.unshaded, sun.weighed, wanted, shades, share, dark=True)
    return None


def _least_hours(sun: SunHours, need: float) -> float:
    """Hours of sun a day below which a lack is reported. [h]"""
    return min(need, sun.unshaded) - SLACK


def least_share(need: float) -> float:
    """Share of the day's weighed sun below which a lack is reported, by the need. [h]"""
    return LEAST_FRUIT_SHARE if need >= FRUIT_SUN else LEAST_SHARE


def _share(sun: SunHours, need: float) -> float:
    """Share of the day's weighed sun; 1 if the crop does not want full sun."""
    return sun.weighed / sun.unshaded if need >= FULL_SUN and sun.unshaded > 0 else 1.0


def _darkest(sun: SunHours, judged: Judged) -> float:
    """Share of the weighed sun in the darkest part of the days; 1 if that is not judged.

    Perennials are not judged by it: they rest in the weeks of low sun.
    """
    long = judged.days.days >= LONG and not judged.view.stays_for_years
    return sun.darkest(DARKEST) if judged.need >= FULL_SUN and long else 1.0
