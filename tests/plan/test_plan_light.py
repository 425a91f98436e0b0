"""Casters and receivers of a plan at their heights, and the shade that a new planting would cast."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.garden import Circle, Garden, Planting, Site, Structure
from planner.light import hours_over, on_day
from planner.plan import Plan

MAY = dt.date(2026, 5, 20)
YEAR = MAY.year
SITE = Site(latitude=52.0)
LOW = crop("low", in_row_spacing=0.3, row_spacing=0.3, height=0.2, spread=0.3)
TALL = crop("tall", in_row_spacing=0.3, row_spacing=0.3, height=2.0, spread=0.6)
CATALOGUE = catalogue_of(LOW, TALL)
#: An opaque wall along the southern side of the bed at the origin.
WALL_OUTLINE = rectangle(8, 0.1, center=(0, -0.7))


def plan_of(*things, structures=()) -> Plan:
    return Plan(garden(*things, structures=structures, site=SITE), YEAR, CATALOGUE)


def full_grown(crop_key: str, key: str = "p1", bed_id: str = "b1") -> Planting:
    """A planting at its full size from May to August."""
    days = {"first": dt.date(YEAR, 5, 1), "last": dt.date(YEAR, 8, 31)}
    return planting(key, bed_id, crop=crop_key, start="standing", **days)


def wall(height: float) -> Structure:
    return Structure(id="s1", kind="wall", outline=WALL_OUTLINE, height=height)


def mean_hours(plan: Plan, thing) -> float:
    receiver = plan.ground_of(thing)
    return hours_over([receiver], plan.place, on_day(MAY), plan.casters)[receiver.key].mean


@pytest.mark.parametrize("month", range(1, 13))
@pytest.mark.parametrize("last", [False, True])
def test_a_tree_has_the_opacity_of_the_month(month, last):
    by_month = tuple(number / 20 for number in range(1, 13))
    tree = Structure(id="s1", kind="tree", outline=Circle(radius=1), height=4, opacity=by_month)
    day = dt.date(YEAR, month, 1)
    if last:
        day = (day + dt.timedelta(31)).replace(day=1) - dt.timedelta(1)
    (crown,) = plan_of(structures=(tree,)).casters(day)
    assert crown.opacity == month / 20


def test_a_wall_shades_a_raised_bed_only_above_its_soil():
    flat = plan_of(bed(), structures=(wall(0.4),))
    raised = plan_of(bed(kind="raised", height=0.6), structures=(wall(1.0),))
    assert raised.ground_of(raised.beds[0]).height_on(MAY) == 0.6
    assert mean_hours(raised, raised.beds[0]) == pytest.approx(mean_hours(flat, flat.beds[0]), abs=1e-4)
    low = plan_of(bed(kind="raised", height=0.6), structures=(wall(0.6),))
    unshaded = plan_of(bed())
    assert mean_hours(low, low.beds[0]) == pytest.approx(mean_hours(unshaded, unshaded.beds[0]), abs=1e-4)
    assert mean_hours(flat, flat.beds[0]) < mean_hours(unshaded, unshaded.beds[0]) - 0.5


def test_plants_in_a_raised_bed_receive_light_above_its_soil():
    raised = plan_of(bed(kind="raised", height=0.6), full_grown("low"), structures=(wall(1.2),))
    (low,) = raised.plantings
    assert raised.ground_of(low).height_on(MAY) == pytest.approx(0.8)
    flat = plan_of(bed(), full_grown("low"), structures=(wall(0.6),))
    assert mean_hours(raised, low) == pytest.approx(mean_hours(flat, flat.plantings[0]), abs=1e-4)


def test_plants_in_a_raised_bed_cast_shadows_from_its_soil():
    raised = plan_of(bed(kind="raised", height=0.6), full_grown("tall"))
    assert [(one.key, one.base, one.top) for one in raised.casters(MAY)] == [
        ("b1", 0.0, 0.6),
        ("p1", 0.6, pytest.approx(2.6)),
    ]


def test_a_bed_is_not_shaded_by_the_plants_in_it():
    planted, empty = plan_of(bed(), full_grown("tall")), plan_of(bed())
    assert mean_hours(planted, planted.beds[0]) == mean_hours(empty, empty.beds[0])


# -- the shade of a planting that is not in the garden yet ---------------------------------------


def with_tall_plants_at(distance: float) -> tuple[Garden, Planting]:
    """A garden with low plants, and tall plants for a second bed at a distance to its south. [m]"""
    beds = bed("b1"), bed("b2", rectangle(center=(0, -1.2 - distance)))
    return garden(*beds, full_grown("low"), site=SITE), full_grown("tall", "p2", "b2")


def lost_to(plan: Plan, tall: Planting) -> tuple[tuple[Planting, float], ...]:
    return plan.would_shade(tall, plan.trial(tall), MAY)


def measured_loss(document: Garden, tall: Planting) -> float:
    """Hours that the low plants lose, as the difference of two plans."""
    losses = []
    for plantings in (document.plantings, (*document.plantings, tall)):
        plan = Plan(document.with_(plantings=plantings), YEAR, CATALOGUE)
        receiver = plan.ground_of(plan.plantings[0])
        found = hours_over([receiver], plan.place, on_day(MAY), plan.casters, step=20)
        losses.append(found[receiver.key].mean)
    return losses[0] - losses[1]


def test_would_shade_reports_losses_from_a_quarter_of_an_hour():
    reported, silent = [], []
    for millimetres in (0, 600, *range(960, 1000, 4), 1100, 2000):
        document, tall = with_tall_plants_at(millimetres / 1000)
        loss = measured_loss(document, tall)
        found = lost_to(Plan(document, YEAR, CATALOGUE), tall)
        if found:
            ((low, hours),) = found
            assert low.id == "p1"
            assert hours == pytest.approx(loss, abs=1e-6)
            reported.append(loss)
        else:
            silent.append(loss)
    assert min(reported) >= 0.25 > max(silent)
    assert min(reported) < 0.28
    assert max(silent) > 0.22


def test_would_shade_lists_the_greatest_loss_first():
    south = rectangle(4.8, 0.4, center=(0, -0.4))
    beds = bed("b1", south), bed("b2", rectangle(4.8, 0.4)), bed("b3", rectangle(center=(0, -1.3)))
    document = garden(*beds, full_grown("low", "p1"), full_grown("low", "p2", "b2"), site=SITE)
    found = lost_to(Plan(document, YEAR, CATALOGUE), full_grown("tall", "p3", "b3"))
    assert [low.id for low, _ in found] == ["p1", "p2"]
    assert found[0][1] > found[1][1]
