"""Garden files that are not as they should be: each is refused in one line that names the place."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Any

import pytest

from planner.garden import Garden
from planner.plain_file import NoPlainFileError
from planner.storage import FileError, dump, files, load, parse
from planner.storage.file_state import FileState

RECTANGLE = {"shape": "rectangle", "length": 3.0, "width": 1.2}


def garden_text(**fields: Any) -> str:
    return json.dumps({"format": "bedwright garden", "schema": 1, **fields})


def bed(**fields: Any) -> dict[str, Any]:
    return {"id": "b1", "name": "North", "outline": RECTANGLE, **fields}


def planting(**fields: Any) -> dict[str, Any]:
    return {"id": "p1", "bed": "b1", "crop": "carrot", "year": 2025, **fields}


def refusal(text: str | bytes) -> str:
    with pytest.raises(FileError) as caught:
        parse(text, "plot.bedwright")
    line = str(caught.value)
    assert line.startswith("plot.bedwright: ")
    assert "\n" not in line
    line.encode()  # every message can be printed
    return line


def test_missing_file(tmp_path):
    with pytest.raises(FileError, match=r"gone\.bedwright: there is no such file\. Check the name"):
        load(tmp_path / "gone.bedwright")


def test_folder_instead_of_file(tmp_path):
    with pytest.raises(FileError, match="is a folder, not a garden file"):
        load(tmp_path)


def test_file_below_a_file(tmp_path):
    (tmp_path / "a").write_text("")
    with pytest.raises(FileError, match="cannot be read"):
        load(tmp_path / "a" / "b.bedwright")


def test_name_with_a_null():
    with pytest.raises(FileError, match="cannot be read"):
        load("a\0b")


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may read everything")
def test_file_that_may_not_be_read(tmp_path):
    file = tmp_path / "plot.bedwright"
    file.write_text(garden_text())
    file.chmod(0)
    with pytest.raises(FileError, match="Check its permissions"):
        load(file)


def test_file_above_the_limit(tmp_path, monkeypatch):
    file = tmp_path / "plot.bedwright"
    file.write_text(garden_text())
    monkeypatch.setattr(files, "LARGEST", file.stat().st_size)
    assert load(file) == Garden()
    monkeypatch.setattr(files, "LARGEST", file.stat().st_size - 1)
    with pytest.raises(FileError, match="is larger than"):
        load(file)


@pytest.mark.skipif(os.name != "posix", reason="pipes and devices as POSIX has them")
def test_pipes_and_devices_are_refused_at_once(tmp_path):
    pipe = tmp_path / "plot.bedwright"
    os.mkfifo(pipe)
    state = FileState.of(b"")
    for odd, what in ((pipe, "a pipe"), (Path("/dev/zero"), "a device")):
        with pytest.raises(
            FileError, match=f"{odd.name}: cannot be read: it is {what}, not a file. Write what it "
        ):
            load(odd)
        with pytest.raises(NoPlainFileError):
            state.holds(odd)


def test_empty_file():
    assert "is empty" in refusal(b"  \n")


def test_byte_order_mark_is_read():
    assert parse(b"\xef\xbb\xbf" + garden_text().encode()) == Garden()


def test_damage_is_named_by_line_and_column():
    text = '{\n  "format": "bedwright garden",\n  "schema": 1,\n  "beds": [}\n}'
    assert "is damaged at line 4, column 12" in refusal(text)


@pytest.mark.parametrize(("text", "line"), [("Dear diary,\nbeans.\n", 1), ("\n\n<html></html>", 3), ("]", 1)])
def test_a_file_of_another_kind_is_named_in_plain_words(text, line):
    said = refusal(text)
    assert f"is no garden file: line {line} is not what such a file begins with" in said
    assert "Expecting" not in said
    assert "Expecting" not in refusal('{"format": }')


def test_half_a_file_is_damaged():
    text = dump(Garden.model_validate({"beds": [bed()]}))
    assert "is damaged at line" in refusal(text[: len(text) // 2])


def test_bytes_that_are_no_utf8():
    assert "is not UTF-8 text (byte 12)" in refusal(b'{"format": "\xff"}')


@pytest.mark.parametrize("text", ["[]", "3", "null", '"garden"', "{}", '{"format": "bedwright"}'])
def test_other_json(text):
    assert "is not a garden file" in refusal(text)


def test_newer_schema_is_refused_by_name():
    line = refusal('{"format": "bedwright garden", "schema": 3, "new thing": 1}')
    assert "was written by a newer Bedwright (schema 3; this one reads up to 2)" in line


@pytest.mark.parametrize(
    "schema", ["", ', "schema": "1"', ', "schema": 0', ', "schema": true', ', "schema": 1.5']
)
def test_no_schema_number(schema):
    assert "has no schema number" in refusal('{"format": "bedwright garden"' + schema + "}")


@pytest.mark.parametrize("number", ["NaN", "Infinity", "-Infinity"])
def test_number_that_is_none(number):
    line = refusal(garden_text(site={"latitude": 0}).replace('"latitude": 0', f'"latitude": {number}'))
    assert f"holds {number}, which is no number" in line


def test_number_beyond_all_bounds():
    line = refusal(garden_text(site={"latitude": 0}).replace('"latitude": 0', '"latitude": 1e999'))
    assert "no number" in line or "finite number" in line


def test_whole_number_of_thousands_of_digits():
    assert "number that is too long" in refusal(
        garden_text().replace('"schema": 1', '"schema": ' + "9" * 5000)
    )


@pytest.mark.parametrize("depth", [300, 900, 200_000])
def test_deep_nesting(depth):
    text = garden_text(beds=0).replace('"beds": 0', '"beds": ' + "[" * depth + "]" * depth)
    assert "is nested too deeply" in refusal(text)


def test_key_given_twice():
    line = refusal('{"format": "bedwright garden", "schema": 1, "beds": [], "beds": []}')
    assert 'gives "beds" twice' in line


def test_ids_given_twice():
    assert "the id 'b1' is given twice" in refusal(garden_text(beds=[bed(), bed()]))


def test_planting_without_its_bed():
    line = refusal(garden_text(plantings=[planting()]))
    assert "planting 'p1' stands in bed 'b1', which is not in the garden" in line


def test_unknown_fields_are_all_named():
    line = refusal(garden_text(beds=[bed(colour="red")], wether={}, site={"planet": "Mars"}))
    assert 'beds[0] "North" colour: is not a field of a garden file' in line
    assert "wether: is not a field" in line
    assert "site.planet: is not a field" in line


def test_many_faults_are_counted():
    line = refusal(garden_text(beds=[bed(id=f"b{i}", colour="red") for i in range(9)]))
    assert line.count("is not a field") == 5
    assert "; and 4 more" in line


@pytest.mark.parametrize(
    ("outline", "place", "fault"),
    [
        ({**RECTANGLE, "length": 0}, "outline.length", "greater than or equal to 0.02"),
        ({**RECTANGLE, "width": -1}, "outline.width", "greater than or equal to 0.02"),
        ({**RECTANGLE, "width": "1.2"}, "outline.width", "valid number"),
        ({**RECTANGLE, "width": True}, "outline.width", "valid number"),
        ({"shape": "circle", "radius": 0}, "outline.radius", "greater than or equal to 0.02"),
        ({"shape": "polygon", "points": [[0, 0], [1, 0], [2, 0]]}, "outline", "crosses or touches itself"),
        ({"shape": "polygon", "points": [[0, 0], [1, 1], [1, 0], [0, 1]]}, "outline", "near (0.50, 0.50)"),
        ({"shape": "polygon", "points": [[0, 0], [0.01, 0], [0, 0.01]]}, "outline", "encloses"),
        ({"shape": "polygon", "points": [[0, 0], [1, 0]]}, "outline.points", "at least 3"),
        ({"shape": "star"}, "outline", "'star'"),
        ({"length": 3, "width": 1}, "outline", "needs its 'shape'"),
        ({"shape": "rectangle", "length": 3}, "outline.width", "is missing"),
    ],
)
def test_outline_that_is_none(outline, place, fault):
    line = refusal(garden_text(beds=[bed(outline=outline)]))
    assert f'beds[0] "North" {place}: ' in line
    assert fault in line


def test_spacing_of_nothing():
    line = refusal(
        garden_text(beds=[bed()], plantings=[planting(arrangement={"kind": "rows", "in_row_spacing": 0})])
    )
    assert "plantings[0].arrangement.in_row_spacing: " in line
    assert "greater than or equal to 0.002" in line


def test_day_as_a_number():
    assert "plantings[0].first: " in refusal(garden_text(beds=[bed()], plantings=[planting(first=0)]))


def test_last_day_before_the_first():
    days = {"first": "2025-05-01", "last": "2025-04-01"}
    assert "before the first" in refusal(garden_text(beds=[bed()], plantings=[planting(**days)]))


def test_plot_outside_its_bed_is_read_and_kept():
    """The plan says what is wrong with it; the file is not refused."""
    plot = {"kind": "region", "points": [[10, 10], [12, 10], [12, 12], [10, 12]]}
    garden = parse(garden_text(beds=[bed()], plantings=[planting(plot=plot)]))
    assert parse(dump(garden)) == garden


def test_ten_thousand_beds():
    beds = [bed(id=f"b{i}", name=f"Bed {i}") for i in range(10_000)]
    garden = parse(garden_text(beds=beds))
    assert len(garden.beds) == 10_000
    assert parse(dump(garden)) == garden


def test_more_beds_than_a_garden_may_hold():
    beds = [bed(id=f"b{i}") for i in range(20_001)]
    assert "beds: " in refusal(garden_text(beds=beds))


@pytest.mark.parametrize(
    "name",
    [
        'The "big" bed',
        "O'Brien",
        "ערוגה צפונית",
        "الحوض الشمالي",
        "🥕 carrots 👩‍🌾",
        "=1+1",
        "a\\b",
        "ab\u202ecd",
    ],
)
def test_names_of_any_script(name):
    garden = parse(garden_text(beds=[bed(name=name)]))
    assert garden.beds[0].name == name
    assert parse(dump(garden).encode()) == garden


@pytest.mark.parametrize(
    "name", ["", "two\nlines", "tab\there", "null\0", "line\u2028", "\x9b31m", "x" * 201]
)
def test_names_that_are_none(name):
    assert "name: " in refusal(garden_text(beds=[bed(name=name)]))


def test_half_a_character_in_a_text():
    line = refusal(garden_text(beds=[bed(), bed(id="b2", name="\ud83d")]))
    assert "beds[1]" in line
    assert "name: holds half of a character" in line


def test_half_a_character_in_a_key():
    assert "holds half of a character" in refusal(garden_text(**{"\udc00": 1}))


def test_long_nonsense_gives_a_short_line():
    line = refusal(garden_text(**{"x" * 100_000: 1, "beds": [bed(outline={"shape": "y" * 100_000})]}))
    assert len(line) < 2000
