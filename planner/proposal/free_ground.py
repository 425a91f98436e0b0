"""Free ground for plantings that stood elsewhere: stretches that nothing takes and where their family may stand again."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import shapely

from planner.checks.frame.planting_view import PlantingView
from planner.checks.frame.sizes import support_fits
from planner.checks.rotation import interval
from planner.garden import Bed, Planting, Plot
from planner.ground.bed_spacing import usual_arrangement
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.proposal.filling import SHORTEST, shut_by_rotation
from planner.proposal.strips import Carried, Strip, Taken, carried_by, strips_of, taken_in
from planner.season.spans import Span

#: Ground that is smaller by so little counts as large enough.
_WHOLE = 0.995


class FreePlace(NamedTuple):
    """Free ground for a planting.

    Attributes
    ----------
    bed : Bed
    plot : Plot
    share : float
        Of the ground that it had, 1 at the most.
    far : float
        From where it stood. [m]
    """

    bed: Bed
    plot: Plot
    share: float
    far: float

    def put(self, planting: Planting, view: PlantingView) -> Planting:
        """A planting on this ground; what was drawn for other ground by hand is not kept."""
        fields: dict[str, object] = {"bed": self.bed.id, "plot": self.plot}
        if planting.arrangement.kind == "places":
            fields["arrangement"] = usual_arrangement(self.bed, view.figures)
        if planting.support is not None and planting.support.line:
            fields["support"] = planting.support.with_(line=())
        return planting.with_(**fields)


class FreeGround:
    """The beds of a growing year with what takes their ground, which follows the plan as plantings are put into it.

    Parameters
    ----------
    plan : Plan
    """

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._strips = {strip.bed.id: strip for strip in strips_of(plan, plan.beds)}
        self._carried = dict(zip(self._strips, carried_by(plan, self._strips.values()), strict=True))
        self._taken = {key: taken_in(plan, strip) for key, strip in self._strips.items()}
        self._shelter = {bed.id: plan.shelter_of(bed) for bed in plan.beds}

    def follow(self, plan: Plan, bed: str) -> None:
        """Take over a plan in which something more stands in a bed."""
        strip = self._strips[bed]
        before = self._plan.garden.plantings
        there = plan.garden.plantings[: len(before)]
        self._plan = plan
        if there == before:  # what came is the last
            came = plan.garden.plantings[len(before) :]
            self._carried[bed] += carried_by(plan, [strip], came)[0]
        else:
            self._carried[bed] = carried_by(plan, [strip])[0]
        self._taken[bed] = taken_in(plan, strip)

    def length_of(self, bed: str) -> float:
        """Length of a bed along which its stretches lie. [m]

        Parameters
        ----------
        bed : str
            Its id.
        """
        strip = self._strips[bed]
        return strip.length * strip.step

    def in_beds(
        self,
        view: PlantingView,
        area: float,
        shelter: tuple[str, ...],
        beds: Iterable[str] | None = None,
        *,
        rotation: bool = True,
        any_width: bool = False,
    ) -> dict[str, FreePlace]:
        """The best free stretch of each bed, by its id; beds without one are left out.

        Parameters
        ----------
        view : PlantingView
            Where it stood, on the days of this growing year.
        area : float
            Of the ground that is wanted. [m2]
        shelter : tuple of str
            What shelters it: neither out of the glass nor into it.
        beds : iterable of str, optional
            All by default.
        rotation : bool
            Whether ground is shut that its family may not stand on again.
        any_width : bool
            Whether beds come into question that are not as wide as what it climbs is built for.
        """
        here = plan_polygon(view.bed.outline) if view.plot.is_empty else view.plot
        found = {}
        for key in beds if beds is not None else self._strips:
            strip = self._strips[key]
            if self._shelter[key] != shelter or not (any_width or support_fits(view, strip.bed)):
                continue
            best = self._longest(view, area, strip, rotation=rotation)
            if best is not None:
                start, length, share = best
                far = float(shapely.distance(plan_polygon(strip.bed.outline), here))
                found[key] = FreePlace(strip.bed, strip.plot(start, length), share, far)
        return found

    def _longest(
        self, view: PlantingView, area: float, strip: Strip, *, rotation: bool
    ) -> tuple[int, int, float] | None:
        """Start and length of the first free stretch that is large enough, or of the largest, and its share of the ground. [steps]"""
        there: tuple[Taken, ...] = self._taken[strip.bed.id]
        carried: tuple[Carried, ...] = self._carried[strip.bed.id]
        shut = [(one.start, one.end) for one in there if Span(one.first, one.last).meets(view.span)]
        if rotation and view.crop is not None:
            shut += shut_by_rotation(self._plan, view.crop, view.span, interval(view), carried, there)
        best: tuple[int, int, float] | None = None
        for start, end in free_stretches(strip.length, shut):
            wanted = strip.length_of(area * _WHOLE, start)
            if wanted is not None and start + wanted <= end:
                return start, wanted, 1.0
            share = strip.ground(start, end - start) / area if area > 0 else 1.0
            if (end - start) * strip.step >= SHORTEST and (best is None or share > best[2]):
                best = start, end - start, min(share, 1.0)
        return best


def free_stretches(length: int, taken: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """The stretches that nothing takes, from their first step to the first after them."""
    found, at = [], 0
    for start, end in [*sorted(taken), (length, length)]:
        if start > at:
            found.append((at, start))
        at = max(at, end)
    return found
