"""Crops by their names, as they are listed."""

from __future__ import annotations

from planner.crops import Catalogue, Crop
from planner.words import capital


def crop_title(crop: Crop) -> str:
    """A crop's name with a capital letter."""
    return capital(crop.name)


def crops_by_name(catalogue: Catalogue) -> list[Crop]:
    """All crops in the order of their names."""
    return sorted(catalogue.crops.values(), key=lambda crop: crop.name.casefold())
