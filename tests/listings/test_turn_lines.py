"""The turn of a year in words."""

from __future__ import annotations

import pytest

from planner.garden import Wish
from planner.listings.turn import wish_amount


@pytest.mark.parametrize(
    ("unit", "units", "words"),
    [
        ("plants", "metric", "12 plants"),
        ("m", "metric", "12.00 m of row"),
        ("m", "feet_inches", "39 ft 4 1/2 in of row"),
        ("m2", "metric", "12.00 m²"),
        ("m2", "feet_inches", "129.2 sq ft"),
        ("g", "metric", "12 g"),
        ("g", "feet_inches", "0.42 oz"),
    ],
)
def test_a_wish_is_in_the_garden_s_units(unit, units, words):
    wish = Wish(id="w1", year=2027, crop="carrot", amount=12, unit=unit)
    assert wish_amount(wish, units) == words
