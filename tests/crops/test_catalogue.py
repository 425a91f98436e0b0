"""Reading a catalogue names every fault by file, crop and field; the shipped one has none."""

from __future__ import annotations

from typing import get_args

import pytest
from making import write_catalogue

from planner.crops import Catalogue, CatalogueError, load_catalogue
from planner.crops.crop import ENTRY_FIELDS, Crop
from planner.crops.field_units import UNITS
from planner.crops.figures import ESTIMATE, PRACTICE, Figure, Numbers, Series

SOURCES = '[book]\ntitle = "A book"\nauthor = "Doe J"\nyear = 1911\nagency = "Press"\ntable = "p. 3"\n'
HEAD = 'family = "Apiaceae"\n'
CARROT = """
[carrot]
name = "Carrot"
also = ["Wild carrot"]
latin = "Daucus carota"
life_cycle = "biennial"
growth_form = "root"
"""
GOOD = HEAD + CARROT + 'height = { value = 0.3, source = "book" }\n'

FAULTS = [
    ("not TOML", HEAD + "[carrot\n", "apiaceae.toml: is not TOML"),
    ("no family", CARROT, 'apiaceae.toml: has no family = "..." at its top'),
    ("no table", HEAD + "carrot = 3\n", "apiaceae.toml, carrot: must be a table of a crop's fields"),
    ("unknown key", HEAD + CARROT + 'colour = "red"\n', "apiaceae.toml, carrot, colour: Extra inputs are not permitted"),
    ("missing key", HEAD + '[carrot]\nname = "Carrot"\n', "apiaceae.toml, carrot, latin: Field required"),
    (
        "impossible range",
        HEAD + CARROT + 'height = { value = 0.3, low = 0.4, high = 0.2, source = "book" }\n',
        "apiaceae.toml, carrot, height: impossible range: low 0.4 is above high 0.2",
    ),
    (
        "outside of bounds",
        HEAD + CARROT + 'height = { value = 30, source = "book" }\n',
        "apiaceae.toml, carrot, height: 30 is outside 0.001 to 20 m",
    ),
    (
        "range outside of bounds",
        HEAD + CARROT + 'germination = { value = 0.9, high = 90, source = "book" }\n',
        "apiaceae.toml, carrot, germination: 90 is outside 0 to 1",
    ),
    ("no source", HEAD + CARROT + "height = { value = 0.3 }\n", "apiaceae.toml, carrot, height: has no source key"),
    (
        "unknown source",
        HEAD + CARROT + 'height = { value = 0.3, source = "bok" }\n',
        "apiaceae.toml, carrot, height: unknown source key 'bok'",
    ),
    (
        "unknown second source",
        HEAD + CARROT + 'height = { value = 0.3, source = "book", other = [{ value = 0.4, source = "bok" }] }\n',
        "apiaceae.toml, carrot, height: unknown source key 'bok'",
    ),
    (
        "unknown word",
        HEAD + CARROT + 'starts = { value = ["thrown"], source = "book" }\n',
        "apiaceae.toml, carrot, starts: 'thrown' is none of sown, raised",
    ),
    ("not finite", HEAD + CARROT + 'height = { value = nan, source = "book" }\n', "carrot, height.value: Input should be a finite"),
    ("a bad key", HEAD + CARROT.replace("[carrot]", "[Carrot]"), "apiaceae.toml, Carrot, key: String should match"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "words"), [case[1:] for case in FAULTS], ids=[case[0] for case in FAULTS])
def test_faults_are_named_by_file_crop_and_field(tmp_path, text, words):
    with pytest.raises(CatalogueError) as caught:
        load_catalogue(write_catalogue(tmp_path / "shelf", SOURCES, apiaceae=text))
    assert words in str(caught.value)
    assert str(caught.value).startswith("shelf: ")
    assert "\n" not in str(caught.value)


def test_all_faults_are_named_together(tmp_path):
    folder = write_catalogue(
        tmp_path, "[book]\nyear = 1\n", apiaceae=HEAD + CARROT + "height = {}\n", poaceae="=", rosaceae=GOOD
    )
    with pytest.raises(CatalogueError) as caught:
        load_catalogue(folder)
    line = str(caught.value)
    assert "sources.toml, book, title: Field required" in line
    assert "apiaceae.toml, carrot, height: has no value" in line
    assert "poaceae.toml: is not TOML" in line
    assert "rosaceae.toml, carrot, height: unknown source key 'book'" in line


def test_a_key_in_two_files_is_refused(tmp_path):
    folder = write_catalogue(tmp_path, SOURCES, apiaceae=GOOD, other=GOOD)
    with pytest.raises(CatalogueError, match=r"other\.toml, carrot: the key stands in Apiaceae too"):
        load_catalogue(folder)


def test_a_missing_source_list_is_named(tmp_path):
    (tmp_path / "crops").mkdir()
    with pytest.raises(CatalogueError, match=r"sources\.toml: is missing"):
        load_catalogue(tmp_path)


def test_a_missing_crops_folder_is_named(tmp_path):
    (tmp_path / "sources.toml").write_text(SOURCES, encoding="utf-8")
    with pytest.raises(CatalogueError, match=r"crops: the folder is missing"):
        load_catalogue(tmp_path)


def test_text_that_is_not_utf_8_is_named(tmp_path):
    folder = write_catalogue(tmp_path, SOURCES, apiaceae=GOOD)
    (folder / "crops" / "bad.toml").write_bytes(b'family = "\xff"\n')
    with pytest.raises(CatalogueError, match=r"bad\.toml: is not TOML"):
        load_catalogue(folder)


def test_a_corrected_catalogue_is_read_again_and_a_good_one_only_once(tmp_path):
    folder = write_catalogue(tmp_path, SOURCES, apiaceae="=")
    with pytest.raises(CatalogueError):
        load_catalogue(folder)
    write_catalogue(tmp_path, SOURCES, apiaceae=GOOD)
    assert load_catalogue(folder) is load_catalogue(folder)


def test_crops_are_found_by_key_and_by_any_name(tmp_path):
    found = load_catalogue(write_catalogue(tmp_path, SOURCES, apiaceae=GOOD))
    carrot = found.crops["carrot"]
    for name in ("carrot", "CARROT", " wild Carrot ", "daucus carota"):
        assert found.named(name) is carrot
    assert found.get("carrot") is carrot
    assert found.get("Carrot") is None
    assert found.named("turnip") is None
    assert found.source_line("book") == "Doe J 1911. A book. Press. p. 3"
    assert carrot.number("height") == 0.3
    assert carrot.number("spread") is None
    assert carrot.usual_start == "sown"
    assert [name for name, _ in carrot.entries()] == ["height"]


def test_every_number_of_a_crop_has_its_unit():
    numbers = {
        name
        for name in ENTRY_FIELDS
        if {Figure, Series, Numbers} & set(get_args(Crop.model_fields[name].annotation))
    }
    assert numbers == set(UNITS)


def test_the_shipped_catalogue_has_many_crops_of_many_families(catalogue: Catalogue):
    assert len(catalogue.crops) >= 110
    assert len({crop.family for crop in catalogue.crops.values()}) >= 15
    names = [crop.name.casefold() for crop in catalogue.crops.values()]
    assert names == sorted(names)


def test_every_shipped_figure_has_a_source_that_is_listed(catalogue: Catalogue):
    for crop in catalogue.crops.values():
        for name, entry in crop.entries():
            if entry.applies:
                assert entry.source in (*catalogue.sources, PRACTICE, ESTIMATE), f"{crop.key}, {name}"
            else:
                assert entry.note, f"{crop.key}, {name}"


def test_shipped_names_mean_one_crop_each(catalogue: Catalogue):
    owners: dict[str, str] = {}
    for crop in catalogue.crops.values():
        for name in {crop.key, crop.name, *crop.also}:
            assert owners.setdefault(name.casefold(), crop.key) == crop.key, f"{name}: {crop.key}"


def test_shipped_temperatures_and_ranges_are_in_order(catalogue: Catalogue):
    for crop in catalogue.crops.values():
        least, best, most = (crop.number(f"soil_{name}") for name in ("least", "best", "most"))
        numbers = [value for value in (least, best, most) if value is not None]
        assert numbers == sorted(numbers), crop.key
        for _, entry in crop.entries():
            if isinstance(entry, Figure) and entry.low is not None and entry.high is not None:
                assert entry.low <= entry.high


def test_every_shipped_crop_has_a_spacing_or_says_why_not(catalogue: Catalogue):
    for crop in catalogue.crops.values():
        assert crop.in_row_spacing is not None, crop.key
        assert crop.in_row_spacing.value or crop.in_row_spacing.note, crop.key


def test_a_window_that_only_frost_ends_can_be_counted_back(catalogue: Catalogue):
    """A last day counted back from the autumn frost needs the days to maturity and the first day."""
    for crop in catalogue.crops.values():
        for field in ("sow_until", "set_out_until"):
            entry = getattr(crop, field)
            if entry is not None and not entry.applies and "counted back" in (entry.note or ""):
                assert crop.number("days_to_maturity") is not None, (crop.key, field)
                assert crop.number(field.replace("until", "from")) is not None, (crop.key, field)


def test_of_very_many_faults_the_first_are_named(tmp_path):
    many = GOOD + "".join(f'[root_{n}]\nname = "Root {n}"\n' for n in range(60))
    with pytest.raises(CatalogueError) as caught:
        load_catalogue(write_catalogue(tmp_path, SOURCES, apiaceae=many))
    text = str(caught.value)
    assert "root_0" in text
    assert "root_50" not in text
    assert " more" in text
