"""Figures have a source, and impossible values are refused."""

from __future__ import annotations

import math

import pytest
from pydantic import ValidationError

from planner.crops import Fact, Figure, Flag, Series, Words
from planner.crops.figures import Origin


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Figure(value=1.0), "has no source key"),
        (lambda: Figure(value=1.0, source=""), "has no source key"),
        (lambda: Figure(source="practice"), "has no value; give one, or applies = false with a note"),
        (lambda: Figure(applies=False), "says it does not apply without a note that says why"),
        (lambda: Figure(applies=False, note="n", value=1.0), "says it does not apply, yet has a value"),
        (lambda: Figure(value=2, low=3, high=1, source="x"), "impossible range: low 3 is above high 1"),
        (
            lambda: Figure(value=5, low=1, high=3, source="x"),
            "value 5 leaves its source's range without a note",
        ),
        (lambda: Figure(value=0.5, low=1, source="x"), "value 0.5 leaves its source's range"),
        (lambda: Figure(value=math.nan, source="x"), "finite number"),
        (lambda: Figure(value=math.inf, source="x"), "finite number"),
        (lambda: Figure(value=1, source="x", colour="red"), "Extra inputs are not permitted"),
        (lambda: Words(value=(), source="x"), "has no value"),
        (lambda: Fact(source="x"), "has no value"),
        (lambda: Flag(source="x"), "has no value"),
        (lambda: Series(at=((10, 1), (5, 2)), source="x"), "temperatures must rise"),
        (lambda: Series(at=((10, 1), (10, 2)), source="x"), "temperatures must rise"),
    ],
)
def test_an_impossible_figure_is_refused_with_a_reason(make, words):
    with pytest.raises(ValidationError) as caught:
        make()
    assert words in str(caught.value)


def test_a_value_may_leave_its_sources_range_with_a_note():
    assert Figure(value=5, low=1, high=3, source="x", note="wider here").value == 5


def test_false_and_nought_are_values():
    assert Flag(value=False, source="x").value is False
    assert Figure(value=0, source="x").value == 0


@pytest.mark.parametrize(
    ("entry", "provenance"),
    [
        (Figure(value=1, source="fao56"), "printed"),
        (Figure(value=1, low=0, high=3, source="fao56", basis="chosen"), "chosen"),
        (Figure(value=1, source="fao56", basis="derived", note="half of 2"), "derived"),
        (Figure(value=1, source="fao56", basis="chosen", recalled=True), "estimate"),
        (Figure(value=1, source="fao56", recalled=True), "estimate"),
        (Figure(value=1, source="practice"), "practice"),
        (Figure(value=1, source="estimate"), "estimate"),
        (Figure(applies=False, note="never moved"), "does not apply"),
    ],
)
def test_provenance_of_an_entry(entry: Origin, provenance):
    assert entry.provenance == provenance


def test_entries_are_frozen():
    with pytest.raises(ValidationError, match="frozen"):
        Figure(value=1, source="x").value = 2  # type: ignore[misc]
