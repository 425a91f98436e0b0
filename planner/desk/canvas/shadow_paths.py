"""Shadows of one moment, as they are drawn on the sheet."""

from __future__ import annotations

import datetime as dt

import numpy as np
import shapely
from PySide6.QtGui import QColor, QPainter, QPainterPath

from planner.desk.canvas import transform
from planner.desk.canvas.camera import Camera
from planner.errors import BedwrightError
from planner.light import beam_at, shadows
from planner.light.beams import LEAST_ALTITUDE
from planner.plan import Plan

#: Thinner shadows (a bare stake's, a wire's) are not drawn.
FAINT = 0.12
#: So many densities of shadow are told apart; more would not be seen, and each costs a frame.
DENSITIES = 3
#: Outlines of shadows are simplified by this. [m]
TOLERANCE = 0.01


class ShadowPaths:
    """Shadows of a plan at a moment; worked out again when one of the two changes."""

    def __init__(self) -> None:
        self._key: tuple[object, ...] = ()
        self._paths: list[tuple[float, QPainterPath]] = []

    def paths(self, plan: Plan, moment: dt.datetime) -> list[tuple[float, QPainterPath]]:
        """Opacity and path on the scene, of the shadows of each density together."""
        key = (plan, moment)
        if key != self._key:
            self._key, self._paths = key, _work_out(plan, moment)
        return self._paths

    def paint(self, painter: QPainter, camera: Camera) -> None:
        """Draw the shadows of the moment shown, in pixels of the viewport."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # its edge is soft outdoors too
        for opacity, path in self.paths(camera.document.plan, camera.document.moment):
            # On a dark sheet a shadow is a cool veil: black on black would not be seen.
            shade = QColor(120, 150, 235) if camera.look.now.dark else QColor(20, 24, 40)
            shade.setAlphaF(0.08 + 0.22 * opacity)
            painter.fillPath(camera.viewportTransform().map(path), shade)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)


def _work_out(plan: Plan, moment: dt.datetime) -> list[tuple[float, QPainterPath]]:
    try:
        beam = beam_at(plan.place, moment)
    except BedwrightError:  # no latitude yet: switching the shadows on says how to give it
        return []
    if not len(beam.hours) or beam.altitude[0] < LEAST_ALTITUDE:
        return []
    cast = [
        (caster, shape)
        for caster, shape in shadows(plan.casters(moment.date()), beam)
        if caster.opacity >= FAINT
    ]
    if not cast:
        return []
    # What casts is not darkened itself: its leaves or roof are in the light.
    fallen = shapely.difference([shape for _, shape in cast], [caster.shape for caster, _ in cast])
    density = np.array([max(1, round(caster.opacity * DENSITIES)) / DENSITIES for caster, _ in cast])
    found = []
    for opacity in np.unique(density):
        shape = shapely.simplify(shapely.union_all(fallen[density == opacity]), TOLERANCE)
        found.append((float(opacity), transform.path(shape)))
    return found
