"""Photographs of a bed on a day, beside those of the same week in other years; found and made small in a thread."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QColor, QIcon, QKeyEvent, QKeySequence, QPainter, QPixmap
from PySide6.QtWidgets import (
    QDialog,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QSplitter,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.theme.plain_tips import plain_tip
from planner.errors import BedwrightError
from planner.garden.records import RecordBase
from planner.plan.pictures import Shot, of_day, same_week_of_other_years, shots_of
from planner.storage.photographs import PhotographFinder, cache_folder, thumbnail
from planner.words import day_words, full_day_words, say

#: Longest side of a small picture as it is shown; it is made twice as large, for dense screens. [pixels]
SIDE, MADE_SIDE = 130, 320
#: Longest side of one that is looked at by itself. [pixels]
LARGE_SIDE = 1_400
#: Height of the strip. [pixels]
HEIGHT = 190
#: Most photographs in each half of the strip.
MOST_SHOWN = 60
_SHOT_ROLE = Qt.ItemDataRole.UserRole


class _Found(NamedTuple):
    """A photograph that was looked for: its place in its list, its small picture, and what is not as it should be."""

    which: int
    number: int
    small: Path | None
    why: str


class PictureList(QListWidget):
    """Small pictures in a row.

    Signals
    -------
    delete_pressed
        Delete was pressed: those chosen are to be taken off.
    """

    delete_pressed = Signal()

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setViewMode(QListWidget.ViewMode.IconMode)
        self.setFlow(QListWidget.Flow.LeftToRight)
        self.setWrapping(False)
        self.setIconSize(QSize(SIDE, SIDE))
        self.setMovement(QListWidget.Movement.Static)
        self.setSpacing(4)
        self.setUniformItemSizes(True)
        self.setTextElideMode(Qt.TextElideMode.ElideMiddle)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Delete):
            self.delete_pressed.emit()
            return
        super().keyPressEvent(event)

    def fill(self, shots: Sequence[Shot], *, with_year: bool) -> None:
        """Show photographs, of which the pictures come later."""
        self.clear()
        blank = QPixmap(SIDE, SIDE)
        blank.fill(QColor(128, 128, 128, 60))
        for shot in shots:
            words = full_day_words(shot.day) if with_year else _time_words(shot)
            item = QListWidgetItem(QIcon(blank), words)
            item.setData(_SHOT_ROLE, shot)
            item.setSizeHint(QSize(SIDE + 10, SIDE + 24))
            item.setToolTip(
                plain_tip("\n".join(part for part in (shot.photograph.path, shot.record.words) if part))
            )
            self.addItem(item)

    def shots(self) -> list[Shot]:
        """The photographs chosen."""
        return [item.data(_SHOT_ROLE) for item in self.selectedItems()]


class PhotographStrip(QWidget):
    """Photographs of the bed and day of a record, and those of the same week in other years.

    Signals
    -------
    taken_off : list of Shot
        They are to be taken off their records.
    """

    taken_off = Signal(object)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self._jobs = JobQueue(self)
        self._finder: PhotographFinder | None = None
        self._shown: tuple[tuple[Shot, ...], tuple[Shot, ...]] = ((), ())
        self.here, self.other = (
            PictureList(say("Photographs of that day")),
            PictureList(say("The same week of other years")),
        )
        self.heads = QLabel(), QLabel()
        split = QSplitter(Qt.Orientation.Horizontal)
        for head, pictures in zip(self.heads, (self.here, self.other), strict=True):
            head.setTextFormat(Qt.TextFormat.PlainText)
            head.setProperty("second", True)
            half = QWidget()
            column = QVBoxLayout(half)
            column.setContentsMargins(0, 4, 0, 0)
            column.setSpacing(2)
            column.addWidget(head)
            column.addWidget(pictures, 1)
            split.addWidget(half)
            pictures.itemActivated.connect(self._show_large)
        self.here.delete_pressed.connect(lambda: self.taken_off.emit(self.here.shots()))
        split.setChildrenCollapsible(False)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(split)
        self.setFixedHeight(HEIGHT + 24)
        document.opened.connect(self._forget)
        self.hide()

    def _forget(self) -> None:
        self._jobs.cancel("small")
        self._finder, self._shown = None, ((), ())
        self.here.clear()
        self.other.clear()
        self.hide()

    def show_record(self, record: RecordBase | None) -> None:
        """Show the photographs of the bed and day of a record; without one, those that were taken last."""
        plan, shots = self.document.plan, shots_of(self.document.plan, None)
        if not shots:
            self._forget()
            return
        bed = record.bed if record is not None else None
        if record is not None and record.planting is not None:
            bed = plan.garden.plantings_by_id[record.planting].bed
        if bed is not None:
            shots = shots_of(plan, bed)
        day = (
            shots[-1].day
            if record is None and shots
            else record.day
            if record is not None
            else dt.date.today()
        )
        own = tuple(Shot(record, one) for one in record.photographs) if record is not None else ()
        of_the_day = tuple(dict.fromkeys((*own, *of_day(shots, day))))[:MOST_SHOWN]
        others = same_week_of_other_years(shots, day)[:MOST_SHOWN]
        self.setVisible(bool(of_the_day or others))
        place = plan.garden.beds_by_id[bed].name if bed is not None else say("the garden")
        self.heads[0].setText(say("{place} on {day}", place=place, day=full_day_words(day)))
        self.heads[1].setText(
            say("The same week of other years")
            if others
            else say("No photographs of {place} about {day} in other years", place=place, day=day_words(day))
        )
        if (of_the_day, others) == self._shown:
            return
        self._shown = of_the_day, others
        self.here.fill(of_the_day, with_year=False)
        self.other.fill(others, with_year=True)
        self._load()

    def finder(self) -> PhotographFinder | None:
        """Finds the photographs of the garden's file; None while it has none."""
        path = self.document.path
        if path is None:
            return None
        if self._finder is None or self._finder.folder != path.absolute().parent:
            self._finder = PhotographFinder(path)
        return self._finder

    def _load(self) -> None:
        finder, halves = self.finder(), self._shown
        if finder is None:
            return

        def work(cancelled: Cancelled) -> Iterator[_Found]:
            for which, half in enumerate(halves):
                for number, shot in enumerate(half):
                    if cancelled():
                        return
                    yield _find_small(finder, shot, which, number, cancelled)

        self._jobs.start(work, self._show_small, "small")

    def _show_small(self, found: _Found) -> None:
        item = (self.here, self.other)[found.which].item(found.number)
        if item is None:
            return
        if found.small is not None:
            item.setIcon(QIcon(_square(QPixmap(str(found.small)))))
        if found.why:
            item.setText(found.why)
            item.setToolTip(plain_tip(f"{found.why}\n{item.toolTip()}"))

    def _show_large(self, item: QListWidgetItem) -> None:
        shot, finder = item.data(_SHOT_ROLE), self.finder()
        if finder is None:
            return

        def work(cancelled: Cancelled) -> Iterator[Path | str]:
            path, why = finder.find(shot.photograph, cancelled)
            if path is None:
                yield why
                return
            try:
                yield thumbnail(path, finder.digest(path), LARGE_SIDE, cache_folder())
            except BedwrightError as error:
                yield str(error)

        self._jobs.start(work, lambda found: _LargePicture(self, shot, found).show(), "large")


class _LargePicture(QDialog):
    """A photograph by itself."""

    def __init__(self, parent: QWidget, shot: Shot, found: Path | str) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(f"{full_day_words(shot.day)} – {shot.photograph.path}")
        picture = QLabel()
        picture.setTextFormat(Qt.TextFormat.PlainText)
        picture.setAlignment(Qt.AlignmentFlag.AlignCenter)
        if isinstance(found, Path):
            room = self.screen().availableGeometry().size() * 0.8
            whole = QPixmap(str(found))
            picture.setPixmap(
                whole.scaled(
                    whole.size().boundedTo(room),
                    Qt.AspectRatioMode.KeepAspectRatio,
                    Qt.TransformationMode.SmoothTransformation,
                )
            )
        else:
            picture.setText(found)
        words = QLabel(shot.record.words)
        words.setTextFormat(Qt.TextFormat.PlainText)
        words.setWordWrap(True)
        words.setVisible(bool(shot.record.words))
        column = QVBoxLayout(self)
        column.addWidget(picture, 1)
        column.addWidget(words)


def _square(picture: QPixmap) -> QPixmap:
    """A picture in the middle of a square: a list draws icons as wide as they are high."""
    square = QPixmap(MADE_SIDE, MADE_SIDE)
    square.fill(Qt.GlobalColor.transparent)
    painter = QPainter(square)
    painter.drawPixmap((MADE_SIDE - picture.width()) // 2, (MADE_SIDE - picture.height()) // 2, picture)
    painter.end()
    return square


def _find_small(
    finder: PhotographFinder, shot: Shot, which: int, number: int, cancelled: Cancelled
) -> _Found:
    """Find a photograph and make it small (in the thread)."""
    path, why = finder.find(shot.photograph, cancelled)
    if path is None:
        return _Found(which, number, None, why)
    try:
        return _Found(which, number, thumbnail(path, finder.digest(path), MADE_SIDE, cache_folder()), why)
    except BedwrightError as error:
        return _Found(which, number, None, error.what)


def _time_words(shot: Shot) -> str:
    return f"{shot.photograph.taken:%H:%M}" if shot.photograph.taken is not None else full_day_words(shot.day)
