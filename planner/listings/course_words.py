"""How a planting came to stand in its bed, and how it ended, in sentences."""

from __future__ import annotations

from planner.garden import Planting
from planner.garden.harm_words import WHY_WORDS
from planner.plan import Plan
from planner.words import full_day_words, later, say

#: Where a planting came from that was neither sown nor bought.
CAME_FROM_WORDS = {"self-sown": later("self-sown"), "given": later("given")}


def course_lines(plan: Plan, planting: Planting) -> list[str]:
    """What a planting replaces, how it ended, and what replaced it; a sentence each, none of most plantings.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    garden = plan.garden
    lines = []
    before = garden.plantings_by_id.get(planting.replaces or "")
    if before is not None:
        day = full_day_words(plan.span_of(before).first)
        lines.append(say("It was sown or planted anew in place of that of {day}.", day=day))
    outcome = garden.outcome(planting)
    if outcome is not None:
        lines.append(
            say("It ended on {day}: {why}.", day=full_day_words(outcome.day), why=say(WHY_WORDS[outcome.why]))
        )
    for one in garden.plantings:
        if one.replaces == planting.id:
            day = full_day_words(plan.span_of(one).first)
            lines.append(say("It was sown or planted anew on {day}.", day=day))
    return lines
