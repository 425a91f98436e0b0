"""How much new wishes matter: food before flowers, green manure and trials."""

from __future__ import annotations

import pytest
from making import bed, garden, planting, rectangle

from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Site
from planner.garden.planting import Purpose
from planner.garden.wishes import Importance
from planner.plan import Plan
from planner.proposal.wishes import usual_importance, wishes_from

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
)


@pytest.mark.parametrize(
    ("crop", "purpose", "matters"),
    [
        ("potato", "store", "should"),
        ("tomato", "bottling", "should"),
        ("lettuce", "kitchen", "should"),
        ("lettuce", "seed", "should"),
        ("dwarf_bean", "trial", "could"),
        ("statice", "cutting", "could"),
        ("statice", "kitchen", "could"),
        ("chamomile", "drying", "should"),
        ("phacelia", "kitchen", "could"),
        ("field_bean", "green manure", "could"),
    ],
)
def test_food_should_be_met_and_all_else_could(crop: str, purpose: Purpose, matters: Importance) -> None:
    assert usual_importance(purpose, CATALOGUE.crops[crop]) == matters


def test_wishes_from_plantings_matter_by_what_they_are_for() -> None:
    there = garden(
        bed("b1", rectangle(8.0, 1.2)),
        planting("p1", "b1", crop="potato", year=2026, purpose="store"),
        planting("p2", "b1", crop="dwarf_bean", year=2026, purpose="trial"),
        planting("p3", "b1", crop="sunflower", year=2026, purpose="cutting"),
        planting("p4", "b1", crop="phacelia", year=2026, purpose="green manure"),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
    )
    found = {one.crop: one.importance for one in wishes_from(Plan(there, 2026, CATALOGUE))}
    assert found == {"potato": "should", "dwarf_bean": "could", "sunflower": "could", "phacelia": "could"}
