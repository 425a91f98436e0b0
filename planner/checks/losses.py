"""Losses: a planting of which less is left than was planned, by what came up and what was seen to be lost."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix, Severity
from planner.checks.frame.planting_view import PlantingView
from planner.checks.other_start import objection
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.garden import edits as e
from planner.garden.harm_words import HARM_WORDS
from planner.garden.planting import SEEDLESS
from planner.plan import Plan
from planner.plan.cache import fact
from planner.plan.survival import Survival
from planner.season.frosts import shift
from planner.season.practice import start_of
from planner.words import capital, later, percent, say

CHECK = "losses"
#: Share that is left from which nothing is said: a few plants are planted to spare (practice).
SPARED = 0.9
#: Share that is left below which it is worth to begin anew (practice).
HALF = 0.5
#: Days after the loss on which it may be begun anew, and how far they lie apart. [days]
_ANEW, _STEP = 56, 7

_RULE = later("As many plants stand as were planned; less than half of them is worth to begin anew")


class LossInputs(NamedTuple):
    """A planting and what is left of it."""

    view: PlantingView
    lives: Survival


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings of which less is left than was planned."""
    plan = context.plan
    for view in context.views:
        if plan.garden.outcome(view.planting) is None and (lives := plan.survival(view.planting)).steps:
            found = plan.cached(loss_finding, view.id, LossInputs(view, lives))
            if found is not None:
                yield found


@fact("loss")
def loss_finding(inputs: LossInputs) -> Finding | None:
    """What is missing of one planting; None where all, or nearly all, of it is left."""
    view, lives = inputs
    if lives.left > SPARED:
        return None
    severity: Severity = "stop" if lives.left == 0 else "mind" if lives.left < HALF else "note"
    day = lives.steps[-1].day
    return planting_finding(
        CHECK,
        severity,
        (view,),
        capital(_words(view, lives)),
        say(_RULE),
        "practice",
        [str(day), round(lives.left, 3)],
        topic="lost",
        candidates=lambda plan: _anew(plan, view, day) if lives.left < HALF else iter(()),
    )


def _words(view: PlantingView, lives: Survival) -> str:
    """What was lost, to what and when, and what is left."""
    step = lives.steps[-1]
    if step.harm is None:
        return say(
            "{share} of the {planting} is missing since {day}: {left} of {planned} plants are there",
            share=percent(1.0 - lives.left),
            planting=view.name,
            day=view.day(step.day),
            left=lives.plants,
            planned=lives.planned,
        )
    return say(
        "{share} of the {planting} was lost to {harm} by {day}: {left} of {planned} plants are left",
        share=percent(1.0 - lives.left),
        planting=view.name,
        harm=step.cause or say(HARM_WORDS[step.harm]),
        day=view.day(step.day),
        left=lives.plants,
        planned=lives.planned,
    )


def _anew(plan: Plan, view: PlantingView, lost: dt.date) -> Iterator[Fix]:
    """Clear what is left and begin anew, on the first day after the loss that has nothing against it."""
    if view.stays_for_years:
        return
    for days in range(1, _ANEW + 1, _STEP):
        day = shift(lost, days)
        begin = partial(_begun_anew, key=view.id, day=day)
        try:
            garden, new = e.sow_anew(plan.garden, view.id, day)
        except BedwrightError:
            return
        sow = plan.what_if(garden).dates(garden.plantings_by_id[new]).sow
        if sow is not None and sow.day <= lost:
            continue  # plants that are raised for it take their time
        if objection(plan, garden, new) is None:
            sown = start_of(view.planting, view.figures) not in (*SEEDLESS, "raised")
            text = (
                say("Clear the {planting} and sow it anew on {day}", planting=view.name, day=view.day(day))
                if sown
                else say(
                    "Clear the {planting} and plant it anew on {day}", planting=view.name, day=view.day(day)
                )
            )
            yield Fix(text, say("the ground is full again"), begin)
            return


def _begun_anew(garden: Garden, key: str, day: dt.date) -> Garden:
    return e.sow_anew(garden, key, day)[0]
