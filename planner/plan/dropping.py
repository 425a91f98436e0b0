"""What a crop that is let go over a bed becomes, by the plan: where it lands, from when, and what it shades."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

import shapely

from planner.crops import Crop
from planner.errors import BedwrightError
from planner.garden import Bed, Planting
from planner.garden.model import Point
from planner.ground.bed_spacing import spacings, usual_arrangement
from planner.ground.dropping import LEAST_STRETCH, Drop, Manner, drop, fields_of, stretch_step
from planner.ground.free import piece_at, pieces, plot_of
from planner.ground.place import Placed
from planner.ground.shapes import bed_axis, bed_polygon, turned
from planner.plan.plan import Plan
from planner.season.spans import Span

#: Crops from this height on may shade others (practice). [m]
TALL = 0.9
#: Id of a planting that is not in the garden yet.
DRAFT_ID = "ghost"


class FreeGrounds:
    """Free ground of a bed for a crop: in its own days, then from each day after a planting there on which it can still go in.

    Each is worked out when it is first wanted, and kept: a crop that is held over a bed asks at each move.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    crop : Crop
    variety : str
    """

    def __init__(self, plan: Plan, bed: Bed, crop: Crop, variety: str) -> None:
        self.plan, self.bed, self.crop, self.variety = plan, bed, crop, variety
        self._found: list[tuple[dt.date | None, shapely.Geometry]] = []
        self._further = self._work_out()

    def serves(self, plan: Plan, bed: Bed, crop: Crop, variety: str) -> bool:
        """Whether this is the ground that is asked for."""
        return (self.plan, self.bed, self.crop.key, self.variety) == (plan, bed, crop.key, variety)

    def __iter__(self) -> Iterator[tuple[dt.date | None, shapely.Geometry]]:
        at = 0
        while True:
            if at == len(self._found):
                further = next(self._further, None)
                if further is None:
                    return
                self._found.append(further)
            yield self._found[at]
            at += 1

    def _work_out(self) -> Iterator[tuple[dt.date | None, shapely.Geometry]]:
        plan, bed = self.plan, self.bed
        draft = Planting(id=DRAFT_ID, bed=bed.id, crop=self.crop.key, variety=self.variety, year=plan.year)
        span, climbing = plan.span_of(draft), plan.may_climb_arch(draft)
        yield None, plan.free_in(bed, span, climbing=climbing)
        ends = {plan.span_of(one).last for one in plan.garden_in_bed(bed.id) if not one.shares_ground}
        for end in sorted(ends):
            if span.first <= end < plan.span.last:
                day = end + dt.timedelta(days=1)
                if not self._is_worth_while(day):
                    continue
                days = plan.span_of(draft.with_(first=day))
                yield day, plan.free_in(bed, days, climbing=climbing)

    def _is_worth_while(self, day: dt.date) -> bool:
        """Whether the crop comes to a good harvest when it goes in on a later day; so it is taken to where that is not known."""
        plan, crop = self.plan, self.crop
        window = plan.outer_window(crop, "")
        if window is None or plan.shelter_of(self.bed):
            return True
        return window.first <= day <= window.last and plan.dates_begun_on(crop, "", day)[1]


def find_drop(
    plan: Plan,
    bed: Bed,
    crop: Crop,
    variety: str,
    at: Point,
    manner: Manner,
    fine_step: float,
    grounds: FreeGrounds | None = None,
) -> Drop | None:
    """Where a crop let go over a bed would land, on ground that is free while it grows.

    Where none is free under the pointer in its own days, it lands on the first later day from which it is for all its days.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    crop : Crop
    variety : str
    at : tuple of float
        The pointer in the bed's coordinates. [m]
    manner : {"free", "stretch", "whole", "single"}
    fine_step : float
        Step to which everything is rounded that is dragged. [m]
    grounds : FreeGrounds, optional
        Of this bed and crop, where they were asked for before.

    Returns
    -------
    Drop or None
        None where a single plant is held beside the bed.
    """
    draft = Planting(id=DRAFT_ID, bed=bed.id, crop=crop.key, variety=variety, year=plan.year)
    figures = plan.figures_of(draft)
    usual = usual_arrangement(bed, figures)
    step = stretch_step(None if usual.kind == "scatter" else spacings(usual, figures)[0], fine_step)
    return drop(bed, grounds or FreeGrounds(plan, bed, crop, variety), at, manner, step)


def spread(
    plan: Plan, bed: Bed, crops: Sequence[tuple[Crop, str]], at: Point, manner: Manner, fine_step: float
) -> tuple[Planting, ...]:
    """Several crops side by side on one piece of ground, in their order, each on as much of its length.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    crops : sequence of (Crop, str)
        With their varieties.
    at : tuple of float
        The pointer in the bed's coordinates. [m]
    manner : {"free", "stretch", "whole", "single"}
        The whole bed, else the piece under the pointer that is free in the days of all of them.
    fine_step : float
        Step to which the ends are rounded. [m]

    Returns
    -------
    tuple of Planting
        Not in the garden yet; empty where no such ground is free, or too short.
    """
    drafts = [
        Planting(id=f"{DRAFT_ID}{number}", bed=bed.id, crop=crop.key, variety=variety, year=plan.year)
        for number, (crop, variety) in enumerate(crops)
    ]
    ground: shapely.Geometry = bed_polygon(bed)
    if manner != "whole":
        for draft in drafts:
            ground = shapely.intersection(ground, plan.free_in(bed, plan.span_of(draft)))
    piece = piece_at(ground, *at)
    if piece is None or not drafts:
        return ()
    axis = bed_axis(bed.outline)
    level = turned(piece, -axis)
    left, low, right, high = (float(bound) for bound in shapely.bounds(level))
    length = (right - left) / len(drafts)
    if length < LEAST_STRETCH:
        return ()
    ends = [left + round(number * length / fine_step) * fine_step for number in range(1, len(drafts))]
    made = []
    for draft, start, end in zip(drafts, (left, *ends), (*ends, right), strict=True):
        part = shapely.intersection(level, shapely.box(start, low, end, high))
        parts = pieces(part)
        if not parts:
            return ()
        plot = plot_of(bed, turned(max(parts, key=lambda one: float(one.area)), axis))
        made.append(draft.with_(plot=plot, arrangement=usual_arrangement(bed, plan.figures_of(draft))))
    return tuple(made)


def draft_planting(plan: Plan, bed: Bed, crop: Crop, variety: str, found: Drop) -> Planting:
    """The planting that a drop makes, before it is in the garden: in a bed by the spacing for beds, where it is known.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    crop : Crop
    variety : str
    found : Drop
        One that may land.

    Raises
    ------
    ValueError
        Where it may not land; says why.
    """
    draft = Planting(
        id=DRAFT_ID,
        bed=bed.id,
        crop=crop.key,
        variety=variety,
        year=plan.year,
        first=found.first,
        shares_ground=found.landing.arrangement.kind == "places",
        **fields_of(found.landing),
    )
    if draft.arrangement.kind == "places":
        return draft
    return draft.with_(arrangement=usual_arrangement(bed, plan.figures_of(draft)))


def shaded_by(
    plan: Plan, planting: Planting, placed: Placed, shown: dt.date
) -> tuple[tuple[str, float], ...]:
    """Crops that would lose direct sun to a planting that is not in the garden yet, the most first.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Low ones are taken to shade nothing.
    placed : Placed
        Its stations.
    shown : date
        Day shown on the sheet.

    Returns
    -------
    tuple of (str, float)
        Name, and loss on one day. [h]
    """
    if (plan.figures_of(planting).number("height") or 0.0) < TALL:
        return ()
    try:
        lost = plan.would_shade(planting, placed, _day_of_shade(plan.span_of(planting), plan.span, shown))
    except BedwrightError:  # no latitude yet: the map and the shadows say how to give it
        return ()
    crops = [(plan.figures_of(p).crop, p.crop, hours) for p, hours in lost]
    return tuple((crop.name if crop else key, hours) for crop, key, hours in crops)


def _day_of_shade(span: Span, year: Span, shown: dt.date) -> dt.date:
    """The day shown where the planting grows on it, else the middle of its days in the growing year."""
    return shown if span.holds(shown) else span.first + (min(span.last, year.last) - span.first) // 2
