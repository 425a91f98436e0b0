"""The light of structures: the shipped file against the publications it cites, and files that are broken."""

from __future__ import annotations

import csv
from pathlib import Path
from statistics import mean
from typing import get_args

import pytest
from making import catalogue_of, crop, write_catalogue
from pydantic import ValidationError

from planner.crops import CatalogueError, load_catalogue
from planner.crops.cautions import STRUCTURE_WORDS
from planner.crops.figures import ESTIMATE, PRACTICE
from planner.crops.structure_light import Material, Opacity, structure_light
from planner.garden import Structure
from planner.garden.beds import StructureKind

TABLES = Path(__file__).parent.parent / "reference"
JANUARY, JULY = 0, 6

SOURCES = '[book]\ntitle = "A book"\n'
CROPS = """
family = "Apiaceae"
[carrot]
name = "carrot"
latin = "Daucus carota"
life_cycle = "biennial"
growth_form = "root"
"""
ONE = '[{kind}]\nname = "solid"\nopacity = {{ value = 1, source = "book" }}\n'
GOOD = "".join(ONE.format(kind=kind) for kind in STRUCTURE_WORDS)
NET = '[tunnel.materials.net]\nname = "net"\nopacity = { value = 0.2, low = 0.1, high = 0.3, source = "book" }\n'


def table(name):
    with (TABLES / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def shelf(folder, text):
    write_catalogue(folder, SOURCES, apiaceae=CROPS)
    if text is not None:
        (folder / "structures.toml").write_text(text, encoding="utf-8")
    return load_catalogue(folder)


def every_material(catalogue) -> dict[str, Material]:
    """All materials by ``kind`` or ``kind.key``."""
    found = {}
    for kind, structure in structure_light(catalogue).items():
        found[kind] = structure
        found |= {f"{kind}.{key}": material for key, material in structure.materials.items()}
    return found


def blocked(row, column) -> float | None:
    """Share blocked, of a row that prints the share let through or blocked in per cent."""
    if not row[column]:
        return None
    share = float(row[column]) / 100
    return round(1 - share if row["what"] == "transmitted" else share, 6)


def readings(opacity: Opacity) -> set[tuple[str, float | None, float | None]]:
    """Source, least and most of each reading that is one number for the year."""
    found = set()
    for one in (opacity, *opacity.other):
        if not one.value or len(one.value) == 1:
            low, high = one.low or one.value, one.high or one.value
            found.add((one.source, low[0] if low else None, high[0] if high else None))
    return found


def test_every_kind_of_structure_has_its_light(catalogue):
    assert tuple(sorted(structure_light(catalogue))) == tuple(sorted(get_args(StructureKind)))


def test_every_figure_has_a_source_that_is_listed(catalogue):
    for place, material in every_material(catalogue).items():
        for one in (material.opacity, *material.opacity.other):
            assert one.source in (*catalogue.sources, PRACTICE, ESTIMATE), place
        if material.opacity.source in (PRACTICE, ESTIMATE):
            assert material.opacity.note, place


def test_a_structure_of_a_garden_takes_every_opacity(catalogue):
    outline = {"shape": "rectangle", "length": 4.0, "width": 3.0}
    for material in every_material(catalogue).values():
        for southern in (False, True):
            opacity = material.opacity.for_garden(southern)
            structure = Structure.model_validate(
                {"id": "s1", "kind": "shed", "outline": outline, "height": 2.0, "opacity": opacity}
            )
            assert structure.opacity == opacity


def test_covers_and_nets_are_as_the_publications_print_them(catalogue):
    materials = every_material(catalogue)
    rows = table("light_transmission")
    assert len(rows) >= 15
    for row in rows:
        least, most = sorted(
            (blocked(row, "least"), blocked(row, "most")), key=lambda n: -1 if n is None else n
        )
        for place in row["materials"].split():
            found = readings(materials[place].opacity)
            if least is None:  # "up to": the other end is unknown
                assert any(source == row["source"] and low == most for source, low, _ in found), row
            else:
                assert (row["source"], least, most) in found, row


def test_the_crown_of_a_deciduous_tree_is_the_mean_of_those_measured(catalogue):
    opacity = structure_light(catalogue)["tree"].opacity
    crowns = [row for row in table("tree_crowns") if row["source"] == "wilkinson1992"]
    deciduous = [row for row in crowns if row["leaves"] == "deciduous"]
    assert len(deciduous) == 10
    for month, column in ((JANUARY, "bare"), (JULY, "in_leaf")):
        shares = [1 - float(row[column]) for row in deciduous]
        assert opacity.value[month] == pytest.approx(mean(shares), abs=0.005)
        assert (opacity.low[month], opacity.high[month]) == pytest.approx((min(shares), max(shares)))


@pytest.mark.parametrize(
    ("kind", "key", "crown"),
    [
        ("tree", "evergreen", "Scots pine"),
        ("tree", "light_crown", "honey locust"),
        ("hedge", "deciduous", "hawthorn"),
    ],
)
def test_single_crowns_are_as_the_publications_print_them(catalogue, kind, key, crown):
    opacity = structure_light(catalogue)[kind].materials[key].opacity
    (row,) = (row for row in table("tree_crowns") if row["kind"] == crown)
    assert opacity.source == row["source"]
    for month, column in ((JANUARY, "bare"), (JULY, "in_leaf")):
        share = float(row[column])
        assert opacity.value[month] == pytest.approx(1 - share if row["unit"] == "transmitted" else share)


def test_other_readings_of_trees_are_the_least_and_most_of_their_table(catalogue):
    found = readings(structure_light(catalogue)["tree"].opacity)
    crowns = [row for row in table("tree_crowns") if row["source"] == "gardner1984"]
    for column in ("in_leaf", "bare"):
        shares = [float(row[column]) for row in crowns]
        assert ("gardner1984", min(shares), max(shares)) in found


def test_leaves_hold_back_more_than_bare_branches(catalogue):
    monthly = {
        place: one.opacity.value
        for place, one in every_material(catalogue).items()
        if len(one.opacity.value) == 12
    }
    assert {"tree", "tree.light_crown", "hedge.deciduous", "arch.leafy_frame", "tunnel.leafy_frame"} <= set(
        monthly
    )
    for place, value in monthly.items():
        assert value[JULY] > value[JANUARY], place
        assert max(value) == value[JULY], place


def test_the_covers_of_tunnels_and_glasshouses_let_most_of_the_sun_through(catalogue):
    found = structure_light(catalogue)
    for kind in ("tunnel", "glasshouse"):
        assert found[kind].opacity.value[0] <= 0.15
    assert found["arch"].opacity.value[0] <= 0.1
    for kind in ("wall", "shed", "other"):
        assert found[kind].opacity.value == (1.0,)


def test_in_the_south_the_seasons_come_half_a_year_later(catalogue):
    tree = structure_light(catalogue)["tree"].opacity
    north, south = tree.for_garden(False), tree.for_garden(True)
    assert north == tree.value
    assert [south[(month + 6) % 12] for month in range(12)] == list(north)
    wall = structure_light(catalogue)["wall"].opacity
    assert wall.for_garden(True) == wall.for_garden(False) == (1.0,)


def test_a_frame_holds_back_its_share_besides_its_cover(catalogue):
    found = structure_light(catalogue)
    assert found["tunnel"].held_back("", False) == pytest.approx((1 - 0.90 * 0.95,), abs=0.005)
    assert found["glasshouse"].held_back("double_glass", True) == pytest.approx((1 - 0.77 * 0.90,), abs=0.005)
    for kind, key in (
        ("tunnel", "bare_frame"),
        ("tunnel", "leafy_frame"),
        ("glasshouse", "bare_frame"),
        ("tree", ""),
    ):
        assert found[kind].frame_of(key) is None
        assert found[kind].held_back(key, False) == found[kind].material(key).opacity.value
    assert found["tunnel"].held_back("straw", False) == found["tunnel"].held_back("", False)


def test_a_catalogue_put_together_by_hand_has_the_shipped_light(catalogue):
    assert structure_light(catalogue_of(crop("potato"))) == structure_light(catalogue)


@pytest.mark.parametrize(
    ("value", "low", "high"),
    [
        ((0.5,), (0.6,), (0.7,)),
        ((0.5,) * 12, (), (0.5,) * 11 + (0.4,)),
        ((0.2,) * 3, (), ()),
        ((1.2,), (), ()),
    ],
)
def test_impossible_opacities_are_refused(value, low, high):
    with pytest.raises(ValidationError):
        Opacity(value=value, low=low, high=high, source="book")


def test_a_good_file_is_read_once(tmp_path):
    found = shelf(tmp_path, GOOD + NET)
    assert structure_light(found) is structure_light(found)
    net = structure_light(found)["tunnel"].materials["net"]
    assert (net.name, net.opacity.value, net.opacity.low, net.opacity.high) == ("net", (0.2,), (0.1,), (0.3,))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (None, "structures.toml: is missing"),
        ("[wall\n", "structures.toml: is not TOML"),
        (GOOD.replace(ONE.format(kind="arch"), ""), "structures.toml, arch: is missing"),
        ("wall = 1\n" + GOOD.replace(ONE.format(kind="wall"), ""), "structures.toml, wall: must be a table"),
        (GOOD + ONE.format(kind="bower"), "structures.toml, bower, the structure: 'bower' is none of wall, "),
        (GOOD.replace('"book"', '"bok"', 1), "structures.toml, wall, opacity: unknown source key 'bok'"),
        (
            GOOD + NET.replace('"book"', '"bok"'),
            "structures.toml, tunnel, materials.net.opacity: unknown source key",
        ),
        (
            GOOD + NET.replace("0.2", "0.4"),
            "structures.toml, tunnel, materials.net.opacity: month 1: 0.4 is outside",
        ),
        (GOOD + NET.replace("0.2", "[0.2, 0.2]"), "materials.net.opacity.value: needs one number, or 12"),
        (GOOD + NET.replace(', source = "book"', ""), "materials.net.opacity: has no source key"),
        (GOOD + NET.replace("value = 0.2, ", ""), "materials.net.opacity: has no value"),
        (
            GOOD.replace("[tunnel]\n", '[tunnel]\nframe = "hoops"\n'),
            "structures.toml, tunnel, the structure: the frame 'hoops' is none of its materials",
        ),
        (GOOD + NET + "colour = 1\n", "structures.toml, tunnel, materials.net.colour: Extra inputs"),
    ],
)
def test_faults_are_named_by_file_kind_and_field(tmp_path, text, words):
    found = shelf(tmp_path, text)
    with pytest.raises(CatalogueError) as caught:
        structure_light(found)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)
