"""The sort that a plan takes a planting for, held fast while its days or covers are tried otherwise.

Without this a planting that starts later would be taken for an earlier sort, and a curve over its days would be of several sorts.
"""

from __future__ import annotations

from planner.garden import OwnFigure, Variety
from planner.season.date_inputs import DateInputs, context_of
from planner.season.development import need_of
from planner.season.harvest import needs_as_grown
from planner.season.harvest_end import mode_of
from planner.season.start_day import work_out_start
from planner.season.work_out_dates import work_out
from planner.sun import next_longest_day

#: How the harvest of a crop ends that can stand a winter.
_STANDING = ("stands", "with bolting")


def _passes_winter(inputs: DateInputs) -> bool:
    """Whether the plan has a planting in its ground on the shortest day."""
    dates = work_out(inputs)
    end = dates.clear or dates.last_harvest
    if dates.on_plot is None or end is None:
        return False
    return next_longest_day(dates.on_plot.day, not inputs.southern) <= end.day


def planned_days(inputs: DateInputs) -> float | None:
    """Days to maturity of the sort that the plan takes a planting for; None where they are its variety's own, not known, or of what stands its winter.

    Parameters
    ----------
    inputs : DateInputs
    """
    own, crop = inputs.figures.variety, inputs.figures.crop
    if crop is None or (own is not None and own.number("days_to_maturity") is not None):
        return None
    published = inputs._replace(figures=inputs.figures.published)
    context = context_of(published)
    if mode_of(context) in _STANDING and _passes_winter(published):
        return None  # picked in winter as large as it is then: its sort is the rule's
    needs, usual = needs_as_grown(context, work_out_start(context)), need_of(context)
    days = crop.number("days_to_maturity")
    if needs is None or usual is None or days is None:
        return None
    taken = needs[0]
    other, other_days = (
        need_of(context, taken.sort),
        crop.number(f"days_{taken.sort}") if taken.sort else None,
    )
    if other is None or other_days is None or other.heat == usual.heat:
        return days
    return days + (other_days - days) * (taken.heat - usual.heat) / (other.heat - usual.heat)


def with_days(inputs: DateInputs, days: float) -> DateInputs:
    """The inputs of a planting of a sort that takes so many days.

    Parameters
    ----------
    inputs : DateInputs
    days : float
        To maturity, as its crop counts them. [days]
    """
    figure = OwnFigure(field="days_to_maturity", value=days)
    own = inputs.figures.variety
    if own is None:
        own = Variety(id="sort", crop=inputs.planting.crop, name="sort", figures=(figure,))
    else:
        others = tuple(one for one in own.figures if one.field != figure.field)
        own = own.with_(figures=(*others, figure))
    return inputs._replace(figures=inputs.figures._replace(variety=own))


def held_sort(inputs: DateInputs) -> DateInputs:
    """The inputs of a planting that stays the sort that the plan takes it for, whatever else is changed.

    Parameters
    ----------
    inputs : DateInputs
        As planned.
    """
    days = planned_days(inputs)
    return with_days(inputs, days) if days is not None else inputs
