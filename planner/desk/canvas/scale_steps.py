"""How far apart the marks and numbers of a scale stand."""

from __future__ import annotations

from planner.garden.units import FOOT

#: Least distance of two marks, and of two numbers. [pixels]
LEAST_MARK, LEAST_NUMBER = 6.0, 58.0

_METRIC = (0.01, 0.05, 0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0, 100.0, 500.0)
_FEET = (FOOT / 12, FOOT / 4, FOOT, 2 * FOOT, 5 * FOOT, 10 * FOOT, 50 * FOOT, 100 * FOOT, 500 * FOOT)


def scale_steps(pixels_per_metre: float, *, metric: bool) -> tuple[float, float]:
    """Distance of marks and of numbers on a scale. [m]

    Parameters
    ----------
    pixels_per_metre : float
        Zoom.
    metric : bool
        Whether lengths are shown in metres, not in feet and inches.
    """
    ladder = _METRIC if metric else _FEET
    marks = next((s for s in ladder if s * pixels_per_metre >= LEAST_MARK), ladder[-1])
    numbers = next((s for s in ladder if s * pixels_per_metre >= LEAST_NUMBER), ladder[-1])
    return marks, numbers
