"""Inks can be distinguished, by all eyes."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
import shapely
from colour_sight import EYES, distance, lab, linear

from planner.crops import Catalogue
from planner.sheets.class_inks import CLASS_INKS, MOST_PEOPLE, SCALES
from planner.sheets.family_inks import (
    BASE_INKS,
    KNOWN_FAMILIES,
    NIGHT,
    PAPER,
    Rgb,
    family_ink,
)
from planner.sheets.hatches import HATCHES, hatch_sheet

#: Least distance of two base inks in CIELAB, whatever the eyes.
LEAST_DISTANCE = 17.0
#: Least share of light and dark between ink and ground (WCAG 2 for graphics is 3).
LEAST_CONTRAST = 3.0


def luminance(rgb: Rgb) -> float:
    return float(linear(rgb) @ [0.2126, 0.7152, 0.0722])


def contrast(one: Rgb, other: Rgb) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_lab_of_known_colours():
    assert lab((1, 1, 1)) == pytest.approx([100, 0, 0], abs=0.02)
    assert lab((1, 0, 0)) == pytest.approx([53.24, 80.09, 67.20], abs=0.05)


@pytest.mark.parametrize("eyes", sorted(EYES))
@pytest.mark.parametrize("dark", [False, True])
def test_base_inks_are_far_apart_for_all_eyes(eyes: str, dark: bool):
    for one, other in combinations(BASE_INKS, 2):
        apart = distance(BASE_INKS[one][dark], BASE_INKS[other][dark], eyes)
        assert apart >= LEAST_DISTANCE, (one, other)


@pytest.mark.parametrize("dark", [False, True])
def test_inks_stand_out_from_their_ground_and_tint(dark: bool):
    for name, pair in BASE_INKS.items():
        assert contrast(pair[dark], NIGHT if dark else PAPER) >= LEAST_CONTRAST, name


def test_families_of_the_same_ink_differ_in_hatch():
    pairs = [(family_ink(family).base, family_ink(family).hatch) for family in KNOWN_FAMILIES]
    assert len(set(pairs)) == len(pairs)


def test_every_family_of_the_catalogue_has_an_ink_of_its_own(catalogue: Catalogue):
    families = {crop.family for crop in catalogue.crops.values()}
    assert families <= set(KNOWN_FAMILIES)


def test_unknown_family_has_the_same_ink_every_time():
    assert family_ink("Zingiberaceae") == family_ink("Zingiberaceae")
    assert family_ink("Zingiberaceae").hatch in HATCHES
    assert family_ink("").base in BASE_INKS


@pytest.mark.parametrize("scale", sorted(SCALES))
@pytest.mark.parametrize("dark", [False, True])
def test_classes_of_a_scale_differ_in_ink_for_all_eyes_and_in_hatch(scale: str, dark: bool):
    inks = {name: family_ink(f"{scale}/{name}", dark=dark) for name in SCALES[scale]}
    assert len({ink.hatch for ink in inks.values()}) == len(inks)
    assert {ink.base for ink in inks.values()} <= set(BASE_INKS)
    for eyes in EYES:
        for one, other in combinations(inks, 2):
            if scale == "tended" and inks[one].base == inks[other].base:
                continue  # more people than inks: their hatches tell them apart
            lines = distance(inks[one].line_rgb, inks[other].line_rgb, eyes)
            assert lines >= LEAST_DISTANCE, (one, other, eyes)


def test_no_class_has_the_key_of_a_family():
    assert not set(CLASS_INKS) & set(KNOWN_FAMILIES)
    assert all("/" in key for key in CLASS_INKS)


def test_twelve_people_have_hatches_of_their_own():
    hatches = [family_ink(f"tended/{number + 1}").hatch for number in range(MOST_PEOPLE)]
    assert len(set(hatches)) == len(hatches) == 12
    pairs = {(family_ink(key).base, family_ink(key).hatch) for key in CLASS_INKS if key.startswith("tended/")}
    assert len(pairs) == 13


def test_broken_lines_lie_on_the_whole_ones_and_are_half_as_long():
    for name, hatch in HATCHES.items():
        if not hatch.broken:
            continue
        dashes = shapely.multilinestrings(np.array(hatch_sheet(hatch, 60.0)).reshape(-1, 2, 2))
        whole = np.array(hatch_sheet(HATCHES[name.removeprefix("broken ")], 60.0)).reshape(-1, 2, 2)
        assert shapely.difference(dashes, shapely.buffer(shapely.multilinestrings(whole), 1e-6)).is_empty
        assert 0.45 < dashes.length / shapely.multilinestrings(whole).length < 0.6
