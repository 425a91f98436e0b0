"""What the records of a planting tell of its times, held against what the published figures say of the same planting.

Days are those of this garden's weather, under this planting's covers and glass; so how long it took is compared with how long
the published figures say that it takes here, from the same day on.  Until the first picking warmth counts, not days: the factor
is the warmth that it had, in the usual weather of the place, over that which it needs.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import Literal, NamedTuple

from planner.garden.learned import SeenKind
from planner.season.date_inputs import DateContext, DateInputs, context_of
from planner.season.development import day_reached, heat_by, need_of
from planner.season.emergence import expected_emergence
from planner.season.frosts import shift
from planner.season.growing import stretches_of
from planner.season.harvest import ripe_on
from planner.season.harvest_end import last_day_of_harvest, mode_of
from planner.season.planting_dates import Dated
from planner.season.sorts import sort_that_fits
from planner.season.start_day import growing_days

#: What ends the harvest of crops that wait in the ground: when they are picked says when they were wanted.
_WAIT = ("stands", "dies back")
#: Days of picking from which what waits in the ground was picked as soon as it was ready, and not when it was wanted (practice).
PICKED_OVER = 14
#: Factors beyond these are slips of the pen, not a garden (estimate).
LEAST_FACTOR, MOST_FACTOR = 0.2, 5.0


class Observation(NamedTuple):
    """Something that was seen of one planting in one growing year, beside what the published figures say of it.

    Attributes
    ----------
    kind : str
    year : int
        Growing year.
    seen : float
        In days, grams or as a share.
    expected : float or None
        The same by the published figures; None where there are none.
    factor : float or None
        What was seen over what was expected; None where nothing can be learned of it.
    """

    kind: SeenKind
    year: int
    seen: float
    expected: float | None
    factor: float | None


#: Why something that was seen teaches nothing: a number that no garden has; picked in pieces; no end is written down; nothing was
#: weighed; what waits in the ground was picked when it was wanted; what dies back was lifted when there was time; cold or long days decided; the planting was lost.
WhyLeftOut = Literal["slip", "pieces", "not over", "unweighed", "wanted", "lifted", "not by warmth", "lost"]


class LeftOut(NamedTuple):
    """Something that was seen of one planting in one growing year and is not learned from.

    Attributes
    ----------
    kind : str
        The figure that does not learn from it; of a lost planting its yield.
    year : int
        Growing year.
    why : str
        One of :data:`WhyLeftOut`.
    seen, expected : float or None
        In days or grams.
    cause : str
        What took a planting that was lost: a word of :data:`planner.garden.records.Harm` or
        :data:`planner.garden.records.EndedWhy`, or the gardener's words.
    """

    kind: SeenKind
    year: int
    why: WhyLeftOut
    seen: float | None = None
    expected: float | None = None
    cause: str = ""


class SeenTimes(NamedTuple):
    """Days of a planting that its records tell.

    Attributes
    ----------
    began : date or None
        Sown, or planted where it is not sown.
    on_plot : date or None
        The day it took its plot.
    came_up, flowered, first, last : date or None
        First seedlings, first flowers, first and last picking.
    ripe : date or None
        Seen to be ripe, or lifted and cured.
    """

    began: dt.date | None = None
    on_plot: dt.date | None = None
    came_up: dt.date | None = None
    flowered: dt.date | None = None
    first: dt.date | None = None
    last: dt.date | None = None
    ripe: dt.date | None = None


def seen_times(context: DateContext, inputs: DateInputs, picked: tuple[dt.date, ...]) -> SeenTimes:
    """The days that the records of a planting tell, and none that were worked out.

    Parameters
    ----------
    context : DateContext
    inputs : DateInputs
        From which it was made.
    picked : tuple of date
        Days on which an amount was picked, in order.
    """
    seen = {one.stage: one.date for one in reversed(inputs.observed)}  # the first of each
    lasts = [one.date for one in inputs.observed if one.stage == "last picking"]
    done = context.done
    on_plot = done.get("sow" if context.start == "sown" else "set out")
    first = seen.get("first picking") or done.get("pick") or (picked[0] if picked else None)
    last = lasts[-1] if lasts else (picked[-1] if len(picked) > 1 else None)
    return SeenTimes(
        began=done.get("sow", on_plot),
        on_plot=on_plot,
        came_up=seen.get("came up"),
        flowered=seen.get("flowering"),
        first=first,
        last=last,
        ripe=done.get("lift and cure") or seen.get("ripe"),
    )


def observed_times(
    inputs: DateInputs, picked: tuple[dt.date, ...], *, over: bool
) -> tuple[SeenTimes, tuple[Observation, ...], tuple[LeftOut, ...]]:
    """What was seen of the times of a planting, and what of it teaches nothing.

    Nothing is learned of one that was lost, and of what stays for years.

    Parameters
    ----------
    inputs : DateInputs
        With the figures that are published.
    picked : tuple of date
        Days on which an amount was picked, in order.
    over : bool
        Whether its picking is known to be over.
    """
    context = context_of(
        inputs._replace(observed=(), outcome=None)
    )  # what was expected knows nothing of what was seen
    seen = seen_times(context, inputs, picked)
    if context.stays_for_years or (inputs.outcome is not None and inputs.outcome.lost):
        return seen, (), ()
    found = [_coming_up(context, seen), _flowering(context, seen), _first_picking(context, seen)]
    if over:
        found.append(_length_of_picking(context, seen))
    told = tuple(one for one in found if one is not None)
    return seen, told, tuple(_left_out(context, seen, told))


def _left_out(context: DateContext, seen: SeenTimes, told: tuple[Observation, ...]) -> Iterator[LeftOut]:
    """What was seen and is not learned from."""
    year = context.planting.year
    for one in told:
        if one.expected and one.factor is None:
            doubtful = possible(one.seen / one.expected) is None
            yield LeftOut(one.kind, year, "slip" if doubtful else "not by warmth", one.seen, one.expected)
    if seen.first is not None and _waits(context) and not any(one.kind == "first picking" for one in told):
        yield LeftOut("first picking", year, "wanted" if mode_of(context) == "stands" else "lifted")


def _waits(context: DateContext) -> bool:
    return mode_of(context) in _WAIT


def _picked_over(context: DateContext, seen: SeenTimes) -> bool:
    """Whether what waits in the ground was picked for the kitchen over some weeks: that begins when it is ready."""
    if mode_of(context) != "stands" or context.planting.purpose != "kitchen":
        return False
    return seen.first is not None and seen.last is not None and (seen.last - seen.first).days >= PICKED_OVER


def _observation(context: DateContext, kind: SeenKind, seen: float, expected: float | None) -> Observation:
    factor = seen / expected if expected else None
    return Observation(kind, context.planting.year, seen, expected, possible(factor))


def possible(factor: float | None) -> float | None:
    """A factor, or None where it is beyond what a garden can be."""
    return factor if factor is not None and LEAST_FACTOR <= factor <= MOST_FACTOR else None


def _coming_up(context: DateContext, seen: SeenTimes) -> Observation | None:
    if seen.came_up is None or seen.began is None or seen.came_up <= seen.began:
        return None
    sown = Dated(seen.began, "") if context.start in ("sown", "raised") else None
    up = expected_emergence(context, sown, Dated(seen.began, ""))
    expected = (up.day - seen.began).days if up is not None else None
    return _observation(context, "coming up", (seen.came_up - seen.began).days, expected)


def _flowering(context: DateContext, seen: SeenTimes) -> Observation | None:
    """Days from its beginning to the first flowers; no figure is published of them."""
    if seen.flowered is None or seen.began is None or seen.flowered <= seen.began:
        return None
    return _observation(context, "flowering", (seen.flowered - seen.began).days, None)


def _first_picking(context: DateContext, seen: SeenTimes) -> Observation | None:
    """Days from taking its plot to the first picking; of what waits in the ground, until it was seen to be ripe or picked over."""
    ready = seen.first or seen.ripe
    if _waits(context):
        ready = seen.ripe or (seen.first if _picked_over(context, seen) else None)
    on, first = seen.on_plot, ready
    if on is None or first is None or first <= on or context.planting.purpose in ("seed", "green manure"):
        return None
    days, need, stretches = (first - on).days, need_of(context), stretches_of(context, on)
    if need is None:
        return Observation("first picking", context.planting.year, days, None, None)
    if not stretches:
        return _observation(context, "first picking", days, growing_days(context))
    need, ripe = sort_that_fits(context, on, need, lambda other: ripe_on(context, on, other, stretches))
    expected = float((ripe - on).days) if ripe is not None else None
    by_warmth = ripe is not None and ripe == day_reached(on, need, stretches)  # not by the cold, or long days
    factor = heat_by(on, first, need, stretches) / need.heat if by_warmth and need.heat else None
    return Observation("first picking", context.planting.year, days, expected, possible(factor))


def _length_of_picking(context: DateContext, seen: SeenTimes) -> Observation | None:
    """Days of picking, where the crop's own days end it."""
    if seen.first is None or seen.last is None or seen.last <= seen.first:
        return None
    days = (seen.last - seen.first).days + 1
    if mode_of(context) != "after weeks":
        return Observation("length of picking", context.planting.year, days, None, None)
    on = seen.on_plot or shift(seen.first, -(growing_days(context) or 0))
    last, _ = last_day_of_harvest(context, on, seen.first, need_of(context), stretches_of(context, on))
    expected = (last.day - seen.first).days + 1 if last is not None else None
    return _observation(context, "length of picking", days, expected)
