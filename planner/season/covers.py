"""First and last day of each cover."""

from __future__ import annotations

from planner.garden import Cover
from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.planting_dates import CoverDays, Dated

#: Covers that shut insects out.
CLOSED = ("fleece", "netting", "cloche", "low tunnel")


def cover_days(
    context: DateContext, on: Dated | None, flower: Dated | None, first: Dated | None, clear: Dated | None
) -> tuple[CoverDays, ...]:
    """Days of each cover of a planting: done before given, given before worked out.

    Film lies from before setting out until clearing.  Fleece and hoops shelter a tender crop for
    two weeks after setting out; over a hardy one they keep pests off from sowing to clearing, and so
    does netting.  Whatever keeps insects out comes off when a crop flowers that they must pollinate.

    Parameters
    ----------
    context : DateContext
    on, flower, first, clear : Dated, optional
        The day it takes its plot, flowering, first harvest and clearing.
    """
    found = []
    for cover in context.planting.covers:
        laid = _laid(context, cover, on, first)
        if laid is not None:
            off = _taken_off(context, cover, laid, on, flower, clear)
            found.append(CoverDays(cover.kind, laid, off, cover))
    return tuple(found)


def _laid(context: DateContext, cover: Cover, on: Dated | None, first: Dated | None) -> Dated | None:
    """The day a cover is laid; None where the start of the planting is not known."""
    given = context.given_day("film down" if cover.kind == "film" else "cover on", cover.first, "Laid")
    if given is not None:
        return given
    if context.stays_for_years and first is not None:
        at = shift(first.day, -practice.COVER_BEFORE_HARVEST)
        return Dated(at, "Two weeks before the first harvest", "practice")
    if on is None:
        return None
    crop = context.crop
    if cover.kind == "film" and crop is not None and crop.hardiness and crop.hardiness.value == "warm-loving":
        return Dated(shift(on.day, -practice.FILM_AHEAD), "A week ahead, to warm the soil", "practice")
    return Dated(on.day, "With sowing or setting out", "practice")


def _taken_off(
    context: DateContext,
    cover: Cover,
    laid: Dated,
    on: Dated | None,
    flower: Dated | None,
    clear: Dated | None,
) -> Dated | None:
    """The day a cover comes off; None where it lies until the planting is cleared and that day is not known."""
    taken = "film up" if cover.kind == "film" else "cover off"
    if taken in context.done:
        return Dated(context.done[taken], "Taken off on this day", "", "done")
    if cover.last is not None:
        return Dated(cover.last, "Set by hand", "", "by hand")
    if cover.kind in practice.WARMING and context.tender and on is not None:
        off = Dated(shift(laid.day, practice.SHELTER), f"{practice.SHELTER} days of shelter", "practice")
        return _for_insects(flower) if flower is not None and flower.day < off.day else off
    if cover.kind in CLOSED and flower is not None and flower.day > laid.day:
        return _for_insects(flower)
    return Dated(clear.day, "With clearing", "practice") if clear is not None else None


def _for_insects(flower: Dated) -> Dated:
    return Dated(flower.day, "In flower: insects must reach it", "practice")
