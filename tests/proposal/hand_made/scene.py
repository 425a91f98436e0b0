"""A garden told as a scene: beds, what grew in them, wishes for a year, and a layout of that year made by hand."""

from __future__ import annotations

import datetime as dt
import math
import re
from typing import Any, NamedTuple

import shapely

from planner.amounts.eating import appetite
from planner.amounts.enough_for import enough_for
from planner.amounts.yields import planting_yield
from planner.garden import (
    Circle,
    Climate,
    FrostDates,
    Garden,
    Planting,
    Polygon,
    Rectangle,
    Site,
    edits,
)
from planner.garden.wishes import Wish
from planner.plan import Plan

#: Days on which crops of the years before took their plots and were cleared, in the north (practice).
USUAL = {
    "asparagus": ("03-25", ""),
    "aubergine": ("05-25", "10-05"),
    "beetroot": ("04-20", "09-10"),
    "broad_bean": ("03-05", "07-25"),
    "broccoli": ("05-05", "08-20"),
    "brussels_sprouts": ("05-25", "12-20"),
    "cabbage": ("05-05", "09-10"),
    "carrot": ("04-10", "09-20"),
    "cauliflower": ("05-05", "08-10"),
    "celeriac": ("05-20", "11-05"),
    "chard": ("04-20", "10-30"),
    "climbing_bean": ("05-20", "10-05"),
    "courgette": ("05-25", "10-05"),
    "cucumber": ("05-20", "09-25"),
    "dwarf_bean": ("05-20", "08-30"),
    "early_potato": ("04-01", "07-10"),
    "garlic": ("10-15", "+07-15"),
    "kale": ("06-05", "12-20"),
    "kohlrabi": ("04-20", "07-10"),
    "leek": ("06-05", "12-15"),
    "lettuce": ("04-20", "07-05"),
    "melon": ("05-30", "09-25"),
    "okra": ("05-20", "09-30"),
    "onion": ("04-01", "08-20"),
    "parsley": ("04-20", "10-30"),
    "parsnip": ("04-05", "12-10"),
    "pea": ("04-01", "07-15"),
    "potato": ("04-20", "09-10"),
    "radish": ("04-01", "05-15"),
    "rhubarb": ("03-20", ""),
    "spinach": ("03-25", "06-01"),
    "strawberry": ("04-05", ""),
    "sunflower": ("05-10", "09-20"),
    "swede": ("05-25", "11-20"),
    "sweet_corn": ("05-20", "09-15"),
    "sweet_pepper": ("05-25", "10-05"),
    "tomato": ("05-22", "10-05"),
    "turnip": ("07-20", "10-30"),
    "winter_squash": ("05-25", "10-05"),
}
#: How they start, where that is not the first way of the crop.
STARTS = {
    "onion": "sets",
    "lettuce": "raised",
    "pea": "sown",
    "runner_bean": "sown",
    "kale": "raised",
    "parsley": "sown",
}
#: Supports, kind and height in m, of what climbs or leans.
SUPPORTS: dict[str, tuple[str, float]] = {
    "broad_bean": ("stake", 0.9),
    "brussels_sprouts": ("stake", 0.8),
    "climbing_bean": ("frame", 2.0),
    "cucumber": ("net", 1.6),
    "pea": ("sticks", 0.9),
    "runner_bean": ("frame", 2.0),
    "sunflower": ("stake", 1.8),
    "sweet_pepper": ("stake", 0.8),
    "chilli_pepper": ("stake", 0.8),
    "aubergine": ("stake", 0.9),
    "tomato": ("stake", 1.7),
}

#: What is netted from the day it is on its plot: against butterflies, pigeons and root flies.
NETTED = frozenset(
    [
        "broccoli",
        "brussels_sprouts",
        "cabbage",
        "carrot",
        "cauliflower",
        "kale",
        "kohlrabi",
        "pak_choi",
        "parsnip",
        "red_cabbage",
        "savoy_cabbage",
        "sprouting_broccoli",
        "swede",
        "turnip",
        "winter_radish",
    ]
)


class Met(NamedTuple):
    """How much of a wish a layout brings, in the wish's unit; ``asked`` is None where as much as there is room for."""

    wish: Wish
    brought: float
    asked: float | None

    @property
    def verdict(self) -> str:
        """Word of the table: ``met``, ``in part`` or ``not``."""
        if not self.brought:
            return "not"
        return "met" if self.asked is None or self.brought >= 0.95 * self.asked else "in part"


class Scene:
    """A garden that is built up by edits, and beside it the plantings by hand.

    Parameters
    ----------
    name : str
        Of the files.
    year : int
        The growing year to plan.
    site, climate : dict, Climate
    """

    def __init__(self, name: str, year: int, site: dict[str, Any], climate: Climate) -> None:
        self.name, self.year = name, year
        self.garden = Garden(site=Site.model_validate({"name": name, **site}), climate=climate)
        self._by_hand: list[tuple[str, str, dict[str, Any]]] = []

    # -- the garden ------------------------------------------------------------------------------

    def bed(self, name: str, west: float, south: float, across: float, up: float, **fields: Any) -> None:
        """Add a rectangular bed by its south-west corner, its length to the east and to the north. [m]"""
        outline = Rectangle(length=across, width=up, center=(west + across / 2, south + up / 2))
        self.garden, _ = edits.add_bed(self.garden, outline, name, **fields)

    def round_bed(self, name: str, x: float, y: float, radius: float, **fields: Any) -> None:
        """Add a round bed or pot. [m]"""
        self.garden, _ = edits.add_bed(self.garden, Circle(radius=radius, center=(x, y)), name, **fields)

    def drawn_bed(self, name: str, x: float, y: float, *points: tuple[float, float], **fields: Any) -> None:
        """Add a bed by its corners about a place. [m]"""
        self.garden, _ = edits.add_bed(self.garden, Polygon(points=points, center=(x, y)), name, **fields)

    def structure(
        self, kind: Any, west: float, south: float, across: float, up: float, height: float, **fields: Any
    ) -> None:
        """Add a rectangular structure by its south-west corner. [m]"""
        outline = Rectangle(length=across, width=up, center=(west + across / 2, south + up / 2))
        self.garden, _ = edits.add_structure(self.garden, kind, outline, height=height, **fields)

    def id_of(self, bed: str) -> str:
        """Id of a bed by its name."""
        return next(one.id for one in self.garden.beds if one.name == bed)

    def planting_of(self, bed: str, crop: str, year: int) -> str:
        """Id of what grew in a bed, for ``like``."""
        key = self.id_of(bed)
        return next(
            one.id for one in self.garden.plantings if (one.bed, one.crop, one.year) == (key, crop, year)
        )

    def day(self, text: str, year: int | None = None) -> dt.date:
        """A day MM-DD of a growing year, the one after with a plus before; or a whole date."""
        if len(text) == 10:
            return dt.date.fromisoformat(text)
        year = (year or self.year) + text.startswith("+")
        day = text.removeprefix("+")
        return dt.date.fromisoformat(f"{year + (int(day[:2]) < self.garden.site.year_begins)}-{day}")

    def grew(self, bed: str, years: dict[int, str]) -> None:
        """Enter what grew in a bed: ``pea 0-1.2, leek`` are crops, each with its metres along the bed or in the whole of it."""
        for year, text in years.items():
            for one in text.split(", "):
                crop, _, metres = one.partition(" ")
                first, last = USUAL[crop]
                fields: dict[str, Any] = {"first": self._turned(first, year)}
                if last:
                    fields["last"] = self._turned(last, year)
                if metres:
                    start, end = map(float, metres.split("-"))
                    fields["plot"] = {"kind": "stretch", "start": start, "end": end}
                self._add(bed, crop, year, fields)

    def _turned(self, text: str, year: int) -> dt.date:
        """A day of the table, half a year later in the south."""
        if not self.garden.site.southern:
            return self.day(text, year)
        month = (int(text.removeprefix("+")[:2]) + 5) % 12 + 1
        day = min(int(text[-2:]), 28)
        return self.day(f"{'+' * text.startswith('+')}{month:02}-{day:02}", year)

    def _add(self, bed: str, crop: str, year: int, fields: dict[str, Any]) -> str:
        if crop in STARTS:
            fields = {"start": STARTS[crop], **fields}
        self.garden, key = edits.add_planting(self.garden, self.id_of(bed), crop, year, **fields)
        return key

    def stands(
        self,
        bed: str,
        crop: str,
        first: str,
        metres: tuple[float, float] | None = None,
        rows: int | None = None,
        apart: float | None = None,
        **fields: Any,
    ) -> str:
        """Enter what was planted in a year before and still stands, or stands into the year."""
        day = dt.date.fromisoformat(first)
        year = day.year - (day.month < self.garden.site.year_begins)
        if metres:
            fields["plot"] = {"kind": "stretch", "start": metres[0], "end": metres[1]}
        if rows or apart:
            fields["arrangement"] = {"kind": "rows", "rows": rows, "in_row_spacing": apart}
        return self._add(bed, crop, year, {"first": day, "pinned": True, **fields})

    def household(self, persons: float) -> None:
        """Say how many people eat from the garden."""
        self.garden = edits.change_household(self.garden, persons=persons)

    def wish(self, crop: str, amount: float | None, unit: str = "plants", **fields: Any) -> str:
        """Wish for a crop; beds are named, days are MM-DD."""
        for name in ("earliest", "latest", "until"):
            if name in fields:
                fields[name] = self.day(fields[name])
        if "beds" in fields:
            fields["beds"] = tuple(self.id_of(name) for name in fields["beds"])
        self.garden, key = edits.put_wish(
            self.garden, year=self.year, crop=crop, amount=amount, unit=unit, **fields
        )
        return key

    # -- the layout by hand -----------------------------------------------------------------------

    def put(
        self,
        wish: str,
        bed: str,
        first: str,
        last: str = "",
        at: tuple[float, float] | None = None,
        rows: int | None = None,
        apart: float | None = None,
        corners: tuple[tuple[float, float], ...] = (),
        **fields: Any,
    ) -> None:
        """Plant for a wish.

        Parameters
        ----------
        wish : str
            Id of the wish.
        bed : str
            Name of the bed.
        first, last : str
            Days MM-DD on the plot; without the last one it stays as long as it is good.
        at : (float, float), optional
            Metres along the bed; the whole bed where not given.
        rows : int, optional
        apart : float, optional
            In the row. [m]
        corners : tuple of points, optional
            Of a drawn plot, in the bed's coordinates. [m]
        """
        fields["first"] = self.day(first)
        if last:
            fields["last"] = self.day(last)
        if at:
            fields["plot"] = {"kind": "stretch", "start": at[0], "end": at[1]}
        if corners:
            fields["plot"] = {"kind": "region", "points": corners}
        if rows or apart:
            lines: dict[str, Any] = {
                "rows": rows,
                "in_row_spacing": apart,
                "row_spacing": fields.pop("between", None),
            }
            lines["turn"] = fields.pop("turn", 0.0)
            fields.setdefault("arrangement", {"kind": fields.pop("pattern", "rows"), **lines})
        self._by_hand.append((wish, bed, fields))

    def layout(self) -> Garden:
        """The garden with the layout made by hand."""
        garden, wishes = self.garden, {one.id: one for one in self.garden.wishes}
        for key, bed, given in self._by_hand:
            wish, fields = wishes[key], dict(given)
            usual: dict[str, Any] = {"variety": wish.variety, "purpose": wish.purpose}
            if wish.start or wish.crop in STARTS:
                usual["start"] = wish.start or STARTS[wish.crop]
            if wish.crop in SUPPORTS:
                kind, height = SUPPORTS[wish.crop]
                usual["support"] = {"kind": kind, "height": height}
            if wish.crop in NETTED:
                usual["covers"] = ({"kind": "netting"},)
            fields = {**usual, "wish": key, **fields}
            garden, _ = edits.add_planting(garden, self.id_of(bed), wish.crop, self.year, **fields)
        return garden


def ground_used(garden: Garden, year: int) -> float:
    """Share of all beds that plantings take on the fifteenth of July, of January in the south; 0 to 1."""
    plan = Plan(garden, year)
    day = dt.date(year + 1, 1, 15) if garden.site.southern else dt.date(year, 7, 15)
    there = [one for one in garden.plantings if plan.span_of(one).first <= day <= plan.span_of(one).last]
    taken = shapely.union_all([plan.plot_on_plan(one) for one in there]).area
    return float(taken / sum(plan.area(bed) for bed in garden.beds))


def met_by(garden: Garden, year: int) -> tuple[Met, ...]:
    """How much of each wish of a year its plantings bring."""
    plan = Plan(garden, year)
    found = []
    for wish in garden.wishes:
        plantings = [one for one in garden.plantings if one.wish == wish.id]
        brought = sum(_amount(plan, one, wish) for one in plantings)
        found.append(Met(wish, brought, _asked(plan, wish)))
    return tuple(found)


def _amount(plan: Plan, planting: Planting, wish: Wish) -> float:
    placed = plan.placed(planting)
    if wish.unit == "m2" or wish.amount is None:
        return placed.area
    if wish.unit == "m":
        return placed.layout.row_length
    if wish.unit == "plants":
        return placed.plants
    return planting_yield(plan, planting).grams or 0.0


def _asked(plan: Plan, wish: Wish) -> float | None:
    """How much is wished; what people eat in a year or until the day given. [unit of the wish; g of people]"""
    if wish.unit != "people" or wish.amount is None:
        return wish.amount
    if wish.until is not None:
        crop = plan.catalogue.crops[wish.crop]
        return enough_for(plan, crop, wish.amount, wish.until, purpose=wish.purpose).needed.grams
    yearly = appetite(plan.garden, plan.catalogue, wish.crop).yearly
    return None if yearly is None else math.floor(yearly * wish.amount * 1000)


def climate(last: str, first: str, lows: tuple[float, ...], highs: tuple[float, ...], zone: str) -> Climate:
    """A climate from three days of last frosts and of first ones, at 10, 50 and 90 % risk, with a space between."""

    def days(text: str) -> FrostDates:
        one, two, three = re.split(" ", text)
        return FrostDates(risk_10=one, risk_50=two, risk_90=three)

    return Climate(
        last_frost=days(last), first_frost=days(first), monthly_minimum=lows, monthly_maximum=highs, zone=zone
    )
