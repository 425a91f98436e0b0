"""A planting lived through one recorded year, day by day, in plain Python: written from the rules, to hold the engine against.

Nothing here is shared with :mod:`planner.season.lived` but its constants and the tables of covers, crops and day lengths.
A day is a ``datetime.date`` of the recorded year; ``None`` is a day that never comes.
"""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Callable
from typing import NamedTuple

from planner.crops.cover_effects import sheltered_by
from planner.season import bolting, practice
from planner.season.bulbs import LEAST_SWELLING, SWELLING
from planner.season.date_inputs import DateContext
from planner.season.development import Need, heat_after_swelling
from planner.season.harvest_end import AT_REST, LONGER_IN_THE_COOL, NO_MORE_LEAVES
from planner.season.planting_dates import Dates
from planner.season.temperatures import by_day
from planner.season.thermal_time import Response
from planner.season.usual_weather import SOIL_OVER_AIR, sun_of_year
from planner.season.windows import CHILL, QUICKLY_CHILLED, starts_in_autumn

DAY = dt.timedelta(days=1)
TWO_YEARS = 730
#: What comes later is no matter for the plantings that are held against this. [days]
LONGEST_LOOK = 1000
Kinds = tuple[str, ...]


class RecordEndsError(Exception):
    """The record ends before it is known what becomes of the planting."""


class PlainRecord:
    """Days with their minimum and maximum.

    Parameters
    ----------
    days : dict of date to (float, float)
        [deg C]
    latitude : float
        [degrees north]
    """

    def __init__(self, days: dict[dt.date, tuple[float, float]], latitude: float) -> None:
        self.days, self.southern = days, latitude < 0
        sun = sun_of_year(latitude)
        self.hours_of, self.light_of = sun.hours.tolist(), sun.light.tolist()
        self.known: dict[object, float] = {}
        self.first, self.last = min(days), max(days)

    def index(self, day: dt.date) -> int:
        return day.replace(year=2000).timetuple().tm_yday - 1

    def hours(self, day: dt.date) -> float:
        return self.hours_of[self.index(day)]

    def temperatures(self, day: dt.date, kinds: Kinds, kept: float | None) -> tuple[float, float]:
        if day not in self.days:
            raise RecordEndsError
        low, high = self.days[day]
        if kinds:
            effect = sheltered_by(kinds)
            low += self.gain(effect.minimum_gain, day)
            high = max(high + self.gain(effect.maximum_gain, day), low)
        if kept is not None:
            low, high = max(low, kept), max(high, kept)
        return low, high

    def gain(self, seasons: tuple[float, ...], day: dt.date) -> float:
        key = ("gain", seasons, self.index(day))
        if key not in self.known:
            months = []
            for month in range(1, 13):
                season = {12: 0, 1: 0, 2: 0, 3: 1, 4: 1, 5: 1, 6: 2, 7: 2, 8: 2, 9: 3, 10: 3, 11: 3}[month]
                months.append(seasons[(season + 2) % 4 if self.southern else season])
            self.known[key] = float(by_day(tuple(months))[self.index(day)])
        return self.known[key]

    def mean(self, day: dt.date, kinds: Kinds, kept: float | None) -> float:
        low, high = self.temperatures(day, kinds, kept)
        return (low + high) / 2

    def degree_days(self, day: dt.date, kinds: Kinds, kept: float | None, response: Response) -> float:
        key = (day, kinds, kept, response)
        if key not in self.known:
            low, high = self.temperatures(day, kinds, kept)
            total = 0.0
            for hour in range(12):
                at = low + (high - low) * (1 - math.cos(math.pi * (hour + 0.5) / 12)) / 2
                if at <= response.ceiling:
                    total += min(max(at, response.base), response.best) - response.base
            self.known[key] = total / 12
        return self.known[key]

    def warmth(self, day: dt.date, kinds: Kinds, kept: float | None, need: Need) -> float:
        return self.degree_days(day, kinds, kept, need.response) * (
            self.light_of[self.index(day)] if need.slows else 1.0
        )

    def pace(self, day: dt.date, kinds: Kinds, kept: float | None, response: Response) -> float:
        share = self.degree_days(day, kinds, kept, response) / (response.best - response.base)
        return share * self.light_of[self.index(day)]

    def soil(self, day: dt.date, kinds: Kinds, kept: float | None) -> float:
        def over_air(kinds: Kinds, kept: float | None) -> float:
            past = [day - DAY * back for back in range(11)]
            means = [self.mean(one, kinds, kept) for one in past if one in self.days]
            if not means:
                raise RecordEndsError
            return sum(means) / len(means) + SOIL_OVER_AIR

        if not kinds:
            found = over_air((), None)
        elif sheltered_by(kinds).glass:
            found = over_air(kinds, None)
        else:
            found = over_air((), None) + sheltered_by(kinds).soil_gain
        return max(found, over_air(kinds, kept) - SOIL_OVER_AIR) if kept is not None else found

    def night(self, day: dt.date, kinds: Kinds, kept: float | None) -> float:
        if day not in self.days:
            raise RecordEndsError
        low = self.days[day][0] + (sheltered_by(kinds).frost_gain if kinds else 0.0)
        return max(low, kept) if kept is not None else low

    def spell(self, day: dt.date, holds: Callable[[dt.date], bool]) -> bool:
        """Whether something holds for most of the 15 days about a day; beyond the record its first or last day goes on."""
        count = 0
        for off in range(-7, 8):
            count += holds(min(max(day + DAY * off, self.first), self.last))
        return count >= 8

    def first_day(self, day: dt.date | None, holds: Callable[[dt.date], bool]) -> dt.date | None:
        latest = day + DAY * LONGEST_LOOK if day is not None else self.last
        while day is not None and day <= min(self.last, latest):
            if holds(day):
                return day
            day += DAY
        return None


class Found(NamedTuple):
    """What became of it."""

    fate: str
    emergence: dt.date | None = None
    frost: dt.date | None = None
    seed: dt.date | None = None
    first: dt.date | None = None
    last: dt.date | None = None
    free: dt.date | None = None


class PlainLife:
    """One planting in one recorded year.

    Parameters
    ----------
    record : PlainRecord
    context : DateContext
    dates : Dates
        Of the plan.
    need, sort : Need
        Until its first picking, and of its sort.
    covers : tuple of (int, tuple of str)
        What lies over it from each number of days on.
    years_later : int
        Recorded year less that of the plan.
    """

    def __init__(
        self,
        record: PlainRecord,
        context: DateContext,
        dates: Dates,
        need: Need | None,
        sort: Need | None,
        covers: tuple[tuple[int, Kinds], ...],
        years_later: int,
    ) -> None:
        self.record, self.context, self.dates, self.need, self.sort = record, context, dates, need, sort
        self.covers, self.kept, self.later = covers, context.kept_above, years_later
        assert dates.on_plot is not None
        self.on_plan = dates.on_plot.day
        self.on = self.moved(self.on_plan)
        self.crop, self.number = context.crop, context.number
        self.mode = (
            context.crop.harvest_ends.value or "" if context.crop and context.crop.harvest_ends else ""
        )

    # -- days and covers ----------------------------------------------------------------------

    def moved(self, day: dt.date) -> dt.date:
        """A day of the plan's calendar in the recorded year."""
        try:
            return day.replace(year=day.year + self.later)
        except ValueError:
            return dt.date(day.year + self.later, 2, 28)

    def given(self, day: dt.date) -> dt.date:
        return self.on + (day - self.on_plan)

    def lying(self, day: dt.date) -> Kinds:
        found: Kinds = ()
        for begins, kinds in self.covers:
            if (day - self.on).days >= begins:
                found = kinds
        return found

    @property
    def in_the_end(self) -> Kinds:
        return self.covers[-1][1]

    # -- warmth ---------------------------------------------------------------------------------

    def warm_by(self, need: Need, heat: float) -> dt.date | None:
        """The day before which it has had so much warmth."""
        day, had = self.on, 0.0
        while had < heat - 1e-9:
            if day > self.record.last:
                return None
            had += self.record.warmth(day, self.lying(day), self.kept, need)
            day += DAY
        return day

    def warm_from(self, need: Need, begins: dt.date | None, heat: float) -> dt.date | None:
        """The same from another day on, under what lies over it in the end."""
        day, had = begins, 0.0
        while day is not None and had < heat - 1e-9:
            if day > self.record.last:
                return None
            had += self.record.warmth(day, self.in_the_end, self.kept, need)
            day += DAY
        return day

    def had_by(self, need: Need, until: dt.date) -> float:
        day, had = self.on, 0.0
        while day < until:
            if day > self.record.last:
                break
            had += self.record.warmth(day, self.lying(day), self.kept, need)
            day += DAY
        return had

    # -- coming up ------------------------------------------------------------------------------

    def emergence(self) -> dt.date | None:
        start = self.context.start
        if start in ("standing", "bought", "raised"):
            return None
        unsprouted = start == "tubers" and self.context.planting.state == "unsprouted"
        series = self.crop.emergence_days if self.crop else None
        if series is None or not series.at or start not in ("sown", "tubers"):
            return self.on + DAY * ((28 if start == "tubers" else 10) + (12 if unsprouted else 0))
        done, day = 0.0, self.on
        while done < 1 - 1e-9:
            if day > self.record.last:
                return None
            soil = self.record.soil(day, self.context.shelter, self.kept)
            done += 1 / max(between(soil, series.at), 0.5)
            day += DAY
        heat = self.number("heat_to_sprout")
        if unsprouted and heat is not None:
            had = 0.0
            while had < heat - 1e-9:
                if day > self.record.last:
                    return None
                soil = self.record.soil(day, self.context.shelter, self.kept)
                had += max(soil - self.context.response.base, 0.0)
                day += DAY
        return day

    # -- ripe -----------------------------------------------------------------------------------

    def longest(self, day: dt.date | None, shortest: bool) -> dt.date | None:
        """The next longest day, or the next shortest."""
        december = shortest != self.record.southern
        wanted = (12, 21) if december else (6, 21)
        return self.record.first_day(day, lambda one: (one.month, one.day) == wanted)

    def slower(self, share: float, kinds: Kinds) -> Callable[[dt.date], bool]:
        response = self.context.response
        return lambda day: self.record.spell(
            day, lambda one: self.record.pace(one, kinds, self.kept, response) < share
        )

    def grows_again(self, day: dt.date | None) -> dt.date | None:
        response, record = self.context.response, self.record

        def holds(one: dt.date) -> bool:
            longer = record.hours(min(one + DAY, record.last)) > record.hours(one - DAY)
            return longer and record.spell(
                one, lambda two: record.pace(two, self.in_the_end, self.kept, response) >= AT_REST
            )

        return record.first_day(day, holds)

    def ripe(self) -> dt.date | None:
        assert self.need is not None
        found = self.bulbs_ripe() if self.number("day_length_to_bulb") is not None else self.others_ripe()
        return None if found is not None and (found - self.on).days > TWO_YEARS else found

    def bulbs_ripe(self) -> dt.date | None:
        need, hours = self.need, self.number("day_length_to_bulb")
        assert need is not None
        assert hours is not None
        by_heat = self.warm_by(need, need.heat)
        if max(self.record.hours_of) < hours:
            return by_heat
        swells = self.record.first_day(self.on, lambda day: self.record.hours(day) >= hours)
        after = heat_after_swelling(self.context, need, hours)
        after = SWELLING * need.heat if after is None else after
        slowest, soonest = (
            self.warm_from(need, swells, after),
            self.warm_from(need, swells, LEAST_SWELLING * after),
        )
        if by_heat is None or soonest is None:
            return slowest
        grown = max(by_heat, soonest)
        return grown if slowest is None else min(slowest, grown)  # else the record ends before the slowest

    def others_ripe(self) -> dt.date | None:
        need, context = self.need, self.context
        assert need is not None
        ripe = self.warm_by(need, need.heat)
        frost = context.frosts.first_after(self.on_plan)
        if frost is not None and not context.tender and self.mode in ("stands", "with bolting"):
            autumn = self.moved(frost)
            stops = self.record.first_day(autumn, self.slower(AT_REST, context.shelter))
            stops = autumn + DAY * 28 if stops is None else stops
            if ripe is None or ripe > stops:
                nearly = self.warm_by(need, practice.GROWN_AT_REST * need.heat)
                night = self.longest(stops, shortest=True)
                half = self.warm_by(need, 0.5 * need.heat)
                if nearly is not None and (night is None or nearly <= night):
                    ripe = max(nearly, stops, self.on)
                elif self.picked_before_winter() and half is not None and (night is None or half <= night):
                    ripe = max(half, stops, self.on)
        days, chill = self.number("days_to_maturity"), self.number("chill_to_bolt")
        if chill is not None and days is not None and days >= 200 and self.mode == "after weeks":
            spring = self.grows_again(self.longest(self.on, shortest=True))
            if ripe is not None and spring is not None:
                ripe = max(ripe, spring)
        return ripe

    def picked_before_winter(self) -> bool:
        """Whether the plan picks it before the longest night after its start."""
        planned = self.dates.first_harvest
        if planned is None or starts_in_autumn(self.context):
            return False
        june = self.record.southern
        night = dt.date(self.on_plan.year, 6 if june else 12, 21)
        if night < self.on_plan:
            night = night.replace(year=night.year + 1)
        return planned.day <= night

    # -- frost ----------------------------------------------------------------------------------

    def killing(self, out: dt.date | None, grown: dt.date | None, flower: dt.date | None) -> dt.date | None:
        """The first night that kills it at its stage."""
        crop, number = self.crop, self.number
        hardiness = crop.hardiness.value if crop and crop.hardiness else None
        tender = hardiness in ("tender", "warm-loving")
        least, young, blossom = (
            number("least_night_temperature"),
            number("kills_young"),
            number("kills_flower"),
        )
        cut = self.context.start == "tubers" and not tender and least is not None and least > 0
        day = min((one for one in (out, grown, flower) if one is not None), default=None)
        latest = min(self.record.last, self.on + DAY * LONGEST_LOOK)
        while day is not None and day <= latest:
            bears = []
            in_ground = self.context.start in ("cloves", "sets") and not tender
            zone = number("winter_zone")
            if in_ground and zone is not None and min(one for one in (out, grown) if one is not None) <= day:
                bears.append((-60 + 10 * (zone - 1) - 32) / 1.8 - 3.0)
            if (
                out is not None
                and day >= out
                and (grown is None or day < grown)
                and not cut
                and not in_ground
            ):
                if young is not None:
                    bears.append(min(young, 0.0))
                elif tender:
                    bears.append(0.0)
                elif least is not None:
                    bears.append(min(least, 0.0) if hardiness == "very hardy" else max(min(least, 0.0), -6.0))
            if grown is not None and day >= grown:
                if tender or cut:
                    bears.append(0.0)
                elif self.context.start not in ("cloves", "sets") and least is not None:
                    bears.append(min(least, 0.0))
            of_flowers = self.mode in ("after weeks", "with frost", "at once")
            if flower is not None and day >= flower and blossom is not None and of_flowers:
                bears.append(min(blossom, 0.0))
            if bears and self.record.night(day, self.lying(day), self.kept) <= max(bears) + 1e-9:
                return day
            day += DAY
        return None

    # -- seed -----------------------------------------------------------------------------------

    def stem(self, begun: dt.date | None, heat: float) -> dt.date | None:
        day, had = begun, 0.0
        while day is not None and had < heat - 1e-9:
            if day > self.record.last:
                return None
            had += self.record.degree_days(day, self.in_the_end, self.kept, self.context.response)
            day += DAY
        return day

    def seed(self, out: dt.date, first: dt.date | None) -> dt.date | None:
        number, crop = self.number, self.context.planting.crop
        fields = ("bolts_at_day_length", "bolts_above", "chill_to_bolt")
        if self.sort is None or all(number(field) is None for field in fields):
            return None
        if crop in bolting.SHOOTS_ARE_EATEN:
            return None
        found = [self.seed_in_long_days(out, first), self.seed_by_cold(out, first)]
        return min((one for one in found if one is not None), default=None)

    def seed_in_long_days(self, out: dt.date, first: dt.date | None) -> dt.date | None:
        hours, heat = self.number("bolts_at_day_length"), self.number("bolts_above")
        if hours is None and heat is None:
            return None
        assert self.sort is not None
        record, kinds = self.record, self.in_the_end
        begun = out if self.context.start == "sown" else self.on
        feels_length = hours is not None and record.hours(begun) >= hours + bolting.COMES_UP_IN_LONG
        wanted = max(bolting.LEAST_TO_BOLT, bolting.TO_BOLT_OF_NEED * self.sort.heat)
        day, had = begun, 0.0
        while had < wanted - 1e-9 and day <= record.last and (day - begun).days <= 366:
            felt = 1.0 if heat is not None and record.mean(day, kinds, self.kept) > heat else 0.0
            if feels_length and hours is not None:
                felt = max(felt, min(max((record.hours(day) - hours) / bolting.FULLY_LONG, 0.0), 1.0))
            had += felt * record.degree_days(day, kinds, self.kept, self.context.response)
            day += DAY
        if had >= wanted - 1e-9 and (day - begun).days <= 366 and (first is None or day < first):
            return day
        return self.seed_after_leaves(first)

    def seed_after_leaves(self, first: dt.date | None) -> dt.date | None:
        hours, heat = self.number("bolts_at_day_length"), self.number("bolts_above")
        if first is None or (hours is None and heat is None):
            return None
        record = self.record

        def holds(day: dt.date) -> bool:
            later = day + DAY * bolting.LONG_FOR
            if (
                hours is not None
                and later <= record.last
                and record.hours(day) >= hours
                and record.hours(later) >= hours
            ):
                return True
            return heat is not None and record.spell(
                day, lambda one: record.mean(one, self.in_the_end, self.kept) > heat
            )

        nearly = self.on + DAY * round(bolting.NEARLY_GROWN * (first - self.on).days)
        gone = self.stem(record.first_day(nearly, holds), bolting.TO_BOLT)
        return max(gone, first) if gone is not None else None

    def seed_by_cold(self, out: dt.date, first: dt.date | None) -> dt.date | None:
        context, record, kinds = self.context, self.record, self.in_the_end
        days = self.number("chill_to_bolt")
        if days is None or context.tender:
            return None
        start, crop = context.start, context.planting.crop
        if (days <= QUICKLY_CHILLED or crop in bolting.CHILLED_YOUNG) and start in (
            "sown",
            "raised",
            "bought",
        ):
            begun = out if start == "sown" else self.on
            mild = record.first_day(
                begun,
                lambda day: record.spell(day, lambda one: record.mean(one, kinds, self.kept) >= CHILL),
            )
            figure = self.crop.chill_to_bolt if self.crop else None
            least = max(days, figure.high or days) if start == "sown" and figure is not None else days
            if mild is not None and (mild - begun).days >= least:
                long = record.first_day(begun + DAY * round(days), lambda day: record.hours(day) >= 12)
                return self.stem(long, bolting.CHILLED_TO_BOLT)
        night = self.longest(self.on, shortest=True)
        root = self.crop is not None and self.crop.growth_form == "root"
        if night is None or self.need is None or (root and first is not None and first <= night):
            return None
        if self.had_by(self.need, night) < bolting.GROWN * self.need.heat:
            return None
        cold, day = 0, night - DAY * 60
        while day < night + DAY * 90:
            cold += day in record.days and record.mean(day, kinds, self.kept) < CHILL
            day += DAY
        if cold < days:
            return None
        long = record.first_day(night, lambda day: record.hours(day) >= 12)
        return self.stem(long, bolting.CHILLED_TO_BOLT)

    # -- the end of picking ----------------------------------------------------------------------

    def weeks(self, first: dt.date) -> dt.date | None:
        days = self.number("harvest_days")
        if days is None:
            return None
        plain = first + DAY * round(max(days - 1, 0))
        if (
            self.sort is None
            or not self.sort.days
            or self.mode not in ("after weeks", "stands", "with bolting")
        ):
            return plain
        cool = self.warm_from(self.sort, first, max(days - 1, 0) * self.sort.heat / self.sort.days)
        if self.mode == "after weeks":
            latest = first + DAY * round(LONGER_IN_THE_COOL * days)
            cool = latest if cool is None else min(cool, latest)
        return max(plain, cool) if cool is not None else plain

    def last(self, first: dt.date, killed: dt.date | None) -> dt.date | None:
        given, planned = self.dates.last_harvest, self.dates.first_harvest
        if given is not None and given.origin != "worked out":
            return max(self.given(given.day), first)
        weeks, ends = self.weeks(first), []
        if self.need is None:
            if given is None or planned is None:
                return None
            weeks = first + (given.day - planned.day)
            return killed - DAY if killed is not None and first < killed <= weeks else weeks
        if self.mode in ("after weeks", "at once", "dies back", "yearly", ""):
            if weeks is None or self.mode == "dies back" or killed is None:
                return weeks
            return killed - DAY if first <= killed - DAY < weeks else weeks
        if weeks is not None and self.mode != "with frost":
            ends.append(weeks)
        if killed is not None:
            ends.append(killed - DAY)
        if self.mode == "with frost":
            least = AT_REST if self.context.tender else NO_MORE_LEAVES
            begins: dt.date | None = first
            if first < self.record.last and self.record.hours(first + DAY) > self.record.hours(first):
                begins = self.longest(first, shortest=False)  # a cool spell of spring is no autumn
            slow = self.record.first_day(begins, self.slower(least, self.in_the_end))
            if slow is not None:
                ends.append(slow - DAY)
        if self.mode == "with bolting":
            gone = self.seed_after_leaves(first)
            if gone is not None:
                ends.append(gone)
        if not self.context.tender:
            spring = self.spring(first)
            if spring is not None:
                ends.append(spring)
        return max(min(ends), first) if ends else None

    def spring(self, first: dt.date) -> dt.date | None:
        shortest = self.longest(first, shortest=True)
        root = self.crop is not None and self.crop.growth_form == "root"
        if self.number("chill_to_bolt") is not None and not root:
            long = self.record.first_day(shortest, lambda day: self.record.hours(day) >= 12)
            return self.stem(long, bolting.CHILLED_TO_BOLT)
        grows = self.grows_again(shortest)
        return grows - DAY if grows is not None else None

    # -- together --------------------------------------------------------------------------------

    def live(self) -> Found:
        """What becomes of it."""
        if self.on not in self.record.days:
            raise RecordEndsError
        found = self._live()
        ends = [one for one in (found.first, found.last, found.free) if one is not None]
        if found.fate == "unripe" and found.free is None:
            ends.append(self.on + DAY * TWO_YEARS)
        if any(one > self.record.last + DAY for one in ends):
            raise RecordEndsError
        return found

    def _live(self) -> Found:
        up = self.emergence()
        out = self.on if up is None and self.context.start in ("raised", "bought", "standing") else up
        if out is None:
            raise RecordEndsError
        planned = self.dates.first_harvest
        ripe = None
        if self.need is not None:
            ripe = self.ripe()
            half = self.warm_by(self.need, 0.5 * self.need.heat)
        else:
            half = out
            if planned is not None:
                ripe = self.given(planned.day)
                half = self.on + DAY * round((planned.day - self.on_plan).days * 0.5)
        grown = max(half, out) if half is not None else None
        flower = self.flower(out, ripe) or ripe
        killed = self.killing(out, grown, flower)
        early = killed is not None and (ripe is None or killed < ripe)
        if self.need is not None and killed is not None and early and self.lifted():
            enough = self.had_by(self.need, killed) >= practice.GROWN_AT_REST * self.need.heat
            ripe = killed if enough else ripe
        if planned is not None and planned.pinned and ripe is not None:
            ripe = max(ripe, self.given(planned.day))
        seed = self.seed(out, ripe)
        clear = self.dates.clear
        cleared = self.given(clear.day) if clear is not None and clear.origin != "worked out" else None
        first = ripe
        if first is not None and cleared is not None and clear is not None and first > cleared:
            soonest = 14 if (clear.day - self.on_plan).days >= 180 else 3
            first = cleared if (first - cleared).days <= soonest else first
        never = dt.date.max
        events = {"frost": killed or never, "seed": seed or never, "cleared": cleared or never}
        soonest_end = min(events.values())
        if first is not None and first <= soonest_end:
            harmed = self.killing(None, first, flower)
            harmed = max(harmed, first) if harmed is not None else None
            last = self.last(first, harmed)
            if last is not None and cleared is not None:
                last = min(last, cleared)
            free = cleared or last
            gone = free + DAY if free is not None else never
            frost, seed = (one if one is not None and one <= gone else None for one in (killed, seed))
            return Found("picked", up, frost, seed, first, last, free)
        if soonest_end == never:
            return Found("unripe", up, None, None)
        fate = next(name for name in ("frost", "seed", "cleared") if events[name] == soonest_end)
        gone = soonest_end + DAY
        frost, seed = (one if one is not None and one <= gone else None for one in (killed, seed))
        return Found(fate, up, frost, seed, None, None, soonest_end)

    def lifted(self) -> bool:
        """Whether its tubers are lifted when frost has killed its leaves."""
        least = self.number("least_night_temperature")
        if self.context.start == "tubers" and not self.context.tender and (least or 0.0) > 0:
            return True
        product = self.crop.product.value if self.crop and self.crop.product else None
        return self.context.tender and product == "tubers" and self.mode == "dies back"

    def flower(self, out: dt.date, ripe: dt.date | None) -> dt.date | None:
        needs = self.crop.needs_pollination if self.crop else None
        if needs is None or not needs.value or ripe is None or ripe <= out:
            return None
        days = (ripe - out).days
        if self.context.planting.crop in practice.PICKED_YOUNG and days > 20:
            return ripe - DAY * 10
        return out + DAY * round(days * 0.5)


def between(x: float, points: tuple[tuple[float, float], ...]) -> float:
    """A value between points, level beyond them."""
    if x <= points[0][0]:
        return points[0][1]
    for (left, low), (right, high) in itertools.pairwise(points):
        if x <= right:
            return low + (high - low) * (x - left) / (right - left)
    return points[-1][1]
