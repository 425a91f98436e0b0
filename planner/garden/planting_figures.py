"""What is known of a planting: its variety's own figures before its crop's."""

from __future__ import annotations

from typing import NamedTuple

from planner.crops import Catalogue, Crop
from planner.garden.garden import Garden
from planner.garden.planting import Planting
from planner.garden.varieties import Variety


class PlantingFigures(NamedTuple):
    """Figures of one planting.

    Attributes
    ----------
    crop : Crop or None
        None where the catalogue does not have the crop.
    variety : Variety or None
        The garden's own variety, where the planting names one.
    """

    crop: Crop | None
    variety: Variety | None

    def number(self, field: str) -> float | None:
        """A figure in SI units, or None where it is unknown or does not apply."""
        if self.variety is not None:
            own = self.variety.number(field)
            if own is not None:
                return own
        return self.crop.number(field) if self.crop is not None else None


def figures_of(garden: Garden, catalogue: Catalogue, planting: Planting) -> PlantingFigures:
    """What is known of a planting."""
    return PlantingFigures(catalogue.get(planting.crop), garden.own_variety(planting))
