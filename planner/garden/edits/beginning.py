"""Beginning a garden with the answers of who starts: where, units, frost, and the first beds."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from planner.garden.edits.bed_ranges import BedRange, add_bed_range
from planner.garden.edits.beds import change_bed
from planner.garden.edits.frost_days import set_frost_days
from planner.garden.edits.parts import change_climate, change_site
from planner.garden.garden import Garden
from planner.garden.site import DayOfYear, Risk, UnitSystem
from planner.garden.units import FOOT

FirstBeds = Literal["boxes", "range", "drawn"]

#: Measures that are proposed for first beds (``practice``): three boxes as fit a balcony or a yard, four beds that can be reached
#: over from both sides. [m]
FIRST_BEDS: dict[UnitSystem, dict[FirstBeds, BedRange]] = {
    "metric": {
        "boxes": BedRange("Box", 1.0, 0.4, across=3, path_across=0.3),
        "range": BedRange("", 3.0, 1.2, up=4, path_up=0.6),
    },
    "feet_inches": {
        "boxes": BedRange("Box", 3 * FOOT, 1.25 * FOOT, across=3, path_across=FOOT),
        "range": BedRange("", 10 * FOOT, 4 * FOOT, up=4, path_up=2 * FOOT),
    },
}
#: Depth of the soil in a box, and its height (``practice``). [m]
BOX_DEPTH, BOX_HEIGHT = 0.3, 0.35


@dataclass(frozen=True)
class Beginning:
    """Answers with which a garden begins; what is None or empty stays unknown.

    Attributes
    ----------
    latitude, longitude : float or None
        [degrees]
    time_zone : str
    units : {"metric", "feet_inches"}
    last_frost, first_frost : str or None
        Last frost of spring and first of autumn at ``risk``, MM-DD.
    risk : {10, 50, 90}
        Of the frost days, which is planned with. [%]
    frost_free : bool
        Whether there is no frost in any year.
    beds : BedRange or None
        None where they are drawn by hand.
    boxed : bool
        Whether the beds are boxes with soil of their own.
    """

    latitude: float | None = None
    longitude: float | None = None
    time_zone: str = ""
    units: UnitSystem = "metric"
    last_frost: DayOfYear | None = None
    first_frost: DayOfYear | None = None
    risk: Risk = 50
    frost_free: bool = False
    beds: BedRange | None = field(default_factory=lambda: FIRST_BEDS["metric"]["boxes"])
    boxed: bool = True


def begin_garden(
    garden: Garden, answers: Beginning, left: float = 0.0, top: float = 0.0
) -> tuple[Garden, tuple[str, ...]]:
    """Write answers into a garden, and add its first beds.

    Parameters
    ----------
    garden : Garden
        Usually empty; what is not answered stays as it is there.
    answers : Beginning
    left, top : float
        Upper left corner of the beds on the plan. [m]

    Returns
    -------
    garden, ids of the beds

    Raises
    ------
    EditError
        Where an answer is none, or a bed of that size is not possible.
    """
    site: dict[str, Any] = {"units": answers.units}
    given = {"latitude": answers.latitude, "longitude": answers.longitude, "time_zone": answers.time_zone}
    garden = change_site(
        garden, **site, **{name: value for name, value in given.items() if value not in (None, "")}
    )
    if answers.frost_free:
        garden = change_climate(garden, last_frost=None, first_frost=None, frost_free=True)
    else:
        if answers.last_frost is not None:
            garden = set_frost_days(garden, "last_frost", {answers.risk: answers.last_frost})
        if answers.first_frost is not None:
            garden = set_frost_days(garden, "first_frost", {answers.risk: answers.first_frost})
        garden = change_climate(garden, risk=answers.risk)
    if answers.beds is None:
        return garden, ()
    garden, keys = add_bed_range(garden, answers.beds, left, top)
    if answers.boxed:
        for key in keys:
            garden = change_bed(garden, key, kind="container", depth=BOX_DEPTH, height=BOX_HEIGHT)
    return garden, keys
