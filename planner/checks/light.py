"""Light: less direct sun than a crop needs, and what takes it.  Too slow for every edit; on request."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import replace

from planner.checks import moves
from planner.checks.asked import Asked, of_stands
from planner.checks.finding import Finding, Mend
from planner.checks.stands import Stand, capital, shared, stand_of
from planner.light import PlaceError, Taken, hours_over, sample_days, takers
from planner.plan import Plan
from planner.season.spans import Span

CHECK = "light"
#: Hours nearer to the need than this are not said: the sky is not that exact. [h]
SLACK = 0.5
#: So many days stand for the days of a planting.
SAMPLES = 5
#: Fewer days in the lighter half of the year are not judged: needs are those of growing plants. [days]
LEAST_DAYS = 21
#: What takes less than this is not named. [h]
NAMED = 0.25

_RULE = "A planting has the direct sun its crop needs, on the mean of its days"


def check(asked: Asked) -> Iterator[Finding]:
    """Findings of a plan; none while the garden's latitude is not known."""
    plan = asked.plan
    try:
        place = plan.place
    except PlaceError:
        return
    for stand in asked.stands:
        need, days = stand.number("sun_hours"), growing_days(plan, stand)
        if need is None or days is None or stand.placed.plot.is_empty or stand.manure:
            continue
        receiver, samples = plan.ground_of(stand.planting), sample_days(days, SAMPLES)
        light = hours_over([receiver], place, samples, plan.casters).get(stand.id)
        if light is None or light.mean >= min(need, light.unshaded) - SLACK:
            continue
        taken = takers(receiver, place, samples, plan.casters)
        yield _of(stand, days, light.mean, need, taken)


def growing_days(plan: Plan, stand: Stand) -> Span | None:
    """Its days of the growing year in the lighter half of the year; None where those are too few to judge."""
    southern = plan.garden.site.southern
    found: list[Span] = []
    for year in range(plan.span.first.year - 1, plan.span.last.year + 1):
        first, last = (
            (dt.date(year, 9, 23), dt.date(year + 1, 3, 21))
            if southern
            else (dt.date(year, 3, 21), dt.date(year, 9, 22))
        )
        light = shared(Span(first, last), plan.span)
        days = shared(light, stand.span) if light is not None else None
        if days is not None and days.days >= LEAST_DAYS:
            found.append(days)
    return max(found, key=lambda days: days.days, default=None)


def _of(stand: Stand, days: Span, mean: float, need: float, taken: Sequence[Taken]) -> Finding:
    named = [f"{one.name} {one.hours:.1f} h" for one in taken if one.hours >= NAMED][:2]
    takes = f"; {' and '.join(named)} of it taken" if named else ""
    text = f"{stand.name} has {mean:.1f} h of direct sun a day and needs {need:g} h{takes}"
    others = [one.key for one in taken if one.hours >= NAMED]
    return of_stands(
        CHECK,
        "mind" if mean < need - 2 else "note",
        (stand,),
        capital(text),
        _RULE,
        stand.source("sun_hours"),
        [round(mean, 1), need, *others],
        days,
        candidates=lambda plan: _brighter(plan, stand.id, mean, others),
    )


def _brighter(plan: Plan, key: str, mean: float, takers_of: Sequence[str]) -> Iterator[Mend]:
    """Other plots for it, or for the plantings that shade it, by which it has more sun; the brightest first."""
    stand = stand_of(plan, plan.garden.plantings_by_id[key])
    days = growing_days(plan, stand)
    if days is None:
        return
    samples = sample_days(days, SAMPLES)
    found: list[tuple[float, int, Mend]] = []
    tried = [*moves.elsewhere(plan, stand, ""), *moves.swapped(plan, stand, "")]
    for taker in takers_of:
        planting = plan.garden.plantings_by_id.get(taker)
        if planting is not None:
            other = stand_of(plan, planting)
            away = f"Move {other.crop_name}"
            tried += [
                replace(mend, text=mend.text.replace("Move it", away))
                for mend in moves.elsewhere(plan, other, "")
            ]
    for number, mend in enumerate(tried):
        after = plan.after(mend.apply(plan.garden))
        receiver = after.ground_of(after.garden.plantings_by_id[key])
        light = hours_over([receiver], after.place, samples, after.casters).get(key)
        if light is not None and light.mean > mean + SLACK:
            gain = f"{light.mean:.1f} h of sun a day instead of {mean:.1f} h"
            found.append((-light.mean, number, Mend(mend.text, gain, mend.apply)))
    for _, _, mend in sorted(found, key=lambda item: item[:2]):
        yield mend
