"""Lengths as typed and as shown, against exact fractions."""

from __future__ import annotations

import contextlib
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.garden.units import (
    LengthError,
    parse_length,
    show_area,
    show_distance,
    show_length,
    show_spacing,
)

IN = Fraction(254, 10_000)
FT = 12 * IN
CM = Fraction(1, 100)

READ = [
    ("1.2", Fraction(6, 5)),
    ("1,2", Fraction(6, 5)),
    ("1,2 m", Fraction(6, 5)),
    ("1.2m", Fraction(6, 5)),
    ("  1.2  m ", Fraction(6, 5)),
    ("1.2 M", Fraction(6, 5)),
    ("30 cm", 30 * CM),
    ("30cm", 30 * CM),
    ("7,5 cm", Fraction(75, 10) * CM),
    ("250 mm", 25 * CM),
    (".5", Fraction(1, 2)),
    (",5 m", Fraction(1, 2)),
    ("1 m 20", 120 * CM),
    ("1 m 20 cm", 120 * CM),
    ("1 m, 20 cm", 120 * CM),
    ("2 metres", Fraction(2)),
    ("1/2 m", Fraction(1, 2)),
    ("½", Fraction(1, 2)),
    ("1½", Fraction(3, 2)),
    ("4 ft 6 in", 4 * FT + 6 * IN),
    ("4 ft, 6 in", 4 * FT + 6 * IN),
    ("4ft6in", 4 * FT + 6 * IN),
    ("4 feet 6 inches", 4 * FT + 6 * IN),
    ("4 ft 6", 4 * FT + 6 * IN),
    ("4'6", 4 * FT + 6 * IN),
    ("4' 6\"", 4 * FT + 6 * IN),
    ("4′ 6″", 4 * FT + 6 * IN),
    ("4’ 6”", 4 * FT + 6 * IN),
    ("4' 6 1/2\"", 4 * FT + Fraction(13, 2) * IN),
    ("4' 6½\"", 4 * FT + Fraction(13, 2) * IN),
    ("6 1/2 in", Fraction(13, 2) * IN),
    ("6-in", 6 * IN),
    ("18 in", 18 * IN),
    ("3/8 in", Fraction(3, 8) * IN),
    ("⅔ ft", 8 * IN),
    ("-30 cm", -30 * CM),
    ("− 30 cm", -30 * CM),
    ("+30 cm", 30 * CM),
    ("0", Fraction(0)),
]

RUBBISH = [
    "", " ", "m", "abc", "1 x", "1e3", "1.2.3", "1,2,3", "1..2", "--5", "+-5", "-", "1 / 2", "1/0", "1/0 ft",
    "6 in 4 ft", "30 cm 1 m", "1 m 1 m", "30 cm 5", "1 20", "1 200", "10 - 5", "4-6 m", "nan", "inf", "NaN m",
    "1 m;", "1 m x", "½½", "1//2", "1/2/3", "4 ft 6 ft", "9" * 400, "1 m\x00",
]  # fmt: skip


@pytest.mark.parametrize(("text", "exact"), READ)
def test_lengths_are_read_as_meant(text, exact):
    assert parse_length(text) == pytest.approx(float(exact), rel=1e-15, abs=1e-18)


@pytest.mark.parametrize("text", RUBBISH)
@pytest.mark.parametrize("small", [False, True])
def test_rubbish_is_refused_in_one_line(text, small):
    with pytest.raises(LengthError) as caught:
        parse_length(text, small=small)
    assert "\n" not in str(caught.value)
    assert "no length" in str(caught.value) or "divides by zero" in str(caught.value)


def test_the_message_shows_what_was_typed_and_how_to_type_it():
    with pytest.raises(LengthError) as caught:
        parse_length(" 3 spades ")
    assert str(caught.value) == "'3 spades' is no length. Type one like 1.2 m, 30 cm or 4 ft 6 in."


@pytest.mark.parametrize(
    ("units", "small", "exact"),
    [
        ("metric", False, Fraction(3, 2)),
        ("metric", True, Fraction(3, 2) * CM),
        ("feet_inches", False, Fraction(3, 2) * FT),
        ("feet_inches", True, Fraction(3, 2) * IN),
    ],
)
def test_a_number_without_a_unit_is_in_the_gardens_units(units, small, exact):
    assert parse_length("1.5", units, small=small) == pytest.approx(float(exact), rel=1e-15)
    assert parse_length("1 1/2", units, small=small) == pytest.approx(float(exact), rel=1e-15)


def test_feet_and_inches_without_a_unit():
    assert parse_length("4 6", "feet_inches") == pytest.approx(float(4 * FT + 6 * IN))
    assert parse_length("4 6 1/2", "feet_inches") == pytest.approx(float(4 * FT + Fraction(13, 2) * IN))


@given(st.integers(0, 10**6))
def test_whole_centimetres_come_back(centimetres):
    exact = float(centimetres * CM)
    assert parse_length(show_length(exact)) == pytest.approx(exact, abs=1e-12)


@given(st.integers(-(10**6), 10**6))
def test_eighths_of_an_inch_come_back(eighths):
    exact = float(Fraction(eighths, 8) * IN)
    assert parse_length(show_length(exact, "feet_inches"), "feet_inches") == pytest.approx(exact, abs=1e-9)
    assert parse_length(show_spacing(exact, "feet_inches"), "feet_inches", small=True) == pytest.approx(
        exact, abs=1e-9
    )


@given(st.floats(-2000, 2000))
def test_shown_lengths_are_off_by_half_the_last_place_at_most(metres):
    for units, step in (("metric", 0.01), ("feet_inches", float(IN / 8))):
        text = show_length(metres, units)
        assert abs(parse_length(text, units) - metres) <= step / 2 * (1 + 1e-9)
        assert not text.startswith(("-0.00 ", "-0 "))


@given(st.text(max_size=20))
def test_any_text_is_a_length_or_refused(text):
    with contextlib.suppress(LengthError):
        assert abs(parse_length(text)) < float("inf")


@pytest.mark.parametrize(
    ("metres", "metric", "imperial"),
    [
        (2.4, "2.40 m", "7 ft 10 1/2 in"),
        (0.3048, "0.30 m", "1 ft"),
        (0.0254, "0.03 m", "1 in"),
        (0.0, "0.00 m", "0 ft"),
        (-0.001, "0.00 m", "0 ft"),
        (-1.2, "-1.20 m", "-3 ft 11 1/4 in"),
    ],
)
def test_lengths_as_shown(metres, metric, imperial):
    assert show_length(metres) == metric
    assert show_length(metres, "feet_inches") == imperial


@pytest.mark.parametrize(
    ("metres", "metric", "imperial"),
    [
        (0.075, "7.5 cm", "3 in"),
        (0.3, "30 cm", "11 3/4 in"),
        (0.013, "1.3 cm", "1/2 in"),
        (-0.0001, "0 cm", "0 in"),
    ],
)
def test_spacings_as_shown(metres, metric, imperial):
    assert show_spacing(metres) == metric
    assert show_spacing(metres, "feet_inches") == imperial


def test_areas_as_shown():
    assert show_area(5.76) == "5.76 m²"
    assert show_area(float(32 * FT * FT), "feet_inches") == "32.0 sq ft"


@pytest.mark.parametrize(
    ("metres", "metric", "imperial"),
    [
        (9.99, "9.99 m", "32 ft 9 1/4 in"),
        (10.0, "10 m", "33 ft"),
        (724.0, "724 m", "2,375 ft"),
        (725.0, "725 m", "0.5 mile"),
        (1609.0, "1,609 m", "1 mile"),
        (1700.0, "1,700 m", "1.1 miles"),
    ],
)
def test_distances_as_shown(metres, metric, imperial):
    assert show_distance(metres) == metric
    assert show_distance(metres, "feet_inches") == imperial
