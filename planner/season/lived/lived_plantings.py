"""A planting lived through every recorded year: coming up, frost, flowers, running to seed, picking, free ground.

It starts as planned, or by the gardener's rule, and the sort is the one that the plan takes it for.  All years are worked out
at once.
"""

from __future__ import annotations

import numpy as np

from planner.season import practice
from planner.season.date_inputs import DateContext, DateInputs, context_of
from planner.season.frosts import shift
from planner.season.harvest import needs_as_grown
from planner.season.lived.bolted import runs_to_seed_by
from planner.season.lived.first_pickings import comes_up, lifted_when_killed, ripe_places
from planner.season.lived.growth_places import Growth, coldest_night_from, first_from, grown_by, parts_of
from planner.season.lived.killing_cold import KillingCold, killing_cold
from planner.season.lived.last_pickings import last_places
from planner.season.lived.lived_perennials import live_perennial
from planner.season.lived.lived_years import (
    CLEARED,
    FROST,
    PICKED,
    SEED,
    UNRIPE,
    Lived,
    Places,
    RestsOn,
    counted,
)
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.lived.recorded_years import NEVER, Positions
from planner.season.planting_dates import Dated, Dates
from planner.season.start_day import Start


def live(inputs: DateInputs, dates: Dates, weather: RecordedWeather) -> Lived | None:
    """A planting lived through all recorded years; None where it is not known when it takes its plot.

    Parameters
    ----------
    inputs : DateInputs
    dates : Dates
        Those of the plan.
    weather : RecordedWeather
        In the open.
    """
    context, on = context_of(inputs), dates.on_plot
    if dates.stays_for_years:
        return live_perennial(context, dates, weather)
    if on is None:
        return None
    needs = needs_as_grown(context, Start(dates.sow, dates.set_out, on, ()))
    need, sort = (needs[1], needs[0]) if needs is not None else (None, None)
    planned = weather.years.places(on.day, context.planting.year)
    parts = parts_of(context, on.day, weather)
    place = weather.under(context.shelter, context.kept_above)
    begun = _begun(context, on, planned, place)
    growth = Growth(context, need, sort, on.day, planned, begun, parts, place)
    return counted(_places(growth, dates), planned, on.day, weather)


def _begun(context: DateContext, on: Dated, planned: Positions, place: RecordedWeather) -> Positions:
    """Where it takes its plot in each year: as planned, or when the soil is warm enough by the gardener's rule."""
    rule = context.planting.soil_rule
    if rule is None or on.origin != "worked out":
        return planned
    first = place.years.places(shift(rule.after, rule.days - 1), context.planting.year)
    return first_from(place.warm_soil(rule.warmth, rule.days), first)


def _places(growth: Growth, dates: Dates) -> Places:
    """What becomes of a planting that is not left in its ground for years."""
    context, on = growth.context, growth.on
    up = comes_up(growth, Start(dates.sow, dates.set_out, dates.on_plot, ()))
    out = on if up is None else up
    if not _is_picked(context):
        return _not_picked(growth, dates, up, out)
    never = np.full(len(on), NEVER, dtype=np.int64)
    rests_on: RestsOn = "heat" if growth.need is not None else "days"
    ripe, planned = never, dates.first_harvest
    small = np.zeros(len(on), dtype=bool)
    if rests_on == "heat":
        ripe, small = ripe_places(growth, planned.day if planned is not None else None)
    elif planned is not None:
        ripe = on + (planned.day - growth.on_day).days
    flower, cold, grown_from = (
        _flowers(growth, out, ripe),
        killing_cold(context),
        _half_grown(growth, out, dates),
    )
    killed = _killed(growth, cold, (out, grown_from, np.where(flower < NEVER, flower, ripe)))
    if rests_on == "heat":
        lifted = lifted_when_killed(growth, killed)
        ripe = np.minimum(ripe, lifted)
    if planned is not None and planned.pinned:  # it waits for the day that the gardener set
        ripe = np.maximum(ripe, growth.given(planned.day))
    seed = runs_to_seed_by(growth, out, ripe)
    clear, soonest = never, 0
    if dates.clear is not None and dates.clear.origin != "worked out":
        clear = growth.given(dates.clear.day)
        soonest = practice.cleared_sooner(growth.on_day, dates.clear.day)
    first = np.where(ripe - clear <= soonest, np.minimum(ripe, clear), ripe)
    picked = (first < NEVER) & (first <= clear) & (first <= killed) & (first <= seed)
    ends = np.minimum(np.minimum(killed, seed), clear)
    failed = np.where(ends == killed, FROST, np.where(ends == seed, SEED, CLEARED))
    fate = np.where(picked, PICKED, np.where(ends == NEVER, UNRIPE, failed)).astype(np.int8)
    first = np.where(picked, first, NEVER)
    harmed = _killed(
        growth, cold, (never, np.where(picked, first, NEVER), np.where(flower < NEVER, flower, ripe))
    )
    last = _last(growth, first, np.maximum(harmed, np.where(picked, first, 0)), dates, rests_on)
    last = np.where(last < NEVER, np.minimum(last, clear), NEVER)
    free = np.where(clear < NEVER, np.where(picked, clear, ends), np.where(picked, last, ends))
    stands = np.where(free < NEVER, free + 1, NEVER)  # what ends it on the day after its last is told too
    frost, seed = (np.where(one <= stands, one, NEVER) for one in (killed, seed))
    up = never if up is None else up
    return Places(rests_on, fate, on, up, flower, frost, seed, first, last, free, small & picked)


def _is_picked(context: DateContext) -> bool:
    """Whether anything is picked of it: not of green manure, and of what is grown for seed only what is lifted as seed."""
    if context.planting.purpose == "seed":
        return practice.lifted_as_seed(context.crop, context.start)
    return context.planting.purpose != "green manure"


def _not_picked(growth: Growth, dates: Dates, up: Positions | None, out: Positions) -> Places:
    """What becomes of green manure, and of what is grown for seed: it stands until the plan's end of it, or frost takes it."""
    never = np.full(len(out), NEVER, dtype=np.int64)
    end = dates.clear.day if dates.clear is not None else dates.stands_on
    stands = growth.given(end) if end is not None else never
    killed = _killed(growth, killing_cold(growth.context), (out, _half_grown(growth, out, dates), never))
    killed = np.where(killed <= stands, killed, NEVER)
    fate = np.where(killed < NEVER, FROST, PICKED).astype(np.int8)
    return Places(
        "nothing",
        fate,
        growth.on,
        never if up is None else up,
        never,
        killed,
        never,
        never,
        never,
        np.minimum(killed, stands),
        np.zeros(len(out), dtype=bool),
    )


def _half_grown(growth: Growth, out: Positions, dates: Dates) -> Positions:
    """Where a young plant counts as grown: with half of its warmth, or half of its days."""
    if growth.need is not None:
        half = grown_by(growth, growth.need, practice.FLOWERING * growth.need.heat)
    elif dates.first_harvest is not None:
        half = growth.on + round((dates.first_harvest.day - growth.on_day).days * practice.FLOWERING)
    else:
        half = out
    return np.maximum(half, out)


def _flowers(growth: Growth, out: Positions, ripe: Positions) -> Positions:
    """Where it flowers, by its harvest as in :mod:`planner.season.flowering`; only of crops that must be pollinated."""
    context = growth.context
    needs = context.crop.needs_pollination if context.crop is not None else None
    if needs is None or not needs.value:
        return np.full(len(out), NEVER, dtype=np.int64)
    days = ripe - out
    found = out + np.rint(np.where(ripe < NEVER, days, 0) * practice.FLOWERING).astype(np.int64)
    if context.planting.crop in practice.PICKED_YOUNG:
        found = np.where(days > 2 * practice.YOUNG, ripe - practice.YOUNG, found)
    return np.where((ripe < NEVER) & (days > 0), found, NEVER)


def _killed(growth: Growth, cold: KillingCold, stages: tuple[Positions, Positions, Positions]) -> Positions:
    """The first night that kills it, from where it is out, from where it is grown, and its blossom from where it flowers."""
    out, grown, flower = stages
    found = np.full(len(out), NEVER, dtype=np.int64)
    if cold.young is not None:
        found = coldest_night_from(growth, cold.young, out, grown)
    if cold.grown is not None:
        found = np.minimum(found, coldest_night_from(growth, cold.grown, grown))
    if cold.flower is not None:
        found = np.minimum(found, coldest_night_from(growth, cold.flower, flower))
    return found


def _last(growth: Growth, first: Positions, killed: Positions, dates: Dates, rests_on: RestsOn) -> Positions:
    """Where it is last picked: by hand or as it was seen, else by what ends its harvest."""
    last, planned = dates.last_harvest, dates.first_harvest
    if last is not None and last.origin != "worked out":
        return np.where(first < NEVER, np.maximum(growth.given(last.day), first), NEVER)
    if rests_on == "days":
        if last is None or planned is None:
            return np.full(len(first), NEVER, dtype=np.int64)
        weeks = np.where(first < NEVER, first + (last.day - planned.day).days, NEVER)
        return np.where((first < killed) & (killed <= weeks), killed - 1, weeks)
    return last_places(growth, first, killed)
