"""The sheet seen: zoom, place, rulers, and where a place of the plan catches."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Signal
from PySide6.QtGui import QPainterPath, QResizeEvent, QTransform
from PySide6.QtWidgets import QGraphicsView, QWidget
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.canvas.rulers import RULER, Ruler
from planner.desk.canvas.scene import SheetScene
from planner.desk.canvas.snap import Snapped, snap
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.garden import Bed, Structure
from planner.garden.units import FOOT, INCH
from planner.ground import shapes

#: Zoom limits. [pixels per metre]
LEAST_ZOOM, LARGEST_ZOOM = 2.0, 4_000.0
#: How near an edge catches. [pixels]
SNAP_REACH = 7.0


class Camera(QGraphicsView):
    """Shows the scene true to scale.

    Signals
    -------
    zoomed : float
        [pixels per metre]
    """

    zoomed = Signal(float)

    def __init__(self, document: Document, look: LookSwitch, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document, self.look = document, look
        self.snapping = True
        self.sheet = SheetScene(document, look)
        self.setScene(self.sheet)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.FullViewportUpdate)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setOptimizationFlag(QGraphicsView.OptimizationFlag.DontSavePainterState)
        self.setFrameShape(QGraphicsView.Shape.NoFrame)
        self.setViewportMargins(RULER, RULER, 0, 0)
        self.rulers = (Ruler(self, horizontal=True), Ruler(self, horizontal=False))
        self.sheet.sceneRectChanged.connect(self._make_room)

    # -- scale and place --------------------------------------------------------------------

    @property
    def pixels_per_metre(self) -> float:
        """Zoom in force."""
        return self.transform().m11() * transform.SCALE

    def scale_to(self, zoom: float, at: QPointF | None = None) -> None:
        """Zoom, keeping what is at a point of the viewport (its middle by default) in its place."""
        zoom = min(max(zoom, LEAST_ZOOM), LARGEST_ZOOM)
        anchor = at if at is not None else QPointF(self.viewport().rect().center())
        before = self._scene_at(anchor)
        self.setTransform(QTransform.fromScale(zoom / transform.SCALE, zoom / transform.SCALE))
        self._make_room()
        after = self._scene_at(anchor)
        self._scroll((after - before) * (zoom / transform.SCALE))
        self.zoomed.emit(zoom)
        self._update_rulers()

    def _make_room(self) -> None:
        # Room for a whole window around the sheet: it can be moved freely, and zooming keeps what
        # is at the pointer in its place even where all of the sheet is seen.
        factor = self.transform().m11()
        across, down = self.viewport().width() / factor, self.viewport().height() / factor
        wanted = self.sheet.sceneRect().adjusted(-across, -down, across, down)
        if wanted != self.sceneRect():
            self.setSceneRect(wanted)

    def zoom_by(self, factor: float, at: QPointF | None = None) -> None:
        """Zoom in (above 1) or out."""
        self.scale_to(self.pixels_per_metre * factor, at)

    def _scene_at(self, point: QPointF) -> QPointF:
        inverted, _ = self.viewportTransform().inverted()
        return inverted.map(point)

    def _scroll(self, by: QPointF) -> None:
        horizontal, vertical = self.horizontalScrollBar(), self.verticalScrollBar()
        horizontal.setValue(horizontal.value() - round(by.x()))
        vertical.setValue(vertical.value() - round(by.y()))

    def show_all(self) -> None:
        """Fit everything drawn into the window."""
        rect = self.sheet.content_rect()
        size = self.viewport().size()
        if rect.isEmpty() or size.width() < 20 or size.height() < 20:
            return
        self._fit(rect, 56)

    def _show_opened(self) -> None:
        """Another garden: the sheet is cut to it and fits the window."""
        self.sheet.reset_rect()
        self.show_all()

    def show_selection(self) -> None:
        """Fit what is selected into the window."""
        rect = QRectF()
        for key in self.document.selection:
            rect = rect.united(self.rect_of(key))
        if not rect.isEmpty():
            self._fit(rect, 90)

    def _fit(self, rect: QRectF, margin: float) -> None:
        size = self.viewport().size()
        width, height = max(size.width() - 2 * margin, 50), max(size.height() - 2 * margin, 50)
        zoom = min(
            width / (rect.width() / transform.SCALE), height / (rect.height() / transform.SCALE), 400.0
        )
        self.scale_to(zoom)
        self._scroll(QPointF(self.viewport().rect().center()) - self.viewportTransform().map(rect.center()))
        self._update_rulers()
        self.viewport().update()

    def rect_of(self, key: str) -> QRectF:
        """Extents of a bed, structure or planting on the scene."""
        item = self.sheet.beds.get(key) or self.sheet.structures.get(key)
        if item is not None:
            return item.shape().boundingRect()
        planting = self.document.garden.plantings_by_id.get(key)
        if planting is None:
            return QRectF()
        bed = self.document.garden.beds_by_id[planting.bed]
        return transform.bounds(shapes.shape_to_plan(bed.outline, self.document.plan.placed(planting).plot))

    def show_place(self, place: tuple[float, float]) -> None:
        """Scroll so that a place of the plan can be seen."""
        point = self.to_view(place)
        if not QRectF(self.viewport().rect()).adjusted(40, 40, -40, -40).contains(point):
            self._scroll(QPointF(self.viewport().rect().center()) - point)

    def to_view(self, place: tuple[float, float]) -> QPointF:
        """A place of the plan in the viewport. [pixels]"""
        return self.viewportTransform().map(transform.to_scene(*place))

    def to_view_all(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Places (n, 2) of the plan in the viewport. [pixels]"""
        view = self.viewportTransform()
        scene = transform.scene_points(points)
        return scene * np.array([view.m11(), view.m22()]) + np.array([view.dx(), view.dy()])

    def view_path(self, geometry: shapely.Geometry) -> QPainterPath:
        """A shape of the plan in the viewport. [pixels]"""
        return self.viewportTransform().map(transform.path(geometry))

    # -- snapping ---------------------------------------------------------------------------

    @property
    def grid_step(self) -> float:
        """Width of the grid that catches. [m]"""
        if self.document.garden.site.units == "metric":
            return 0.10
        return FOOT / 2

    @property
    def fine_step(self) -> float:
        """A fine step: plots are rounded to it, and arrow keys with Shift move by it. [m]"""
        return 0.05 if self.document.garden.site.units == "metric" else INCH

    def snap_edges(self, leaving_out: Iterable[str] = ()) -> tuple[list[float], list[float]]:
        """Edges of other beds and structures that catch: x and y coordinates on the plan."""
        out = set(leaving_out)
        xs: list[float] = []
        ys: list[float] = []
        plan = self.document.plan
        things: tuple[Bed | Structure, ...] = (*plan.beds, *plan.garden.structures)
        for thing in things:
            if thing.id not in out:
                left, low, right, high = shapely.bounds(shapes.plan_polygon(thing.outline))
                xs += [float(left), float(right)]
                ys += [float(low), float(high)]
        return xs, ys

    def snap(self, x: float, y: float, xs: Iterable[float] = (), ys: Iterable[float] = ()) -> Snapped:
        """Catch a place of the plan by edges, else by the grid."""
        if not self.snapping:
            return Snapped(x, y)
        reach = SNAP_REACH / self.pixels_per_metre
        return snap(x, y, grid=self.grid_step, xs=xs, ys=ys, reach=reach)

    # -- rulers -----------------------------------------------------------------------------

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._make_room()
        area = self.viewport().geometry()
        self.rulers[0].setGeometry(area.left(), area.top() - RULER, area.width(), RULER)
        self.rulers[1].setGeometry(area.left() - RULER, area.top(), RULER, area.height())
        self._update_rulers()

    @override
    def scrollContentsBy(self, dx: int, dy: int) -> None:
        super().scrollContentsBy(dx, dy)
        self._update_rulers()

    def _update_rulers(self) -> None:
        for ruler in getattr(self, "rulers", ()):
            ruler.update()
