"""Cover, against pests: a crop that they spoil, uncovered while they fly."""

from __future__ import annotations

import datetime as dt
from calendar import monthrange
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
from planner.season.planting_dates import CoverDays
from planner.season.spans import Span
from planner.words import capital, join_list, key_words, later, say, say_count

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
#: The same over all its days for what is covered for a while: covers come off early where pests are few. [days]
HALF_COVERED = 75
#: First and last month and day of the flights of carrot fly in the north: flies emerge from mid-April to mid-June, about
#: mid-July, and from late September to mid-October (pnw_rust_fly); that the second brood flies until August is practice.
FLIGHTS = (((4, 15), (6, 15)), ((7, 15), (8, 31)), ((9, 21), (10, 15)))
FLIGHTS_SOURCE = "pnw_rust_fly"
CARROT_FLY = "carrot fly"
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

    low, high = climate.monthly_minimum, climate.monthly_maximum
    always = frozenset(map(here, FLYING))
    if low is None or high is None:
        return always
    mild = (here(month) for month in FLYING_IF_WARM)
    return always | {month for month in mild if (low[month - 1] + high[month - 1]) / 2 > WARM}


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
    flights = _flights_met(bare, southern) if covers and pests == [CARROT_FLY] else []
    if flights:
        bare = [day for day in bare if any(flight.holds(day) for flight in flights)]
    if not _is_exposed(bare, covers, pests, bool(flights)):
        return None
    text = (
        _bare_in_flight(view, len(bare), flights)
        if flights
        else _exposed(view.name, len(bare), pests, bool(covers))
    )
    found = planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        say(_RULE),
        FLIGHTS_SOURCE if flights else entry.source or "practice",
        [len(bare)],
        Span(bare[0], bare[-1]),
        topic="pests",
        candidates=lambda plan: _net(plan, view.id),
    )
    return replace(found, kind="pests partly" if covers else "pests", cause=join_list(pests))


def _is_exposed(
    bare: Sequence[dt.date], covers: Sequence[CoverDays], pests: Sequence[str], in_flight: bool
) -> bool:
    """Whether a planting is uncovered for long enough while its pests fly.

    What carrot fly lays in one flight spoils the roots, whenever the cover lies otherwise.  Butterflies fly without a break:
    young plants are to be covered, and of grown ones the cover comes off early.

    Parameters
    ----------
    bare : sequence of date
        Days on which it is uncovered while they fly.
    covers : sequence of CoverDays
    pests : sequence of str
    in_flight : bool
        Whether the days are those of the flights of carrot fly.
    """
    if not covers or in_flight:
        return len(bare) >= EXPOSED
    if pests == [CARROT_FLY]:
        return False
    laid = min(cover.on.day for cover in covers)
    return len(bare) >= HALF_COVERED or sum(day < laid for day in bare) >= EXPOSED


def _flights_met(bare: Sequence[dt.date], southern: bool) -> list[Span]:
    """The flights of carrot fly in which some of the days lie."""

    def day_of(year: int, month: int, day: int) -> dt.date:
        number = month + 6 if southern else month
        year, month = year + (number > 12), (number - 1) % 12 + 1
        return dt.date(year, month, min(day, monthrange(year, month)[1]))

    found = []
    for year in sorted({day.year + change for day in bare for change in (-1, 0)}):
        flights = [Span(day_of(year, *first), day_of(year, *last)) for first, last in FLIGHTS]
        found += [flight for flight in flights if any(flight.holds(day) for day in bare)]
    return found


def _bare_in_flight(view: PlantingView, days: int, flights: Sequence[Span]) -> str:
    """That a covered planting is uncovered while carrot fly is about, and when that is."""
    times = (
        say("from {first} to {last}", first=view.day(one.first), last=view.day(one.last)) for one in flights
    )
    return say_count(
        "{planting} stands uncovered for {count} day on which carrot fly flies ({flights})",
        "{planting} stands uncovered for {count} days on which carrot fly flies ({flights})",
        days,
        planting=view.name,
        flights=join_list(times),
    )


def _exposed(name: str, days: int, pests: Sequence[str], covered: bool) -> str:
    """That a planting is uncovered while pests fly, for some of its days or never covered at all."""
    several = len(pests) > 1 or pests[0].endswith("s")
    names = join_list([key_words(pest) for pest in pests])
    if covered and several:
        return say_count(
            "{planting} stands uncovered for {count} day in the months in which {pests} fly",
            "{planting} stands uncovered for {count} days in the months in which {pests} fly",
            days,
            planting=name,
            pests=names,
        )
    if covered:
        return say_count(
            "{planting} stands uncovered for {count} day in the months in which {pest} flies",
            "{planting} stands uncovered for {count} days in the months in which {pest} flies",
            days,
            planting=name,
            pest=names,
        )
    if several:
        return say_count(
            "{planting} stands {count} day in the months in which {pests} fly, and is never covered",
            "{planting} stands {count} days in the months in which {pests} fly, and is never covered",
            days,
            planting=name,
            pests=names,
        )
    return say_count(
        "{planting} stands {count} day in the months in which {pest} flies, and is never covered",
        "{planting} stands {count} days in the months in which {pest} flies, and is never covered",
        days,
        planting=name,
        pest=names,
    )


def _net(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    others = tuple(cover for cover in planting.covers if cover.kind != "netting")
    yield Fix(
        say("Cover it with netting"),
        say("from sowing or setting out until it is cleared"),
        fixes.changed(planting, covers=(*others, Cover(kind="netting"))),
    )
