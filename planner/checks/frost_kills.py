"""What cold kills a planting, by its stage: young plants, grown ones, blossom and curds, roots in the ground."""

from __future__ import annotations

from typing import NamedTuple

from planner.checks.frame.planting_view import PlantingView

#: Cold that a young plant bears where only that of its grown plants is known: not more than this (practice). [deg C]
YOUNG_AT_LEAST = -6.0
#: What ends a harvest of fruit or of heads, which cold kills sooner than leaves.
_OF_FLOWERS = ("after weeks", "with frost", "at once")


class Bears(NamedTuple):
    """Cold that a planting bears, and the figure that says so. [deg C]"""

    temperature: float
    field: str


def young_bear(view: PlantingView) -> Bears | None:
    """Cold that its young plants bear, at most 0; None where nothing is known.

    Parameters
    ----------
    view : PlantingView
    """
    if view.tender_shoots:
        return Bears(0.0, "hardiness")
    young = view.number("kills_young")
    if young is not None:
        return Bears(min(young, 0.0), "kills_young")
    if view.tender:
        return Bears(0.0, "hardiness")
    grown = view.number("least_night_temperature")
    if grown is None:
        return None
    hardy = view.very_hardy or grown >= YOUNG_AT_LEAST
    return Bears(min(grown if hardy else YOUNG_AT_LEAST, 0.0), "least_night_temperature")


def harvest_bears(view: PlantingView) -> Bears | None:
    """Cold that what is picked of it bears, at most 0; None where nothing is known.

    Parameters
    ----------
    view : PlantingView
    """
    if view.tender:
        return Bears(0.0, "hardiness")
    grown, flower = view.number("least_night_temperature"), view.number("kills_flower")
    ends = view.crop.harvest_ends.value if view.crop is not None and view.crop.harvest_ends else ""
    if flower is not None and ends in _OF_FLOWERS and (grown is None or flower > grown):
        return Bears(min(flower, 0.0), "kills_flower")
    return Bears(min(grown, 0.0), "least_night_temperature") if grown is not None else None
