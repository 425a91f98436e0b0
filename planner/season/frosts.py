"""Frost dates of a growing year, at the risk the gardener plans with; north and south."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from planner.garden import Climate, FrostDates, Site
from planner.garden.site import Risk
from planner.words import day_words, later, say, short_number
from planner.words.dates import day_of_year_words

#: First and last day to which a day is moved, as ordinals; a year is left at both ends of the calendar.
_EARLIEST, _LATEST = dt.date(2, 1, 1).toordinal(), dt.date(9998, 12, 31).toordinal()

_STANDS_IN = {
    "last_frost": later(
        "The last frost of spring is not given at {risk} % risk; the day at {known} %, {day}, stands for it"
    ),
    "first_frost": later(
        "The first frost of autumn is not given at {risk} % risk; the day at {known} %, {day}, stands for it"
    ),
}


def shift(day: dt.date, days: float) -> dt.date:
    """Move a day by a number of days, staying within the calendar.

    Parameters
    ----------
    day : date
    days : float
        Later, earlier where negative; rounded to whole days. [days]
    """
    at = day.toordinal() + round(days)
    if at < _EARLIEST or at > _LATEST:  # asked thousands of times an edit: no calls of min and max
        at = _EARLIEST if at < _EARLIEST else _LATEST
    return dt.date.fromordinal(at)


@lru_cache(maxsize=4096)
def day_in(text: str, year: int) -> dt.date:
    """A day MM-DD in a calendar year; 29 February is the 28th in a year without one.

    Parameters
    ----------
    text : str
    year : int
        Held within the calendar, 1 to 9999.
    """
    month, day = int(text[:2]), int(text[3:])
    year = min(max(year, dt.MINYEAR), dt.MAXYEAR)
    try:
        return dt.date(year, month, day)
    except ValueError:
        return dt.date(year, month, day - 1)


def day_within(text: str, first: dt.date) -> dt.date:
    """The next day MM-DD, on or after a day."""
    here = day_in(text, first.year)
    return here if here >= first else day_in(text, first.year + 1)


@dataclass(frozen=True)
class Frosts:
    """Frost dates around a growing year at one risk.

    Attributes
    ----------
    risk : int
        Chance of frost after ``last``, and before ``first``. [%]
    last : date or None
        Last spring frost of the growing year; None where it is unknown or no frost comes.
    first : date or None
        First autumn frost after it.
    autumn : date or None
        First autumn frost that lies within the growing year.
    frost_free : bool
        No frost comes in any year.
    last_of_any_year, first_of_any_year : str
        The two days as MM-DD; empty where they are not known.
    """

    risk: int
    last: dt.date | None
    first: dt.date | None
    autumn: dt.date | None
    frost_free: bool = False
    last_of_any_year: str = ""
    first_of_any_year: str = ""

    def last_after(self, day: dt.date) -> dt.date | None:
        """The next last spring frost on or after a day."""
        return day_within(self.last_of_any_year, day) if self.last_of_any_year else None

    def first_after(self, day: dt.date) -> dt.date | None:
        """The next first autumn frost on or after a day."""
        return day_within(self.first_of_any_year, day) if self.first_of_any_year else None


def frost_day(dates: FrostDates | None, risk: Risk) -> str:
    """The day MM-DD at a risk, or at the nearest one that is given; empty where none is known.

    Parameters
    ----------
    dates : FrostDates, optional
    risk : int
        [%]
    """
    return dates.at(risk) if dates is not None else ""


def frosts(site: Site, climate: Climate, year: int, risk: Risk | None = None) -> Frosts:
    """Frost dates of a growing year.

    Parameters
    ----------
    site : Site
    climate : Climate
    year : int
        The growing year, named after the calendar year it begins in.
    risk : int, optional
        The climate's own by default. [%]
    """
    at = climate.risk if risk is None else risk
    begins = dt.date(year, site.year_begins, 1)
    spring, autumn = frost_day(climate.last_frost, at), frost_day(climate.first_frost, at)
    last = day_within(spring, begins) if spring else None
    return Frosts(
        risk=at,
        last=last,
        first=day_within(autumn, last or begins) if autumn else None,
        autumn=day_within(autumn, begins) if autumn else None,
        frost_free=climate.frost_free,
        last_of_any_year=spring,
        first_of_any_year=autumn,
    )


def zone_minimum(zone: str) -> float | None:
    """Warmer bound of the mean yearly minimum of a USDA zone (usda_phzm2023). [deg C]

    Examples
    --------
    >>> round(zone_minimum("8b"), 1)
    -6.7
    """
    match = re.fullmatch(r"\s*(\d{1,2})\s*([ab]?)\s*", zone.casefold())
    if not match or not 1 <= int(match[1]) <= 13:
        return None
    top = -60 + 10 * int(match[1]) - (5 if match[2] == "a" else 0)
    return (top - 32) / 1.8


def zone_floor(zone: float) -> float:
    """Colder bound of the mean yearly minimum of a zone given as a number, 7.5 for 7b (usda_phzm2023). [deg C]

    Examples
    --------
    >>> round(zone_floor(7.0), 1), round(zone_floor(7.5), 1)
    (-17.8, -15.0)
    """
    return (-60 + 10 * (zone - 1) - 32) / 1.8


def climate_doubts(site: Site, climate: Climate) -> tuple[str, ...]:
    """What looks wrong in a climate, or stands for what is not known, a sentence each; empty where nothing does.

    Parameters
    ----------
    site : Site
        Its latitude says in which half of the year summer lies.
    climate : Climate
    """
    return (*_stand_ins(climate), *_odd_seasons(site, climate))


def _stand_ins(climate: Climate) -> Iterator[str]:
    """Frosts that are not given at the risk planned with."""
    for which in _STANDS_IN:
        dates: FrostDates | None = getattr(climate, which)
        if dates is not None and climate.risk not in dates.given:
            taken = dates.at(climate.risk)
            known = next(risk for risk, day in dates.given.items() if day == taken)
            day = day_of_year_words(taken)
            yield say(_STANDS_IN[which], risk=climate.risk, known=known, day=day)


def _odd_seasons(site: Site, climate: Climate) -> Iterator[str]:
    """A growing season in the wrong half of the year, or one of a few days."""
    if climate.last_frost is None or climate.first_frost is None or site.latitude is None:
        return
    spring, autumn = climate.last_frost.at(50), climate.first_frost.at(50)
    last = day_in(spring, 2025)
    season = (day_within(autumn, last) - last).days
    middle = shift(last, season / 2)
    summer = day_in("01-15" if site.southern else "07-15", middle.year)
    off = min(abs((middle - summer).days + k * 365) for k in (-1, 0, 1))
    if off > 100 and abs(site.latitude) > 23.5:
        day, degrees = day_words(last), short_number(abs(site.latitude))
        if site.southern:
            yield say(
                "The last frost of spring is on {day}, yet the garden lies {degrees} degrees south: "
                "the two frosts look swapped, or the latitude has the wrong sign",
                day=day,
                degrees=degrees,
            )
        else:
            yield say(
                "The last frost of spring is on {day}, yet the garden lies {degrees} degrees north: "
                "the two frosts look swapped, or the latitude has the wrong sign",
                day=day,
                degrees=degrees,
            )
    elif season < 30:
        yield say("Only {days} days lie between the last and the first frost", days=season)
