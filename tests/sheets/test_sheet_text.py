"""Text on paper fits and is set in fonts that have it."""

from __future__ import annotations

import unicodedata

import pytest
from bidi import get_display
from hypothesis import example, given
from hypothesis import strategies as st

from planner.sheets import fonts
from planner.sheets.text_pieces import missing_signs, pieces


def fonts_and_words(text: str) -> list[tuple[str, str]]:
    return [(piece.key, piece.text) for piece in pieces(text)]


def test_pieces_by_font():
    assert [key for key, _ in fonts_and_words("Bed 菜园 🥕")] == ["regular", "cjk", "regular", "emoji"]
    assert pieces("") == ()


def test_right_to_left_is_set_in_visual_order():
    assert [word for _, word in fonts_and_words("bed אב 12")] == ["bed ", "12", " ", "אב"]
    assert [word for _, word in fonts_and_words("אב bed")] == ["bed", " ", "אב"]
    (letters,) = pieces("אבג")
    assert "".join(glyph.char for cluster in letters.clusters for glyph in cluster.glyphs) == "גבא"


def in_visual_order(text: str) -> str:
    """Characters as they are drawn, from left to right; brackets whichever way they open."""
    parts = (
        "".join(glyph.char for cluster in piece.clusters for glyph in cluster.glyphs) or piece.text
        for piece in pieces(text)
    )
    return "".join(parts).replace(")", "(").strip()


@given(st.text("ab אב12.,-", max_size=14).filter(lambda text: set(text) & set("אב")))
@example("ערוגה (מזרח) 12")
@example("Bed 3 (ערוגה) b")
@example("אב (ab) 12")
def test_the_order_of_the_line_is_that_of_another_implementation(text: str):
    """The unicode-bidi crate, which turns no brackets about."""
    assert in_visual_order(text) == get_display(text).replace(")", "(").strip()


#: Letters of many scripts, marks, joiners, directions, digits, ends of lines, codes that are no sign, halves of pairs.
ODD = st.sampled_from(
    "a אاब\u094d\u200d\u200c\u202b\u202e\u202c\u2066\u2069\u200f\n\u2029\u0301\u05b8١1()ำกй漢가🥕\U0001f3fb\ufe0f\U000f0001\ue000\ud800"
    "\ufffe\U0001e900\u034f\u3164\u061c\x07"
)


@given(st.lists(ODD | st.characters(), max_size=14).map("".join))
def test_any_text_has_pieces_and_tells_what_is_missing(text: str):
    found = pieces(text)
    assert all(0 <= piece.width < 1e6 for piece in found)
    missing = missing_signs(text)
    assert set(missing) <= set(text) | set(unicodedata.normalize("NFC", text))
    shown = any("\ufffd" in piece.text for piece in found)
    assert shown == bool(missing) or "\ufffd" in text


def test_sign_that_no_font_has_is_shown_as_missing():
    assert fonts_and_words("\U00012000") == [("wide", "\ufffd")]


def test_invisible_signs_are_left_out():
    assert fonts_and_words("a\u200db\ufe0f") == [("regular", "ab")]


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
    assert fonts.fitted_size("x" * 500, 40.0, 18.0) == 8.0


def test_no_line_breaks_within_a_letter_and_its_marks():
    word = "क्षेत्रक्षेत्रक्षेत्र"
    lines = fonts.wrap(word, fonts.width("क्षेत्रक्षे", 12.0) - 0.2, 12.0)
    assert "".join(lines) == word
    assert len(lines) > 1
    assert all(line[0] in "कत" for line in lines)
    assert not any(line.endswith("\u094d") for line in lines)
