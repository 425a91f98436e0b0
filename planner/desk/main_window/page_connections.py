"""What the pages ask for, connected to what the window can do, once a page has been made."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from planner.desk.main_window.menus import Commands
    from planner.desk.main_window.page_tabs import PageTabs
    from planner.desk.main_window.status_line import StatusLine
    from planner.desk.model.findings_model import FindingsModel


class PagedWindow(Protocol):
    """A window with pages."""

    pages: PageTabs
    commands: Commands
    status: StatusLine
    findings: FindingsModel


def connect_page(window: PagedWindow, name: str) -> None:
    """Connect a page that has been made.

    Parameters
    ----------
    window : Window
    name : str
        Of the page.
    """
    pages, status = window.pages, window.status
    navigation, exports, season = window.commands.navigation, window.commands.exports, window.commands.season
    page = getattr(pages, name)
    if name in (
        "amounts",
        "years",
        "trials",
        "raising",
        "materials",
        "shopping",
        "harvest",
        "store",
        "gaps",
        "odds",
    ):
        page.planting_wanted.connect(navigation.show_on_sheet)
    if name in (
        "raising",
        "materials",
        "shopping",
        "planting_stock",
        "offers",
        "stock",
        "varieties",
        "paper",
    ):
        page.wrong.connect(status.say)
    if name in ("household", "records", "wishes", "layout_page"):
        page.wrong.connect(status.complain)
    if name in ("gaps", "enough", "records", "walk", "year", "wishes", "layout_page", "odds"):
        page.said.connect(status.say)
    if name in ("harvest", "store", "gaps"):
        page.household_wanted.connect(lambda: pages.bring(pages.household))
    match name:
        case "year":
            page.end_wanted.connect(season.end_selected)
            page.anew_wanted.connect(season.sow_anew)
            page.record_wanted.connect(pages.begin_record)
        case "records":
            page.walk_wanted.connect(lambda: pages.bring(pages.walk))
        case "crop":
            page.plant_wanted.connect(navigation.place_crop)
            page.variety_wanted.connect(navigation.edit_variety)
        case "raising":
            page.follow_findings(window.findings)
        case "water":
            page.bed_wanted.connect(navigation.show_on_sheet)
        case "shopping":
            page.save_wanted.connect(exports.shopping_list)
            page.table_wanted.connect(exports.shopping_table)
        case "wishes":
            page.layout_wanted.connect(navigation.propose_layout)
        case "layout_page":
            page.wishes_wanted.connect(lambda: pages.bring(pages.wishes))
            page.fill_wanted.connect(season.fill_ground)
            page.thing_wanted.connect(navigation.show_on_sheet)
        case "weather":
            page.sheet_wanted.connect(exports.weather_picture)
        case "paper":
            page.save_wanted.connect(exports.sheets)
            page.print_wanted.connect(exports.print_sheets)
            page.calibration_wanted.connect(exports.calibration)
