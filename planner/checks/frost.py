"""Frost: out before spring allows, or standing in more cold than the crop bears; cover and glass reckoned in."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks import moves
from planner.checks.asked import Asked, of_stands, told
from planner.checks.finding import Finding, Mend
from planner.checks.stands import Stand, capital, plural_days, stand_of
from planner.garden import Climate, Cover
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.season.climate import Frosts, shift, zone_minimum
from planner.season.covers import WARMING
from planner.season.spans import Span
from planner.season.ways import BEARS, UNDER_COVER, UNDER_GLASS

CHECK = "frost"
#: Days nearer to the frost date than this are the weather's own. [days]
SLACK = 3
#: Frost-tolerant plants may go out so long before their window opens. [days]
EARLY = 10
#: Shoots cut by frost so shortly before its last day grow again from the tuber, or are earthed over (practice). [days]
SHOOTS_REGROW = 14
#: Degrees that glass and a cover hold off (unh_rowcover: light fabric 1.1, heavy 3.3 to 5.6). [deg C]
GLASS_HOLDS, COVER_HOLDS = 4.0, 2.0

#: What lies in the ground over winter does not feel the coldest night (practice).
_IN_THE_GROUND = ("tubers", "cloves", "sets")
#: Left so long after the frost that kills it, a planting is said to stand there for nothing. [days]
FOR_NOTHING = 21
#: Picked so shortly after the frost it may still be, from plants it missed. [days]
PICKED_AFTER = 7

_RULE = "Frost kills tender plants; they go out after the last spring frost at the risk planned with"
_RULE_HARDY = (
    "Plants that stand light frost go out in the weeks before the last spring frost that their window gives"
)
_RULE_AUTUMN = "Frost ends what is tender"
_RULE_WINTER = "What stands through the winter bears the cold of its zone"


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = asked.plan
    climate, first = plan.garden.climate, plan.garden.site.year_begins
    southern = plan.garden.site.southern
    for stand in asked.stands:
        frosts = plan.frosts(stand.planting.year)
        yield from plan.once(
            "frost",
            stand.id,
            (stand, climate, first, southern),
            told(_of, stand, frosts, climate, southern),
        )


def _of(stand: Stand, frosts: Frosts, climate: Climate, southern: bool) -> Iterator[Finding]:
    if stand.crop is None or stand.crop.hardiness is None or frosts.frost_free:
        return
    if stand.starts_here and not stand.stands and stand.dates.start != "standing":
        spring = _spring(stand, frosts)
        if spring is not None:
            yield spring
    if stand.starts_here and stand.tender and not stand.sheltered and not stand.stands:
        autumn = _autumn(stand, frosts)
        if autumn is not None:
            yield autumn
    yield from _winter(stand, climate, southern)


# -- spring -------------------------------------------------------------------------------------


def _out(stand: Stand) -> dt.date | None:
    """The day its leaves meet the weather."""
    dates = stand.dates
    begun = dates.emerge if dates.start in ("sown", "tubers") and dates.emerge is not None else dates.on_plot
    if dates.start in ("sets", "cloves"):
        return None
    return begun.day if begun is not None else None


def _head_start(stand: Stand, day: dt.date) -> int:
    """Days sooner it may be out, for glass and cover."""
    ahead = UNDER_GLASS if stand.sheltered else 0
    covered = any(
        cover.kind in WARMING
        and cover.on.day <= shift(day, 1)
        and (cover.off is None or cover.off.day >= shift(day, 7))
        for cover in stand.dates.covers
    )
    return ahead + (UNDER_COVER if covered else 0)


def _spring(stand: Stand, frosts: Frosts) -> Finding | None:
    out = _out(stand)
    shoots = stand.tender_shoots
    if out is None or frosts.last is None or (stand.very_hardy and not shoots):
        return None
    last = frosts.last_after(shift(out, -SLACK))
    if last is None or (last - out).days > 150 or (last.year != frosts.last.year and (last - out).days > 120):
        return None
    autumn = frosts.first_after(shift(out, -30))
    if autumn is not None and autumn <= last and not stand.tender:
        return None  # it stands over winter: the cold is judged by the winter, not the spring
    if shoots:
        wanted = shift(last, -SHOOTS_REGROW)
    elif stand.tender:
        wanted = shift(last, _warm_nights(stand))
    else:
        weeks = _weeks_ahead(stand)
        if weeks is None or stand.dates.start == "sown":
            return None
        wanted = shift(last, 7 * weeks - EARLY)
    ahead = _head_start(stand, out)
    allowed = shift(wanted, -ahead)
    early = (allowed - out).days
    if early <= SLACK:
        return None
    risk = frosts.risk
    short = (last - out).days
    covered = f"; glass and cover let it out {plural_days(ahead)} sooner" if ahead else ""
    verb = "comes up" if stand.dates.start in ("sown", "tubers") else "is out"
    when = f"{plural_days(abs(short))} {'before' if short > 0 else 'after'}" if short else "on the day of"
    if shoots:
        bears = "its shoots bear no frost"
    elif stand.tender:
        bears = "bears no frost" if short > 0 else "wants warm nights"
    else:
        bears = "bears light frost only"
    text = (
        f"{stand.name} {verb} on {stand.day(out)}, {when} the last spring frost "
        f"({stand.day(last)}, risk {risk} %), and {bears}{covered}"
    )
    return of_stands(
        CHECK,
        "stop" if stand.tender and early > 14 else "mind",
        (stand,),
        capital(text),
        _RULE if stand.tender or shoots else _RULE_HARDY,
        stand.source("hardiness"),
        [f"{out}", f"{last}", ahead],
        Span(out, max(out, shift(last, -ahead))),
        topic="spring",
        candidates=lambda plan: _later(plan, stand.id, early, out),
    )


def _warm_nights(stand: Stand) -> float:
    """Days after the last frost from which nights are warm enough for what loves warmth."""
    if stand.crop is None or stand.crop.hardiness is None:
        return 0.0
    weeks = _weeks_ahead(stand)
    if stand.crop.hardiness.value != "warm-loving" or weeks is None or stand.dates.start == "sown":
        return 0.0
    return max(0.0, 7 * weeks)


def _weeks_ahead(stand: Stand) -> float | None:
    """Weeks from the last frost at which it may go out at the earliest, by any source."""
    figure = stand.figure("set_out_from")
    return figure.least if figure is not None else stand.number("set_out_from")


def _later(plan: Plan, key: str, early: int, out: dt.date) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    days = early
    while stand.dates.start == "tubers" and days < early + 42:  # what starts later comes up in fewer days
        later = _out(stand_of(plan, stand.planting.with_(first=shift(stand.span.first, days))))
        if later is None or later >= shift(out, early):
            break
        days += 1
    day = shift(stand.span.first, days)
    yield moves.start_on(stand, day, f"{plural_days(days)} later, past the frost it cannot bear")
    if not stand.sheltered and not any(cover.kind in WARMING for cover in stand.planting.covers):
        until = shift(out, early + UNDER_COVER)
        for kind in ("fleece", "cloche"):
            cover = Cover(kind=kind, first=stand.span.first, last=until)
            yield Mend(
                f"Keep {'fleece' if kind == 'fleece' else 'a cloche'} over it until {stand.day(until)}",
                "it may stay as early",
                moves.changed(stand.planting, covers=(*stand.planting.covers, cover)),
            )


# -- autumn -------------------------------------------------------------------------------------


def _autumn(stand: Stand, frosts: Frosts) -> Finding | None:
    """A tender planting picked after the frost that ends it, or left standing long after it."""
    last = stand.dates.last_harvest
    frost = frosts.first_after(stand.span.first)
    if last is None or frost is None or not stand.dates.ripens:
        return None
    cover = UNDER_COVER if _covered_on(stand, frost) else 0
    if last.origin == "worked out":
        until = stand.planting.last
        if until is None or stand.planting.purpose == "seed" or (until - frost).days - cover <= FOR_NOTHING:
            return None
        what, ends = "stands until", "kills it"
    else:
        first, until = stand.dates.first_harvest, last.day
        if first is None or first.day > frost:  # it does not ripen at all, which is said by ``season``
            return None
        if (until - frost).days - cover <= PICKED_AFTER:
            return None
        what, ends = "is picked until", "ends it"
    text = (
        f"{stand.name} {what} {stand.day(until)}, {plural_days((until - frost).days)} after the first autumn frost "
        f"({stand.day(frost)}, risk {frosts.risk} %), which {ends}"
    )
    return of_stands(
        CHECK,
        "note",
        (stand,),
        capital(text),
        _RULE_AUTUMN,
        stand.source("hardiness"),
        [f"{until}", f"{frost}"],
        Span(frost, until),
        topic="autumn",
        candidates=lambda plan: (
            _picked_by(plan, stand.id, frost)
            if last.origin != "worked out"
            else [moves.clear_on(stand, frost, "the ground is free then")]
        ),
    )


def _covered_on(stand: Stand, day: dt.date) -> bool:
    return any(cover.kind in WARMING and cover.lies_on(day) for cover in stand.dates.covers)


def _picked_by(plan: Plan, key: str, frost: dt.date) -> Iterator[Mend]:
    planting = plan.garden.plantings_by_id[key]
    pins = planting.pinned_dates.with_(last_harvest=shift(frost, -1))
    yield Mend(
        f"End the harvest on {stand_of(plan, planting).day(shift(frost, -1))}",
        "before the frost does",
        moves.changed(planting, pinned_dates=pins),
    )


# -- winter -------------------------------------------------------------------------------------


def _winter(stand: Stand, climate: Climate, southern: bool) -> Iterator[Finding]:
    bears, cold = stand.number("least_night_temperature"), zone_minimum(climate.zone)
    lasts = stand.stands or not stand.tender  # a tender annual that meets the winter is said by ``season``
    if bears is None or cold is None or not lasts or stand.dates.start in _IN_THE_GROUND:
        return
    begins = dt.date(stand.year, 7 if southern else 1, 1)
    middles = [shift(begins, 14), shift(begins, 14 + 365)]
    there = [day for day in middles if stand.span.holds(shift(day, -30)) and stand.span.holds(shift(day, 30))]
    if not stand.stands and stand.dates.last_harvest is not None:
        there = [day for day in there if stand.dates.last_harvest.day > day]
    if not there:
        return
    holds = GLASS_HOLDS if stand.sheltered else 0.0
    holds += COVER_HOLDS if _covered_on(stand, there[-1]) else 0.0
    if bears <= cold + holds + BEARS:
        return
    text = (
        f"{stand.name} stands over winter and bears {show_temperature(bears, stand.units)} at the least; the coldest night of a "
        f"usual year in zone {climate.zone} is about {show_temperature(cold, stand.units)}"
    )
    yield of_stands(
        CHECK,
        "mind",
        (stand,),
        capital(text),
        _RULE_WINTER,
        stand.source("least_night_temperature"),
        [bears, climate.zone],
        Span(shift(there[-1], -45), shift(there[-1], 45)),
        topic="winter",
        candidates=lambda plan: _for_winter(plan, stand.id, there[-1]),
    )


def _for_winter(plan: Plan, key: str, middle: dt.date) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    cover = Cover(kind="fleece", first=max(stand.span.first, shift(middle, -75)), last=shift(middle, 75))
    yield Mend(
        "Keep fleece over it in winter",
        "2 degrees warmer",
        moves.changed(stand.planting, covers=(*stand.planting.covers, cover)),
    )
    if not stand.stands:
        yield moves.clear_on(stand, max(stand.span.first, shift(middle, -46)), "picked before the worst cold")
        pins = stand.planting.pinned_dates.with_(last_harvest=shift(middle, -46))
        yield Mend(
            "Pick it before the worst cold",
            "",
            moves.changed(stand.planting, pinned_dates=pins, last=shift(middle, -46)),
        )
    yield moves.remove(stand, "nothing is lost to the cold")
