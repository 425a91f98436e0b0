"""Beans at the feet of an arch of panels: along its whole line, in its shade and with its support."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
import shapely
from making import bed, garden, planting, rectangle

from planner.amounts.tasks import tasks
from planner.checks import check_all
from planner.garden import Climate, FrostDates, Garden, Rectangle, Region, Site, Structure
from planner.plan import Plan
from planner.plan.dropping import draft_planting, find_drop
from planner.plan.light import receiver_of
from planner.plan.pasting import copied, paste

#: Two beds of 4.8 x 1.2 m with a path of 0.6 m, and an arch of panels 4.4 m along it, its feet in the beds.
BEDS = (
    bed("b1", rectangle(4.8, 1.2), name="Near"),
    bed("b2", rectangle(4.8, 1.2, center=(0.0, 1.8)), name="Far"),
)
FOOT = 0.10


def arch(**fields) -> Structure:
    outline = Rectangle(length=0.6 + 2 * FOOT, width=4.4, center=(0.0, 0.9), turn=90.0)
    usual = {"id": "s1", "kind": "arch", "name": "bean arch", "outline": outline, "height": 2.3, "foot": FOOT}
    return Structure.model_validate({**usual, **fields})


#: A strip of the first bed with the foot of the arch in its middle: its row is on the foot's line.
AT_FOOT = Region(points=((-2.4, 0.5), (2.4, 0.5), (2.4, 0.6), (-2.4, 0.6)))


def beans(key: str = "p1", **fields) -> object:
    usual = {"crop": "runner_bean", "plot": AT_FOOT, "first": dt.date(2026, 6, 1), "start": "raised"}
    return planting(key, **{**usual, **fields})


def made(*things, structure: Structure | None = None, **fields) -> Garden:
    climate = Climate(
        last_frost=FrostDates(risk_10="05-24", risk_50="05-06", risk_90="04-18"),
        first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    )
    usual = {"site": Site(latitude=52.0, longitude=0.0, bearing_up=90.0), "climate": climate}
    return garden(*BEDS, *things, structures=(structure or arch(),), **{**usual, **fields})


def placed(found: Garden, key: str = "p1"):
    plan = Plan(found, 2026)
    return plan.placed(plan.garden.plantings_by_id[key])


def test_beans_grow_along_the_whole_foot_of_the_arch():
    row = placed(made(beans()))
    assert row.plants == int(4.8 / 0.152)
    assert row.problem == ""
    assert np.ptp(row.layout.points[:, 0]) == pytest.approx((row.plants - 1) * 0.152)
    feet = shapely.box(-2.2, 0.5, 2.2, 0.6)
    assert sum(feet.covers(shapely.Point(point)) for point in row.layout.points) >= int(4.4 / 0.152)


@pytest.mark.parametrize("crop", ["lettuce", "carrot", "dwarf_bean"])
def test_what_does_not_climb_keeps_off_the_feet(crop):
    feet = shapely.box(-2.2, 0.5, 2.2, 0.6)
    points = placed(made(beans(crop=crop))).layout.points
    assert not any(feet.contains(shapely.Point(point)) for point in points)


def test_beans_on_a_net_of_their_own_keep_off_the_feet():
    assert placed(made(beans(support={"kind": "net"}))).plants == 2


def test_clearance_about_an_arch_is_not_for_what_climbs_it():
    wide = arch(clearance=0.2)
    assert placed(made(beans(), structure=wide)).plants == placed(made(beans())).plants
    assert placed(made(beans(crop="dwarf_bean"), structure=wide)).plants < 8


def test_beans_that_are_dropped_take_the_ground_at_the_feet_too():
    plan = Plan(made(), 2026)
    for crop, whole in (("climbing_bean", True), ("lettuce", False)):
        kind = plan.catalogue.get(crop)
        drop = find_drop(plan, BEDS[0], kind, "", (0.0, 0.0), "free", 0.05)
        draft = draft_planting(plan, BEDS[0], kind, "", drop)
        assert (draft.plot.kind == "whole") is whole


@pytest.mark.parametrize("support", [None, {"kind": "arch"}])
def test_their_own_arch_takes_no_light_from_them(support):
    """Even one of solid boards: who climbs it is at its outside."""
    found = made(beans(support=support), structure=arch(opacity=(1.0,)))
    plan = Plan(found, 2026)
    row = found.plantings[0]
    assert plan.arch_of(row).id == "s1"
    assert "s1" in receiver_of(plan, row).leaving_out
    assert plan.built_support(row) is None
    assert [one.text for one in check_all(plan) if one.check in ("light", "support")] == []


def test_lettuce_under_the_arch_is_still_shaded_by_it():
    salad = planting("p2", crop="lettuce", plot=AT_FOOT.with_(points=tuple((x, y - 0.2) for x, y in AT_FOOT.points)),
                     first=dt.date(2026, 5, 10), start="raised")  # fmt: skip
    plan = Plan(made(salad, structure=arch(opacity=(1.0,))), 2026)
    assert plan.arch_of(salad) is None
    assert "s1" not in receiver_of(plan, salad).leaving_out


def test_the_leaves_of_the_arch_are_counted_once_and_as_the_arch():
    """An arch whose material is its leaves shades by itself; on a bare frame the beans do."""
    july = dt.date(2026, 8, 20)
    for material, keys in (("leafy_frame", {"s1"}), ("", {"s1", "p1"})):
        plan = Plan(made(beans(), structure=arch(material=material)), 2026)
        assert {caster.key for caster in plan.casters(july)} == keys


def test_an_arch_far_away_is_not_theirs():
    there = Rectangle(length=0.8, width=4.4, center=(0.0, 5.0), turn=90.0)
    plan = Plan(made(beans(), structure=arch(outline=there)), 2026)
    assert plan.arch_of(plan.garden.plantings[0]) is None
    assert [one.topic for one in check_all(plan) if one.check == "support"] == ["none"]
    gone = Plan(made(beans(), structure=arch(last_year=2025)), 2026)
    assert gone.arch_of(gone.garden.plantings[0]) is None


def test_beans_pasted_in_a_bed_with_an_arch_stay_at_its_foot():
    source = made(beans(plot=AT_FOOT))
    pasted, (key,) = paste(
        garden(*BEDS, structures=(arch(),)), copied(source, ["p1"]), (0.0, 0.0), "b1", 2026
    )
    assert pasted.plantings_by_id[key].plot == AT_FOOT


def test_an_arch_that_stands_is_not_put_up():
    def put_up(found: Garden) -> list[str]:
        return [one.text for one in tasks(Plan(found, 2026)) if one.kind == "support up"]

    given = beans(support={"kind": "arch"})
    assert put_up(made(given)) == []
    far = arch(outline=Rectangle(length=0.8, width=4.4, center=(0.0, 9.0), turn=90.0))
    assert len(put_up(made(given, structure=far))) == 1
    frame = beans(support={"kind": "frame"})
    assert len(put_up(made(frame))) == 1
