"""Inks can be distinguished, by all eyes."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest

from planner.crops import Catalogue
from planner.sheets.class_inks import CLASS_INKS, SCALES
from planner.sheets.family_inks import (
    BASE_INKS,
    KNOWN_FAMILIES,
    NIGHT,
    PAPER,
    Rgb,
    family_ink,
)
from planner.sheets.hatches import HATCHES

# Machado, Oliveira, Fernandes (2009), A physiologically-based model for simulation of color vision
# deficiency, table for severity 1.0; recalled.
EYES = {
    "full": np.eye(3),
    "protanopia": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    "deuteranopia": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
    "tritanopia": np.array(
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
    ),
}
#: Least distance of two base inks in CIELAB, whatever the eyes.
LEAST_DISTANCE = 17.0
#: Least share of light and dark between ink and ground (WCAG 2 for graphics is 3).
LEAST_CONTRAST = 3.0


def linear(rgb: Rgb) -> np.ndarray:
    given = np.array(rgb)
    return np.where(given <= 0.04045, given / 12.92, ((given + 0.055) / 1.055) ** 2.4)


def lab(rgb: Rgb, eyes: str = "full") -> np.ndarray:
    light = np.clip(EYES[eyes] @ linear(rgb), 0, 1)
    to_xyz = np.array(
        [
            [0.4124564, 0.3575761, 0.1804375],
            [0.2126729, 0.7151522, 0.0721750],
            [0.0193339, 0.1191920, 0.9503041],
        ]
    )
    xyz = to_xyz @ light / [0.95047, 1.0, 1.08883]
    f = np.where(xyz > 216 / 24389, np.cbrt(xyz), (24389 / 27 * xyz + 16) / 116)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


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
        distance = np.linalg.norm(lab(BASE_INKS[one][dark], eyes) - lab(BASE_INKS[other][dark], eyes))
        assert distance >= LEAST_DISTANCE, (one, other)


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
            lines = np.linalg.norm(lab(inks[one].line_rgb, eyes) - lab(inks[other].line_rgb, eyes))
            assert lines >= LEAST_DISTANCE, (one, other, eyes)


def test_no_class_has_the_key_of_a_family():
    assert not set(CLASS_INKS) & set(KNOWN_FAMILIES)
    assert all("/" in key for key in CLASS_INKS)
