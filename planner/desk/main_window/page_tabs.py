"""The pages of the window, in tabs: plan, year, records, crop, quantities, harvest, seed and print."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.canvas.bar_legend import BarLegend
from planner.desk.canvas.colour_legend import ColourLegend
from planner.desk.main_window.late_pages import LatePages
from planner.desk.main_window.record_bar import RecordBar
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.main_window.tight_tabs import TIGHT, TIGHTEST, lay_titles
from planner.desk.main_window.two_days import TwoDays
from planner.desk.model.document import Document
from planner.desk.panels.number_key import NumberKey
from planner.desk.panels.ribbon import Ribbon
from planner.desk.panels.year_player import YearPlayer
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


class PageTabs(LatePages):
    """All pages; the sheet with the ribbon below it is the first.

    Attributes
    ----------
    year, records, walk, crop, amounts, raising, materials, water, shopping, wishes, layout_page, harvest, gaps, store, household, enough, stock,
    planting_stock, offers, varieties, years, learned, trials, weather, odds, paper
        The other pages, made when they are first wanted; what belongs together shares a title.
    """

    def __init__(
        self, document: Document, look: LookSwitch, view: SheetView, ribbon: Ribbon, guide: QWidget
    ) -> None:
        super().__init__(document, look)
        self.setDocumentMode(True)
        self.setAccessibleName(say("Pages"))
        self.setMinimumWidth(LEAST_WIDTH)
        self.legend = BarLegend(document, look, "frost")
        self.record_bar = RecordBar(document)
        self.number_key = NumberKey(document, view)
        self.colour_legend = ColourLegend(document, look, view.sheet.colouring)
        self.player = YearPlayer(document)
        ribbon.hold_in_corner(self.player)
        self.two_days = TwoDays(view, self.number_key, document, look)
        under = self.colour_legend, self.record_bar
        self._sheet = _sheet_with_ribbon(guide, self.two_days, under, ribbon, self.legend)
        self.setTabToolTip(self.addTab(self._sheet, say("Plan")), say("Plan"))
        self.spot("year", say("Year"))
        self._records = self.group(say("Records"))
        self.spot("records", say("What happened"), self._records)
        self.spot("walk", say("Enter a walk"), self._records)
        self.spot("years", say("Side by side"), self._records)
        self.spot("learned", say("Own figures"), self._records)
        self.spot("trials", say("Trials"), self._records)
        self.spot("weather", say("Weather"), self._records)
        self.spot("odds", say("Odds"), self._records)
        self.spot("crop", say(CROP_TITLE))
        self._quantities = self.group(say("Quantities"))
        self.spot("amounts", say("Plants and seed"), self._quantities)
        self.spot("raising", say("Raising"), self._quantities)
        self.spot("materials", say("Materials"), self._quantities)
        self.spot("water", say("Water"), self._quantities)
        self.spot("shopping", say("Shopping"), self._quantities)
        self.spot("wishes", say("Wishes"), self._quantities)
        self.spot("layout_page", say("Proposed layout"), self._quantities)
        self._harvest = self.group(say("Harvest"))
        self.spot("harvest", say("By week"), self._harvest)
        self.spot("gaps", say("Gluts and gaps"), self._harvest)
        self.spot("store", say("In store"), self._harvest)
        self.spot("household", say("Household"), self._harvest)
        self.spot("enough", say("How much to plant"), self._harvest)
        self._seed = self.group(say("Seed"))
        self.spot("stock", say("In stock"), self._seed)
        self.spot("planting_stock", say("Sets and plants"), self._seed)
        self.spot("offers", say("What can be bought"), self._seed)
        self.spot("varieties", say("Own varieties and crops"), self._seed)
        self.spot("paper", say("Print"))

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
        tab = self.indexOf(self.crop if self.is_made("crop") else self._spots["crop"])
        short = say(SHORT_CROP_TITLE)
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


def _sheet_with_ribbon(
    guide: QWidget, view: QWidget, under: Sequence[QWidget], ribbon: QWidget, legend: QWidget
) -> QSplitter:
    above = QWidget()
    sheet = QVBoxLayout(above)
    sheet.setContentsMargins(0, 0, 0, 0)
    sheet.setSpacing(0)
    sheet.addWidget(guide)
    sheet.addWidget(view, 1)
    for widget in under:
        sheet.addWidget(widget)
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
