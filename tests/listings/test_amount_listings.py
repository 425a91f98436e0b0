"""Amounts as rows and as lines."""

from __future__ import annotations

import pytest

from planner.listings.amounts import grams_cell


@pytest.mark.parametrize(
    ("mass", "text"),
    [(None, "?"), (0.0, "-"), (0.00213, "0.00213"), (0.3456, "0.346"), (12.34, "12.3"), (123.4, "123")],
)
def test_grams_in_a_table(mass, text):
    assert grams_cell(mass) == text
