"""Readings of a weather table as they come, and the weather they make once they are checked."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field

import numpy as np

from planner.season.daily_weather import Numbers, Weather, WeatherError
from planner.words import number_words, say, whole_words

#: Most days of a table: 400 years.
MOST_DAYS = 146_100
#: Colder than any place on earth has been. [deg C]
COLDEST = -90.0
#: Warmer than any place on earth has been. [deg C]
WARMEST = 60.0
#: Share of lines that may be unreadable or impossible before the whole table is refused.
MOST_BAD = 0.05


@dataclass
class Readings:
    """Values by day as they are read, and how many lines and values were not usable.

    Attributes
    ----------
    low, high : dict of date to float
        [deg C]
    lines, bad : int
        Lines read, and lines or values that could not be understood.
    twice : int
        Days given again with another value.
    flagged : int
        Values left out for a quality flag.
    """

    low: dict[dt.date, float] = field(default_factory=dict)
    high: dict[dt.date, float] = field(default_factory=dict)
    lines: int = 0
    bad: int = 0
    twice: int = 0
    flagged: int = 0

    def put(self, which: dict[dt.date, float], day: dt.date, value: float) -> None:
        """Enter a value of a day, the first one where a table gives several that differ.

        Parameters
        ----------
        which : dict of date to float
            ``low`` or ``high``.
        day : date
        value : float
            [deg C]
        """
        if day in which and which[day] != value:
            self.twice += 1
            return
        which[day] = value


def checked(found: Readings, where: str) -> Weather:
    """The weather of readings, without impossible values, with notes; refuse what cannot be used.

    Parameters
    ----------
    found : Readings
    where : str
        Name of the table for the message of an error.
    """
    if found.lines and found.bad > MOST_BAD * found.lines:
        raise WeatherError(
            say(
                "{bad} of {lines} lines cannot be read as a day and its temperatures",
                bad=whole_words(found.bad),
                lines=whole_words(found.lines),
            ),
            where,
            say("Choose other columns, or another file"),
        )
    if not found.low:
        raise WeatherError(
            say("holds no daily minimum"), where, say("Choose a table with minimum temperatures")
        )
    days = sorted(found.low.keys() | found.high.keys())
    span = (days[-1] - days[0]).days + 1
    if span > MOST_DAYS:
        raise WeatherError(
            say("runs over {number} years", number=span // 365),
            where,
            say("Choose a table of at most 400 years"),
        )
    low, high = np.full(span, np.nan), np.full(span, np.nan)
    for readings, values in ((found.low, low), (found.high, high)):
        for day, value in readings.items():
            values[(day - days[0]).days] = value
    possible_low, possible_high, left_out = _without_impossible(low, high, where)
    notes = (
        [say("{left_out} impossible values were left out", left_out=whole_words(left_out))]
        if left_out
        else []
    )
    notes += _doubts_about_unit(
        possible_low,
        possible_high,
        int(np.count_nonzero(~np.isnan(low))),
        int(np.count_nonzero(~np.isnan(low) & ~np.isnan(high))),
    )
    if found.bad:
        notes.append(say("{bad} lines could not be read and were left out", bad=whole_words(found.bad)))
    if found.flagged:
        notes.append(
            say("{flagged} values with a quality flag were left out", flagged=whole_words(found.flagged))
        )
    if found.twice:
        notes.append(
            say(
                "{twice} days are given twice with different values; the first counts",
                twice=whole_words(found.twice),
            )
        )
    return Weather(days[0], possible_low, possible_high, tuple(notes))


def _without_impossible(low: Numbers, high: Numbers, where: str) -> tuple[Numbers, Numbers, int]:
    """Minimum and maximum with NaN for impossible values, and how many there were.

    A table with many of them is refused: it is in another unit, or its columns are swapped.

    Parameters
    ----------
    low, high : numpy.ndarray
        [deg C]
    where : str
        Name of the table for the message of an error.
    """
    with np.errstate(invalid="ignore"):
        out_low, out_high = (low < COLDEST) | (low > WARMEST), (high < COLDEST) | (high > WARMEST)
        wrong = low > high + 0.05
    known = np.count_nonzero(~np.isnan(low))
    out = int(np.count_nonzero(out_low) + np.count_nonzero(out_high))
    if out > 0.01 * known or float(np.nanmedian(low)) > 35 or float(np.nanmin(low)) > 30:
        warmest = float(np.nanmax(np.concatenate([low, high])))
        raise WeatherError(
            say(
                "cannot be in the unit chosen: {warmest} °C would be its warmest reading",
                warmest=number_words(warmest, 0),
            ),
            where,
            say("Choose degrees F, C or tenths of C"),
        )
    both = int(np.count_nonzero(~np.isnan(low) & ~np.isnan(high)))
    if both and np.count_nonzero(wrong) > 0.02 * both:
        raise WeatherError(
            say(
                "its minimum is above its maximum on {days} days",
                days=whole_words(int(np.count_nonzero(wrong))),
            ),
            where,
            say("Swap the columns"),
        )
    left_out = out + int(np.count_nonzero(wrong & ~out_low & ~out_high))
    return np.where(out_low | wrong, np.nan, low), np.where(out_high | wrong, np.nan, high), left_out


def _doubts_about_unit(low: Numbers, high: Numbers, known: int, both: int) -> list[str]:
    """Sentences where a year or more hardly changes, or is too cold for any place where things grow.

    Parameters
    ----------
    low, high : numpy.ndarray
        [deg C]
    known, both : int
        Days with a minimum, and with minimum and maximum, impossible ones too.
    """
    if len(low) < 365 or known <= 300:
        return []
    notes = []
    spread = float(np.nanquantile(low, 0.98) - np.nanquantile(low, 0.02))
    if spread < 4:
        notes.append(say("The temperatures hardly change over the year: look whether the unit is right"))
    top = float(np.nanquantile(high if both > 300 else low, 0.98))
    if top < 4 if both > 300 else top < -5:
        notes.append(
            say(
                "Its warmest days reach only {top} °C: look whether the unit is right",
                top=number_words(top, 0),
            )
        )
    return notes
