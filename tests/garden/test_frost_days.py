"""Frost dates set by hand, one risk at a time."""

from __future__ import annotations

import pytest

from planner.garden import Climate, FrostDates, Garden
from planner.garden.edits import EditError, set_frost_day


def test_the_other_risks_begin_at_the_first_day_that_is_set():
    after = set_frost_day(Garden(climate=Climate(frost_free=True)), "last_frost", 50, "05-09")
    assert after.climate.last_frost == FrostDates(risk_10="05-09", risk_50="05-09", risk_90="05-09")
    assert after.climate.first_frost is None
    assert not after.climate.frost_free


def test_a_further_day_leaves_the_others_as_they_are():
    start = set_frost_day(Garden(), "first_frost", 50, "10-12")
    after = set_frost_day(start, "first_frost", 10, "10-02")
    assert after.climate.first_frost == FrostDates(risk_10="10-02", risk_50="10-12", risk_90="10-12")


@pytest.mark.parametrize(("day", "words"), [("10-20", "wrong order"), ("13-01", "is no day of the year")])
def test_days_that_cannot_be_are_refused(day, words):
    start = set_frost_day(Garden(), "first_frost", 50, "10-12")
    with pytest.raises(EditError, match=words):
        set_frost_day(start, "first_frost", 10, day)
