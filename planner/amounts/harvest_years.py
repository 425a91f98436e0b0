"""The harvest by week of each recorded year, added over the plantings, and its spread over the years.

The weeks of a year belong together: a cold year is late for all that grows.  So each year's plantings are added first, and
quantiles are taken of the sums, not sums of quantiles.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from planner.amounts.harvest import Harvest
from planner.amounts.picking import AT_THE_END, PEAK, Picking, Shape, picking_of
from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.plan.cache import fact
from planner.plan.survival import Survival
from planner.season.lived.lived_years import Lived
from planner.season.planting_dates import Dated, Dates
from planner.season.spans import Span
from planner.season.tasks import monday
from planner.season.thermal_time import Numbers

#: Shares of the years between which the spread of a week is told, and the middle.
LOW, MIDDLE, HIGH = 0.1, 0.5, 0.9
_WEEK = 7


@dataclass(frozen=True, eq=False)
class HarvestYears:
    """What is picked of some plantings by week in each recorded year.

    Attributes
    ----------
    years : tuple of int
        Recorded growing years that count for all of the plantings.
    mondays : tuple of date
        Of the weeks of the plan's growing year.
    grams : ndarray, shape (years, weeks)
        [g]
    """

    years: tuple[int, ...]
    mondays: tuple[dt.date, ...]
    grams: Numbers

    def quantile(self, share: float) -> Numbers:
        """What is picked at the most in a share of the years, week by week; shape (weeks,). [g]

        A quantile of type 7 (Hyndman and Fan 1996) of each week's sums.
        """
        found: Numbers = np.quantile(self.grams, share, axis=0)
        return found

    def of_week(self, week: dt.date) -> tuple[float, float, float]:
        """10 %, middle and 90 % of a week by its Monday. [g]"""
        found = np.quantile(self.grams[:, self.mondays.index(week)], (LOW, MIDDLE, HIGH))
        return float(found[0]), float(found[1]), float(found[2])

    @property
    def totals(self) -> Numbers:
        """What is picked in the whole growing year, by recorded year; shape (years,). [g]"""
        found: Numbers = self.grams.sum(axis=1)
        return found

    @property
    def total(self) -> tuple[float, float, float]:
        """10 %, middle and 90 % of what is picked in the whole growing year. [g]"""
        found = np.quantile(self.totals, (LOW, MIDDLE, HIGH))
        return float(found[0]), float(found[1]), float(found[2])

    @property
    def worst(self) -> tuple[int, float]:
        """The recorded year with the least harvest, and what is picked in it. [g]"""
        at = int(np.argmin(self.totals))
        return self.years[at], float(self.totals[at])


class WeeksInputs(NamedTuple):
    """What the harvest by week of a planting in the recorded years depends on.

    Attributes
    ----------
    harvest : Harvest
        As planned.
    figures : PlantingFigures
    dates : Dates
    lives : Survival
    lived : Lived
    first : date
        Monday of the first week.
    weeks : int
    span : Span
        Days that count.
    """

    harvest: Harvest
    figures: PlantingFigures
    dates: Dates
    lives: Survival
    lived: Lived
    first: dt.date
    weeks: int
    span: Span


def harvest_years(plan: Plan, found: Sequence[Harvest]) -> HarvestYears | None:
    """The harvest by week of each recorded year, added over plantings; None where none is recorded for all of them.

    What is picked already, or not worked out for the recorded years, is as planned in each of them.

    Parameters
    ----------
    plan : Plan
    found : sequence of Harvest
        Of its growing year.
    """
    weather = plan.recorded
    if weather is None:
        return None
    first = monday(plan.span.first)
    mondays = tuple(
        first + dt.timedelta(days=_WEEK * number)
        for number in range((plan.span.last - first).days // _WEEK + 1)
    )
    picked = [one for one in found if one.picks]
    lived = [(one, lived_of_harvest(plan, one)) for one in picked]
    known = set(weather.years.years.tolist())
    for _, years in lived:
        if years is not None:
            known &= set(years.years.tolist())
    if not picked or not known:
        return None
    common = np.array(sorted(known), dtype=np.int64)
    grams = np.zeros((len(common), len(mondays)))
    for one, years in lived:
        if years is None:
            for week, amount in one.weeks(plan.span).items():
                grams[:, mondays.index(week)] += amount
            continue
        inputs = WeeksInputs(
            one,
            plan.figures_of(one.planting),
            plan.dates(one.planting),
            plan.survival(one.planting),
            years,
            first,
            len(mondays),
            plan.span,
        )
        rows = plan.cached(weeks_in_years, (one.planting.id, plan.year), inputs)
        grams += rows[np.searchsorted(years.years, common)]
    return HarvestYears(tuple(common.tolist()), mondays, grams)


def lived_of_harvest(plan: Plan, one: Harvest) -> Lived | None:
    """A planting lived through the recorded years; None where its harvest is known already, or nothing is worked out of it."""
    dates = plan.dates(one.planting)
    begun = dates.first_harvest is None or dates.first_harvest.origin == "done"
    if begun or dates.outcome is not None:
        return None
    lived = plan.lived(one.planting)
    return lived if lived is not None and lived.rests_on != "nothing" and len(lived.years) else None


def dates_in_years(dates: Dates, lived: Lived) -> Iterator[Dates | None]:
    """The dates of a planting in each recorded year: its pickings as that year gives them; None in a year without one.

    Parameters
    ----------
    dates : Dates
        Those of the plan.
    lived : Lived
    """
    for first, last, picked in zip(
        lived.first.tolist(), lived.last.tolist(), lived.picked.tolist(), strict=True
    ):
        if not picked or math.isnan(first):
            yield None
            continue
        end = None if math.isnan(last) else _moved(dates.last_harvest, max(last, first))
        yield replace(dates, first_harvest=_moved(dates.first_harvest, first), last_harvest=end)


def _moved(dated: Dated | None, ordinal: float) -> Dated:
    day = dt.date.fromordinal(int(ordinal))
    return replace(dated, day=day) if dated is not None else Dated(day, "")


@fact("harvest by week in recorded years")
def weeks_in_years(inputs: WeeksInputs) -> Numbers:
    """What is picked of a planting by week in each recorded year; shape (years, weeks). [g]"""
    one, lived = inputs.harvest, inputs.lived
    pickings = [
        picking_of(one.planting, inputs.figures, dates) if dates is not None else None
        for dates in dates_in_years(inputs.dates, lived)
    ]
    grams = one.amount.grams or 0
    if inputs.lives.steps:
        rows = _day_by_day(pickings, grams, inputs)
    else:
        rows = _all_at_once(pickings, grams, inputs)
    rows.flags.writeable = False
    return rows


def _day_by_day(pickings: Iterable[Picking | None], grams: int, inputs: WeeksInputs) -> Numbers:
    """The same from the picks of each day, of what has losses on some of them."""
    rows = np.zeros((len(inputs.lived.years), inputs.weeks))
    for row, picking in zip(rows, pickings, strict=True):
        for pick in picking.picks_left(grams, inputs.lives) if picking is not None else ():
            if inputs.span.holds(pick.day):
                row[(pick.day - inputs.first).days // _WEEK] += pick.grams
    return rows


def _all_at_once(pickings: Sequence[Picking | None], grams: int, inputs: WeeksInputs) -> Numbers:
    """The same of all years at once, by the share of the yield that has come before each week."""
    rows = np.zeros((len(inputs.lived.years), inputs.weeks))
    weeks = inputs.first.toordinal() + _WEEK * np.arange(inputs.weeks + 1)
    edges = np.clip(weeks, inputs.span.first.toordinal(), inputs.span.last.toordinal() + 1)
    for shape in ("once", "even", "peaked"):
        of_shape: list[tuple[int, Picking]] = [
            (number, one) for number, one in enumerate(pickings) if one is not None and one.shape == shape
        ]
        if not of_shape:
            continue
        at = np.array([number for number, _ in of_shape])
        first = np.array([one.first.toordinal() for _, one in of_shape])[:, None]
        last = np.array([one.last.toordinal() for _, one in of_shape])[:, None]
        over = np.array([(one.over or one.last).toordinal() for _, one in of_shape])[:, None]
        if shape == "once":
            come = (edges > first).astype(np.float64)
        else:
            whole = np.maximum(over, last) - first + 1
            come = shares_by(np.clip(edges - first, 0, last - first + 1) / whole, shape)
        rows[at] = np.diff(come, axis=1) * grams
    return rows


def shares_by(x: Numbers, shape: Shape) -> Numbers:
    """:func:`planner.amounts.picking.share_by` of many shares of the days.

    Examples
    --------
    >>> shares_by(np.array([0.0, 0.6, 1.0]), "peaked").round(3).tolist()
    [0.0, 0.646, 1.0]
    """
    if shape != "peaked":
        return x
    begins, ends = PEAK
    falls = 1.0 - ends
    whole = begins / 2 + (ends - begins) + falls * (1 + AT_THE_END) / 2
    beyond = x - ends
    last = begins / 2 + (ends - begins) + beyond - (1 - AT_THE_END) * beyond * beyond / (2 * falls)
    found: Numbers = (
        np.where(x <= begins, x * x / (2 * begins), np.where(x <= ends, begins / 2 + x - begins, last))
        / whole
    )
    return found
