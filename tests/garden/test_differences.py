"""What differs between two gardens, in numbers and in words."""

from __future__ import annotations

import datetime as dt

from making import bed, garden, planting, rectangle, ticked

from planner.garden import Garden, Site
from planner.garden import edits as e
from planner.garden.differences import difference_words, differences

START = garden(bed("b1"), bed("b2", rectangle(center=(0, 4))), planting("p1", "b1"), planting("p2", "b2"))


def test_the_same_garden_has_no_difference():
    assert differences(START, START) == {}
    assert difference_words(START, START) == "no difference"


def test_beds_and_plantings_are_counted():
    after = e.remove(START, ["b2"])
    after = e.add_bed(e.add_bed(after, rectangle(center=(0, 8)))[0], rectangle(center=(0, 12)))[0]
    after = e.change_planting(after, "p1", notes="new")
    # A new bed takes the free id b2: it counts as that bed changed.
    assert differences(START, after) == {"beds": (1, 0, 1), "plantings": (0, 1, 1)}
    words = difference_words(START, after)
    assert words == "1 bed added, 1 bed changed, 1 planting removed and 1 planting changed"


def test_records_are_told():
    after = START.with_(records=(ticked("p1", "sow", dt.date(2026, 4, 1)),))
    assert difference_words(START, after) == "1 record added"
    assert difference_words(after, START) == "1 record removed"


def test_what_is_no_thing_is_told_too():
    assert (
        difference_words(Garden(), Garden(site=Site(name="Other")))
        == "site, climate, weather, household, underlay or notes changed"
    )
