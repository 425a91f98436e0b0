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
    assert D(2026, 4, 15) <= found.set_out.day <= D(2026, 5, 15), "two layers hold off more frost than one"
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


def test_a_flower_within_the_two_weeks_of_shelter_ends_it(catalogue):
    """Courgettes set out a month before their harvest flower after 10 days; later ones are uncovered before."""
    fleece = ({"kind": "fleece"},)
    soon = dates("courgette", ZONE_5, catalogue, covers=fleece, start="bought", first=D(2026, 6, 1), pinned_dates={"first_harvest": D(2026, 6, 21)})  # fmt: skip
    late = dates("courgette", ZONE_5, catalogue, covers=fleece, start="bought", first=D(2026, 6, 1), pinned_dates={"first_harvest": D(2026, 7, 21)})  # fmt: skip
    assert [day(found.flower) for found in (soon, late)] == [D(2026, 6, 11), D(2026, 7, 11)]
    assert [day(found.covers[0].off) for found in (soon, late)] == [D(2026, 6, 11), D(2026, 6, 15)]


def test_film_is_laid_a_week_ahead_of_a_warm_loving_crop_only(catalogue):
    film = ({"kind": "film"},)
    melon = dates("melon", ZONE_5, catalogue, covers=film)
    leek = dates("leek", ZONE_5, catalogue, covers=film)
    assert melon.set_out is not None
    assert melon.covers[0].on.day == melon.set_out.day - dt.timedelta(days=7)
    assert leek.set_out is not None
    assert leek.covers[0].on.day == leek.set_out.day


def test_a_perennial_is_covered_two_weeks_before_its_harvest(catalogue):
    found = dates(
        "strawberry", ZONE_5, catalogue, covers=({"kind": "netting"},), start="standing", first=D(2024, 4, 1)
    )
    assert found.first_harvest is not None
    assert found.covers[0].on.day == found.first_harvest.day - dt.timedelta(days=14)
