"""Hours of direct sun of many pieces of ground, worked out anew only where what shades them changed.

Each piece keeps, for each day, what could shade it and the hours that came of it.  While the same
casters meet it, the hours stand; so an edit costs what the shadows of the edited thing reach.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from planner.light.casters import Caster
from planner.light.days import STEP, Place, beams
from planner.light.hours import CELL, CastersOn, Days, Receiver, counted, measured_over
from planner.light.shading import Raster, Shading


@dataclass(eq=False)
class LightRecord:
    """A piece of ground and what is known of its light.

    Attributes
    ----------
    receiver : Receiver
    step : float
        [min]
    cell : float
        Side of the cells by which it is measured, at most. [m]
    by_day : dict
        For each day the casters that could shade it, its mean hours of direct sun, and those weighed.
    """

    receiver: Receiver
    step: float = STEP
    cell: float = CELL
    by_day: dict[dt.date, tuple[tuple[Caster, ...], float, float]] = field(default_factory=dict)

    @cached_property
    def measured(self) -> tuple[Raster, NDArray[np.bool_]]:
        """Its cells, and which of them lie in it."""
        return measured_over(self.receiver.shape, self.cell)

    def on(self, day: dt.date) -> Raster:
        """Its cells at its height on a day."""
        return self.measured[0].at_height(self.receiver.height_on(day))


@dataclass(frozen=True)
class SunHours:
    """Mean hours of direct sun a day of a piece of ground.

    Attributes
    ----------
    hours : float
        [h]
    weighed : float
        The same, weighed by the height of the sun (:attr:`planner.light.days.Beams.weighed`). [h]
    unshaded : float
        Where nothing shades, weighed or not. [h]
    met : tuple of tuple of Caster
        For each of its days, what could shade it.
    days : tuple of (float, float)
        For each of its days, the share of the span it stands for, and the share of its sun, weighed by its height,
        that is left.
    """

    hours: float
    weighed: float
    unshaded: float
    met: tuple[tuple[Caster, ...], ...]
    days: tuple[tuple[float, float], ...] = ()

    def darkest(self, part: float) -> float:
        """Share of the sun, weighed by its height, that is left in the darkest part of the days."""
        left, taken = part, 0.0
        for span, share in sorted(self.days, key=lambda day: day[1]):
            used = min(span, left)
            taken, left = taken + used * share, left - used
        return taken / max(part - left, 1e-9) if self.days else 1.0


def survey(
    asked: Iterable[tuple[LightRecord, Days]], place: Place, casters_on: CastersOn
) -> dict[str, SunHours]:
    """Mean hours of direct sun a day of each piece of ground over days of its own.

    Parameters
    ----------
    asked : iterable of (LightRecord, days)
        All of one step. Those with an empty shape, or without days, are left out of the result.
    place : Place
    casters_on : callable
        All that casts on a day; the very same objects as long as they are unchanged.

    Returns
    -------
    dict of str to Mean
        By the receivers' keys.
    """
    lit = [(one, days) for one, days in asked if days and not one.receiver.shape.is_empty]
    by_day: dict[dt.date, list[LightRecord]] = {}
    for one, days in lit:
        for day, _ in days:
            by_day.setdefault(day, []).append(one)
    for day, there in by_day.items():
        _bring_up_to_date(there, place, day, casters_on(day))
    found: dict[str, SunHours] = {}
    for one, days in lit:
        hours = sum(share * one.by_day[day][1] for day, share in days)
        weighed = sum(share * one.by_day[day][2] for day, share in days)
        clear = sum(share * beams(place, day, one.step).total for day, share in days)
        shares = tuple(
            (share, one.by_day[day][2] / max(beams(place, day, one.step).total, 1e-9)) for day, share in days
        )
        found[one.receiver.key] = SunHours(
            hours, weighed, clear, tuple(one.by_day[day][0] for day, _ in days), shares
        )
    return found


def _bring_up_to_date(
    there: list[LightRecord], place: Place, day: dt.date, casters: Sequence[Caster]
) -> None:
    light = beams(place, day, there[0].step)
    rasters = [one.on(day) for one in there]
    pairs = counted(casters, [one.receiver for one in there])
    meeting = Shading(casters, rasters, pairs).meeting_each(light)
    stale: list[int] = []
    for number, (one, met) in enumerate(zip(there, meeting, strict=True)):
        kept = one.by_day.get(day)
        shading = tuple(casters[i] for i in met)
        if kept is not None and len(kept[0]) == len(shading) and all(map(_is, kept[0], shading)):
            continue
        if shading:
            stale.append(number)
        one.by_day[day] = (shading, light.total, light.total)
    if stale:
        used = sorted({i for number in stale for i in meeting[number]})
        shading_them = Shading(
            [casters[i] for i in used], [rasters[n] for n in stale], pairs[np.ix_(stale, used)]
        )
        weights = np.stack([light.hours, light.weighed.hours])
        for number, cells in zip(stale, shading_them.sums(light, weights) or [], strict=True):
            one = there[number]
            plain, weighed = (float(part[one.measured[1]].mean()) for part in cells)
            one.by_day[day] = (one.by_day[day][0], plain, weighed)


def _is(one: object, other: object) -> bool:
    return one is other
