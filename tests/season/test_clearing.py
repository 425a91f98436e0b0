"""When a planting leaves its plot."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import D, dates, day, ripe_in
from making import catalogue_of, crop

DAY = dt.timedelta(days=1)
#: The first autumn frost of the tests' climate.
FROST = D(2026, 10, 16)
MANURE = {"purpose": "green manure"}


def test_a_tender_crop_that_does_not_ripen_is_killed_by_the_frost():
    late = dates("bean", first=D(2026, 8, 20))
    assert late.clear is not None
    assert (late.clear.day, late.clear.why) == (FROST, "Killed by the first autumn frost")
    hardy = crop("hardy", hardiness="frost-tolerant", harvest_days=10, **ripe_in(199))
    unripe = dates("hardy", shelf=catalogue_of(hardy), first=D(2026, 5, 10))
    assert not unripe.ripens
    assert unripe.clear is not None
    assert unripe.clear.why == "When the harvest is over"


@pytest.mark.parametrize(("days", "winter"), [(70, False), (69, True), (-30, True), (-59, True)])
def test_green_manure_sown_within_ten_weeks_of_the_frost_is_dug_in_before_the_last_frost_of_spring(
    days, winter
):
    found = dates("kale", first=FROST - days * DAY, **MANURE)
    assert found.clear is not None
    if winter:
        assert found.clear.day == D(2027, 5, 1) - 28 * DAY
    else:
        assert found.clear.day == FROST - days * DAY + 60 * DAY, "when it flowers"


def test_green_manure_that_frost_kills_is_dug_in_when_it_flowers():
    found = dates("bean", first=FROST - 30 * DAY, **MANURE)
    assert day(found.clear) == FROST + 30 * DAY
    assert found.first_harvest is None


def test_clearing_before_the_worked_out_end_cuts_the_harvest_short():
    """Ripe on 9 June, picked until 28 June."""
    sown = {"first": D(2026, 4, 10)}
    cut = dates("hardy", last=D(2026, 6, 15), **sown)
    assert cut.last_harvest is not None
    assert (cut.last_harvest.day, cut.last_harvest.why) == (D(2026, 6, 15), "Cleared then")
    none = dates("hardy", last=D(2026, 6, 1), **sown)
    assert none.last_harvest is None
    assert none.doubts == ("hardy is cleared on 1 Jun, before its first harvest (9 Jun)",)
    given = dates("hardy", last=D(2026, 6, 15), pinned_dates={"last_harvest": D(2026, 6, 20)}, **sown)
    assert day(given.last_harvest) == D(2026, 6, 20), "a day given by hand stays"
