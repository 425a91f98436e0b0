"""The picture under the plan: painted beneath all items from tiles that are kept for the zoom in force."""

from __future__ import annotations

import math
from collections import OrderedDict
from collections.abc import Iterator
from pathlib import Path

from PySide6.QtCore import QObject, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QImage, QPainter, QPixmap, QTransform

from planner.desk.canvas import transform
from planner.desk.canvas.camera import Camera
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.underlay_picture import read_underlay
from planner.errors import BedwrightError
from planner.storage.underlays import DOCUMENTS, find_underlay
from planner.words import say

#: Side of a tile, and how many are kept. [pixels]
TILE, MOST_TILES = 512, 96
#: Smaller copies of the picture are made down to this side. [pixels]
LEAST_SIDE = 64

_Read = tuple[QImage | None, str]


class UnderlayLayer(QObject):
    """Reads the picture that the garden refers to, and paints it where it lies.

    Attributes
    ----------
    words : str
        What is not as it should be, in one line; empty where all is.

    Signals
    -------
    read
        It was read, or could not be.
    """

    read = Signal()

    def __init__(self, camera: Camera) -> None:
        super().__init__(camera)
        self._camera, self._document = camera, camera.document
        self.words = ""
        self._levels: list[QImage] = []
        self._shown: tuple[Path | None, str, str, int] = (None, "", "", 1)
        self._tiles: OrderedDict[tuple[int, int], QPixmap] = OrderedDict()
        self._tiles_of: object = None
        self._jobs = JobQueue(self)
        self._document.garden_changed.connect(self.follow)
        self._document.renamed.connect(self.follow)
        self.follow()

    @property
    def proportion(self) -> float:
        """Height of the picture for each metre of its width; 1 before it is read."""
        return self._levels[0].height() / self._levels[0].width() if self._levels else 1.0

    def close(self) -> None:
        """The window closes."""
        self._jobs.stop()

    def follow(self) -> None:
        """Read the picture anew where the garden refers to another one."""
        underlay, file = self._document.garden.underlay, self._document.path
        now = (file if underlay.is_there else None, underlay.path, underlay.sha256, underlay.page)
        if now == self._shown:
            return
        self._shown = now
        self._levels, self.words = [], ""
        self._tiles.clear()
        self._jobs.cancel()
        if not underlay.is_there:
            self._take((None, ""))
        elif file is None:
            self._take((None, say("Save the garden first: the underlay is found from where its file is")))
        elif Path(underlay.path).suffix.casefold() in DOCUMENTS:
            # The reader of PDFs may be used in one thread only, which is the window's.
            for result in _read(file, *now[1:]):
                self._take(result)
        else:
            self._jobs.start(lambda cancelled: _read(file, *now[1:], cancelled), self._take)

    def _take(self, result: _Read) -> None:
        image, self.words = result
        self._levels = _smaller_copies(image) if image is not None else []
        self._tiles.clear()
        self.read.emit()
        self._camera.snapshot.drop()
        self._camera.viewport().update()

    # -- painting ---------------------------------------------------------------------------

    def on_scene(self) -> QTransform:
        """From the unit square of the picture, y down, to the scene."""
        underlay = self._document.garden.underlay
        middle, wide = transform.to_scene(*underlay.center), underlay.width * transform.SCALE
        place = QTransform()
        place.translate(middle.x(), middle.y())
        place.rotate(-underlay.turn)
        place.scale(wide, wide * self.proportion)
        place.translate(-0.5, -0.5)
        return place

    def holds(self, point: QPointF) -> bool:
        """Whether a point of the scene lies on the picture that is shown."""
        if not self._levels or self._document.garden.underlay.hidden:
            return False
        inverted, _ = self.on_scene().inverted()
        return QRectF(0, 0, 1, 1).contains(inverted.map(point))

    def paint(self, painter: QPainter) -> None:
        """Paint the part of the picture that is seen, in pixels of the viewport."""
        underlay = self._document.garden.underlay
        if not self._levels or underlay.hidden:
            return
        view, ratio = self._camera.viewportTransform(), self._camera.devicePixelRatioF()
        zoom = view.m11()
        kept = (zoom, ratio, underlay.center, underlay.width, underlay.turn)
        if kept != self._tiles_of:
            self._tiles.clear()
            self._tiles_of = kept
        # Tiles lie on the scene at the zoom in force, and scroll with it.
        placed = self.on_scene() * QTransform.fromScale(zoom, zoom)
        origin = QPointF(view.dx(), view.dy())
        seen = self._camera.area.translated(-origin).intersected(placed.mapRect(QRectF(0, 0, 1, 1)))
        if seen.isEmpty():
            return
        painter.save()
        painter.setOpacity(underlay.strength)
        for row in range(math.floor(seen.top() / TILE), math.ceil(seen.bottom() / TILE)):
            for column in range(math.floor(seen.left() / TILE), math.ceil(seen.right() / TILE)):
                tile = self._tile((column, row), placed, ratio)
                painter.drawPixmap(origin + QPointF(column * TILE, row * TILE), tile)
        painter.restore()

    def _tile(self, place: tuple[int, int], placed: QTransform, ratio: float) -> QPixmap:
        tile = self._tiles.get(place)
        if tile is None:
            tile = QPixmap(round(TILE * ratio), round(TILE * ratio))
            tile.setDevicePixelRatio(ratio)
            tile.fill(Qt.GlobalColor.transparent)
            level = self._level(math.hypot(placed.m11(), placed.m12()) * ratio)
            painter = QPainter(tile)
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.translate(-place[0] * TILE, -place[1] * TILE)
            painter.setTransform(placed, combine=True)
            painter.drawImage(QRectF(0, 0, 1, 1), level)
            painter.end()
            self._tiles[place] = tile
            while len(self._tiles) > MOST_TILES:
                self._tiles.popitem(last=False)
        else:
            self._tiles.move_to_end(place)
        return tile

    def _level(self, pixels: float) -> QImage:
        """The smallest copy that is at least as wide as it is shown."""
        fitting = [each for each in self._levels if each.width() >= pixels]
        return fitting[-1] if fitting else self._levels[0]


def _read(
    garden_file: Path, path: str, sha256: str, page: int, cancelled: Cancelled = lambda: False
) -> Iterator[_Read]:
    """The picture and what is said of it (in a thread)."""
    from planner.garden.underlay import Underlay

    try:
        found, words = find_underlay(garden_file, Underlay(path=path, sha256=sha256, page=page))
        if found is None:
            yield None, words
        elif not cancelled():
            yield read_underlay(found, page), words
    except BedwrightError as error:
        yield None, str(error)


def _smaller_copies(image: QImage) -> list[QImage]:
    """The picture, and copies of half the width of the one before."""
    levels = [image]
    while min(levels[-1].width(), levels[-1].height()) > 2 * LEAST_SIDE:
        last = levels[-1]
        levels.append(
            last.scaled(
                last.width() // 2,
                last.height() // 2,
                Qt.AspectRatioMode.IgnoreAspectRatio,
                Qt.TransformationMode.SmoothTransformation,
            )
        )
    return levels
