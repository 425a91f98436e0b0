"""Whether a crop lives through the winter of a garden."""

from __future__ import annotations

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import zone_minimum


def bears_winter(context: DateContext) -> bool:
    """Whether it bears the coldest night of the garden's zone, and so grows on."""
    coldest, bears = zone_minimum(context.climate.zone), context.number("least_night_temperature")
    return (
        not context.tender and coldest is not None and bears is not None and bears <= coldest + practice.BEARS
    )
