"""From when to when a planting is covered."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from planner.crops import Crop
from planner.garden import Cover, Planting
from planner.season import practice
from planner.season.frosts import shift
from planner.season.planting_dates import CoverDays, Dated

#: Covers that keep insects from flowers.
CLOSED = ("fleece", "netting", "cloche", "low tunnel")
#: Covers that keep the cold off.
WARMING = ("fleece", "cloche", "low tunnel")


def cover_days(
    planting: Planting,
    crop: Crop | None,
    done: Mapping[str, dt.date],
    on: Dated | None,
    flower: Dated | None,
    first: Dated | None,
    clear: Dated | None,
    stands: bool,
) -> tuple[CoverDays, ...]:
    """Days of each cover of a planting: as given, as done, else by the rules of practice.

    Film lies from before setting out until clearing.  Fleece and hoops shelter a tender crop for
    two weeks after setting out; over a hardy one they keep pests off from sowing to clearing, and so
    does netting.  Whatever keeps insects out comes off when a crop flowers that they must pollinate.
    """
    found = []
    for cover in planting.covers:
        laid = _laid(cover, crop, done, on, first, stands)
        if laid is not None:
            found.append(
                CoverDays(cover.kind, laid, _off(cover, crop, done, on, laid, flower, clear, stands))
            )
    return tuple(found)


def _laid(
    cover: Cover,
    crop: Crop | None,
    done: Mapping[str, dt.date],
    on: Dated | None,
    first: Dated | None,
    stands: bool,
) -> Dated | None:
    kind = "film down" if cover.kind == "film" else "cover on"
    if kind in done:
        return Dated(done[kind], "Laid on this day", "", "done")
    if cover.first is not None:
        return Dated(cover.first, "Given by hand", "", "by hand")
    if stands and first is not None:
        return Dated(shift(first.day, -14), "Two weeks before the first harvest", "practice")
    if on is None:
        return None
    if cover.kind == "film" and crop is not None and crop.hardiness and crop.hardiness.value == "warm-loving":
        return Dated(shift(on.day, -practice.FILM_AHEAD), "A week ahead, to warm the soil", "practice")
    return Dated(on.day, "With sowing or setting out", "practice")


def _off(
    cover: Cover,
    crop: Crop | None,
    done: Mapping[str, dt.date],
    on: Dated | None,
    laid: Dated,
    flower: Dated | None,
    clear: Dated | None,
    stands: bool,
) -> Dated | None:
    if cover.kind != "film" and "cover off" in done:
        return Dated(done["cover off"], "Taken off on this day", "", "done")
    if cover.last is not None:
        return Dated(cover.last, "Given by hand", "", "by hand")
    if cover.kind in WARMING and practice.tender(crop) and on is not None:
        off = Dated(shift(laid.day, practice.SHELTER), f"{practice.SHELTER} days of shelter", "practice")
        if flower is not None and flower.day < off.day:
            return Dated(flower.day, "In flower: insects must reach it", "practice")
        return off
    if cover.kind in CLOSED and flower is not None and flower.day > laid.day:
        return Dated(flower.day, "In flower: insects must reach it", "practice")
    if stands and clear is None:
        return None
    return Dated(clear.day, "With clearing", "practice") if clear is not None else None
