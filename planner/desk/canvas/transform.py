"""From plan to scene and back: metres with y up on the plan, centimetres with y down on the scene.

The flip of y is done here and nowhere else.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath, QPolygonF

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Scene units in a metre.
SCALE = 100.0
#: Shapes of more corners than this are drawn with fewer.
MANY_CORNERS = 200
#: The drawn shape is off the true one by no more than this. [m]
UNSEEN = 2e-4


def to_scene(x: float, y: float) -> QPointF:
    """A point of the plan on the scene."""
    return QPointF(x * SCALE, -y * SCALE)


def to_plan(point: QPointF) -> tuple[float, float]:
    """A point of the scene on the plan. [m]"""
    return point.x() / SCALE, -point.y() / SCALE


def scene_points(points: NDArray[np.float64]) -> NDArray[np.float64]:
    """Points (n, 2) of the plan on the scene."""
    scene: NDArray[np.float64] = points * np.array([SCALE, -SCALE])
    return scene


def polygon(points: NDArray[np.float64]) -> QPolygonF:
    """Plan points as a polygon of the scene."""
    return QPolygonF([QPointF(x, y) for x, y in scene_points(points)])


def path(geometry: shapely.Geometry) -> QPainterPath:
    """A shape of the plan as a path of the scene, holes left open."""
    result = QPainterPath()
    for part in shapely.get_parts(geometry):
        if part.geom_type != "Polygon" or part.is_empty:
            continue
        if shapely.get_num_coordinates(part) > MANY_CORNERS:
            part = shapely.simplify(part, UNSEEN)
        for ring in shapely.get_rings(part):
            result.addPolygon(polygon(shapely.get_coordinates(ring)))
            result.closeSubpath()
    return result


def bounds(geometry: shapely.Geometry) -> QRectF:
    """Extents of a shape of the plan on the scene."""
    if geometry.is_empty:
        return QRectF()
    left, low, right, high = shapely.bounds(geometry)
    return QRectF(to_scene(left, high), to_scene(right, low))
