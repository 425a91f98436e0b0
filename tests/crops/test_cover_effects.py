"""Effects of covers and shelters: the shipped file against what was measured, sums of several, and broken files."""

from __future__ import annotations

import csv
from pathlib import Path
from typing import get_args

import pytest
from making import write_catalogue

from planner.crops import CatalogueError, Figure
from planner.crops.cover_effects import (
    GLASS_WORDS,
    KINDS,
    OPEN,
    SEASONS,
    cover_figures,
    effect,
    together,
)
from planner.crops.figures import ESTIMATE, PRACTICE
from planner.garden.planting import GUARDS, CoverKind

TABLE = Path(__file__).parent.parent / "reference" / "cover_gain.csv"
#: Rounding of the table's conversions from Fahrenheit. [deg C]
ROUNDED = 0.051

SOURCES = '[book]\ntitle = "A book"\n'
CROPS = """
family = "Apiaceae"
[carrot]
name = "carrot"
latin = "Daucus carota"
life_cycle = "biennial"
growth_form = "root"
"""
_FIGURE = '{ value = 1.0, source = "book" }'


def one_kind(kind: str) -> str:
    """A cover's table with the same figure everywhere."""
    lines = [f'["{kind}"]', 'name = "a cover"']
    lines += [f"{field} = {_FIGURE}" for field in ("soil_gain", "frost_gain", "light")]
    for field in ("maximum_gain", "minimum_gain"):
        lines += [f'["{kind}".{field}]', *(f"{season} = {_FIGURE}" for season in SEASONS)]
    return "\n".join(lines) + "\n"


GOOD = "".join(one_kind(kind) for kind in KINDS)


def rows() -> list[dict[str, str]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def row_of(cover: str, measure: str) -> float:
    """The one number of a row."""
    (row,) = (one for one in rows() if one["cover"] == cover and one["measure"] == measure)
    assert row["least"] == row["most"]
    return float(row["least"])


def readings(figure: Figure, source: str) -> list[tuple[float, float]]:
    """Least and most of each reading of a source."""
    found = []
    for one in (figure, *figure.other):
        if one.source == source:
            numbers = [number for number in (one.value, one.low, one.high) if number is not None]
            found.append((min(numbers), max(numbers)))
    return found


def test_every_kind_of_cover_and_shelter_has_its_effect():
    assert tuple(cover_figures()) == KINDS
    assert set(get_args(CoverKind)) - set(GUARDS) == set(get_args(CoverKind)) & set(KINDS)


def test_every_figure_has_a_source_that_is_listed(catalogue):
    for kind, one in cover_figures().items():
        for field, figure in one.figures():
            for reading in (figure, *figure.other):
                assert reading.source in (*catalogue.sources, PRACTICE, ESTIMATE), (kind, field)
            if figure.source != ESTIMATE and figure.basis in ("chosen", "derived"):
                assert figure.low is not None or figure.note, (kind, field)


def test_figures_are_as_the_publications_print_them():
    """A row lies within a reading of its source; what was recalled is marked so."""
    tried = 0
    for row in rows():
        least, most = float(row["least"]), float(row["most"])
        if row["unit"] == "%":
            least, most = least / 100, most / 100
        for place in filter(None, (part.strip() for part in row["figures"].split(";"))):
            kind, field = place.split(".", 1)
            figure = dict(cover_figures()[kind].figures())[field]
            within = [
                (low, high)
                for low, high in readings(figure, row["source"])
                if low - ROUNDED <= least and most <= high + ROUNDED
            ]
            assert within, (place, row)
            if row["seen"] == "memory":
                recalled = {one.source: one.recalled for one in (figure, *figure.other)}
                assert recalled[row["source"]], (place, row)
            tried += 1
    assert tried >= 45


def test_a_figure_that_names_a_measured_row_leaves_no_row_of_its_table_out():
    """Gains of the shipped file that cite a source of the table are named by a row of it."""
    table = {row["source"] for row in rows() if row["figures"]}
    named = {
        (row["source"], place.strip())
        for row in rows()
        for place in row["figures"].split(";")
        if place.strip()
    }
    for kind, one in cover_figures().items():
        for field, figure in one.figures():
            if figure.source in table:
                if kind == "film" and field == "frost_gain":
                    continue  # from the mean minimum, as its note says
                if (kind, field) == ("low tunnel", "maximum_gain.spring"):
                    assert figure.basis == "derived"
                assert (figure.source, f"{kind}.{field}") in named, (kind, field)


def test_the_mean_gain_under_perforated_film_is_the_measured_one():
    film = effect("low tunnel")
    mean = (film.maximum_gain[1] + film.minimum_gain[1]) / 2
    assert mean == pytest.approx(
        row_of("perforated film, one layer", "gain of mean air temperature"), abs=0.3
    )


@pytest.mark.parametrize(
    ("measure", "number", "margin"),
    [
        ("gain of mean air temperature", lambda two: (two.maximum_gain[1] + two.minimum_gain[1]) / 2, 0.5),
        ("frost protection", lambda two: two.frost_gain, 0.0),
        ("gain of soil temperature at 10 cm", lambda two: two.soil_gain, 0.5),
    ],
)
def test_two_films_do_twice_as_much_as_one(measure, number, margin):
    """Measured with one and two sheets in Germany: gains add up."""
    two = together([effect("low tunnel")] * 2)
    assert number(two) == pytest.approx(row_of("perforated film, two layers", measure), abs=margin)


def test_nothing_changes_nothing():
    assert together([]) == OPEN


def test_light_is_let_through_by_one_after_the_other():
    both = together([effect("glasshouse"), effect("fleece")])
    assert both.light == pytest.approx(0.90 * 0.85)
    assert both.maximum_gain[1] == pytest.approx(5.0 + 3.9)


@pytest.mark.parametrize("glass", GLASS_WORDS)
@pytest.mark.parametrize("cover", ["fleece", "low tunnel", "cloche"])
def test_a_cover_within_glass_holds_more_warmth_at_night_than_in_the_open(glass, cover):
    alone, house, both = (
        together(effect(kind) for kind in kinds) for kinds in ((cover,), (glass,), (glass, cover))
    )
    inside = effect(cover).inside_glass
    for season in (0, 1, 3):
        assert both.minimum_gain[season] == pytest.approx(house.minimum_gain[season] + inside)
        assert both.minimum_gain[season] > house.minimum_gain[season] + alone.minimum_gain[season]
    assert both.minimum_gain[2] == pytest.approx(house.minimum_gain[2] + alone.minimum_gain[2])
    assert both.frost_gain == pytest.approx(house.frost_gain + inside)


def test_a_cover_at_a_wall_is_in_the_open():
    wall, fleece = effect("south wall"), effect("fleece")
    both = together([wall, fleece])
    assert both.frost_gain == pytest.approx(wall.frost_gain + fleece.frost_gain)


def test_shelters_warm_more_than_nets_and_are_opened_in_summer():
    for kind in ("glasshouse", "tunnel", "cold frame"):
        _, spring, summer, _ = effect(kind).maximum_gain
        assert spring > effect("netting").maximum_gain[1] + 2
        assert summer < spring


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (None, "cover_effects.toml: is missing"),
        ("[fleece\n", "cover_effects.toml: is not TOML"),
        (GOOD.replace(one_kind("film"), ""), "cover_effects.toml, film: is missing"),
        (
            "film = 1\n" + GOOD.replace(one_kind("film"), ""),
            "cover_effects.toml, film: must be a table",
        ),
        (GOOD + one_kind("tent"), "cover_effects.toml, tent, the cover: 'tent' is none of fleece, "),
        (
            GOOD.replace('"book"', '"bok"', 1),
            "cover_effects.toml, fleece, soil_gain: unknown source key 'bok'",
        ),
        (
            GOOD.replace("winter = { value = 1.0", "winter = { value = 40.0", 1),
            "cover_effects.toml, fleece, maximum_gain.winter: 40 is outside -5 to 15 deg C",
        ),
        (
            GOOD.replace("light = { value = 1.0", "light = { value = 1.1", 1),
            "fleece, light: 1.1 is outside 0 to 1",
        ),
        (
            GOOD.replace(
                'light = { value = 1.0, source = "book"', 'light = { applies = false, note = "x"', 1
            ),
            "fleece, light: has no value",
        ),
        (GOOD.replace(f"summer = {_FIGURE}\n", "", 1), "fleece, maximum_gain.summer: Field required"),
    ],
)
def test_faults_are_named_by_file_kind_and_field(tmp_path, text, words):
    write_catalogue(tmp_path, SOURCES, apiaceae=CROPS)
    if text is not None:
        (tmp_path / "cover_effects.toml").write_text(text, encoding="utf-8")
    with pytest.raises(CatalogueError) as caught:
        cover_figures(tmp_path)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_good_file_is_read_once(tmp_path):
    write_catalogue(tmp_path, SOURCES, apiaceae=CROPS)
    (tmp_path / "cover_effects.toml").write_text(GOOD, encoding="utf-8")
    assert cover_figures(tmp_path) is cover_figures(tmp_path)
    assert together([cover_figures(tmp_path)["film"].effect]).frost_gain == 1.0
