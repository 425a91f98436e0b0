"""Days as they are written in a sentence."""

from __future__ import annotations

import datetime as dt

from planner.words.catalogue import later, say

MONTHS = (
    later("January"), later("February"), later("March"), later("April"), later("May"), later("June"),
    later("July"), later("August"), later("September"), later("October"), later("November"), later("December"),
)  # fmt: skip
WEEKDAYS = (
    later("Mon"), later("Tue"), later("Wed"), later("Thu"), later("Fri"), later("Sat"), later("Sun"),
)  # fmt: skip
SHORT_MONTHS = (
    later("Jan"), later("Feb"), later("Mar"), later("Apr"), later("May"), later("Jun"),
    later("Jul"), later("Aug"), later("Sep"), later("Oct"), later("Nov"), later("Dec"),
)  # fmt: skip


def month_words(month: int, *, short: bool = False) -> str:
    """The name of a month, from 1 for January.

    Examples
    --------
    >>> month_words(4), month_words(4, short=True)
    ('April', 'Apr')
    """
    return say(SHORT_MONTHS[month - 1]) if short else say(MONTHS[month - 1])


def day_words(day: dt.date, year: int | None = None) -> str:
    """A day in a sentence, with its year where that is not the one spoken of.

    Parameters
    ----------
    day : date
    year : int, optional
        The calendar year that goes without saying; the day's own by default.

    Examples
    --------
    >>> day_words(dt.date(2026, 4, 20)), day_words(dt.date(2026, 4, 20), 2025)
    ('20 Apr', '20 Apr 2026')
    """
    month = month_words(day.month, short=True)
    if year is None or day.year == year:
        return say("{day} {month}", day=day.day, month=month)
    return say("{day} {month} {year}", day=day.day, month=month, year=day.year)


def full_day_words(day: dt.date) -> str:
    """A day with its year.

    Examples
    --------
    >>> full_day_words(dt.date(2026, 8, 3))
    '3 Aug 2026'
    """
    return say("{day} {month} {year}", day=day.day, month=month_words(day.month, short=True), year=day.year)


def weekday_words(day: dt.date) -> str:
    """The day of the week, in short.

    Examples
    --------
    >>> weekday_words(dt.date(2026, 8, 3))
    'Mon'
    """
    return say(WEEKDAYS[day.weekday()])


def moment_words(moment: dt.datetime, *, seconds: bool = False) -> str:
    """A day with its year and the time of day.

    Examples
    --------
    >>> moment_words(dt.datetime(2026, 8, 3, 7, 5))
    '3 Aug 2026, 07:05'
    """
    time = f"{moment:%H:%M:%S}" if seconds else f"{moment:%H:%M}"
    return say("{day}, {time}", day=full_day_words(moment.date()), time=time)


def day_of_year_words(day: str) -> str:
    """A day of every year in a sentence.

    Parameters
    ----------
    day : str
        MM-DD.

    Examples
    --------
    >>> day_of_year_words("05-09")
    '9 May'
    """
    return day_words(dt.date(2000, int(day[:2]), int(day[3:])))
