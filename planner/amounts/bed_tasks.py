"""Dressings as work: what is spread where, on which day, and how much of it."""

from __future__ import annotations

import datetime as dt

from planner.amounts.sold_sizes import BARROW_LITRES
from planner.amounts.spread import MULCHES, SAME_MULCH, spread_of
from planner.garden import Dressing, Planting
from planner.garden.site import UnitSystem
from planner.garden.typed_amounts import show_measure
from planner.garden.volumes import show_load, show_volume
from planner.plan import Plan
from planner.season.tasks import Task
from planner.words import key_words, say, say_count, say_in_context

#: A mulch of this depth is drawn up instead of soil (practice). [m]
EARTHED_WITH_MULCH = 0.15


def dressing_tasks(plan: Plan, first: dt.date, last: dt.date) -> tuple[Task, ...]:
    """Return the dressings that fall on any day of a span, as work.

    Parameters
    ----------
    plan : Plan
    first, last : date
    """
    return tuple(
        dressing_task(plan, one) for one in plan.garden.dressings if first <= (one.done or one.day) <= last
    )


def dressing_task(plan: Plan, one: Dressing) -> Task:
    """A dressing as work.

    Parameters
    ----------
    plan : Plan
    one : Dressing
    """
    spread, units = spread_of(plan, one), plan.garden.site.units
    planting, crop = spread.planting, ""
    if planting is not None:
        known = plan.figures_of(planting).crop
        crop = known.name if known is not None else planting.crop
    kind = key_words(one.kind)
    what = say("{kind} about {crop}", kind=kind, crop=crop) if crop else kind
    measure = show_measure(one.depth, one.rate, units)
    if one.depth is not None:
        measure = say_in_context("of a layer", "{depth} deep", depth=measure)
    amount = say(
        "{measure}, {amount}", measure=measure, amount=amount_words(spread.litres, spread.grams, units)
    )
    return Task(
        date=spread.day,
        until=spread.day,
        kind="spread",
        planting=planting.id if planting is not None else "",
        bed=spread.bed.id,
        bed_name=spread.bed.name,
        crop=crop or kind,
        variety=planting.variety if planting is not None else "",
        text=say(
            "Spread {what} in {bed}, {amount}.",
            what=what,
            bed=spread.bed.name,
            amount=amount,
        ),
        work=say("Spread {what}", what=what),
        amount=amount,
        material=one.kind,
        why=one.notes.strip(),
        origin="done" if one.done is not None else "by hand",
        done=one.done,
        dressing=one.id,
    )


def amount_words(litres: float | None, grams: float | None, units: UnitSystem) -> str:
    """A volume with the barrows that it fills, or a mass.

    Parameters
    ----------
    litres, grams : float or None
        The volume comes first. [l], [g]
    units : {"metric", "feet_inches"}
    """
    if litres is None:
        return show_load(grams or 0.0, units)
    barrows, volume = round(litres / BARROW_LITRES), show_volume(litres, units)
    if not barrows:
        return volume
    return say_count(
        "{volume} (about {count} barrow)", "{volume} (about {count} barrows)", barrows, volume=volume
    )


class DoneOtherwise:
    """What a dressing, a film or an arch that is a structure of the garden does in place of work on a planting.

    A dressing of about the same day is the mulch that the crop wants.  Under film, and where a deep mulch lies about it, a crop is not
    earthed up.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """

    def __init__(self, plan: Plan, planting: Planting) -> None:
        mulches = [
            one
            for one in plan.garden.dressings_of(planting.bed)
            if one.kind in MULCHES and one.planting in (None, planting.id)
        ]
        self._mulched = [one.done or one.day for one in mulches]
        self._earthed = any(cover.kind == "film" for cover in planting.covers) or any(
            one.planting is not None and (one.depth or 0.0) >= EARTHED_WITH_MULCH for one in mulches
        )
        self._stands = planting.support is not None and plan.arch_of(planting) is not None

    def __call__(self, kind: str, day: dt.date) -> bool:
        """Whether work of a kind, due on a day, need not be done.

        Parameters
        ----------
        kind : str
        day : date
        """
        if kind == "mulch":
            return any(abs((one - day).days) <= SAME_MULCH for one in self._mulched)
        if kind == "support up":
            return self._stands
        return kind in ("earth up", "earth up again") and self._earthed


def without_needless(plan: Plan, planting: Planting, work: tuple[Task, ...]) -> tuple[Task, ...]:
    """The work on a planting without what a dressing or a film does instead, and without putting up an arch that stands.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    work : tuple of Task
    """
    otherwise = DoneOtherwise(plan, planting)
    left = tuple(task for task in work if task.done is not None or not otherwise(task.kind, task.date))
    return left if len(left) < len(work) else work
