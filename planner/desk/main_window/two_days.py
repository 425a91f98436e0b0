"""Two days side by side: the sheet, and a second view of the same garden with a day of its own."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSlider, QSplitter, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.guarded import guarded
from planner.desk.canvas.sheet_picture import SheetPicture
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.document import Document
from planner.desk.panels.number_key import NumberKey
from planner.desk.theme.palette import LookSwitch, letters
from planner.garden import Garden
from planner.words import full_day_words, say

_DAY = dt.timedelta(days=1)
#: How far apart the two days are at first. [days]
APART = 42
#: Less than this a press moves nothing: it selects. [pixels]
SLACK = 3.0


class DayBeside(Document):
    """The garden of another document on a day of its own; nothing is edited through it."""

    outlines_first = False  # those in the first view are there

    def __init__(self, document: Document) -> None:
        super().__init__(Garden(), document.catalogue)
        self._main = document
        self._following = False
        document.garden_changed.connect(self._follow)
        document.year_changed.connect(self._follow_year)
        document.selection_changed.connect(self._follow_selection)
        document.hour_changed.connect(self._follow_hour)
        self.selection_changed.connect(self._pass_selection_on)
        self._follow_year()

    def _follow(self) -> None:
        self.plan = self._stable_plan = self._main.plan
        self._stable = self._main.stable
        # Beds of a large garden are shown a few at a time here too, each when it is placed.
        there = self.plan.garden.beds_by_id
        self.unplaced = {key: b for key, b in self.unplaced.items() if key in there} | self._main.unplaced
        if self.unplaced:
            self._placing.start()
        self.garden_changed.emit()

    def _follow_year(self) -> None:
        span = self._main.plan.span
        day = (self._main.day or span.first) + _DAY * APART
        self.plan = self._main.plan
        self._place_later(self.plan.plantings, anew=True)
        self._follow()
        self.day, self.hour = min(max(day, span.first), span.last), self._main.hour
        self.year_changed.emit()
        self.day_changed.emit()

    def leave(self) -> None:
        """Follow the other document no more, and end."""
        main = self._main
        main.garden_changed.disconnect(self._follow)
        main.year_changed.disconnect(self._follow_year)
        main.selection_changed.disconnect(self._follow_selection)
        main.hour_changed.disconnect(self._follow_hour)
        self.end()

    def _follow_hour(self) -> None:
        self.show_hour(self._main.hour)

    def _follow_selection(self) -> None:
        self.select(self._main.selection)

    def _pass_selection_on(self) -> None:
        self._main.select(self.selection)


class SecondView(SheetPicture):
    """The second view: dragging moves both, a click selects."""

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__(document, look)
        self.setAccessibleName(say("Plan on another day"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._pressed: QPointF | None = None
        self._at = QPointF()

    @override
    @guarded
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._pressed = self._at = event.position()

    @override
    @guarded
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._pressed is not None:
            self.scroll_by(event.position() - self._at)
            self._at = event.position()

    @override
    @guarded
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        pressed, self._pressed = self._pressed, None
        if pressed is None or (event.position() - pressed).manhattanLength() > SLACK:
            return
        at = self.scene_at(event.position())
        key = self.labels.key_at(event.position()) or self.sheet.planting_at(at) or self.sheet.bed_at(at)
        self.document.select((key,) if key is not None else ())


class TwoDays(QWidget):
    """The sheet, beside it a second view while that is wanted, and the keys of the numbers on both.

    Attributes
    ----------
    second : SecondView or None
    slider : QSlider or None
        Moves the day of the second view.
    """

    def __init__(self, view: SheetView, key: NumberKey, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self._split = QSplitter(Qt.Orientation.Horizontal)
        self._key = key
        self._view, self._document, self._look = view, document, look
        self.second: SecondView | None = None
        self.slider: QSlider | None = None
        self._beside: DayBeside | None = None
        self._right: QWidget | None = None
        self._moving = False
        left = QWidget()
        column = _column(left)
        self._day = _head(say("Day of the left view"))
        self._day.hide()
        column.addWidget(self._day)
        column.addWidget(view, 1)
        self._split.addWidget(left)
        self._split.setChildrenCollapsible(False)
        self._keys = QVBoxLayout()
        self._keys.setSpacing(0)
        self._keys.addWidget(key)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self._split, 1)
        row.addLayout(self._keys)
        document.day_changed.connect(self._tell_days)

    def show_second(self, shown: bool) -> None:
        """Show the second view, or close it."""
        if shown and self.second is None:
            self._open()
        elif not shown:
            self.close_second()
        self._day.setVisible(shown)
        self._tell_days()

    def follow_light(self) -> None:
        """Show shadows and map in the second view as in the first."""
        if self.second is not None:
            light = self._view.light
            self.second.light.show(shadow=light.shadow_shown, light_map=light.map_shown, span=light.over_span)

    def _open(self) -> None:
        beside = self._beside = DayBeside(self._document)
        second = self.second = SecondView(beside, self._look)
        slider = self.slider = QSlider(Qt.Orientation.Horizontal)
        slider.setAccessibleName(say("Day of the right view"))
        slider.setPageStep(7)
        self._right_day = _head(say("Day of the right view"))
        head = QHBoxLayout()
        head.setContentsMargins(0, 0, 8, 0)
        head.addWidget(self._right_day)
        head.addWidget(slider, 1)
        self._right = QWidget()
        column = _column(self._right)
        column.addLayout(head)
        column.addWidget(second, 1)
        key = self._second_key = NumberKey(beside, second)
        key.planting_wanted.connect(lambda planting: beside.select((planting,)))
        self._keys.addWidget(key)
        self._split.addWidget(self._right)
        half = max(self.width() // 2, 1)
        self._split.setSizes([half, half])
        self._fit_slider()
        slider.valueChanged.connect(lambda days: beside.show_day(beside.plan.span.first + _DAY * days))
        beside.day_changed.connect(self._tell_days)
        beside.year_changed.connect(self._fit_slider)
        self._view.view_changed.connect(self._move_second)
        second.view_changed.connect(self._move_first)
        self._view.sheet.colouring.changed.connect(self._follow_colours)
        self._follow_colours()
        self.follow_light()
        second.grid_shown = self._view.grid_shown
        self._move_second()

    def close_second(self) -> None:
        """Close the second view."""
        second, beside, right = self.second, self._beside, self._right
        if second is None or beside is None or right is None:
            return
        self.second = self.slider = self._beside = self._right = None
        self._view.view_changed.disconnect(self._move_second)
        self._view.sheet.colouring.changed.disconnect(self._follow_colours)
        second.light.wait()
        second.sheet.colouring.stop()
        for widget in (right, self._second_key):
            widget.setParent(None)
            widget.deleteLater()
        self._key.name("")
        beside.leave()

    def _follow_colours(self) -> None:
        if self.second is not None:
            self.second.sheet.colouring.choose(self._view.sheet.colouring.scale)

    def _fit_slider(self) -> None:
        if self.slider is not None and self._beside is not None:
            span = self._beside.plan.span
            day = self._beside.day or span.first
            self.slider.blockSignals(True)
            self.slider.setRange(0, span.days - 1)
            self.slider.setValue((day - span.first).days)
            self.slider.blockSignals(False)

    def _tell_days(self) -> None:
        if self._beside is None:
            return
        shown = (
            (self._day, self._key, self._document.day),
            (self._right_day, self._second_key, self._beside.day),
        )
        for label, key, day in shown:
            words = full_day_words(day) if day is not None else say("the whole year")
            label.setText(words)
            key.name(words)

    def _move_second(self) -> None:
        if self.second is not None:
            self._move(self._view, self.second)

    def _move_first(self) -> None:
        if self.second is not None:
            self._move(self.second, self._view)

    def _move(self, source: Camera, target: Camera) -> None:
        """Show the same part of the sheet in one view as in the other."""
        if self._moving:
            return
        self._moving = True
        try:
            if abs(source.pixels_per_metre / target.pixels_per_metre - 1) > 1e-9:
                target.scale_to(source.pixels_per_metre)
            corner = source.scene_at(QPointF(0, 0))
            by = -target.viewportTransform().map(corner)
            if by.manhattanLength() >= 1:
                target.scroll_by(by)
            target.viewport().update()
        finally:
            self._moving = False


def _column(widget: QWidget) -> QVBoxLayout:
    column = QVBoxLayout(widget)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    return column


def _head(name: str) -> QLabel:
    """The line over a view that says its day."""
    label = QLabel()
    label.setAccessibleName(name)
    label.setFont(letters(10, bold=True))
    label.setContentsMargins(10, 3, 10, 3)
    return label
