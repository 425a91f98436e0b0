"""What the sheets of one growing year share: covers and what is spread, by planting and bed, and the plots' letters."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.amounts.covers import LaidCover, laid_covers
from planner.amounts.spread import Spread, spreads
from planner.garden import Bed
from planner.lazy import lazy_property
from planner.plan import Plan
from planner.plan.drawing_groups import LabelledPlanting, drawing_groups


@dataclass(frozen=True)
class SheetYear:
    """A plan's growing year, as its sheets look at it."""

    plan: Plan
    _groups: dict[str, tuple[tuple[LabelledPlanting, ...], ...]] = field(default_factory=dict)

    @lazy_property
    def covers(self) -> Mapping[str, list[LaidCover]]:
        """Covers by the ids of the plantings under them."""
        found: dict[str, list[LaidCover]] = defaultdict(list)
        for cover in laid_covers(self.plan):
            for part in cover.parts:
                if cover not in found[part.planting.id]:
                    found[part.planting.id].append(cover)
        return found

    @lazy_property
    def spreads(self) -> Mapping[str, list[Spread]]:
        """What is spread, by the ids of beds."""
        found: dict[str, list[Spread]] = defaultdict(list)
        for one in spreads(self.plan):
            found[one.bed.id].append(one)
        return found

    def groups(self, bed: Bed) -> tuple[tuple[LabelledPlanting, ...], ...]:
        """Plantings of a bed, those together that are drawn together."""
        if bed.id not in self._groups:
            self._groups[bed.id] = drawing_groups(self.plan, self.plan.in_bed(bed))
        return self._groups[bed.id]

    def letter(self, planting: str) -> str:
        """Letter of a planting's plot on its bed's sheet; empty where it has none in this year."""
        return self._letters.get(planting, "")

    @lazy_property
    def _letters(self) -> Mapping[str, str]:
        return {
            one.planting.id: one.letter
            for bed in self.plan.garden.beds
            for group in self.groups(bed)
            for one in group
        }
