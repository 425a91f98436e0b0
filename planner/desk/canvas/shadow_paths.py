"""Shadows of one moment, as they are drawn on the sheet."""

from __future__ import annotations

import datetime as dt

from PySide6.QtGui import QColor, QPainter, QPainterPath

from planner.desk.canvas import transform
from planner.desk.canvas.camera import Camera
from planner.errors import BedwrightError
from planner.light import beam_at
from planner.light.shadow import drawn_shadows
from planner.plan import Plan


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
    return [
        (opacity, transform.path(shape))
        for opacity, shape in drawn_shadows(plan.casters(moment.date()), beam)
    ]
