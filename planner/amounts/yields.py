"""What the plantings of a plan yield (:mod:`planner.plan.yields`)."""

from __future__ import annotations

from planner.amounts.picking import picking_if_alive, picking_of, share_left, share_picked
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.garden.records import PickedRecord
from planner.plan import Plan
from planner.plan.survival import WHOLE
from planner.plan.yields import Yield, YieldInputs, yield_figure, yield_of_planting


def planting_yield(plan: Plan, planting: Planting) -> Yield:
    """What a planting yields: after a loss what is left of it, with what was there to be picked before.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of the plan's garden.
    """
    figures, lives = plan.figures_of(planting), plan.survival(planting)
    left = lives.left
    if lives.steps:
        picking = picking_of(planting, figures, plan.dates(planting))
        left = share_left(picking, lives) if picking is not None else left
    inputs = YieldInputs(planting, figures, plan.placed(planting), left)
    return plan.cached(yield_of_planting, planting.id, inputs)


def missing_of_loss(plan: Plan, planting: Planting) -> int | None:
    """How much less a planting yields than if nothing of it had been lost; None where that is not known. [g]

    Of one that was lost altogether what would come until then, or what was picked and weighed where that is more, is not missing.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of the plan's garden.
    """
    figures, dates, lives = plan.figures_of(planting), plan.dates(planting), plan.survival(planting)
    inputs = YieldInputs(planting, figures, plan.placed(planting))
    whole = plan.cached(yield_of_planting, (planting.id, "whole"), inputs).grams
    if whole is None:
        return None
    picking, alive = picking_of(planting, figures, dates), picking_if_alive(planting, figures, dates)
    to_come = whole * share_picked(alive, WHOLE) if alive is not None else whole
    comes = whole * share_picked(picking, lives) if picking is not None else 0.0
    outcome = plan.garden.outcome(planting)
    if outcome is not None and outcome.lost:
        picked = (one for one in plan.garden.records_of(planting.id) if isinstance(one, PickedRecord))
        comes = max(comes, sum(one.amount.value for one in picked if one.amount.unit == "g"))
    elif picking is None:
        comes = float(planting_yield(plan, planting).grams or 0)
    return max(round(to_come) - round(comes), 0)


def named_yield(figures: PlantingFigures) -> str:
    """The source of a yield, for the reader: its key; empty where none is known."""
    learned = figures.learned_figure("yield")
    found = yield_figure(figures)
    if learned is not None:
        return learned.source
    return "" if found is None else found[1].source or ""
