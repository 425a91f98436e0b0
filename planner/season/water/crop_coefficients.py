"""What a crop takes of water, as a multiple of the reference grass: its coefficient by stage, climate and cover of the ground.

FAO 56, chapters 6 (single coefficient), 7 (basal and evaporation), 9 (thin stands) and 10 (mulch).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from planner.sun import radiation_by_day

Numbers = NDArray[np.float64]

#: Humidity and wind for which the tables are made. [per cent], [m/s]
TABLE_HUMIDITY, TABLE_WIND = 45.0, 2.0
#: Coefficients below this are not adjusted to the climate: the crop dries off (equations 62 and 65).
_DRY = 0.45
#: Of dry bare ground (equations 76 and 98).
BARE_GROUND = 0.15
#: Ground is never covered more than this (equation 75).
MOST_COVER = 0.99
#: Cover from which a stand counts as full: the table's own coefficients hold (FAO 56, table 21).
FULL_COVER = 0.80


def climate_term(wind: ArrayLike, humidity: ArrayLike, height: ArrayLike) -> Numbers:
    """What wind, dry air and a tall crop add to a coefficient (equations 62, 65 and 70).

    Parameters
    ----------
    wind : array of float
        At 2 m; held between 1 and 6. [m/s]
    humidity : array of float
        Least relative humidity of the day; held between 20 and 80. [per cent]
    height : array of float
        Of the crop; held between 0.1 and 10. [m]
    """
    blowing = np.clip(np.asarray(wind, dtype=np.float64), 1.0, 6.0) - TABLE_WIND
    damp = np.clip(np.asarray(humidity, dtype=np.float64), 20.0, 80.0) - TABLE_HUMIDITY
    tall = np.clip(np.asarray(height, dtype=np.float64), 0.1, 10.0)
    added: Numbers = (0.04 * blowing - 0.004 * damp) * (tall / 3) ** 0.3
    return added


def for_climate(coefficient: ArrayLike, wind: ArrayLike, humidity: ArrayLike, height: ArrayLike) -> Numbers:
    """A coefficient of the middle or the late stage in another climate than the table's (equations 62, 65 and 70).

    Parameters
    ----------
    coefficient : array of float
        Of the table; one below 0.45 stays as it is.
    wind, humidity, height : array of float
        See :func:`climate_term`.

    Examples
    --------
    >>> round(float(for_climate(1.20, 1.3, 75, 2.0)), 2)  # example 27: maize near Taipei
    1.07
    """
    given = np.asarray(coefficient, dtype=np.float64)
    return np.where(given < _DRY, given, given + climate_term(wind, humidity, height))


def by_stage(days: ArrayLike, lengths: Sequence[float], values: Sequence[float]) -> Numbers:
    """The coefficient on days of the season (equation 66): level, rising, level, falling.

    Parameters
    ----------
    days : array of float
        1 is the first day of the season.
    lengths : sequence of 4 float
        Initial, development, middle and late stage. [days]
    values : sequence of 3 float
        Of the initial and the middle stage, and at the end of the late one.
    """
    ends = np.cumsum(np.asarray(lengths, dtype=np.float64))
    initial, middle, end = values
    found: Numbers = np.interp(np.asarray(days, dtype=np.float64), ends, [initial, middle, middle, end])
    return found


def upper_limit(basal: ArrayLike, wind: ArrayLike, humidity: ArrayLike, height: ArrayLike) -> Numbers:
    """The most that crop and wet ground take together (equation 72)."""
    return np.maximum(1.2 + climate_term(wind, humidity, height), np.asarray(basal, dtype=np.float64) + 0.05)


def ground_covered(basal: ArrayLike, limit: ArrayLike, height: ArrayLike) -> Numbers:
    """Share of the ground that leaves cover, as the basal coefficient tells it (equation 76).

    Parameters
    ----------
    basal, limit : array of float
        Basal coefficient and :func:`upper_limit`.
    height : array of float
        Of the crop. [m]
    """
    grown = np.maximum(np.asarray(basal, dtype=np.float64) - BARE_GROUND, 0.01)
    room = np.maximum(np.asarray(limit, dtype=np.float64) - BARE_GROUND, 0.02)
    covered = (grown / room) ** (1 + 0.5 * np.asarray(height, dtype=np.float64))
    return np.clip(covered, 0.0, MOST_COVER)


def exposed_and_wetted(covered: ArrayLike, wetted: ArrayLike, *, under_leaves: bool = False) -> Numbers:
    """Share of the ground from which most water evaporates (equation 75).

    Parameters
    ----------
    covered : array of float
        Share of the ground under leaves.
    wetted : array of float
        Share of the ground that was wetted.
    under_leaves : bool
        Drip lines whose wet spots lie in the shade of the leaves (example 34).
    """
    leaves = np.asarray(covered, dtype=np.float64)
    wet = np.asarray(wetted, dtype=np.float64)
    if under_leaves:
        wet = wet * (1 - 0.67 * leaves)
    return np.maximum(np.minimum(1 - leaves, wet), 0.01)


def soil_evaporation(dryness: ArrayLike, basal: ArrayLike, limit: ArrayLike, exposed: ArrayLike) -> Numbers:
    """The coefficient of evaporation from the soil (equation 71).

    Parameters
    ----------
    dryness : array of float
        1 of wet topsoil, 0 of dry (equation 74).
    basal, limit : array of float
        Basal coefficient and :func:`upper_limit`.
    exposed : array of float
        See :func:`exposed_and_wetted`.
    """
    most = np.asarray(limit, dtype=np.float64)
    free = np.asarray(dryness, dtype=np.float64) * (most - np.asarray(basal, dtype=np.float64))
    return np.minimum(free, np.asarray(exposed, dtype=np.float64) * most)


def of_thin_stand(full: ArrayLike, cover: ArrayLike, shaded: ArrayLike, height: ArrayLike) -> Numbers:
    """Basal coefficient of the middle stage of plants that do not cover their ground (equation 98).

    Parameters
    ----------
    full : array of float
        Of the same plants where they cover all of it.
    cover : array of float
        Share of the ground under leaves, seen from above.
    shaded : array of float
        Share of it in the shade at noon; see :func:`shade_at_noon`.
    height : array of float
        [m]
    """
    tall = np.asarray(height, dtype=np.float64)
    leaves = np.clip(np.asarray(cover, dtype=np.float64), 0.0, 1.0)
    shade = np.clip(np.asarray(shaded, dtype=np.float64), 0.0, 1.0)
    part = np.minimum(1.0, np.minimum(2 * leaves, shade ** (1 / (1 + tall))))
    found: Numbers = BARE_GROUND + (np.asarray(full, dtype=np.float64) - BARE_GROUND) * part
    return found


def shade_at_noon(
    cover: ArrayLike, latitude: float, day_of_year: int, height_to_width: float = 0.0
) -> Numbers:
    """Share of the ground in the shade of leaves at noon (FAO 56, box 18).

    Parameters
    ----------
    cover : array of float
        Share of the ground under leaves, seen from above.
    latitude : float
        [degrees north]
    day_of_year : int
        1 to 366.
    height_to_width : float
        Of rows from east to west; 0 of rows from north to south.  Single round plants are taken where it is below 0.
    """
    tilt = 0.409 * np.sin(2 * np.pi * day_of_year / 365 - 1.39)
    north = np.radians(latitude)
    upward = float(np.clip(np.sin(north) * np.sin(tilt) + np.cos(north) * np.cos(tilt), 0.05, 1.0))
    leaves = np.asarray(cover, dtype=np.float64)
    if height_to_width < 0:
        return np.minimum(leaves / upward, 1.0)
    steep = float(np.tan(np.arcsin(min(upward, 0.9999))))
    return np.minimum(leaves * (1 + height_to_width / steep), 1.0)


def brightest_day(latitude: float) -> int:
    """The day of the year on which most sun comes above the atmosphere, 1 to 366."""
    return int(radiation_by_day(latitude).argmax()) + 1


def under_organic_mulch(covered_by_mulch: ArrayLike, cut: float) -> Numbers:
    """Share of the evaporation that a layer of straw or bark leaves (FAO 56, chapter 10).

    Parameters
    ----------
    covered_by_mulch : array of float
        Share of the ground under it.
    cut : float
        By how much it is less where all of it is covered: 0.5.
    """
    left: Numbers = 1.0 - cut * np.clip(np.asarray(covered_by_mulch, dtype=np.float64), 0.0, 1.0)
    return left
