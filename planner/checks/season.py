"""Season: what will not ripen before frost or before it is cleared."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

from planner.checks import season_starts
from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import plural_days
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import Climate, Cover
from planner.garden.units import show_heat, show_temperature
from planner.plan import Plan
from planner.season.covers import WARMING
from planner.season.frosts import Frosts, shift
from planner.season.planting_dates import HeatSum
from planner.season.practice import COVER_WARMS, LIGHT_FROST
from planner.season.spans import Span
from planner.words import capital

CHECK = "season"
#: Cleared so shortly before its first harvest is not said. [days]
SLACK = 3
#: The last spring frost so far ahead is the end of a winter. [days]
WINTER = 100
#: Ripe so shortly too late, or cleared so shortly too soon, it may still do. [days]
CLOSE = 14
#: A start is not moved forward farther than this: the season begins when it begins. [days]
MOST_SOONER = 28
#: Crops that ripen in the last warmth, all they give at once; ripe so shortly before the frost they may not be
#: (practice). [days]
_ALL_AT_THE_END = ("melon", "okra", "peanut", "popcorn", "sweet_corn", "sweet_potato", "watermelon")
BARELY = 14
#: Crops of the tropics that stand still in cool nights, and by how much the warmest month's may be cooler (practice). [deg C]
_WARM_NIGHTS = ("okra", "sweet_potato", "watermelon", "melon")
NIGHT = 1.0
#: Less of the heat it needs than this is far too cool; the figures and the means leave the rest in doubt (practice).
FAR_TOO_COOL = 0.75

_RULE_HEAT = "What loves warmth ripens where the summer gives it its heat sum before the first autumn frost"
_RULE_FROST = "A crop ripens before the first autumn frost, or so soon after it as it can bear"
_RULE_CLEARED = "A planting stays until it can be picked"


def check(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan about ripening."""
    plan = context.plan
    for view in context.views:
        if view.stays_for_years or not view.starts_here or not view.placed.plants:
            continue
        frosts = plan.frosts(view.planting.year)
        early = plan.once(
            "early or late",
            view.id,
            (view, plan.garden.climate, plan.garden.site.year_begins, plan.garden.site.southern),
            partial(_out_of_time, view, frosts, plan.garden.climate, plan.garden.site.southern),
        )
        if early is not None:
            yield early
        found = plan.once(
            "season",
            view.id,
            (view, plan.garden.climate, plan.garden.site.year_begins),
            partial(_of, view, frosts, plan.garden.climate),
        )
        if found is not None:
            yield found


def _out_of_time(view: PlantingView, frosts: Frosts, climate: Climate, southern: bool) -> Finding | None:
    return season_starts.early(view, frosts, climate) or season_starts.late(view, frosts, climate, southern)


def _of(view: PlantingView, frosts: Frosts, climate: Climate) -> Finding | None:
    first = view.dates.first_harvest
    if first is None or view.manure:
        return None
    small = season_starts.small(view, first.day)
    if small is not None:
        return small
    frost = frosts.first_after(view.span.first)
    killed = view.tender and not view.sheltered
    started = _in_the_frost(view, frosts) if killed else None
    if started is not None:
        return _too_late(view, frosts, started)
    if view.dates.heat is not None and not view.dates.heat.enough and frost is not None:
        return _too_cool(view, view.dates.heat, frost, frosts.risk)
    cold = _cold_nights(view, climate)
    if cold is not None:
        return cold
    if frost is not None and (not view.dates.ripens or (killed and first.day > frost)):
        late = (first.day - frost).days
        bears = "ends it" if view.tender else f"stops it within {LIGHT_FROST} days"
        text = (
            f"{view.name} would be ripe on {view.day(first.day)}, {plural_days(late)} after the first autumn frost "
            f"({view.day(frost)}, risk {frosts.risk} %), which {bears}"
        )
        wait = late if view.tender else late - LIGHT_FROST
        return planting_finding(
            CHECK,
            "stop" if wait > CLOSE else "mind",
            (view,),
            capital(text),
            _RULE_FROST,
            view.source("days_to_maturity"),
            [f"{first.day}", f"{frost}"],
            Span(min(frost, first.day), max(frost, first.day)),
            topic="frost",
            candidates=lambda plan: _sooner(plan, view.id, wait),
        )
    if frost is not None and killed:
        barely = _barely(view, first.day, frost, frosts.risk)
        if barely is not None:
            return barely
    clear = view.span.last
    if (first.day - clear).days <= SLACK + _sooner_sorts(view) or view.planting.purpose == "cutting":
        return None
    if view.dates.clear is not None and view.dates.clear.origin == "done":
        return None
    text = (
        f"{view.name} is cleared on {view.day(clear)}, {plural_days((first.day - clear).days)} before it can first be "
        f"picked ({view.day(first.day)})"
    )
    return planting_finding(
        CHECK,
        "stop" if (first.day - clear).days > CLOSE else "mind",
        (view,),
        capital(text),
        _RULE_CLEARED,
        view.source("days_to_maturity"),
        [f"{first.day}", f"{clear}"],
        Span(clear, first.day),
        topic="cleared",
        candidates=lambda plan: _longer(plan, view.id),
    )


def _sooner_sorts(view: PlantingView) -> int:
    """Days by which the earliest sorts that any source knows are ahead of the figure."""
    figure = view.figure("days_to_maturity")
    if figure is None or figure.value is None or figure.least is None:
        return 0
    return round(figure.value - figure.least)


def _cold_nights(view: PlantingView, climate: Climate) -> Finding | None:
    """What wants warm nights where not even those of the warmest month are."""
    least = view.number("least_night_temperature")
    if least is None or view.sheltered or view.planting.crop not in _WARM_NIGHTS:
        return None
    night = max(climate.monthly_minimum or (99.0,))
    warmed = (
        COVER_WARMS
        if any(cover.kind in WARMING and cover.last is None for cover in view.planting.covers)
        else 0.0
    )
    if night + warmed >= least - NIGHT:
        return None
    text = (
        f"{view.name} wants nights of {show_temperature(least, view.units)}; those of the warmest month fall to "
        f"{show_temperature(night, view.units)} on the mean"
    )
    return planting_finding(
        CHECK,
        "mind",
        (view,),
        capital(text),
        _RULE_HEAT,
        view.source("least_night_temperature"),
        [round(night), least],
        topic="nights",
        candidates=lambda plan: _warmer_place(plan, view.id),
    )


def _too_cool(view: PlantingView, heat: HeatSum, frost: dt.date, risk: int) -> Finding:
    """A summer that is too cool, or too far gone, for it."""
    text = (
        f"{view.name} finds {show_heat(heat.found, view.units)} before the first autumn frost "
        f"({view.day(frost)}, risk {risk} %), {100 * heat.found / heat.wanted:.0f} % of what its early sorts need to be ripe"
    )
    return planting_finding(
        CHECK,
        "stop" if heat.found < FAR_TOO_COOL * heat.wanted else "mind",
        (view,),
        capital(text),
        _RULE_HEAT,
        view.source("heat"),
        [round(heat.found), round(heat.wanted)],
        Span(view.span.first, frost),
        topic="heat",
        candidates=lambda plan: _warmer_place(plan, view.id),
    )


def _warmer_place(plan: Plan, key: str) -> Iterator[Fix]:
    """Sooner, under a cover, or under glass."""
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for days in (7, 14, 21):
        yield fixes.start_on(
            view, shift(view.span.first, -days), f"{plural_days(days)} sooner, so much more of the warmth"
        )
    if not any(cover.kind in WARMING for cover in view.planting.covers):
        last = shift(view.span.last, -1)
        cover = Cover(kind="cloche", first=view.span.first, last=max(view.span.first, last))
        yield Fix(
            "Keep a cloche over it all its time",
            "about 2 degrees warmer",
            fixes.changed(view.planting, covers=(*view.planting.covers, cover)),
        )
    if not view.sheltered:
        yield from fixes.elsewhere(plan, view, "about 3 degrees warmer there", "under glass")
    yield fixes.remove(view, "no ground is lost to what does not ripen")


def _barely(view: PlantingView, first: dt.date, frost: dt.date, risk: int) -> Finding | None:
    """What ripens in the last warmth, ripe only as the frost comes."""
    left = (frost - first).days
    if view.planting.crop not in _ALL_AT_THE_END or left >= BARELY:
        return None
    text = (
        f"{view.name} would be ripe on {view.day(first)}, only {plural_days(left)} before the first autumn frost "
        f"({view.day(frost)}, risk {risk} %): a cool summer leaves it unripe"
    )
    return planting_finding(
        CHECK,
        "mind" if left <= BARELY / 2 else "note",
        (view,),
        capital(text),
        _RULE_FROST,
        view.source("days_to_maturity"),
        [f"{first}", f"{frost}"],
        Span(first, frost),
        topic="barely",
        candidates=lambda plan: _sooner(plan, view.id, BARELY - left - 7),
    )


def _in_the_frost(view: PlantingView, frosts: Frosts) -> dt.date | None:
    """The autumn frost after which it starts, with the winter still before it."""
    spring, autumn = frosts.last_after(view.span.first), frosts.first_after(view.span.first)
    if spring is None or autumn is None or spring > autumn or (spring - view.span.first).days < WINTER:
        return None
    return frosts.first_after(shift(view.span.first, -200))


def _too_late(view: PlantingView, frosts: Frosts, frost: dt.date) -> Finding:
    late = (view.span.first - frost).days
    text = (
        f"{view.name} starts on {view.day(view.span.first)}, {plural_days(late)} after the first autumn frost "
        f"({view.day(frost)}, risk {frosts.risk} %), and frost kills it"
    )
    wait = late + round(view.number("days_to_maturity") or 60)
    return planting_finding(
        CHECK,
        "stop",
        (view,),
        capital(text),
        _RULE_FROST,
        view.source("hardiness"),
        [f"{view.span.first}", f"{frost}"],
        Span(view.span.first, view.span.last),
        topic="frost",
        candidates=lambda plan: _sooner(plan, view.id, wait),
    )


def _sooner(plan: Plan, key: str, late: int) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    for days in (late + 7, late + 14, late + 28):
        yield fixes.start_on(
            view, shift(view.span.first, -days), f"{plural_days(days)} sooner, ripe before the frost"
        )
    yield Fix(
        f"Count {view.crop_name} back from the first frost",
        "the latest start that still ripens",
        fixes.changed(view.planting, timing="count back", first=None, last=None),
    )
    yield fixes.remove(view, "no ground is lost to what does not ripen")


def _longer(plan: Plan, key: str) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    last, first = view.dates.last_harvest, view.dates.first_harvest
    if first is None:
        return
    ended = plan.frosts(view.planting.year).first_after(view.span.first)
    tender = view.tender or view.tender_shoots
    if tender and not view.sheltered and ended is not None and first.day > shift(ended, LIGHT_FROST):
        yield fixes.remove(view, "no ground is lost to what the frost ends")
        return
    end = last.day if last is not None and last.day >= first.day else first.day
    days = view.number("harvest_days") or 7
    yield fixes.clear_on(view, max(end, shift(first.day, days - 1)), "it is picked to its end")
    yield fixes.clear_on(view, shift(first.day, 7), "it is picked for a week")
    yield fixes.clear_on(view, first.day, "it is picked once")
    back = (first.day - view.span.last).days + 7
    if back <= MOST_SOONER:
        yield fixes.start_on(
            view, shift(view.span.first, -back), f"{plural_days(back)} sooner, and picked for a week"
        )
    yield fixes.remove(view, "no ground is lost to what is never picked")
