"""Numbers and days as they are printed, in the garden's units."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass

from planner.garden.site import Site, UnitSystem
from planner.garden.soil import Soil
from planner.garden.units import show_area, show_length, show_spacing
from planner.season.spans import Span, year_span
from planner.words import (
    day_words,
    full_day_words,
    key_words,
    later,
    number_words,
    percent,
    say,
    say_in_context,
    short_number,
)

#: Marks a day that was set by hand.
BY_HAND = "*"

#: What a planting is grown for, by its purpose.
PURPOSE_WORDS: dict[str, str] = {
    "kitchen": later("fresh"),
    "store": later("for storing"),
    "bottling": later("for bottling"),
    "drying": later("for drying"),
    "freezing": later("for freezing"),
    "seed": later("for seed"),
    "cutting": later("cut flowers"),
    "green manure": later("green manure"),
    "trial": later("trial"),
}

#: How a planting starts, by the kind of its start.
START_SENTENCES = {
    "sown": later("sown in place"),
    "raised": later("raised, then set out"),
    "bought": later("bought in, then set out"),
    "sets": later("sets"),
    "tubers": later("tubers"),
    "cloves": later("cloves"),
    "crowns": later("crowns"),
    "standing": later("already growing"),
}


def start_words(start: str) -> str:
    """How a planting starts, in a word or two for a table."""
    return key_words("already growing" if start == "standing" else start)


def day(date: dt.date) -> str:
    """A day: ``12 Apr 2026``."""
    return full_day_words(date)


def day_in(date: dt.date, days: Span) -> str:
    """A day without its year where it lies in a span: ``12 Apr``, else ``12 Apr ’27``.

    Parameters
    ----------
    date : date
    days : Span
        The days of which the year goes without saying.
    """
    short = day_words(date)
    return short if days.holds(date) else say("{day} ’{year}", day=short, year=f"{date.year % 100:02d}")


def days_in_short(first: dt.date, last: dt.date) -> str:
    """Days from a first to a last, as short as they can be read: ``3 Mar``, ``3 – 9 Mar``, ``28 Feb – 3 Mar``.

    Parameters
    ----------
    first, last : date
        The years are printed only where they differ.
    """
    end = day_words(last)
    if first == last:
        return end
    if (first.year, first.month) == (last.year, last.month):
        return say(
            "{first} – {last}",
            first=say_in_context("day of the month before a dash", "{day}", day=first.day),
            last=end,
        )
    if first.year != last.year:
        return say("{first} – {last}", first=full_day_words(first), last=full_day_words(last))
    return say("{first} – {last}", first=day_words(first), last=end)


def span(first: dt.date | None, last: dt.date | None) -> str:
    """Days from a first to a last: ``12 Apr 2026 to 3 May 2026``, ``from 12 Apr 2026``, ``until 3 May 2026``.

    Parameters
    ----------
    first, last : date or None
        Either may be open; the text is empty where both are.
    """
    if first and last:
        return say("{first} to {last}", first=day(first), last=day(last))
    if first:
        return say("from {first}", first=day(first))
    return say("until {day}", day=day(last)) if last else ""


def season(site: Site, year: int) -> str:
    """A growing year: ``2026``, or ``2026/27`` where it runs over the new year.

    Parameters
    ----------
    site : Site
        For the month in which its growing year begins.
    year : int
    """
    days = year_span(site, year)
    if days.first.year == days.last.year:
        return f"{year}"
    return f"{days.first.year}/{days.last.year % 100:02d}"


def counted(number: int, one: str, many: str = "") -> str:
    """A number with its noun: ``1 row``, ``4 rows``, ``1,264 seeds``.

    Parameters
    ----------
    number : int
    one : str
        The noun of one.
    many : str, optional
        The noun of several; with an ``s`` by default.
    """
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def _unbroken(text: str) -> str:
    """A number and its unit on one line, by no-break spaces."""
    return text.replace(" ", "\u00a0")


@dataclass(frozen=True)
class Measure:
    """Prints lengths and areas in one unit system.

    Attributes
    ----------
    units : {"metric", "feet_inches"}
    """

    units: UnitSystem

    @property
    def tape_unit(self) -> str:
        """Unit of the bare numbers of :meth:`tape`; empty where each has its own."""
        return "cm" if self.units == "metric" else ""

    def tape(self, metres: float) -> str:
        """A mark on a tape: a number of centimetres, or feet and inches. [m]"""
        if self.units == "metric":
            return short_number(round(metres * 100, 1) + 0.0)
        return _unbroken(show_length(metres, self.units)) if abs(metres) > 1e-4 else "0"

    def tape_with_unit(self, metres: float) -> str:
        """A mark on a tape, always with its unit. [m]"""
        return f"{self.tape(metres)}\u00a0{self.tape_unit}".rstrip()

    def length(self, metres: float) -> str:
        """A length of ground. [m]"""
        return _unbroken(show_length(metres, self.units))

    def spacing(self, metres: float) -> str:
        """A distance between plants, or a depth. [m]"""
        return _unbroken(show_spacing(metres, self.units))

    def area(self, square_metres: float) -> str:
        """An area. [m2]"""
        return _unbroken(show_area(square_metres, self.units))


def soil_words(soil: Soil, length: Callable[[float], str]) -> list[str]:
    """What is known of some soil, each thing in a few words.

    Parameters
    ----------
    soil : Soil
    length : callable
        A length in the garden's units.
    """
    words = []
    if soil.depth:
        words.append(say("soil {depth} deep", depth=length(soil.depth)))
    if soil.texture:
        words.append(key_words(soil.texture))
    if soil.ph is not None:
        words.append(say("pH {ph}", ph=number_words(soil.ph, 1)))
    if soil.organic is not None:
        words.append(say("{share} organic matter", share=percent(soil.organic)))
    contents = [
        f"{sign}\u00a0{number_words(value, 0)}"
        for sign, value in (("P", soil.phosphorus), ("K", soil.potassium), ("Mg", soil.magnesium))
        if value is not None
    ]
    if contents:
        words.append(say("{contents} mg/kg", contents=", ".join(contents)).replace(" mg", "\u00a0mg"))
    if soil.tested is not None and soil.laboratory:
        words.append(say("tested {day} by {whom}", day=full_day_words(soil.tested), whom=soil.laboratory))
    elif soil.tested is not None:
        words.append(say("tested {day}", day=full_day_words(soil.tested)))
    return words
