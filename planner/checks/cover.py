"""Cover: a crop insects must reach still covered in flower; pests kept off by nothing; film over sown rows."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, as_tuple, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import plural_days
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Climate, Cover, Site
from planner.garden.units import show_spacing
from planner.plan import Plan
from planner.season.covers import CLOSED
from planner.season.frosts import shift
from planner.season.heat import mean_on
from planner.season.planting_dates import CoverDays
from planner.season.spans import Span
from planner.words import capital, join_list

CHECK = "cover"
#: A cover that comes off so soon after the first flowers is not told: their day is an estimate, and the first ones are
#: male or few (practice). [days]
A_FEW_DAYS = 11
#: On what stands for years, put on so long after the first flowers it guards the fruit. [days]
SET = 7
#: Pests that spoil a whole planting, for which a cover is the usual guard (practice).
SERIOUS = ("cabbage white butterflies", "carrot fly")
#: They fly in these months of the north, and where the air is so warm [deg C] in those beside them (practice); the
#: south is half a year off.
FLYING, FLYING_IF_WARM, WARM = (5, 6, 7, 8, 9), (4, 10), 10.0
#: So many days in those months are worth a cover. [days]
EXPOSED = 28
#: What is covered for a while is told from so many open days on: covers come off early where pests are few. [days]
HALF_COVERED = 75
#: Where the warmest month is hotter than this on the mean, carrot fly does no harm (practice). [deg C]
TOO_HOT = 23.0
#: South America, and Australia with Tasmania: latitudes from and to, longitudes from and to (estimate). [degrees]
NO_CARROT_FLY = ((-56.0, 13.0, -82.0, -34.0), (-44.0, -10.0, 112.0, 154.0))

#: Seed sown nearer than this has no hole of its own in a film (practice). [m]
CLOSE = 0.15

_RULE_FLOWER = "A cover comes off when a crop flowers that must be pollinated"
_RULE_PESTS = "A cover from sowing or setting out on keeps off what spoils the crop"
_RULE_FILM = "Film lies where plants are set through it, not over seed that comes up row by row"


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = context.plan
    climate, southern = plan.garden.climate, plan.garden.site.southern
    fly = _carrot_fly_lives(plan.garden.site)
    for view in context.views:
        yield from plan.once(
            "cover", view.id, (view, climate, southern, fly), as_tuple(_of, view, climate, southern, fly)
        )


def _of(view: PlantingView, climate: Climate, southern: bool, fly: bool) -> Iterator[Finding]:
    if view.crop is None or not view.placed.plants:
        return
    yield from _in_flower(view)
    if view.starts_here and not view.sheltered and not view.manure:
        yield from _never_covered(view, climate, southern, fly)
    yield from _film(view)


def _in_flower(view: PlantingView) -> Iterator[Finding]:
    flower, last = view.dates.flower, view.dates.last_harvest
    if flower is None:
        return
    for number, cover in enumerate(view.dates.covers):
        if cover.kind not in CLOSED:
            continue
        if view.stays_for_years and cover.on.day > shift(flower.day, SET):
            continue  # put on over the set fruit, against birds
        off = cover.off.day if cover.off is not None else view.span.last
        end = min(off, last.day if last is not None else off)
        days = (end - max(flower.day, cover.on.day)).days
        if days <= A_FEW_DAYS:
            continue
        how = _pollinated(view)
        text = (
            f"{view.name} flowers from {view.day(flower.day)} and stays under {_word(cover.kind)} until "
            f"{view.day(off)}, {plural_days(days)} in which {how}"
        )
        yield planting_finding(
            CHECK,
            "mind",
            (view,),
            capital(text),
            _RULE_FLOWER,
            view.source("needs_pollination"),
            [cover.kind, f"{flower.day}", f"{off}"],
            Span(max(flower.day, cover.on.day), off),
            topic="flower",
            candidates=partial(_uncover, key=view.id, number=number),
        )


def _pollinated(view: PlantingView) -> str:
    entry = view.crop.pollination if view.crop is not None else None
    wind = entry is not None and entry.value == "wind"
    return "no pollen blows in" if wind else "no insect reaches the flowers"


def _word(kind: str) -> str:
    return kind if kind in ("fleece", "netting", "film") else f"a {kind}"


def _uncover(plan: Plan, key: str, number: int) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    flower, covers = view.dates.flower, list(view.planting.covers)
    if flower is None or number >= len(covers):
        return
    cover = covers[number]
    if cover.first is None or cover.first < flower.day:
        covers[number] = cover.with_(last=flower.day)
        yield Fix(
            f"Take the {cover.kind} off on {view.day(flower.day)}",
            "in flower it stands open",
            fixes.changed(view.planting, covers=tuple(covers)),
        )
    rest = tuple(other for i, other in enumerate(view.planting.covers) if i != number)
    yield Fix(
        f"Leave the {cover.kind} away", "in flower it stands open", fixes.changed(view.planting, covers=rest)
    )


def _spoils(pest: str, view: PlantingView) -> bool:
    """Whether a pest spoils this planting; of the hosts of carrot fly it is carrots that are covered (practice)."""
    return pest in SERIOUS and (pest != "carrot fly" or view.planting.crop == "carrot")


def _carrot_fly_lives(site: Site) -> bool:
    """Whether carrot fly may live there: from memory not in South America, nor in Australia."""
    if site.latitude is None or site.longitude is None:
        return True
    y, x = site.latitude, site.longitude
    return not any(low <= y <= high and west <= x <= east for low, high, west, east in NO_CARROT_FLY)


def _hottest(climate: Climate) -> float:
    """Mean of the warmest month; very cold where it is not known. [deg C]"""
    low, high = climate.monthly_minimum, climate.monthly_maximum
    return max((a + b) / 2 for a, b in zip(low, high, strict=True)) if low and high else -99.0


def _flying(climate: Climate, southern: bool) -> frozenset[int]:
    """Months in which the pests fly."""

    def here(month: int) -> int:
        return (month + 5) % 12 + 1 if southern else month

    mild = (here(month) for month in FLYING_IF_WARM)
    means = ((month, mean_on(climate, dt.date(2001, month, 15))) for month in mild)
    return frozenset(map(here, FLYING)) | {month for month, mean in means if mean is not None and mean > WARM}


def _never_covered(view: PlantingView, climate: Climate, southern: bool, fly: bool) -> Iterator[Finding]:
    entry = view.crop.cover_keeps_off if view.crop is not None else None
    pests = [pest for pest in entry.value if _spoils(pest, view)] if entry is not None else []
    if _hottest(climate) > TOO_HOT or not fly:
        pests = [pest for pest in pests if pest != "carrot fly"]
    if not pests or not entry:
        return
    months = _flying(climate, southern)
    days = [shift(view.span.first, n) for n in range(min(view.span.days, 366))]
    guarding: list[CoverDays] = [cover for cover in view.dates.covers if cover.kind in CLOSED]
    bare = [day for day in days if day.month in months and not any(cover.lies_on(day) for cover in guarding)]
    exposed = len(bare)
    if exposed < (EXPOSED if not guarding else HALF_COVERED):
        return
    flies = "fly" if len(pests) > 1 or pests[0].endswith("s") else "flies"
    verb, end = ("stands uncovered for", "") if guarding else ("stands", ", and is never covered")
    text = f"{view.name} {verb} {plural_days(exposed)} in the months in which {join_list(pests)} {flies}{end}"
    yield planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        _RULE_PESTS,
        entry.source or "practice",
        [exposed],
        Span(bare[0], bare[-1]),
        topic="pests",
        candidates=lambda plan: _net(plan, view.id),
    )


def _net(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    others = tuple(cover for cover in planting.covers if cover.kind != "netting")
    yield Fix(
        "Cover it with netting",
        "from sowing or setting out until it is cleared",
        fixes.changed(planting, covers=(*others, Cover(kind="netting"))),
    )


def _film(view: PlantingView) -> Iterator[Finding]:
    sown = view.dates.start == "sown" and view.planting.sowing != "stations"
    scattered = view.planting.arrangement.kind == "scatter"
    film = [cover for cover in view.dates.covers if cover.kind == "film"]
    apart = view.placed.layout.in_row_spacing
    drilled = view.planting.sowing == "drill" or (apart is not None and apart < CLOSE)
    if not film or not sown or not (scattered or drilled):
        return
    if scattered or apart is None:
        what = "broadcast"
    elif apart < CLOSE:
        what = f"sown {show_spacing(apart, view.units)} apart"
    else:
        what = "sown in drills"
    text = f"{view.name} is {what}, and film lies over it from {view.day(film[0].on.day)}: it cannot come up"
    yield planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        _RULE_FILM,
        "practice",
        [],
        topic="film",
        candidates=lambda plan: _no_film(plan, view.id),
    )


def _no_film(plan: Plan, key: str) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    rest = tuple(cover for cover in planting.covers if cover.kind != "film")
    yield Fix("Leave the film away", "the rows come up", fixes.changed(planting, covers=rest))
