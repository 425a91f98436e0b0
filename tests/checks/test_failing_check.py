"""A check that fails is a finding that says so, and the other checks hold."""

from __future__ import annotations

import dataclasses
import sys

import pytest
from checks.faults import YEAR, beans, made, plot
from making import bed, planting, rectangle

from planner.checks import CHECKS, check_all, crowding, registry
from planner.plan import Plan

pytestmark = pytest.mark.may_fail


@pytest.fixture
def reported(monkeypatch):
    """Makes the check of crowding fail where a bed of a name is planted; the faults that were reported."""
    faults: list[BaseException] = []
    monkeypatch.setattr(sys, "excepthook", lambda _kind, fault, _trace: faults.append(fault))

    def fails(context):
        for view in context.views:
            if view.bed.name == "West":
                raise ZeroDivisionError("float division by zero")
        yield from crowding.check(context)

    monkeypatch.setitem(CHECKS, "crowding", fails)
    return faults


def garden(west: str):
    return made(
        bed("b1", name="North"),
        bed("b2", rectangle(center=(0, 4)), name=west),
        beans("p1", plot=plot(2.4, 9.9)),
        planting("p2", bed="b2", crop="carrot", first=f"{YEAR}-05-01"),
    )


def test_a_failing_check_is_one_line_with_its_place_and_the_others_hold(reported):
    failed, *others = [one for one in check_all(Plan(garden("West"), YEAR)) if one.topic == "failed"] + [
        one for one in check_all(Plan(garden("West"), YEAR)) if one.topic != "failed"
    ]
    assert failed.text == "This check failed on West; the others hold (crowding, ZeroDivisionError)"
    assert (failed.check, failed.beds, failed.severity) == ("crowding", ("b2",), "mind")
    sound = check_all(Plan(garden("East"), YEAR))
    assert "outside" in [one.check for one in others]
    assert [one.key for one in others] == [one.key for one in sound if one.check != "crowding"]
    assert isinstance(reported[0], ZeroDivisionError)


def test_a_failing_check_keeps_no_other_finding_from_its_mends(reported):
    outside = next(one for one in check_all(Plan(garden("West"), YEAR)) if one.check == "outside")
    assert outside.fixes


def test_a_ghost_that_is_dragged_over_it_reports_nothing(reported):
    found = registry.check_only(Plan(garden("West"), YEAR), ["crowding"])
    assert [one.topic for one in found] == ["failed"]
    assert reported == []


def test_posts_without_a_distance_stand_at_the_usual_one():
    """A tower whose posts are 0 m apart brought the checks down."""
    usual, none = (
        made(
            bed("b1", rectangle(0.4, 0.3)),
            planting(
                crop="climbing_bean", first=f"{YEAR}-06-01", support={"kind": "tower", "spacing": spacing}
            ),
        )
        for spacing in (None, 0)
    )
    assert none == usual
    assert check_all(Plan(none, YEAR)) is not None


@pytest.mark.parametrize(
    "thing",
    [
        beans("p1"),
        beans("p1", plot={"kind": "stretch", "start": 3_000, "end": 3_001}),
        beans("p1", plot={"kind": "region", "points": [(5_000, 5_000), (5_001, 5_000), (5_001, 5_001)]}),
        beans("p1", arrangement={"kind": "places", "points": [(9_999, 9_999)]}),
    ],
)
@pytest.mark.parametrize("reach", [0, 0.6])
def test_no_mend_fails_where_nothing_is_in_reach_or_a_plot_lies_far_outside(thing, reach):
    """A bed was made 0 m wide, and a plot outside its bed had no size to look for elsewhere."""
    for bed_outline in (rectangle(), rectangle(2_000, 2_000, center=(10_000, 10_000))):
        document = made(bed("b1", bed_outline), bed("b2", rectangle(center=(0, 8))), thing)
        plan = Plan(document.with_(site=document.site.with_(reach=reach)), YEAR)
        found = check_all(plan)
        assert [one for one in found if one.topic == "failed"] == []
        fixes = [fix for one in found for fix in one.candidates(plan)]
        assert fixes or reach
        for fix in fixes:
            fix.apply(plan.garden)


def test_a_mend_that_fails_keeps_those_before_it(reported):
    plan = Plan(garden("East"), YEAR)
    outside = next(one for one in check_all(plan) if one.check == "outside")

    def candidates(plan):
        yield from list(outside.candidates(plan))[:1]
        raise ZeroDivisionError("float division by zero")

    broken = dataclasses.replace(outside, candidates=candidates)
    assert [fix.text for fix in registry.helpful_fixes(plan, broken)] == ["Cut its plot at the bed's edge"]
    assert isinstance(reported[0], ZeroDivisionError)
