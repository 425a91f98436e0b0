"""A new bed of a crop's size: its size, and a place within the plot where nothing is in its way."""

from __future__ import annotations

import pytest
from making import bed, garden, rectangle

from planner.crops import load_catalogue
from planner.garden import Site
from planner.ground import shapes
from planner.plan import Plan
from planner.plan.new_bed import bed_for, free_place, in_the_way, planted_bed


def plan_of(**site: object) -> Plan:
    beds = [bed(f"b{n}", rectangle(4.0, 0.9, center=(0.0, 2.0 * n)), name=f"Bed {n}") for n in range(2)]
    return Plan(garden(*beds, site=Site(**site)), 2026, load_catalogue())


@pytest.mark.parametrize("key", ["lettuce", "tomato", "carrot", "pumpkin", "chives"])
def test_a_bed_is_as_wide_as_the_others_and_holds_a_row(key: str):
    plan = plan_of()
    crop = plan.catalogue.crops[key]
    outline = bed_for(plan, crop, (10.0, 10.0), 0.0)
    assert outline.width == max(0.9, crop.number("row_spacing") or 0, crop.number("in_row_spacing") or 0)
    assert 1.0 <= outline.length <= 4.0
    tried, made, planting = planted_bed(plan, crop, "", outline)
    assert tried.trial(planting).plants >= 2
    assert made.id not in plan.garden.beds_by_id


def test_what_is_in_the_way_is_named_and_a_free_place_is_found_within_the_plot():
    plan = plan_of(outline=rectangle(9.0, 6.0, center=(1.5, 1.5)))
    lettuce = plan.catalogue.crops["lettuce"]
    assert in_the_way(plan, bed_for(plan, lettuce, (0.0, 2.3), 0.0)) == "a new bed would lie on Bed 1"
    beyond = bed_for(plan, lettuce, (6.5, 1.0), 0.0)
    assert in_the_way(plan, beyond) == "a new bed would reach beyond the edge of the plot"
    outline = bed_for(plan, lettuce, (0.0, 0.0), 0.0)
    found = outline.with_(center=free_place(plan, outline, 0.5))
    assert in_the_way(plan, found) == ""
    ground = shapes.plan_polygon(found)
    assert min(ground.distance(shapes.plan_polygon(one.outline)) for one in plan.beds) >= 0.5
    assert free_place(plan_of(), outline, 0.5)[1] < -0.9, "without an edge it is below all that is there"
