"""The sheet seen: zoom and place, and where a place of the plan catches."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely
from numpy.typing import NDArray
from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QNativeGestureEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QResizeEvent,
    QTouchEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QGraphicsView, QWidget
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.canvas.guarded import guarded, guarded_painting
from planner.desk.canvas.scene import SheetScene
from planner.desk.canvas.snap import (
    NO_TARGETS,
    Snapped,
    SnapTargets,
    fine_step,
    grid_step,
    snap,
    targets_of,
)
from planner.desk.canvas.touch import Touch
from planner.desk.canvas.zoom_snapshot import ZoomSnapshot
from planner.desk.model.document import PLOT_EDGE, Document
from planner.desk.model.garbage import note_work
from planner.desk.theme.palette import LookSwitch
from planner.ground import shapes

#: Zoom limits. [pixels per metre]
LEAST_ZOOM, LARGEST_ZOOM = 2.0, 4_000.0
#: Breadth of the rim of the window in which nothing new is laid. [pixels]
RIM = 8.0
#: Room around the garden, and around what is selected, where it is fitted into the window. [pixels]
MARGIN, SELECTION_MARGIN = 56.0, 90.0
#: Share of its width that the room around the garden takes of a narrow window.
NARROW_MARGIN = 0.07
#: Room below the garden, for the scale bar and labels above it; a low window has less room above. [pixels]
BELOW, _SHARE_ABOVE, _SHARE_BELOW = 60.0, 0.1, 0.4
#: How near an edge catches. [pixels]
SNAP_REACH = 7.0


class Camera(QGraphicsView):
    """Shows the scene true to scale; the wheel and two fingers zoom and scroll it.

    Signals
    -------
    zoomed : float
        [pixels per metre]
    view_changed
        Another part of the sheet is seen, or it is seen larger or smaller.
    pointer_left
        The pointer is no longer over the sheet.
    """

    zoomed = Signal(float)
    view_changed = Signal()
    pointer_left = Signal()

    def __init__(self, document: Document, look: LookSwitch, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document, self.look = document, look
        self.snapping = True
        self.zoom_at_pointer = True
        # Whether everything is fitted into the window, and is fitted again when that changes its size.
        self._fitted = False
        self.sheet = SheetScene(document, look)
        self.setScene(self.sheet)
        self.snapshot = ZoomSnapshot(self)
        self._touch = Touch(self.viewport(), self._pinch, self.scroll_by, self.cancel_touch)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.FullViewportUpdate)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setOptimizationFlag(QGraphicsView.OptimizationFlag.DontSavePainterState)
        self.setFrameShape(QGraphicsView.Shape.NoFrame)
        self.sheet.sceneRectChanged.connect(self._make_room)
        for bar in (self.horizontalScrollBar(), self.verticalScrollBar()):
            bar.actionTriggered.connect(self._let_go)

    # -- scale and place --------------------------------------------------------------------

    @property
    def pixels_per_metre(self) -> float:
        """Zoom in force."""
        return self.transform().m11() * transform.SCALE

    @property
    def fitted(self) -> bool:
        """Whether everything is fitted into the window, and is fitted again when that changes its size."""
        return self._fitted

    @property
    def area(self) -> QRectF:
        """The viewport's rectangle. [pixels]"""
        return QRectF(self.viewport().rect())

    def scale_to(self, zoom: float, at: QPointF | None = None) -> None:
        """Zoom; what is at a point of the viewport (its middle by default) stays where it is.

        The sheet is no longer fitted into the window then, also after :meth:`scroll_by`.

        Parameters
        ----------
        zoom : float
            [pixels per metre]
        at : QPointF, optional
            [pixels]
        """
        self._fitted = False
        zoom = min(max(zoom, LEAST_ZOOM), LARGEST_ZOOM)
        anchor = at if at is not None else QPointF(self.viewport().rect().center())
        before = self.scene_at(anchor)
        self.setTransform(QTransform.fromScale(zoom / transform.SCALE, zoom / transform.SCALE))
        self._make_room()
        after = self.scene_at(anchor)
        self.scroll_by((after - before) * (zoom / transform.SCALE))
        self.zoomed.emit(zoom)
        self.view_changed.emit()

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

    def _turn_zoom(self, factor: float, at: QPointF | None) -> None:
        """Zoom with the wheel or two fingers: a picture stands for the sheet until the hand rests."""
        if self.may_show_snapshot():
            self.snapshot.keep()
        self.zoom_by(factor, at)

    def _pinch(self, factor: float, at: QPointF) -> None:
        self._turn_zoom(factor, at)
        self.view_changed.emit()

    def cancel_touch(self) -> None:
        """A second finger comes: put back what the first one has begun."""

    def may_show_snapshot(self) -> bool:
        """Whether a picture may stand for the sheet: nothing on it follows the pointer."""
        return True

    def scroll_by(self, by: QPointF) -> None:
        """Move the sheet under the viewport. [pixels]"""
        self._fitted = False
        horizontal, vertical = self.horizontalScrollBar(), self.verticalScrollBar()
        horizontal.setValue(horizontal.value() - round(by.x()))
        vertical.setValue(vertical.value() - round(by.y()))

    def show_all(self) -> None:
        """Fit everything drawn into the window, and again when it changes its size, until the view is moved."""
        rect = self.sheet.content_rect()
        size = self.viewport().size()
        if rect.isEmpty() or size.width() < 20 or size.height() < 20:
            return
        beside = min(MARGIN, NARROW_MARGIN * size.width())
        above = min(MARGIN, _SHARE_ABOVE * size.height())
        below = min(BELOW, _SHARE_BELOW * size.height())
        self._fit(rect, beside, beside, above, below)
        left, right = self._margins(self.viewportTransform().mapRect(rect))
        if left > beside or right > beside:
            self._fit(rect, max(left, beside), max(right, beside), above, below)
        self._fitted = True

    def _margins(self, drawn: QRectF) -> tuple[float, float]:
        """Room that is needed at the left and the right of what is drawn. [pixels of the viewport]"""
        return 0.0, 0.0

    def show_opened(self) -> None:
        """Another garden was opened: cut the sheet to it and fit it into the window."""
        self.sheet.reset_rect()
        self.show_all()

    def show_selection(self) -> None:
        """Fit what is selected into the window."""
        rect = QRectF()
        for key in self.document.selection:
            rect = rect.united(self.rect_of(key))
        if not rect.isEmpty():
            self._fit(rect, SELECTION_MARGIN, SELECTION_MARGIN)

    def bring_into_view(self, ids: Iterable[str]) -> None:
        """Scroll, and zoom out where it must be, so that things can be seen whole; else nothing moves."""
        rect = QRectF()
        for key in ids:
            rect = rect.united(self.rect_of(key))
        seen = self.viewportTransform().mapRect(rect)
        if rect.isEmpty() or self.area.contains(seen):
            return
        if seen.width() > self.area.width() or seen.height() > self.area.height():
            self._fit(rect, SELECTION_MARGIN, SELECTION_MARGIN)
        else:
            self.scroll_by(self.area.center() - seen.center())

    def plan_bounds(self) -> tuple[float, float, float, float]:
        """The part of the plan that is seen, less a narrow rim: left, low, right, high. [m]"""
        area = self.area.adjusted(RIM, RIM, -RIM, -RIM)
        left, high = self.plan_at(area.topLeft())
        right, low = self.plan_at(area.bottomRight())
        return left, low, right, high

    def _let_go(self, _action: int) -> None:
        """The hand moves the view by its scroll bars."""
        self._fitted = False

    def _fit(
        self,
        rect: QRectF,
        margin: float,
        right: float,
        above: float | None = None,
        below: float | None = None,
    ) -> None:
        """Fit a part of the scene between a margin, and others at the right, above and below where they are given. [pixels]"""
        size = self.viewport().size()
        above = margin if above is None else above
        below = margin if below is None else below
        width, height = max(size.width() - margin - right, 50), max(size.height() - above - below, 50)
        zoom = min(
            width / (rect.width() / transform.SCALE), height / (rect.height() / transform.SCALE), 400.0
        )
        self.scale_to(zoom)
        middle = QPointF(self.viewport().rect().center()) - QPointF((right - margin) / 2, (below - above) / 2)
        self.scroll_by(middle - self.viewportTransform().map(rect.center()))
        self.view_changed.emit()
        self.viewport().update()

    def show_place(self, place: tuple[float, float]) -> None:
        """Scroll so that a place of the plan can be seen."""
        point = self.to_view(place)
        if not self.area.adjusted(40, 40, -40, -40).contains(point):
            self.scroll_by(QPointF(self.viewport().rect().center()) - point)

    # -- plan, scene and viewport -----------------------------------------------------------

    def scene_at(self, point: QPointF) -> QPointF:
        """The point of the scene at a point of the viewport."""
        inverted, _ = self.viewportTransform().inverted()
        return inverted.map(point)

    def plan_at(self, point: QPointF) -> tuple[float, float]:
        """The place of the plan [m] at a point of the viewport [pixels]."""
        return transform.to_plan(self.scene_at(point))

    def to_view(self, place: tuple[float, float]) -> QPointF:
        """A place of the plan in the viewport. [pixels]"""
        return self.viewportTransform().map(transform.to_scene(*place))

    def to_view_all(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Places (n, 2) of the plan in the viewport. [pixels]"""
        view = self.viewportTransform()
        scene = transform.scene_points(points)
        seen: NDArray[np.float64] = scene * np.array([view.m11(), view.m22()]) + np.array(
            [view.dx(), view.dy()]
        )
        return seen

    def view_path(self, geometry: shapely.Geometry) -> QPainterPath:
        """A shape of the plan in the viewport. [pixels]"""
        return self.viewportTransform().map(transform.path(geometry))

    def rect_of(self, key: str) -> QRectF:
        """Extents of a bed, a structure, a planting or the edge of the plot on the scene."""
        item = self.sheet.beds.get(key) or self.sheet.structures.get(key)
        if item is not None:
            return item.shape().boundingRect()
        outline = self.document.garden.site.outline
        if key == PLOT_EDGE and outline is not None:
            return transform.bounds(shapes.plan_polygon(outline))
        planting = self.document.garden.plantings_by_id.get(key)
        if planting is None:
            return QRectF()
        bed = self.document.garden.beds_by_id[planting.bed]
        return transform.bounds(shapes.shape_to_plan(bed.outline, self.document.plan.placed(planting).plot))

    # -- the pointer ------------------------------------------------------------------------

    def bed_under_pointer(self) -> str | None:
        """Id of the bed the pointer is over."""
        point = self._pointer_in_view()
        return self.sheet.bed_at(self.scene_at(point)) if self.area.contains(point) else None

    def pointer_place(self) -> tuple[float, float]:
        """Where the pointer is on the plan, else the middle of what is seen. [m]"""
        point = self._pointer_in_view()
        if not self.area.contains(point):
            point = QPointF(self.viewport().rect().center())
        return self.plan_at(point)

    def _pointer_in_view(self) -> QPointF:
        return QPointF(self.viewport().mapFromGlobal(self.cursor().pos()))

    # -- snapping ---------------------------------------------------------------------------

    @property
    def grid_step(self) -> float:
        """Width of the grid that catches. [m]"""
        return grid_step(self.document.garden.site.units)

    @property
    def fine_step(self) -> float:
        """Step to which plots are rounded while they are dragged. [m]"""
        return fine_step(self.document.garden.site.units)

    def snap_targets(self, leaving_out: Iterable[str] = ()) -> SnapTargets:
        """What catches of other beds and structures."""
        return targets_of(self.document.plan, leaving_out)

    def snap(
        self, x: float, y: float, targets: SnapTargets = NO_TARGETS, *, only_edges: bool = False
    ) -> Snapped:
        """Catch a place of the plan by other things, else by the grid."""
        if not self.snapping:
            return Snapped(x, y)
        return snap(x, y, grid=self.grid_step, targets=targets, reach=self.snap_reach, only_edges=only_edges)

    @property
    def snap_reach(self) -> float:
        """How near something must be to catch; 0 where nothing catches. [m]"""
        return SNAP_REACH / self.pixels_per_metre if self.snapping else 0.0

    # -- events -----------------------------------------------------------------------------

    def recover_from_fault(self) -> None:
        """After a fault of the program: nothing was going on that could be put back."""

    @override
    @guarded
    def wheelEvent(self, event: QWheelEvent) -> None:
        pixels = event.pixelDelta()
        at = event.position() if self.zoom_at_pointer else None
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier or pixels.isNull():
            if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
                across = event.angleDelta().y() or event.angleDelta().x()
                self.scroll_by(QPointF(across * 0.6, 0))
            else:
                turn = pixels.y() if not pixels.isNull() else event.angleDelta().y() / 2
                if turn:
                    self._turn_zoom(1.0025**turn, at)
        else:  # two fingers on a pad
            self.scroll_by(QPointF(pixels))
        self.view_changed.emit()
        event.accept()

    @override
    def viewportEvent(self, event: QEvent) -> bool:
        note_work()
        if (
            isinstance(event, QNativeGestureEvent)
            and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture
        ):
            self._turn_zoom(1.0 + event.value(), event.position())
            return True
        if isinstance(event, QTouchEvent) and self._touch.handle(event):
            return True
        if event.type() == QEvent.Type.Leave:
            self.pointer_left.emit()
        return super().viewportEvent(event)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if self.snapshot.shown and not self.snapshot.taking and self.may_show_snapshot():
            self._paint_snapshot()
        else:
            super().paintEvent(event)

    @guarded_painting
    def _paint_snapshot(self) -> None:
        painter = QPainter(self.viewport())
        try:
            self.paint_under_items(painter)
            self.snapshot.paint(painter)
            self.paint_in_window(painter)
        finally:
            painter.end()

    def paint_under_items(self, painter: QPainter) -> None:
        """Paint the paper, in pixels of the viewport."""

    def paint_in_window(self, painter: QPainter) -> None:
        """Paint what keeps its place and size in the window, in pixels of the viewport."""

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        self.snapshot.drop()
        super().resizeEvent(event)
        self._make_room()
        if self._fitted:
            self.show_all()
        self.view_changed.emit()

    @override
    def scrollContentsBy(self, dx: int, dy: int) -> None:
        super().scrollContentsBy(dx, dy)
        self.view_changed.emit()
