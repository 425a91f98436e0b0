"""Trays, pots and blocks against published tables, and the container that each crop gets."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from planner.crops import containers as c
from planner.crops import load_catalogue

FILE = Path(__file__).parents[1] / "reference" / "trays.csv"
TRAYS = list(csv.DictReader(FILE.read_text(encoding="utf-8").splitlines()))
OF_CELLS = [row for row in TRAYS if row["cells_per_tray"].isdigit()]


def _range(text: str) -> tuple[float, float]:
    low, _, high = text.partition("-")
    return float(low), float(high or low)


@pytest.mark.parametrize("row", OF_CELLS, ids=lambda row: row["cells_per_tray"])
def test_cells_and_litres_of_a_tray_are_those_of_the_table(row):
    tray = c.tray_of(int(row["cells_per_tray"]))
    low, high = _range(row["cell_volume_ml"])
    assert low * 0.99 <= 1000 * tray.volume <= high * 1.01
    low, high = _range(row["media_l_per_tray"])
    assert low * 0.99 <= tray.volume * tray.per_tray <= high * 1.01
    assert tray.recalled is (row["seen"] == "memory")
    across, along = (float(part) / 100 for part in row["tray_cm"].split(" x "))
    assert c.tray_area() == pytest.approx(across * along)


def test_all_trays_of_the_table_are_there():
    assert [int(row["cells_per_tray"]) for row in OF_CELLS] == list(c.tray_sizes())


def test_cells_across_divide_the_tray():
    for one in c.shipped_containers().cells:
        assert one.cells % one.across == 0
        # cells are about square, but for those of the two coarsest trays, which come as packs of six
        assert one.cells // one.across == 2 * one.across or one.cells in (36, 48)


# EXT_GENERAL: a tray of 72 holds 2.5 to 3.5 l, one of 128 2 to 3 l; the trade says 3.19 to 4.25 and 2.73 to 3.15
@pytest.mark.parametrize(("cells", "low", "high"), [(72, 2.5, 4.25), (128, 2.0, 3.15)])
def test_litres_of_a_tray_lie_between_two_tables(cells, low, high):
    assert low <= c.tray_of(cells).volume * cells <= high


# Practitioners: blocks of 2 inches stand "5 rows of 10" in a tray, and 50 to a tray; of 1 1/2 inches 75
def test_blocks_in_a_tray_are_those_of_growers():
    assert c.blocks_of(0.0508).per_tray == 50
    assert c.blocks_of(0.05).per_tray == 50
    assert 75 <= c.blocks_of(0.0381).per_tray <= 78


# A grower reckons 1/2 to 2/3 cubic foot of mix for 900 blocks of 3/4 inch
def test_mix_of_blocks_is_what_a_grower_reckons():
    in_blocks = 900 * c.blocks_of(0.01905).volume
    assert 0.5 <= in_blocks * c.number_of(c.shipped_containers().blocks.loose) / 28.317 <= 2 / 3


def test_a_block_holds_its_own_volume():
    assert c.blocks_of(0.05).volume == pytest.approx(0.125)


# JEAVONS: 250 seedlings on 1 inch centres in a flat of 14 by 21 inches inside
def test_seedlings_of_a_seed_tray_are_as_thick_as_printed():
    tray = c.seed_tray()
    assert tray.per_tray / (0.254 * 0.508) == pytest.approx(250 / (0.3556 * 0.5334), rel=0.01)


# POTS_DEALER: 147 square pots of 4 inches from 3 cubic feet, 84.95 l; 1 l pots are 13 cm wide
@pytest.mark.parametrize(("width", "number", "litres"), [(0.102, 147, 84.95), (0.13, 10, 10.0)])
def test_mix_of_pots_is_printed(width, number, litres):
    assert number * c.pots_of(width).volume == pytest.approx(litres, rel=0.01)


def test_a_pot_between_two_sizes_has_a_volume_between_theirs():
    assert c.pots_of(0.09).volume < c.pots_of(0.095).volume < c.pots_of(0.102).volume


# -- the usual container ---------------------------------------------------------------------------


def usual(key: str) -> c.Choice:
    crop = load_catalogue().crops[key]
    return c.usual_container(crop, crop.number("seeds_per_gram"), crop.number("cell_width"))


#: UDEL_TRANSPLANTS, table of recommended trays; lettuce of three quarters of an inch is another source's.
@pytest.mark.parametrize(
    ("key", "printed"),
    [
        ("tomato", (50, 72, 128)), ("sweet_pepper", (72, 128)), ("aubergine", (50, 72, 128)),
        ("cucumber", (50, 72)), ("courgette", (50, 72)), ("melon", (50, 72)), ("watermelon", (50, 72)),
        ("onion", (288, 338)), ("broccoli", (72, 128)), ("cabbage", (72, 128)), ("cauliflower", (72, 128)),
    ],
)  # fmt: skip
def test_the_usual_tray_is_one_that_is_printed(key, printed):
    choice = usual(key)
    assert choice.container.per_tray in printed
    assert choice.source in load_catalogue().sources


def test_trays_named_in_the_notes_of_the_catalogue_are_found():
    """A note that says "trays of 50 or 72 cells" is of a width that gives one of them."""
    seen = 0
    for crop in load_catalogue().crops.values():
        figure = crop.cell_width
        named = re.search(r"trays of ([\d or]+) cells", figure.note or "") if figure is not None else None
        if named:
            seen += 1
            assert str(usual(crop.key).container.per_tray) in named[1].split(" or "), crop.key
    assert seen > 20


# USU: seeds a square foot; a tray of 10 by 20 inches is 1.389 square feet
@pytest.mark.parametrize(
    ("key", "per_foot"),
    [
        ("asparagus", 36),
        ("endive", 60),
        ("chinese_cabbage", 48),
        ("spinach", 70),
        ("cucumber", 36),
        ("tomato", 36),
    ],
)
def test_plants_on_a_square_foot_are_near_those_of_a_second_table(key, per_foot):
    assert usual(key).container.per_tray / 1.389 == pytest.approx(per_foot, rel=0.16)


def test_large_seed_goes_into_pots_and_small_seed_into_cells():
    for key in ("runner_bean", "broad_bean", "peanut"):
        assert usual(key).container.kind == "pots"
        assert usual(key).source == "practice"
    assert usual("sweet_corn").container.per_tray == usual("dwarf_bean").container.per_tray == 50
    assert usual("zinnia").container.per_tray == 72
    assert usual("basil").container.per_tray == 128


def test_every_crop_named_is_in_the_catalogue():
    named = [key for one in c.shipped_containers().usual for key in one.crops]
    assert set(named) <= set(load_catalogue().crops)
    assert len(named) == len(set(named))
    assert not [key for key in named if load_catalogue().crops[key].cell_width is not None]


def test_smaller_cells_follow_each_other():
    sizes, tray = [], c.tray_of(36)
    while tray is not None:
        sizes.append(tray.per_tray)
        tray = c.smaller(tray)
    assert sizes == list(c.tray_sizes())
    assert c.smaller(c.pots_of(0.09)) is None


def test_a_fault_in_the_file_is_named(tmp_path):
    (tmp_path / "raising.toml").write_text("[tray]\nlength = { value = 1 }\n")
    with pytest.raises(Exception, match=r"raising.toml, containers, tray.length: has no source key"):
        c.shipped_containers(tmp_path)
