"""Work that every crop of its kind needs: indoors, thinning and supports; the crop's own is in ``aftercare.py``."""

from __future__ import annotations

from typing import NamedTuple

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.planting_dates import Dated
from planner.season.raising import WayOfRaising, outgrown, way_of_raising
from planner.words import number_words, say


class IndoorSteps(NamedTuple):
    """Steps of plants that are raised, each None where it does not belong to them."""

    prick_out: Dated | None = None
    pot_on: Dated | None = None
    harden_off: Dated | None = None


def indoor_steps(context: DateContext, sow: Dated | None, out: Dated | None, up: Dated | None) -> IndoorSteps:
    """Pricking out, potting on and hardening off of plants that are raised; None where a step does not belong to them.

    Parameters
    ----------
    context : DateContext
    sow, out, up : Dated, optional
        Sowing, setting out and emergence.
    """
    if context.start != "raised" or out is None:
        return IndoorSteps()
    way = way_of_raising(context.planting, context.figures)
    harden = context.given_day("harden off", context.pins.harden_off, say("Begun on this day"))
    if harden is None and way.container is None:
        return IndoorSteps(
            context.given_day("prick out", context.pins.prick_out, say("Pricked out on this day"))
        )
    if harden is None:
        why = say("{days} days before setting out", days=practice.HARDENING)
        at = shift(out.day, -practice.HARDENING)
        harden = Dated(max(at, sow.day) if sow else at, why, "practice")
    prick = context.given_day("prick out", context.pins.prick_out, say("Pricked out on this day"))
    if prick is None and up is not None and way.way == "pricked out":
        at = shift(up.day, practice.PRICKING)
        if at < harden.day:
            prick = Dated(at, say("{days} days after it comes up", days=practice.PRICKING), "practice")
    return IndoorSteps(prick, _potting_on(context, way, sow, prick, harden), harden)


def _potting_on(
    context: DateContext, way: WayOfRaising, sow: Dated | None, prick: Dated | None, harden: Dated
) -> Dated | None:
    """The day for potting on what outgrows its cell before it is hardened off."""
    given = context.given_day("pot on", context.pins.pot_on, say("Potted on this day"))
    if given is not None or sow is None or way.container is None:
        return given
    begun = prick or sow
    day = outgrown(way, context.figures, sow.day, begun.day, harden.day)
    if day is None:
        return None
    weeks = number_words((day - begun.day).days / 7, 0)
    return Dated(day, say("After {weeks} weeks it has outgrown what it is in", weeks=weeks), "practice")


def thinning_day(
    context: DateContext, up: Dated | None, on: Dated | None, first: Dated | None
) -> Dated | None:
    """Thinning of what is sown too close: two weeks after it comes up, at most half-way to its harvest.

    Parameters
    ----------
    context : DateContext
    up, on, first : Dated, optional
        Emergence, the day it takes its plot, and first harvest.
    """
    given = context.given_day("thin", context.pins.thin, say("Thinned on this day"))
    if given is not None:
        return given
    if context.start != "sown" or up is None:
        return None
    if not practice.is_thinned(context.planting, context.figures):
        return None
    at = shift(up.day, practice.THINNING)
    if on is not None and first is not None and first.origin == "worked out":
        half_way = shift(on.day, (first.day - on.day).days / 2)
        at = max(up.day, min(at, half_way))
    return Dated(at, say("{days} days after it comes up", days=(at - up.day).days), "practice")


def support_day(context: DateContext, on: Dated | None) -> Dated | None:
    """The day its support goes up, with the start; None without a support."""
    if context.planting.support is None:
        return None
    given = context.given_day("support up", context.pins.support_up, say("Put up on this day"))
    if given is not None or on is None:
        return given
    return Dated(on.day, say("With sowing or setting out, before roots can be hurt"), "practice")
