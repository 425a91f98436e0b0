"""What the plantings of a plan yield (:mod:`planner.plan.yields`)."""

from __future__ import annotations

from planner.amounts.picking import picking_of, share_left
from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
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


def named_yield(figures: PlantingFigures) -> str:
    """The source of a yield, for the reader: its key; empty where none is known."""
    learned = figures.learned_figure("yield")
    found = yield_figure(figures)
    if learned is not None:
        return learned.source
    return "" if found is None else found[1].source or ""
