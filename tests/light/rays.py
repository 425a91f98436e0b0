"""Shading computed slowly and independently: one straight line to the sun at a time, cut with shapely."""

from __future__ import annotations

import numpy as np
import shapely

from planner.light.casters import Caster


def through(casters: list[Caster], point: tuple[float, float], height: float, toward: np.ndarray) -> float:
    """Share of a beam that reaches a point."""
    share = 1.0
    for caster in casters:
        low, high = max(caster.base, height), caster.top
        if high <= low:
            continue
        start = np.asarray(point) + toward * (low - height)
        end = np.asarray(point) + toward * (high - height)
        if shapely.LineString([start, end]).intersects(caster.shape):
            share *= 1 - caster.opacity
    return share


def on_a_rim(casters: list[Caster], point: tuple[float, float], height: float, toward: np.ndarray) -> bool:
    """Whether a point's light changes within a micrometre, so that rounding decides."""
    turns = np.linspace(0, 2 * np.pi, 16, endpoint=False)
    near = [(point[0] + 1e-6 * np.cos(turn), point[1] + 1e-6 * np.sin(turn)) for turn in turns]
    return len({round(through(casters, spot, height, toward), 9) for spot in (point, *near)}) > 1
