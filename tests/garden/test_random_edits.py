"""Any sequence of edits leaves a valid document, and drawn plots stay where they are on the ground."""

from __future__ import annotations

import datetime as dt
import math
import random

import numpy as np
import pytest
from effort import tries
from hypothesis import given, settings
from hypothesis import strategies as st
from making import bed, garden, planting, rectangle, ring_bed, ticked
from random_edits import EDITS, exported_edits, random_edit
from random_values import CROPS, FIELDS, Draw

from planner.garden import (
    Bench,
    Circle,
    Dressing,
    Garden,
    Lot,
    Offer,
    OwnCrop,
    OwnSource,
    Places,
    PlantingStock,
    Polygon,
    Rectangle,
    Region,
    ShedItem,
    StorePlace,
    Stretch,
    Structure,
    Trial,
    TrialEntry,
    Variety,
    Waiver,
    Wish,
)
from planner.garden import edits as e
from planner.garden.edits import EditError
from planner.garden.planting_figures import PlantingFigures
from planner.garden.underlay import Underlay
from planner.ground import to_plan
from planner.ground.obstacles import NO_GROUND
from planner.ground.place import place_planting

steps = st.lists(st.tuples(st.sampled_from(sorted(EDITS)), st.integers(0, 2**32)), max_size=25)


@settings(max_examples=tries(60, 120))
@given(steps)
def test_random_edits_keep_the_document_valid_and_the_old_one_as_it_was(steps):
    now = garden(bed("b1", name="Bed 1"), planting("p1", plot=Stretch(start=0, end=1)))
    refusals: list[str] = []
    for name, seed in steps:
        before = now.model_dump_json()
        old = now
        try:
            result = EDITS[name](Draw(random.Random(seed), now, nonsense=0.15))
        except EditError as error:
            refusals.append(str(error))
            result = now
        assert old.model_dump_json() == before
        now, key = result if isinstance(result, tuple) else (result, None)
        for new in set(() if key is None else (key,) if isinstance(key, str) else key) - _changed(name, old):
            assert new in known(now)
            assert new not in known(old)
        assert Garden.model_validate_json(now.model_dump_json()) == now
    assert not [line for line in refusals if "\n" in line]


def _changed(name: str, old: Garden) -> set[str]:
    """Ids that an edit may return although they are not new: those of the parts it changes in place."""
    parts = {
        "put_variety": old.varieties,
        "put_lot": old.stock,
        "put_bench": old.benches,
        "put_offer": old.offers,
        "put_planting_stock": old.planting_stock,
        "put_dressing": old.dressings,
        "put_shed_item": old.shed,
        "put_store_place": old.store_places,
        "put_trial": old.trials,
        "put_wish": old.wishes,
    }.get(name, ())
    keyed = {"put_crop": old.crops, "put_source": old.sources}.get(name, ())
    return {*(part.id for part in parts), *(part.key for part in keyed)}


def test_every_exported_edit_is_in_the_random_sequences():
    assert set(EDITS) == exported_edits()
    assert {"add_bed", "paste", "tick", "untick", "waive"} <= exported_edits()
    assert "fresh_id" not in exported_edits()


def known(document: Garden) -> set[str]:
    """Ids of the things of a garden, and keys of its own crops and sources."""
    return {*document.ids(), *(own.key for own in (*document.crops, *document.sources))}


FULL = garden(
    bed("b1", name="Bed 1"),
    bed("b2", rectangle(3, 1, center=(0, 4)), name="Bed 2"),
    planting("p1", "b1", variety="Early", plot=Stretch(start=0, end=2)),
    planting("p2", "b2", crop="pea", arrangement=Places(points=((0, 0), (1, 0)))),
    structures=(Structure(id="s1", kind="wall", outline=rectangle(5, 0.3, center=(0, -3)), height=2),),
    varieties=(Variety(id="v1", crop="carrot", name="Early"),),
    crops=(OwnCrop(key="own_tree_onion", name="Tree onion", like="onion"),),
    sources=(OwnSource(key="own_packet", title="Packet"),),
    stock=(Lot(id="l1", crop="carrot", seeds=500), Lot(id="l2", crop="pea", seeds=50, ordered=True)),
    planting_stock=(PlantingStock(id="g1", crop="potato", kind="tubers", number=20),),
    offers=(Offer(id="o1", crop="carrot", seeds=400, price=2.5),),
    benches=(Bench(id="t1", name="Sill", kind="cool", length=1.2, width=0.3),),
    dressings=(Dressing(id="d1", bed="b1", kind="compost", day=dt.date(2026, 3, 1), depth=0.02),),
    shed=(ShedItem(id="m1", kind="fleece", length=10, width=2),),
    store_places=(StorePlace(id="k1", name="Cellar"),),
    records=(ticked("p1", "sow", dt.date(2026, 4, 20)),),
    trials=(
        Trial(
            id="x1",
            question="Which is earlier?",
            entries=tuple(TrialEntry(planting=key, treatment=key) for key in ("p1", "p2")),
        ),
    ),
    wishes=(Wish(id="w1", year=2027, crop="carrot", amount=60),),
    underlay=Underlay(path="map.png", sha256="1" * 64),
    waived=(Waiver(finding="crowding/p1/0123456789ab", reason="on purpose"),),
)


@pytest.mark.parametrize("name", sorted(EDITS))
def test_each_entry_calls_its_edit_and_changes_the_garden(name, monkeypatch):
    calls = []
    edit = getattr(e, name)
    monkeypatch.setattr(e, name, lambda *args, **fields: calls.append(args) or edit(*args, **fields))
    results = [random_edit(random.Random(seed), FULL, name) for seed in range(40)]
    assert len(calls) == 40
    assert any(result is not None and result != FULL for result in results)


@pytest.mark.parametrize("model", FIELDS, ids=lambda model: model.__name__)
def test_every_field_that_an_edit_can_change_is_drawn(model):
    assert set(FIELDS[model]) == set(model.model_fields) - {"id", "key"}


def test_drawn_crops_are_in_the_catalogue(catalogue):
    assert [crop for crop in CROPS if catalogue.get(crop) is None] == []


def test_most_random_edits_are_possible():
    rng = random.Random(7)
    now, refused = FULL, 0
    for _ in range(300):
        after = random_edit(rng, now)
        refused += after is None
        now = after or now
    assert refused < 100


def ground_places(document: Garden) -> np.ndarray:
    """Stations of the first planting on the plan."""
    one = document.plantings[0]
    ground = document.beds_by_id[one.bed]
    placed = place_planting(ground, one, PlantingFigures(None, None), NO_GROUND)
    assert placed.plants
    return to_plan(ground.outline, placed.layout.points)


ROWS = {"kind": "rows", "in_row_spacing": 0.2, "row_spacing": 0.2}
DRAWN = [
    {"plot": Region(points=((-1, -0.4), (0.5, -0.4), (0.7, 0.4), (-1, 0.3))), "arrangement": ROWS},
    {"plot": Stretch(start=1.4, end=2.6), "arrangement": ROWS},
    {"arrangement": Places(points=((-1, 0.1), (0.5, -0.2), (0.7, 0.4)))},
]


def dragged(turn: float, left: float, right: float) -> Rectangle:
    """The 4 m x 1.2 m rectangle about (2, 3), its ends dragged outwards by so much."""
    a, shift = math.radians(turn), (right - left) / 2
    center = 2 + shift * math.cos(a), 3 + shift * math.sin(a)
    return rectangle(4 + left + right, 1.2, center=center, turn=turn)


@pytest.mark.parametrize("drawn", DRAWN)
@pytest.mark.parametrize("turn", [0, 30, 90, 250.5])
@pytest.mark.parametrize(("left", "right"), [(1, 0), (0, 1), (0.5, 2), (-0.8, 0), (0, -0.9)])
def test_plants_stay_where_they_are_when_a_rectangle_is_resized(drawn, turn, left, right):
    start = garden(bed(outline=dragged(turn, 0, 0)), planting(**drawn))
    after = e.resize_bed(start, "b1", dragged(turn, left, right))
    assert np.allclose(ground_places(after), ground_places(start), atol=3e-6)


@pytest.mark.parametrize("drawn", DRAWN[::2])
@pytest.mark.parametrize("turn", [15, 90, -120])
def test_plants_stay_where_they_are_when_only_the_outline_turns(drawn, turn):
    start = garden(bed(outline=Circle(radius=2, center=(5, 5))), planting(**drawn))
    after = e.resize_bed(start, "b1", Circle(radius=2.5, center=(5, 5), turn=turn))
    if drawn["arrangement"] is ROWS:  # rows follow the bed's axis: only the plot can be compared
        plot, old = after.plantings[0].plot, start.plantings[0].plot
        outlines_ = after.beds[0].outline, start.beds[0].outline
        assert np.allclose(to_plan(outlines_[0], plot.points), to_plan(outlines_[1], old.points), atol=3e-6)
    else:
        assert np.allclose(ground_places(after), ground_places(start), atol=3e-6)


@pytest.mark.parametrize("drawn", DRAWN)
def test_plants_stay_where_they_are_when_a_polygons_corners_move(drawn):
    ring = [(-2, -0.6), (2, -0.6), (2, 0.6), (-2, 0.6)]
    longer = [(-3, -0.6), (2.5, -0.6), (2.5, 0.6), (-3, 0.6)]
    start = garden(ring_bed(ring, center=(1, 1), turn=20), planting(**drawn))
    after = e.resize_bed(start, "b1", Polygon(points=tuple(longer), center=(1, 1), turn=20))
    assert np.allclose(ground_places(after), ground_places(start), atol=3e-6)


def test_a_polygon_whose_centre_moves_but_not_its_ground_changes_nothing():
    ring = [(-2, -0.6), (2, -0.6), (2, 0.6), (-2, 0.6)]
    start = garden(ring_bed(ring), planting(**DRAWN[1]))
    moved = Polygon(points=tuple((x - 1, y) for x, y in ring), center=(1, 0))
    after = e.resize_bed(start, "b1", moved)
    assert np.allclose(ground_places(after), ground_places(start), atol=3e-6)


def test_a_stretch_becomes_a_region_when_the_bed_grows_broader_than_long():
    start = garden(bed(outline=rectangle(4, 1.2)), planting(plot=Stretch(start=1, end=2), arrangement=ROWS))
    after = e.resize_bed(start, "b1", rectangle(4, 6, center=(0, 0)))
    plot = after.plantings[0].plot
    assert isinstance(plot, Region)
    assert sorted(plot.points) == [(-1, -0.6), (-1, 0.6), (0, -0.6), (0, 0.6)]


def test_a_stretch_cut_by_the_new_beginning_is_shortened():
    start = garden(bed(outline=rectangle(4, 1.2)), planting(plot=Stretch(start=0, end=2)))
    after = e.resize_bed(start, "b1", rectangle(3, 1.2, center=(0.5, 0)))
    assert after.plantings[0].plot == Stretch(start=0, end=1)


@pytest.mark.parametrize(("end", "kind"), [(1.1, "stretch"), (1.02, "stretch"), (1.005, "region")])
def test_a_stretch_cut_to_its_last_centimetre_is_a_region(end, kind):
    start = garden(bed(outline=rectangle(4, 1.2)), planting(plot=Stretch(start=0, end=end)))
    after = e.resize_bed(start, "b1", rectangle(3, 1.2, center=(0.5, 0)))
    assert after.plantings[0].plot.kind == kind


def test_a_stretch_before_the_new_beginning_stays_on_its_ground():
    start = garden(bed(outline=rectangle(4, 1.2)), planting(plot=Stretch(start=0, end=0.5)))
    after = e.resize_bed(start, "b1", rectangle(3, 1.2, center=(0.5, 0)))
    assert isinstance(after.plantings[0].plot, Region)
    back = e.resize_bed(after, "b1", rectangle(4, 1.2))
    points = to_plan(back.beds[0].outline, back.plantings[0].plot.points)
    assert points[:, 0].min() == pytest.approx(-2)
    assert points[:, 0].max() == pytest.approx(-1.5)
