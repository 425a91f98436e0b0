"""Numbers and days as they are printed, in the garden's units."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from planner.garden.site import Site, UnitSystem
from planner.garden.units import show_area, show_length, show_spacing
from planner.season.spans import year_span

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

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

#: Boxes to tick, in the order of the work.
TICKS = {
    "sown": ("sown", "came up", "thinned"),
    "raised": ("sown", "pricked out", "hardened off", "set out"),
    "bought": ("got", "hardened off", "set out"),
    "sets": ("got", "planted", "came up"),
    "tubers": ("got", "planted", "came up"),
    "cloves": ("got", "planted", "came up"),
    "crowns": ("got", "planted", "came up"),
    "standing": ("looked over",),
}


def day(date: dt.date) -> str:
    """A day: ``12 Apr 2026``."""
    return f"{date.day} {_MONTHS[date.month - 1]} {date.year}"


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
