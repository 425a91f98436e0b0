"""Whether a crop that loves warmth finds the heat it needs to ripen."""

from __future__ import annotations

import datetime as dt

from planner.garden import Cover
from planner.season import practice
from planner.season.covers import WARMING
from planner.season.frosts import shift
from planner.season.heat import WARM_BASE, days_for, heat_between
from planner.season.planting_dates import Dated, HeatSum
from planner.season.starting import Starting


class Warmth(Starting):
    """The heat one planting finds, where its crop has a figure for it and the monthly means are known."""

    heat: HeatSum | None = None

    def heat_wanted(self, days: float) -> float | None:
        """Heat until it is ripe, by the crop's figure and its own days; None where none is known."""
        usual = self.crop.number("days_to_maturity") if self.crop is not None else None
        heat = self.number("heat")
        if heat is None or not usual:
            return None
        own = self.figures.variety
        return heat if own is not None and own.number("heat") is not None else heat * days / usual

    def soonest_share(self) -> float:
        """Share of its days that the soonest sorts take, where no sort with days of its own is meant."""
        own, figure = self.figures.variety, self.crop.days_to_maturity if self.crop is not None else None
        if own is not None and own.number("days_to_maturity") is not None:
            return 1.0
        if figure is None or not figure.value or figure.least is None:
            return 1.0
        return figure.least / figure.value

    def warmed(self, on: dt.date, days: float) -> float:
        """Heat that covers and film add while it grows. [deg C days]"""

        def gained(cover: Cover) -> float:
            first, last = cover.first or on, cover.last
            if cover.kind == "film":
                return practice.FILM_WARMS * days
            if cover.kind not in WARMING:
                return 0.0
            last = last or shift(first, practice.SHELTER)
            return practice.COVER_WARMS * max(0, (last - max(first, on)).days)

        return sum(gained(cover) for cover in self.planting.covers)

    def under_glass(self) -> float:
        """Warmth of its place over the open ground. [deg C]"""
        return practice.GLASS_WARMS if self.asked.sheltered else 0.0

    def heat_sum(self, on: dt.date, days: float) -> HeatSum | None:
        """The heat it needs and the heat it finds before the frost; None where either is not known."""
        wanted = self.heat_wanted(days)
        frost = self.frosts.first_after(on)
        if wanted is None or frost is None:
            return None
        until = shift(frost, practice.UNDER_GLASS) if self.asked.sheltered else frost
        found = heat_between(
            self.asked.climate, on, (until - on).days, WARM_BASE, clipped=True, warmer=self.under_glass()
        )
        if found is None:
            return None
        return HeatSum(wanted * self.soonest_share(), found + self.warmed(on, days))

    def by_warmth(self, on: dt.date, days: float, plain: dt.date) -> Dated | None:
        """The later harvest where its place is too cool for its days; None where it is not."""
        sums = self.heat
        if sums is None:
            return None
        if not sums.enough:
            self.ripens = False
            self.doubts.append(
                f"{self.name} finds {sums.found:.0f} of the {sums.wanted:.0f} degree-days over 10 °C that it "
                "needs before the first autumn frost"
            )
        found = days_for(
            self.asked.climate,
            on,
            max(0.0, sums.wanted - self.warmed(on, days)),
            WARM_BASE,
            clipped=True,
            warmer=self.under_glass(),
        )
        frost = self.frosts.first_after(on)
        ripe = shift(on, found) if found is not None else None
        if sums.enough and frost is not None and not self.asked.sheltered:
            ripe = min(ripe or frost, shift(frost, -1))
        if ripe is None or ripe <= plain:
            return None
        why = f"{(ripe - on).days} days: {sums.wanted:.0f} degree-days over 10 °C, for sorts that need the least"
        return Dated(ripe, why, self.source("heat"))
