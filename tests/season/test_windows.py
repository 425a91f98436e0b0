"""Windows in which crops are started."""

from __future__ import annotations

import pytest
from dated_plantings import D, dates, day
from making import bed, catalogue_of, crop, garden, planting

from planner.plan import Plan

WINDOW = crop(
    "one", sow_from=-3, sow_until=4, autumn_from=-8, autumn_until=-4, days_to_maturity=60, harvest_days=9
)


def doubts(first) -> tuple[str, ...]:
    return dates("one", shelf=catalogue_of(WINDOW), first=first).doubts


@pytest.mark.parametrize(
    ("first", "words"),
    [
        (D(2026, 4, 2), "before its window opens on 10 Apr"),
        (D(2026, 4, 3), ""),
        (D(2026, 6, 6), ""),
        (D(2026, 8, 5), "after its window closed on "),
    ],
)
def test_a_start_more_than_a_week_outside_its_window_is_pointed_out(first, words):
    assert [words in doubt for doubt in doubts(first)] == ([True] if words else [])


def test_a_window_stays_open_while_the_crop_is_picked_before_the_cold():
    """A printed end counts from the spring frost of another place: here it would be 29 May, and the cold comes in October."""
    shelf = catalogue_of(WINDOW)
    for first in (D(2026, 6, 15), D(2026, 7, 1), D(2026, 7, 15)):
        found = dates("one", shelf=shelf, first=first)
        assert found.first_harvest is not None
        assert found.first_harvest.day < D(2026, 10, 16)
        assert found.doubts == ()
    late = dates("one", shelf=shelf, first=D(2026, 8, 5))
    assert late.first_harvest is not None
    assert late.first_harvest.day > D(2026, 10, 16)


@pytest.mark.parametrize(
    ("first", "fits"),
    [(D(2026, 8, 6), False), (D(2026, 8, 7), True), (D(2026, 10, 2), True), (D(2026, 10, 3), False)],
)
def test_two_weeks_around_its_autumn_window_are_no_fault(first, fits):
    """The window runs from 21 August to 18 September."""
    assert (doubts(first) == ()) == fits


@pytest.mark.parametrize(
    ("days", "spring", "autumn"),
    [(260, -3, True), (199, -3, False), (205, -6, False), (220, -6, True)],
)
def test_a_slow_crop_that_spring_would_not_ripen_is_started_in_autumn(days, spring, autumn):
    """Sown on 10 April it has 189 days until the frost; on 20 March 210."""
    one = crop("one", sow_from=spring, autumn_from=-2, days_to_maturity=days, harvest_days=9)
    assert day(dates("one", shelf=catalogue_of(one)).sow) == (
        D(2026, 10, 2) if autumn else D(2026, 5, 1) - (D(2026, 5, 1) - D(2026, 4, 10)) * (-spring / 3)
    )


@pytest.mark.parametrize("year", [2026, 2027])
@pytest.mark.parametrize("timing", [None, "autumn"])
def test_garlic_planted_in_the_autumn_before_its_year_is_in_its_window(year, timing):
    frosts = {
        "last_frost": {"risk_10": "05-10", "risk_50": "04-25", "risk_90": "04-10"},
        "first_frost": {"risk_10": "10-05", "risk_50": "10-20", "risk_90": "11-06"},
    }
    garlic = planting(crop="garlic", year=year, first="2026-11-10", timing=timing)
    made = garden(bed(), garlic, climate=frosts, site={"latitude": 52.2})
    assert Plan(made, 2027).dates(made.plantings[0]).doubts == ()
