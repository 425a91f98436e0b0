"""The pages of the window, in tabs: plan, year, crop, quantities, seed and print."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSplitter, QTabWidget, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.canvas.bar_legend import BarLegend
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.document import Document
from planner.desk.pages.amounts_page import AmountsPage
from planner.desk.pages.crop_page import CropPage
from planner.desk.pages.offers_view import OffersView, PlantingStockView
from planner.desk.pages.own_plants_page import OwnPlantsPage
from planner.desk.pages.paper_page import PaperPage
from planner.desk.pages.shopping_page import ShoppingPage
from planner.desk.pages.stock_page import StockPage
from planner.desk.pages.year_page import YearPage
from planner.desk.panels.ribbon import Ribbon
from planner.desk.theme.palette import LookSwitch

#: Heights of sheet and ribbon at first. [pixels]
SHEET_HEIGHT, RIBBON_HEIGHT = 600, 190
#: Every page can be worked down to this width. [pixels]
LEAST_WIDTH = 280


#: Title of the page of a crop, and what it is called in a small window.
CROP_TITLE, SHORT_CROP_TITLE = "About this crop", "Crop"


class PageTabs(QTabWidget):
    """All pages; the sheet with the ribbon below it is the first.

    Attributes
    ----------
    year, crop, amounts, shopping, stock, planting_stock, offers, varieties, paper
        The other pages; what belongs together shares a title.
    """

    def __init__(self, document: Document, look: LookSwitch, view: SheetView, ribbon: Ribbon) -> None:
        super().__init__()
        self.setDocumentMode(True)
        self.setAccessibleName("Pages")
        self.setMinimumWidth(LEAST_WIDTH)
        self.year = YearPage(document, look)
        self.crop = CropPage(document, look)
        self.amounts = AmountsPage(document)
        self.stock = StockPage(document)
        self.varieties = OwnPlantsPage(document)
        self.paper = PaperPage(document, look)
        self.shopping = ShoppingPage(document)
        self.planting_stock = PlantingStockView(document)
        self.offers = OffersView(document)
        self._quantities = _group(
            "Quantities", (self.amounts, "Plants and seed"), (self.shopping, "Shopping")
        )
        self._seed = _group(
            "Seed",
            (self.stock, "In stock"),
            (self.planting_stock, "Sets and plants"),
            (self.offers, "What can be bought"),
            (self.varieties, "Own varieties and crops"),
        )
        self.legend = BarLegend(document, look, "frost")
        self._sheet = _sheet_with_ribbon(view, ribbon, self.legend)
        for page, title in (
            (self._sheet, "Plan"),
            (self.year, "Year"),
            (self.crop, CROP_TITLE),
            (self._quantities, "Quantities"),
            (self._seed, "Seed"),
            (self.paper, "Print"),
        ):
            self.setTabToolTip(self.addTab(page, title), title)

    @property
    def shows_sheet(self) -> bool:
        """Whether the sheet is at the front."""
        return self.currentWidget() is self._sheet

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        """Shorten the longest title where not all of them have room."""
        tab = self.indexOf(self.crop)
        self.setTabText(tab, CROP_TITLE)
        if self.tabBar().sizeHint().width() > self.width():
            self.setTabText(tab, SHORT_CROP_TITLE)
        super().resizeEvent(event)

    def show_sheet(self) -> None:
        """Bring the sheet to the front."""
        self.setCurrentWidget(self._sheet)

    def bring(self, page: QWidget) -> None:
        """Bring a page to the front, whatever title it is under."""
        group = next((group for group in (self._quantities, self._seed) if group.indexOf(page) >= 0), None)
        if group is not None:
            group.setCurrentWidget(page)
        self.setCurrentWidget(group if group is not None else page)

    def edit_variety(self, crop: str, key: str) -> None:
        """Bring an own variety to the front, by its id; a new one of the crop where there is no id."""
        self.bring(self.varieties)
        if key:
            self.varieties.show_own(key)
        else:
            self.varieties.new(crop)


def _group(name: str, *pages: tuple[QWidget, str]) -> QTabWidget:
    """Several pages under one title, in tabs of their own."""
    group = QTabWidget()
    group.setAccessibleName(name)
    for page, title in pages:
        group.setTabToolTip(group.addTab(page, title), title)
    return group


def _sheet_with_ribbon(view: QWidget, ribbon: QWidget, legend: QWidget) -> QSplitter:
    below = QWidget()
    column = QVBoxLayout(below)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    column.addWidget(ribbon, 1)
    column.addWidget(legend)
    splitter = QSplitter(Qt.Orientation.Vertical)
    splitter.addWidget(view)
    splitter.addWidget(below)
    splitter.setStretchFactor(0, 1)
    splitter.setSizes([SHEET_HEIGHT, RIBBON_HEIGHT])
    splitter.setCollapsible(0, False)
    return splitter
