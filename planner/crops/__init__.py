"""Catalogue of crops: figures with their sources, search, cautions and rules about neighbours."""

from planner.crops.catalogue import Catalogue, CatalogueError, load_catalogue
from planner.crops.crop import Crop
from planner.crops.figures import Fact, Figure, Flag, Numbers, Series, Words
from planner.crops.sources import Source

__all__ = [
    "Catalogue",
    "CatalogueError",
    "Crop",
    "Fact",
    "Figure",
    "Flag",
    "Numbers",
    "Series",
    "Source",
    "Words",
    "load_catalogue",
]
