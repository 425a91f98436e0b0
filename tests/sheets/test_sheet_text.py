"""Text on paper fits and is set in fonts that have it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.sheets import fonts


def test_runs_by_script():
    assert [key for key, _ in fonts.runs("Bed 菜园 🥕")] == ["regular", "cjk", "regular", "emoji"]
    assert fonts.runs("") == ()


def test_right_to_left_is_set_in_visual_order():
    assert fonts.runs("אבג") == (("wide", "גבא"),)
    joined = "".join(text for _, text in fonts.runs("بيت"))
    assert all("\ufe70" <= char <= "\ufeff" for char in joined)  # shaped


def test_sign_that_no_font_has_is_shown_as_missing():
    assert fonts.runs("\U00012000") == (("wide", "\ufffd"),)


def test_invisible_signs_are_left_out():
    assert "".join(text for _, text in fonts.runs("a\u200db\ufe0f")) == "ab"


@given(st.text(max_size=80), st.floats(10, 60))
def test_wrapped_lines_are_no_wider_than_their_room(text: str, room: float):
    for line in fonts.wrap(text, room, 8.0):
        assert fonts.width(line, 8.0) <= room + 1e-6


@given(st.text(alphabet=st.characters(codec="latin-1", categories=["L", "N", "P"]), max_size=300))
def test_wrapping_loses_nothing(text: str):
    assert "".join(fonts.wrap(text, 20.0, 8.0)).replace(" ", "") == text


def test_wrapping_keeps_paragraphs_and_numbers_with_their_units():
    assert fonts.wrap("one\n\ntwo", 50.0, 8.0) == ("one", "", "two")
    assert fonts.wrap("", 50.0, 8.0) == ()
    held = "every 2\u00a0ft\u00a03\u00a01/2\u00a0in"
    assert fonts.wrap(held, fonts.width("every 2 ft 3", 8.0), 8.0)[1].startswith("2\u00a0ft")


def test_fitted_size():
    assert fonts.fitted_size("Bed", 100.0, 18.0) == 18.0
    size = fonts.fitted_size("Range with a long name", 40.0, 18.0)
    assert fonts.width("Range with a long name", size) == pytest.approx(40.0)
    assert fonts.fitted_size("x" * 500, 40.0, 18.0) == 6.0
