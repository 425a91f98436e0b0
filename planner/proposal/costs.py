"""What it costs to meet a wish in a bed: light, neighbours, covers, walking, change, bare ground, watering.

Costs are points without a unit; how they stand to one another is practice, and each is turned off, or counted more, by the
garden (:class:`planner.garden.wishes.LayoutWeights`).
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import shapely

from planner.crops import Crop
from planner.crops.crop_water import water_figures
from planner.crops.neighbours import DEFAULT_GRADES, rules_between
from planner.garden import Planting
from planner.garden.wishes import Importance, LayoutWeights, Weight, Wish
from planner.ground.shapes import plan_polygon
from planner.ground.shelter import away_from_sun
from planner.ground.walk import gates_of
from planner.plan import Plan
from planner.plan.dropping import TALL
from planner.proposal.strips import Strip
from planner.proposal.ways import Way
from planner.proposal.year_later import day_years_later
from planner.season.spans import Span

#: How many times a cost counts.
TIMES: dict[Weight, int] = {"off": 0, "some": 1, "much": 3}
#: What it costs to leave a wish unmet (practice): no number of lesser wishes is worth one that must be met.
UNMET: dict[Importance, int] = {"must": 200_000, "should": 10_000, "could": 3_000}
#: Share of that which it costs that a wish is not met whole, however little lacks; the rest goes by what lacks (practice).
NOT_WHOLE: dict[Importance, float] = {"must": 0.5, "should": 0.05, "could": 0.05}
#: Another start than the usual one; a roof over what grows without it; a wish divided once (practice).
LATER, UNDER_A_ROOF, SPLIT = 15, 80, 100
#: One more bed for a family, for a cover; another bed than that of the planting it is like (practice).
SCATTERED, COVERED, MOVED = 40, 60, 50
#: A week between its first day and that of the planting it is like (practice).
WEEK = 10
#: A bad and a good neighbour by the grade of the evidence (practice).
BAD = {"trial": 120, "advice": 80, "laboratory": 20}
GOOD = {"trial": -60, "advice": -40, "laboratory": -5}
#: A crop that is wished beside another and is (practice).
BESIDE = -80
#: Two crops in one bed of which one wants water twice as often, and for each doubling more (practice).
UNLIKE_WATER = 40
#: Walking one metre to one picking, shade on a whole bed, a square metre covered for 100 days (practice).
WALK, SHADE, COVER = 0.5, 150, 2
#: Days from one picking of the kitchen to the next (practice). [days]
EACH_PICKING = 4
#: Shadows reach this many times the height of what casts them in the hours that count (practice).
SHADOW = 1.5


def cost_of_lack(importance: Importance, share: float) -> float:
    """What it costs to meet a wish in part only, less than to leave it unmet.

    Parameters
    ----------
    importance : str
    share : float
        Of the wish that is met.
    """
    if share >= 1:
        return 0.0
    fixed = NOT_WHOLE[importance]
    return UNMET[importance] * (fixed + (1 - fixed) * (1 - share))


class Neighbour(NamedTuple):
    """A bed in the shadow of another: their distance, and how far it lies on the side away from the sun, 0 to 1. [m]"""

    apart: float
    behind: float
    area: float


@dataclass
class Costs:
    """What options cost in a garden; works out what it needs of beds and crops once.

    Attributes
    ----------
    plan : Plan
        Of the garden with all that stays where it is.
    strips : sequence of Strip
    """

    plan: Plan
    strips: Sequence[Strip]
    _rules: dict[tuple[str, str], int] = field(default_factory=dict)
    _there: dict[int, list[tuple[str, Span]]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        grounds = [plan_polygon(strip.bed.outline) for strip in self.strips]
        gates = [plan_polygon(one) for one in gates_of(self.plan.garden.structures, self.plan.year)]
        self.to_gate = [min((gate.distance(ground) for gate in gates), default=0.0) for ground in grounds]
        self._behind = [self._shaded_by(ground, grounds) for ground in grounds]
        summer, winter = summer_and_winter(self.plan)
        self._summer, self._winter = summer, winter

    @property
    def weights(self) -> LayoutWeights:
        """How much each cost counts."""
        return self.plan.garden.site.layout_weights

    def _shaded_by(
        self, ground: shapely.Geometry, others: Iterable[shapely.Geometry]
    ) -> tuple[Neighbour, ...]:
        """Beds that lie behind another as the sun sees it."""
        site = self.plan.garden.site
        x, y = away_from_sun(site.bearing_up, site.southern)
        here = ground.centroid
        found = []
        for other in others:
            if other is ground:
                continue
            apart = ground.distance(other)
            dx, dy = other.centroid.x - here.x, other.centroid.y - here.y
            length = math.hypot(dx, dy)
            behind = (dx * x + dy * y) / length if length else 0.0
            if apart < 2.5 * SHADOW and behind > -0.3:
                found.append(Neighbour(apart, (behind + 0.3) / 1.3, float(other.area)))
        return tuple(found)

    def of_option(self, wish: Wish, way: Way, at: int, area: float, parts: int, like: Planting | None) -> int:
        """What it costs to stand in a bed by one way.

        Parameters
        ----------
        wish : Wish
        way : Way
        at : int
            Which bed.
        area : float
            Of the bed that it takes. [m2]
        parts : int
            Over how many beds the wish is divided.
        like : Planting, optional
            That it is like.
        """
        weights, strip = self.weights, self.strips[at]
        total = 0.0 if way.number == 0 or wish.earliest or wish.latest else float(LATER * way.number)
        if parts > 1:
            total += TIMES[weights.splitting] * SPLIT * (parts - 1) / parts
        if like is not None and like.bed != strip.bed.id:
            total += TIMES[weights.change] * MOVED / parts
        if like is not None and not (wish.earliest or wish.latest):
            then = day_years_later(self.plan.span_of(like).first, self.plan.year - like.year)
            total += TIMES[weights.change] * WEEK * abs((way.span.first - then).days) / 7 / parts
        if way.view.shelter and not _wants_roof(self.plan, way):
            total += UNDER_A_ROOF
        total += TIMES[weights.walking] * WALK * self.to_gate[at] * _pickings(way) / parts
        total += TIMES[weights.shade] * self._shade(way, at)
        for weight, season in ((weights.bare_summer, self._summer), (weights.bare_winter, self._winter)):
            total -= TIMES[weight] * COVER * area * _days_within(way.span, season) / 100
        for crop, span in self._standing(at):
            if span.meets(way.span):
                total += TIMES[weights.neighbours] * self.of_neighbours(wish.crop, crop)
                total += TIMES[weights.watering] * self.of_watering(wish.crop, crop)
                total += BESIDE if crop in wish.beside else 0
        return round(total)

    def _standing(self, at: int) -> list[tuple[str, Span]]:
        """Crops that stand in a bed, and their days."""
        if at not in self._there:
            bed = self.strips[at].bed
            self._there[at] = [(one.crop, self.plan.span_of(one)) for one in self.plan.in_bed(bed)]
        return self._there[at]

    def _shade(self, way: Way, at: int) -> float:
        height = way.view.number("height") or 0.0
        if way.draft.support is not None:
            height = max(height, way.draft.support.height)
        if height < TALL:
            return 0.0
        reach = SHADOW * height
        near = [max(0.0, 1 - one.apart / reach) * one.behind * one.area for one in self._behind[at]]
        return SHADE * min(1.0, sum(near) / max(self.strips[at].area, 1e-6))

    def of_neighbours(self, one: str, other: str) -> int:
        """What two crops cost in one bed, by the best evidence of harm and of good; nothing where there is none."""
        key = (min(one, other), max(one, other))
        if key not in self._rules:
            self._rules[key] = self._of_rules(*key)
        return self._rules[key]

    def _of_rules(self, one: str, other: str) -> int:
        first, second = self.plan.catalogue.get(one), self.plan.catalogue.get(other)
        if first is None or second is None:
            return 0
        between = rules_between(self.plan.catalogue, first, second, DEFAULT_GRADES)
        found = [one.rule for one in between if one.rule.reach > 0]
        bad = [BAD[rule.grade] for rule in found if rule.effect == "bad" and rule.grade in BAD]
        good = [GOOD[rule.grade] for rule in found if rule.effect == "good" and rule.grade in GOOD]
        return max(bad, default=0) + min(good, default=0)

    def together(self, one: Wish, other: Wish) -> int | None:
        """What it costs that two wishes stand in one bed; None where they may not."""
        if other.crop in one.apart or one.crop in other.apart:
            return None
        beside = BESIDE if other.crop in one.beside or one.crop in other.beside else 0
        water = TIMES[self.weights.watering] * self.of_watering(one.crop, other.crop)
        return TIMES[self.weights.neighbours] * self.of_neighbours(one.crop, other.crop) + water + beside

    def of_watering(self, one: str, other: str) -> int:
        """What two crops cost in one bed that want water unlike often; nothing below twice as often."""
        first, second = self.plan.catalogue.get(one), self.plan.catalogue.get(other)
        if first is None or second is None:
            return 0
        table = water_figures()
        doublings = abs(math.log2(table.of(first).row.lasts / table.of(second).row.lasts))
        return round(UNLIKE_WATER * doublings) if doublings >= 1 else 0


def cover_of(planting: Planting) -> str:
    """The covers of a planting by what they are made of, as one text; empty without any."""
    return ", ".join(
        sorted({f"{one.kind} {one.mesh or one.weight or ''}".strip() for one in planting.covers})
    )


def _wants_roof(plan: Plan, way: Way) -> bool:
    """Whether a crop has no good start in the open."""
    crop: Crop | None = way.view.crop
    return crop is not None and way.view.tender and not plan.usual_dates(crop, way.draft.start or "").ripens


def _pickings(way: Way) -> float:
    """How often one walks to it to pick."""
    first, last = way.dates.first_harvest, way.dates.last_harvest
    if first is None or last is None or way.draft.purpose != "kitchen":
        return 1.0
    return max(1.0, (last.day - first.day).days / EACH_PICKING)


def summer_and_winter(plan: Plan) -> tuple[Span, Span]:
    """May to September and November to February, or half a year later in the south, of a growing year.

    Parameters
    ----------
    plan : Plan
    """
    year = plan.span.first.year
    if plan.garden.site.southern:
        return Span(dt.date(year, 11, 1), dt.date(year + 1, 3, 31)), Span(
            dt.date(year + 1, 5, 1), dt.date(year + 1, 8, 31)
        )
    return Span(dt.date(year, 5, 1), dt.date(year, 9, 30)), Span(
        dt.date(year, 11, 1), dt.date(year + 1, 2, 28)
    )


def _days_within(span: Span, season: Span) -> int:
    first, last = max(span.first, season.first), min(span.last, season.last)
    return max(0, (last - first).days + 1)
