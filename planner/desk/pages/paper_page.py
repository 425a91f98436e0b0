"""The sheets as they will be printed."""

from __future__ import annotations

import datetime as dt
import io
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QImage, QPixmap, QShowEvent
from PySide6.QtWidgets import (
    QComboBox,
    QLabel,
    QPushButton,
    QScrollArea,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.errors import BedwrightError

if TYPE_CHECKING:
    import pypdfium2

#: Wait after an edit before the sheets are made again. [ms]
DELAY = 250
#: Least and greatest width of the page shown. [pixels]
NARROWEST, WIDEST = 300, 1000


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
        self.setAccessibleName("Print")
        self._pdf: pypdfium2.PdfDocument | None = None
        self._key: tuple[object, ...] = ()
        self.sheet = QLabel()
        self.sheet.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.sheet.setAccessibleName("The page as printed")
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setWidget(self.sheet)
        self.area.setFrameShape(QScrollArea.Shape.NoFrame)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(self._make_head())
        column.addWidget(self.area, 1)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(DELAY)
        self._timer.timeout.connect(self.refresh)
        document.garden_settled.connect(self._timer.start)
        document.year_changed.connect(self._timer.start)

    def _make_head(self) -> FlowLayout:
        """Choices of bed, paper and page, and what can be done with the sheets."""
        self.bed = QComboBox()
        self.bed.setAccessibleName("Bed")
        self.bed.activated.connect(lambda _index: self.refresh())
        self.paper = QComboBox()
        self.paper.setAccessibleName("Paper size")
        self.paper.addItem("A4", "a4")
        self.paper.addItem("Letter", "letter")
        self.paper.activated.connect(lambda _index: self.refresh())
        self.page = QSpinBox()
        self.page.setAccessibleName("Page")
        self.page.setRange(1, 1)
        self.page.valueChanged.connect(lambda _number: self._draw())
        self.of = QLabel()
        save, send = QPushButton("Save as PDF…"), QPushButton("Print…")
        save.clicked.connect(self.save_wanted)
        send.clicked.connect(self.print_wanted)
        head = FlowLayout()
        head.add_group(QLabel("Sheet of"), self.bed)
        head.add_group(QLabel("on"), self.paper)
        head.add_group(QLabel("page"), self.page, self.of)
        head.addWidget(save)
        head.addWidget(send)
        return head

    def _fill_beds(self) -> None:
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

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Make the sheets again (only while the page can be seen)."""
        if not self.isVisible():
            return
        self._fill_beds()
        plan = self.document.plan
        key = (plan, self.bed.currentData(), self.paper.currentData())
        if key == self._key:
            return
        if not plan.beds:
            self.sheet.setText("There is no bed yet to make a sheet of.")
            return
        try:
            self._pdf = self._make_pdf()
        except BedwrightError as error:
            self.sheet.setText(str(error))
            return
        self._key = key
        self.page.setRange(1, len(self._pdf))
        self.of.setText(f"of {len(self._pdf)}")
        self._draw()

    def _make_pdf(self) -> pypdfium2.PdfDocument:
        import pypdfium2

        from planner.sheets.bed_sheets import write_bed_sheets

        plan, chosen = self.document.plan, self.chosen()
        beds = None if chosen is None else [plan.garden.beds_by_id[key] for key in chosen]
        buffer = io.BytesIO()
        write_bed_sheets(plan, buffer, beds=beds, paper=self.paper.currentData(), today=dt.date.today())
        return pypdfium2.PdfDocument(buffer.getvalue())

    def _draw(self) -> None:
        if self._pdf is None:
            return
        page = self._pdf[self.page.value() - 1]
        width, _ = page.get_size()
        ratio = self.devicePixelRatioF()
        room = min(max(self.area.viewport().width() - 24, NARROWEST), WIDEST)
        bitmap = page.render(scale=room / width * ratio)
        array = bitmap.to_numpy()
        form = QImage.Format.Format_BGR888 if array.shape[2] == 3 else QImage.Format.Format_RGB32
        image = QImage(array.data, array.shape[1], array.shape[0], array.strides[0], form).copy()
        picture = QPixmap.fromImage(image)
        picture.setDevicePixelRatio(ratio)
        self.sheet.setPixmap(picture)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self.document.garden.site.units == "feet_inches" and self._pdf is None:
            self.paper.setCurrentIndex(1)
        self.refresh()
