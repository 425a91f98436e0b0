"""The pages of the window, in tabs: plan, year, records, crop, quantities, harvest, seed and print."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QSplitter, QTabWidget, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.canvas.bar_legend import BarLegend
from planner.desk.main_window.record_bar import RecordBar
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.main_window.tight_tabs import TIGHT, TIGHTEST, TightTabs, lay_titles
from planner.desk.model.document import Document
from planner.desk.pages.amounts_page import AmountsPage
from planner.desk.pages.crop_page import CropPage
from planner.desk.pages.enough_page import EnoughPage
from planner.desk.pages.gaps_page import GapsPage
from planner.desk.pages.harvest_page import HarvestPage
from planner.desk.pages.household_page import HouseholdPage
from planner.desk.pages.layout_page import LayoutPage
from planner.desk.pages.learned_page import LearnedPage
from planner.desk.pages.materials_page import MaterialsPage
from planner.desk.pages.offers_view import OffersView, PlantingStockView
from planner.desk.pages.own_plants_page import OwnPlantsPage
from planner.desk.pages.paper_page import PaperPage
from planner.desk.pages.raising_page import RaisingPage
from planner.desk.pages.records_page import RecordsPage
from planner.desk.pages.shopping_page import ShoppingPage
from planner.desk.pages.stock_page import StockPage
from planner.desk.pages.store_page import StorePage
from planner.desk.pages.trials_page import TrialsPage
from planner.desk.pages.walk_page import WalkPage
from planner.desk.pages.wishes_page import WishesPage
from planner.desk.pages.year_page import YearPage
from planner.desk.pages.years_page import YearsPage
from planner.desk.panels.ribbon import Ribbon
from planner.desk.theme.palette import LookSwitch
from planner.words import later, say

#: Heights of sheet and ribbon at first. [pixels]
SHEET_HEIGHT, RIBBON_HEIGHT = 600, 190
#: Every page can be worked down to this width. [pixels]
LEAST_WIDTH = 280
#: Title of the page of a crop, and what it is called in a small window.
CROP_TITLE = later("About this crop")
SHORT_CROP_TITLE = later("Crop")


#: Keys of commands on what is selected on the plan, which mean something else, or nothing, on another page.
_PLAN_KEYS = (
    QKeySequence.StandardKey.Delete,
    QKeySequence.StandardKey.SelectAll,
    QKeySequence.StandardKey.Cut,
    QKeySequence.StandardKey.Copy,
    QKeySequence.StandardKey.Paste,
)


class PageTabs(TightTabs):
    """All pages; the sheet with the ribbon below it is the first.

    Attributes
    ----------
    year, records, walk, crop, amounts, raising, materials, shopping, wishes, layout_page, harvest, gaps, store, household, enough, stock,
    planting_stock, offers, varieties, years, learned, trials, paper
        The other pages; what belongs together shares a title.
    """

    def __init__(self, document: Document, look: LookSwitch, view: SheetView, ribbon: Ribbon) -> None:
        super().__init__()
        self.setDocumentMode(True)
        self.setAccessibleName(say("Pages"))
        self.setMinimumWidth(LEAST_WIDTH)
        self.year = YearPage(document, look)
        self.records, self.walk = RecordsPage(document), WalkPage(document)
        self.records.walk_wanted.connect(lambda: self.bring(self.walk))
        self.crop = CropPage(document, look)
        self.amounts = AmountsPage(document)
        self.raising = RaisingPage(document, look)
        self.materials = MaterialsPage(document, look)
        self.stock = StockPage(document)
        self.varieties = OwnPlantsPage(document)
        self.paper = PaperPage(document, look)
        self.shopping = ShoppingPage(document)
        self.planting_stock = PlantingStockView(document)
        self.offers = OffersView(document)
        self.wishes = WishesPage(document)
        self.layout_page = LayoutPage(document, look)
        self.wishes.layout_wanted.connect(lambda: self.bring(self.layout_page))
        self.layout_page.wishes_wanted.connect(lambda: self.bring(self.wishes))
        self._quantities = _group(
            say("Quantities"),
            (self.amounts, say("Plants and seed")),
            (self.raising, say("Raising")),
            (self.materials, say("Materials")),
            (self.shopping, say("Shopping")),
            (self.wishes, say("Wishes")),
            (self.layout_page, say("Proposed layout")),
        )
        self.harvest = HarvestPage(document, look)
        self.gaps = GapsPage(document)
        self.store = StorePage(document, look)
        self.household = HouseholdPage(document)
        self.enough = EnoughPage(document)
        self._harvest = _group(
            say("Harvest"),
            (self.harvest, say("By week")),
            (self.gaps, say("Gluts and gaps")),
            (self.store, say("In store")),
            (self.household, say("Household")),
            (self.enough, say("How much to plant")),
        )
        self._seed = _group(
            say("Seed"),
            (self.stock, say("In stock")),
            (self.planting_stock, say("Sets and plants")),
            (self.offers, say("What can be bought")),
            (self.varieties, say("Own varieties and crops")),
        )
        self.years = YearsPage(document, look)
        self.learned = LearnedPage(document)
        self.trials = TrialsPage(document)
        self._records = _group(
            say("Records"),
            (self.records, say("What happened")),
            (self.walk, say("Enter a walk")),
            (self.years, say("Side by side")),
            (self.learned, say("Own figures")),
            (self.trials, say("Trials")),
        )
        self.legend = BarLegend(document, look, "frost")
        self.record_bar = RecordBar(document)
        self._sheet = _sheet_with_ribbon(view, self.record_bar, ribbon, self.legend)
        for page, title in (
            (self._sheet, say("Plan")),
            (self.year, say("Year")),
            (self._records, say("Records")),
            (self.crop, say(CROP_TITLE)),
            (self._quantities, say("Quantities")),
            (self._harvest, say("Harvest")),
            (self._seed, say("Seed")),
            (self.paper, say("Print")),
        ):
            self.setTabToolTip(self.addTab(page, title), title)

    @override
    def event(self, event: QEvent) -> bool:
        """Keep the keys of commands on the plan to the page that has the focus: Delete in a table is no Delete on the plan."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and not self.shows_sheet
            and any(event.matches(key) for key in _PLAN_KEYS)
        ):
            event.accept()
            return True
        return super().event(event)

    @property
    def shows_sheet(self) -> bool:
        """Whether the sheet is at the front."""
        return self.currentWidget() is self._sheet

    @override
    def fit_titles(self) -> None:
        """Shorten the longest title where not all of them have room, and let them lie closer where that is not enough."""
        tab, short = self.indexOf(self.crop), say(SHORT_CROP_TITLE)
        for title, tight in (
            (say(CROP_TITLE), 0),
            (short, 0),
            (short, TIGHT),
            (short, TIGHTEST),
        ):
            lay_titles(self.tabBar(), tight)
            self.setTabText(tab, title)
            if self.tabBar().sizeHint().width() <= self.width():
                break

    def show_sheet(self) -> None:
        """Bring the sheet to the front."""
        self.setCurrentWidget(self._sheet)

    def bring(self, page: QWidget) -> None:
        """Bring a page to the front, whatever title it is under."""
        group = next(
            (
                group
                for group in (self._records, self._quantities, self._harvest, self._seed)
                if group.indexOf(page) >= 0
            ),
            None,
        )
        if group is not None:
            group.setCurrentWidget(page)
        self.setCurrentWidget(group if group is not None else page)

    def begin_record(self, draft: dict[str, object]) -> None:
        """Bring the records to the front, with a new one begun."""
        self.bring(self.records)
        self.records.begin(draft)

    def edit_variety(self, crop: str, key: str) -> None:
        """Bring an own variety to the front, by its id; a new one of the crop where there is no id."""
        self.bring(self.varieties)
        if key:
            self.varieties.show_own(key)
        else:
            self.varieties.new(crop)


def _group(name: str, *pages: tuple[QWidget, str]) -> QTabWidget:
    """Several pages under one title, in tabs of their own."""
    group = TightTabs()
    group.setAccessibleName(name)
    for page, title in pages:
        group.setTabToolTip(group.addTab(page, title), title)
    return group


def _sheet_with_ribbon(view: QWidget, bar: QWidget, ribbon: QWidget, legend: QWidget) -> QSplitter:
    above = QWidget()
    sheet = QVBoxLayout(above)
    sheet.setContentsMargins(0, 0, 0, 0)
    sheet.setSpacing(0)
    sheet.addWidget(view, 1)
    sheet.addWidget(bar)
    below = QWidget()
    column = QVBoxLayout(below)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    column.addWidget(ribbon, 1)
    column.addWidget(legend)
    splitter = QSplitter(Qt.Orientation.Vertical)
    splitter.addWidget(above)
    splitter.addWidget(below)
    splitter.setStretchFactor(0, 1)
    splitter.setSizes([SHEET_HEIGHT, RIBBON_HEIGHT])
    splitter.setCollapsible(0, False)
    return splitter
