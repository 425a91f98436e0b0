"""What is known of the light of a garden's plantings; after an edit those are looked at again that its shadows reach."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Iterator, Mapping

import numpy as np
import shapely

from planner.checks.frame.planting_view import planting_views
from planner.checks.light_lack import Judged, Lack, judged_of, look_at
from planner.checks.light_measure import COARSE, FULL, coarse_days, full_days
from planner.checks.reached import Changed
from planner.lazy import lazy_property
from planner.light import Caster, Place
from planner.light.beams import Beams, beams
from planner.light.raster import raster_over
from planner.light.shading import Shading
from planner.plan import Plan
from planner.season.spans import Span
from planner.sun import Floats

#: Plantings that are looked at in one go.
AT_ONCE = 400
#: Cells by which it is told whether a shadow meets a plot; only their outer bounds count. [m]
_CELL = 0.5


class KnownLight:
    """Which plantings of a plan are judged for their light, and which of them lack it.

    Parameters
    ----------
    plan : Plan
    place : Place
        Where the garden lies.
    judged : mapping of str to Judged
        By the ids of the plantings.
    closely : frozenset of str
        Ids of those that were measured fully.
    lacks : mapping of str to Lack
        By the ids of the plantings.
    """

    def __init__(
        self,
        plan: Plan,
        place: Place,
        judged: Mapping[str, Judged],
        closely: frozenset[str],
        lacks: Mapping[str, Lack],
    ) -> None:
        self.plan, self.place = plan, place
        self._judged, self._closely, self._lacks = judged, closely, lacks

    @classmethod
    def of(cls, plan: Plan) -> KnownLight:
        """Look at all plantings of a plan.

        Raises
        ------
        planner.light.PlaceError
            While the garden's latitude is not known.
        """
        *_, last = cls.steps(plan)
        assert isinstance(last, KnownLight)
        return last

    @classmethod
    def steps(cls, plan: Plan) -> Iterator[float | KnownLight]:
        """Look at all plantings of a plan, some hundreds a step; each step gives the share that is done, the last what is known.

        Raises
        ------
        planner.light.PlaceError
            While the garden's latitude is not known.
        """
        place = plan.place
        judged = judged_of(plan, planting_views(plan, plan.plantings))
        # Those near each other are in the shadow of the same things.
        judged.sort(key=lambda one: one.view.plot.bounds[1])
        closely: set[str] = set()
        lacks: dict[str, Lack] = {}
        for first in range(0, len(judged), AT_ONCE):
            yield first / len(judged)
            looked = look_at(plan, place, judged[first : first + AT_ONCE])
            closely |= looked.closely
            lacks |= {lack.view.id: lack for lack in looked.lacks}
        yield cls(plan, place, {one.view.id: one for one in judged}, frozenset(closely), lacks)

    @property
    def lacks(self) -> list[Lack]:
        """The plantings with less direct sun than they need, by id."""
        return [self._lacks[key] for key in sorted(self._lacks)]

    def after(self, plan: Plan, changed: Changed) -> KnownLight:
        """What is known after an edit.

        Parameters
        ----------
        plan : Plan
            Of the edited garden, in the same world.
        changed : Changed
            What differs from the garden of this plan.
        """
        things = (*changed.structures, *changed.beds, *changed.plantings)
        plan.take_casters(self.plan, things)
        mine = self._in_beds_of(plan, changed)
        again = mine | self._shaded_by(plan, things, mine)
        there = plan.garden.plantings_by_id
        plantings = (
            there[key] for key in again if key in there and plan.span_of(there[key]).meets(plan.span)
        )
        judged = judged_of(plan, planting_views(plan, plantings))
        looked = look_at(plan, self.place, judged)
        kept = {key: one for key, one in self._judged.items() if key not in again}
        return KnownLight(
            plan,
            self.place,
            {**kept, **{one.view.id: one for one in judged}},
            (self._closely - again) | looked.closely,
            {
                **{key: lack for key, lack in self._lacks.items() if key not in again},
                **{lack.view.id: lack for lack in looked.lacks},
            },
        )

    def _in_beds_of(self, plan: Plan, changed: Changed) -> set[str]:
        """Ids of all plantings, before and after, in the beds that an edit touches: what shares their ground counts too."""
        beds = {one.bed for pair in changed.plantings.values() for one in pair if one is not None}
        beds |= changed.beds
        inside = {one.id for bed in beds for each in (self.plan, plan) for one in each.garden_in_bed(bed)}
        return inside | changed.plantings.keys()

    # -- whom a shadow meets --------------------------------------------------------------------

    def _shaded_by(self, plan: Plan, things: Iterable[str], mine: Collection[str]) -> set[str]:
        """Ids of the plantings that shadows of some things meet, before an edit or after it."""
        keys, found = tuple(things), set[str]()
        for day in sorted(self._days):
            before, after = self.plan.casters_by_thing(day), plan.casters_by_thing(day)
            moved = [
                caster
                for key in keys
                if before.of(key) != after.of(key)
                for caster in (*before.of(key), *after.of(key))
            ]
            if moved:
                found |= self._met_on(day, moved, found | set(mine))
        return found

    def _met_on(self, day: dt.date, casters: list[Caster], known: Collection[str]) -> set[str]:
        """Ids of the plantings that some shadows meet on a day, but for those that are known."""
        light = _beams_of_both(self.place, day)
        if not len(light.hours):
            return set()
        ids, bounds, soil = self._plots
        sides = np.array([caster.bounds for caster in casters])
        high = np.array([caster.top for caster in casters])
        away = -light.toward
        low, far = np.minimum(away.min(axis=0), 0.0), np.maximum(away.max(axis=0), 0.0)
        begin = (sides[:, :2] + high[:, None] * low).min(axis=0)
        end = (sides[:, 2:] + high[:, None] * far).max(axis=0)
        near = (bounds[:, :2] <= end).all(axis=1) & (bounds[:, 2:] >= begin).all(axis=1) & (soil < high.max())
        there = [number for number in np.flatnonzero(near).tolist() if ids[number] not in known]
        if not there:
            return set()
        rasters = []
        for number in there:
            size = self.plan.size(self._judged[ids[number]].view.planting, day)
            rasters.append(raster_over(bounds[number].tolist(), _CELL, float(soil[number]) + size.height))
        meeting = Shading(casters, rasters).meeting_each(light)
        return {ids[number] for number, met in zip(there, meeting, strict=True) if met}

    @lazy_property
    def _plots(self) -> tuple[list[str], Floats, Floats]:
        """Ids of the plantings that are judged, bounds (n, 4) of their plots, and heights (n,) of their soil. [m]"""
        views = [one.view for one in self._judged.values()]
        bounds = shapely.bounds(np.array([view.plot for view in views], dtype=object)).reshape(-1, 4)
        return [view.id for view in views], bounds, np.array([view.bed.height for view in views])

    @lazy_property
    def _days(self) -> set[dt.date]:
        """All days on which the light of any of them was asked for."""
        spans: dict[Span, bool] = {}
        for key, one in self._judged.items():
            spans[one.days] = spans.get(one.days, False) or key in self._closely
        days = {day for span in spans for day, _ in coarse_days(span)}
        return days | {day for span, closely in spans.items() if closely for day, _ in full_days(span)}


def _beams_of_both(place: Place, day: dt.date) -> Beams:
    """The beams of a day of the coarse and of the full measure."""
    one, other = beams(place, day, COARSE.step), beams(place, day, FULL.step)
    return Beams(
        np.concatenate([one.instants, other.instants]),
        np.concatenate([one.hours, other.hours]),
        np.concatenate([one.toward, other.toward]),
        np.concatenate([one.altitude, other.altitude]),
    )
