"""Numbers and days as they are printed."""

from __future__ import annotations

import datetime as dt

import pytest

from planner.garden import Site
from planner.garden.units import show_mass
from planner.listings.phrases import Measure, counted, day_in, days_in_short, season, span
from planner.season.spans import Span

D = dt.date


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
    assert span(None, dt.date(2026, 4, 2)) == "until 2 Apr 2026"


def test_masses_of_seed():
    found = [show_mass(g) for g in (0.046, 0.99, 1.0, 1.56, 9.9, 10.0, 23.4, 999.4, 1000, 1500)]
    assert found == [
        "0.05 g",
        "0.99 g",
        "1.0 g",
        "1.6 g",
        "9.9 g",
        "10 g",
        "23 g",
        "999 g",
        "1.00 kg",
        "1.50 kg",
    ]


@pytest.mark.parametrize(
    ("first", "last", "words"),
    [
        (D(2026, 3, 3), D(2026, 3, 3), "3 Mar"),
        (D(2026, 3, 3), D(2026, 3, 9), "3 – 9 Mar"),
        (D(2026, 2, 28), D(2026, 3, 3), "28 Feb – 3 Mar"),
        (D(2026, 12, 30), D(2027, 1, 3), "30 Dec 2026 – 3 Jan 2027"),
        (D(2026, 3, 3), D(2027, 3, 9), "3 Mar 2026 – 9 Mar 2027"),
    ],
)
def test_days_in_short(first, last, words):
    assert days_in_short(first, last) == words


def test_a_day_has_its_year_only_outside_the_span():
    year = Span(D(2026, 1, 1), D(2026, 12, 31))
    assert [day_in(day, year) for day in (D(2026, 4, 12), D(2026, 12, 31), D(2027, 1, 1))] == [
        "12 Apr",
        "31 Dec",
        "1 Jan ’27",
    ]


def test_numbers_with_their_noun():
    found = [counted(number, "row") for number in (0, 1, 2, 1264)]
    assert found == ["0 rows", "1 row", "2 rows", "1,264 rows"]
    assert counted(3, "leaf", "leaves") == "3 leaves"
