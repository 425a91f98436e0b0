"""Spacing for beds: which beds are planted by it, at what distances, and how many plants that makes."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from making import bed, garden, planting, rectangle, ring_bed

from planner.amounts import amount
from planner.crops import load_catalogue
from planner.garden import Circle, Garden, Rows, Scatter, StaggeredRows, Variety
from planner.garden.planting_figures import PlantingFigures
from planner.garden.units import INCH
from planner.ground import lay_rows
from planner.ground.bed_spacing import bed_spacings, is_worked_from_sides, spacings, usual_arrangement
from planner.plan import Plan

CATALOGUE = load_catalogue()
BED = bed("b1", rectangle(4.8, 1.2))
FIELD = bed("b1", rectangle(12.0, 8.0))


def figures(key: str, **own: float) -> PlantingFigures:
    variety = None
    if own:
        numbers = tuple({"field": field, "value": value} for field, value in own.items())
        variety = Variety.model_validate({"id": "v1", "crop": key, "name": "Own", "figures": numbers})
    return PlantingFigures(CATALOGUE.get(key), variety)


def planted(key: str, ground=BED, **fields) -> Garden:
    arrangement = usual_arrangement(ground, figures(key))
    return garden(ground, planting(crop=key, arrangement=arrangement, **fields))


def stations(found: Garden) -> np.ndarray:
    return Plan(found, 2026).placed(found.plantings[0]).layout.points


def nearest(points: np.ndarray) -> float:
    tree = shapely.STRtree(shapely.points(points))
    return float(tree.query_nearest(tree.geometries, exclusive=True, return_distance=True)[1].min())


@pytest.mark.parametrize(
    ("ground", "as_bed"),
    [
        (rectangle(4.8, 0.3), True),
        (rectangle(4.8, 1.2), True),
        (rectangle(1.2, 4.8), True),
        (rectangle(12.0, 1.5), True),  # two and a half feet to its middle
        (rectangle(12.0, 2.0), False),
        (rectangle(12.0, 8.0), False),
        (Circle(radius=0.75), True),
        (Circle(radius=2.0), False),
    ],
)
def test_a_bed_is_what_is_worked_from_its_sides(ground, as_bed):
    assert is_worked_from_sides(bed("b1", ground)) is as_bed
    assert is_worked_from_sides(bed("b1", ground, kind="under glass")) is as_bed
    assert is_worked_from_sides(bed("b1", ground, kind="raised"))
    assert is_worked_from_sides(bed("b1", ground, kind="container"))


def test_a_long_bed_with_a_corner_is_a_bed_too():
    assert is_worked_from_sides(ring_bed([(0, 0), (6, 0), (6, 1.2), (1.2, 1.2), (1.2, 5), (0, 5)]))


@pytest.mark.parametrize(
    "key",
    [
        key
        for key, crop in CATALOGUE.crops.items()
        if crop.number("bed_spacing") and crop.number("in_row_spacing")
    ],
)
def test_every_crop_with_a_spacing_for_beds_is_planted_by_it_in_a_bed(key):
    """Plants are as far apart as printed in every direction, or in the rows that are printed; not what is broadcast."""
    crop = CATALOGUE.crops[key]
    apart, rows = crop.number("bed_spacing"), crop.number("bed_row_spacing")
    points = stations(planted(key))
    heights = np.unique(points[:, 1].round(6))
    assert nearest(points) == pytest.approx(apart if rows is None else min(apart, rows))
    between = apart * math.sqrt(3) / 2 if rows is None else rows
    assert len(heights) == max(1, math.floor(1.2 / between + 0.04 + 1e-9))
    assert np.diff(heights) == pytest.approx(between, abs=1e-5)
    assert usual_arrangement(FIELD, figures(key)) == Rows()


@pytest.mark.parametrize(
    "key", [key for key, crop in CATALOGUE.crops.items() if not crop.number("bed_spacing")]
)
def test_a_crop_without_keeps_its_field_rows_or_is_broadcast(key):
    crop, usual = CATALOGUE.crops[key], usual_arrangement(BED, figures(key))
    if crop.number("in_row_spacing"):
        assert usual == Rows()
        meant = Rows(spacing_for="beds")
        assert spacings(meant, figures(key)) == spacings(Rows(), figures(key))
    else:
        assert isinstance(usual, Scatter)


def test_field_rows_of_before_mean_the_same():
    """A file that names no spacing has field rows: cabbage at 40 x 61 cm by its handbook."""
    old = garden(BED, planting(crop="cabbage", arrangement={"kind": "rows"}))
    layout = Plan(old, 2026).placed(old.plantings[0]).layout
    assert (layout.in_row_spacing, layout.row_spacing) == (0.40, 0.61)


@pytest.mark.parametrize(("key", "least", "most"), [("cabbage", 15, 18), ("broccoli", 12, 18), ("tomato", 18, 24),
                                                    ("carrot", 2, 3), ("leek", 3, 6), ("potato", 10, 12)])  # fmt: skip
def test_plants_to_the_square_metre_lie_between_those_of_the_printed_range(key, least, most):
    """Arizona's handbook prints inches in all directions: 2 / (sqrt(3) s^2) plants to the area, less what the edges cost."""
    count = len(stations(planted(key, bed("b1", rectangle(30.0, 30.0), kind="raised"))))
    densities = [2 / (math.sqrt(3) * (inches * INCH) ** 2) for inches in (most, least)]
    assert densities[0] < count / 900 < densities[1]
    middle = 2 / (math.sqrt(3) * ((least + most) / 2 * INCH) ** 2)
    assert count / 900 == pytest.approx(middle, rel=0.03)


@pytest.mark.parametrize(("inches", "printed"), [(6, 1_089), (8, 612), (12, 272), (3, 4_356)])
def test_weathers_1913_square_planting_at_the_same_distance_in_both_directions(inches, printed):
    """Commercial Gardening, vol. 3: plants a square rod at equal distances; staggered ones are 2/sqrt(3) as many."""
    rod = 272.25 * 0.3048**2
    own = figures("lettuce", bed_spacing=inches * INCH)
    square = spacings(Rows(spacing_for="beds"), own)
    assert lay_rows(shapely.box(0, 0, rod / square[1], square[1]), square[0], square[1]).count == printed
    in_row, between = spacings(StaggeredRows(spacing_for="beds"), own)
    side = 20.0
    staggered = lay_rows(shapely.box(0, 0, side, side), in_row, between, staggered=True).count
    assert staggered * rod / side**2 == pytest.approx(printed * 2 / math.sqrt(3), rel=0.03)


def test_the_two_rows_of_sprouting_broccoli_across_a_bed():
    """Exmouth's course sets two across a bed of 120 cm, 60 cm in the row."""
    points = stations(planted("sprouting_broccoli", bed("b1", rectangle(6.0, 1.35))))
    assert len(np.unique(points[:, 1])) == 2
    assert len(points) == 20


def test_what_is_typed_comes_before_what_is_printed():
    cabbage = figures("cabbage")
    assert spacings(StaggeredRows(spacing_for="beds", in_row_spacing=0.5), cabbage) == pytest.approx(
        (0.5, 0.5 * math.sqrt(3) / 2)
    )
    assert spacings(Rows(spacing_for="beds", in_row_spacing=0.5, row_spacing=0.7), cabbage) == (0.5, 0.7)
    assert spacings(Rows(spacing_for="beds", rows=2), cabbage) == (
        CATALOGUE.get("cabbage").number("bed_spacing"),
        None,
    )


def test_own_figures_of_a_variety_come_before_the_crops_spacing_for_beds():
    assert bed_spacings(figures("cabbage", in_row_spacing=0.25)) is None
    assert usual_arrangement(BED, figures("cabbage", in_row_spacing=0.25)) == Rows()
    assert bed_spacings(figures("cabbage", in_row_spacing=0.25, bed_spacing=0.22)) == (0.22, None)
    assert bed_spacings(figures("cabbage", height=0.3)) == bed_spacings(figures("cabbage"))


def test_seed_follows_the_spacing_for_beds():
    """Carrots: as much seed to the metre of drill as in field rows, in many more drills."""
    rows = garden(BED, planting(crop="carrot", arrangement=Rows()))
    close = planted("carrot")
    field, bed_wise = (amount(Plan(one, 2026), one.plantings[0]) for one in (rows, close))
    assert bed_wise.thinned_from / field.thinned_from == pytest.approx(bed_wise.rows / field.rows, rel=0.02)
    assert bed_wise.plants > 6 * field.plants
    assert bed_wise.seed_grams / field.seed_grams == pytest.approx(bed_wise.seeds / field.seeds, rel=1e-6)


@pytest.mark.parametrize("key", ["phacelia", "winter_rye", "white_clover", "field_pea"])
def test_green_manure_is_scattered_at_its_seed_rate(key):
    sown = planted(key, start="sown")
    part = amount(Plan(sown, 2026), sown.plantings[0])
    assert part.problem == ""
    assert part.seed_grams == pytest.approx(CATALOGUE.get(key).number("sowing_rate") * 4.8 * 1.2, rel=0.02)
