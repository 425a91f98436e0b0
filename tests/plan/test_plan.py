"""A garden worked out for a year, and what an edit leaves as it was."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.amounts import amounts
from planner.garden import Circle, Garden, OwnFigure, Site, Stretch, Structure, Variety
from planner.garden import edits as e
from planner.plan import Plan
from planner.plan.cache import IDLE_EDITS

D = dt.date
CARROT = crop(in_row_spacing=0.075, row_spacing=0.3, germination=0.55, seeds_per_gram=800)
PEA = crop("pea", in_row_spacing=0.05, row_spacing=0.4, germination=0.8, seeds_per_gram=4)
SHELF = catalogue_of(CARROT, PEA)
POST = Structure(id="s1", kind="tree", outline=Circle(radius=0.1, center=(0, 5)), height=2, clearance=0.1)


@pytest.fixture
def three() -> Garden:
    """Three beds one above the other with a planting each; a tree in the second."""
    beds = [bed(f"b{i}", rectangle(center=(0, 5 * i - 5))) for i in (1, 2, 3)]
    plantings = [planting(f"p{i}", f"b{i}") for i in (1, 2, 3)]
    return garden(*beds, *plantings, structures=(POST,))


def worked_out(document: Garden, before: Plan | None = None) -> Plan:
    """A plan of which everything was asked."""
    plan = before.after(document) if before else Plan(document, 2026, SHELF)
    amounts(plan)
    return plan


EDITS = {
    "bed moved": (lambda g: e.move_things(g, ["b1"], 1, 0), set()),  # its plantings are carried along
    "bed resized": (lambda g: e.resize_bed(g, "b1", rectangle(4.4, 1.2)), {"p1"}),
    "bed renamed": (lambda g: e.change_bed(g, "b1", name="x"), {"p1"}),
    "planting changed": (lambda g: e.change_planting(g, "p2", plot=Stretch(start=0, end=1)), {"p2"}),
    "planting removed": (lambda g: e.remove(g, ["p3"]), set()),
    "planting added": (lambda g: e.add_planting(g, "b1", "pea", 2026)[0], {"p4"}),
    "tree moved in its bed": (lambda g: e.move_things(g, ["s1"], 0.3, 0), {"p2"}),
    "variety added": (lambda g: e.put_variety(g, crop="pea", name="x")[0], set()),
    "units changed": (lambda g: e.change_site(g, units="feet_inches"), set()),
    "lot added": (lambda g: e.put_lot(g, crop="pea", seeds=3)[0], set()),
}


@pytest.mark.parametrize("name", EDITS)
def test_an_edit_works_out_anew_only_what_it_touched(three, name):
    edit, touched = EDITS[name]
    before = worked_out(three)
    after = worked_out(edit(three), before)
    fresh = Plan(after.garden, 2026, SHELF)
    anew = set()
    for one in after.garden.plantings:
        old = before.garden.plantings_by_id.get(one.id)
        if old is None or after.placed(one) is not before.placed(old):
            anew.add(one.id)
        assert after.placed(one).layout.points.tolist() == fresh.placed(one).layout.points.tolist()
        assert after.placed(one).problem == fresh.placed(one).problem
    assert anew == touched


def test_a_structure_moved_elsewhere_leaves_other_beds_with_structures_alone(three):
    document, other = e.add_structure(three, "tree", Circle(radius=0.1, center=(0, 10)), 2)
    before = worked_out(document)
    after = worked_out(e.move_things(document, [other], 0.2, 0), before)
    kept = [after.placed(one) is before.placed(one) for one in document.plantings]
    assert kept == [True, True, False]


def test_a_variety_that_gains_a_figure_touches_its_plantings(three):
    named = e.change_planting(three, "p1", variety="Nantes")
    before = worked_out(named)
    own = {"crop": "carrot", "name": "nantes", "figures": (OwnFigure(field="in_row_spacing", value=0.15),)}
    after = worked_out(e.put_variety(named, **own)[0], before)
    counts = [after.placed(one).plants for one in after.garden.plantings]
    assert counts == [32 * 4, before.placed(named.plantings[1]).plants, 64 * 4]
    assert after.placed(after.garden.plantings[2]) is before.placed(named.plantings[2])


def test_facts_not_asked_for_in_between_are_kept(three):
    first = worked_out(three)
    renamed = e.change_bed(three, "b1", name="x")
    second = first.after(renamed)  # nothing is asked of it
    third = second.after(e.change_bed(renamed, "b2", name="y"))
    assert third.placed(three.plantings[2]) is first.placed(three.plantings[2])


def test_facts_of_what_is_gone_are_let_go(three):
    plan = worked_out(three)
    assert {subject for _, subject in plan.cache.newest()} >= {"b1", "p1", "b2", "p2"}
    for _ in range(2 * IDLE_EDITS):
        plan = worked_out(e.remove(three, ["b1"]), plan)
    there = {subject for _, subject in plan.cache.newest()}
    assert not there & {"b1", "p1"}
    assert "p2" in there


def test_the_same_garden_asked_twice_is_worked_out_once(three):
    plan = Plan(three, 2026, SHELF)
    for one in three.plantings:
        assert plan.placed(one) is plan.placed(one)
        assert plan.span_of(one) is plan.span_of(one)
        assert plan.obstacles(plan.bed_of(one)) is plan.obstacles(plan.bed_of(one))
    assert plan.after(three).placed(three.plantings[0]) is plan.placed(three.plantings[0])


def test_undo_gives_the_first_amounts_again(three):
    first = worked_out(three)
    there = worked_out(e.resize_bed(three, "b1", rectangle(2, 2)), first)
    back = worked_out(three, there)
    assert [part.plants for part in amounts(back)] == [part.plants for part in amounts(first)]


def test_a_growing_year_shows_what_stands_on_any_of_its_days():
    document = garden(
        bed(),
        planting("p1", year=2025),
        planting("p2", year=2026),
        planting("p3", year=2026, first=D(2026, 10, 15), last=D(2027, 7, 20)),
        planting("p4", year=2020, first=D(2020, 3, 1), last=D(2030, 9, 1), start="standing"),
        planting("p5", year=2027),
    )

    def seen(year: int) -> list[str]:
        return [one.id for one in Plan(document, year, SHELF).plantings]

    assert seen(2019) == []
    assert seen(2020) == ["p4"]
    assert seen(2025) == ["p1", "p4"]
    assert seen(2026) == ["p2", "p3", "p4"]
    assert seen(2027) == ["p3", "p4", "p5"]
    assert seen(2031) == []
    assert document.years() == (2020, 2025, 2026, 2027)
    assert [one.id for one in Plan(document, 2026, SHELF).after(document, 2027).plantings] == seen(2027)


def test_a_southern_growing_year_runs_over_new_year():
    document = garden(
        bed(),
        planting("p1", year=2026, first=D(2026, 9, 1), last=D(2027, 2, 1)),
        planting("p2", year=2026, first=D(2026, 2, 1), last=D(2026, 4, 1)),
        planting("p3", year=2026),
        site=Site(latitude=-41.0),
    )
    plan = Plan(document, 2026, SHELF)
    assert (plan.span.first, plan.span.last) == (D(2026, 7, 1), D(2027, 6, 30))
    assert [one.id for one in plan.plantings] == ["p1", "p3"]
    assert [one.id for one in plan.after(document, 2025).plantings] == ["p2"]
    north = e.change_site(document, latitude=41.0)
    assert [one.id for one in plan.after(north).plantings] == ["p1", "p2", "p3"]


def test_beds_and_structures_out_of_use_are_left_out(three):
    document = e.change_bed(three, "b1", last_year=2025)
    document = e.change_structure(document, "s1", first_year=2027)
    now, later = Plan(document, 2026, SHELF), Plan(document, 2027, SHELF)
    assert [one.id for one in now.beds] == ["b2", "b3"]
    assert now.placed(document.plantings[1]).plants == 64 * 4
    assert later.placed(document.plantings[1]).plants < 64 * 4
    assert (
        now.after(document, 2027).placed(document.plantings[1]).plants
        == later.placed(document.plantings[1]).plants
    )


def test_ground_is_free_again_after_a_planting_has_gone():
    document = garden(
        bed(),
        planting("p1", plot=Stretch(start=0, end=2), last=D(2026, 6, 30)),
        planting("p2", plot=Stretch(start=2, end=3)),
        planting("p3", plot=Stretch(start=3, end=4.8), shares_ground=True),
    )
    plan = Plan(document, 2026, SHELF)
    ground = document.beds[0]
    assert plan.free(ground).area == pytest.approx(1.8 * 1.2)
    assert plan.free(ground, D(2026, 7, 1)).area == pytest.approx(3.8 * 1.2)
    assert plan.free(ground, D(2026, 6, 30)).area == pytest.approx(1.8 * 1.2)
    assert plan.free(ground, leaving_out=["p1", "p2"]).area == pytest.approx(4.8 * 1.2)
    assert plan.area(ground) == 4.8 * 1.2


def test_free_ground_is_clear_of_obstacles(three):
    plan = Plan(e.remove(three, ["p2"]), 2026, SHELF)
    assert plan.free(three.beds[1]).area == pytest.approx(4.8 * 1.2 - 3.1416 * 0.2**2, abs=1e-3)


def test_an_empty_garden_has_a_plan():
    plan = Plan(Garden(), 2026, SHELF)
    assert (plan.plantings, plan.beds, amounts(plan)) == ((), (), ())
    assert amounts(plan.after(Garden())) == ()


def test_ten_thousand_beds_are_planned():
    beds = [bed(f"b{i}", rectangle(1.2, 0.6, center=(i % 100 * 2, i // 100))) for i in range(10_000)]
    plantings = [planting(f"p{i}", f"b{i}") for i in range(0, 10_000, 50)]
    document = garden(*beds, *plantings)
    plan = Plan(document, 2026, SHELF)
    assert [part.plants for part in amounts(plan)] == [16 * 2] * 200
    moved = e.move_things(document, ["b50"], 1, 1)
    after = plan.after(moved)
    assert after.placed(plantings[2]) is plan.placed(plantings[2])


def test_a_variety_of_another_crop_does_not_count():
    own = Variety(id="v1", crop="pea", name="x", figures=(OwnFigure(field="in_row_spacing", value=0.3),))
    document = garden(bed(), planting(variety="x"), varieties=(own,))
    assert Plan(document, 2026, SHELF).placed(document.plantings[0]).plants == 64 * 4
