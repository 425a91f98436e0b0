"""Cautions on a bed's sheet: of its crops, its supports and covers, and an arch beside it."""

from __future__ import annotations

import pytest
from making import bed, garden, planting

from planner.crops.cautions import cautions
from planner.plan import Plan
from planner.sheets.cautions import bed_cautions, by_importance


def keys(*plantings, catalogue):
    document = garden(bed(), *plantings)
    return [caution.key for caution in bed_cautions(Plan(document, 2026, catalogue), document.beds[0])]


def test_a_bed_without_plantings_has_none(catalogue):
    assert keys(catalogue=catalogue) == []


def test_crops_bring_theirs(catalogue):
    assert "green_potato" in keys(planting(crop="potato"), catalogue=catalogue)


@pytest.mark.parametrize(
    ("kind", "expected"), [("arch", True), ("frame", True), ("stake", False), (None, False)]
)
def test_fruit_overhead_is_warned_of_only_where_it_hangs_overhead(catalogue, kind, expected):
    support = {"kind": kind} if kind else None
    found = keys(planting(crop="winter_squash", support=support), catalogue=catalogue)
    assert ("heavy_fruit_overhead" in found) is expected


def test_posts_bring_theirs_whatever_climbs_them(catalogue):
    assert "buried_services" in keys(planting(support={"kind": "stake"}), catalogue=catalogue)


@pytest.mark.parametrize(("kind", "expected"), [("netting", True), ("fleece", False)])
def test_nets_over_fruit_bring_theirs(catalogue, kind, expected):
    found = keys(planting(crop="strawberry", covers=({"kind": kind},)), catalogue=catalogue)
    assert ("nets_and_animals" in found) is expected


def test_film_is_spoken_of_where_film_lies(catalogue):
    melon = planting(crop="melon", covers=({"kind": "film"},))
    assert "film_warms_soil" in keys(melon, catalogue=catalogue)
    assert "film_warms_soil" not in keys(planting(crop="melon"), catalogue=catalogue)


def test_a_crop_brings_no_caution_of_another(catalogue):
    """Each is said of the crop in words that hold for it; jars are spoken of where it is grown for the store."""
    carrot = keys(planting(crop="carrot"), catalogue=catalogue)
    texts = " ".join(cautions(catalogue)[key].text for key in carrot)
    assert not any(word in texts for word in ("hemlock", "botulism", "Daffodil", "foxglove"))
    assert "low_acid_preserves" in keys(planting(crop="carrot", purpose="store"), catalogue=catalogue)
    bulbs = " ".join(
        cautions(catalogue)[key].text for key in keys(planting(crop="onion"), catalogue=catalogue)
    )
    assert "Daffodil" in bulbs
    assert "emlock" not in bulbs


def test_cautions_of_the_kitchen_come_after_those_of_the_bed(catalogue):
    found = [cautions(catalogue)[key] for key in ("oxalates", "treated_seed", "self_sows")]
    assert [caution.key for caution in by_importance(found)] == ["treated_seed", "oxalates", "self_sows"]
