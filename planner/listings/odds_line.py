"""The odds of a planting as a sentence, wherever it is told: form, tips, sheets."""

from __future__ import annotations

from planner.garden import Planting
from planner.plan import Plan
from planner.season.lived.assumed import assumed_words
from planner.season.lived.odds import Odds, left_out_words, odds_words
from planner.words import capital, say


def odds_shown(plan: Plan, planting: Planting) -> Odds | None:
    """The odds of a planting as they are shown: None without recorded years, and once it is picked or has ended.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    if plan.recorded is None:
        return None
    dates = plan.dates(planting)
    begun = dates.first_harvest is not None and dates.first_harvest.origin == "done"
    return None if begun or dates.outcome is not None else plan.odds(planting)


def odds_line(plan: Plan, planting: Planting) -> str:
    """What becomes of a planting in the recorded years, and what is assumed of them, without a full stop; empty without years.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    odds = odds_shown(plan, planting)
    if odds is None:
        return ""
    words = odds_words(odds)
    if plan.assumed:
        words = say(
            "{assumption}: {odds}", assumption=assumed_words(plan.assumed, plan.garden.site.units), odds=words
        )
    return capital(words)


def odds_lines(plan: Plan, planting: Planting) -> list[str]:
    """The same, with a line of the years that do not count.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    line, odds = odds_line(plan, planting), odds_shown(plan, planting)
    left_out = left_out_words(odds) if odds is not None and odds.years else ""
    return [one for one in (line, capital(left_out)) if one]


def assumption_line(plan: Plan) -> str:
    """What a view assumes of the recorded years, as a sentence of its own; empty where nothing."""
    if not plan.assumed:
        return ""
    return say(
        "An assumption: all that comes from the recorded years is {assumption}",
        assumption=assumed_words(plan.assumed, plan.garden.site.units),
    )
