"""The JSON Schemas of the reports, by name."""

from __future__ import annotations

from typing import Any

from planner.listings.reports.amounts import AmountsReport
from planner.listings.reports.base import Report
from planner.listings.reports.check import CheckReport
from planner.listings.reports.crops import CoverageReport, CropsReport
from planner.listings.reports.enough import EnoughReport
from planner.listings.reports.filling import FillingReport
from planner.listings.reports.ground_map import MapReport
from planner.listings.reports.harvest import HarvestReport, StoreReport
from planner.listings.reports.learned import LearnedReport
from planner.listings.reports.materials import CoversReport, GroundReport, SupportsReport
from planner.listings.reports.odds import OddsReport
from planner.listings.reports.proposal import ProposalReport
from planner.listings.reports.raising import RaisingReport
from planner.listings.reports.records import RecordsReport
from planner.listings.reports.shopping import ShoppingReport
from planner.listings.reports.sun import SunReport
from planner.listings.reports.tasks import TasksReport
from planner.listings.reports.trials import TrialsReport
from planner.listings.reports.turn import TurnReport
from planner.listings.reports.water import WaterReport
from planner.listings.reports.weather import WeatherReport
from planner.listings.reports.years import YearsReport

#: All reports, by the name under which their schema is printed.
REPORTS: dict[str, type[Report]] = {
    "amounts": AmountsReport,
    "raising": RaisingReport,
    "covers": CoversReport,
    "supports": SupportsReport,
    "ground": GroundReport,
    "shopping": ShoppingReport,
    "harvest": HarvestReport,
    "store": StoreReport,
    "enough": EnoughReport,
    "tasks": TasksReport,
    "records": RecordsReport,
    "turn": TurnReport,
    "propose": ProposalReport,
    "filling": FillingReport,
    "check": CheckReport,
    "odds": OddsReport,
    "sun": SunReport,
    "water": WaterReport,
    "map": MapReport,
    "weather": WeatherReport,
    "years": YearsReport,
    "learned": LearnedReport,
    "trials": TrialsReport,
    "crops": CropsReport,
    "coverage": CoverageReport,
}


def report_schema(name: str) -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a report; every field is in it and required.

    Parameters
    ----------
    name : str
        One of :data:`REPORTS`.
    """
    schema = REPORTS[name].model_json_schema(mode="serialization")
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **schema,
        "title": f"Bedwright report: {name}",
    }
