"""Numbers and days as they are printed, in the garden's units."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.garden.site import Site, UnitSystem
from planner.garden.units import show_area, show_length, show_spacing
from planner.season.spans import Span, year_span

MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

#: Marks a day that was given by hand.
BY_HAND = "*"

START_SENTENCES = {
    "sown": "sown in place",
    "raised": "raised, then set out",
    "bought": "bought in, then set out",
    "sets": "sets",
    "tubers": "tubers",
    "cloves": "cloves",
    "crowns": "crowns",
    "standing": "standing from before",
}


def day(date: dt.date) -> str:
    """A day: ``12 Apr 2026``."""
    return f"{date.day} {MONTHS[date.month - 1]} {date.year}"


def day_in(date: dt.date, days: Span) -> str:
    """A day without its year where it lies in a span: ``12 Apr``, else ``12 Apr ’27``."""
    short = f"{date.day} {MONTHS[date.month - 1]}"
    return short if days.holds(date) else f"{short} ’{date.year % 100:02d}"


def days_in_short(first: dt.date, last: dt.date) -> str:
    """Days from a first to a last, as short as they can be read: ``3 Mar``, ``3 – 9 Mar``, ``28 Feb – 3 Mar``."""
    end = f"{last.day} {MONTHS[last.month - 1]}"
    if first == last:
        return end
    if (first.year, first.month) == (last.year, last.month):
        return f"{first.day} – {end}"
    year = f" {first.year}" if first.year != last.year else ""
    return f"{first.day} {MONTHS[first.month - 1]}{year} – {end}" + (f" {last.year}" if year else "")


def span(first: dt.date | None, last: dt.date | None) -> str:
    """Days from a first to a last of which either may be open; empty where both are."""
    if first and last:
        return f"{day(first)} to {day(last)}"
    if first:
        return f"from {day(first)}"
    return f"until {day(last)}" if last else ""


def season(site: Site, year: int) -> str:
    """A growing year: ``2026``, or ``2026/27`` where it runs over the new year."""
    days = year_span(site, year)
    if days.first.year == days.last.year:
        return f"{year}"
    return f"{days.first.year}/{days.last.year % 100:02d}"


def capital(text: str) -> str:
    """The first letter large."""
    return text[:1].upper() + text[1:]


def counted(number: int, one: str, many: str = "") -> str:
    """A number with its noun: ``1 row``, ``4 rows``, ``1,264 seeds``."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def grams(mass: float) -> str:
    """A mass of seed with two or three figures that count. [g]"""
    if mass >= 1000:
        return f"{mass / 1000:.2f} kg"
    return f"{mass:.0f} g" if mass >= 10 else f"{mass:.1f} g" if mass >= 1 else f"{mass:.2f} g"


def _held(text: str) -> str:
    """A number held to its unit by no-break spaces."""
    return text.replace(" ", "\u00a0")


@dataclass(frozen=True)
class Measure:
    """Lengths as printed in one unit system."""

    units: UnitSystem

    @property
    def tape_unit(self) -> str:
        """What the bare numbers of :meth:`tape` count; empty where each has its unit."""
        return "cm" if self.units == "metric" else ""

    def tape(self, metres: float) -> str:
        """A mark on a tape: a number of centimetres, or feet and inches."""
        if self.units == "metric":
            text = f"{metres * 100:.1f}"
            return text.removesuffix(".0") if text != "-0.0" else "0"
        return _held(show_length(metres, self.units)) if abs(metres) > 1e-4 else "0"

    def tape_with_unit(self, metres: float) -> str:
        """The same, always with its unit."""
        return f"{self.tape(metres)}\u00a0{self.tape_unit}".rstrip()

    def length(self, metres: float) -> str:
        """A length of ground."""
        return _held(show_length(metres, self.units))

    def spacing(self, metres: float) -> str:
        """A distance between plants, or a depth."""
        return _held(show_spacing(metres, self.units))

    def area(self, square_metres: float) -> str:
        """An area."""
        return _held(show_area(square_metres, self.units))
