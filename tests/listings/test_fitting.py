"""Lines and tables that are no wider than a terminal."""

from __future__ import annotations

import pytest

from planner.listings.fitting import broken, fitted
from planner.listings.tables import aligned
from planner.listings.widths import width

ROWS = [
    ("Middle 4", "7 days, each with a reason that is told in full", "1200"),
    ("Bed with a rather long name", "short", "3"),
]


@pytest.mark.parametrize("room", [1, 5, 12, 30, 200])
@pytest.mark.parametrize(
    "text", ["", "one", "two words", "a_very_long_name_of_a_field", "日本語 の 豆 kale", "e\u0301te\u0301"]
)
def test_no_line_is_wider_than_the_room_and_no_word_is_lost(text, room):
    lines = broken(text, room)
    least = max([width(sign) for sign in text], default=0)
    assert all(width(line) <= max(room, least) for line in lines)
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_a_long_name_is_broken_behind_an_underscore():
    assert broken("least_night_temperature", 12) == ["least_night_", "temperature"]


def test_what_goes_on_is_indented_a_little_more():
    assert fitted(["  Going on: pick leek in West 2"], 18) == ["  Going on: pick", "    leek in West 2"]
    assert fitted(["short", "", "  x"], 18) == ["short", "", "  x"]


def test_without_a_width_lines_stay_whole():
    lines = ["x" * 300, "  y " * 50]
    assert fitted(lines, None) == lines


@pytest.mark.parametrize("room", [34, 40, 60, 80])
def test_a_table_gives_way_in_its_widest_columns_of_words(room):
    heads = ("bed", "reason", "plants\nneeded")
    lines = aligned(heads, ROWS, right=(2,), room=room)
    assert max(map(width, lines)) <= room
    words = sorted(word for line in lines for word in line.split())
    assert words == sorted(word for row in (*ROWS, heads) for cell in row for word in cell.split())
    assert lines[-1].strip() or lines[-2].strip()


def test_a_table_that_fits_is_as_it_was():
    heads = ("bed", "reason", "plants")
    assert aligned(heads, ROWS, right=(2,), room=200) == aligned(heads, ROWS, right=(2,))


def test_numbers_are_never_broken():
    lines = aligned(("a", "number"), [("word word word", "1 234 567")], right=(1,), room=8)
    assert any(line.endswith("1 234 567") for line in lines)
