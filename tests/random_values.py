"""Values drawn at random for gardens and the arguments of edits."""

from __future__ import annotations

import datetime as dt
import math
import random
import typing
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

from shapes_zoo import RINGS

from planner.crops.vocabulary import GrowthForm, LifeCycle
from planner.garden import (
    Band,
    Bed,
    Bench,
    Circle,
    Climate,
    Cover,
    Dressing,
    Eaten,
    FrostDates,
    Garden,
    Household,
    Lot,
    Model,
    Offer,
    Outline,
    OwnCrop,
    OwnFigure,
    OwnSource,
    OwnWord,
    Planting,
    PlantingStock,
    Polygon,
    Raising,
    Rectangle,
    ShedItem,
    Site,
    Soil,
    SoilRule,
    StorePlace,
    Structure,
    Variety,
)
from planner.garden.beds import BedKind, BedSide, StructureKind
from planner.garden.household import StoreKind
from planner.garden.learned import LearnedChoice, LearnedKind, Learning
from planner.garden.materials import MaterialKind, SpreadKind
from planner.garden.offers import StockKind
from planner.garden.planting import (
    CameFrom,
    CoverHeld,
    CoverKind,
    Purpose,
    Sowing,
    Start,
    State,
    SupportKind,
    Timing,
)
from planner.garden.raising import BenchKind
from planner.garden.underlay import Underlay
from planner.garden.weather_years import WeatherYear, WeatherYears, packed
from planner.garden.wishes import LayoutWeights, Weight

T = TypeVar("T")

#: Crops of the shipped catalogue that differ in how they start, live, climb and are harvested.
CROPS = ("carrot", "lettuce", "pea", "tomato", "potato", "garlic", "leek", "sweet_corn", "climbing_bean",
         "courgette", "asparagus", "raspberry", "strawberry", "winter_rye")  # fmt: skip
#: Names of own varieties; plantings draw from the same ones, so that some of them name a variety.
VARIETIES = ("", "Early", "Late", "Old Faithful")
YEAR = 2026
YEARS = (YEAR - 1, YEAR, YEAR, YEAR, YEAR + 1)
#: Numbers that no edit accepts for a place, a size or an angle, or that lie at a limit.
NONSENSE_NUMBERS = (math.nan, math.inf, 1e9, 0.0, -1.0)
NONSENSE_NAMES = ("", "\n", "x" * 250)

#: Mean daily minimum and maximum by month in two northern places. [deg C]
COOL = (
    (0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    (6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
WARM = (
    (0.4, 0.4, 1.5, 3.0, 8.6, 12.5, 14.4, 14.2, 11.3, 7.6, 2.7, 0.6),
    (6.5, 7.1, 9.1, 11.8, 17.9, 21.4, 23.1, 22.8, 19.2, 14.6, 9.0, 6.7),
)
LAST_FROSTS = (
    None,
    FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    FrostDates(risk_90="03-20", risk_50="04-10", risk_10="04-30"),
    FrostDates(risk_50="04-25"),
)
FIRST_FROSTS = (
    None,
    FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    FrostDates(risk_10="10-10", risk_50="11-01", risk_90="11-20"),
    FrostDates(risk_10="10-05", risk_90="11-02"),
)


@dataclass
class Draw:
    """Random arguments for one edit of a garden.

    Attributes
    ----------
    rng : random.Random
    garden : Garden
        The garden to be edited; ids are drawn from it.
    nonsense : float
        Chance of each number, id and name to be one that the edit must refuse. [0 to 1]
    findings : sequence of str
        Keys of findings to waive; made-up keys where there are none.
    """

    rng: random.Random
    garden: Garden
    nonsense: float = 0.0
    findings: Sequence[str] = field(default=())

    def chance(self, share: float) -> bool:
        """True in that share of the draws. [0 to 1]"""
        return self.rng.random() < share

    def one_of(self, values: Iterable[T]) -> T:
        """One of some values."""
        return self.rng.choice(list(values))

    def word(self, literal: Any) -> str:
        """One of the words of a ``Literal``."""
        return self.one_of(typing.get_args(literal))

    def number(self, low: float, high: float) -> float:
        """A number from ``low`` to ``high``, or nonsense."""
        if self.chance(self.nonsense):
            return self.one_of(NONSENSE_NUMBERS)
        return round(self.rng.uniform(low, high), 3)

    def key(self, things: Iterable[Any]) -> str:
        """The id of one of some things; one that the garden does not have where there are none, or as nonsense."""
        keys = [thing.id for thing in things]
        return "none" if not keys or self.chance(self.nonsense) else self.one_of(keys)

    def keys(self, things: Iterable[Any], most: int = 2) -> list[str]:
        """One to ``most`` ids, perhaps the same one twice."""
        things = list(things)
        return [self.key(things) for _ in range(self.rng.randint(1, most))]

    def name(self, *names: str) -> str:
        """One of some names, or nonsense."""
        return self.one_of(NONSENSE_NAMES if self.chance(self.nonsense) else names)

    def day(self, year: int = YEAR) -> dt.date:
        """A day from the autumn before a year to the spring after it."""
        return dt.date(year, 1, 1) + dt.timedelta(self.rng.randint(-90, 450))

    def day_or_none(self) -> dt.date | None:
        """A day, or None in half of the draws."""
        return self.day() if self.chance(0.5) else None

    def point(self) -> tuple[float, float]:
        """A place near the middle of a bed, in its coordinates. [m]"""
        return self.number(-2, 2), self.number(-0.6, 0.6)

    def outline(self) -> Outline:
        """The outline of a bed near the others."""
        center = (round(self.rng.uniform(-6, 6), 3), round(self.rng.uniform(-6, 6), 3))
        turn = self.one_of((0.0, 0.0, 30.0, 90.0, 250.5))
        shape = self.rng.random()
        if shape < 0.6:
            length, width = round(self.rng.uniform(0.3, 6), 3), round(self.rng.uniform(0.3, 2), 3)
            return Rectangle(length=length, width=width, center=center, turn=turn)
        if shape < 0.8:
            return Circle(radius=round(self.rng.uniform(0.2, 1.5), 3), center=center)
        if shape < 0.88:
            corner, end = round(self.rng.uniform(1, 3), 3), round(self.rng.uniform(0.8, 2), 3)
            return Band(line=((0, 0), (corner, 0), (corner, end)), width=0.6, center=center, turn=turn)
        return Polygon(points=tuple(RINGS[self.one_of(sorted(RINGS))]), center=center, turn=turn)

    def plot(self) -> dict[str, Any]:
        """A plot: the whole bed, a stretch of it or a drawn region."""
        kind = self.rng.random()
        if kind < 0.3:
            return {"kind": "whole"}
        start, long = self.number(0, 3), self.number(0.2, 2)
        if kind < 0.8:
            return {"kind": "stretch", "start": start, "end": start + long}
        x, y = start - 2, self.number(-0.5, 0.2)
        return {"kind": "region", "points": [(x, y), (x + long, y), (x + long, y + 0.5), (x, y + 0.5)]}

    def arrangement(self) -> dict[str, Any]:
        """Rows, staggered rows, scattered plants or single places."""
        kind = self.one_of(("rows", "rows", "staggered", "scatter", "places"))
        if kind == "scatter":
            return {"kind": kind, "density": self.number(4, 60)}
        if kind == "places":
            return {"kind": kind, "points": [self.point() for _ in range(self.rng.randint(1, 5))]}
        spacing = self.one_of((None, 0.1, 0.25, 0.5))
        rows = self.one_of((None, None, 1, 3))
        turn = self.one_of((0.0, 0.0, 90.0, 20.0))
        lines = {"in_row_spacing": spacing, "row_spacing": spacing, "rows": rows, "turn": turn}
        return {"kind": kind, "spacing_for": self.one_of(("field rows", "beds")), **lines}

    def support(self) -> dict[str, Any] | None:
        """A support along the rows or along a drawn line, or none."""
        if self.chance(0.3):
            return None
        line = ((-1.5, 0.1), (1.5, 0.1)) if self.chance(0.5) else ()
        lines = self.one_of((None, None, 1, 3))
        return {"kind": self.word(SupportKind), "height": self.number(0.4, 2.4), "line": line, "lines": lines}

    def covers(self) -> tuple[Cover, ...]:
        """No cover or one, with or without its days."""
        if self.chance(0.3):
            return ()
        first = self.day_or_none()
        last = first + dt.timedelta(self.rng.randint(0, 90)) if first else None
        held = self.one_of((None, *typing.get_args(CoverHeld)))
        height = self.one_of((None, None, 0.4, 0.9))
        weight, mesh = self.one_of((None, 17.0, 30.0)), self.one_of((None, 0.0008))
        kind: Any = self.word(CoverKind)
        return (Cover(kind=kind, first=first, last=last, held=held, height=height, weight=weight, mesh=mesh),)

    def pins(self) -> dict[str, Any]:
        """Pinned dates in order: none, one or two."""
        sow = self.day()
        dates = {"sow": sow, "set_out": sow + dt.timedelta(40), "first_harvest": sow + dt.timedelta(100)}
        chosen = [name for name in dates if self.chance(0.4)]
        return {name: dates[name] for name in chosen}


def _opacity(draw: Draw) -> tuple[float, ...]:
    if draw.chance(0.3):
        return ()
    return (draw.number(0, 1),) if draw.chance(0.5) else (0.2,) * 4 + (draw.number(0.3, 1),) * 6 + (0.2,) * 2


#: Two years in which every day is like the others.
_WEATHER_YEARS = tuple(
    WeatherYear(year=year, low=packed([40] * 365), high=packed([120] * 365)) for year in (2021, 2022)
)
FIGURES: dict[str, tuple[float, float]] = {
    "in_row_spacing": (0.05, 0.5),
    "height": (0.2, 2.5),
    "spread": (0.1, 1.0),
    "days_to_maturity": (40, 120),
    "sun_hours": (2, 8),
}


def _figures(draw: Draw) -> tuple[OwnFigure, ...]:
    chosen = [name for name in FIGURES if draw.chance(0.3)]
    return tuple(OwnFigure(field=name, value=round(draw.rng.uniform(*FIGURES[name]), 3)) for name in chosen)


def _access(draw: Draw) -> tuple[str, ...]:
    return tuple(side for side in typing.get_args(BedSide) if draw.chance(0.6))


def _bed_name(draw: Draw) -> str:
    return draw.name("Bed 1", "Long", f"Bed {draw.rng.randint(1, 99)}")


def _year_in_use(draw: Draw) -> int | None:
    return draw.one_of((None, None, YEAR - 1, YEAR, YEAR + 1))


def _monthly(which: int) -> Callable[[Draw], Any]:
    return lambda draw: draw.one_of((None, COOL[which], WARM[which]))


def _words(draw: Draw) -> tuple[OwnWord, ...]:
    hardy = OwnWord(field="hardiness", words=(draw.one_of(("tender", "very hardy")),), source="own_packet")
    starts = OwnWord(field="starts", words=("sown", "raised"))
    return draw.one_of(((), (hardy,), (hardy, starts)))


def _soil(draw: Draw) -> Soil:
    tested = draw.one_of((None, dt.date(YEAR, 2, 10)))
    return Soil(
        texture=draw.one_of((None, "loam", "clay")),
        ph=draw.one_of((None, 4.8, 6.5, 7.9)),
        depth=draw.one_of((None, 0.15, 0.4)),
        tested=tested,
    )


def _raising(draw: Draw) -> Raising | None:
    return draw.one_of(
        (
            None,
            None,
            Raising(way="cells", cells=128),
            Raising(way="pots", width=0.11),
            Raising(way="pricked out"),
            Raising(way="pricked out", width=0.09),
            Raising(way="blocks"),
            Raising(way="nursery bed"),
        )
    )


#: Values for each field of a model that an edit can change, by the field's name.
FIELDS: dict[type[Model], dict[str, Callable[[Draw], Any]]] = {
    Bed: {
        "name": _bed_name,
        "outline": Draw.outline,
        "kind": lambda draw: draw.word(BedKind),
        "height": lambda draw: draw.number(0, 0.9),
        "depth": lambda draw: draw.one_of((None, 0.2, 0.4)),
        "kept_above": lambda draw: draw.one_of((None, None, 4.0, 10.0)),
        "access": _access,
        "soil": _soil,
        "drip_lines": lambda draw: draw.chance(0.3),
        "notes": lambda draw: draw.one_of(("", "heavy clay")),
        "first_year": _year_in_use,
        "last_year": _year_in_use,
        "locked": lambda draw: draw.chance(0.2),
    },
    Structure: {
        "kind": lambda draw: draw.word(StructureKind),
        "name": lambda draw: draw.one_of(("", "South wall")),
        "outline": Draw.outline,
        "height": lambda draw: draw.number(0.3, 4),
        "material": lambda draw: draw.one_of(("", "bare_frame", "deciduous", "straw")),
        "opacity": _opacity,
        "stem": lambda draw: draw.one_of((0.0, 0.0, 1.5)),
        "clearance": lambda draw: draw.number(0, 0.5),
        "foot": lambda draw: draw.number(0.05, 0.3),
        "clear_height": lambda draw: draw.number(1.8, 2.4),
        "notes": lambda draw: draw.one_of(("", "to be painted")),
        "first_year": _year_in_use,
        "last_year": _year_in_use,
        "locked": lambda draw: draw.chance(0.2),
    },
    WeatherYears: {
        "station": lambda draw: draw.one_of(("", "Old mill")),
        "origin": lambda draw: draw.one_of(("", "the weather service, open terms")),
        "latitude": lambda draw: draw.one_of((None, 48.0)),
        "longitude": lambda draw: draw.one_of((None, -3.5)),
        "elevation": lambda draw: draw.one_of((None, 40.0)),
        "years": lambda draw: _WEATHER_YEARS[draw.one_of((0, 1, 2)) :],
    },
    Underlay: {
        "path": lambda draw: draw.one_of(("", "plans/old_map.png", "../map.png")),
        "sha256": lambda draw: draw.one_of(("", "0" * 64)),
        "page": lambda draw: draw.one_of((1, 1, 3)),
        "center": Draw.point,
        "width": lambda draw: draw.number(0.5, 90),
        "turn": lambda draw: draw.number(-30, 200),
        "strength": lambda draw: draw.number(0.0, 1),
        "locked": lambda draw: draw.chance(0.5),
        "hidden": lambda draw: draw.chance(0.5),
    },
    Planting: {
        "bed": lambda draw: draw.key(draw.garden.beds),
        "crop": lambda draw: draw.one_of(CROPS),
        "variety": lambda draw: draw.one_of(VARIETIES),
        "product": lambda draw: draw.one_of(("", "dry seed", "green seed")),
        "plot": Draw.plot,
        "arrangement": Draw.arrangement,
        "year": lambda draw: draw.one_of(YEARS),
        "first": Draw.day_or_none,
        "last": Draw.day_or_none,
        "pinned_dates": Draw.pins,
        "timing": lambda draw: draw.one_of((None, *typing.get_args(Timing))),
        "series": lambda draw: draw.one_of((None, "series1")),
        "replaces": lambda draw: draw.one_of((None, *(one.id for one in draw.garden.plantings))),
        "wish": lambda draw: draw.one_of((None, *(one.id for one in draw.garden.wishes))),
        "repeats": lambda draw: draw.one_of((None, *(one.id for one in draw.garden.plantings))),
        "came_from": lambda draw: draw.one_of((None, *typing.get_args(CameFrom))),
        "start": lambda draw: draw.one_of((None, *typing.get_args(Start))),
        "state": lambda draw: draw.one_of((None, *typing.get_args(State))),
        "soil_rule": lambda draw: draw.one_of(
            (None, None, SoilRule(warmth=draw.one_of((8.0, 12.5)), days=3, after=dt.date(2026, 5, 5)))
        ),
        "sowing": lambda draw: draw.one_of((None, *typing.get_args(Sowing))),
        "raising": _raising,
        "covers": Draw.covers,
        "support": Draw.support,
        "purpose": lambda draw: draw.word(Purpose),
        "tended_by": lambda draw: draw.one_of(("", "class 4b")),
        "shares_ground": lambda draw: draw.chance(0.5),
        "notes": lambda draw: draw.one_of(("", "from the neighbour")),
        "pinned": lambda draw: draw.chance(0.5),
    },
    Variety: {
        "crop": lambda draw: draw.one_of(CROPS),
        "name": lambda draw: draw.name(*VARIETIES[1:]),
        "figures": _figures,
        "words": _words,
        "notes": lambda draw: draw.one_of(("", "swapped")),
    },
    OwnSource: {
        "title": lambda draw: draw.name("Packet", "Grandmother's book"),
        "author": lambda draw: draw.one_of(("", "Doe J")),
        "agency": lambda draw: draw.one_of(("", "Seed house")),
        "year": lambda draw: draw.one_of((None, 1999)),
    },
    Household: {
        "persons": lambda draw: draw.one_of((0.0, 1.0, 2.5, 4.0)),
        "eats": lambda draw: (Eaten(crop=draw.one_of(CROPS), kilograms=draw.one_of((0.0, 2.5))),),
    },
    StorePlace: {
        "name": lambda draw: draw.name("Cellar", "Clamp", "Fridge"),
        "kind": lambda draw: draw.word(StoreKind),
        "temperature": lambda draw: draw.one_of((None, 2.0, 8.5)),
        "humidity": lambda draw: draw.one_of((None, 0.6, 0.95)),
        "crops": lambda draw: draw.one_of(((), (draw.one_of(CROPS),))),
        "notes": lambda draw: draw.one_of(("", "mice")),
    },
    OwnCrop: {
        "name": lambda draw: draw.name("Sea beet", "Tree onion"),
        "like": lambda draw: draw.one_of(("", "carrot", "lettuce", "gone")),
        "latin": lambda draw: draw.one_of(("", "Beta vulgaris")),
        "family": lambda draw: draw.one_of(("", "Amaranthaceae")),
        "life_cycle": lambda draw: draw.word(LifeCycle),
        "growth_form": lambda draw: draw.word(GrowthForm),
        "figures": _figures,
        "words": _words,
        "notes": lambda draw: draw.one_of(("", "from the shore")),
    },
    Lot: {
        "crop": lambda draw: draw.one_of(CROPS),
        "variety": lambda draw: draw.one_of(VARIETIES),
        "seeds": lambda draw: draw.one_of((None, 0, 40, 5_000)),
        "grams": lambda draw: draw.one_of((None, 0.5, 20.0)),
        "packed": lambda draw: draw.one_of((None, YEAR - 8, YEAR - 1)),
        "germination": lambda draw: draw.one_of((None, 0.3, 0.9)),
        "counted": Draw.day_or_none,
        "saved_from": lambda draw: draw.one_of((None, "p1")),
        "ordered": lambda draw: draw.chance(0.3),
        "notes": lambda draw: draw.one_of(("", "half a packet")),
    },
    PlantingStock: {
        "crop": lambda draw: draw.one_of(CROPS),
        "variety": lambda draw: draw.one_of(VARIETIES),
        "kind": lambda draw: draw.word(StockKind),
        "number": lambda draw: draw.one_of((0, 20, 400)),
        "year": lambda draw: draw.one_of((None, *YEARS)),
        "ordered": lambda draw: draw.chance(0.3),
        "notes": lambda draw: draw.one_of(("", "in the cellar")),
    },
    Offer: {
        "crop": lambda draw: draw.one_of(CROPS),
        "variety": lambda draw: draw.one_of(VARIETIES),
        "kind": lambda draw: draw.one_of(("seed", "seed", *typing.get_args(StockKind))),
        "seeds": lambda draw: draw.one_of((None, 50, 800)),
        "grams": lambda draw: draw.one_of((None, 0.5, 1_000.0)),
        "pieces": lambda draw: draw.one_of((None, None, 12)),
        "price": lambda draw: draw.one_of((None, 0.0, 2.35)),
        "shop": lambda draw: draw.one_of(("", "market, second stall")),
        "notes": lambda draw: draw.one_of(("", "untreated")),
    },
    Bench: {
        "name": lambda draw: draw.name("Windowsill", "South bench"),
        "kind": lambda draw: draw.word(BenchKind),
        "length": lambda draw: draw.number(0.3, 3.0),
        "width": lambda draw: draw.number(0.2, 1.0),
        "notes": lambda draw: draw.one_of(("", "lamp above")),
    },
    Dressing: {
        "bed": lambda draw: draw.key(draw.garden.beds),
        "planting": lambda draw: draw.one_of((None, draw.key(draw.garden.plantings))),
        "kind": lambda draw: draw.word(SpreadKind),
        "day": Draw.day,
        "depth": lambda draw: draw.one_of((None, draw.number(0.01, 0.2))),
        "rate": lambda draw: draw.one_of((None, 100.0, 3_000.0)),
        "done": lambda draw: draw.day() if draw.chance(0.3) else None,
        "notes": lambda draw: draw.one_of(("", "well rotted")),
    },
    ShedItem: {
        "kind": lambda draw: draw.word(MaterialKind),
        "number": lambda draw: draw.one_of((0, 1, 12)),
        "length": lambda draw: draw.one_of((None, draw.number(1, 30))),
        "width": lambda draw: draw.one_of((None, 1.5, 2.1)),
        "weight": lambda draw: draw.one_of((None, 17.0)),
        "mesh": lambda draw: draw.one_of((None, 0.0008, 0.007)),
        "cells": lambda draw: draw.one_of((None, 72)),
        "litres": lambda draw: draw.one_of((None, 40.0)),
        "grams": lambda draw: draw.one_of((None, 5_000.0)),
        "sold": lambda draw: draw.chance(0.3),
        "ordered": lambda draw: draw.chance(0.2),
        "since": Draw.day_or_none,
        "uncut": lambda draw: draw.chance(0.3),
        "price": lambda draw: draw.one_of((None, 12.5)),
        "shop": lambda draw: draw.one_of(("", "builders' yard")),
        "name": lambda draw: draw.one_of(("", "old net")),
        "notes": lambda draw: draw.one_of(("", "torn")),
    },
    Site: {
        "name": lambda draw: draw.name("Garden", "Allotment 7"),
        "known_as": lambda draw: draw.one_of(("", "Old yard")),
        "latitude": lambda draw: draw.one_of((None, 56.0, 40.0, -41.0)),
        "longitude": lambda draw: draw.one_of((None, -3.0, 174.0)),
        "elevation": lambda draw: draw.one_of((None, 0.0, 900.0)),
        "time_zone": lambda draw: draw.one_of(("", "Europe/London")),
        "bearing_up": lambda draw: draw.one_of((0.0, 45.0, 200.0)),
        "outline": lambda draw: draw.one_of((None, Rectangle(length=30, width=20))),
        "units": lambda draw: draw.one_of(("metric", "feet_inches")),
        "crop_names": lambda draw: draw.one_of((None, "british", "american")),
        "first_month": lambda draw: draw.one_of((None, 1, 4, 7, 12)),
        "reach": lambda draw: draw.number(0.3, 0.8),
        "path_width": lambda draw: draw.number(0.3, 0.9),
        "currency": lambda draw: draw.one_of(("", "€")),
        "layout_weights": lambda draw: LayoutWeights(shade=draw.word(Weight), covers=draw.word(Weight)),
        "learned": lambda draw: Learning(
            use=draw.one_of(("after three years", "never")),
            choices=(LearnedChoice(crop=draw.one_of(CROPS), figure=draw.word(LearnedKind), used=draw.chance(0.7)),),
        ),
        "soil": _soil,
        "walk": lambda draw: draw.one_of(((), ("b2", "b1"), ("b1", "gone"))),
    },
    Climate: {
        "last_frost": lambda draw: draw.one_of(LAST_FROSTS),
        "first_frost": lambda draw: draw.one_of(FIRST_FROSTS),
        "risk": lambda draw: draw.one_of((10, 50, 90)),
        "frost_free": lambda draw: draw.chance(0.1),
        "years": lambda draw: draw.one_of((None, 30)),
        "origin": lambda draw: draw.one_of(("", "by hand")),
        "zone": lambda draw: draw.one_of(("", "8b", "5a")),
        "monthly_minimum": _monthly(0),
        "monthly_maximum": _monthly(1),
    },
}  # fmt: skip
