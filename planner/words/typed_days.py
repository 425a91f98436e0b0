"""Days as people type them: ``25 Apr``, ``25.4.``, ``4/25``, ``2027-04-25``, ``25 April 2027``.

The order of day and month is taken from what is typed wherever that leaves no doubt:

- a name of a month is the month, whatever comes first;
- a number above 12 is the day;
- numbers with dots are day and month (``5.4.`` is the fifth of April);
- a year of four digits in front is followed by month and day, as in ISO 8601 (``2027-04-05``); two numbers of two
  digits with a hyphen are month and day as well (``04-05``), as in garden files.

Only what is left, ``4/5``, is read in the order that the caller gives.
"""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from typing import NamedTuple

from planner.errors import BedwrightError
from planner.words.catalogue import say
from planner.words.dates import day_words, month_words

#: First and last year of a day in a garden.
YEARS = (1800, 2400)

#: Names of months, in the order of the year, in English, German, French and Spanish (Unicode CLDR).
_NAMES = (
    "january february march april may june july august september october november december",
    "januar februar marz april mai juni juli august september oktober november dezember",
    "janvier fevrier mars avril mai juin juillet aout septembre octobre novembre decembre",
    "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre",
)
#: Letters from which on a beginning of a name is understood.
_LEAST_LETTERS = 3
_DASHES = str.maketrans(dict.fromkeys("‐‑‒–—−", "-"))
_ISO = re.compile(
    r"(?P<year>\d{4})(?:"
    r"-?[wW](?P<week>\d{2})-?(?P<weekday>[1-7])"
    r"|-?(?P<ordinal>\d{3})"
    r"|(?P<month>\d{2})(?P<day>\d{2})"
    r"|(?P<mark>[-/.])(?P<month_1>\d{1,2})(?P=mark)(?P<day_1>\d{1,2}))"
)
_NO_YEAR = re.compile(r"--(\d{2})-?(\d{2})")
_NUMBERS = re.compile(
    r"(?P<one>\d{1,2})\s*(?P<mark>[./-])\s*(?P<two>\d{1,2})"
    r"(?:\s*(?P=mark)\s*(?P<year>\d{4}|\d{2})|\s*\.\s*(?P<spaced>\d{4})|(?P<dot>\.))?"
)
_DAY = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?")


class DayError(BedwrightError):
    """What was typed is no day."""


class NoSuchDayError(DayError):
    """What was typed looks like a day, and no calendar has it."""


class TypedDay(NamedTuple):
    """A day as typed.

    Attributes
    ----------
    month, day : int
    year : int or None
        None where none was typed; below 100 where two digits were.
    """

    month: int
    day: int
    year: int | None = None


def read_typed_day(text: str, *, month_first: bool = False) -> TypedDay:
    """Read a day as typed; see the module for the rules.

    Parameters
    ----------
    text : str
    month_first : bool
        Whether ``4/5`` is the fifth of April; else it is the fourth of May.

    Raises
    ------
    DayError
        Where it is none.

    Examples
    --------
    >>> read_typed_day("25 Apr"), read_typed_day("4/25/2027")
    (TypedDay(month=4, day=25, year=None), TypedDay(month=4, day=25, year=2027))
    >>> read_typed_day("4/5", month_first=True)
    TypedDay(month=4, day=5, year=None)
    """
    plain = folded(text)
    found = _iso(plain) or _numbers(plain, month_first) or _named(plain)
    if found is None:
        raise DayError(say("'{text}' is no day", text=text.strip()), fix=_example(month_first))
    try:
        dt.date(2000, found.month, found.day)
    except ValueError:
        raise NoSuchDayError(
            say("'{text}' is a day that no calendar has", text=text.strip()), fix=_example(month_first)
        ) from None
    return found


def date_as_typed(text: str, begins: dt.date, *, month_first: bool = False) -> dt.date:
    """Read a date as typed; a day without a year is the first such day from the beginning of a growing year.

    Parameters
    ----------
    text : str
    begins : date
        A year of two digits is the one nearest to it.
    month_first : bool
        Whether ``4/5`` is the fifth of April; else it is the fourth of May.

    Raises
    ------
    DayError
        Where it is none, or lies outside :data:`YEARS`.

    Examples
    --------
    >>> date_as_typed("25 Apr", dt.date(2026, 10, 1))
    datetime.date(2027, 4, 25)
    """
    typed = read_typed_day(text, month_first=month_first)
    year = typed.year
    if year is None:
        return _next_on_or_after(typed, begins)
    if year < 100:
        year += 100 * round((begins.year - year) / 100)
    if not YEARS[0] <= year <= YEARS[1]:
        raise DayError(
            say("{year} is no year of a garden", year=year),
            fix=say("Take one from {first} to {last}", first=YEARS[0], last=YEARS[1]),
        )
    return _in_year(typed, year)


def day_of_year_as_typed(text: str, *, month_first: bool = False) -> str:
    """Read a day of every year as typed, as MM-DD.

    Parameters
    ----------
    text : str
    month_first : bool
        Whether ``4/5`` is the fifth of April; else it is the fourth of May.

    Raises
    ------
    DayError
        Where it is none, or has a year.

    Examples
    --------
    >>> day_of_year_as_typed("9 May")
    '05-09'
    """
    try:
        typed = read_typed_day(text, month_first=month_first)
    except DayError as error:
        example = say("Type one like 25 Apr or 4/25") if month_first else say("Type one like 25 Apr or 25.4.")
        raise DayError(error.what, fix=example) from None
    if typed.year is not None:
        day = day_words(dt.date(2000, typed.month, typed.day))
        raise DayError(
            say("'{text}' has a year, and this day holds for every year", text=text.strip()),
            fix=say("Type {day}", day=day),
        )
    return f"{typed.month:02d}-{typed.day:02d}"


def _next_on_or_after(typed: TypedDay, begins: dt.date) -> dt.date:
    year = begins.year + ((typed.month, typed.day) < (begins.month, begins.day))
    return _in_year(typed, year)


def _in_year(typed: TypedDay, year: int) -> dt.date:
    try:
        return dt.date(year, typed.month, typed.day)
    except ValueError:  # 29 February: the day was checked in a leap year
        raise DayError(
            say("{year} has no 29 February", year=year), fix=say("Take the 28th, or the first of March")
        ) from None


def _example(month_first: bool) -> str:
    if month_first:
        return say("Type one like 25 Apr, 4/25 or 2027-04-25")
    return say("Type one like 25 Apr, 25.4. or 2027-04-25")


def folded(text: str) -> str:
    """Lower case without accents; every dash a hyphen."""
    letters = unicodedata.normalize("NFKD", text.strip().translate(_DASHES).casefold())
    return "".join(sign for sign in letters if not unicodedata.combining(sign))


def _iso(plain: str) -> TypedDay | None:
    """A date of ISO 8601: calendar, ordinal or week date, basic or extended; or month and day of no year."""
    if match := _NO_YEAR.fullmatch(plain):
        return TypedDay(int(match[1]), int(match[2]))
    match = _ISO.fullmatch(plain)
    if match is None:
        return None
    year = int(match["year"])
    try:
        if match["week"]:
            day = dt.date.fromisocalendar(year, int(match["week"]), int(match["weekday"]))
        elif match["ordinal"]:
            day = dt.date(year, 1, 1) + dt.timedelta(days=int(match["ordinal"]) - 1)
            if not int(match["ordinal"]) or day.year != year:
                return None
        else:
            month, number = (match["month"] or match["month_1"]), (match["day"] or match["day_1"])
            return TypedDay(int(month), int(number), year)
    except (ValueError, OverflowError):
        return None
    return TypedDay(day.month, day.day, day.year)


def _numbers(plain: str, month_first: bool) -> TypedDay | None:
    """Day and month as two numbers, with or without a year."""
    match = _NUMBERS.fullmatch(plain)
    if match is None or ((match["dot"] or match["spaced"]) and match["mark"] != "."):
        return None
    one, two = int(match["one"]), int(match["two"])
    year = match["year"] or match["spaced"]
    if match["mark"] == "-" and year and len(match["one"] + match["two"] + year) == 6:
        return None  # 27-04-25: the year may be at either end
    if match["mark"] == ".":
        month_first = False
    elif match["mark"] == "-" and year is None and len(match["one"]) == len(match["two"]) == 2:
        month_first = True
    if one > 12 or two > 12:
        month_first = two > 12
    month, day = (one, two) if month_first else (two, one)
    return TypedDay(month, day, int(year) if year else None)


def _named(plain: str) -> TypedDay | None:
    """Day and month by its name, in either order, with or without a year."""
    words = re.findall(r"\d+(?:st|nd|rd|th)(?![a-z])|\d+|[^\W\d_]+", plain)
    words = [word for word in words if word not in ("of", "the")]
    if len(words) == 3 and re.fullmatch(r"\d{4}", words[0]):
        words = [*words[1:], words[0]]
    if len(words) not in (2, 3) or re.search(r"[^\w\s.,/'’-]", plain):
        return None
    year = words[2] if len(words) == 3 else None
    if year is not None and not re.fullmatch(r"\d{4}|\d{2}", year):
        return None
    for number, name in (words[:2], words[1::-1]):
        day, month = _DAY.fullmatch(number), _month(name)
        if day and month:
            return TypedDay(month, int(day[1]), int(year) if year else None)
    return None


def _month(name: str) -> int | None:
    """The month that a name, or the beginning of one, can only mean."""
    if len(name) < _LEAST_LETTERS:
        return None
    spoken = (
        [folded(month_words(month, short=short)).rstrip(".") for month in range(1, 13)]
        for short in (False, True)
    )
    languages = [names.split() for names in _NAMES]
    found = {
        number
        for names in (*languages, *spoken)
        for number, full in enumerate(names, start=1)
        if full.startswith(name)
    }
    return found.pop() if len(found) == 1 else None
