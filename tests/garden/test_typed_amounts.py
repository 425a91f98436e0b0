"""Volumes, masses, rates and meshes as they are typed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import BedwrightError
from planner.garden.typed_amounts import (
    parse_load,
    parse_measure,
    parse_mesh,
    parse_rate,
    parse_volume,
    show_mesh,
    show_rate,
)
from planner.garden.volumes import show_load, show_volume

UNITS = st.sampled_from(("metric", "feet_inches"))


@pytest.mark.parametrize(
    ("text", "grams"),
    [  # conversions of the US National Institute of Standards and Technology, SP 811, appendix B
        ("1 oz per sq yd", 33.906),
        ("1 oz/sq ft", 305.15),
        ("1 lb/sq ft", 4882.4),
        ("1 t/ha", 100.0),
        ("1 lb per acre", 0.11209),
        ("200 g/m²", 200.0),
        ("2 kg to the 10 m2", 200.0),
    ],
)
def test_rates_are_those_of_published_factors(text, grams):
    assert parse_rate(text) == pytest.approx(grams, rel=1e-4)


@pytest.mark.parametrize(
    "text", ["", "much", "-5", "0", "5 l", "200 g/", "g/m2", "1e400", "nan", "5 g/m2/m2"]
)
@pytest.mark.parametrize("read", [parse_rate, parse_load])
def test_what_is_no_amount_is_one_line_with_an_example(read, text):
    with pytest.raises(BedwrightError) as caught:
        read(text)
    assert "Type one like" in str(caught.value)
    assert "\n" not in str(caught.value)


@given(value=st.floats(20, 100_000), units=UNITS)
def test_what_is_shown_can_be_typed_again(value, units):
    assert parse_volume(show_volume(value, units), units) == pytest.approx(value, rel=0.1)
    assert parse_load(show_load(value, units), units) == pytest.approx(value, rel=0.1)
    assert parse_rate(show_rate(value, units), units) == pytest.approx(value, rel=0.1)


@given(mesh=st.floats(0.0005, 0.05), units=UNITS)
def test_meshes_can_be_typed_again(mesh, units):
    assert parse_mesh(show_mesh(mesh, units), units) == pytest.approx(mesh, rel=0.1, abs=1e-5)


def test_a_depth_or_a_rate_is_told_by_its_words():
    assert parse_measure("2 in")["depth"] == pytest.approx(0.0508)
    assert parse_measure("4 kg/m2")["rate"] == pytest.approx(4000)
    assert parse_measure("150", by_mass=True) == {"depth": None, "rate": 150.0}
    with pytest.raises(BedwrightError, match="amount to an area"):
        parse_measure("5 cm", by_mass=True)
