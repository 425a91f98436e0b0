"""Cover, against pests: a crop that they spoil, uncovered while they fly."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import replace

from planner.checks.frame import fixes
from planner.checks.frame.context import planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.planting_view import PlantingView
from planner.garden import Climate, Cover, Site
from planner.plan import Plan
from planner.season.covers import CLOSED
from planner.season.frosts import shift
from planner.season.heat import mean_on
from planner.season.spans import Span
from planner.words import capital, join_list, later, say, say_count

CHECK = "cover"
#: Pests that spoil a whole planting, for which a cover is the usual guard (practice).
SERIOUS = ("cabbage white butterflies", "carrot fly")
#: Months in which they fly in the north; the south is half a year off (practice).
FLYING = (5, 6, 7, 8, 9)
#: Months of the north in which they fly where the air is warm (practice).
FLYING_IF_WARM = (4, 10)
#: Mean of the air above which those months are warm (practice). [deg C]
WARM = 10.0
#: Least days without a cover in those months that are worth one. [days]
EXPOSED = 28
#: The same for what is covered for a while: covers come off early where pests are few. [days]
HALF_COVERED = 75
#: Mean of the warmest month above which carrot fly does no harm (practice). [deg C]
TOO_HOT = 23.0
#: South America, and Australia with Tasmania: latitudes from and to, longitudes from and to (estimate). [degrees]
NO_CARROT_FLY = ((-56.0, 13.0, -82.0, -34.0), (-44.0, -10.0, 112.0, 154.0))

_RULE = later("A cover from sowing or setting out on keeps off what spoils the crop")


def carrot_fly_lives(site: Site) -> bool:
    """Whether carrot fly may live there: from memory not in South America, nor in Australia."""
    if site.latitude is None or site.longitude is None:
        return True
    y, x = site.latitude, site.longitude
    return not any(low <= y <= high and west <= x <= east for low, high, west, east in NO_CARROT_FLY)


def _serious_pests(view: PlantingView, pests: Sequence[str], carrot_fly: bool) -> list[str]:
    """Those that spoil this planting; of the hosts of carrot fly it is carrots that are covered (practice)."""
    by_fly = carrot_fly and view.planting.crop == "carrot"
    return [pest for pest in pests if pest in SERIOUS and (pest != "carrot fly" or by_fly)]


def _is_too_hot(climate: Climate) -> bool:
    """Whether the warmest month is too hot for carrot fly; not where the means are not known."""
    low, high = climate.monthly_minimum, climate.monthly_maximum
    if low is None or high is None:
        return False
    return max((a + b) / 2 for a, b in zip(low, high, strict=True)) > TOO_HOT


def _flying(climate: Climate, southern: bool) -> frozenset[int]:
    """Months in which the pests fly."""

    def here(month: int) -> int:
        return (month + 5) % 12 + 1 if southern else month

    mild = (here(month) for month in FLYING_IF_WARM)
    means = ((month, mean_on(climate, dt.date(2001, month, 15))) for month in mild)
    return frozenset(map(here, FLYING)) | {month for month, mean in means if mean is not None and mean > WARM}


def judge_pests(view: PlantingView, climate: Climate, southern: bool, carrot_fly: bool) -> Finding | None:
    """Report a planting that is uncovered for long in the months in which pests fly that spoil it.

    Parameters
    ----------
    view : PlantingView
    climate : Climate
    southern : bool
        Whether the garden lies in the south.
    carrot_fly : bool
        Whether carrot fly may live there.
    """
    entry = view.crop.cover_keeps_off if view.crop is not None else None
    if entry is None:
        return None
    pests = _serious_pests(view, entry.value, carrot_fly and not _is_too_hot(climate))
    if not pests:
        return None
    months = _flying(climate, southern)
    days = [shift(view.span.first, number) for number in range(min(view.span.days, 366))]
    covers = [cover for cover in view.dates.covers if cover.kind in CLOSED]
    bare = [day for day in days if day.month in months and not any(cover.lies_on(day) for cover in covers)]
    if len(bare) < (HALF_COVERED if covers else EXPOSED):
        return None
    found = planting_finding(
        CHECK,
        "note",
        (view,),
        capital(_exposed(view.name, len(bare), pests, bool(covers))),
        say(_RULE),
        entry.source or "practice",
        [len(bare)],
        Span(bare[0], bare[-1]),
        topic="pests",
        candidates=lambda plan: _net(plan, view.id),
    )
    return replace(found, kind="pests partly" if covers else "pests", cause=join_list(pests))


def _exposed(name: str, days: int, pests: Sequence[str], covered: bool) -> str:
    """That a planting is uncovered while pests fly, for some of its days or never covered at all."""
    several = len(pests) > 1 or pests[0].endswith("s")
    if covered and several:
        return say_count(
            "{planting} stands uncovered for {count} day in the months in which {pests} fly",
            "{planting} stands uncovered for {count} days in the months in which {pests} fly",
            days,
            planting=name,
            pests=join_list(pests),
        )
    if covered:
        return say_count(
            "{planting} stands uncovered for {count} day in the months in which {pest} flies",
            "{planting} stands uncovered for {count} days in the months in which {pest} flies",
            days,
            planting=name,
            pest=pests[0],
        )
    if several:
        return say_count(
            "{planting} stands {count} day in the months in which {pests} fly, and is never covered",
            "{planting} stands {count} days in the months in which {pests} fly, and is never covered",
            days,
            planting=name,
            pests=join_list(pests),
        )
    return say_count(
        "{planting} stands {count} day in the months in which {pest} flies, and is never covered",
        "{planting} stands {count} days in the months in which {pest} flies, and is never covered",
        days,
        planting=name,
        pest=pests[0],
    )


def _net(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    others = tuple(cover for cover in planting.covers if cover.kind != "netting")
    yield Fix(
        say("Cover it with netting"),
        say("from sowing or setting out until it is cleared"),
        fixes.changed(planting, covers=(*others, Cover(kind="netting"))),
    )
