"""The weather of readings: impossible values left out, doubts in words, and what cannot be used refused."""

from __future__ import annotations

import datetime as dt

import numpy as np

from planner.importing.weather_readings import ELEMENTS, Element, Readings
from planner.season.daily_weather import Numbers, Weather, WeatherError
from planner.words import number_words, say, whole_words

#: Most days of a table: 400 years.
MOST_DAYS = 146_100
#: Colder than any place on earth has been. [deg C]
COLDEST = -90.0
#: Warmer than any place on earth has been. [deg C]
WARMEST = 60.0
#: More than has been measured in 24 hours: 1,825 mm, Foc-Foc, La Réunion, 1966 (WMO, weather and climate extremes). [mm]
MOST_RAIN = 1_850.0
#: More evapotranspiration of a day is impossible: it would take 50 MJ/m2, more than the sun sends (estimate). [mm]
MOST_EVAPOTRANSPIRATION = 20.0
#: Share of lines that may be unreadable or impossible before the whole table is refused.
MOST_BAD = 0.05
#: Share of the days of two files that may differ by more than a degree before they are taken for two stations.
MOST_DIFFERENT = 0.5
#: Fewer days in both of two files tell nothing. [days]
LEAST_COMMON = 30


def refuse_unreadable(found: Readings, where: str) -> None:
    """Refuse a file of which too many lines cannot be read.

    Parameters
    ----------
    found : Readings
    where : str
        Name of the table for the message of an error.

    Raises
    ------
    WeatherError
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


def refuse_two_stations(one: Readings, other: Readings, where: str) -> None:
    """Refuse a file without the name of its station whose days differ from those of another file.

    Parameters
    ----------
    one, other : Readings
    where : str
        Name of the second file.

    Raises
    ------
    WeatherError
    """
    if one.station.id and one.station.id == other.station.id:
        return
    for element in ("low", "high"):
        if element not in one.days or element not in other.days:
            continue
        days, at, there = np.intersect1d(
            np.concatenate(one.days[element]), np.concatenate(other.days[element]), return_indices=True
        )
        if len(days) < LEAST_COMMON:
            continue
        apart = np.abs(np.concatenate(one.values[element])[at] - np.concatenate(other.values[element])[there])
        differ = int(np.count_nonzero(apart > 1.0))
        if differ > MOST_DIFFERENT * len(days):
            raise WeatherError(
                say(
                    "differs from the file before it on {differ} of {days} days that both have: they are of two stations",
                    differ=whole_words(differ),
                    days=whole_words(len(days)),
                ),
                where,
                say("Choose the files of one station"),
            )


def checked(found: Readings, where: str) -> Weather:
    """The weather of readings, without impossible values, with notes; refuse what cannot be used.

    Parameters
    ----------
    found : Readings
    where : str
        Name of the table for the message of an error.

    Raises
    ------
    WeatherError
    """
    if "low" not in found.days:
        raise WeatherError(
            say("holds no daily minimum"), where, say("Choose a table with minimum temperatures")
        )
    first = min(int(part.min()) for parts in found.days.values() for part in parts)
    last = max(int(part.max()) for parts in found.days.values() for part in parts)
    span = last - first + 1
    if span > MOST_DAYS:
        raise WeatherError(
            say("runs over {number} years", number=span // 365),
            where,
            say("Choose a table of at most 400 years"),
        )
    by_day, twice = {}, 0
    for element in ELEMENTS:
        by_day[element], more = _by_day(found, element, first, span)
        twice += more
    low, high = by_day["low"], by_day["high"]
    possible_low, possible_high, left_out = _without_impossible(low, high, where)
    rain, wrong_rain = _without_impossible_depths(by_day["rain"], MOST_RAIN)
    water, wrong_water = _without_impossible_depths(by_day["evapotranspiration"], MOST_EVAPOTRANSPIRATION)
    notes = list(found.notes)
    if left_out:
        notes.append(say("{left_out} impossible values were left out", left_out=whole_words(left_out)))
    if wrong_rain:
        notes.append(say("{count} impossible values of rain were left out", count=whole_words(wrong_rain)))
    if wrong_water:
        notes.append(
            say(
                "{count} impossible values of evapotranspiration were left out",
                count=whole_words(wrong_water),
            )
        )
    notes += _doubts_about_unit(
        possible_low,
        possible_high,
        int(np.count_nonzero(~np.isnan(low))),
        int(np.count_nonzero(~np.isnan(low) & ~np.isnan(high))),
    )
    if rain is not None:
        notes += _doubts_about_rain(rain)
    if found.bad:
        notes.append(say("{bad} lines could not be read and were left out", bad=whole_words(found.bad)))
    if found.flagged:
        notes.append(
            say("{flagged} values with a quality flag were left out", flagged=whole_words(found.flagged))
        )
    if twice:
        notes.append(
            say(
                "{twice} days are given twice with different values; the first counts",
                twice=whole_words(twice),
            )
        )
    begin = dt.date.fromordinal(first)
    return Weather(begin, possible_low, possible_high, tuple(notes), rain, water)


def _by_day(found: Readings, element: Element, first: int, span: int) -> tuple[Numbers, int]:
    """Values of an element by day, the first of a day that has several, and how many differ from that.

    Parameters
    ----------
    found : Readings
    element : str
    first : int
        Ordinal of the first day.
    span : int
        [days]
    """
    by_day = np.full(span, np.nan)
    if element not in found.days:
        return by_day, 0
    at = np.concatenate(found.days[element]) - first
    values = np.concatenate(found.values[element])
    by_day[at[::-1]] = values[::-1]  # of several of one day the last assigned stays: the first read
    return by_day, int(np.count_nonzero(by_day[at] != values))


def _without_impossible_depths(depths: Numbers, most: float) -> tuple[Numbers | None, int]:
    """Depths of water with NaN for impossible ones, and how many there were; None where nothing was measured.

    Parameters
    ----------
    depths : numpy.ndarray
        [mm]
    most : float
        [mm]
    """
    with np.errstate(invalid="ignore"):
        wrong = (depths < 0) | (depths > most)
    kept = np.where(wrong, np.nan, depths)
    return (None if np.isnan(kept).all() else kept), int(np.count_nonzero(wrong))


def _doubts_about_rain(rain: Numbers) -> list[str]:
    """Sentences where a year has more rain than any place, or hardly any.

    The wettest place has about 12 m a year (Mawsynram and Cherrapunji, India: 11.8 m).

    Parameters
    ----------
    rain : numpy.ndarray
        [mm]
    """
    known = rain[~np.isnan(rain)]
    if len(known) < 300:
        return []
    year = float(known.mean()) * 365.25
    if 20 <= year <= 12_000:
        return []
    return [
        say(
            "Its rain would be {amount} mm a year: look whether the unit is right",
            amount=whole_words(round(year)),
        )
    ]


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
