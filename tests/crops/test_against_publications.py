"""The catalogue against the tables of the publications it cites (``tests/reference``).

Each table names in its column ``crops`` the crops that a row speaks of; the rest is as printed.
A figure that leaves what its source prints must say why in a note.
"""

from __future__ import annotations

import csv
import math
import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from planner.crops import Catalogue, Crop, Figure

TABLES = Path(__file__).parent.parent / "reference"
#: Half a degree of rounding where a table prints both Fahrenheit and Celsius. [deg C]
ROUNDED = 0.56
#: A figure in metres may be rounded from feet and inches by as much.
LENGTH_ROUNDED = 0.02


def table(name: str) -> list[dict[str, str]]:
    with (TABLES / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def rows_by_crop(name: str) -> dict[tuple[str, str], list[dict[str, str]]]:
    """Rows by crop and source."""
    found = defaultdict(list)
    for row in table(name):
        for key in row["crops"].split():
            found[key, row["source"]].append(row)
    return found


def pairs(catalogue: Catalogue, name: str) -> Iterator[tuple[Crop, dict[str, str]]]:
    for row in table(name):
        for key in row["crops"].split():
            yield catalogue.crops[key], row


def cited(catalogue: Catalogue, field: str, *sources: str) -> Iterator[tuple[Crop, Figure]]:
    """Crops whose figure was read in one of these sources."""
    for crop in catalogue.crops.values():
        figure = getattr(crop, field)
        if figure is not None and figure.applies and not figure.recalled and figure.source in sources:
            yield crop, figure


def says(figure: Figure | None, source: str, value: float, tolerance: float) -> bool:
    """Whether a figure gives this value by this source, as its own or as another reading."""
    if figure is None:
        return False
    readings = [(figure.source, figure.value, figure.low, figure.high)]
    readings += [(other.source, other.value, other.low, other.high) for other in figure.other]
    return any(
        key == source and any(n is not None and math.isclose(n, value, abs_tol=tolerance) for n in numbers)
        for key, *numbers in readings
    )


TABLE_NAMES = [
    "base_temperatures", "bed_spacing", "day_length_and_bolting", "days_to_emergence", "germination_standards", "hardiness",
    "heat_to_harvest", "heights", "isolation", "normal_seedlings", "seed_counts", "soil_temperatures",
]  # fmt: skip


@pytest.mark.parametrize("name", TABLE_NAMES)
def test_tables_name_crops_and_sources_of_the_catalogue(catalogue, name):
    rows = table(name)
    assert len(rows) > 10
    for row in rows:
        assert row["source"] in catalogue.sources, row["kind"]
        assert all(key in catalogue.crops for key in row["crops"].split()), row["kind"]


# -- germination -------------------------------------------------------------------------------


def test_germination_standards_equal_the_regulation_for_every_crop_in_it(catalogue):
    wrong = [
        f"{crop.key}: {crop.germination} is not {row['percent']} %"
        for crop, row in pairs(catalogue, "germination_standards")
        if row["source"] == "cfr201_31"
        and not (
            crop.germination.source == "cfr201_31" and crop.germination.value == int(row["percent"]) / 100
        )
    ]
    assert wrong == []


@pytest.mark.parametrize("source", ["cfr201_31", "nhagr2203"])
def test_a_germination_standard_is_in_the_table_it_cites(catalogue, source):
    rows = rows_by_crop("germination_standards")
    wrong = []
    for crop, figure in cited(catalogue, "germination", source):
        printed = {int(row["percent"]) / 100 for row in rows[crop.key, source]}
        if figure.value not in printed and not figure.note:
            wrong.append(f"{crop.key}: {figure.value} by {source}, which prints {printed or 'no such kind'}")
    assert wrong == []


# -- warmth ------------------------------------------------------------------------------------


@pytest.mark.parametrize("which", ["least", "best", "most"])
def test_soil_temperatures_equal_the_published_ones(catalogue, which):
    wrong = []
    for crop, row in pairs(catalogue, "soil_temperatures"):
        if row[which]:
            figure = getattr(crop, f"soil_{which}")
            if not says(figure, row["source"], float(row[which]), ROUNDED):
                wrong.append(f"{crop.key}: {figure} is not {row[which]}")
    assert wrong == []


@pytest.mark.parametrize("which", ["least", "best", "most"])
def test_a_soil_temperature_is_in_the_table_it_cites(catalogue, which):
    rows = rows_by_crop("soil_temperatures")
    wrong = []
    for crop, figure in cited(catalogue, f"soil_{which}", "unl_g2090"):
        printed = [float(row[which]) for row in rows[crop.key, "unl_g2090"] if row[which]]
        if not any(abs(figure.value - n) <= ROUNDED for n in printed) and not figure.note:
            wrong.append(f"{crop.key}: {figure.value} is not in {printed}")
    assert wrong == []


@pytest.mark.parametrize(
    ("name", "field", "unit"),
    [("days_to_emergence", "emergence_days", 1), ("normal_seedlings", "normal_seedlings", 0.01)],
)
def test_series_over_soil_temperature_equal_the_published_ones(catalogue, name, field, unit):
    wrong = []
    for crop, row in pairs(catalogue, name):
        cells = {float(t): cell for t, cell in row.items() if t.isdigit() and cell}
        printed = {t: 0.0 if cell == "NG" else round(float(cell) * unit, 9) for t, cell in cells.items()}
        series = getattr(crop, field)
        ours = {}
        if series is not None and series.source == row["source"]:
            ours = {**dict.fromkeys(series.none_at, 0.0), **{t: round(value, 9) for t, value in series.at}}
        if ours != printed:
            wrong.append(f"{crop.key}: {ours} is not {printed}")
    assert wrong == []


@pytest.mark.parametrize(
    ("name", "field"), [("days_to_emergence", "emergence_days"), ("normal_seedlings", "normal_seedlings")]
)
def test_a_series_is_in_the_table_it_cites(catalogue, name, field):
    rows = rows_by_crop(name)
    source = table(name)[0]["source"]
    wrong = [
        crop.key
        for crop, series in cited(catalogue, field, source)
        if not rows[crop.key, source] and not series.note
    ]
    assert wrong == []


# -- size --------------------------------------------------------------------------------------


def test_heights_are_within_the_maxima_they_cite(catalogue):
    rows = rows_by_crop("heights")
    wrong = []
    for crop, figure in cited(catalogue, "height", "fao56"):
        most = max((float(row["most_metres"]) for row in rows[crop.key, "fao56"]), default=0.0)
        if figure.value > most + LENGTH_ROUNDED and not figure.note:
            wrong.append(f"{crop.key}: {figure.value} m is above {most} m")
    assert wrong == []


def test_other_readings_of_height_are_the_maxima_as_printed(catalogue):
    rows = rows_by_crop("heights")
    wrong = []
    for crop in catalogue.crops.values():
        for reading in crop.height.other if crop.height is not None else ():
            printed = [float(row["most_metres"]) for row in rows[crop.key, reading.source]]
            numbers = [n for n in (reading.value, reading.low, reading.high) if n is not None]
            if printed and not reading.note and not all(n in printed for n in numbers):
                wrong.append(f"{crop.key}: {numbers} is not in {printed}")
    assert wrong == []


# -- seed --------------------------------------------------------------------------------------


@pytest.mark.parametrize("source", ["unl_g2090", "tsw2022"])
def test_seed_counts_are_within_their_sources_range(catalogue, source):
    rows = rows_by_crop("seed_counts")
    wrong = []
    for crop, figure in cited(catalogue, "seeds_per_gram", source):
        ranges = [(float(row["least"]), float(row["most"])) for row in rows[crop.key, source]]
        if not any(low * 0.995 <= figure.value <= high * 1.005 for low, high in ranges) and not figure.note:
            wrong.append(f"{crop.key}: {figure.value} is not within {ranges}")
    assert wrong == []


def test_the_handbooks_seed_count_is_given_for_every_crop_in_it(catalogue):
    wrong = []
    for crop, row in pairs(catalogue, "seed_counts"):
        if row["source"] == "unl_g2090":
            figure = crop.seeds_per_gram
            sources = {figure.source, *(other.source for other in figure.other)}
            if "unl_g2090" not in sources and not figure.note:
                wrong.append(crop.key)
    assert wrong == []


def test_isolation_distances_are_within_the_published_ranges(catalogue):
    rows = rows_by_crop("isolation")
    wrong = []
    for crop in catalogue.crops.values():
        figure = crop.isolation
        for row in rows[crop.key, figure.source] if figure is not None and figure.applies else ():
            low, high = float(row["least_metres"]), float(row["most_metres"])
            if not low - 0.5 <= figure.value <= high + 0.5 and not figure.note:
                wrong.append(f"{crop.key}: {figure.value} m is not within {low} to {high}")
    assert wrong == []


def test_least_numbers_of_seed_plants_are_the_published_ones(catalogue):
    rows = rows_by_crop("isolation")
    wrong = []
    for crop, figure in cited(catalogue, "seed_plants", "seedchart"):
        printed = [float(row["least_plants"]) for row in rows[crop.key, "seedchart"] if row["least_plants"]]
        if figure.value not in printed and not figure.note:
            wrong.append(f"{crop.key}: {figure.value} is not in {printed}")
    assert wrong == []


# -- beds --------------------------------------------------------------------------------------


def printed_span(row: dict[str, str], least: str = "least", most: str = "most") -> tuple[float, float]:
    """Least and most distance of a row. [m]"""
    metres = {"in": 0.0254, "cm": 0.01}[row["unit"]]
    return round(float(row[least]) * metres, 6), round(float(row[most]) * metres, 6)


def read_spans(figure: Figure | None, with_others: bool = True) -> set[tuple[str, float, float]]:
    """Source, least and most of all that was read for a figure; a single number is both. [m]"""
    if figure is None or not figure.applies:
        return set()
    readings = [figure, *(figure.other if with_others else ())]
    return {
        (one.source, one.value if one.low is None else one.low, one.value if one.high is None else one.high)
        for one in readings
        if not one.recalled
    }


def test_the_spacing_of_beds_is_given_for_every_crop_in_a_table(catalogue):
    wrong = [
        f"{crop.key}: {row['kind']} by {row['source']} is not among {read_spans(crop.bed_spacing)}"
        for crop, row in pairs(catalogue, "bed_spacing")
        if (row["source"], *printed_span(row)) not in read_spans(crop.bed_spacing)
    ]
    assert wrong == []
    assert len({key for row in table("bed_spacing") for key in row["crops"].split()}) >= 80


def test_every_spacing_of_beds_that_was_read_stands_in_a_table(catalogue):
    rows = rows_by_crop("bed_spacing")
    wrong = []
    for crop in catalogue.crops.values():
        for source, *span in read_spans(crop.bed_spacing):
            if tuple(span) not in {printed_span(row) for row in rows[crop.key, source]}:
                wrong.append(f"{crop.key}: {span} by {source}")
    assert wrong == []


def test_rows_of_a_bed_are_as_far_apart_as_the_source_of_its_spacing_says(catalogue):
    wrong = []
    for crop, row in pairs(catalogue, "bed_spacing"):
        if (row["source"], *printed_span(row)) not in read_spans(crop.bed_spacing, with_others=False):
            continue
        rows = printed_span(row, "rows_least", "rows_most") if row["rows_least"] else None
        expected = {(row["source"], *rows)} if rows is not None and rows != printed_span(row) else set()
        if read_spans(crop.bed_row_spacing) != expected:
            wrong.append(f"{crop.key}: {crop.bed_row_spacing} is not {expected}")
    assert wrong == []


def test_the_middle_of_a_printed_range_is_the_spacing_of_a_bed(catalogue):
    given = 0
    for crop in catalogue.crops.values():
        for figure in (crop.bed_spacing, crop.bed_row_spacing):
            if figure is None or not figure.applies:
                continue
            given += 1
            if figure.low is not None and figure.high is not None and not figure.note:
                assert figure.value == pytest.approx((figure.low + figure.high) / 2, abs=1e-6), crop.key
    assert given >= 80
    assert all(crop.bed_spacing is not None for crop in catalogue.crops.values() if crop.bed_row_spacing)


@pytest.mark.parametrize(
    ("key", "least", "most"),
    [
        ("cabbage", 15, 18), ("broccoli", 12, 18), ("carrot", 2, 3), ("beetroot", 2, 4), ("onion", 2, 4),
        ("leek", 3, 6), ("spinach", 4, 6), ("kale", 15, 18), ("tomato", 18, 24), ("potato", 10, 12),
        ("pea", 2, 4), ("dwarf_bean", 4, 6), ("sweet_corn", 15, 18), ("winter_squash", 24, 36),
    ],
)  # fmt: skip
def test_the_handbook_of_intensive_gardening_comes_first(catalogue, key, least, most):
    figure = catalogue.crops[key].bed_spacing
    assert figure.source == "az_intensive"
    assert (figure.low, figure.high) == pytest.approx((least * 0.0254, most * 0.0254))


# -- season ------------------------------------------------------------------------------------


def test_hardiness_classes_are_the_published_ones(catalogue):
    wrong = []
    for crop, row in pairs(catalogue, "hardiness"):
        fact = crop.hardiness
        if fact is None or (fact.value != row["class"] and not fact.note):
            wrong.append(f"{crop.key}: {fact} is not {row['class']}")
    assert wrong == []


@pytest.mark.parametrize("field", ["sow_from", "set_out_from"])
def test_windows_are_within_the_weeks_of_the_class_they_cite(catalogue, field):
    weeks = {
        row["class"]: (float(row["least_weeks"]), float(row["most_weeks"])) for row in table("hardiness")
    }
    wrong = []
    for crop, figure in cited(catalogue, field, "uiuc_when2021", "uiuc_hentschel2015"):
        low, high = weeks[crop.hardiness.value]
        if not low <= figure.value <= high and not figure.note:
            wrong.append(f"{crop.key}: {figure.value} is not within {low:g} to {high:g} weeks")
    assert wrong == []


# -- the rule itself ---------------------------------------------------------------------------


def test_no_figure_leaves_its_sources_range_without_a_note(catalogue):
    wrong = []
    for crop in catalogue.crops.values():
        for name, figure in crop.entries():
            if isinstance(figure, Figure) and figure.value is not None:
                low = figure.value if figure.low is None else figure.low
                high = figure.value if figure.high is None else figure.high
                if not low - 1e-9 <= figure.value <= high + 1e-9 and not figure.note:
                    wrong.append(f"{crop.key}, {name}")
    assert wrong == []


# -- development ---------------------------------------------------------------------------------

#: Columns of the table of temperatures that a figure may rest on.  A sum of degree-days that is counted up to an upper
#: temperature prints it as that; it is the one from which nothing goes faster.
DEVELOPMENT = {
    "base_temperature": ("base_c",),
    "best_temperature": ("optimum_c", "ceiling_c"),
    "ceiling_temperature": ("ceiling_c",),
}


def numbers_of(cell: str) -> list[float]:
    """Numbers of a cell: ``18-28``, ``8 or more``, ``-0.98``."""
    return [float(found) for found in re.findall(r"(?<![\d.])-?\d+(?:\.\d+)?", cell)]


def printed(row: dict[str, str], columns: tuple[str, ...]) -> list[float]:
    """What a row prints in the first of some columns that it fills."""
    return next((numbers for column in columns if (numbers := numbers_of(row[column]))), [])


@pytest.mark.parametrize("field", DEVELOPMENT)
def test_temperatures_of_development_are_those_of_the_papers_that_are_cited(catalogue, field):
    """What is printed is one of the source's numbers; what was chosen between several lies between them."""
    rows, sources = rows_by_crop("base_temperatures"), {row["source"] for row in table("base_temperatures")}
    wrong, told = [], 0
    for crop, figure in cited(catalogue, field, *sources):
        if figure.basis not in ("printed", "chosen"):
            continue
        found = [
            n for row in rows.get((crop.key, figure.source), ()) for n in printed(row, DEVELOPMENT[field])
        ]
        told += 1
        if not found:
            wrong.append(f"{crop.key}: no row of {figure.source}")
        elif figure.basis == "printed" and figure.value not in found:
            wrong.append(f"{crop.key}: {figure.value} is none of {found} of {figure.source}")
        elif not all(
            min(found) <= n <= max(found) for n in (figure.value, figure.low, figure.high) if n is not None
        ):
            wrong.append(f"{crop.key}: {figure} is outside {found} of {figure.source}")
    assert told >= (6 if field == "ceiling_temperature" else 15)
    assert wrong == []


@pytest.mark.parametrize("field", DEVELOPMENT)
def test_what_other_papers_say_of_temperatures_is_what_they_print(catalogue, field):
    """Of a source with several rows any of them; what a book says of germination is not held against what it says of
    growth elsewhere."""
    rows, told, wrong = rows_by_crop("base_temperatures"), 0, []
    for crop in catalogue.crops.values():
        figure = getattr(crop, field)
        for other in figure.other if figure is not None else ():
            of_source = rows.get((crop.key, other.source), ())
            found = [n for row in of_source for n in printed(row, DEVELOPMENT[field])]
            if not found or (
                other.note and all(row["stage"].startswith("germination (") for row in of_source)
            ):
                continue
            told += 1
            if not all(n in found for n in (other.value, other.low, other.high) if n is not None):
                wrong.append(
                    f"{crop.key}: {other.value, other.low, other.high} is not {found} of {other.source}"
                )
    assert told >= (1 if field == "ceiling_temperature" else 20)
    assert wrong == []


def test_sums_of_heat_are_those_of_the_papers_that_are_cited(catalogue):
    """A sum stands with the base it was counted over; potatoes have the mean of both sets of their source."""
    rows = rows_by_crop("heat_to_harvest")
    potato = catalogue.crops["potato"]
    sets = rows["potato", "aquacrop"]
    assert [int(row["heat_sum_cd"]) for row in sets] == [
        potato.heat_to_harvest.low,
        potato.heat_to_harvest.high,
    ]
    assert potato.number("heat_to_harvest") == pytest.approx(
        np.mean([int(row["heat_sum_cd"]) for row in sets]), abs=0.5
    )
    assert {(float(row["base_c"]), float(row["ceiling_c"])) for row in sets} == {
        (potato.number("base_temperature"), potato.number("best_temperature"))
    }
    corn = catalogue.crops["sweet_corn"]
    assert (corn.heat_to_harvest.low, corn.heat_to_harvest.high) == (1134, 1279)  # brooking1989, over 6 °C
    assert corn.heat_to_harvest.low < corn.number("heat_to_harvest") < corn.heat_to_harvest.high
    assert corn.number("base_temperature") == 6
    assert corn.number("best_temperature") == pytest.approx((86 - 32) / 1.8)
    for row in table("heat_to_harvest"):
        if row["crops"] and row["source"] == "ext_general":
            low, high = numbers_of(row["heat_sum_cd"].replace("-", " "))
            assert says(corn.heat_to_harvest, "ext_general", low, 0.5) or row["variety_class"] == "late"
            fahrenheit = numbers_of(row["heat_sum_original"].replace("-", " "))[:2]
            assert [low, high] == pytest.approx([n / 1.8 for n in fahrenheit], abs=7), row  # rounded to tens


def test_every_published_sum_stands_with_its_own_base(catalogue):
    """A sum is worth nothing over another base: both are of one source, or the base's own note says why not."""
    for crop in catalogue.crops.values():
        heat = crop.heat_to_harvest
        if heat is not None and heat.value is not None:
            assert crop.base_temperature is not None, crop.key
            assert crop.base_temperature.source == heat.source or crop.base_temperature.note, crop.key


def test_bulbs_and_bolting_are_those_of_the_papers_that_are_cited(catalogue):
    rows = rows_by_crop("day_length_and_bolting")
    onion = catalogue.crops["onion"].day_length_to_bulb
    (long_day,) = rows["onion", "osu_onion2006"]
    assert [onion.value] == numbers_of(long_day["class_or_value"])
    carrot = catalogue.crops["carrot"].chill_to_bolt
    (vernalised,) = rows["carrot", "atherton1990"]
    assert carrot.value == 7 * numbers_of(vernalised["duration"])[0]


def test_ranges_that_were_recalled_are_marked_so(catalogue):
    """Rows that were not read may be used, yet only as what they are."""
    recalled = {row["source"] for row in table("day_length_and_bolting") if row["seen"] == "memory"}
    for field in ("chill_to_bolt", "bolts_above", "bolts_at_day_length", "day_length_to_bulb"):
        for crop in catalogue.crops.values():
            figure = getattr(crop, field)
            if figure is not None and figure.source in recalled:
                assert figure.recalled, f"{crop.key}, {field}"
