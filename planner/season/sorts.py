"""Early, usual and late sorts: which of them a planting without a variety is taken for.

A variety with days to maturity of its own is that sort.  Else the usual one is meant, unless

- it must be ripe by a day that was given, or before frost, cold or darkness end its year, and the usual one is not: the
  latest sort that is, between the usual and an early one;
- it grows under glass from before the last spring frost on: early sorts are forced;
- the place is so cool that in the open it takes much longer than where its days were counted, and frost kills it: cool
  places grow early sorts of warm crops, under covers and glass as well;
- it stands the winter and is started about midsummer, or is grown to be stored: a late sort, or the latest between that
  and the usual one that is full-grown before the winter.

What this garden learned is a factor over the need of the sort that would be taken without it.

Sorts between are taken so that what is set out later is never ready sooner.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from planner.season.bulbs import swells_in_long_days
from planner.season.date_inputs import DateContext
from planner.season.development import Need, Stretch, day_reached, heat_by, need_of
from planner.season.frosts import shift
from planner.season.harvest_end import mode_of
from planner.season.practice import COUNTED_HARVEST, FALL_FACTOR, HEAT_ENOUGH
from planner.season.start_day import end_of_growth
from planner.season.windows import starts_in_autumn
from planner.sun import next_longest_day
from planner.words import later

#: Words for a sort that is not the usual one.
SORT_WORDS = {"early": later("an early sort"), "late": later("a late sort")}
#: Times its days from which on a crop takes too long for its usual sort (practice).
MUCH_LONGER = 1.25
#: Longest time before the last spring frost in which crops are forced under glass. [days]
FORCED = 150
#: Winter sorts are started from so long before the longest day ... [days]
BEFORE_MIDSUMMER = 21
#: ... to so long after it (practice). [days]
AFTER_MIDSUMMER = 35
#: The warmest day is so long after the longest (practice). [days]
WARMEST_AFTER = 30
#: What starts so long after the longest day is no more held against those. [days]
FOLLOWS_MIDSUMMER = 150

Ripening = Callable[[Need], dt.date | None]


def sort_that_fits(
    context: DateContext, on: dt.date, usual: Need, ripe_on: Ripening
) -> tuple[Need, dt.date | None]:
    """The need of the sort that a planting is taken for, and the day on which it is ripe.

    Parameters
    ----------
    context : DateContext
    on : date
        The day it takes its plot.
    usual : Need
        Of the usual sort.
    ripe_on : callable
        The day on which a need is met; None where it never is.
    """
    learned = context.figures.learned_figure("first picking")
    if learned is not None:  # over the sort that would be taken
        plain = context._replace(figures=context.figures.published)
        published = need_of(plain)
        if published is not None:
            need = sort_that_fits(plain, on, published, ripe_on)[0].times(learned.factor, learned.source)
            return need, ripe_on(need)
    ripe = ripe_on(usual)
    own = context.figures.variety
    if own is not None and own.number("days_to_maturity") is not None:
        return usual, ripe
    heat = _heat_for_early(context, on, usual, ripe)
    if heat is not None:
        early = need_of(context, "early")
        if early is not None and early.heat < usual.heat:
            need = _sort_between(early, usual, heat)
            sooner = ripe_on(need)
            if sooner is not None and (ripe is None or sooner < ripe):
                return need, sooner
        return usual, ripe
    late = need_of(context, "late")
    if late is None or ripe is None or late.heat <= usual.heat:
        return usual, ripe
    heat = _heat_for_late(context, on, late)
    need = _sort_between(late, usual, heat) if heat is not None else usual
    later = ripe_on(need)
    return (need, later) if later is not None and ripe < later else (usual, ripe)


def _sort_between(other: Need, usual: Need, heat: float) -> Need:
    """The sort that needs so much heat, of those between the usual and an early or late one. [deg C days]"""
    least, most = sorted((other.heat, usual.heat))
    share = (min(max(heat, least), most) - usual.heat) / (other.heat - usual.heat)
    if share <= 0:
        return usual
    return other._replace(
        heat=usual.heat + share * (other.heat - usual.heat),
        days=usual.days + share * (other.days - usual.days),
        days_on_plot=usual.days_on_plot + share * (other.days_on_plot - usual.days_on_plot),
    )


def _heat_for_early(context: DateContext, on: dt.date, usual: Need, ripe: dt.date | None) -> float | None:
    """Heat of the latest sort that still does well where the usual one does not; None where that does. [deg C days]

    Where early sorts are grown whatever the time, it is none at all.
    """
    if ripe is None or _is_forced(context, on):
        return 0.0
    last = context.planting.last or context.pins.last_harvest
    ends = [last] if last is not None else []
    frost = context.frosts.first_after(on) if not context.sheltered else None
    if frost is not None and not starts_in_autumn(context):
        end = end_of_growth(context, frost)[0]
        if context.tender:
            end = min(end, shift(frost, -FALL_FACTOR))  # else a cool summer leaves it unripe
        else:
            end = next_longest_day(end, not context.southern)  # until then it is picked as it stands
        ends.append(end)
    if _much_longer(context, on, usual):
        return 0.0
    if not ends:
        return None
    by = shift(min(ends), -_days_picked(context))
    if ripe <= by:
        return None
    if context.weather is None:
        return 0.0
    return heat_by(on, by, usual, (Stretch(0, context.weather),))


def _days_picked(context: DateContext) -> int:
    """Days of picking before frost that are counted of what is picked until then; none of what is harvested at once. [days]"""
    if mode_of(context) != "with frost":
        return 0
    return min(round(context.number("harvest_days") or 0), COUNTED_HARVEST)


def _is_forced(context: DateContext, on: dt.date) -> bool:
    """Whether it grows under glass from before the last spring frost on."""
    if not context.sheltered:
        return False
    spring = context.frosts.last_after(shift(on, -30))
    return spring is not None and on < spring <= shift(on, FORCED)


def _much_longer(context: DateContext, on: dt.date, usual: Need) -> bool:
    """Whether the place is so cool that a warm crop takes much longer than where its days were counted.

    What starts so late that it grows into the cooling year is judged by what starts in time for the warmest weeks: if it is
    too late for the usual sort, frost says so.
    """
    if not context.tender or not usual.days or context.outside is None:
        return False
    warmest = shift(next_longest_day(shift(on, -FOLLOWS_MIDSUMMER), context.southern), WARMEST_AFTER)
    begun = min(on, shift(warmest, -usual.days_on_plot / 2))
    in_the_open = day_reached(begun, usual, (Stretch(0, context.outside),))
    return in_the_open is None or (in_the_open - begun).days > MUCH_LONGER * usual.days_on_plot


def _heat_for_late(context: DateContext, on: dt.date, late: Need) -> float | None:
    """Heat of the latest sort for the winter that is still grown before it; None where none is meant. [deg C days]

    Late sorts are grown for the winter by what is to be stored, and by what is started about midsummer.  What is started
    later is ready no sooner than what was started as late as that.
    """
    frost = context.frosts.first_after(on)
    if frost is None or context.weather is None or context.tender:
        return None
    stretches = (Stretch(0, context.weather),)
    last = context.planting.last or context.pins.last_harvest
    heat = heat_by(on, end_of_growth(context, frost)[0], late, stretches) / HEAT_ENOUGH
    if last is not None and heat_by(on, last, late, stretches) < late.heat:
        return None  # cleared before: not meant for the winter
    stands = mode_of(context)
    stored = context.planting.purpose == "store" and stands in ("stands", "dies back")
    if stored and not context.sheltered and not swells_in_long_days(context):
        return heat
    if context.outside is None or stands != "stands":
        return None
    longest = next_longest_day(shift(on, -FOLLOWS_MIDSUMMER), context.southern)
    if on < shift(longest, -BEFORE_MIDSUMMER):
        return None
    until = shift(longest, AFTER_MIDSUMMER)
    return min(heat, late.heat - heat_by(until, on, late, stretches)) if on > until else heat
