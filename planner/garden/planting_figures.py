"""Figures of a planting: those that its garden learned, else those of its own variety, else those of its crop."""

from __future__ import annotations

from typing import NamedTuple

from planner.crops import Catalogue, Crop
from planner.garden.garden import Garden
from planner.garden.learned import LearnedFigure, LearnedFigures, LearnedKind
from planner.garden.own_catalogue import with_variety
from planner.garden.planting import Planting
from planner.garden.varieties import Variety


class PlantingFigures(NamedTuple):
    """Figures of one planting.

    Attributes
    ----------
    crop : Crop or None
        With the figures of the product that the planting is grown for.  None if it is not in the catalogue.
    variety : Variety or None
        The garden's own variety that the planting names; None if it names none.
    learned : LearnedFigures, optional
        What is used of this garden's own years; None where nothing is.
    """

    crop: Crop | None
    variety: Variety | None
    learned: LearnedFigures | None = None

    @property
    def published(self) -> PlantingFigures:
        """The same without what the garden learned."""
        return self if self.learned is None else self._replace(learned=None)

    def learned_figure(self, kind: LearnedKind) -> LearnedFigure | None:
        """What is used of this garden's own years, by its kind."""
        return self.learned.of(kind) if self.learned is not None else None

    def learned_source(self, field: str) -> str:
        """Where a figure comes from that the garden learned: ``this garden, 2023-2026``; empty where it is not."""
        found = self.learned.field(field) if self.learned is not None else None
        return found.source if found is not None else ""

    def number(self, field: str) -> float | None:
        """A figure in SI units, or None if it is unknown or does not apply."""
        if self.learned is not None:
            learned = self.learned.field(field)
            if learned is not None and learned.value is not None:
                return learned.value
        if self.variety is not None:
            own = self.variety.number(field)
            if own is not None:
                return own
        figure = getattr(self.crop, field) if self.crop is not None else None
        return figure.value if figure is not None else None


def figures_of(garden: Garden, catalogue: Catalogue, planting: Planting) -> PlantingFigures:
    """Look up the figures of a planting.

    Parameters
    ----------
    garden : Garden
        For its own varieties.
    catalogue : Catalogue
    planting : Planting
    """
    crop = catalogue.grown_for(planting.crop, planting.product)
    variety = garden.own_variety(planting)
    if crop is not None and variety is not None:
        crop = with_variety(catalogue, crop, variety)
    return PlantingFigures(crop, variety)
