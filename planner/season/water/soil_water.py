"""Water that a soil holds for plants, and how readily it gives it (FAO 56, chapters 7 and 8)."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Numbers = NDArray[np.float64]

#: The share that is drawn without harm is held between these (table 22).
LEAST_SHARE, MOST_SHARE = 0.1, 0.8


def available_water(available: ArrayLike, depth: ArrayLike) -> Numbers:
    """Water that plants can draw from their root zone (equation 82). [mm]

    Parameters
    ----------
    available : array of float
        Water at field capacity less that at the wilting point. [m3/m3]
    depth : array of float
        Of the roots. [m]
    """
    found: Numbers = 1000 * np.asarray(available, dtype=np.float64) * np.asarray(depth, dtype=np.float64)
    return found


def share_without_harm(table: ArrayLike, taken: ArrayLike) -> Numbers:
    """Share of the available water that is drawn without harm, by what the crop takes (table 22).

    Parameters
    ----------
    table : array of float
        The table's share, at 5 mm a day.
    taken : array of float
        Evapotranspiration of the crop. [mm/day]
    """
    share = np.asarray(table, dtype=np.float64) + 0.04 * (5 - np.asarray(taken, dtype=np.float64))
    return np.clip(share, LEAST_SHARE, MOST_SHARE)


def stress(depletion: ArrayLike, available: ArrayLike, readily: ArrayLike) -> Numbers:
    """Share of its transpiration that a crop keeps up as its soil dries (equation 84), 1 where it is moist enough.

    Parameters
    ----------
    depletion : array of float
        Water that is missing in the root zone. [mm]
    available, readily : array of float
        Water that can be drawn, and can be drawn without harm. [mm]
    """
    whole = np.asarray(available, dtype=np.float64)
    left = whole - np.asarray(depletion, dtype=np.float64)
    return np.clip(left / np.maximum(whole - np.asarray(readily, dtype=np.float64), 1e-9), 0.0, 1.0)


def evaporable_water(field_capacity: ArrayLike, wilting_point: ArrayLike, depth: float) -> Numbers:
    """Water that can evaporate from the topsoil (equation 73). [mm]

    Parameters
    ----------
    field_capacity, wilting_point : array of float
        [m3/m3]
    depth : float
        Of the topsoil that dries. [m]
    """
    dry = np.asarray(field_capacity, dtype=np.float64) - 0.5 * np.asarray(wilting_point, dtype=np.float64)
    found: Numbers = 1000 * dry * depth
    return found


def surface_wetness(depletion: ArrayLike, evaporable: ArrayLike, readily: ArrayLike) -> Numbers:
    """How freely the topsoil evaporates, 1 of wet to 0 of dry soil (equation 74).

    Parameters
    ----------
    depletion : array of float
        Water that is missing in it. [mm]
    evaporable, readily : array of float
        Water that can evaporate in all, and at the full pace. [mm]
    """
    return stress(depletion, evaporable, readily)
