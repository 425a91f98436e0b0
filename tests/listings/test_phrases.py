"""Numbers and days as they are printed."""

from __future__ import annotations

import datetime as dt

import pytest

from planner.garden import Site
from planner.listings.phrases import Measure, grams, season, span


@pytest.mark.parametrize(
    ("metres", "metric", "feet"),
    [
        (0.0, "0", "0"),
        (0.155, "15.5", "6\u00a01/8\u00a0in"),
        (4.745, "474.5", "15\u00a0ft\u00a06\u00a03/4\u00a0in"),
    ],
)
def test_tape_marks(metres: float, metric: str, feet: str):
    assert Measure("metric").tape(metres) == metric
    assert Measure("feet_inches").tape(metres) == feet


def test_spans_and_seasons():
    assert span(dt.date(2026, 4, 2), None) == "from 2 Apr 2026"
    assert span(None, None) == ""
    assert season(Site(), 2026) == "2026"
    assert season(Site(latitude=-41), 2026) == "2026/27"
    assert [grams(g) for g in (0.046, 1.56, 23.4, 1500)] == ["0.05 g", "1.6 g", "23 g", "1.50 kg"]
