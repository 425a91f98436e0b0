"""What a planting yields is said in its details, in the garden's units; nothing where nothing of it is eaten."""

from __future__ import annotations

import pytest
from making import bed, garden, planting, rectangle

from planner.amounts import amount
from planner.amounts.yields import planting_yield
from planner.desk.forms.planting_words import count_lines
from planner.garden import Planting, Site
from planner.listings.weights import weight_words
from planner.listings.yields import yield_words
from planner.plan import Plan


def words_of(units: str = "metric", **fields: object) -> tuple[str, Plan, Planting]:
    document = garden(bed("b1", rectangle(3, 1.2)), planting("p1", **fields), site=Site(units=units))
    plan = Plan(document, 2026)
    one = document.plantings[0]
    return yield_words(plan, one), plan, one


@pytest.mark.parametrize("units", ["metric", "feet_inches"])
def test_the_yield_with_its_range(units: str) -> None:
    words, plan, one = words_of(units, crop="carrot")
    found = planting_yield(plan, one)
    assert found.grams
    assert words.startswith("Yields about ")
    assert weight_words(found.grams, units) in words  # type: ignore[arg-type]
    assert count_lines(plan, amount(plan, one))[-1] == words


def test_what_is_counted_has_its_pieces() -> None:
    words, plan, one = words_of(crop="lettuce")
    assert f"{planting_yield(plan, one).pieces} pieces" in words


@pytest.mark.parametrize("fields", [{"crop": "carrot", "purpose": "seed"}, {"crop": "zinnia"}])
def test_nothing_is_said_where_nothing_is_eaten_or_known(fields: dict[str, object]) -> None:
    assert words_of(**fields)[0] == ""
