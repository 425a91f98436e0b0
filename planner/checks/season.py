"""Season: what will not ripen before frost or before it is cleared."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

from planner.checks import moves, starts
from planner.checks.asked import Asked, of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.stands import Stand, capital, plural_days, stand_of
from planner.garden import Climate, Cover
from planner.garden.units import show_heat, show_temperature
from planner.plan import Plan
from planner.season.climate import Frosts, shift
from planner.season.covers import WARMING
from planner.season.days import HeatSum
from planner.season.spans import Span
from planner.season.ways import COVER_WARMS, LIGHT_FROST

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


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan about ripening."""
    plan = asked.plan
    for stand in asked.stands:
        if stand.stands or not stand.starts_here or not stand.placed.plants:
            continue
        frosts = plan.frosts(stand.planting.year)
        early = plan.once(
            "early or late",
            stand.id,
            (stand, plan.garden.climate, plan.garden.site.year_begins, plan.garden.site.southern),
            partial(_out_of_time, stand, frosts, plan.garden.climate, plan.garden.site.southern),
        )
        if early is not None:
            yield early
        found = plan.once(
            "season",
            stand.id,
            (stand, plan.garden.climate, plan.garden.site.year_begins),
            partial(_of, stand, frosts, plan.garden.climate),
        )
        if found is not None:
            yield found


def _out_of_time(stand: Stand, frosts: Frosts, climate: Climate, southern: bool) -> Finding | None:
    return starts.early(stand, frosts, climate) or starts.late(stand, frosts, climate, southern)


def _of(stand: Stand, frosts: Frosts, climate: Climate) -> Finding | None:
    first = stand.dates.first_harvest
    if first is None or stand.manure:
        return None
    small = starts.small(stand, first.day)
    if small is not None:
        return small
    frost = frosts.first_after(stand.span.first)
    killed = stand.tender and not stand.sheltered
    started = _in_the_frost(stand, frosts) if killed else None
    if started is not None:
        return _too_late(stand, frosts, started)
    if stand.dates.heat is not None and not stand.dates.heat.enough and frost is not None:
        return _too_cool(stand, stand.dates.heat, frost, frosts.risk)
    cold = _cold_nights(stand, climate)
    if cold is not None:
        return cold
    if frost is not None and (not stand.dates.ripens or (killed and first.day > frost)):
        late = (first.day - frost).days
        bears = "ends it" if stand.tender else f"stops it within {LIGHT_FROST} days"
        text = (
            f"{stand.name} would be ripe on {stand.day(first.day)}, {plural_days(late)} after the first autumn frost "
            f"({stand.day(frost)}, risk {frosts.risk} %), which {bears}"
        )
        wait = late if stand.tender else late - LIGHT_FROST
        return of_stands(
            CHECK,
            "stop" if wait > CLOSE else "mind",
            (stand,),
            capital(text),
            _RULE_FROST,
            stand.source("days_to_maturity"),
            [f"{first.day}", f"{frost}"],
            Span(min(frost, first.day), max(frost, first.day)),
            topic="frost",
            candidates=lambda plan: _sooner(plan, stand.id, wait),
        )
    if frost is not None and killed:
        barely = _barely(stand, first.day, frost, frosts.risk)
        if barely is not None:
            return barely
    clear = stand.span.last
    if (first.day - clear).days <= SLACK + _sooner_sorts(stand) or stand.planting.purpose == "cutting":
        return None
    if stand.dates.clear is not None and stand.dates.clear.origin == "done":
        return None
    text = (
        f"{stand.name} is cleared on {stand.day(clear)}, {plural_days((first.day - clear).days)} before it can first be "
        f"picked ({stand.day(first.day)})"
    )
    return of_stands(
        CHECK,
        "stop" if (first.day - clear).days > CLOSE else "mind",
        (stand,),
        capital(text),
        _RULE_CLEARED,
        stand.source("days_to_maturity"),
        [f"{first.day}", f"{clear}"],
        Span(clear, first.day),
        topic="cleared",
        candidates=lambda plan: _longer(plan, stand.id),
    )


def _sooner_sorts(stand: Stand) -> int:
    """Days by which the earliest sorts that any source knows are ahead of the figure."""
    figure = stand.figure("days_to_maturity")
    if figure is None or figure.value is None or figure.least is None:
        return 0
    return round(figure.value - figure.least)


def _cold_nights(stand: Stand, climate: Climate) -> Finding | None:
    """What wants warm nights where not even those of the warmest month are."""
    least = stand.number("least_night_temperature")
    if least is None or stand.sheltered or stand.planting.crop not in _WARM_NIGHTS:
        return None
    night = max(climate.monthly_minimum or (99.0,))
    warmed = (
        COVER_WARMS
        if any(cover.kind in WARMING and cover.last is None for cover in stand.planting.covers)
        else 0.0
    )
    if night + warmed >= least - NIGHT:
        return None
    text = (
        f"{stand.name} wants nights of {show_temperature(least, stand.units)}; those of the warmest month fall to "
        f"{show_temperature(night, stand.units)} on the mean"
    )
    return of_stands(
        CHECK,
        "mind",
        (stand,),
        capital(text),
        _RULE_HEAT,
        stand.source("least_night_temperature"),
        [round(night), least],
        topic="nights",
        candidates=lambda plan: _warmer_place(plan, stand.id),
    )


def _too_cool(stand: Stand, heat: HeatSum, frost: dt.date, risk: int) -> Finding:
    """A summer that is too cool, or too far gone, for it."""
    text = (
        f"{stand.name} finds {show_heat(heat.found, stand.units)} before the first autumn frost "
        f"({stand.day(frost)}, risk {risk} %), {100 * heat.found / heat.wanted:.0f} % of what its early sorts need to be ripe"
    )
    return of_stands(
        CHECK,
        "stop" if heat.found < FAR_TOO_COOL * heat.wanted else "mind",
        (stand,),
        capital(text),
        _RULE_HEAT,
        stand.source("heat"),
        [round(heat.found), round(heat.wanted)],
        Span(stand.span.first, frost),
        topic="heat",
        candidates=lambda plan: _warmer_place(plan, stand.id),
    )


def _warmer_place(plan: Plan, key: str) -> Iterator[Mend]:
    """Sooner, under a cover, or under glass."""
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    for days in (7, 14, 21):
        yield moves.start_on(
            stand, shift(stand.span.first, -days), f"{plural_days(days)} sooner, so much more of the warmth"
        )
    if not any(cover.kind in WARMING for cover in stand.planting.covers):
        last = shift(stand.span.last, -1)
        cover = Cover(kind="cloche", first=stand.span.first, last=max(stand.span.first, last))
        yield Mend(
            "Keep a cloche over it all its time",
            "about 2 degrees warmer",
            moves.changed(stand.planting, covers=(*stand.planting.covers, cover)),
        )
    if not stand.sheltered:
        yield from moves.elsewhere(plan, stand, "about 3 degrees warmer there", "under glass")
    yield moves.remove(stand, "no ground is lost to what does not ripen")


def _barely(stand: Stand, first: dt.date, frost: dt.date, risk: int) -> Finding | None:
    """What ripens in the last warmth, ripe only as the frost comes."""
    left = (frost - first).days
    if stand.planting.crop not in _ALL_AT_THE_END or left >= BARELY:
        return None
    text = (
        f"{stand.name} would be ripe on {stand.day(first)}, only {plural_days(left)} before the first autumn frost "
        f"({stand.day(frost)}, risk {risk} %): a cool summer leaves it unripe"
    )
    return of_stands(
        CHECK,
        "mind" if left <= BARELY / 2 else "note",
        (stand,),
        capital(text),
        _RULE_FROST,
        stand.source("days_to_maturity"),
        [f"{first}", f"{frost}"],
        Span(first, frost),
        topic="barely",
        candidates=lambda plan: _sooner(plan, stand.id, BARELY - left - 7),
    )


def _in_the_frost(stand: Stand, frosts: Frosts) -> dt.date | None:
    """The autumn frost after which it starts, with the winter still before it."""
    spring, autumn = frosts.last_after(stand.span.first), frosts.first_after(stand.span.first)
    if spring is None or autumn is None or spring > autumn or (spring - stand.span.first).days < WINTER:
        return None
    return frosts.first_after(shift(stand.span.first, -200))


def _too_late(stand: Stand, frosts: Frosts, frost: dt.date) -> Finding:
    late = (stand.span.first - frost).days
    text = (
        f"{stand.name} starts on {stand.day(stand.span.first)}, {plural_days(late)} after the first autumn frost "
        f"({stand.day(frost)}, risk {frosts.risk} %), and frost kills it"
    )
    wait = late + round(stand.number("days_to_maturity") or 60)
    return of_stands(
        CHECK,
        "stop",
        (stand,),
        capital(text),
        _RULE_FROST,
        stand.source("hardiness"),
        [f"{stand.span.first}", f"{frost}"],
        Span(stand.span.first, stand.span.last),
        topic="frost",
        candidates=lambda plan: _sooner(plan, stand.id, wait),
    )


def _sooner(plan: Plan, key: str, late: int) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    for days in (late + 7, late + 14, late + 28):
        yield moves.start_on(
            stand, shift(stand.span.first, -days), f"{plural_days(days)} sooner, ripe before the frost"
        )
    yield Mend(
        f"Count {stand.crop_name} back from the first frost",
        "the latest start that still ripens",
        moves.changed(stand.planting, timing="count back", first=None, last=None),
    )
    yield moves.remove(stand, "no ground is lost to what does not ripen")


def _longer(plan: Plan, key: str) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    last, first = stand.dates.last_harvest, stand.dates.first_harvest
    if first is None:
        return
    ended = plan.frosts(stand.planting.year).first_after(stand.span.first)
    tender = stand.tender or stand.tender_shoots
    if tender and not stand.sheltered and ended is not None and first.day > shift(ended, LIGHT_FROST):
        yield moves.remove(stand, "no ground is lost to what the frost ends")
        return
    end = last.day if last is not None and last.day >= first.day else first.day
    days = stand.number("harvest_days") or 7
    yield moves.clear_on(stand, max(end, shift(first.day, days - 1)), "it is picked to its end")
    yield moves.clear_on(stand, shift(first.day, 7), "it is picked for a week")
    yield moves.clear_on(stand, first.day, "it is picked once")
    back = (first.day - stand.span.last).days + 7
    if back <= MOST_SOONER:
        yield moves.start_on(
            stand, shift(stand.span.first, -back), f"{plural_days(back)} sooner, and picked for a week"
        )
    yield moves.remove(stand, "no ground is lost to what is never picked")
