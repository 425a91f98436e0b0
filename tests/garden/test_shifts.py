"""Days of a planting that are pinned so many days later or earlier."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.garden import PinnedDates
from planner.garden.edits import EditError, shift_planting

D = dt.date
FIRST, LAST = D(2026, 4, 20), D(2026, 8, 10)


def shifted(part, days, **fields):
    start = garden(bed(), planting(**fields))
    return shift_planting(start, "p1", part, days, FIRST, LAST).plantings[0]


@pytest.mark.parametrize(
    ("days", "first"), [(10, D(2026, 4, 30)), (-20, D(2026, 3, 31)), (400, D(2026, 8, 9))]
)
def test_the_first_day_is_pinned_and_a_day_is_left(days, first):
    after = shifted("start", days)
    assert (after.first, after.last) == (first, None)


@pytest.mark.parametrize(
    ("days", "last"), [(10, D(2026, 8, 20)), (-30, D(2026, 7, 11)), (-400, D(2026, 4, 21))]
)
def test_the_last_day_is_pinned_and_a_day_is_left(days, last):
    after = shifted("end", days)
    assert (after.first, after.last) == (None, last)


def test_a_whole_planting_takes_its_pinned_days_along():
    pins = PinnedDates(sow=D(2026, 3, 1), first_harvest=D(2026, 7, 1))
    after = shifted("all", 7, first=FIRST, last=LAST, pinned_dates=pins)
    assert (after.first, after.last) == (D(2026, 4, 27), D(2026, 8, 17))
    assert after.pinned_dates == PinnedDates(sow=D(2026, 3, 8), first_harvest=D(2026, 7, 8))


def test_what_is_worked_out_stays_worked_out():
    after = shifted("all", -7)
    assert (after.first, after.last, after.pinned_dates) == (D(2026, 4, 13), None, PinnedDates())


def test_a_planting_that_is_not_there_is_refused():
    with pytest.raises(EditError, match="there is no planting 'p9'"):
        shift_planting(garden(bed()), "p9", "end", 1, FIRST, LAST)
