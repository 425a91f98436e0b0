"""First and last day of covers."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import ZONE_5, D, dates, day

from planner.garden import Cover


def test_winter_squash_likewise_with_fleece_on_hoops_for_two_weeks(catalogue):
    covers = ({"kind": "low tunnel"}, {"kind": "fleece"})
    found = dates("winter_squash", ZONE_5, catalogue, covers=covers)
    assert found.set_out is not None
    assert found.start == "raised"
    assert D(2026, 5, 4) <= found.set_out.day <= D(2026, 5, 15)
    for cover in found.covers:
        assert cover.on.day == found.set_out.day
        assert day(cover.off) == found.set_out.day + dt.timedelta(days=14)


@pytest.mark.parametrize("key", ["beetroot", "chard"])
def test_a_floating_cover_over_beet_and_chard_stays_from_sowing_to_clearing(catalogue, key):
    found = dates(key, ZONE_5, catalogue, covers=({"kind": "fleece"},))
    (cover,) = found.covers
    assert cover.on.day == day(found.sow)
    assert day(cover.off) == day(found.clear)


def test_a_closed_cover_comes_off_when_insects_must_reach_the_flowers(catalogue):
    found = dates("courgette", ZONE_5, catalogue, covers=({"kind": "netting"}, {"kind": "film"}))
    net, film = found.covers
    assert found.flower is not None
    assert day(net.off) == found.flower.day
    assert found.set_out is not None
    assert found.set_out.day < found.flower.day < day(found.first_harvest)
    assert day(film.off) == day(found.clear)


def test_days_of_a_cover_given_by_hand_stay(catalogue):
    by_hand = Cover(kind="fleece", first=D(2026, 5, 2), last=D(2026, 5, 9))
    (cover,) = dates("courgette", ZONE_5, catalogue, covers=(by_hand,)).covers
    assert (cover.on.day, day(cover.off), cover.on.pinned) == (D(2026, 5, 2), D(2026, 5, 9), True)
