"""Colours as eyes of each kind see them, and how far apart they are."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

# Machado, Oliveira, Fernandes (2009), A physiologically-based model for simulation of color vision
# deficiency, table for severity 1.0; recalled, and found alike in several public programs.
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


def linear(rgb: Sequence[float]) -> np.ndarray:
    given = np.array(rgb)
    return np.where(given <= 0.04045, given / 12.92, ((given + 0.055) / 1.055) ** 2.4)


def lab(rgb: Sequence[float], eyes: str = "full") -> np.ndarray:
    """CIELAB (D65) of shares of red, green and blue, seen with eyes."""
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


def distance(one: Sequence[float], other: Sequence[float], eyes: str = "full") -> float:
    """Distance in CIELAB (1976)."""
    return float(np.linalg.norm(lab(one, eyes) - lab(other, eyes)))
