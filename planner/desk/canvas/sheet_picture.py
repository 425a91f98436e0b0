"""The whole sheet as it is seen: the scene, and everything that is painted under and over its items."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.desk.canvas import guides
from planner.desk.canvas.access_layer import AccessLayer
from planner.desk.canvas.camera import Camera
from planner.desk.canvas.finding_marks import paint_finding_marks
from planner.desk.canvas.guarded import guarded_painting
from planner.desk.canvas.handles import Handle, selection_handles
from planner.desk.canvas.label_layer import LabelLayer
from planner.desk.canvas.light_layer import LightLayer
from planner.desk.canvas.north_and_scale import paint_north_and_scale
from planner.desk.canvas.paper import paint_paper
from planner.desk.canvas.plot_edge import paint_plot_edge
from planner.desk.canvas.row_handles import planting_handles
from planner.desk.canvas.rulers import Rulers
from planner.desk.canvas.selection import paint_selection
from planner.desk.canvas.snap import Catch
from planner.desk.canvas.underlay_layer import UnderlayLayer
from planner.desk.canvas.walk_layer import WalkLayer
from planner.desk.model.document import Document
from planner.desk.model.picked_plants import PickedPlants
from planner.desk.theme.palette import LookSwitch

if TYPE_CHECKING:
    from planner.checks import Finding


class OpenFindings(Protocol):
    """Where the sheet gets the findings that it marks."""

    @property
    def open(self) -> tuple[Finding, ...]:
        """Those that are not waived."""
        ...


#: Labels that stand beside everything drawn may take so much of the window's breadth on each side.
MOST_BESIDE = 0.3
#: Room beyond them. [pixels]
GAP_BESIDE = 8.0


class SheetPicture(Camera):
    """A camera that paints paper, labels, light, marks and guides with the items of the scene.

    Attributes
    ----------
    grid_shown : bool
    labels : LabelLayer
    light : LightLayer
    access : AccessLayer
    walk : WalkLayer
    findings : OpenFindings or None
        What is marked; None marks nothing.
    finding : Finding or None
        The one whose place is hatched.
    """

    def __init__(self, document: Document, look: LookSwitch, parent: QWidget | None = None) -> None:
        super().__init__(document, look, parent)
        self.grid_shown = True
        self.rulers = Rulers(self)
        self.labels = LabelLayer(self)
        self.underlay = UnderlayLayer(self)
        self.light = LightLayer(self)
        self.access = AccessLayer(self)
        self.walk = WalkLayer(self)
        self.picked = PickedPlants(document)
        self.picked.changed.connect(self.viewport().update)
        self.findings: OpenFindings | None = None
        self.finding: Finding | None = None
        self._catch: Catch | None = None
        for changed in (
            document.selection_changed,
            document.garden_changed,
            document.day_changed,
            look.changed,
        ):
            changed.connect(self.viewport().update)
            changed.connect(self.snapshot.drop)

    @override
    def _margins(self, drawn: QRectF) -> tuple[float, float]:
        # Names that are too long for a bed are written beside it.
        left, right = drawn.left() - self.labels.left_end(), self.labels.right_end() - drawn.right()
        most = self.area.width() * MOST_BESIDE
        return min(left + GAP_BESIDE, most), min(right + GAP_BESIDE, most)

    def show_snap(self, catch: Catch | None) -> None:
        """Show what has caught, and where."""
        self._catch = catch
        self.viewport().update()

    def handles(self) -> list[Handle]:
        """Handles of what is selected, where it is one thing."""
        zoom = self.pixels_per_metre
        return [*planting_handles(self.document, zoom), *selection_handles(self.document, zoom)]

    def paint_gesture(self, painter: QPainter) -> None:
        """Paint what a gesture shows, in pixels of the viewport."""

    @override
    @guarded_painting
    def drawBackground(self, painter: QPainter, rect: QRectF | object) -> None:
        painter.save()
        painter.resetTransform()
        try:
            self.paint_under_items(painter)
        finally:
            painter.restore()

    @override
    @guarded_painting
    def drawForeground(self, painter: QPainter, rect: QRectF | object) -> None:
        painter.save()
        painter.resetTransform()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        try:
            self._paint_over_items(painter)
        finally:
            painter.restore()

    def _paint_over_items(self, painter: QPainter) -> None:
        """Paint what lies over the items, from below to above."""
        self.light.paint(painter)
        self.access.paint(painter)
        labels = self.labels.paint(painter)
        guides.paint_dimensions(painter, self, labels)
        paint_selection(painter, self, self.handles(), self.picked.indices)
        if self.findings is not None:
            paint_finding_marks(painter, self, self.findings.open, self.finding, labels)
        self.walk.paint(painter)
        if not self.snapshot.taking:
            self.paint_in_window(painter)
        self.paint_gesture(painter)
        guides.paint_catch(painter, self, self._catch)

    @override
    def paint_under_items(self, painter: QPainter) -> None:
        paint_paper(painter, self, grid=self.grid_shown)
        self.underlay.paint(painter)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_plot_edge(painter, self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)

    @override
    def paint_in_window(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_north_and_scale(painter, self)
        self.light.paint_legend(painter)
