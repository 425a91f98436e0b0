"""Going from one part of the window to another: a planting on the sheet, a finding, a variety, a crop."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt

from planner.crops import Crop
from planner.desk.main_window.docks import Docks
from planner.desk.main_window.page_tabs import PageTabs
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.document import Document
from planner.desk.model.findings_model import FindingsModel

if TYPE_CHECKING:
    from planner.checks import Finding


class Navigation:
    """Brings to the front what something is shown, held or edited on."""

    def __init__(self, document: Document, view: SheetView, pages: PageTabs, docks: Docks) -> None:
        self._document, self._view, self._pages, self._docks = document, view, pages, docks

    def page_titles(self) -> list[str]:
        """Titles of the pages, in their order."""
        return [self._pages.tabText(number) for number in range(self._pages.count())]

    def show_page(self, number: int) -> None:
        """Bring a page to the front."""
        self._pages.setCurrentIndex(number)
        if self._pages.shows_sheet:
            self._view.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def back_to_sheet(self) -> None:
        """Bring the sheet to the front, ready for the keys."""
        self._pages.show_sheet()
        self._view.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def show_on_sheet(self, key: str) -> None:
        """Select a thing by its id, and show it on the sheet, a planting on a day on which it grows."""
        self._pages.show_sheet()
        self._document.show_growing((key,))
        self._document.select((key,))
        self._view.show_selection()

    def go_to(self, key: str) -> None:
        """Select a thing that is on the sheet, by its id, and bring it into view without another zoom where that can be."""
        self._document.select((key,))
        self._view.bring_into_view((key,))

    def show_finding(self, finding: Finding | None) -> None:
        """Mark a finding on the sheet, on a day on which it holds, and select what it is about."""
        self._view.finding = finding
        if finding is not None:
            if self._document.day is not None and not finding.span.holds(self._document.day):
                self._document.show_day(finding.span.first)
            self._document.show_growing(finding.plantings)
            self._document.select(finding.plantings or finding.beds)
            if not finding.place.is_empty:
                point = finding.place.representative_point()
                self._view.show_place((point.x, point.y))
        self._view.viewport().update()

    def follow_findings(self, findings: FindingsModel) -> None:
        """Let the hatching go with its finding: where that is mended, waved aside or of another garden."""
        shown = self._view.finding
        if shown is None:
            return
        now = findings.by_key(shown.key)
        together = self._docks.findings.shown_as_one()
        if now is not None and together is not None and together.key == now.key:
            now = together
        self._view.finding = None if now is None or (now.waived and not shown.waived) else now
        self._view.viewport().update()

    def forget_finding(self) -> None:
        """Hatch nothing any more: another garden or growing year is shown."""
        self._view.finding = None

    def edit_variety(self, crop: str, key: str) -> None:
        """Edit an own variety, by its id; a new one of the crop where there is no id."""
        self._pages.edit_variety(crop, key)

    def show_details(self) -> None:
        """Go to the details of what is selected."""
        self._docks.show_details()

    def write_record(self) -> None:
        """Type what happened to what is selected, below the sheet."""
        self._pages.show_sheet()
        self._pages.record_bar.begin()

    def enter_walk(self) -> None:
        """Enter a walk, bed after bed."""
        self._pages.bring(self._pages.walk)

    def propose_layout(self) -> None:
        """Bring the page that proposes a layout to the front, and search where nothing was found yet."""
        self.show_proposed_layout()
        self._pages.layout_page.begin_where_new()

    def show_proposed_layout(self) -> None:
        """Bring the page that proposes a layout to the front."""
        self._pages.bring(self._pages.layout_page)
        self._pages.layout_page.go.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def show_walk(self) -> None:
        """Show the walk along the beds on the sheet and as a list."""
        self._pages.show_sheet()
        self._docks.show_walk()
        self._view.take_tool("walk")

    def find_crop(self) -> None:
        """Go to the list of crops, to look for one."""
        self._docks.find_crop()

    def place_chosen_crop(self) -> None:
        """Hold the crop that is chosen in the list over the sheet, to be planted with the keys."""
        self._docks.crops.take(by_key=True)

    def place_crops(self, crops: Sequence[tuple[Crop, str]], by_key: bool = False) -> None:
        """Hold crops over the sheet, several of them side by side in their order."""
        self._pages.show_sheet()
        self._view.place_crops(crops, by_key=by_key)
        self._view.setFocus(Qt.FocusReason.OtherFocusReason)

    def place_crop(self, crop: Crop, variety: str = "", by_key: bool = False) -> None:
        """Hold a crop over the sheet, to be planted with the pointer or with the keys."""
        self.place_crops(((crop, variety),), by_key)
