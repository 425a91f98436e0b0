"""The sheets as they will be printed."""

from __future__ import annotations

import datetime as dt
import io

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QImage, QPixmap
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.errors import BedwrightError


class PaperPage(QWidget):
    """Bed sheets of one bed or all, page by page, from the very PDF that is written.

    Signals
    -------
    save_wanted, print_wanted
    """

    save_wanted = Signal()
    print_wanted = Signal()

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.setAccessibleName("Paper")
        self._pdf = None
        self._key: tuple[object, ...] = ()
        self.bed = QComboBox()
        self.bed.setAccessibleName("Bed")
        self.bed.activated.connect(lambda _i: self.refresh())
        self.paper = QComboBox()
        self.paper.setAccessibleName("Paper size")
        self.paper.addItem("A4", "a4")
        self.paper.addItem("Letter", "letter")
        self.paper.activated.connect(lambda _i: self.refresh())
        self.page = QSpinBox()
        self.page.setAccessibleName("Page")
        self.page.setRange(1, 1)
        self.page.valueChanged.connect(lambda _n: self._draw())
        self.of = QLabel()
        save, send = QPushButton("Save as PDF…"), QPushButton("Print…")
        save.clicked.connect(self.save_wanted)
        send.clicked.connect(self.print_wanted)
        head = QHBoxLayout()
        for widget in (
            QLabel("Sheet of"),
            self.bed,
            QLabel("on"),
            self.paper,
            QLabel("page"),
            self.page,
            self.of,
        ):
            head.addWidget(widget)
        head.addStretch(1)
        head.addWidget(save)
        head.addWidget(send)
        self.sheet = QLabel()
        self.sheet.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.sheet.setAccessibleName("The page as printed")
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setWidget(self.sheet)
        area.setFrameShape(QScrollArea.Shape.NoFrame)
        self.area = area
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(area, 1)
        self._late = QTimer(self)
        self._late.setSingleShot(True)
        self._late.setInterval(250)
        self._late.timeout.connect(self.refresh)
        document.garden_settled.connect(self._late.start)
        document.year_changed.connect(self._late.start)

    def _fill(self) -> None:
        beds = [("", "all beds"), *((bed.id, bed.name) for bed in self.document.plan.beds)]
        if [(self.bed.itemData(i), self.bed.itemText(i)) for i in range(self.bed.count())] == beds:
            return
        now = self.bed.currentData()
        self.bed.clear()
        for key, name in beds:
            self.bed.addItem(name, key)
        self.bed.setCurrentIndex(max(0, self.bed.findData(now)))

    def chosen(self) -> list[str] | None:
        """Ids of the beds shown; None for all."""
        key = self.bed.currentData()
        return [key] if key else None

    def refresh(self) -> None:
        """Make the sheets again (only while the page can be seen)."""
        if not self.isVisible():
            return
        self._fill()
        plan = self.document.plan
        key = (plan, self.bed.currentData(), self.paper.currentData())
        if key == self._key:
            return
        if not plan.beds:
            self.sheet.setText("There is no bed yet to make a sheet of.")
            return
        import pypdfium2

        from planner.sheets.bed_sheets import write_bed_sheets

        chosen = self.chosen()
        beds = None if chosen is None else [plan.garden.beds_by_id[k] for k in chosen]
        buffer = io.BytesIO()
        try:
            write_bed_sheets(plan, buffer, beds=beds, paper=self.paper.currentData(), today=dt.date.today())
        except BedwrightError as error:
            self.sheet.setText(str(error))
            return
        self._key = key
        self._pdf = pypdfium2.PdfDocument(buffer.getvalue())
        self.page.setRange(1, len(self._pdf))
        self.of.setText(f"of {len(self._pdf)}")
        self._draw()

    def _draw(self) -> None:
        if self._pdf is None:
            return
        page = self._pdf[self.page.value() - 1]
        width, _ = page.get_size()
        ratio = self.devicePixelRatioF()
        room = min(max(self.area.viewport().width() - 24, 300), 1000)
        bitmap = page.render(scale=room / width * ratio)
        array = bitmap.to_numpy()
        form = QImage.Format.Format_BGR888 if array.shape[2] == 3 else QImage.Format.Format_RGB32
        image = QImage(array.data, array.shape[1], array.shape[0], array.strides[0], form).copy()
        picture = QPixmap.fromImage(image)
        picture.setDevicePixelRatio(ratio)
        self.sheet.setPixmap(picture)

    @override
    def showEvent(self, event) -> None:
        super().showEvent(event)
        if self.document.garden.site.units == "feet_inches" and self._pdf is None:
            self.paper.setCurrentIndex(1)
        self.refresh()
