"""Season, where the start itself is out of time: seed long before its window, cloves long after theirs."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from planner.checks import moves
from planner.checks.asked import of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.stands import Stand, capital, plural_days, stand_of
from planner.garden import Climate
from planner.plan import Plan
from planner.season.climate import Frosts, longest_day_after, shift
from planner.season.covers import WARMING
from planner.season.heat import COOL_BASE, heat_between, mean_on
from planner.season.spans import Span
from planner.season.starting import days_on_plot
from planner.season.ways import (
    BEYOND_WINTER,
    LIFTED,
    LIGHT_FROST,
    LONG_CROP,
    SPRING_CLOVES,
    UNDER_COVER,
    UNDER_GLASS,
)

CHECK = "season"
#: Sown or planted so long before the earliest day any source knows is said (practice). [days]
EARLY = 21
#: Sets and tubers root in ground of this warmth; seed comes up quickly in ground so much warmer than its least
#: (practice). [deg C]
ROOTS, WARMER = 5.0, 3.5
#: Farther ahead of the last spring frost a start belongs to the autumn before. [days]
SPRING = 110

#: A hardy crop so slow [days] must find this share of the warmth of its usual season (practice).
SLOW, GROWN = 80, 0.75

_RULE_LATE = "What grows slowly is in the ground early enough to be full-grown before the cold"
_RULE_EARLY = (
    "Seed sown long before its window lies in cold ground; what comes up late catches up, what rots does not"
)
_RULE_SMALL = "Garlic wants its cold and its spring before the long days: it is planted in autumn, or as soon as the ground opens"


def warm_enough(stand: Stand, climate: Climate) -> bool:
    """Whether the ground is warm when it starts, as it is all winter where winters are mild."""
    mean, least = mean_on(climate, stand.span.first), stand.number("soil_least")
    if mean is None:
        return False
    return mean >= ROOTS if stand.dates.start != "sown" else least is not None and mean >= least + WARMER


def early(stand: Stand, frosts: Frosts, climate: Climate) -> Finding | None:
    """Seed, tubers and sets of hardy crops in the ground long before their window opens; cloves like it so."""
    dates, on = stand.dates, stand.dates.on_plot
    if (
        warm_enough(stand, climate)
        or stand.tender
        or on is None
        or on.origin == "done"
        or dates.start not in ("sown", "sets", "tubers")
    ):
        return None
    field = "sow_from" if dates.start == "sown" else "set_out_from"
    figure, weeks = stand.figure(field), stand.number(field)
    weeks = figure.least if figure is not None else weeks
    last = frosts.last_after(on.day)
    if weeks is None or last is None or (last - on.day).days > SPRING:
        return None
    opens = shift(last, 7 * weeks)
    covered = any(cover.kind in WARMING and cover.on.day <= on.day for cover in dates.covers)
    ahead = (UNDER_GLASS if stand.sheltered else 0) + (UNDER_COVER if covered else 0)
    days = (opens - on.day).days
    if days - ahead <= EARLY:
        return None
    verb = "sown" if dates.start == "sown" else "planted"
    text = (
        f"{stand.name} is {verb} on {stand.day(on.day)}, {plural_days(days)} before the earliest that is usual "
        f"({stand.day(opens)}, by the last spring frost of {stand.day(last)}, risk {frosts.risk} %)"
    )
    return of_stands(
        CHECK,
        "note",
        (stand,),
        capital(text),
        _RULE_EARLY,
        stand.source(field),
        [f"{on.day}", f"{opens}", ahead],
        Span(on.day, opens),
        topic="early",
        candidates=lambda plan: _when_it_opens(plan, stand.id, shift(opens, -ahead)),
    )


def _when_it_opens(plan: Plan, key: str, opens: dt.date) -> Iterator[Mend]:
    yield moves.start_on(
        stand_of(plan, plan.garden.plantings_by_id[key]),
        opens,
        "when its window opens, and it comes up quickly",
    )


def late(stand: Stand, frosts: Frosts, climate: Climate, southern: bool) -> Finding | None:
    """Slow hardy crops begun so long after midsummer that the cold finds them small."""
    if stand.tender or stand.stands or stand.sheltered or stand.manure or stand.crop is None:
        return None
    days = days_on_plot(stand.number, stand.crop, stand.dates.start)
    on = stand.span.first
    longest, frost = longest_day_after(shift(on, -SPRING), southern), frosts.first_after(on)
    if days is None or not SLOW <= days < LONG_CROP or longest > on or frost is None:
        return None
    if stand.number("autumn_from") is not None or (stand.planting.last or on) > shift(frost, BEYOND_WINTER):
        return None
    weeks = stand.number("sow_from" if stand.dates.start == "sown" else "set_out_from")
    last = frosts.last_after(shift(longest, -200))
    if weeks is None or last is None or last > longest:
        return None
    usual = heat_between(climate, shift(last, 7 * weeks), round(days), COOL_BASE)
    found = heat_between(climate, on, (shift(frost, LIGHT_FROST) - on).days, COOL_BASE)
    if not usual or found is None or found >= GROWN * usual:
        return None
    verb = "sown" if stand.dates.start == "sown" else "planted"
    text = (
        f"{stand.name} is {verb} on {stand.day(on)} and finds {100 * found / usual:.0f} % of the warmth of its usual season "
        f"before the cold stops it ({stand.day(shift(frost, LIGHT_FROST))}): it stays small"
    )
    return of_stands(
        CHECK,
        "note",
        (stand,),
        capital(text),
        _RULE_LATE,
        stand.source("days_to_maturity"),
        [f"{on}", round(found / usual, 2)],
        Span(on, shift(frost, LIGHT_FROST)),
        topic="late",
        candidates=lambda plan: _sooner(plan, stand.id),
    )


def _sooner(plan: Plan, key: str) -> Iterator[Mend]:
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    for days in (14, 28, 42, 56):
        yield moves.start_on(
            stand, shift(stand.span.first, -days), f"{plural_days(days)} more to grow before the cold"
        )
    yield moves.remove(stand, "no ground is lost to what stays small")


def small(stand: Stand, first: dt.date) -> Finding | None:
    """Cloves planted so late in spring that the length of the day ripens them small."""
    days = stand.number("days_to_maturity") or 0
    grows = (first - stand.span.first).days
    if stand.dates.start not in LIFTED or days < LONG_CROP or grows > SPRING_CLOVES or stand.dates.stands:
        return None
    text = (
        f"{stand.name} is planted on {stand.day(stand.span.first)} and has no more than {plural_days(grows)} until long "
        f"days ripen it ({stand.day(first)}): its bulbs stay small, or do not part into cloves"
    )
    return of_stands(
        CHECK,
        "mind",
        (stand,),
        capital(text),
        _RULE_SMALL,
        "practice",
        [f"{stand.span.first}", grows],
        Span(stand.span.first, first),
        topic="small",
        candidates=lambda plan: _in_autumn(plan, stand.id),
    )


def _in_autumn(plan: Plan, key: str) -> Iterator[Mend]:
    planting = plan.garden.plantings_by_id[key]
    stand = stand_of(plan, planting)
    yield Mend(
        f"Plant {stand.crop_name} in autumn",
        "it roots before winter and has all spring to grow",
        moves.changed(
            planting, timing="autumn", first=None, last=None, pinned_dates=type(planting.pinned_dates)()
        ),
    )
    for days in (21, 42):
        yield moves.start_on(
            stand, shift(stand.span.first, -days), f"{plural_days(days)} more to grow before midsummer"
        )
    yield moves.remove(stand, "no ground is lost to small bulbs")
