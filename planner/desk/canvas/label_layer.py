"""Labels of beds, plantings and structures over the sheet."""

from __future__ import annotations

from operator import is_

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.label_drafts import STRIPE, Drafts, label_font
from planner.desk.canvas.label_numbers import with_numbers
from planner.desk.canvas.labels import Label, LabelPlaces, Numbered
from planner.desk.canvas.painted_planting import PaintedPlanting
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import Look
from planner.sheets.family_inks import family_ink

#: Words may stand out of their room by the tips of letters.
_ALIGN = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextDontClip
#: Side of the cells in which the places of labels are looked up. [m]
CELL_OF_GRID = 4.0


class LabelLayer:
    """Placed labels; placed again when the plan, what is painted or the zoom changes."""

    def __init__(self, camera: Camera) -> None:
        self._camera = camera
        self._key: tuple[object, ...] = ()
        self._painted: list[tuple[PaintedPlanting, ...]] = []
        self._places = LabelPlaces(())
        self._drafts: Drafts | None = None
        self._offset = QPointF()
        self._numbers: tuple[Numbered, ...] = ()

    @property
    def numbered(self) -> tuple[Numbered, ...]:
        """What has a number in the place of a name, in the order of the numbers, with the beds that head some."""
        self._follow()
        return self._numbers

    def key_at(self, point: QPointF) -> str | None:
        """Id of the thing whose label is at a point of the viewport."""
        at = point - self._offset
        there = self._places.within(QRectF(at.x() - 1, at.y() - 1, 2, 2))
        return next((one.key for one, rect in there if one.kind != "size" and rect.contains(at)), None)

    def right_end(self) -> float:
        """Right end of all labels, in the viewport. [pixels]"""
        self._follow()
        return self._places.right_end + self._offset.x()

    def left_end(self) -> float:
        """Left end of all labels, in the viewport. [pixels]"""
        self._follow()
        return self._places.left_end + self._offset.x()

    def all_placed(self) -> list[tuple[Label, QRectF]]:
        """All labels that have a place, whether they are seen or not."""
        self._follow()
        return self._places.every()

    def _follow(self) -> None:
        """Bring the labels in step where the plan, what is painted or the zoom has changed."""
        camera = self._camera
        painted = [item.painted for item in camera.sheet.beds.values()]
        key = (camera.document.plan, camera.pixels_per_metre, len(painted))
        if key != self._key or not all(map(is_, painted, self._painted)):
            self._painted = painted
            self._key = key
            drafts, same = self._drafts, False
            if drafts is None or not drafts.words_hold_for(camera):
                drafts = self._drafts = Drafts(camera)
            elif drafts.zoom != camera.pixels_per_metre:
                drafts.zoom_to(camera)
            else:
                same = True
            groups, self._numbers = with_numbers(drafts.groups())
            if not same or not self._places.follow(groups):
                self._places = LabelPlaces(groups, CELL_OF_GRID * camera.pixels_per_metre)
        self._offset = camera.viewportTransform().map(QPointF(0, 0))

    def paint(self, painter: QPainter) -> list[QRectF]:
        """Write the labels that can be seen.

        Parameters
        ----------
        painter : QPainter

        Returns
        -------
        list of QRectF
            Where they are. [pixels of the viewport]
        """
        self._follow()
        camera = self._camera
        seen = camera.area.translated(-self._offset).adjusted(-4, -4, 4, 4)
        places = []
        for label, rect in self._places.within(seen):
            places.append(rect.translated(self._offset))
            _paint(painter, label, rect, places[-1], camera.look.now)
        return places


def _paint(painter: QPainter, label: Label, rect: QRectF, place: QRectF, look: Look) -> None:
    painter.setFont(label_font(label.kind))
    if label.is_upright(rect):
        painter.save()
        painter.translate(place.center())
        painter.rotate(-90)
        level = QRectF(-place.height() / 2, -place.width() / 2, place.height(), place.width())
        _write(painter, label, level, look, on_bed=label.lies_on_bed(rect))
        painter.restore()
    else:
        _write(painter, label, place, look, on_bed=label.lies_on_bed(rect))


def _write(painter: QPainter, label: Label, place: QRectF, look: Look, *, on_bed: bool) -> None:
    """Write a label that lies level."""
    if label.kind == "planting":
        ink = family_ink(label.family, dark=look.dark)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRoundedRect(place, 3, 3)
        painter.setPen(look.ink)
        if label.number:
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextDontClip, label.text)
            return
        stripe = QRectF(place.left(), place.top() + 2, STRIPE, place.height() - 4)
        painter.fillRect(stripe, plant_symbols.colour(ink.line_rgb))
        painter.drawText(place.adjusted(STRIPE + 3, 0, 0, 0), _ALIGN, label.text)
        return
    if on_bed:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRect(place.adjusted(-1, 0, 2, 0))
    painter.setPen(look.pencil if label.kind == "size" else look.ink)
    painter.drawText(place, _ALIGN, label.text)
