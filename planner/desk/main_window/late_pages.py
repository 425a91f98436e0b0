"""The pages behind the sheet: each is made, and its module read, when it is first wanted."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QTabWidget, QWidget

from planner.crops import Crop
from planner.desk.main_window.tight_tabs import TightTabs
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch

if TYPE_CHECKING:
    from planner.desk.pages.amounts_page import AmountsPage
    from planner.desk.pages.crop_page import CropPage
    from planner.desk.pages.enough_page import EnoughPage
    from planner.desk.pages.gaps_page import GapsPage
    from planner.desk.pages.harvest_page import HarvestPage
    from planner.desk.pages.household_page import HouseholdPage
    from planner.desk.pages.layout_page import LayoutPage
    from planner.desk.pages.learned_page import LearnedPage
    from planner.desk.pages.materials_page import MaterialsPage
    from planner.desk.pages.odds_page import OddsPage
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
    from planner.desk.pages.water_page import WaterPage
    from planner.desk.pages.weather_page import WeatherPage
    from planner.desk.pages.wish_years import WishYear
    from planner.desk.pages.wishes_page import WishesPage
    from planner.desk.pages.year_page import YearPage
    from planner.desk.pages.years_page import YearsPage

P = TypeVar("P", bound=QWidget)


class _Spot(QWidget):
    """Holds the place of a page in its tab."""

    def __init__(self, name: str, tabs: QTabWidget) -> None:
        super().__init__()
        self.name, self.tabs = name, tabs


class LatePages(TightTabs):
    """Tabs, some with tabs of their own, whose pages are made when they come to the front or are asked for.

    Signals
    -------
    page_made : str
        Name of the attribute that is the page.
    """

    page_made = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self._spots = dict[str, _Spot]()
        self._crop_shown: Crop | None = None
        self.currentChanged.connect(self._make_front)

    def spot(self, name: str, title: str, group: QTabWidget | None = None) -> None:
        """Add a tab for a page that is made later.

        Parameters
        ----------
        name : str
            Of the attribute.
        title : str
        group : QTabWidget, optional
            The tabs that it is one of; the window's by default.
        """
        tabs = group if group is not None else self
        spot = self._spots[name] = _Spot(name, tabs)
        tabs.setTabToolTip(tabs.addTab(spot, title), title)

    def group(self, title: str) -> QTabWidget:
        """Add a tab that holds several pages in tabs of its own."""
        group = TightTabs()
        group.setAccessibleName(title)
        group.currentChanged.connect(self._make_front)
        self.setTabToolTip(self.addTab(group, title), title)
        return group

    def is_made(self, name: str) -> bool:
        """Whether a page has been made."""
        return name not in self._spots

    def show_crop(self, crop: Crop) -> None:
        """Show a crop on its page, now or once there is one."""
        self._crop_shown = crop
        if self.is_made("crop"):
            self.crop.show_crop(crop)

    def _make_front(self) -> None:
        """Make the page that has come to the front."""
        front = self.currentWidget()
        if isinstance(front, QTabWidget):
            front = front.currentWidget()
        if isinstance(front, _Spot):
            getattr(self, front.name)

    def _put(self, name: str, page: P) -> P:
        """Put a page into its tab."""
        spot = self._spots.pop(name)
        tabs, at = spot.tabs, spot.tabs.indexOf(spot)
        front, title, tip = tabs.currentWidget() is spot, tabs.tabText(at), tabs.tabToolTip(at)
        blocked = tabs.blockSignals(True)  # to the outside it is the same tab
        tabs.setTabToolTip(tabs.insertTab(at, page, title), tip)
        if front:
            tabs.setCurrentIndex(at)
        tabs.removeTab(at + 1)
        tabs.blockSignals(blocked)
        spot.deleteLater()
        self.__dict__[name] = page  # whoever follows the signal asks for it
        self.page_made.emit(name)
        return page

    @cached_property
    def year(self) -> YearPage:
        from planner.desk.pages.year_page import YearPage

        return self._put("year", YearPage(self.document, self.look))

    @cached_property
    def records(self) -> RecordsPage:
        from planner.desk.pages.records_page import RecordsPage

        return self._put("records", RecordsPage(self.document))

    @cached_property
    def walk(self) -> WalkPage:
        from planner.desk.pages.walk_page import WalkPage

        return self._put("walk", WalkPage(self.document))

    @cached_property
    def crop(self) -> CropPage:
        from planner.desk.pages.crop_page import CropPage

        page = self._put("crop", CropPage(self.document, self.look))
        if self._crop_shown is not None:
            page.show_crop(self._crop_shown)
        return page

    @cached_property
    def amounts(self) -> AmountsPage:
        from planner.desk.pages.amounts_page import AmountsPage

        return self._put("amounts", AmountsPage(self.document))

    @cached_property
    def raising(self) -> RaisingPage:
        from planner.desk.pages.raising_page import RaisingPage

        return self._put("raising", RaisingPage(self.document, self.look))

    @cached_property
    def materials(self) -> MaterialsPage:
        from planner.desk.pages.materials_page import MaterialsPage

        return self._put("materials", MaterialsPage(self.document, self.look))

    @cached_property
    def water(self) -> WaterPage:
        from planner.desk.pages.water_page import WaterPage

        return self._put("water", WaterPage(self.document, self.look))

    @cached_property
    def shopping(self) -> ShoppingPage:
        from planner.desk.pages.shopping_page import ShoppingPage

        return self._put("shopping", ShoppingPage(self.document))

    @cached_property
    def wish_year(self) -> WishYear:
        """The year of both."""
        from planner.desk.pages.wish_years import WishYear

        return WishYear(self.document)

    @cached_property
    def wishes(self) -> WishesPage:
        from planner.desk.pages.wishes_page import WishesPage

        return self._put("wishes", WishesPage(self.document, self.wish_year))

    @cached_property
    def layout_page(self) -> LayoutPage:
        from planner.desk.pages.layout_page import LayoutPage

        return self._put("layout_page", LayoutPage(self.document, self.look, self.wish_year))

    @cached_property
    def harvest(self) -> HarvestPage:
        from planner.desk.pages.harvest_page import HarvestPage

        return self._put("harvest", HarvestPage(self.document, self.look))

    @cached_property
    def gaps(self) -> GapsPage:
        from planner.desk.pages.gaps_page import GapsPage

        return self._put("gaps", GapsPage(self.document))

    @cached_property
    def store(self) -> StorePage:
        from planner.desk.pages.store_page import StorePage

        return self._put("store", StorePage(self.document, self.look))

    @cached_property
    def household(self) -> HouseholdPage:
        from planner.desk.pages.household_page import HouseholdPage

        return self._put("household", HouseholdPage(self.document))

    @cached_property
    def enough(self) -> EnoughPage:
        from planner.desk.pages.enough_page import EnoughPage

        return self._put("enough", EnoughPage(self.document))

    @cached_property
    def stock(self) -> StockPage:
        from planner.desk.pages.stock_page import StockPage

        return self._put("stock", StockPage(self.document))

    @cached_property
    def planting_stock(self) -> PlantingStockView:
        from planner.desk.pages.offers_view import PlantingStockView

        return self._put("planting_stock", PlantingStockView(self.document))

    @cached_property
    def offers(self) -> OffersView:
        from planner.desk.pages.offers_view import OffersView

        return self._put("offers", OffersView(self.document))

    @cached_property
    def varieties(self) -> OwnPlantsPage:
        from planner.desk.pages.own_plants_page import OwnPlantsPage

        return self._put("varieties", OwnPlantsPage(self.document))

    @cached_property
    def years(self) -> YearsPage:
        from planner.desk.pages.years_page import YearsPage

        return self._put("years", YearsPage(self.document, self.look))

    @cached_property
    def learned(self) -> LearnedPage:
        from planner.desk.pages.learned_page import LearnedPage

        return self._put("learned", LearnedPage(self.document))

    @cached_property
    def trials(self) -> TrialsPage:
        from planner.desk.pages.trials_page import TrialsPage

        return self._put("trials", TrialsPage(self.document))

    @cached_property
    def weather(self) -> WeatherPage:
        from planner.desk.pages.weather_page import WeatherPage

        return self._put("weather", WeatherPage(self.document, self.look))

    @cached_property
    def odds(self) -> OddsPage:
        from planner.desk.pages.odds_page import OddsPage

        return self._put("odds", OddsPage(self.document, self.look))

    @cached_property
    def paper(self) -> PaperPage:
        from planner.desk.pages.paper_page import PaperPage

        return self._put("paper", PaperPage(self.document, self.look))
