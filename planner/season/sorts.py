"""Early, usual and late sorts: which of them a planting without a variety is taken for.

A variety with days to maturity of its own is that sort.  Else the usual one is meant, unless

- it must be ripe by a day that was given, or before frost, cold or darkness end its year, and only an early sort is;
- it grows under glass from before the last spring frost on: early sorts are forced;
- the place is so cool that in the open it takes much longer than where its days were counted, and frost kills it: cool
  places grow early sorts of warm crops, under covers and glass as well;
- it stands the winter and is started about midsummer, or is grown to be stored: a late sort, if that is full-grown
  before the winter.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from planner.season.bulbs import swells_in_long_days
from planner.season.date_inputs import DateContext
from planner.season.development import Need, Stretch, day_reached, heat_by, need_of
from planner.season.frosts import shift
from planner.season.harvest_end import mode_of
from planner.season.practice import HEAT_ENOUGH
from planner.season.start_day import end_of_growth
from planner.season.windows import starts_in_autumn
from planner.sun import next_longest_day

#: Words for a sort that is not the usual one.
SORT_WORDS = {"early": ", an early sort", "late": ", a late sort"}
#: Times its days from which on a crop takes too long for its usual sort (practice).
MUCH_LONGER = 1.25
#: Longest time before the last spring frost in which crops are forced under glass. [days]
FORCED = 150
#: Winter sorts are started from so long before the longest day ... [days]
BEFORE_MIDSUMMER = 21
#: ... to so long after it (practice). [days]
AFTER_MIDSUMMER = 35

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
    ripe = ripe_on(usual)
    own = context.figures.variety
    if own is not None and own.number("days_to_maturity") is not None:
        return usual, ripe
    if _wants_early(context, on, usual, ripe):
        early = need_of(context, "early")
        sooner = ripe_on(early) if early is not None else None
        if early is not None and sooner is not None and (ripe is None or sooner < ripe):
            return early, sooner
    elif _may_be_late(context, on):
        late = need_of(context, "late")
        later = ripe_on(late) if late is not None else None
        frost = context.frosts.first_after(on)
        if late is not None and later is not None and ripe is not None and frost is not None and ripe < later:
            last = context.planting.last or context.pins.last_harvest
            end = end_of_growth(context, frost)[0]
            grown = context.weather is not None and (
                heat_by(on, end, late, (Stretch(0, context.weather),)) >= HEAT_ENOUGH * late.heat
            )
            in_time = grown and (last is None or later <= last)
            return (late, later) if in_time else (usual, ripe)
    return usual, ripe


def _wants_early(context: DateContext, on: dt.date, usual: Need, ripe: dt.date | None) -> bool:
    last = context.planting.last or context.pins.last_harvest
    if ripe is None or (last is not None and ripe > last):
        return True
    if context.sheltered:
        spring = context.frosts.last_after(shift(on, -30))
        if spring is not None and on < spring <= shift(on, FORCED):
            return True
    frost = context.frosts.first_after(on) if not context.sheltered else None
    if frost is not None and not starts_in_autumn(context):
        end = end_of_growth(context, frost)[0]
        if not context.tender:
            end = next_longest_day(end, not context.southern)  # until then it is picked as it stands
        if ripe > end:
            return True
    if not context.tender or not usual.days or context.outside is None:
        return False
    in_the_open = day_reached(on, usual, (Stretch(0, context.outside),))
    return in_the_open is None or (in_the_open - on).days > MUCH_LONGER * usual.days_on_plot


def _may_be_late(context: DateContext, on: dt.date) -> bool:
    """Whether it is meant for the winter: it is to be stored, or started late."""
    stored = context.planting.purpose == "store" and mode_of(context) in ("stands", "dies back")
    if stored and not context.tender and not context.sheltered and not swells_in_long_days(context):
        return True
    if context.tender or context.outside is None or mode_of(context) != "stands":
        return False
    longest = next_longest_day(shift(on, -AFTER_MIDSUMMER), context.southern)
    return on >= shift(longest, -BEFORE_MIDSUMMER)
