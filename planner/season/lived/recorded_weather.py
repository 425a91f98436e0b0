"""The weather of recorded days where something grows, as :class:`planner.season.usual_weather.UsualWeather` is that of a usual year.

Temperatures, light and what they add up to go by the same rules; so days that are those of the usual year give its dates.  What
decides by a single day in the usual year is decided here by the days about it: a spell counts, one cold day in September does not.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from planner.crops import Series
from planner.crops.cover_effects import sheltered_by
from planner.lazy import lazy_property
from planner.season.lived.recorded_years import NEVER, Positions, RecordedYears
from planner.season.soil_rule import SOIL_FOLLOWS
from planner.season.temperatures import by_day
from planner.season.thermal_time import Numbers, Response, hourly, sums
from planner.season.usual_weather import SOIL_OVER_AIR, months_of_seasons, sun_of_year

Days = NDArray[np.bool_]

#: Days about a day of which more than half must be cold, hot or dark for it to be told so (estimate). A running median:
#: what begins once and stays begins on the same day as without it. [days]
SPELL = 15


class RecordedWeather:
    """The weather of all days of a record where something grows.

    Parameters
    ----------
    years : RecordedYears
    low, high, soil : ndarray, shape (days,)
        Minimum, maximum, and the mean of the soil at sowing depth; NaN in gaps. [deg C]
    hours, light : ndarray, shape (days,)
        Length of each day [h], and the share of its pace that its light leaves to what slows in short days.
    night : ndarray, shape (days,)
        Temperature that frost has there: that measured and what the place holds off; NaN where it was not measured. [deg C]
    southern : bool
    """

    def __init__(
        self,
        years: RecordedYears,
        low: Numbers,
        high: Numbers,
        soil: Numbers,
        night: Numbers,
        hours: Numbers,
        light: Numbers,
        southern: bool,
    ) -> None:
        self.years, self.low, self.high, self.soil, self.night = years, low, high, soil, night
        self.hours, self.light, self.southern = hours, light, southern
        self.mean: Numbers = (low + high) / 2
        self._daily: dict[Response, Numbers] = {}
        self._sums: dict[tuple[Response, bool], Numbers] = {}
        self._seedlings: dict[int, tuple[Series, Numbers]] = {}
        self._next: dict[tuple[object, ...], Positions] = {}
        self._under: dict[tuple[tuple[str, ...], float | None], RecordedWeather] = {}

    def under(self, kinds: tuple[str, ...], kept_above: float | None = None) -> RecordedWeather:
        """The weather under covers and roofs, and where heating keeps it above a temperature; itself in the open.

        Parameters
        ----------
        kinds : tuple of str
            As :mod:`planner.crops.cover_effects` names them.
        kept_above : float, optional
            [deg C]
        """
        if not kinds and kept_above is None:
            return self
        found = self._under.get((kinds, kept_above))
        if found is None:
            found = self._under[kinds, kept_above] = self._sheltered(kinds, kept_above)
        return found

    def _sheltered(self, kinds: tuple[str, ...], kept_above: float | None) -> RecordedWeather:
        low, high, soil, night = self.low, self.high, self.soil, self.night
        if kinds:
            effect, day = sheltered_by(kinds), self.years.day_of_year
            low = low + by_day(months_of_seasons(effect.minimum_gain, self.southern))[day]
            high = np.maximum(high + by_day(months_of_seasons(effect.maximum_gain, self.southern))[day], low)
            soil = soil_of((low + high) / 2) if effect.glass else soil + effect.soil_gain
            night = night + effect.frost_gain
        if kept_above is not None:
            low, high = np.maximum(low, kept_above), np.maximum(high, kept_above)
            soil, night = (
                np.maximum(soil, soil_of((low + high) / 2) - SOIL_OVER_AIR),
                np.maximum(night, kept_above),
            )
        return RecordedWeather(self.years, low, high, soil, night, self.hours, self.light, self.southern)

    # -- sums -------------------------------------------------------------------------------

    def daily(self, response: Response) -> Numbers:
        """Degree-days of each day, whatever its light; 0 in gaps."""
        found = self._daily.get(response)
        if found is None:
            found = self._daily[response] = self._degree_days(response)
        return found

    @lazy_property
    def _hours(self) -> Numbers:
        """Temperatures of half of each day, from its minimum to its maximum; shape (12, days)."""
        return np.ascontiguousarray(hourly(self.low, self.high).T)

    def _degree_days(self, response: Response) -> Numbers:
        """As :func:`planner.season.thermal_time.degree_days`, from hours that are kept: many crops grow in one weather."""
        rate = np.minimum(self._hours, response.best)
        np.maximum(rate, response.base, out=rate)
        found: Numbers = rate.sum(axis=0) / len(rate) - response.base
        hot = np.flatnonzero(self.high > response.ceiling)
        if len(hot):
            found[hot] = response.rate(self._hours[:, hot]).mean(axis=0)
        return np.nan_to_num(found, copy=False)

    def sums(self, response: Response, slows: bool) -> Numbers:
        """Degree-days before each day, and before the end of the record; shape (days + 1,)."""
        found = self._sums.get((response, slows))
        if found is None:
            daily = self.daily(response)
            found = self._sums[response, slows] = sums(daily * self.light if slows else daily)
        return found

    def coming_up(self, series: Series) -> Numbers:
        """Sum before each day of the share that its soil adds to the coming up of seed; shape (days + 1,).

        Parameters
        ----------
        series : Series
            Days to emergence by temperature of the soil.
        """
        known = self._seedlings.get(id(series))
        if known is not None and known[0] is series:
            return known[1]
        at = [pair[0] for pair in series.at]
        days = np.interp(np.nan_to_num(self.soil), at, [pair[1] for pair in series.at])
        found = sums(1 / np.maximum(days, 0.5))
        self._seedlings[id(series)] = series, found
        return found

    def soil_over(self, base: float) -> Numbers:
        """Sum before each day of what its soil is over a base; shape (days + 1,). [deg C days]"""
        return sums(np.nan_to_num(np.maximum(self.soil - base, 0.0)))

    def chilled_days(self, below: float) -> Positions:
        """Days before each day that were colder; shape (days + 1,). [deg C]"""
        found = np.zeros(len(self.mean) + 1, dtype=np.int64)
        np.cumsum(self.mean < below, out=found[1:])
        return found

    # -- days on which something begins -------------------------------------------------------

    def next_day(self, what: tuple[object, ...], holds: Callable[[], Days], spell: bool = True) -> Positions:
        """The next day from each day on for which something holds; :data:`NEVER` where none does; shape (days + 1,).

        Parameters
        ----------
        what : tuple
            Names it, so that it is worked out once.
        holds : callable
            Whether it holds, for each day.
        spell : bool
            Most of the days about it must be so.
        """
        found = self._next.get(what)
        if found is None:
            days = holds()
            found = self._next[what] = next_true(most_about(days) if spell else days)
        return found

    def slower_than(self, response: Response, share: float) -> Positions:
        """The next day from each on from which it is so cool and dark that less than a share of the best pace is left."""
        return self.next_day(
            ("slower", response, share),
            lambda: self.daily(response) * self.light / (response.best - response.base) < share,
        )

    def grows_again(self, response: Response, share: float) -> Positions:
        """The next day of a lengthening day from each on that leaves a share of the best pace."""

        def holds() -> Days:
            pace = self.daily(response) * self.light / (response.best - response.base)
            return most_about(pace >= share) & (np.gradient(self.hours) > 0)

        return self.next_day(("grows again", response, share), holds, spell=False)

    def longer_than(self, hours: float) -> Positions:
        """The next day from each on that is so long. [h]"""
        return self.next_day(("long", hours), lambda: self.hours >= hours, spell=False)

    def shorter_than(self, hours: float) -> Positions:
        """The next day from each on that is shorter. [h]"""
        return self.next_day(("short", hours), lambda: self.hours < hours, spell=False)

    def hotter_than(self, mean: float) -> Positions:
        """The next day from each on of a spell of so warm days. [deg C]"""
        return self.next_day(("hot", mean), lambda: self.mean > mean)

    def day_in_year(self, month: int, day: int) -> Positions:
        """The next day of the year from each day on."""
        at = int(np.cumsum([0, 31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30])[month - 1]) + day - 1
        return self.next_day(("day", at), lambda: self.years.day_of_year == at, spell=False)

    def colder_night(self, bears: float) -> Positions:
        """The next night from each on that is as cold as what kills. [deg C]"""
        return self.next_day(("night", bears), lambda: self.night <= bears + 1e-9, spell=False)

    def warm_soil(self, least: float, days: int) -> Positions:
        """The next day from each on with which the soil has been so warm for some days. [deg C, days]"""

        def holds() -> Days:
            warm = np.zeros(len(self.soil) + 1, dtype=np.int64)
            np.cumsum(self.soil >= least, out=warm[1:])
            found = np.zeros(len(self.soil), dtype=bool)
            found[days - 1 :] = warm[days:] - warm[:-days] == days
            return found

        return self.next_day(("warm soil", least, days), holds, spell=False)


def recorded_weather(years: RecordedYears, latitude: float, southern: bool) -> RecordedWeather:
    """The weather of recorded years in the open.

    Parameters
    ----------
    years : RecordedYears
    latitude : float
        For the length of the days. [degrees north]
    southern : bool
    """
    sun, day = sun_of_year(latitude), years.day_of_year
    soil = soil_of((years.low + years.high) / 2)
    return RecordedWeather(
        years, years.low, years.high, soil, years.night, sun.hours[day], sun.light[day], southern
    )


def soil_of(mean: Numbers) -> Numbers:
    """Mean temperature of bare soil at sowing depth, by the mean of the air on the day and on those before it. [deg C]

    Its mean over a year is that of the usual rule, the air's and :data:`SOIL_OVER_AIR`; days that are missing do not count.

    Parameters
    ----------
    mean : ndarray, shape (days,)
        Of the air; NaN where it is missing. [deg C]

    Examples
    --------
    >>> soil_of(np.array([10.0, 12.0, np.nan])).tolist()
    [11.0, 12.0, 12.0]
    """
    known = ~np.isnan(mean)
    total, count = sums(np.where(known, mean, 0.0)), sums(known)
    at = np.arange(1, len(mean) + 1)
    first = np.maximum(at - SOIL_FOLLOWS, 0)
    days = count[at] - count[first]
    found: Numbers = (
        np.where(days > 0, (total[at] - total[first]) / np.maximum(days, 1), np.nan) + SOIL_OVER_AIR
    )
    return found


def most_about(days: Days) -> Days:
    """Whether something holds for most of the days about each: a running median, which leaves what begins once where it is.

    Examples
    --------
    >>> spell = np.arange(60) >= 30
    >>> bool((most_about(spell) == spell).all())
    True
    >>> spell[5] = True  # one day
    >>> int(most_about(spell).argmax())
    30
    """
    half = SPELL // 2
    padded = np.concatenate((np.repeat(days[:1], half), days, np.repeat(days[-1:], half)))
    before = np.zeros(len(padded) + 1, dtype=np.int64)
    np.cumsum(padded, out=before[1:])
    found: Days = before[SPELL:] - before[:-SPELL] > half
    return found


def next_true(days: Days) -> Positions:
    """The next day from each on for which something holds, and :data:`NEVER`; shape (days + 1,).

    Examples
    --------
    >>> next_true(np.array([False, True, False])).tolist() == [1, 1, NEVER, NEVER]
    True
    """
    found = np.full(len(days) + 1, NEVER, dtype=np.int64)
    found[:-1] = np.where(days, np.arange(len(days)), NEVER)
    return np.minimum.accumulate(found[::-1])[::-1]
