"""When a planting runs to seed in each recorded year, by the rules of :mod:`planner.season.bolting`."""

from __future__ import annotations

import numpy as np

from planner.season.bolting import (
    AROUND_WINTER,
    CHILLED_TO_BOLT,
    CHILLED_YOUNG,
    COMES_UP_IN_LONG,
    FIGURES,
    FULLY_LONG,
    GROWN,
    LEAST_TO_BOLT,
    LONG_FOR,
    NEARLY_GROWN,
    SHOOTS_ARE_EATEN,
    TO_BOLT,
    TO_BOLT_OF_NEED,
    least_days_of_chill,
)
from planner.season.lived.growth_places import Growth, first_from, heat_until, reached
from planner.season.lived.recorded_weather import Days, most_about
from planner.season.lived.recorded_years import NEVER, Positions
from planner.season.thermal_time import Numbers, sums
from planner.season.usual_weather import FULL_DAY
from planner.season.windows import CHILL, QUICKLY_CHILLED

#: Longest time in which a planting runs to seed. [days]
_YEAR = 366


def runs_to_seed_by(growth: Growth, up: Positions, first: Positions) -> Positions:
    """The day by which the planting has run to seed and is of no more use; :data:`NEVER` where it never does.

    Parameters
    ----------
    growth : Growth
    up, first : ndarray of int, shape (years,)
        Where it comes up, or takes its plot, and where it is first picked.
    """
    context = growth.context
    never = np.full(len(first), NEVER, dtype=np.int64)
    if context.stays_for_years or growth.sort is None:
        return never
    if all(context.number(field) is None for field in FIGURES) or context.planting.crop in SHOOTS_ARE_EATEN:
        return never
    return np.minimum(_long_or_hot(growth, up, first), _chilled(growth, up, first))


def stem_up(growth: Growth, begun: Positions, heat: float) -> Positions:
    """The day by which a plant that begins to run to seed is of no more use."""
    return reached(growth.last.sums(growth.context.response, slows=False), begun, heat)


def _long_or_hot(growth: Growth, up: Positions, first: Positions) -> Positions:
    """Long days or heat, by the warmth that it has had in them since it came up or was set out."""
    context, weather, sort = growth.context, growth.last, growth.sort
    hours, heat = context.number("bolts_at_day_length"), context.number("bolts_above")
    if sort is None or (hours is None and heat is None):
        return np.full(len(first), NEVER, dtype=np.int64)
    begun = up if context.start == "sown" else growth.on
    wanted = max(LEAST_TO_BOLT, TO_BOLT_OF_NEED * sort.heat)
    hot = weather.mean > heat if heat is not None else np.zeros(weather.years.days, dtype=bool)
    gone = reached(_felt(growth, hot.astype(np.float64)), begun, wanted)
    if hours is not None:
        long = np.clip((weather.hours - hours) / FULLY_LONG, 0.0, 1.0)
        in_long = reached(_felt(growth, np.maximum(hot, long)), begun, wanted)
        last = weather.years.days - 1
        from_long = weather.hours[np.minimum(np.maximum(begun, 0), last)] >= hours + COMES_UP_IN_LONG
        gone = np.where(from_long, in_long, gone)
    gone = np.where(gone - begun > _YEAR, NEVER, gone)
    return np.where(gone < first, gone, bolt_places(growth, first))


def _felt(growth: Growth, felt: Numbers) -> Numbers:
    return sums(growth.last.daily(growth.context.response) * felt)


def bolt_places(growth: Growth, first: Positions) -> Positions:
    """The day by which long days or heat that come when it is nearly grown have sent it to seed; not before it is first picked."""
    context, weather = growth.context, growth.last
    hours, heat = context.number("bolts_at_day_length"), context.number("bolts_above")
    if hours is None and heat is None:
        return np.full(len(first), NEVER, dtype=np.int64)

    def holds() -> Days:
        days = np.zeros(weather.years.days, dtype=bool)
        if hours is not None:
            long = weather.hours >= hours
            days[: len(long) - LONG_FOR] |= (long[:-LONG_FOR]) & long[LONG_FOR:]
        if heat is not None:
            days |= most_about(weather.mean > heat)
        return days

    following = weather.next_day(("bolts", hours, heat), holds, spell=False)
    known = np.where(first < NEVER, first, growth.on)
    nearly = growth.on + np.rint(NEARLY_GROWN * (known - growth.on)).astype(np.int64)
    gone = stem_up(growth, first_from(following, nearly), TO_BOLT)
    return np.where((gone < NEVER) & (first < NEVER), np.maximum(gone, first), NEVER)


def _chilled(growth: Growth, up: Positions, first: Positions) -> Positions:
    """Cold, of a plant that feels it: when young where a spell of it does, else grown before a winter."""
    context, weather = growth.context, growth.last
    days = context.number("chill_to_bolt")
    never = np.full(len(first), NEVER, dtype=np.int64)
    if days is None or context.tender:
        return never
    long_from = weather.longer_than(FULL_DAY)
    young = days <= QUICKLY_CHILLED or context.planting.crop in CHILLED_YOUNG
    found = never
    if young and context.start in ("sown", "raised", "bought"):
        begun = up if context.start == "sown" else growth.on
        mild = first_from(weather.next_day(("mild", CHILL), lambda: weather.mean >= CHILL), begun)
        chilled = (mild < NEVER) & (mild - begun >= least_days_of_chill(context, days))
        long = first_from(long_from, np.where(chilled, begun + round(days), NEVER))
        found = np.where(chilled, stem_up(growth, long, CHILLED_TO_BOLT), NEVER)
    night = first_from(weather.day_in_year(6 if weather.southern else 12, 21), growth.on)
    root = context.crop is not None and context.crop.growth_form == "root"
    if growth.need is None:
        return found
    grown = heat_until(growth, growth.need, np.maximum(night, growth.on)) >= GROWN * growth.need.heat
    cold = weather.chilled_days(CHILL)
    autumn, spring = AROUND_WINTER
    begins, ends = (np.minimum(np.maximum(night + by, 0), weather.years.days) for by in (-autumn, spring))
    enough = cold[ends] - cold[begins] >= days
    by_winter = grown & enough & (night < NEVER) & ~((first <= night) & root)
    gone = stem_up(growth, first_from(long_from, night), CHILLED_TO_BOLT)
    return np.where(found < NEVER, found, np.where(by_winter, gone, NEVER))
