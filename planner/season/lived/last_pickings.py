"""How a harvest ends in each recorded year, by the rules of :mod:`planner.season.harvest_end`; the cold of the year itself kills."""

from __future__ import annotations

import numpy as np

from planner.season import practice
from planner.season.bolting import CHILLED_TO_BOLT
from planner.season.harvest_end import (
    AT_REST,
    EVERGREEN,
    LONGER_IN_THE_COOL,
    NO_MORE_LEAVES,
    cut_as_it_grows,
    mode_of,
)
from planner.season.lived.bolted import bolt_places, stem_up
from planner.season.lived.first_pickings import longest_day, shortest_day
from planner.season.lived.growth_places import Growth, first_from, reached
from planner.season.lived.recorded_years import NEVER, Positions
from planner.season.usual_weather import FULL_DAY

#: Ends of harvest that go by its usual days.
_WEEKS = ("after weeks", "at once", "dies back")


def last_places(growth: Growth, first: Positions, killed: Positions) -> Positions:
    """Where the planting is picked for the last time; :data:`NEVER` where it is not picked, or that is not known.

    Parameters
    ----------
    growth : Growth
    first : ndarray of int, shape (years,)
        Where it is first picked.
    killed : ndarray of int, shape (years,)
        The first night from then on that kills what is picked of it.
    """
    context, mode = growth.context, mode_of(growth.context)
    weeks = _weeks(growth, first)
    if cut_as_it_grows(context):
        if weeks is not None and (context.number("harvest_days") or 0.0) >= EVERGREEN:
            return _at_most(weeks, killed - 1, first)
        rests = _rests(growth, first, AT_REST) - 1
        return np.where(rests < NEVER - 1, rests, NEVER if weeks is None else weeks)
    if context.stays_for_years or mode in (*_WEEKS, "yearly", ""):
        if weeks is None:
            return np.full(len(first), NEVER, dtype=np.int64)
        if context.stays_for_years and context.planting.crop in practice.CUT_AS_THEY_SPROUT:
            return np.minimum(weeks, first_from(longest_day(growth.place), first))
        return weeks if mode == "dies back" else _at_most(weeks, killed - 1, first)
    ends = [killed - 1]
    if weeks is not None and mode != "with frost":
        ends.append(weeks)
    if mode == "with frost":
        least = AT_REST if context.tender else NO_MORE_LEAVES
        ends.append(_rests(growth, first, least) - 1)
    if mode == "with bolting":
        ends.append(bolt_places(growth, first))
    if mode in ("stands", "with bolting", "with frost") and not context.tender:
        ends.append(_spring(growth, first))
    found = np.minimum.reduce(ends)
    return np.where((first < NEVER) & (found < NEVER - 1), np.maximum(found, first), NEVER)


def _rests(growth: Growth, first: Positions, share: float) -> Positions:
    """Where it is too cool and dark to grow on; of what is first picked in lengthening days not before the longest of them.

    A cool spell of spring is no autumn: the usual year has none.
    """
    hours, last = growth.last.hours, growth.last.years.days - 2
    at = np.minimum(np.maximum(first, 0), last)
    longer = hours[at + 1] > hours[at]
    begins = np.where(longer, first_from(longest_day(growth.last), first), first)
    return first_from(growth.last.slower_than(growth.context.response, share), begins)


def _at_most(weeks: Positions, killed: Positions, first: Positions) -> Positions:
    return np.where((first <= killed) & (killed < weeks), killed, weeks)


def _weeks(growth: Growth, first: Positions) -> Positions | None:
    """The end of its usual days of harvest, which last longer in the cool; None where they are not known."""
    context, sort = growth.context, growth.sort
    days = context.number("harvest_days")
    if days is None:
        return None
    plain = np.where(first < NEVER, first + round(max(days - 1, 0)), NEVER)
    mode = mode_of(context)
    if sort is None or not sort.days or mode not in ("after weeks", "stands", "with bolting"):
        return plain
    daily = sort.heat / sort.days
    cool = reached(growth.last.sums(sort.response, sort.slows), first, max(days - 1, 0) * daily)
    if mode == "after weeks":
        cool = np.minimum(cool, first + round(LONGER_IN_THE_COOL * days))
    return np.where((first < NEVER) & (cool < NEVER), np.maximum(plain, cool), plain)


def _spring(growth: Growth, first: Positions) -> Positions:
    """The day in spring on which what stood through the winter runs to seed or grows again."""
    context, weather = growth.context, growth.last
    shortest = first_from(shortest_day(weather), first)
    root = context.crop is not None and context.crop.growth_form == "root"
    if context.number("chill_to_bolt") is not None and not root:
        return stem_up(growth, first_from(weather.longer_than(FULL_DAY), shortest), CHILLED_TO_BOLT)
    return first_from(weather.grows_again(context.response, AT_REST), shortest) - 1
