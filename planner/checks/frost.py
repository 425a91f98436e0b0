"""Frost: out before spring allows, or standing in more cold than the crop bears; cover and glass reckoned in."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, as_tuple, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import plural_days
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Climate, Cover
from planner.garden.units import show_temperature
from planner.plan import Plan
from planner.season.covers import WARMING
from planner.season.frosts import Frosts, shift, zone_minimum
from planner.season.practice import BEARS, UNDER_COVER, UNDER_GLASS
from planner.season.spans import Span
from planner.words import capital

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


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan."""
    plan = context.plan
    climate, first = plan.garden.climate, plan.garden.site.year_begins
    southern = plan.garden.site.southern
    for view in context.views:
        frosts = plan.frosts(view.planting.year)
        yield from plan.once(
            "frost",
            view.id,
            (view, climate, first, southern),
            as_tuple(_of, view, frosts, climate, southern),
        )


def _of(view: PlantingView, frosts: Frosts, climate: Climate, southern: bool) -> Iterator[Finding]:
    if view.crop is None or view.crop.hardiness is None or frosts.frost_free:
        return
    if view.starts_here and not view.stays_for_years and view.dates.start != "standing":
        spring = _spring(view, frosts)
        if spring is not None:
            yield spring
    if view.starts_here and view.tender and not view.sheltered and not view.stays_for_years:
        autumn = _autumn(view, frosts)
        if autumn is not None:
            yield autumn
    yield from _winter(view, climate, southern)


# -- spring -------------------------------------------------------------------------------------


def _out(view: PlantingView) -> dt.date | None:
    """The day its leaves meet the weather."""
    dates = view.dates
    begun = dates.emerge if dates.start in ("sown", "tubers") and dates.emerge is not None else dates.on_plot
    if dates.start in ("sets", "cloves"):
        return None
    return begun.day if begun is not None else None


def _head_start(view: PlantingView, day: dt.date) -> int:
    """Days sooner it may be out, for glass and cover."""
    ahead = UNDER_GLASS if view.sheltered else 0
    covered = any(
        cover.kind in WARMING
        and cover.on.day <= shift(day, 1)
        and (cover.off is None or cover.off.day >= shift(day, 7))
        for cover in view.dates.covers
    )
    return ahead + (UNDER_COVER if covered else 0)


def _spring(view: PlantingView, frosts: Frosts) -> Finding | None:
    out = _out(view)
    shoots = view.tender_shoots
    if out is None or frosts.last is None or (view.very_hardy and not shoots):
        return None
    last = frosts.last_after(shift(out, -SLACK))
    if last is None or (last - out).days > 150 or (last.year != frosts.last.year and (last - out).days > 120):
        return None
    autumn = frosts.first_after(shift(out, -30))
    if autumn is not None and autumn <= last and not view.tender:
        return None  # it stands over winter: the cold is judged by the winter, not the spring
    if shoots:
        wanted = shift(last, -SHOOTS_REGROW)
    elif view.tender:
        wanted = shift(last, _warm_nights(view))
    else:
        weeks = _weeks_ahead(view)
        if weeks is None or view.dates.start == "sown":
            return None
        wanted = shift(last, 7 * weeks - EARLY)
    ahead = _head_start(view, out)
    allowed = shift(wanted, -ahead)
    early = (allowed - out).days
    if early <= SLACK:
        return None
    risk = frosts.risk
    short = (last - out).days
    covered = f"; glass and cover let it out {plural_days(ahead)} sooner" if ahead else ""
    verb = "comes up" if view.dates.start in ("sown", "tubers") else "is out"
    when = f"{plural_days(abs(short))} {'before' if short > 0 else 'after'}" if short else "on the day of"
    if shoots:
        bears = "its shoots bear no frost"
    elif view.tender:
        bears = "bears no frost" if short > 0 else "wants warm nights"
    else:
        bears = "bears light frost only"
    text = (
        f"{view.name} {verb} on {view.day(out)}, {when} the last spring frost "
        f"({view.day(last)}, risk {risk} %), and {bears}{covered}"
    )
    return planting_finding(
        CHECK,
        "stop" if view.tender and early > 14 else "mind",
        (view,),
        capital(text),
        _RULE if view.tender or shoots else _RULE_HARDY,
        view.source("hardiness"),
        [f"{out}", f"{last}", ahead],
        Span(out, max(out, shift(last, -ahead))),
        topic="spring",
        candidates=lambda plan: _later(plan, view.id, early, out),
    )


def _warm_nights(view: PlantingView) -> float:
    """Days after the last frost from which nights are warm enough for what loves warmth."""
    if view.crop is None or view.crop.hardiness is None:
        return 0.0
    weeks = _weeks_ahead(view)
    if view.crop.hardiness.value != "warm-loving" or weeks is None or view.dates.start == "sown":
        return 0.0
    return max(0.0, 7 * weeks)


def _weeks_ahead(view: PlantingView) -> float | None:
    """Weeks from the last frost at which it may go out at the earliest, by any source."""
    figure = view.figure("set_out_from")
    return figure.least if figure is not None else view.number("set_out_from")


def _later(plan: Plan, key: str, early: int, out: dt.date) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    days = early
    while view.dates.start == "tubers" and days < early + 42:  # what starts later comes up in fewer days
        later = _out(planting_view(plan, view.planting.with_(first=shift(view.span.first, days))))
        if later is None or later >= shift(out, early):
            break
        days += 1
    day = shift(view.span.first, days)
    yield fixes.start_on(view, day, f"{plural_days(days)} later, past the frost it cannot bear")
    if not view.sheltered and not any(cover.kind in WARMING for cover in view.planting.covers):
        until = shift(out, early + UNDER_COVER)
        for kind in ("fleece", "cloche"):
            cover = Cover(kind=kind, first=view.span.first, last=until)
            yield Fix(
                f"Keep {'fleece' if kind == 'fleece' else 'a cloche'} over it until {view.day(until)}",
                "it may stay as early",
                fixes.changed(view.planting, covers=(*view.planting.covers, cover)),
            )


# -- autumn -------------------------------------------------------------------------------------


def _autumn(view: PlantingView, frosts: Frosts) -> Finding | None:
    """A tender planting picked after the frost that ends it, or left standing long after it."""
    last = view.dates.last_harvest
    frost = frosts.first_after(view.span.first)
    if last is None or frost is None or not view.dates.ripens:
        return None
    cover = UNDER_COVER if _covered_on(view, frost) else 0
    if last.origin == "worked out":
        until = view.planting.last
        if until is None or view.planting.purpose == "seed" or (until - frost).days - cover <= FOR_NOTHING:
            return None
        what, ends = "stands until", "kills it"
    else:
        first, until = view.dates.first_harvest, last.day
        if first is None or first.day > frost:  # it does not ripen at all, which is said by ``season``
            return None
        if (until - frost).days - cover <= PICKED_AFTER:
            return None
        what, ends = "is picked until", "ends it"
    text = (
        f"{view.name} {what} {view.day(until)}, {plural_days((until - frost).days)} after the first autumn frost "
        f"({view.day(frost)}, risk {frosts.risk} %), which {ends}"
    )
    return planting_finding(
        CHECK,
        "note",
        (view,),
        capital(text),
        _RULE_AUTUMN,
        view.source("hardiness"),
        [f"{until}", f"{frost}"],
        Span(frost, until),
        topic="autumn",
        candidates=lambda plan: (
            _picked_by(plan, view.id, frost)
            if last.origin != "worked out"
            else [fixes.clear_on(view, frost, "the ground is free then")]
        ),
    )


def _covered_on(view: PlantingView, day: dt.date) -> bool:
    return any(cover.kind in WARMING and cover.lies_on(day) for cover in view.dates.covers)


def _picked_by(plan: Plan, key: str, frost: dt.date) -> Iterator[Fix]:
    planting = plan.garden.plantings_by_id[key]
    pins = planting.pinned_dates.with_(last_harvest=shift(frost, -1))
    yield Fix(
        f"End the harvest on {planting_view(plan, planting).day(shift(frost, -1))}",
        "before the frost does",
        fixes.changed(planting, pinned_dates=pins),
    )


# -- winter -------------------------------------------------------------------------------------


def _winter(view: PlantingView, climate: Climate, southern: bool) -> Iterator[Finding]:
    bears, cold = view.number("least_night_temperature"), zone_minimum(climate.zone)
    lasts = (
        view.stays_for_years or not view.tender
    )  # a tender annual that meets the winter is said by ``season``
    if bears is None or cold is None or not lasts or view.dates.start in _IN_THE_GROUND:
        return
    begins = dt.date(view.year, 7 if southern else 1, 1)
    middles = [shift(begins, 14), shift(begins, 14 + 365)]
    there = [day for day in middles if view.span.holds(shift(day, -30)) and view.span.holds(shift(day, 30))]
    if not view.stays_for_years and view.dates.last_harvest is not None:
        there = [day for day in there if view.dates.last_harvest.day > day]
    if not there:
        return
    holds = GLASS_HOLDS if view.sheltered else 0.0
    holds += COVER_HOLDS if _covered_on(view, there[-1]) else 0.0
    if bears <= cold + holds + BEARS:
        return
    text = (
        f"{view.name} stands over winter and bears {show_temperature(bears, view.units)} at the least; the coldest night of a "
        f"usual year in zone {climate.zone} is about {show_temperature(cold, view.units)}"
    )
    yield planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        _RULE_WINTER,
        view.source("least_night_temperature"),
        [bears, climate.zone],
        Span(shift(there[-1], -45), shift(there[-1], 45)),
        topic="winter",
        candidates=lambda plan: _for_winter(plan, view.id, there[-1]),
    )


def _for_winter(plan: Plan, key: str, middle: dt.date) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    cover = Cover(kind="fleece", first=max(view.span.first, shift(middle, -75)), last=shift(middle, 75))
    yield Fix(
        "Keep fleece over it in winter",
        "2 degrees warmer",
        fixes.changed(view.planting, covers=(*view.planting.covers, cover)),
    )
    if not view.stays_for_years:
        yield fixes.clear_on(view, max(view.span.first, shift(middle, -46)), "picked before the worst cold")
        pins = view.planting.pinned_dates.with_(last_harvest=shift(middle, -46))
        yield Fix(
            "Pick it before the worst cold",
            "",
            fixes.changed(view.planting, pinned_dates=pins, last=shift(middle, -46)),
        )
    yield fixes.remove(view, "nothing is lost to the cold")
