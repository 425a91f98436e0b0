"""Sheets as they will be printed, page by page: the first as soon as it is made, the others beside the hand."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QImage, QPixmap, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QScrollArea, QSpinBox, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.errors import BedwrightError
from planner.plan import Plan
from planner.words import say

if TYPE_CHECKING:
    import pypdfium2

    from planner.sheets.kinds import SheetWish

#: Least and greatest width of the page shown. [pixels]
NARROWEST, WIDEST = 300, 1000


class SheetPreview(QWidget):
    """The pages of the very PDF that is written.

    Signals
    -------
    made
        All pages are there, or a line says why there are none.
    """

    made = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._parts: list[pypdfium2.PdfDocument] = []
        self._complete = False
        self._jobs = JobQueue(self)
        self.sheet = QLabel()
        self.sheet.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.sheet.setTextFormat(Qt.TextFormat.PlainText)
        self.sheet.setWordWrap(True)
        self.sheet.setAccessibleName(say("The page as printed"))
        self.area = QScrollArea()
        self.area.setAccessibleName(say("Part of the page that scrolls"))
        self.area.setWidgetResizable(True)
        self.area.setWidget(self.sheet)
        self.area.setFrameShape(QScrollArea.Shape.NoFrame)
        self.page = QSpinBox()
        self.page.setAccessibleName(say("Page"))
        self.page.setRange(1, 1)
        self.page.valueChanged.connect(lambda _number: self._draw())
        self.of = QLabel()
        head = QHBoxLayout()
        head.addStretch(1)
        for widget in (QLabel(say("Page")), self.page, self.of):
            head.addWidget(widget)
        head.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(head)
        column.addWidget(self.area, 1)

    @property
    def pages(self) -> int:
        """Pages that are there by now."""
        return sum(len(part) for part in self._parts)

    @property
    def complete(self) -> bool:
        """Whether all pages are there."""
        return self._complete

    def show_sheets(self, plan: Plan, wish: SheetWish) -> None:
        """Make sheets and show their first page as soon as it is there.

        Parameters
        ----------
        plan : Plan
        wish : SheetWish
        """
        self._parts, self._complete = [], False
        self.of.setText(say("…"))

        def work(cancelled: Cancelled) -> Iterator[bytes | str | None]:
            from planner.sheets.kinds import parts_of, write_sheets

            for part in parts_of(plan, wish):
                if cancelled():
                    return
                stream = io.BytesIO()
                try:
                    write_sheets(plan, stream, part, dt.date.today())
                except BedwrightError as error:
                    yield str(error)
                    return
                yield stream.getvalue()
            yield None

        self._jobs.start(work, self._take)

    def say_why_not(self, words: str) -> None:
        """Show words in place of pages."""
        self._jobs.cancel()
        self._parts, self._complete = [], True
        self._show_words(words)

    def _show_words(self, words: str) -> None:
        self.sheet.setPixmap(QPixmap())
        self.sheet.setText(words)
        self.page.setRange(1, 1)
        self.of.setText("")
        self.made.emit()

    def _take(self, result: bytes | str | None) -> None:
        """Take a part of the sheets, why there are none, or that there are no more."""
        import pypdfium2

        if isinstance(result, str):
            self._parts, self._complete = [], True
            self._show_words(result)
            return
        if result is None:
            self._complete = True
        else:
            self._parts.append(pypdfium2.PdfDocument(result))
        self.page.setRange(1, max(1, self.pages))
        words = (
            say("of {count}", count=self.pages)
            if self._complete
            else say("of {count} so far", count=self.pages)
        )
        self.of.setText(words)
        if len(self._parts) == 1 or self.sheet.pixmap().isNull():
            self._draw()
        if self._complete:
            self.made.emit()

    def _draw(self) -> None:
        number, page = self.page.value() - 1, None
        for part in self._parts:
            if number < len(part):
                page = part[number]
                break
            number -= len(part)
        if page is None:
            return
        width, _ = page.get_size()
        ratio = self.devicePixelRatioF()
        room = min(max(self.area.viewport().width() - 24, NARROWEST), WIDEST)
        array = page.render(scale=room / width * ratio).to_numpy()
        form = QImage.Format.Format_BGR888 if array.shape[2] == 3 else QImage.Format.Format_RGB32
        image = QImage(array.data, array.shape[1], array.shape[0], array.strides[0], form).copy()
        picture = QPixmap.fromImage(image)
        picture.setDevicePixelRatio(ratio)
        self.sheet.setPixmap(picture)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._draw()
