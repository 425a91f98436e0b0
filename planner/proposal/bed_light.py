"""Hours of direct sun of beds over days, with the shade of all that stands where it is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from planner.checks.frame.planting_view import PlantingView
from planner.checks.light_lack import DARK, DARKEST, FULL_SUN, LONG, SLACK, least_share
from planner.checks.light_measure import COARSE, coarse_days, growing_days
from planner.garden import Bed
from planner.light import PlaceError, SunHours
from planner.plan import Plan
from planner.plan.light import receiver_of, sun_hours


class BedLight:
    """The light of beds in a garden, each as a whole, measured coarsely on days that all plantings share.

    Parameters
    ----------
    plan : Plan
        Of the garden with all that stays where it is.
    beds : sequence of Bed
    """

    def __init__(self, plan: Plan, beds: Sequence[Bed]) -> None:
        self._plan = plan
        self._beds = beds
        self._known: dict[dt.date, dict[str, SunHours]] = {}

    def known(self) -> bool:
        """Whether the place of the garden is known."""
        try:
            return self._plan.place is not None
        except PlaceError:
            return False

    def _on(self, day: dt.date) -> dict[str, SunHours]:
        if day not in self._known:
            grounds = [(receiver_of(self._plan, bed), ((day, 1.0),)) for bed in self._beds]
            self._known[day] = sun_hours(self._plan, grounds, *COARSE)
        return self._known[day]

    def lacking(self, view: PlantingView) -> dict[str, float]:
        """Beds with too little sun for a planting, and the hours a day that are missing there.

        It is judged as the plantings of a plan are (:mod:`planner.checks.light_lack`).

        Parameters
        ----------
        view : PlantingView
            With its days.

        Returns
        -------
        dict of str to float
            By the beds' ids. [h]
        """
        need, days = view.number("sun_hours"), growing_days(self._plan, view)
        if need is None or days is None or view.manure or not self.known():
            return {}
        found: dict[str, float] = {}
        samples = [(share, self._on(day)) for day, share in coarse_days(days)]
        for bed in self._beds:
            there = [(share, one[bed.id]) for share, one in samples if bed.id in one]
            sun = SunHours(
                hours=sum(share * one.hours for share, one in there),
                weighed=sum(share * one.weighed for share, one in there),
                unshaded=sum(share * one.unshaded for share, one in there),
                shading=(),
                days=tuple((share, one.weighed / max(one.unshaded, 1e-9)) for share, one in there),
            )
            missing = min(need, sun.unshaded) - SLACK - sun.hours
            if need >= FULL_SUN and sun.unshaded > 0:
                missing = max(missing, (least_share(need) - sun.weighed / sun.unshaded) * sun.unshaded)
                if days.days >= LONG and not view.stays_for_years:
                    missing = max(missing, (DARK - sun.darkest(DARKEST)) * sun.unshaded)
            if missing > 0:
                found[bed.id] = missing
        return found
