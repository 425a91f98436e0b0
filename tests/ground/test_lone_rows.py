"""One row in the middle of a bed: of every crop, in beds of all usual widths and shapes."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from ground.counting import rows_counted
from making import bed, planting, rectangle, ring_bed

from planner.crops import load_catalogue
from planner.garden.planting_figures import PlantingFigures
from planner.ground import lay_rows
from planner.ground.obstacles import NO_GROUND
from planner.ground.place import place_planting
from planner.ground.shapes import bed_polygon

CROPS = {
    key: crop for key, crop in load_catalogue().crops.items() if crop.number("in_row_spacing") is not None
}
WIDTHS = (0.30, 0.60, 0.75, 0.9, 1.1, 1.2)
#: Outlines of beds no rectangle. [m]
TAPERED = [(0, 0), (4.8, 0), (4.8, 0.9), (0, 1.3)]
ELBOW = [(0, 0), (5, 0), (5, 1.1), (1.1, 1.1), (1.1, 4), (0, 4)]
ROUND = [(0.6 * math.cos(a), 0.6 * math.sin(a)) for a in np.linspace(0, 2 * math.pi, 72, endpoint=False)]


def field_rows(key: str, ground):
    crop = CROPS[key]
    spacing = {"in_row_spacing": crop.number("in_row_spacing"), "row_spacing": crop.number("row_spacing")}
    rows = planting(crop=key, arrangement={"kind": "rows", **spacing})
    return place_planting(ground, rows, PlantingFigures(crop, None), NO_GROUND)


@pytest.mark.parametrize("key", CROPS)
def test_every_crop_has_a_row_in_beds_of_all_widths(key):
    """Field rows of each crop: as many as its row spacing gives, and one where that gives none."""
    in_row, between = CROPS[key].number("in_row_spacing"), CROPS[key].number("row_spacing")
    for width in WIDTHS:
        placed = field_rows(key, bed(outline=rectangle(4.8, width)))
        rows = max(1, rows_counted(width, between))
        assert placed.problem == ""
        assert placed.layout.row_count == rows
        assert placed.plants == rows * math.floor(4.8 / in_row + 0.04 + 1e-9)
        if rows == 1:
            assert placed.layout.points[:, 1] == pytest.approx(0.0)


@pytest.mark.parametrize(
    "key", ["rhubarb", "asparagus", "cucumber", "winter_squash", "raspberry", "cabbage", "leek"]
)
@pytest.mark.parametrize("ring", [TAPERED, ELBOW], ids=["tapered", "elbow"])
def test_rows_fill_beds_of_other_shapes_too(key, ring):
    """Plants stand at their spacing in most of the bed's length; of an elbow at least in its longer arm."""
    ground = ring_bed(ring)
    length = 4.8 if ring is TAPERED else 5.0
    placed = field_rows(key, ground)
    assert placed.problem == ""
    assert placed.plants >= 0.7 * length / CROPS[key].number("in_row_spacing")
    assert bed_polygon(ground).buffer(1e-6).covers(shapely.multipoints(placed.layout.points))


@pytest.mark.parametrize("key", ["rhubarb", "asparagus", "cucumber", "winter_squash", "raspberry", "cabbage"])
def test_a_round_bed_of_a_bed_width_holds_what_its_length_allows(key):
    placed = field_rows(key, ring_bed(ROUND))
    assert placed.problem == ""
    assert 1 <= placed.plants <= 1.2 / CROPS[key].number("in_row_spacing") + 0.04


@pytest.mark.parametrize("count", range(1, 9))
def test_rows_of_a_bed_may_be_closer_by_a_fiftieth(count):
    """Rows keep their spacing where they fit; where one more is gained they are closer, by a fiftieth at most."""
    spacing = 0.305
    for width, rows in (
        (count * spacing, count),
        (count * spacing * 0.9801, count),
        (count * spacing * 0.979, max(count - 1, 1)),
    ):
        layout = lay_rows(shapely.box(0, 0, 3, width), 0.3, spacing)
        apart = np.diff(np.unique(layout.points[:, 1]))
        assert layout.row_count == rows, width
        assert (apart >= 0.98 * spacing - 1e-9).all()
        assert (apart <= spacing + 1e-9).all()


@pytest.mark.parametrize(
    ("width", "spacing", "rows"),
    [
        (0.60, 0.305, 2),
        (1.20, 0.3048, 4),
        (1.20, 0.1524, 8),
        (0.75, 0.1524, 5),
        (0.90, 0.3048, 3),
        (1.20, 0.4064, 3),
    ],
)
def test_spacings_of_whole_inches_fit_into_beds_of_round_metres(width, spacing, rows):
    assert lay_rows(shapely.box(0, 0, 3, width), 0.3, spacing).row_count == rows
    assert lay_rows(shapely.box(0, 0, 0.60, 3), 0.305, spacing).rows[0].count == 2


@pytest.mark.parametrize(("most", "rows"), [(3, 3), (4, 4), (9, 4)])
def test_no_more_rows_than_wanted_are_gained(most, rows):
    layout = lay_rows(shapely.box(0, 0, 3, 1.2), 0.3, 0.3048, rows=most)
    assert layout.row_count == rows
    assert np.diff(np.unique(layout.points[:, 1])) == pytest.approx(0.3048 if most == 3 else 0.3)


def test_many_rows_and_staggered_ones_keep_their_spacing():
    assert lay_rows(shapely.box(0, 0, 3, 30.0), 0.3, 0.3048).row_count == 98
    assert lay_rows(shapely.box(0, 0, 3, 1.2), 0.3, 0.3048, staggered=True).row_count == 3


def test_distances_from_the_outline_by_hand_are_kept_to_the_letter():
    assert lay_rows(shapely.box(0, 0, 3, 0.60), 0.3, 0.305, edge=0.1525).row_count == 1
    assert lay_rows(shapely.box(0, 0, 0.60, 3), 0.305, 0.3, end=0.1525).rows[0].count == 1
    assert lay_rows(shapely.box(0, 0, 3, 0.30), 0.3, 0.305, edge=0.1525).count == 0


@pytest.mark.parametrize("staggered", [False, True])
@pytest.mark.parametrize("rows", [None, 1, 4])
def test_a_strip_narrower_than_a_row_holds_one_row_in_its_middle(staggered, rows):
    layout = lay_rows(shapely.box(0, 0, 4.8, 0.30), 0.3, 0.61, rows=rows, staggered=staggered)
    assert layout.row_count == 1
    assert layout.count == 16
    assert set(layout.points[:, 1]) == {0.15}
