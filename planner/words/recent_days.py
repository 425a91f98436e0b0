"""Days that have been, as people type them: ``today``, ``Tuesday``, ``3 days ago``, ``the 3rd``, ``3 May``."""

from __future__ import annotations

import datetime as dt
import re

from planner.words.catalogue import later, say
from planner.words.dates import full_day_words
from planner.words.typed_days import DayError, date_as_typed, folded, read_typed_day

#: A day without a year that is to come within so many days is not taken for that of the year before; one of the next calendar
#: year within fewer: in November, 1 March is the one that has been. [days]
SOON, SOON_NEXT_YEAR = 92, 14
#: Days of the week from Monday, in English, German, French and Spanish (Unicode CLDR), without accents.
_WEEKDAYS = (
    "monday tuesday wednesday thursday friday saturday sunday",
    "montag dienstag mittwoch donnerstag freitag samstag sonntag",
    "lundi mardi mercredi jeudi vendredi samedi dimanche",
    "lunes martes miercoles jueves viernes sabado domingo",
)
_LEAST_LETTERS = 3
#: Words for days not long gone: how many days ago they were.  A night is called by the evening on which it began.
_TODAY = {
    **dict.fromkeys(
        ("today", "this morning", "at noon", "this afternoon", "this evening", "tonight", "just now"), 0
    ),
    **dict.fromkeys(("heute", "heute morgen", "heute fruh", "aujourd'hui", "hoy"), 0),
    **dict.fromkeys(("yesterday", "yesterday morning", "yesterday evening", "last night", "last evening"), 1),
    **dict.fromkeys(("gestern", "gestern abend", "letzte nacht", "hier", "ayer"), 1),
    **dict.fromkeys(("the day before yesterday", "day before yesterday", "vorgestern"), 2),
    **dict.fromkeys(("a fortnight ago", "vor vierzehn tagen"), 14),
}
#: Whole numbers by their words, as days and weeks are counted back.
_COUNTS = {
    word: number
    for words in ("a two three four five six seven eight nine ten", "one", "einer zwei drei vier funf sechs sieben acht neun zehn", "einem")
    for number, word in enumerate(words.split(), start=1)
}  # fmt: skip
#: Single words that name a day.
DAY_WORDS = (*(word for word in _TODAY if " " not in word), *" ".join(_WEEKDAYS).split())
_AGO = re.compile(r"(?:(\w{1,6}) (day|week)s? ago|vor (\w{1,6}) (tag|woche)(?:e?n)?)")
_OF_THE_MONTH = re.compile(r"(?:the )?(\d{1,2})(?:st|nd|rd|th)")
_FIX = later("Type one like Tuesday, 3 May or 2026-05-03")


def recent_day_as_typed(text: str, today: dt.date, *, month_first: bool = False) -> dt.date:
    """Read a day that has been, as typed.

    A day of the week is the last one up to today, and so is a day without a year.

    Parameters
    ----------
    text : str
    today : date
    month_first : bool
        Whether ``4/5`` is the fifth of April; else it is the fourth of May.

    Raises
    ------
    DayError
        Where it is none, or is still to come.

    Examples
    --------
    >>> wednesday = dt.date(2026, 6, 10)
    >>> [recent_day_as_typed(text, wednesday).isoformat() for text in ("Tuesday", "3 days ago", "3 May", "the 12th")]
    ['2026-06-09', '2026-06-07', '2026-05-03', '2026-05-12']
    """
    plain = " ".join(folded(text).replace("’", "'").split())
    ago = days_ago(plain, today)
    if ago is not None:
        return today - dt.timedelta(days=ago)
    typed = read_typed_day(text, month_first=month_first)
    if typed.year is not None:
        day = date_as_typed(text, today, month_first=month_first)
        if day > today:
            raise DayError(say("{day} is still to come", day=full_day_words(day)), fix=say(_FIX))
        return day
    year = today - dt.timedelta(days=364)
    day = date_as_typed(text, year, month_first=month_first)
    coming = date_as_typed(text, today, month_first=month_first)
    soon = SOON if coming.year == today.year else SOON_NEXT_YEAR
    if today < coming <= today + dt.timedelta(days=soon):
        raise DayError(
            say("{day} is still to come", day=full_day_words(coming)),
            fix=say("Add the year where another one is meant"),
        )
    return day


def days_ago(plain: str, today: dt.date) -> int | None:
    """How many days ago a day of the week, of the month, or counted back was; None where it is none of these.

    Parameters
    ----------
    plain : str
        In lower case, without accents.
    today : date
    """
    if plain in _TODAY:
        return _TODAY[plain]
    counted, of_month = _AGO.fullmatch(plain), _OF_THE_MONTH.fullmatch(plain)
    if counted:
        number, unit = counted[1] or counted[3], counted[2] or counted[4]
        count = int(number) if number.isdecimal() and len(number) < 4 else _COUNTS.get(number)
        return None if count is None else count * (7 if unit in ("week", "woche") else 1)
    if of_month:
        return _to_day_of_month(int(of_month[1]), today)
    name = plain.removeprefix("last ")
    weekday = _weekday(name)
    if weekday is None:
        return None
    since = (today.weekday() - weekday) % 7
    return since or (7 if name != plain else 0)


def names_recent_day(plain: str) -> bool:
    """Whether words in lower case, without accents, name a day by themselves: ``last night``, ``a week ago``.

    Parameters
    ----------
    plain : str
    """
    return plain in _TODAY or _AGO.fullmatch(plain) is not None or is_weekday(plain.removeprefix("last "))


def is_weekday(plain: str) -> bool:
    """Whether a word in lower case, without accents, is a whole name of a day of the week."""
    return any(plain in names.split() for names in _WEEKDAYS)


def _weekday(name: str) -> int | None:
    if len(name) < _LEAST_LETTERS:
        return None
    found = {
        number for names in _WEEKDAYS for number, full in enumerate(names.split()) if full.startswith(name)
    }
    return found.pop() if len(found) == 1 else None


def _to_day_of_month(number: int, today: dt.date) -> int | None:
    for ago in range(62):
        if (today - dt.timedelta(days=ago)).day == number:
            return ago
    return None
