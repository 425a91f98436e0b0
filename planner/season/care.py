"""Work that every crop of its kind needs: indoors, thinning and supports; the crop's own is in ``aftercare.py``."""

from __future__ import annotations

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.planting_dates import Dated


def indoor_steps(
    context: DateContext, sow: Dated | None, out: Dated | None, up: Dated | None
) -> tuple[Dated | None, Dated | None]:
    """Pricking out and hardening off of plants raised indoors; None where a step does not belong to them.

    Parameters
    ----------
    context : DateContext
    sow, out, up : Dated, optional
        Sowing, setting out and emergence.
    """
    if context.start != "raised" or out is None:
        return None, None
    harden = context.given_day("harden off", context.pins.harden_off, "Begun")
    if harden is None:
        why = f"{practice.HARDENING} days before setting out"
        at = shift(out.day, -practice.HARDENING)
        harden = Dated(max(at, sow.day) if sow else at, why, "practice")
    prick = context.given_day("prick out", context.pins.prick_out, "Pricked out")
    weeks = context.number("weeks_to_raise") or 0
    if prick is None and up is not None and weeks >= practice.PRICKED_FROM:
        at = shift(up.day, practice.PRICKING)
        if at < harden.day:
            prick = Dated(at, f"{practice.PRICKING} days after it comes up", "practice")
    return prick, harden


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
    given = context.given_day("thin", context.pins.thin, "Thinned")
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
    return Dated(at, f"{(at - up.day).days} days after it comes up", "practice")


def support_day(context: DateContext, on: Dated | None) -> Dated | None:
    """The day its support goes up, with the start; None without a support."""
    if context.planting.support is None:
        return None
    given = context.given_day("support up", context.pins.support_up, "Put up")
    if given is not None or on is None:
        return given
    return Dated(on.day, "With sowing or setting out, before roots can be hurt", "practice")
