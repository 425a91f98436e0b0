"""Frost dates set by hand, one or several at a time."""

from __future__ import annotations

import itertools

import pytest

from planner.garden import Climate, FrostDates, Garden
from planner.garden.edits import EditError, set_frost_days
from planner.season.frosts import frost_day
from planner.storage.document import dump, parse

NORTH = {90: "04-05", 50: "04-25", 10: "05-12"}
SOUTH = {90: "09-14", 50: "10-12", 10: "11-10"}


def test_a_lone_day_is_that_of_its_risk_and_stands_for_the_others():
    after = set_frost_days(Garden(climate=Climate(frost_free=True)), "last_frost", {50: "05-09"})
    assert after.climate.last_frost == FrostDates(risk_50="05-09")
    assert [frost_day(after.climate.last_frost, risk) for risk in (10, 50, 90)] == ["05-09"] * 3
    assert after.climate.first_frost is None
    assert not after.climate.frost_free


@pytest.mark.parametrize("days", [NORTH, SOUTH])
@pytest.mark.parametrize("order", list(itertools.permutations((90, 50, 10))))
def test_three_days_can_be_set_in_any_order(days, order):
    garden = Garden()
    for risk in order:
        garden = set_frost_days(garden, "last_frost", {risk: days[risk]})
    assert garden.climate.last_frost.given == days


@pytest.mark.parametrize("order", list(itertools.permutations((10, 50, 90))))
def test_autumn_in_the_south_can_be_set_in_any_order(order):
    days = {10: "04-02", 50: "04-25", 90: "05-18"}
    garden = Garden()
    for risk in order:
        garden = set_frost_days(garden, "first_frost", {risk: days[risk]})
    assert garden.climate.first_frost.given == days


def test_of_two_known_days_the_nearer_one_stands_for_the_third():
    dates = FrostDates(risk_10="05-12", risk_90="04-05")
    assert [dates.at(risk) for risk in (10, 50, 90)] == ["05-12", "05-12", "04-05"]
    assert FrostDates(risk_50="04-25", risk_90="04-05").at(10) == "04-25"


def test_several_days_are_checked_together():
    start = set_frost_days(Garden(), "last_frost", NORTH)
    later = {90: "05-01", 50: "05-20"}
    with pytest.raises(EditError, match="comes after"):
        set_frost_days(start, "last_frost", {90: "05-01"})
    with pytest.raises(EditError, match="20 May, comes after that at 10 %, 12 May"):
        set_frost_days(start, "last_frost", later)
    after = set_frost_days(start, "last_frost", {**later, 10: "06-01"})
    assert after.climate.last_frost.given == {10: "06-01", 50: "05-20", 90: "05-01"}


def test_a_day_is_taken_away_again():
    start = set_frost_days(Garden(), "first_frost", {10: "10-02", 50: "10-12"})
    one = set_frost_days(start, "first_frost", {10: None})
    assert one.climate.first_frost == FrostDates(risk_50="10-12")
    assert set_frost_days(one, "first_frost", {50: None}).climate.first_frost is None


@pytest.mark.parametrize(("day", "words"), [("10-20", "comes after"), ("13-01", "is no day of the year")])
def test_days_that_cannot_be_are_refused(day, words):
    start = set_frost_days(Garden(), "first_frost", {50: "10-12"})
    with pytest.raises(EditError, match=words):
        set_frost_days(start, "first_frost", {10: day})


def test_a_file_holds_the_days_that_are_given_and_no_others():
    garden = set_frost_days(Garden(), "last_frost", {50: "05-09"})
    text = dump(garden)
    assert "risk_50" in text
    assert "risk_10" not in text
    assert parse(text) == garden
