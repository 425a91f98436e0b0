"""What the plantings of a plan yield (:mod:`planner.plan.yields`)."""

from __future__ import annotations

from planner.amounts.picking import picking_of, share_left
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.garden.records import PickedRecord
from planner.plan import Plan
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

    Of one that was lost altogether what was picked and weighed before counts, and what was to come is missing.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of the plan's garden.
    """
    inputs = YieldInputs(planting, plan.figures_of(planting), plan.placed(planting))
    whole = plan.cached(yield_of_planting, (planting.id, "whole"), inputs).grams
    outcome = plan.garden.outcome(planting)
    if whole is None:
        return None
    if outcome is not None and outcome.lost:
        picked = (one for one in plan.garden.records_of(planting.id) if isinstance(one, PickedRecord))
        return max(whole - round(sum(one.amount.value for one in picked if one.amount.unit == "g")), 0)
    return max(whole - (planting_yield(plan, planting).grams or 0), 0)


def named_yield(figures: PlantingFigures) -> str:
    """The source of a yield, for the reader: its key; empty where none is known."""
    learned = figures.learned_figure("yield")
    found = yield_figure(figures)
    if learned is not None:
        return learned.source
    return "" if found is None else found[1].source or ""
