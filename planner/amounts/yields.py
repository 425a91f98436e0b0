"""What the plantings of a plan yield (:mod:`planner.plan.yields`)."""

from __future__ import annotations

from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.plan import Plan
from planner.plan.yields import Yield, YieldInputs, yield_figure, yield_of_planting


def planting_yield(plan: Plan, planting: Planting) -> Yield:
    """What a planting yields.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of the plan's garden.
    """
    inputs = YieldInputs(planting, plan.figures_of(planting), plan.placed(planting))
    return plan.cached(yield_of_planting, planting.id, inputs)


def named_yield(figures: PlantingFigures) -> str:
    """The source of a yield, for the reader: its key; empty where none is known."""
    learned = figures.learned_figure("yield")
    found = yield_figure(figures)
    if learned is not None:
        return learned.source
    return "" if found is None else found[1].source or ""
