"""Work between the start and the harvest: thinning, hardening off, pricking out, mulch."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import CLIMATE, D, dates, day, ripe_in
from making import catalogue_of, crop


def drilled(days: int, **figures):
    """A crop sown in a drill that is thinned, with days to maturity; it comes up after 10 days."""
    return crop(
        "drilled",
        sow_from=0,
        harvest_days=9,
        sowing_spacing=0.01,
        in_row_spacing=0.1,
        **ripe_in(days),
        **figures,
    )


@pytest.mark.parametrize(
    ("days", "thinned", "why"),
    [
        (100, D(2026, 5, 25), "14 days after it comes up"),
        (48, D(2026, 5, 25), "14 days after it comes up"),
        (40, D(2026, 5, 21), "10 days after it comes up"),
        (32, D(2026, 5, 17), "6 days after it comes up"),
        (6, D(2026, 5, 11), "0 days after it comes up"),
    ],
)
def test_a_drill_is_thinned_two_weeks_after_it_comes_up_but_half_way_to_its_harvest_at_the_latest(
    days, thinned, why
):
    found = dates("drilled", shelf=catalogue_of(drilled(days)))
    assert day(found.emerge) == D(2026, 5, 11)
    assert found.thin is not None
    assert (found.thin.day, found.thin.why) == (thinned, why)


def test_a_harvest_given_by_hand_does_not_hasten_the_thinning():
    found = dates("drilled", shelf=catalogue_of(drilled(60)), first=D(2026, 5, 1), pinned_dates={"first_harvest": D(2026, 5, 20)})  # fmt: skip
    assert day(found.thin) == D(2026, 5, 25)


@pytest.mark.parametrize(("germination", "thinned"), [(0.94, True), (0.95, False), (0.99, False)])
def test_stations_are_thinned_where_one_seed_alone_is_not_sure(germination, thinned):
    one = crop("one", sow_from=0, days_to_maturity=100, harvest_days=9, germination=germination)
    assert (dates("one", shelf=catalogue_of(one)).thin is not None) == thinned


RAISED = {"starts": {"value": ["raised"], "source": "practice"}, "set_out_from": 0, "days_to_maturity": 60}


@pytest.mark.parametrize(("weeks", "pricked"), [(4, None), (5, D(2026, 4, 16)), (6, D(2026, 4, 9))])
def test_seedlings_raised_for_five_weeks_or_more_are_pricked_out(weeks, pricked):
    found = dates("one", shelf=catalogue_of(crop("one", weeks_to_raise=weeks, **RAISED)))
    assert day(found.prick_out) == pricked
    assert day(found.harden_off) == D(2026, 4, 23)


def test_seedlings_of_four_weeks_are_sown_into_their_own_cells():
    pins = {"set_out": D(2026, 5, 1), "harden_off": D(2026, 4, 29)}
    short, long = (
        dates("one", shelf=catalogue_of(crop("one", weeks_to_raise=weeks, **RAISED)), pinned_dates=pins)
        for weeks in (4, 5)
    )
    assert (short.prick_out, day(long.prick_out)) == (None, D(2026, 4, 16))


def test_pricking_out_after_hardening_off_has_begun_is_left_out():
    late = dates("one", shelf=catalogue_of(crop("one", weeks_to_raise=6, **RAISED)), pinned_dates={"sow": D(2026, 4, 4), "set_out": D(2026, 5, 1)})  # fmt: skip
    assert (day(late.emerge), late.prick_out) == (D(2026, 4, 14), None)
    early = dates("one", shelf=catalogue_of(crop("one", weeks_to_raise=6, **RAISED)), pinned_dates={"sow": D(2026, 4, 2), "set_out": D(2026, 5, 1)})  # fmt: skip
    assert day(early.prick_out) == D(2026, 4, 22)


def test_hardening_off_does_not_begin_before_the_sowing():
    found = dates("one", shelf=catalogue_of(crop("one", weeks_to_raise=6, **RAISED)), pinned_dates={"sow": D(2026, 4, 28), "set_out": D(2026, 5, 1)})  # fmt: skip
    assert day(found.harden_off) == D(2026, 4, 28)


@pytest.mark.parametrize(
    ("first", "mulched"),
    [(D(2026, 1, 20), D(2026, 2, 10)), (D(2026, 1, 22), None), (D(2025, 10, 15), D(2025, 11, 5))],
)
def test_cloves_that_lie_through_a_winter_are_mulched(catalogue, first, mulched):
    assert day(dates("garlic", shelf=catalogue, first=first, year=2025).care_day("mulch")) == mulched


def test_a_perennial_is_mulched_each_spring_from_the_one_after_it_is_set(catalogue):
    set_early = dates("raspberry", shelf=catalogue, start="bought", first=D(2026, 3, 1))
    set_late = dates("raspberry", shelf=catalogue, start="bought", first=D(2026, 4, 3))
    assert CLIMATE.last_frost is not None
    assert day(set_early.care_day("mulch")) == D(2026, 5, 1) - dt.timedelta(days=28)
    assert set_late.care_day("mulch") is None
