"""First and last day of each cover."""

from __future__ import annotations

from planner.garden import Cover
from planner.garden.planting import GUARDS
from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.planting_dates import CoverDays, Dated
from planner.season.temperatures import day_of_year_index
from planner.words import say

#: Guards of young plants only, and for how long birds and slugs are after those (practice). [days]
YOUNG_ONLY, YOUNG = ("brushwood", "slug ring"), 28
#: Days looked at of a cover without an end. [days]
_LONGEST = 366

#: Covers under which it grows hot in the sun: film and glass that let no air through.
VENTED = ("cloche", "low tunnel")
#: Maximum of the day from which they are opened: over crops of cool weather (wgt_bosak: 60 F), and over those that frost
#: kills (practice). [deg C]
VENT_COOL, VENT_TENDER = 15.6, 25.0
#: One day in six is so much warmer than the mean maximum: the standard deviation of daily maxima in spring (estimate).
#: [deg C]
WARM_DAY = 4.0

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
            found.append(CoverDays(cover.kind, laid, off, cover, _vented(context, cover, laid, off)))
    return tuple(found)


def _laid(context: DateContext, cover: Cover, on: Dated | None, first: Dated | None) -> Dated | None:
    """The day a cover is laid; None where the start of the planting is not known."""
    done = context.done_on_cover("film down" if cover.kind == "film" else "cover on", cover.kind)
    if done is not None:
        return Dated(done, say("Laid on this day"), "", "done")
    if cover.first is not None:
        return Dated(cover.first, say("Set by hand"), "", "by hand")
    if cover.kind in GUARDS:
        return Dated(on.day, say("With sowing or setting out"), "practice") if on is not None else None
    if context.stays_for_years and first is not None:
        at = shift(first.day, -practice.COVER_BEFORE_HARVEST)
        return Dated(at, say("Two weeks before the first harvest"), "practice")
    if on is None:
        return None
    crop = context.crop
    if cover.kind == "film" and crop is not None and crop.hardiness and crop.hardiness.value == "warm-loving":
        return Dated(shift(on.day, -practice.FILM_AHEAD), say("A week ahead, to warm the soil"), "practice")
    return Dated(on.day, say("With sowing or setting out"), "practice")


def _taken_off(
    context: DateContext,
    cover: Cover,
    laid: Dated,
    on: Dated | None,
    flower: Dated | None,
    clear: Dated | None,
) -> Dated | None:
    """The day a cover comes off; None where it lies until the planting is cleared and that day is not known."""
    done = context.done_on_cover("film up" if cover.kind == "film" else "cover off", cover.kind)
    if done is not None:
        return Dated(done, say("Taken off on this day"), "", "done")
    if cover.last is not None:
        return Dated(cover.last, say("Set by hand"), "", "by hand")
    if cover.kind in YOUNG_ONLY:
        return Dated(shift(laid.day, YOUNG), say("The plants are past their first weeks"), "practice")
    if cover.kind in practice.WARMING and context.tender and on is not None:
        off = Dated(
            shift(laid.day, practice.SHELTER),
            say("{days} days of shelter", days=practice.SHELTER),
            "practice",
        )
        return _for_insects(flower) if flower is not None and flower.day < off.day else off
    if cover.kind in CLOSED and flower is not None and flower.day > laid.day:
        return _for_insects(flower)
    return Dated(clear.day, say("With clearing"), "practice") if clear is not None else None


def _for_insects(flower: Dated) -> Dated:
    return Dated(flower.day, say("In flower: insects must reach it"), "practice")


def _vented(context: DateContext, cover: Cover, laid: Dated, off: Dated | None) -> Dated | None:
    """The first day on which a cover may have to be opened; None where that is not known, and of covers that let air through."""
    if cover.kind not in VENTED:
        return None
    done = context.done_on_cover("vent", cover.kind)
    if done is not None:
        return Dated(done, say("Opened on this day"), "", "done")
    if context.outside is None:
        return None
    limit = VENT_TENDER if context.tender else VENT_COOL
    for days in range((off.day - laid.day).days if off is not None else _LONGEST):
        day = shift(laid.day, days)
        if context.outside.high[day_of_year_index(day)] + WARM_DAY >= limit:
            degrees = f"{limit:g}"
            why = say(
                "From then on one day in six is warmer than {limit} °C, and much hotter under a closed cover",
                limit=degrees,
            )
            return Dated(day, why, "practice" if context.tender else "wgt_bosak")
    return None
