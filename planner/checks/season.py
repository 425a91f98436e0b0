"""Season: what will not ripen before frost or before it is cleared; and seed sown colder than it germinates."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

from planner.checks import moves
from planner.checks.asked import Asked, of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.stands import Stand, capital, plural_days, stand_of
from planner.garden import Climate
from planner.plan import Plan
from planner.season.climate import Frosts, shift
from planner.season.covers import WARMING
from planner.season.heat import mean_on
from planner.season.spans import Span
from planner.season.ways import LIGHT_FROST

CHECK = "season"
SOIL = "soil warmth"
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
_ALL_AT_THE_END = ("melon", "okra", "peanut", "sweet_potato", "watermelon")
BARELY = 14
#: Soil that much colder than a seed's least is said: by day, in spring sun, the seed bed is some degrees warmer
#: than the mean of the air (practice). [deg C]
COLDER = 3.5
#: Warmth under glass and under a cover (practice; unh_rowcover). [deg C]
GLASS_WARMS, COVER_WARMS = 5.0, 2.0

_RULE_FROST = "A crop ripens before the first autumn frost, or so soon after it as it can bear"
_RULE_CLEARED = "A planting stays until it can be picked"
_RULE_SOIL = "Seed comes up where the soil is at least as warm as it germinates in"


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan about ripening."""
    plan = asked.plan
    for stand in asked.stands:
        if stand.stands or not stand.starts_here or not stand.placed.plants:
            continue
        frosts = plan.frosts(stand.planting.year)
        found = plan.once(
            "season",
            stand.id,
            (stand, plan.garden.climate, plan.garden.site.year_begins),
            partial(_of, stand, frosts),
        )
        if found is not None:
            yield found


def _of(stand: Stand, frosts: Frosts) -> Finding | None:
    first = stand.dates.first_harvest
    if first is None or stand.manure:
        return None
    frost = frosts.first_after(stand.span.first)
    killed = stand.tender and not stand.sheltered
    started = _in_the_frost(stand, frosts) if killed else None
    if started is not None:
        return _too_late(stand, frosts, started)
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
    if figure is None or figure.value is None:
        return 0
    known = [figure.value, figure.low, *(number for one in figure.other for number in (one.low, one.value))]
    return round(figure.value - min(number for number in known if number is not None))


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


# -- soil warmth --------------------------------------------------------------------------------


def check_soil(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan about the warmth of the soil at sowing."""
    plan = asked.plan
    climate = plan.garden.climate
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        return
    for stand in asked.stands:
        if stand.starts_here and stand.dates.start == "sown":
            found = plan.once("soil", stand.id, (stand, climate), partial(_soil, stand, climate))
            if found is not None:
                yield found


def _warmth(stand: Stand, climate: Climate, day: dt.date) -> float | None:
    mean = mean_on(climate, day)
    if mean is None:
        return None
    warmed = any(
        (cover.kind in WARMING or cover.kind == "film") and cover.on.day <= day
        for cover in stand.dates.covers
    )
    return mean + (GLASS_WARMS if stand.sheltered else 0.0) + (COVER_WARMS if warmed else 0.0)


def _soil(stand: Stand, climate: Climate) -> Finding | None:
    least, sow = stand.number("soil_least"), stand.dates.sow
    if least is None or sow is None or sow.origin == "done":
        return None
    mean = _warmth(stand, climate, sow.day)
    if mean is None or mean >= least - COLDER:
        return None
    text = (
        f"{stand.name} is sown on {stand.day(sow.day)} in soil of about {_degrees(mean, stand)}, judged by the mean "
        f"air; it needs {_degrees(least, stand)} to come up"
    )
    return of_stands(
        SOIL,
        "mind",
        (stand,),
        capital(text),
        _RULE_SOIL,
        stand.source("soil_least"),
        [f"{sow.day}", round(mean), least],
        Span(sow.day, sow.day),
        candidates=lambda plan: _warmer(plan, stand.id, climate, least),
    )


def _degrees(celsius: float, stand: Stand) -> str:
    shown = f"{celsius:.0f} °C" if stand.units == "metric" else f"{celsius * 1.8 + 32:.0f} °F"
    return shown.replace("-", "−")


def _warmer(plan: Plan, key: str, climate: Climate, least: float) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    for days in range(1, 150):
        day = shift(stand.span.first, days)
        mean = _warmth(stand, climate, day)
        if mean is not None and mean >= least - COLDER:
            yield moves.start_on(
                stand, day, f"the air is {_degrees(mean, stand)} then, the soil warmer by day"
            )
            return
