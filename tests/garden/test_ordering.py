"""Mirroring, spacing, arrays, sizes and locks; what is mirrored is held against shapely's reflection."""

from __future__ import annotations

import pytest
import shapely
from making import bed, garden, planting, rectangle, ring_bed

from planner.garden import Circle, Garden, Places, Region, Rows, Stretch, edits
from planner.garden.planting import Support
from planner.ground import shapes
from planner.ground.extents import mirror, space_evenly
from planner.plan import Plan

FLIPS = {"left to right": (-1.0, 1.0), "top to bottom": (1.0, -1.0)}
L_RING = [(-2.0, -1.0), (2.0, -1.0), (2.0, 0.2), (-0.8, 0.2), (-0.8, 1.5), (-2.0, 1.5)]
CORNER = ((-0.5, -0.4), (0.3, -0.4), (-0.5, 0.3))


def some_beds() -> Garden:
    """Beds of several shapes and turns with plots of all kinds."""
    outlines = [
        rectangle(4.0, 1.2, center=(1.0, 2.0), turn=25.0),
        rectangle(1.2, 4.0, center=(-3.0, 1.0), turn=10.0),
        Circle(radius=1.0, center=(4.0, -3.0), turn=40.0),
    ]
    beds = [bed(f"b{n}", outline) for n, outline in enumerate(outlines)]
    beds.append(ring_bed(L_RING, "b3", center=(-4.0, -4.0), turn=70.0))
    beds = [each.with_(access=("start",)) for each in beds]
    plantings = []
    for n, each in enumerate(beds):
        for kind, fields in {
            "stretch": {"plot": Stretch(start=0.3, end=1.1), "arrangement": Rows(turn=20.0)},
            "region": {"plot": Region(points=CORNER)},
            "places": {"arrangement": Places(points=((0.1, 0.2), (-0.3, 0.1)))},
            "support": {"support": Support(kind="panel", line=((-0.4, 0.1), (0.4, 0.3)))},
        }.items():
            plantings.append(planting(f"p{n}{kind}", each.id, **fields))
    return garden(*beds, *plantings)


@pytest.mark.parametrize("flip", FLIPS)
def test_beds_plots_plants_and_sides_are_mirrored(flip) -> None:
    before = some_beds()
    after = edits.mirror_things(before, [each.id for each in before.beds], flip, 0.5)
    at = (1.0, 0.0) if flip == "left to right" else (0.0, 1.0)

    def reflected(geometry):
        sx, sy = FLIPS[flip]
        return shapely.transform(geometry, lambda points: points * [sx, sy] + at)

    def same(one, other):
        return shapely.symmetric_difference(one, other).area < 1e-4

    for old, new in zip(before.beds, after.beds, strict=True):
        assert same(reflected(shapes.plan_polygon(old.outline)), shapes.plan_polygon(new.outline))
    plans = Plan(before, 2026), Plan(after, 2026)
    for old, new in zip(before.plantings, after.plantings, strict=True):
        one, other = (
            shapes.shape_to_plan(plan.bed_of(each).outline, plan.placed(each).plot)
            for plan, each in zip(plans, (old, new), strict=True)
        )
        assert same(reflected(one), other), old.id
        if "places" in old.id or "support" in old.id:
            points = [
                shapely.MultiPoint(shapes.to_plan(plan.bed_of(each).outline, plan.placed(each).layout.points))
                for plan, each in zip(plans, (old, new), strict=True)
            ]
            assert reflected(points[0]).hausdorff_distance(points[1]) < 1e-4, old.id
    back = edits.mirror_things(after, [each.id for each in before.beds], flip, 0.5)
    assert back == before


def test_mirroring_turns_the_sides_that_can_be_reached() -> None:
    one = bed("b1", rectangle(4.0, 1.0)).with_(access=("start", "left"))
    across = edits.mirror_things(garden(one), ["b1"], "left to right", 0.0).beds[0]
    up = edits.mirror_things(garden(one), ["b1"], "top to bottom", 0.0).beds[0]
    assert (set(across.access), set(up.access)) == ({"end", "left"}, {"start", "right"})


def test_beds_are_spaced_evenly_between_the_outermost() -> None:
    beds = [
        bed(f"b{n}", rectangle(w, 1.0, center=(x, n))) for n, (x, w) in enumerate(((0, 2), (9, 1), (3, 3)))
    ]
    made = space_evenly(garden(*beds), ["b0", "b1", "b2"], "across")
    lefts = {each.id: each.outline.center[0] - each.outline.length / 2 for each in made.beds}
    assert lefts == pytest.approx({"b0": -1.0, "b2": 3.25, "b1": 8.5})  # both ways are 2.25 m wide
    assert [each.outline.center[1] for each in made.beds] == [0, 1, 2]
    assert space_evenly(garden(*beds[:2]), ["b0", "b1"], "up").beds == tuple(beds[:2])


def test_an_array_goes_along_a_line_or_an_arc_with_its_plantings() -> None:
    one = garden(bed("b1", rectangle(2.0, 1.0, center=(3.0, 0.0)), locked=True), planting("p1", "b1"))
    line, new = edits.array_things(one, ["b1"], 3, (0.0, -1.5))
    assert [each.outline.center for each in line.beds] == [(3, 0), (3, -1.5), (3, -3), (3, -4.5)]
    assert [planting.bed for planting in line.plantings] == ["b1", *new]
    assert [each.locked for each in line.beds] == [True, False, False, False]
    arc, _ = edits.array_things(one, ["b1"], 3, degrees=90.0, about=(0.0, 0.0))
    assert [each.outline.center for each in arc.beds] == [(3, 0), (0, 3), (-3, 0), (0, -3)]
    assert [each.outline.turn for each in arc.beds] == [0, 90, 180, 270]
    with pytest.raises(edits.EditError, match="copies cannot be made"):
        edits.array_things(one, ["b1"], 1000, (1.0, 0.0))


def test_others_get_the_size_of_one_and_keep_their_places() -> None:
    beds = (bed("b1", rectangle(3.0, 1.0)), bed("b2", rectangle(2, 2, center=(5, 5), turn=30)))
    round_bed = bed("b3", Circle(radius=1.0, center=(9, 9)))
    made = edits.match_size(garden(*beds, round_bed), ["b1", "b2", "b3"], "b1")
    assert made.beds[1].outline == rectangle(3.0, 1.0, center=(5, 5), turn=30)
    assert made.beds[2] == round_bed
    with pytest.raises(edits.EditError, match="no size of its own"):
        edits.match_size(garden(ring_bed(L_RING)), ["b1"], "b1")


def test_the_mirror_stands_in_the_middle_of_what_is_mirrored() -> None:
    beds = (bed("b1", rectangle(2.0, 1.0)), bed("b2", rectangle(1.0, 1.0, center=(4.5, 0))))
    made = mirror(garden(*beds), ["b1", "b2"], "left to right")
    assert [each.outline.center for each in made.beds] == [(4.0, 0.0), (-0.5, 0.0)]
