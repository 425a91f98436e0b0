"""Gardens with records of several years, for tests of what is learned from them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from making import bed, planting, rectangle

from planner.garden import Climate, Garden, Site
from planner.garden.edits import add_records

#: Mean minimum and maximum by month of a cool northern place, and its frosts. [deg C]
COOL = Climate.model_validate(
    {
        "last_frost": {"risk_50": "05-01"},
        "first_frost": {"risk_50": "10-15"},
        "monthly_minimum": (0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
        "monthly_maximum": (6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
        "zone": "8a",
    }
)


def garden_of_years(crop: str, years: Mapping[int, Mapping[str, Any]], **fields: Any) -> Garden:
    """A garden with one planting of a crop a year, in beds side by side, and its records.

    A year gives the days ``sow``, ``up``, ``first``, ``last``, ``end`` (month, day); ``grams`` by (month, day); ``why`` it ended,
    ``planting`` fields of its own, and ``share`` that came up.
    """
    beds, plantings, records = [], [], []
    for number, (year, told) in enumerate(years.items()):
        key, there = f"p{number}", f"b{number}"
        beds.append(bed(there, rectangle(4.0, 1.2, center=(0.0, 2.0 * number))))
        plantings.append(
            planting(key, there, crop=crop, year=year, **{"start": "sown", **told.get("planting", {})})
        )

        def day(pair: tuple[int, int], year: int = year) -> dt.date:
            return dt.date(year, *pair)

        if "sow" in told:
            task = "sow" if plantings[-1].start == "sown" else "set out"
            records.append({"kind": "done", "task": task, "planting": key, "day": day(told["sow"])})
        for field, kind in (("up", "came up"), ("first", "first picking"), ("last", "last picking")):
            if field in told:
                more = {"share": told["share"]} if field == "up" and "share" in told else {}
                records.append({"kind": kind, "planting": key, "day": day(told[field]), **more})
        for picked, grams in told.get("grams", {}).items():
            amount = {"value": grams, "unit": "g"}
            records.append({"kind": "picked", "planting": key, "day": day(picked), "amount": amount})
        if "end" in told:
            why = told.get("why", "harvested")
            records.append({"kind": "ended", "planting": key, "day": day(told["end"]), "why": why})
    site = fields.pop("site", Site(latitude=56.0))
    garden = Garden(site=site, climate=COOL, beds=tuple(beds), plantings=tuple(plantings), **fields)
    return add_records(garden, records)[0]
