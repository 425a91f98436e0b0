"""Cold that kills a planting, by its stage: young plants, grown ones, blossom and heads.

The figures are those of the crops (``hardiness.csv`` of the references): temperatures of the air, of plants that are hardened.
Bulbs in the ground are held against the coldest night of the zone in which their crop is said to live.
"""

from __future__ import annotations

from typing import NamedTuple

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import zone_floor
from planner.season.harvest_end import mode_of

#: Cold that a young plant bears where only that of its grown plants is known: not more than this (practice). [deg C]
YOUNG_AT_LEAST = -6.0
#: Starts that lie in the ground, which the coldest nights do not reach (practice).
IN_THE_GROUND = ("cloves", "sets")
#: What ends a harvest of fruit or of heads, which cold kills sooner than leaves.
OF_FLOWERS = ("after weeks", "with frost", "at once")


class KillingCold(NamedTuple):
    """Temperatures that a planting just bears, at most 0; None where none is known, or cold does it no lasting harm. [deg C]

    Attributes
    ----------
    young : float or None
        Until it has half of its warmth; None of shoots that grow again from a tuber.
    grown : float or None
        From then on.
    flower : float or None
        Of blossom and heads, from flowering or the first picking on.
    """

    young: float | None
    grown: float | None
    flower: float | None


def killing_cold(context: DateContext) -> KillingCold:
    """What a planting bears at each stage."""
    flower = context.number("kills_flower")
    flower = min(flower, 0.0) if flower is not None and mode_of(context) in OF_FLOWERS else None
    if context.start in IN_THE_GROUND and not context.tender:
        zone = context.number("winter_zone")
        bears = zone_floor(zone) - practice.BEARS if zone is not None else None
        return KillingCold(bears, bears, flower)
    if practice.frost_cuts_shoots(context.crop, context.start):
        return KillingCold(None, 0.0, flower)
    young, grown = context.number("kills_young"), context.number("least_night_temperature")
    if context.tender:
        return KillingCold(min(young, 0.0) if young is not None else 0.0, 0.0, flower)
    grown = min(grown, 0.0) if grown is not None else None
    if young is None and grown is not None:
        young = grown if practice.very_hardy(context.crop) or grown >= YOUNG_AT_LEAST else YOUNG_AT_LEAST
    return KillingCold(min(young, 0.0) if young is not None else None, grown, flower)
