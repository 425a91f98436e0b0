"""How much to plant for an amount: metres of row, plants, ground and seed, and the beds where they fit."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from typing import NamedTuple

from planner.amounts.seeds import LEAST_GERMINATION, seeds_per_station, seeds_to_raise
from planner.crops import Crop
from planner.garden import Bed, Garden, Planting, Rows, Stretch
from planner.garden import edits as e
from planner.garden.planting import SEEDLESS
from planner.garden.planting_figures import PlantingFigures
from planner.ground.bed_spacing import usual_arrangement
from planner.ground.stretches import free_stretches
from planner.plan import Plan
from planner.plan.yields import YieldInputs, yield_figure, yield_of_planting
from planner.season.planting_dates import Dates
from planner.season.spans import Span

#: Shortest stretch of a bed that is offered. [m]
SHORTEST = 0.3
#: Ground that is left in a bed below which it is not looked at; plots that lie over each other count twice. [m2]
LEAST_FREE = 0.05
#: Step to which a stretch is cut to what is needed. [m]
STEP = 0.1
#: Times the yield of rows with which a crop is planted in the spacing for beds, which takes more plants (practice).
CLEARLY_MORE = 1.5
#: Most stretches over which an amount is divided.
MOST_SPOTS = 6
#: Fields of a planting that more of it has too.
_TAKEN_OVER = ("variety", "product", "state", "covers", "purpose", "last")
#: Id of a planting that is not in the garden yet.
_DRAFT = "enough"


@dataclass(frozen=True)
class Needed:
    """What an amount takes at the crop's spacing in rows with paths.

    Attributes
    ----------
    grams : int
        [g]
    metres : float or None
        Of row; None where no spacing is known. [m]
    plants : int or None
    area : float or None
        [m2]
    seeds : int or None
        Seeds to sow; 0 of what is grown from sets, tubers or plants, None where it is not known.
    seed_grams : float or None
        Their weight; None where it is not known. [g]
    """

    grams: int
    metres: float | None
    plants: int | None
    area: float | None
    seeds: int | None
    seed_grams: float | None = None


class Spot(NamedTuple):
    """A free stretch of a bed, and what the crop yields there.

    Attributes
    ----------
    bed : Bed
    planting : Planting
        Not in the garden yet.
    plants : int
    area : float
        [m2]
    grams : int
        [g]
    """

    bed: Bed
    planting: Planting
    plants: int
    area: float
    grams: int

    @property
    def length(self) -> float:
        """Of the stretch. [m]"""
        plot = self.planting.plot
        return plot.end - plot.start if isinstance(plot, Stretch) else 0.0


#: Why a planting should not grow in a stretch that is free, a sentence without a full stop; empty where nothing is against it.
Refusal = Callable[[Spot], str]


class Room(NamedTuple):
    """Where an amount of a crop fits.

    Attributes
    ----------
    spots : tuple of Spot
        May yield less than is asked for, where there is no more room; empty where there is none.
    refused : tuple of (Bed, str)
        Beds with free ground that was passed over, and why.
    """

    spots: tuple[Spot, ...]
    refused: tuple[tuple[Bed, str], ...] = ()


def needed(figures: PlantingFigures, start: str, grams: int) -> Needed | None:
    """What an amount takes; None where no yield is known.

    Parameters
    ----------
    figures : PlantingFigures
    start : str
        How it starts.
    grams : int
        [g]
    """
    found = _yield(figures)
    if found is None:
        return None
    field, kilograms = found
    count = grams / (1000 * kilograms)
    in_row, between = figures.number("in_row_spacing"), figures.number("row_spacing")
    if field == "yield_per_plant":
        plants: int | None = math.ceil(count - 1e-9)
        metres = plants * in_row if plants is not None and in_row is not None else None
    else:
        metres = count
        plants = math.ceil(count / in_row - 1e-9) if in_row else None
    area = metres * between if metres is not None and between is not None else None
    return _with_seed(Needed(grams, metres, plants, area, None), figures, start)


def _yield(figures: PlantingFigures) -> tuple[str, float] | None:
    """The field of a yield and what a plant or metre gives: this garden's own before the published one; None where none is known. [kg]"""
    published, learned = yield_figure(figures), figures.learned_figure("yield")
    if learned is not None and learned.value and (published is None or published[0] == learned.field):
        return learned.field, learned.value
    return (published[0], published[1].value) if published is not None and published[1].value else None


def needed_in(plan: Plan, crop: Crop, start: str, found: tuple[Spot, ...]) -> Needed:
    """What the beds take that were found: the plants that stand there, their rows, ground and seed.

    Parameters
    ----------
    plan : Plan
    crop : Crop
    start : str
        How it starts.
    found : tuple of Spot
    """
    figures = plan.own_figures(crop, start)
    plants = sum(spot.plants for spot in found)
    lengths = [plan.trial(spot.planting).layout.row_length for spot in found]
    in_row = figures.number("in_row_spacing")
    metres = sum(lengths) if all(lengths) else plants * in_row if in_row is not None else None
    whole = Needed(sum(spot.grams for spot in found), metres, plants, sum(spot.area for spot in found), None)
    return _with_seed(whole, figures, start)


def _with_seed(takes: Needed, figures: PlantingFigures, start: str) -> Needed:
    seeds, to_gram = _seeds(figures, start, takes.plants, takes.metres), figures.number("seeds_per_gram")
    return replace(takes, seeds=seeds, seed_grams=seeds / to_gram if seeds and to_gram else None)


def _seeds(figures: PlantingFigures, start: str, plants: int | None, metres: float | None) -> int | None:
    if start in SEEDLESS:
        return 0
    germination = figures.number("germination")
    apart = figures.number("sowing_spacing")
    if start == "sown" and apart is not None and metres is not None:
        return math.ceil(metres / apart - 1e-6)
    if plants is None or germination is None or germination < LEAST_GERMINATION:
        return None
    return (
        seeds_to_raise(plants, germination) if start == "raised" else plants * seeds_per_station(germination)
    )


def find_room(
    plan: Plan,
    crop: Crop,
    start: str,
    dates: Dates,
    grams: int,
    like: Planting | None = None,
    refusal: Refusal | None = None,
) -> Room:
    """Find free stretches of beds that yield an amount: the one that is just enough, else the largest together.

    Parameters
    ----------
    plan : Plan
    crop : Crop
    start : str
        How it starts; the crop's usual way where empty.
    dates : Dates
        From the day it takes its plot until it is cleared.
    grams : int
        [g]
    like : Planting, optional
        Of which there is to be more: its variety, covers and purpose are taken over, and beds with the same shelter are
        looked at.  By default the crop is planted plainly in the open.
    refusal : callable, optional
        Asked of each stretch before it is taken; by default all free ground will do.
    """
    if dates.on_plot is None:
        return Room(())
    last = dates.clear or dates.last_harvest or dates.first_harvest
    span = Span(dates.on_plot.day, max(dates.on_plot.day, last.day if last is not None else plan.span.last))
    found = sorted(_whole_spots(plan, crop, start, span, like), key=lambda spot: -spot.grams)
    chosen: list[Spot] = []
    refused: dict[str, tuple[Bed, str]] = {}
    rest = grams
    while rest > 0 and found and len(chosen) < MOST_SPOTS:
        enough = [spot for spot in found if spot.grams >= rest]
        whole = enough[-1] if enough else found[0]
        found.remove(whole)
        spot = _cut(plan, whole, rest) if enough else whole
        why = refusal(spot) if refusal is not None else ""
        if why:
            refused.setdefault(spot.bed.id, (spot.bed, why))
        else:
            chosen.append(spot)
            rest -= spot.grams
    return Room(tuple(chosen), tuple(refused.values()))


def _whole_spots(plan: Plan, crop: Crop, start: str, span: Span, like: Planting | None) -> Iterator[Spot]:
    shelter = plan.shelter_of(plan.bed_of(like)) if like is not None else ()
    taken_over = {name: getattr(like, name) for name in _TAKEN_OVER} if like is not None else {}
    for bed in plan.beds:
        if plan.shelter_of(bed) != shelter or _taken(plan, bed, span):
            continue
        fields = {"id": _DRAFT, "bed": bed.id, "crop": crop.key, "year": plan.year, "start": start or None}
        draft = Planting.model_validate({**fields, **taken_over, "first": span.first})
        free = plan.free_in(bed, span, climbing=plan.may_climb_arch(draft))
        for begin, end in free_stretches(bed, free):
            if end - begin >= SHORTEST:
                plot = Stretch(start=round(begin, 3), end=round(end, 3))
                spot = _better_spot(plan, draft.with_(plot=plot), bed, crop)
                if spot.grams > 0:
                    yield spot


def _better_spot(plan: Plan, planting: Planting, bed: Bed, crop: Crop) -> Spot:
    """A stretch in rows; in the spacing for beds where that yields clearly more, and is not too close to earth up."""
    rows = _spot(plan, planting.with_(arrangement=Rows()))
    close = usual_arrangement(bed, PlantingFigures(crop, None))
    if close == Rows() or any(one.task == "earth up" for one in crop.aftercare):
        return rows
    in_bed = _spot(plan, planting.with_(arrangement=close))
    return in_bed if in_bed.grams > CLEARLY_MORE * rows.grams else rows


def _taken(plan: Plan, bed: Bed, span: Span) -> bool:
    """Whether plots take a bed in a span, by their areas alone, so that its free ground need not be cut out."""
    areas = [
        plan.placed(one).area
        for one in plan.garden_in_bed(bed.id)
        if not one.shares_ground and plan.span_of(one).meets(span)
    ]
    return plan.area(bed) - sum(areas) < LEAST_FREE


def _spot(plan: Plan, planting: Planting) -> Spot:
    placed, figures = plan.trial(planting), plan.figures_of(planting)
    grams = yield_of_planting(YieldInputs(planting, figures, placed)).grams or 0
    return Spot(plan.garden.beds_by_id[planting.bed], planting, placed.plants, placed.area, grams)


def _cut(plan: Plan, spot: Spot, grams: int) -> Spot:
    """The shortest beginning of a stretch, in steps, that still yields an amount."""
    plot = spot.planting.plot
    assert isinstance(plot, Stretch)
    low, high, best = 1, math.ceil((plot.end - plot.start) / STEP - 1e-9), spot
    while low < high:
        middle = (low + high) // 2
        end = min(plot.end, round(plot.start + middle * STEP, 3))
        tried = _spot(plan, spot.planting.with_(plot=Stretch(start=plot.start, end=end)))
        if tried.grams >= grams:
            high, best = middle, tried
        else:
            low = middle + 1
    return best


def planting_edit(found: tuple[Spot, ...]) -> Callable[[Garden], Garden]:
    """The edit that plants what was found."""
    return partial(_plant, found=found)


def _plant(garden: Garden, found: tuple[Spot, ...]) -> Garden:
    for spot in found:
        one = spot.planting
        fields = {
            name: getattr(one, name) for name in ("plot", "arrangement", "first", "start", *_TAKEN_OVER)
        }
        garden, _ = e.add_planting(garden, one.bed, one.crop, one.year, **fields)
    return garden
