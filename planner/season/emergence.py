"""When a planting comes up."""

from __future__ import annotations

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.heat import INDOORS, emergence, emergence_outdoors
from planner.season.planting_dates import Dated


def emergence_day(context: DateContext, sow: Dated | None, on: Dated | None) -> Dated | None:
    """The day it comes up: by the crop's table and the temperature, else after the usual days.

    None of plants that are set out or found grown, and where its start is not known.

    Parameters
    ----------
    context : DateContext
    sow : Dated, optional
        The sowing, indoors or in place.
    on : Dated, optional
        The day it takes its plot, for what is not sown.
    """
    if context.start in ("standing", "bought"):
        return None
    begun = sow or on
    if begun is None:
        return None
    tubers = context.start == "tubers"
    series = context.crop.emergence_days if context.crop and (sow is not None or tubers) else None
    if context.start == "raised":
        days = emergence(series, INDOORS)
        if days is not None:
            why = f"{days:.0f} days at {INDOORS:.0f} °C"
            return Dated(shift(begun.day, days), why, context.source("emergence_days"))
    else:
        outdoors = emergence_outdoors(series, context.climate, begun.day)
        if outdoors is not None:
            why = f"{outdoors} days, judged by the mean air temperature"
            return Dated(shift(begun.day, outdoors), why, context.source("emergence_days"))
    usual = practice.TUBERS_EMERGE if tubers else practice.EMERGENCE
    return Dated(shift(begun.day, usual), f"About {usual} days", "estimate")
