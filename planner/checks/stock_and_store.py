"""Stock and store: seed too old or too little; a crop meant for the store that will not keep."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial

from planner.amounts import LotState, Need, amounts, shortages, stock_states
from planner.checks.frame import fixes
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix
from planner.checks.frame.phrases import many, plural_days
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.garden import edits as e
from planner.garden.planting import SEEDLESS
from planner.plan import Plan
from planner.season import practice
from planner.season.frosts import day_within, shift
from planner.season.spans import Span
from planner.words import capital

STOCK, STORE = "stock", "store"
#: So small a share of what is wanted may be short: germination is not that exact (practice).
LITTLE = 0.15
#: A store is for months: what keeps no longer than this is none (practice). [days]
SHORT = 42
#: What is stored lasts at least so long after the first autumn frost, when nothing more grows (practice). [days]
INTO_WINTER = 30
#: Where frost comes late or never, winter begins on this day, north and south (practice).
WINTER, SOUTHERN_WINTER = "12-01", "06-01"
#: What was lifted so long before the frost meets a warm store; one that wants it no warmer than this [deg C] ...
SUMMER, COOL = 60, 5.0
#: ... keeps so much of its time there (estimate: figures hold for 0 degrees), and is wanted so long after the frost. [days]
WARM_SHARE, WELL_INTO_WINTER = 0.5, 60
#: Potatoes lifted before this share of their days have thin skins, and keep no longer than that (practice). [days]
NEW_POTATOES, NEW_KEEP = 0.9, 21
#: Families whose store is dry seed or dry leaf, which keeps whatever the fresh crop does (practice).
_DRIED = ("Fabaceae", "Lamiaceae", "Poaceae")

_RULE_STOCK = "Seed on hand is young enough to come up, and enough for what is planned"
_RULE_STORE = "What is grown for the store keeps into the winter"


def check_stock(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan about seed on hand; nothing where no stock is kept."""
    plan = context.plan
    if not plan.garden.stock:
        return
    kept = {lot.crop for lot in plan.garden.stock}
    parts = amounts(plan, (p for p in plan.plantings if p.crop in kept and p.year == plan.year))
    if not parts:
        return
    states: dict[str, list[LotState]] = {}
    for state in stock_states(plan.garden, plan.catalogue, plan.year):
        states.setdefault(state.lot.crop, []).append(state)
    for need in shortages(plan, parts):
        if not need.short or need.short < LITTLE * (need.seeds or 0):
            continue
        users = [
            view
            for view in context.views
            if view.planting.crop == need.crop
            and view.planting.variety.casefold() == need.variety.casefold()
            and view.starts_here
            and view.dates.start not in SEEDLESS
        ]
        lots = [s for s in states[need.crop] if _serves(s, need)]
        if users and lots:
            yield _of_need(plan, need, users, lots)


def _serves(state: LotState, need: Need) -> bool:
    return not need.variety or state.lot.variety.casefold() == need.variety.casefold()


def _of_need(plan: Plan, need: Need, users: list[PlantingView], lots: list[LotState]) -> Finding:
    name = f"{need.name} '{need.variety}'" if need.variety else need.name
    old = [state for state in lots if not state.usable]
    sowing = min((s.dates.sow.day for s in users if s.dates.sow is not None), default=users[0].span.first)
    if old and not need.on_hand:
        packed = old[0].lot.packed
        why = f"is {old[0].age_words}" if not old[0].dead else "did not come up when tested"
        when = f" packed in {packed}" if packed is not None else ""
        text = f"The seed of {name}{when} {why}; {need.seeds} seeds are wanted by {users[0].day(sowing)}"
        topic = "old"
    else:
        text = (
            f"{many(need.on_hand or 0, 'seed')} of {name} {'is' if need.on_hand == 1 else 'are'} on hand and {need.seeds} "
            f"are wanted by {users[0].day(sowing)}: {need.short} short"
        )
        topic = "short"
    return planting_finding(
        STOCK,
        "note",
        users,
        capital(text),
        _RULE_STOCK,
        users[0].source("seed_life_years") if topic == "old" else "practice",
        [need.seeds, need.on_hand, need.short],
        Span(min(sowing, plan.span.last), max(s.span.first for s in users)),
        topic=f"{topic} {need.variety.casefold()}",
        candidates=lambda plan: _bought(plan, need),
    )


def _bought(plan: Plan, need: Need) -> Iterator[Fix]:
    short = need.short or 0
    grams = f" ({need.short_grams:.2g} g)" if need.short_grams else ""

    def apply(garden: object) -> object:
        return e.put_lot(garden, crop=need.crop, variety=need.variety, seeds=short, packed=plan.year)[0]  # type: ignore[arg-type]  # a garden

    yield Fix(f"Enter {short} seeds{grams} as bought", "enough for the plan", apply)  # type: ignore[arg-type]  # gives a garden


def check_store(context: CheckContext) -> Iterator[Finding]:
    """Findings of a plan about what is grown for the store."""
    plan = context.plan
    for view in context.views:
        if view.planting.purpose != "store" or view.stays_for_years or view.crop is None:
            continue
        last = _stored(view)
        lifted_here = last is not None and plan.span.holds(
            last
        )  # what was begun the autumn before is told again
        if not view.starts_here and not lifted_here:
            continue
        frosts = plan.frosts(view.planting.year)
        frost = frosts.first_after(last) if last is not None else None
        if last is not None and frost is not None and (frost - last).days > 270:
            frost = frosts.first
        winter = SOUTHERN_WINTER if plan.garden.site.southern else WINTER
        found = plan.once(
            "store", view.id, (view, plan.garden.climate, winter), partial(_of_store, view, frost, winter)
        )
        if found is not None:
            yield found


def _stored(view: PlantingView) -> dt.date | None:
    """The day it goes into the store: of what is lifted at one go the day it is cleared, where that is given."""
    last = view.dates.last_harvest or view.dates.first_harvest
    if last is None:
        return None
    until = view.planting.last
    return until if last.origin == "worked out" and until is not None else last.day


def _keeps(view: PlantingView, frost: dt.date | None) -> tuple[float | None, str]:
    """Days it keeps, and why fewer than its figure says. [days]"""
    keeps, last = view.number("store_days"), _stored(view)
    if keeps is None or last is None or frost is None:
        return keeps, ""
    overwintered = (last - view.span.first).days > practice.LONG_CROP
    if view.planting.crop == "onion" and view.dates.start == "sets" and overwintered:
        return min(keeps, practice.AUTUMN_SETS_KEEP), " from autumn sets"
    days = view.number("days_to_maturity") or 0
    if view.planting.crop == "potato" and (last - view.span.first).days < NEW_POTATOES * days:
        return min(keeps, NEW_KEEP), " as new potatoes"
    cold = view.number("store_temperature")
    cool = cold is not None and cold <= COOL and view.planting.crop not in practice.CURED
    if cool and (frost - last).days > SUMMER:
        return keeps * WARM_SHARE, f", lifted in warm weather, {WARM_SHARE:.0%} of its usual time:"
    return keeps, ""


def _of_store(view: PlantingView, frost: dt.date | None, winter: str) -> Finding | None:
    last = _stored(view)
    keeps, why = _keeps(view, frost)
    if keeps is None or view.crop is None or view.crop.family in _DRIED:
        return None
    if keeps <= SHORT:
        text = f"{view.name} is grown for the store, and keeps{why} {plural_days(round(keeps))} at the best"
        facts: list[str | float] = [keeps]
        end = shift(last, keeps) if last is not None else view.span.last
    else:
        if last is None or frost is None:
            return None
        end = shift(last, keeps)
        wanted = min(shift(frost, INTO_WINTER), max(frost, day_within(winter, last)))
        wanted = shift(wanted, WELL_INTO_WINTER - INTO_WINTER) if why else wanted
        if end >= wanted:
            return None
        text = (
            f"{view.name} is harvested by {view.day(last)} and keeps{why} {plural_days(round(keeps))}, until "
            f"{view.day(end)}: {plural_days((wanted - end).days)} short of the winter ({view.day(wanted)})"
        )
        facts = [keeps, f"{last}", f"{wanted}"]
    first = last if last is not None else view.span.first
    return planting_finding(
        STORE,
        "note",
        (view,),
        capital(text),
        _RULE_STORE,
        view.source("store_days"),
        facts,
        Span(first, max(first, end)),
        topic="short" if keeps <= SHORT else "early",
        candidates=lambda plan: _keeping(plan, view.id, (wanted - end).days if keeps > SHORT else 0),
    )


def _keeping(plan: Plan, key: str, days: int) -> Iterator[Fix]:
    view = planting_view(plan, plan.garden.plantings_by_id[key])
    last = _stored(view)
    overwinters = last is not None and (last - view.span.first).days > practice.LONG_CROP
    if days and not overwinters:
        for more in (days, days + 14):
            yield fixes.start_on(
                view, shift(view.span.first, more), f"harvested {plural_days(more)} later, it keeps"
            )
    yield Fix("Grow it for the kitchen", "eaten fresh", fixes.changed(view.planting, purpose="kitchen"))
