"""Edits are pure, refuse what is impossible in one line and give new ids."""

from __future__ import annotations

import math

import pytest
from making import bed, garden, planting, rectangle
from shapes_zoo import RINGS

from planner.garden import (
    Circle,
    Garden,
    OwnFigure,
    Places,
    Polygon,
    Region,
    Stretch,
    Structure,
    Support,
    Variety,
    Whole,
)
from planner.garden import edits as e
from planner.garden.edits import EditError
from planner.garden.garden import YearNote

WALL = Structure(id="s1", kind="wall", name="South wall", outline=rectangle(5, 0.3), height=2)
OWN = Variety(id="v1", crop="carrot", name="Nantes", figures=(OwnFigure(field="height", value=0.3),))


@pytest.fixture
def full() -> Garden:
    """Two beds, a wall, three plantings, a variety and a lot."""
    base = garden(
        bed("b1", name="Bed 1"),
        bed("b2", rectangle(3, 1, center=(0, 4)), name="Bed 2"),
        planting("p1", "b1", variety="Nantes", plot=Stretch(start=0, end=2)),
        planting("p2", "b1", plot=Stretch(start=2, end=4)),
        planting("p3", "b2", arrangement=Places(points=((0, 0), (1, 0), (-1, 0)))),
        structures=(WALL,),
        varieties=(OWN,),
    )
    return e.put_lot(base, crop="carrot", seeds=500)[0]


REFUSED = [
    (lambda g: e.add_bed(g, rectangle(), "bed 1"), "there is a bed named 'Bed 1' already. Take another name, as 'bed 3'"),
    (lambda g: e.add_bed(g, rectangle(), "x" * 300), "at most 200 characters"),
    (lambda g: e.add_bed(g, rectangle(), kind="wet"), "kind 'wet'"),
    (lambda g: e.change_bed(g, "b9", name="x"), "there is no bed 'b9'"),
    (lambda g: e.change_bed(g, "b1", name=" "), "name ''"),
    (lambda g: e.change_bed(g, "b1", colour="red"), "not permitted"),
    (lambda g: e.change_bed(g, "b1", id="b2"), "the id 'b2' is given twice"),
    (lambda g: e.change_bed(g, "b1", id="b7"), "which is not in the garden"),
    (lambda g: e.change_bed(g, "b1", height=math.nan), "finite number"),
    (lambda g: e.move_things(g, ["b1"], math.nan, 0), "the move to the right is no finite number"),
    (lambda g: e.move_things(g, ["b1", "s1"], 0, 1e6), "a place would lie more than 10 km off"),
    (lambda g: e.move_things(g, ["p1"], 0, 0), "there is no bed or structure 'p1'"),
    (lambda g: e.turn_things(g, ["b1"], math.inf), "the angle is no finite number"),
    (lambda g: e.turn_things(g, ["zzz"], 1), "there is no bed or structure 'zzz'"),
    (lambda g: e.resize_bed(g, "b9", rectangle()), "there is no bed or structure 'b9'"),
    (
        lambda g: e.resize_bed(
            e.change_planting(g, "p1", support=Support(kind="net", line=((9_999, 0), (9_999, 1)))),
            "b1",
            rectangle(center=(-9_000, 0)),
        ),
        "Bed 1: a place would lie more than 10 km off, farther than a garden reaches. Keep everything nearer to the rest.",
    ),
    (
        lambda g: e.resize_bed(
            e.change_planting(g, "p3", arrangement=Places(points=((9_999, 0),))),
            "b2",
            rectangle(center=(-9_000, 0)),
        ),
        "Bed 2: a place would lie more than 10 km off",
    ),
    (lambda g: e.add_planting(g, "b9", "carrot", 2026), "there is no bed 'b9' to plant carrot in"),
    (lambda g: e.add_planting(g, "b1", "carrot", 2026, plot={"kind": "stretch", "start": 3, "end": 1}), "has no length"),
    (lambda g: e.add_planting(g, "b1", "carrot", 10), "year 10"),
    (lambda g: e.change_planting(g, "p9"), "there is no planting 'p9'"),
    (lambda g: e.change_planting(g, "p1", bed="b9"), "there is no bed 'b9' to move carrot to"),
    (lambda g: e.change_planting(g, "p1", start="thrown"), "carrot in Bed 1: start 'thrown'"),
    (lambda g: e.move_planting(g, "p1", "b9", Whole()), "there is no bed 'b9'"),
    (lambda g: e.remove_places(g, "p1", {0}), "only a planting of single places"),
    (lambda g: e.add_structure(g, "castle", rectangle(), 2), "castle: kind 'castle'"),
    (lambda g: e.add_structure(g, "arch", Circle(radius=1), 2), "needs a rectangular outline"),
    (lambda g: e.change_structure(g, "s9", height=1), "there is no structure 's9'"),
    (lambda g: e.change_structure(g, "s1", height=-1), "South wall: height -1"),
    (lambda g: e.remove(g, ["b1", "zzz"]), "there is nothing with the id 'zzz'"),
    (lambda g: e.duplicate(g, ["b1"], 1e9, 0), "a place would lie more than 10 km off"),
    (lambda g: e.duplicate(g, ["s1"], math.nan, 0), "finite number"),
    (lambda g: e.paste(garden(bed("b7")), g, ["p1"], 0, 0), "carrot has no bed to go to. Copy its bed along"),
    (lambda g: e.change_site(g, latitude=100), "site: latitude 100"),
    (lambda g: e.change_climate(g, zone="7b\n"), "must be one line"),
    (lambda g: e.put_variety(g, crop="carrot", name="nantes"), "there is a variety 'Nantes' of carrot already"),
    (lambda g: e.put_variety(g, "v9", name="x"), "there is no own variety 'v9'"),
    (lambda g: e.put_lot(g, "l9", seeds=1), "there is no lot 'l9'"),
    (lambda g: e.put_lot(g, "l1", seeds=-1), "carrot: seeds -1"),
    (lambda g: e.remove_part(g, "p1"), "there is no own variety or lot 'p1'"),
]  # fmt: skip


@pytest.mark.parametrize(("edit", "words"), REFUSED)
def test_an_impossible_edit_is_refused_in_one_line(full, edit, words):
    before = full.model_dump()
    with pytest.raises(EditError) as caught:
        edit(full)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)
    assert full.model_dump() == before


NOTHING_CHANGES = [
    lambda g: e.change_bed(g, "b1", name="Bed 1"),
    lambda g: e.move_things(g, ["b1", "s1"], 0, 0),
    lambda g: e.turn_things(g, ["b1"], 360),
    lambda g: e.resize_bed(g, "b1", g.beds[0].outline),
    lambda g: e.change_planting(g, "p1", variety="Nantes"),
    lambda g: e.change_structure(g, "s1", height=2.0),
    lambda g: e.change_site(g, units="metric"),
    lambda g: e.change_climate(g),
    lambda g: e.put_variety(g, "v1", name="Nantes")[0],
    lambda g: e.put_lot(g, "l1", seeds=500)[0],
    lambda g: e.remove(g, []),
    lambda g: e.align_beds(g, ["b1"], "left", {}),
]


@pytest.mark.parametrize("edit", NOTHING_CHANGES)
def test_an_edit_that_changes_nothing_returns_the_same_object(full, edit):
    assert edit(full) is full


def test_parts_that_an_edit_does_not_touch_stay_the_same_objects(full):
    after = e.move_things(full, ["b1"], 1, 1)
    assert after.beds[0] is not full.beds[0]
    assert after.beds[1] is full.beds[1]
    assert after.plantings is full.plantings or all(
        a is b for a, b in zip(after.plantings, full.plantings, strict=True)
    )


def test_new_beds_get_the_next_number_and_a_fresh_id(full):
    after, key = e.add_bed(full, rectangle())
    assert key == "b3"
    assert after.beds_by_id[key].name == "Bed 3"
    after, key = e.add_bed(e.remove(after, ["b1"]), rectangle(), "  Hot bed ")
    assert (key, after.beds_by_id[key].name) == ("b4", "Hot bed")


@pytest.mark.parametrize("used", ["b999999999", "b9999999999", "b" + "9" * 40])
def test_ids_are_fresh_after_any_number(used):
    after, key = e.add_bed(garden(bed(used, name="x")), rectangle())
    after, other = e.add_bed(after, rectangle())
    assert len({used, key, other}) == 3


def test_names_of_the_greatest_length_stay_different():
    base = garden(bed(name="x" * 200))
    after, _ = e.duplicate(base, ["b1"], 2, 0)
    after, _ = e.duplicate(after, ["b1"], 4, 0)
    assert len({one.name for one in after.beds}) == 3


def test_removing_a_bed_takes_its_plantings(full):
    after = e.remove(full, ["b1"])
    assert [p.id for p in after.plantings] == ["p3"]
    assert e.remove(full, ["p2"]).plantings == (full.plantings[0], full.plantings[2])


def test_removing_places_up_to_the_last(full):
    fewer = e.remove_places(full, "p3", {0, 2})
    assert fewer.plantings_by_id["p3"].arrangement.points == ((1, 0),)
    assert "p3" not in e.remove_places(full, "p3", {0, 1, 2}).plantings_by_id


def test_turning_about_a_point_keeps_the_distance_to_it(full):
    after = e.turn_things(full, ["b1", "b2", "s1"], 30, about=(3, 3))
    for old, new in zip((*full.beds, *full.structures), (*after.beds, *after.structures), strict=True):
        assert math.dist(new.outline.center, (3, 3)) == pytest.approx(
            math.dist(old.outline.center, (3, 3)), abs=2e-6
        )
        assert new.outline.turn == 30


def test_four_quarter_turns_bring_everything_back(full):
    after = full
    for _ in range(4):
        after = e.turn_things(after, ["b1", "b2", "s1"], 90, about=(1.5, 2))
    assert after == full


@pytest.mark.parametrize(("side", "goal"), [("left", -2.4), ("right", 2.4), ("bottom", -0.6), ("top", 4.5)])
def test_aligning_by_one_side(full, side, goal):
    extents = {"b1": (-2.4, -0.6, 2.4, 0.6), "b2": (-1.5, 3.5, 1.5, 4.5)}
    after = e.align_beds(full, ["b1", "b2"], side, extents)
    index = {"left": 0, "bottom": 1, "right": 2, "top": 3}[side]
    for key, extent in extents.items():
        moved = (
            after.beds_by_id[key].outline.center[index % 2] - full.beds_by_id[key].outline.center[index % 2]
        )
        assert extent[index] + moved == pytest.approx(goal)


def test_plantings_follow_the_new_name_of_their_variety(full):
    after, _ = e.put_variety(full, "v1", name="Amsterdam")
    assert after.plantings_by_id["p1"].variety == "Amsterdam"
    assert after.plantings_by_id["p2"] is full.plantings_by_id["p2"]


def test_plantings_do_not_follow_a_variety_to_another_crop(full):
    after, _ = e.put_variety(full, "v1", crop="pea", name="Amsterdam")
    assert after.plantings is full.plantings or after.plantings == full.plantings
    assert after.plantings_by_id["p1"].variety == "Nantes"


def test_duplicated_beds_have_copies_of_their_plantings(full):
    after, new = e.duplicate(full, ["b1", "s1"], 10, 0)
    assert new == ("b3", "s2")
    copy = after.beds_by_id["b3"]
    assert (copy.name, copy.outline.center) == ("Bed 3", (10, 0))
    assert [(p.id, p.plot) for p in after.in_bed("b3")] == [
        ("p4", full.plantings[0].plot),
        ("p5", full.plantings[1].plot),
    ]
    assert after.plantings[:3] == full.plantings


def test_a_planting_duplicated_by_itself_stays_on_its_plot(full):
    after, (key,) = e.duplicate(full, ["p1"], 10, 0)
    assert after.plantings_by_id[key].with_(id="p1") == full.plantings_by_id["p1"]


def test_a_bed_and_one_of_its_plantings_are_copied_once(full):
    after, new = e.duplicate(full, ["b1", "p1"], 1, 0)
    assert new == ("b3",)
    assert len(after.plantings) == len(full.plantings) + 2


def test_pasting_into_another_garden_brings_varieties_along(full):
    other = garden(bed("b1", name="BED 1"), planting("p7", "b1"))
    after, new = e.paste(other, full, ["b1", "b2", "s1"], 0.5, 0)
    assert new == ("b2", "b3", "s1")
    assert [one.name for one in after.beds] == ["BED 1", "Bed 2", "Bed 3"]
    assert [p.id for p in after.plantings] == ["p7", "p8", "p9", "p10"]
    assert [own.with_(id="v1") for own in after.varieties] == [OWN]
    again, _ = e.paste(after, full, ["b1"], 0, 0)
    assert len(again.varieties) == 1


def test_pasting_a_thousand_beds_is_quick():
    many = Garden(beds=tuple(bed(f"b{i}", name=f"Bed {i}") for i in range(1000)))
    after, new = e.duplicate(many, [one.id for one in many.beds], 0, 5)
    assert len(after.beds) == 2000
    assert len(set(new)) == 1000


def test_polygons_can_be_given_to_any_edit(full):
    after = e.resize_bed(full, "b2", Polygon(points=tuple(RINGS["L"])))
    assert after.beds_by_id["b2"].outline.shape == "polygon"
    assert isinstance(
        e.change_planting(full, "p1", plot=Region(points=tuple(RINGS["L"]))).plantings[0].plot, Region
    )


def test_a_note_on_a_year_is_written_anew_or_goes():
    start = Garden(notes=(YearNote(year=2024, text="wet"), YearNote(year=2024, text="late")))
    assert e.put_year_note(start, 2024, "wet\nlate ") is start
    noted = e.put_year_note(e.put_year_note(start, 2026, " dry "), 2024, "cold")
    assert [(one.year, one.text) for one in noted.notes] == [(2024, "cold"), (2026, "dry")]
    assert e.put_year_note(noted, 2024, " ").notes == noted.notes[1:]
    with pytest.raises(EditError, match="2026"):
        e.put_year_note(noted, 2026, "x" * 200_000)
