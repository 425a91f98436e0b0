"""The year of a crop in a garden, planted there or not: when it is sown, set out and picked."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from planner.crops import Crop
from planner.plan import Plan
from planner.season.counting_back import latest_start
from planner.season.frosts import day_within

#: What is done with a crop. ``harvest raised`` is the harvest of a crop that ripens only if it is raised
#: under cover; of one that is ``unripe`` there is no harvest in the open.
StageKind = Literal["sow", "set out", "autumn planting", "harvest", "harvest raised", "unripe"]

#: Frost dates shown as an example where a garden has none: last of spring, first of autumn.
EXAMPLE_FROSTS = {"north": ("05-05", "10-10"), "south": ("09-25", "05-10")}
#: Weeks for which a crop can be begun where no end of its window is published (practice).
USUAL_WINDOW = 2
#: Days for which a crop is picked where nothing is published (practice).
USUAL_HARVEST = 14
_DAY = dt.timedelta(days=1)
#: Windows for beginning a crop, in weeks from a frost: stage, fields of the crop, and which frost.
_WINDOWS: tuple[tuple[StageKind, str, str, Literal["last", "first"]], ...] = (
    ("sow", "sow_from", "sow_until", "last"),
    ("set out", "set_out_from", "set_out_until", "last"),
    ("autumn planting", "autumn_from", "autumn_until", "first"),
)


@dataclass(frozen=True)
class Stage:
    """Days on which something is done with a crop."""

    kind: StageKind
    first: dt.date
    last: dt.date


@dataclass(frozen=True)
class FrostPair:
    """Last frost of spring and first frost of autumn of a growing year.

    Attributes
    ----------
    last, first : date
    known : bool
        False where they are an example, because the garden has none of its own.
    """

    last: dt.date
    first: dt.date
    known: bool


def frost_pair(plan: Plan) -> FrostPair:
    """The frosts of the plan's growing year, or an example for its hemisphere."""
    climate, frosts = plan.garden.climate, plan.frosts()
    known = climate.last_frost is not None and climate.first_frost is not None
    if frosts.last is not None and frosts.autumn is not None:
        return FrostPair(frosts.last, frosts.autumn, known)
    last, first = EXAMPLE_FROSTS["south" if plan.garden.site.southern else "north"]
    return FrostPair(day_within(last, plan.span.first), day_within(first, plan.span.first), known)


def last_day_to_start(plan: Plan, crop: Crop, field: str) -> dt.date | None:
    """The last day to begin a crop in this garden, where that follows from its autumn alone.

    Parameters
    ----------
    plan : Plan
    crop : Crop
    field : str
        ``sow_until`` or ``set_out_until``.

    Returns
    -------
    date or None
        None where the crop's window ends for another reason, or is not known.
    """
    start = {"sow_until": "sown", "set_out_until": "raised"}.get(field)
    entry = getattr(crop, field)
    if start is None or crop.number(field.replace("until", "from")) is None or entry is None or entry.applies:
        return None
    windows = plan.start_windows(crop, start)
    if windows:
        return windows[-1].last
    return latest_start(crop, start, frost_pair(plan).first)


def crop_year(plan: Plan, crop: Crop) -> tuple[Stage, ...]:
    """When a crop is begun, and when it is picked if it is begun at the earliest.

    Parameters
    ----------
    plan : Plan
        Its frosts, or the example's, set the windows; its climate says whether the crop ripens.
    crop : Crop

    Returns
    -------
    tuple of Stage
        Windows for beginning it, then its harvest where days to maturity are known; crops that live for
        years have no harvest here.
    """
    begun = _windows(plan, crop)
    days = crop.number("days_to_maturity")
    if days is None or not begun or crop.life_cycle == "perennial":
        return tuple(begun)
    spring = [stage for stage in begun if stage.kind != "autumn planting"] or begun
    counted = crop.maturity_from.value if crop.maturity_from else "sowing"
    out = counted == "setting out"
    base = next((stage for stage in spring if (stage.kind == "set out") == out), spring[0])
    return (*begun, _harvest(plan, crop, base, days))


def _windows(plan: Plan, crop: Crop) -> list[Stage]:
    """Windows as this garden has them, or as they are printed where its dates cannot be worked out."""
    frosts = frost_pair(plan)
    found = []
    for kind, low, high, which in _WINDOWS:
        first, last = crop.number(low), crop.number(high)
        if first is None:
            continue
        own = plan.start_windows(crop, _STARTS[kind](crop)) if frosts.known and kind in _STARTS else ()
        if own:
            found += [Stage(kind, window.first, window.last) for window in own]
            continue
        frost = frosts.last if which == "last" else frosts.first
        begin = frost + _DAY * round(first * 7)
        end = frost + _DAY * round((first + USUAL_WINDOW if last is None else last) * 7)
        end = max(last_day_to_start(plan, crop, high) or end, begin)
        found.append(Stage(kind, begin, end))
    return found


def _set_out_as(crop: Crop) -> str:
    """How a crop starts that is set out: its usual way, or raised."""
    return "raised" if crop.usual_start == "sown" else crop.usual_start


#: How a crop starts in each of its windows.
_STARTS: dict[StageKind, Callable[[Crop], str]] = {"sow": lambda _crop: "sown", "set out": _set_out_as}


def _harvest(plan: Plan, crop: Crop, base: Stage, days: float) -> Stage:
    """The harvest by the garden's own dates, or by days to maturity alone where frosts are not known."""
    frosts = frost_pair(plan)
    start = "raised" if base.kind == "set out" else "sown"
    starts = crop.starts.value if crop.starts else ()
    kind: StageKind = "harvest"
    dates = plan.usual_dates(crop, start if start in starts else "")
    if not dates.ripens and start == "sown" and "raised" in starts:
        kind, dates = "harvest raised", plan.usual_dates(crop, "raised")
    if not dates.ripens:
        return Stage("unripe", frosts.first, frosts.first)
    if dates.first_harvest is not None and frosts.known:
        ripe = dates.first_harvest.day
        over = dates.last_harvest.day if dates.last_harvest is not None else ripe + USUAL_HARVEST * _DAY
        return Stage(kind, ripe, over)
    ripe = base.first + _DAY * round(days)
    return Stage(kind, ripe, ripe + _DAY * round(crop.number("harvest_days") or USUAL_HARVEST))
