"""Figures as people type them: units, ranges, and what is refused rather than misread."""

from __future__ import annotations

import pytest

from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.importing.own_figures import read_own_figure


@pytest.mark.parametrize(
    ("field", "text", "units", "value", "low", "high"),
    [
        ("height", "60 to 100 cm", "metric", 0.8, 0.6, 1.0),
        ("height", "60-100 cm", "metric", 0.8, 0.6, 1.0),
        ("height", "0.8 (0.6 to 1)", "metric", 0.8, 0.6, 1.0),
        ("in_row_spacing", "6 to 8", "feet_inches", 0.1778, 0.1524, 0.2032),
        ("days_to_maturity", "60-70 days", "metric", 65, 60, 70),
        ("days_to_maturity", "9 weeks", "metric", 63, None, None),
        ("store_days", "40 days (30 days to 50 days)", "metric", 40, 30, 50),
        ("sow_from", "-6 to -4", "metric", -5, -6, -4),
        ("sow_from", "3 weeks before the last frost", "metric", -3, None, None),
        ("soil_least", "50 F", "metric", 10, None, None),
        ("soil_least", "10 C", "feet_inches", 10, None, None),
        ("soil_least", "50", "feet_inches", 10, None, None),
        ("kills_young", "-4", "metric", -4, None, None),
        ("germination", "85", "metric", 0.85, None, None),
        ("germination", "0.85", "metric", 0.85, None, None),
        ("yield_per_plant", "500 g", "metric", 0.5, None, None),
        ("winter_zone", "7b", "metric", 7.5, None, None),
        ("soil_ph", "6 to 7", "metric", 6.5, 6, 7),
    ],
)
def test_a_typed_figure(
    field: str, text: str, units: UnitSystem, value: float, low: float | None, high: float | None
) -> None:
    own = read_own_figure(field, text, units)
    assert own.value == pytest.approx(value)
    assert own.low == (pytest.approx(low) if low is not None else None)
    assert own.high == (pytest.approx(high) if high is not None else None)


@pytest.mark.parametrize(
    ("field", "text", "words"),
    [
        ("soil_least", "4 potatoes", "'potatoes' is no unit of it"),
        ("days_to_maturity", "9 lightyears", "'lightyears' is no unit of it"),
        ("days_to_maturity", "soon", "is no number"),
        ("height", "tall", "is no length"),
        ("height", "1 to 0.5", "impossible range"),
        ("germination", "140", "outside"),
    ],
)
def test_what_is_not_understood_is_refused(field: str, text: str, words: str) -> None:
    with pytest.raises(BedwrightError, match=words):
        read_own_figure(field, text, "metric")
