"""The document: a garden as one frozen value, and edits as functions from garden to garden."""

from planner.garden.arrangements import Arrangement, Places, Rows, Scatter, StaggeredRows
from planner.garden.beds import Bed, Structure
from planner.garden.conflicts import Conflict
from planner.garden.garden import Garden, Waiver
from planner.garden.household import Eaten, Household, StorePlace
from planner.garden.materials import Dressing, ShedItem
from planner.garden.model import Model, Point
from planner.garden.offers import Offer, PlantingStock
from planner.garden.outlines import Band, Circle, Outline, Polygon, Rectangle
from planner.garden.planting import Cover, PinnedDates, Planting, Support
from planner.garden.plots import Plot, Region, Stretch, Whole
from planner.garden.raising import Bench, Raising
from planner.garden.records import Amount, Done, Observed, Outcome, Photograph, Record, RecordBase
from planner.garden.site import Climate, FrostDates, Site
from planner.garden.soil import Soil
from planner.garden.soil_rule import SoilRule
from planner.garden.trials import Trial, TrialEntry
from planner.garden.varieties import Lot, OwnCrop, OwnFigure, OwnSource, OwnWord, Variety
from planner.garden.weather_years import WeatherYear, WeatherYears
from planner.garden.wishes import Wish

__all__ = [
    "Amount",
    "Arrangement",
    "Band",
    "Bed",
    "Bench",
    "Circle",
    "Climate",
    "Conflict",
    "Cover",
    "Done",
    "Dressing",
    "Eaten",
    "FrostDates",
    "Garden",
    "Household",
    "Lot",
    "Model",
    "Observed",
    "Offer",
    "Outcome",
    "Outline",
    "OwnCrop",
    "OwnFigure",
    "OwnSource",
    "OwnWord",
    "Photograph",
    "PinnedDates",
    "Places",
    "Planting",
    "PlantingStock",
    "Plot",
    "Point",
    "Polygon",
    "Raising",
    "Record",
    "RecordBase",
    "Rectangle",
    "Region",
    "Rows",
    "Scatter",
    "ShedItem",
    "Site",
    "Soil",
    "SoilRule",
    "StaggeredRows",
    "StorePlace",
    "Stretch",
    "Structure",
    "Support",
    "Trial",
    "TrialEntry",
    "Variety",
    "Waiver",
    "WeatherYear",
    "WeatherYears",
    "Whole",
    "Wish",
]
