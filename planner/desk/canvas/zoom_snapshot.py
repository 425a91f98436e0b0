"""A picture of the sheet that stands for it while the wheel turns."""

from __future__ import annotations

from PySide6.QtCore import QObject, QRectF, QTimer
from PySide6.QtGui import QPainter, QPixmap, QTransform
from PySide6.QtWidgets import QGraphicsView

#: Everything is painted sharp when the zoom has rested for so long. [ms]
RESTED = 140


class ZoomSnapshot(QObject):
    """What the view showed last, scaled to the zoom in force until that rests.

    A large garden takes a tenth of a second and more to paint; its picture takes a few thousandths.

    Parameters
    ----------
    view : QGraphicsView
    """

    def __init__(self, view: QGraphicsView) -> None:
        super().__init__(view)
        self._view = view
        self._picture: QPixmap | None = None
        self._scene_to_picture = QTransform()
        #: Whether the picture is being taken: what keeps its place in the window is left out of it.
        self.taking = False
        self._rested = QTimer(self)
        self._rested.setSingleShot(True)
        self._rested.setInterval(RESTED)
        self._rested.timeout.connect(self.drop)

    @property
    def shown(self) -> bool:
        """Whether the picture stands for the sheet."""
        return self._picture is not None

    def keep(self) -> None:
        """The zoom is about to change: take the picture, where there is none, and show it until the zoom rests."""
        self._rested.start()
        if self._picture is None:
            self.taking = True
            try:
                self._scene_to_picture = self._view.viewportTransform()
                self._picture = self._view.viewport().grab()
            finally:
                self.taking = False

    def drop(self) -> None:
        """Paint the sheet itself from now on."""
        self._rested.stop()
        if self._picture is not None:
            self._picture = None
            self._view.viewport().update()

    def paint(self, painter: QPainter) -> None:
        """Paint the picture where what it shows lies now."""
        if self._picture is None:
            return
        back, _ = self._scene_to_picture.inverted()
        size = self._picture.deviceIndependentSize()
        place = (back * self._view.viewportTransform()).mapRect(QRectF(0, 0, size.width(), size.height()))
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawPixmap(place, self._picture, QRectF(self._picture.rect()))
