"""Covers of a growing year: sheets, hoops and pegs, one long sheet over neighbouring plantings that stand in line."""

from __future__ import annotations

import datetime as dt
import math
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple, cast

import shapely

from planner.amounts.materials import ANY, Material, Sort, materials_of
from planner.amounts.sharing import Job
from planner.amounts.sold_sizes import SHEET_STEP, bars_sold, cut_length
from planner.amounts.supports import put_up
from planner.garden import Bed, Cover, Planting
from planner.garden.materials import MaterialKind
from planner.garden.planting import GUARDS, CoverHeld, CoverKind
from planner.garden.planting_figures import PlantingFigures
from planner.garden.site import UnitSystem
from planner.ground.arcs import half_ellipse
from planner.ground.covers import (
    HOOP_FOOT,
    LEAST_HOOP,
    TALLEST_HOOP,
    CoveredGround,
    SheetSize,
    brushwood_over,
    cloches_over,
    cloches_over_plants,
    covered_ground,
    film_over,
    laid_flat,
    on_hoops,
)
from planner.ground.place import Placed
from planner.ground.shapes import to_plan, turned
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.growth import highest_between
from planner.season.planting_dates import Dates
from planner.season.spans import Span

#: Sheets of each kind of cover.
SHEET_OF: dict[CoverKind, MaterialKind] = {
    "fleece": "fleece",
    "netting": "netting",
    "film": "mulch film",
    "low tunnel": "tunnel film",
}
#: Covers that stand on hoops where their planting does not say: a net that lies on leaves lets pests lay through it
#: (practice).
USUALLY_ON_HOOPS: tuple[CoverKind, ...] = ("netting", "low tunnel")
#: Grounds in line may lie so far apart, and so far out of line, under one sheet (practice). [m]
GAP, OUT_OF_LINE = 0.60, 0.15
#: One sheet lies over two plantings that are covered together for so much of the time in which either is (practice).
TOGETHER = 0.5


#: Plants that are lower do without their support still (practice). [m]
LEANS_FROM = 0.60


class Covered(NamedTuple):
    """One planting under one of its covers.

    Attributes
    ----------
    planting : Planting
    bed : Bed
    cover : Cover
    first, last : date
        Days on which it lies.
    ground : CoveredGround
    height : float
        Of the highest plants while it lies, or of the support that they lean on. [m]
    plants : int
    height_known : bool
        False where the crop has no height: a guess.
    cloches : int
        Of cloches, how many.
    """

    planting: Planting
    bed: Bed
    cover: Cover
    first: dt.date
    last: dt.date
    ground: CoveredGround
    height: float
    plants: int
    height_known: bool = True
    cloches: int = 0


@dataclass(frozen=True)
class LaidCover:
    """A cover over one planting, or over several in line.

    Attributes
    ----------
    parts : tuple of Covered
        In the order in which they stand.
    kind : str
    held : str
        ``hoops``, ``flat``, or ``ground`` of film; ``stands`` of cloches.
    sort : Sort
    length, width, height : float
        Of the ground under it, and of its hoops or of its plants where it lies flat. [m]
    first, last : date
    size : SheetSize
        Without a sheet where it is cloches.
    cloches, holes, guards : int
        Holes are those of all plants that stand in the film; guards are one a plant; brushwood is counted in bundles.
    plants : float
        Height of what stands under it. [m]
    height_known : bool
        False where a crop has no height: that of its hoops is a guess.
    too_wide : bool
        Its ground is too wide for the longest hoops that there are, and it has none.
    through : tuple of (str, int)
        Ids of other plantings that are set through the film, and how many plants of each; counted in ``holes``.
    posts : int
        Of supports, that go through the film; counted in ``holes``.
    """

    parts: tuple[Covered, ...]
    kind: CoverKind
    held: str
    sort: Sort
    length: float
    width: float
    height: float
    first: dt.date
    last: dt.date
    size: SheetSize
    cloches: int = 0
    holes: int = 0
    guards: int = 0
    plants: float = 0.0
    height_known: bool = True
    too_wide: bool = False
    through: tuple[tuple[str, int], ...] = ()
    posts: int = 0

    @property
    def begins(self) -> Covered:
        """That of its parts for which it is laid: the one that is covered first."""
        return min(self.parts, key=lambda part: part.first)

    @property
    def too_low(self) -> bool:
        """Whether what stands under its hoops is higher than they are."""
        return self.held == "hoops" and self.height_known and self.plants > self.height + 1e-6

    @property
    def key(self) -> str:
        """Names it: the ids of its plantings, its kind and its first day."""
        return f"{'+'.join(part.planting.id for part in self.parts)} {self.kind} {self.first}"


@dataclass(frozen=True)
class Covers:
    """All covers of a growing year, what they take, and the jobs of that by kind."""

    laid: tuple[LaidCover, ...]
    materials: tuple[Material, ...]
    jobs: Mapping[MaterialKind, Sequence[Job]]


def held_by(cover: Cover) -> CoverHeld:
    """How a cover is held: as it says, else as is usual for its kind."""
    return cover.held or ("hoops" if cover.kind in USUALLY_ON_HOOPS else "flat")


def covers(plan: Plan) -> Covers:
    """Work out the covers that lie on any day of a plan's growing year, and what they take.

    Parameters
    ----------
    plan : Plan
    """
    laid = laid_covers(plan)
    jobs = cover_jobs(plan, laid)
    return Covers(laid, materials_of(plan, jobs), jobs)


def laid_covers(plan: Plan) -> tuple[LaidCover, ...]:
    """The covers that lie on any day of a plan's growing year, in the order of their days."""
    longest = longest_hoop(plan)
    laid = (_with_all_holes(plan, _laid(run, longest)) for run in in_line(covered(plan)))
    return tuple(sorted(laid, key=lambda one: (one.first, one.key)))


def longest_hoop(plan: Plan) -> float:
    """Length of the longest hoop that is in the shed or sold. [m]"""
    there = [one.length or 0.0 for one in plan.garden.shed if one.kind == "hoop" and not one.sold]
    return max([*there, *bars_sold("hoop", plan.garden.shed, plan.garden.site.units)])


def needed_height(
    planting: Planting, figures: PlantingFigures, dates: Dates, span: Span, days: tuple[dt.date, dt.date]
) -> float:
    """How high hoops must stand over a planting on the days of a cover, both included. [m]

    As high as its plants, and as the support that they lean on once they are higher than :data:`LEANS_FROM`.

    Parameters
    ----------
    planting : Planting
    figures : PlantingFigures
    dates : Dates
    span : Span
        Days on its plot.
    days : tuple of (date, date)
    """
    plants = highest_between(figures, dates, span, *days)
    support, up = planting.support, dates.support_up
    stands = support is not None and plants > LEANS_FROM and (up is None or up.day <= days[1])
    return max(plants, support.height) if stands and support is not None else plants


def covered(plan: Plan) -> list[Covered]:
    """Plantings with each of their covers that lies on a day of the growing year."""
    found = []
    for planting in plan.plantings:
        if not planting.covers:
            continue
        ground = _ground(plan, planting)
        if ground is None:
            continue
        for days in plan.dates(planting).covers:
            first = days.on.day
            last = days.off.day if days.off is not None else plan.span_of(planting).last
            if days.cover is None or last < max(first, plan.span.first) or first > plan.span.last:
                continue
            figures, dates = plan.figures_of(planting), plan.dates(planting)
            height = needed_height(planting, figures, dates, plan.span_of(planting), (first, last))
            placed = plan.placed(planting)
            found.append(
                Covered(
                    planting,
                    plan.bed_of(planting),
                    days.cover,
                    first,
                    last,
                    ground,
                    height,
                    placed.plants,
                    figures.number("height") is not None,
                    _cloches(planting, placed, ground) if days.cover.kind == "cloche" else 0,
                )
            )
    return found


def _cloches(planting: Planting, placed: Placed, ground: CoveredGround) -> int:
    """Cloches over a planting: over its plants, or over its ground where it is sown all over."""
    if planting.arrangement.kind == "places":
        return placed.plants
    if planting.arrangement.kind == "scatter" or not len(placed.layout.points):
        return cloches_over(ground.length, ground.width)
    return cloches_over_plants(placed.layout.points, placed.layout.direction)


class GroundInputs(NamedTuple):
    """What the ground under a planting's cover depends on: its bed, its plot, and whether its plants stand singly."""

    bed: Bed
    placed: Placed
    single: bool


@fact("covered ground")
def ground_of(inputs: GroundInputs) -> CoveredGround | None:
    """The ground under a planting's cover; None where it has none."""
    return covered_ground(inputs.bed.outline, inputs.placed, single=inputs.single)


def _ground(plan: Plan, planting: Planting) -> CoveredGround | None:
    single = planting.arrangement.kind == "places"
    inputs = GroundInputs(plan.bed_of(planting), plan.placed(planting), single)
    return plan.cached(ground_of, planting.id, inputs)


# -- one sheet over several -------------------------------------------------------------------------------


@dataclass
class _Run:
    """Plantings in line under one sheet."""

    parts: list[Covered]
    end: float
    low: float
    high: float
    first: dt.date
    last: dt.date

    def takes(self, part: Covered) -> bool:
        """Whether a planting goes under the same sheet."""
        ground = part.ground
        gap = OUT_OF_LINE if part.cover.kind == "film" else GAP
        return (
            -OUT_OF_LINE <= ground.start - self.end <= gap
            and abs(ground.low - self.low) <= OUT_OF_LINE
            and abs(ground.high - self.high) <= OUT_OF_LINE
            and self._at_the_same_time(part)
        )

    def _at_the_same_time(self, part: Covered) -> bool:
        both = (min(self.last, part.last) - max(self.first, part.first)).days + 1
        either = (max(self.last, part.last) - min(self.first, part.first)).days + 1
        return both >= TOGETHER * either

    def add(self, part: Covered) -> None:
        """Lay the sheet over one more."""
        self.parts.append(part)
        self.end = max(self.end, part.ground.end)
        self.low, self.high = min(self.low, part.ground.low), max(self.high, part.ground.high)
        self.first, self.last = min(self.first, part.first), max(self.last, part.last)


def in_line(parts: Iterable[Covered]) -> list[tuple[Covered, ...]]:
    """Put together what one sheet covers: plantings in line, with covers that are alike, at the same time.

    Where it lies over one longer than over another, it is folded back there.
    """
    alike: dict[tuple[object, ...], list[Covered]] = defaultdict(list)
    alone: list[tuple[Covered, ...]] = []
    for part in parts:
        cover = part.cover
        if cover.kind == "cloche" or cover.kind in GUARDS:
            alone.append((part,))
            continue
        key = (cover.kind, held_by(cover), cover.weight, cover.mesh, cover.height, part.ground.direction)
        alike[key].append(part)
    return [*alone, *(run for group in alike.values() for run in _runs(group))]


def _runs(parts: Sequence[Covered]) -> list[tuple[Covered, ...]]:
    """Runs of plantings in line among those with covers alike, in one direction."""
    found: list[_Run] = []
    across: dict[int, list[_Run]] = defaultdict(list)  # runs by where their lower edge lies
    order = sorted(parts, key=lambda part: (part.ground.start, part.ground.low, part.first, part.planting.id))
    for part in order:
        lane = math.floor(part.ground.low / OUT_OF_LINE)
        near = [run for at in (lane - 1, lane, lane + 1) for run in across[at]]
        run = next((one for one in near if one.takes(part)), None)
        if run is not None:
            run.add(part)
            continue
        ground = part.ground
        run = _Run([part], ground.end, ground.low, ground.high, part.first, part.last)
        found.append(run)
        across[lane].append(run)
    return [tuple(run.parts) for run in found]


def _laid(parts: tuple[Covered, ...], longest: float) -> LaidCover:
    """The sheet over one or several plantings in line; hoops are no longer than the longest that there are [m]."""
    cover = parts[0].cover
    grounds = [part.ground for part in parts]
    length = max(one.end for one in grounds) - min(one.start for one in grounds)
    width = max(one.high for one in grounds) - min(one.low for one in grounds)
    plants = max(part.height for part in parts)
    held, height, cloches, holes, guards = str(held_by(cover)), plants, 0, 0, 0
    known, too_wide = all(part.height_known for part in parts), False
    if cover.kind in GUARDS:
        many = brushwood_over(length, width) if cover.kind == "brushwood" else parts[0].plants
        held, size, guards = "stands", SheetSize(0.0, 0.0), many
    elif cover.kind == "cloche":
        cloches = parts[0].cloches
        held, size = "stands", SheetSize(0.0, 0.0)
    elif cover.kind == "film":
        held, size, holes = "ground", film_over(length, width), sum(part.plants for part in parts)
    elif held == "hoops":
        height = cover.height or (min(max(plants, LEAST_HOOP), TALLEST_HOOP) if known else LEAST_HOOP)
        size = on_hoops(length, width, height)
        if size.hoop_length > longest + 1e-6:
            low = half_ellipse(width, LEAST_HOOP) + 2 * HOOP_FOOT
            too_wide = low > longest
            if too_wide:
                size = laid_flat(length, width, plants)
    else:
        size = laid_flat(length, width, plants)
    first, last = min(part.first for part in parts), max(part.last for part in parts)
    sort = Sort(cover.weight, cover.mesh) if cover.kind in ("fleece", "netting") else ANY
    return LaidCover(
        parts,
        cover.kind,
        held,
        sort,
        length,
        width,
        height,
        first,
        last,
        size,
        cloches,
        holes,
        guards,
        plants,
        known,
        too_wide,
    )


def _with_all_holes(plan: Plan, laid: LaidCover) -> LaidCover:
    """A film with the holes of all that goes through it: of other plantings that stand in its ground while it lies, and of posts.

    What is scattered is not sown through film.
    """
    if laid.kind != "film":
        return laid
    over = {part.planting.id for part in laid.parts}
    grounds = [part.ground for part in laid.parts]
    left, right = min(one.start for one in grounds), max(one.end for one in grounds)
    low, high = min(one.low for one in grounds), max(one.high for one in grounds)
    through = []
    posts = sum(_uprights(plan, part.planting) for part in laid.parts)
    for bed in {part.bed.id: part.bed for part in laid.parts}.values():
        for other in plan.in_bed(bed):
            span = plan.span_of(other)
            if other.id in over or other.arrangement.kind == "scatter":
                continue
            if span.last <= laid.first or span.first >= laid.last:
                continue
            points = plan.placed(other).layout.points
            if not len(points):
                continue
            at = shapely.MultiPoint(to_plan(bed.outline, points))
            x, y = shapely.get_coordinates(turned(at, -grounds[0].direction)).T
            inside = (x >= left) & (x <= right) & (y >= low) & (y <= high)
            if inside.any():
                through.append((other.id, int(inside.sum())))
                posts += _uprights(plan, other) if inside.all() else 0
    holes = laid.holes + sum(number for _, number in through) + posts
    return replace(laid, holes=holes, through=tuple(through), posts=posts) if holes != laid.holes else laid


def _uprights(plan: Plan, planting: Planting) -> int:
    """Posts, stakes, sticks and poles of a planting's support that stand in the ground; a frame's ridge is not told from them."""
    found = put_up(plan, planting)
    if found is None or found.built.kind == "frame":
        return 0
    return sum(piece.number for piece in found.pieces if piece.kind in ("post", "stake", "stick", "pole"))


# -- what it takes ----------------------------------------------------------------------------------------


def sheet_size(size: SheetSize, units: UnitSystem) -> tuple[float, float]:
    """Length and width to which a sheet is cut. [m]"""
    return cut_length(size.length, units, SHEET_STEP), cut_length(size.width, units, SHEET_STEP)


def cover_jobs(plan: Plan, laid: Iterable[LaidCover]) -> dict[MaterialKind, list[Job]]:
    """Sheets, hoops, pegs and cloches of covers, by kind of material."""
    found: dict[MaterialKind, list[Job]] = defaultdict(list)
    for one in laid:
        size = one.size
        if one.cloches or one.guards:
            kind = cast("MaterialKind", one.kind)
            found[kind].append(Job(one.key, one.first, one.last, (), one.cloches or one.guards))
            continue
        # Film with holes is not laid a second time in its year.
        last = max(one.last, plan.span.last) if one.holes else one.last
        sheet = sheet_size(size, plan.garden.site.units)
        found[SHEET_OF[one.kind]].append(Job(one.key, one.first, last, sheet, 1, one.sort))
        if size.hoops:
            hoop = cut_length(size.hoop_length, plan.garden.site.units)
            found["hoop"].append(Job(one.key, one.first, one.last, (hoop,), size.hoops))
        if size.weights:
            found["peg"].append(Job(one.key, one.first, one.last, (), size.weights))
    return found
