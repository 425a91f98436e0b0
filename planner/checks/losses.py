"""Losses: a planting of which less is left than was planned, by what came up and what was seen to be lost."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial
from typing import NamedTuple

from planner.amounts.yields import missing_of_loss
from planner.checks.frame.context import CheckContext, planting_finding
from planner.checks.frame.finding import Finding, Fix, Severity
from planner.checks.frame.planting_view import PlantingView
from planner.checks.other_start import objection
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.garden import edits as e
from planner.garden.harm_words import causes_in_words, loss_words
from planner.garden.planting import SEEDLESS
from planner.garden.weight_words import weight_words
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
    """A planting and what is left of it.

    Attributes
    ----------
    view : PlantingView
    lives : Survival
    ended : tuple of (date, str) or None
        The day on which all of it was lost and what took it, where it is written down that it ended so.
    missing : int or None
        What is picked less of it. [g]
    anew_until : date or None
        The last day on which its crop may usually be begun; None where that is not known, or it stays for years.
    """

    view: PlantingView
    lives: Survival
    ended: tuple[dt.date, str] | None
    missing: int | None
    anew_until: dt.date | None


def check(context: CheckContext) -> Iterator[Finding]:
    """Report plantings of which less is left than was planned."""
    plan = context.plan
    replaced: set[str | None] | None = None
    for view in context.views:
        outcome, lives = plan.garden.outcome(view.planting), plan.survival(view.planting)
        ended = None
        if outcome is not None and outcome.lost and outcome.why != "resown":
            if replaced is None:
                replaced = {one.replaces for one in plan.garden.plantings}
            if view.id not in replaced:
                ended = outcome.day, loss_words(plan.garden.records_of(view.id), outcome.why)
        if ended is None and (outcome is not None or not lives.steps):
            continue
        inputs = LossInputs(view, lives, ended, missing_of_loss(plan, view.planting), _last_start(plan, view))
        found = plan.cached(loss_finding, view.id, inputs)
        if found is not None:
            yield found


def _last_start(plan: Plan, view: PlantingView) -> dt.date | None:
    """The last day on which the crop of a planting may be begun in its year, sown indoors where it is raised."""
    if view.crop is None or view.stays_for_years:
        return None
    start = start_of(view.planting, view.figures)
    days = [one.last for one in plan.start_windows(view.crop, start) if one.last.year == view.planting.year]
    if not days:
        return None
    return (
        shift(max(days), -7 * (view.figures.number("weeks_to_raise") or 0))
        if start == "raised"
        else max(days)
    )


@fact("loss")
def loss_finding(inputs: LossInputs) -> Finding | None:
    """What is missing of one planting; None where all, or nearly all, of it is left."""
    view, lives = inputs.view, inputs.lives
    left = 0.0 if inputs.ended is not None else lives.left
    if left > SPARED:
        return None
    # what ended is known to the gardener, and its ground is free
    severity: Severity = "stop" if left == 0 else "mind" if left < HALF else "note"
    severity = "note" if inputs.ended is not None else severity
    day = inputs.ended[0] if inputs.ended is not None else lives.steps[-1].day
    return planting_finding(
        CHECK,
        severity,
        (view,),
        capital(_with_what_follows(inputs, day, left)),
        say(_RULE),
        "practice",
        [str(day), round(left, 3)],
        topic="lost",
        candidates=lambda plan: _anew(plan, view, day) if left < HALF else iter(()),
    )


def _with_what_follows(inputs: LossInputs, day: dt.date, left: float) -> str:
    """What was lost, what is picked less, and until when it may be begun anew, where that is worth it."""
    view, units = inputs.view, inputs.view.units
    words = _words(view, inputs.lives, inputs.ended)
    if inputs.missing:
        words = say("{lost}; {weight} less is picked", lost=words, weight=weight_words(inputs.missing, units))
    if left >= HALF or inputs.anew_until is None:
        return words
    if inputs.anew_until <= day:
        return say("{lost}; it is too late in the year to begin it anew", lost=words)
    return say("{lost}; it may be begun anew until {day}", lost=words, day=view.day(inputs.anew_until))


def _words(view: PlantingView, lives: Survival, ended: tuple[dt.date, str] | None) -> str:
    """What was lost, to what and when, and what is left."""
    if ended is not None:
        day, cause = ended
        return say(
            "{planting} was lost on {day} ({cause})", planting=view.name, day=view.day(day), cause=cause
        )
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
        harm=causes_in_words((one.harm, one.cause) for one in lives.steps if one.harm is not None),
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
        try:
            garden, new = _begun_anew(plan.garden, view.id, day)
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
            yield Fix(text, say("the ground is full again"), partial(_garden_anew, key=view.id, day=day))
            return


def _begun_anew(garden: Garden, key: str, day: dt.date) -> tuple[Garden, str]:
    """A garden in which a planting is begun anew; what ended is planted once more on its ground."""
    if garden.outcome(garden.plantings_by_id[key]) is None:
        return e.sow_anew(garden, key, day)
    return e.plant_again(garden, key, day)


def _garden_anew(garden: Garden, key: str, day: dt.date) -> Garden:
    return _begun_anew(garden, key, day)[0]
