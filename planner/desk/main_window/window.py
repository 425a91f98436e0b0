"""The main window: sheet in the middle, crops and outline at the left, details at the right."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings, Qt, QTimer
from PySide6.QtGui import QAction, QActionGroup, QCloseEvent, QIcon
from PySide6.QtWidgets import (
    QApplication,
    QDockWidget,
    QLabel,
    QMenu,
    QSplitter,
    QTabWidget,
    QWidget,
)
from typing_extensions import override

from planner.checks import Finding
from planner.desk.main_window import export
from planner.desk.main_window.actions import Actions
from planner.desk.main_window.dialogs import BedDialog, SeriesDialog, add_beds
from planner.desk.main_window.files import Files, Prompts
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model import clipboard
from planner.desk.model.document import Document, usual_day
from planner.desk.pages.amounts_page import AmountsPage
from planner.desk.pages.crop_page import CropPage
from planner.desk.pages.paper_page import PaperPage
from planner.desk.pages.stock_page import StockPage
from planner.desk.pages.variety_editor import VarietyEditor
from planner.desk.pages.year_page import YearPage
from planner.desk.panels.contents_tree import OutlineTree
from planner.desk.panels.crop_list import CropList
from planner.desk.panels.details import Details
from planner.desk.panels.findings import Findings, FindingsPanel, FindingsTab
from planner.desk.panels.ribbon import Ribbon
from planner.desk.theme.palette import LookSwitch
from planner.desk.theme.style_sheet import style_sheet
from planner.errors import BedwrightError
from planner.garden import edits
from planner.garden.units import show_length

Key = Qt.Key
Ctrl, Shift, Alt = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
)


class Window(Actions):
    """One garden on the desk."""

    def __init__(
        self,
        settings: QSettings | None = None,
        asking: Prompts | None = None,
        document: Document | None = None,
        look: LookSwitch | None = None,
    ) -> None:
        super().__init__()
        self.settings = settings if settings is not None else QSettings("Bedwright", "Bedwright")
        self.look = look if look is not None else LookSwitch()
        self.document = document if document is not None else Document()
        self.asking = asking if asking is not None else Prompts()
        self.files = Files(self, self.document, self.settings, self.asking)
        self.view = SheetView(self.document, self.look)
        self.crops = CropList(self.document, self.look)
        self.outline = OutlineTree(self.document)
        self.details = Details(self.document)
        self.ribbon = Ribbon(self.document, self.look)
        self.middle = QSplitter(Qt.Orientation.Vertical)
        self.middle.addWidget(self.view)
        self.middle.addWidget(self.ribbon)
        self.middle.setStretchFactor(0, 1)
        self.middle.setSizes([600, 190])
        self.middle.setCollapsible(0, False)
        self.pages = QTabWidget()
        self.pages.setDocumentMode(True)
        self.pages.setAccessibleName("Pages")
        self.crop_page = CropPage(self.document, self.look)
        self.year_page = YearPage(self.document, self.look)
        self.amounts_page = AmountsPage(self.document)
        self.paper_page = PaperPage(self.document, self.look)
        self.stock_page = StockPage(self.document)
        self.varieties = VarietyEditor(self.document)
        self.seed_page = QTabWidget()
        self.seed_page.setAccessibleName("Seed")
        self.seed_page.addTab(self.stock_page, "In stock")
        self.seed_page.addTab(self.varieties, "Own varieties")
        for title, page in (
            ("Sheet", self.middle),
            ("Year", self.year_page),
            ("Crop", self.crop_page),
            ("Amounts", self.amounts_page),
            ("Seed", self.seed_page),
            ("Paper", self.paper_page),
        ):
            self.pages.addTab(page, title)
        self.setCentralWidget(self.pages)
        self.findings = Findings(self.document)
        self.findings_panel = FindingsPanel(self.findings)
        self.right = QTabWidget()
        self.right.setDocumentMode(True)
        self.right.setAccessibleName("Details and findings")
        self.right.addTab(self.details, "Details")
        self.right.addTab(self.findings_panel, "Findings")
        self._findings_tab = FindingsTab(self.findings, self.right, 1)
        self.view.findings = self.findings
        self._docks()
        self._actions: dict[str, QAction] = {}
        self._status()
        self._menus()
        self._connect()
        self._dress()
        self._say("")
        self._follow_title()
        self.resize(1360, 860)
        self._restore()

    # -- building ---------------------------------------------------------------------------

    def _docks(self) -> None:
        self.left = QTabWidget()
        self.left.addTab(self.crops, "Crops")
        self.left.addTab(self.outline, "Outline")
        self.left.setDocumentMode(True)
        self.left.setAccessibleName("Crops and outline")
        for name, title, widget, area in (
            ("crops", "Crops", self.left, Qt.DockWidgetArea.LeftDockWidgetArea),
            ("details", "Details", self.right, Qt.DockWidgetArea.RightDockWidgetArea),
        ):
            dock = QDockWidget(title, self)
            dock.setObjectName(name)
            dock.setWidget(widget)
            dock.setTitleBarWidget(QWidget(dock))  # the tabs and headings inside say what it is
            dock.setAllowedAreas(Qt.DockWidgetArea.LeftDockWidgetArea | Qt.DockWidgetArea.RightDockWidgetArea)
            dock.setFeatures(
                QDockWidget.DockWidgetFeature.DockWidgetMovable
                | QDockWidget.DockWidgetFeature.DockWidgetClosable
            )
            self.addDockWidget(area, dock)
            setattr(self, f"{name}_dock", dock)
        self.crops_dock: QDockWidget
        self.details_dock: QDockWidget
        self.resizeDocks([self.crops_dock, self.details_dock], [250, 300], Qt.Orientation.Horizontal)

    def _status(self) -> None:
        status = self.statusBar()
        status.setSizeGripEnabled(False)
        self.message = QLabel()
        self.message.setAccessibleName("Message")
        status.addWidget(self.message, 1)
        self.place = QLabel()
        self.place.setMinimumWidth(170)
        status.addPermanentWidget(self.place)

    def _connect(self) -> None:
        self.view.said.connect(self._say)
        self.view.pointer_at.connect(self._show_place)
        self.view.details_wanted.connect(self._to_details)
        self.view.menu_wanted.connect(self._context_menu)
        self.view.tool_changed.connect(self._follow_tool)
        self.crops.crop_taken.connect(self._take_crop)
        self.crops.crop_shown.connect(self.crop_page.show_crop)
        self.crop_page.plant_wanted.connect(lambda crop: self._take_crop(crop, "", False))
        self.amounts_page.planting_wanted.connect(self._show_on_sheet)
        self.crop_page.variety_wanted.connect(self._edit_variety)
        self.stock_page.wrong.connect(self._say)
        self.varieties.wrong.connect(self._say)
        self.paper_page.save_wanted.connect(self._save_paper)
        self.paper_page.print_wanted.connect(self._print)
        self.details.wrong.connect(self._say)
        self.findings_panel.said.connect(self._say)
        self.findings_panel.chosen.connect(self._show_finding)
        self.findings.changed.connect(self.view.viewport().update)
        self.details.bed.sheet_button.clicked.connect(self._export_selected)
        self.details.planting.series.clicked.connect(self._ask_series)
        self.document.renamed.connect(self._follow_title)
        self.document.garden_settled.connect(self._fill_years)
        self.document.year_changed.connect(self._fill_years)
        self.document.selection_changed.connect(self._follow_selection)
        self.look.changed.connect(self._dress)
        QApplication.clipboard().dataChanged.connect(self._follow_selection)
        self._follow_selection()

    # -- looks ------------------------------------------------------------------------------

    def _dress(self) -> None:
        self.setStyleSheet(style_sheet(self.look.now))
        for action in self._actions.values():
            if not action.icon().isNull():
                action.setIcon(QIcon(action.icon()))

    def _choose_look(self, wish: str) -> None:
        self.settings.setValue("look", wish)
        self.look.choose(wish)

    def _reset_layout(self) -> None:
        for dock, area in (
            (self.crops_dock, Qt.DockWidgetArea.LeftDockWidgetArea),
            (self.details_dock, Qt.DockWidgetArea.RightDockWidgetArea),
        ):
            self.addDockWidget(area, dock)
            dock.show()
        self.resizeDocks([self.crops_dock, self.details_dock], [250, 300], Qt.Orientation.Horizontal)

    def _restore(self) -> None:
        wish = str(self.settings.value("look", "system"))
        self.look.choose(wish if wish in ("system", "light", "dark") else "system")
        self._actions[f"look {self.look.wish}"].setChecked(True)
        geometry, state = self.settings.value("geometry"), self.settings.value("state")
        if isinstance(geometry, QByteArray):
            self.restoreGeometry(geometry)
        if isinstance(state, QByteArray):
            self.restoreState(state)
        # A window that was on a screen which is gone comes back to one that is there.
        screens = QApplication.screens()
        if screens and not any(s.availableGeometry().intersects(self.frameGeometry()) for s in screens):
            self.move(screens[0].availableGeometry().topLeft())

    # -- following --------------------------------------------------------------------------

    def _follow_title(self) -> None:
        star = "*" if self.document.changed else ""
        self.setWindowTitle(f"{self.document.title}{star} – Bedwright")
        self.setWindowModified(False)

    def _fill_years(self) -> None:
        garden = self.document.garden
        years = sorted({*garden.years(), self.document.year, self.document.year + 1})
        if [self.year_box.itemData(i) for i in range(self.year_box.count())] != years:
            self.year_box.clear()
            for year in years:
                self.year_box.addItem(str(year), year)
        self.year_box.setCurrentIndex(years.index(self.document.year))

    def _follow_tool(self, tool: str) -> None:
        action = self._actions.get(f"tool {tool}")
        if action is not None and action.isCheckable():
            action.setChecked(True)
        elif self.tools.checkedAction() is not None:
            self.tools.setExclusionPolicy(QActionGroup.ExclusionPolicy.None_)
            self.tools.checkedAction().setChecked(False)
            self.tools.setExclusionPolicy(QActionGroup.ExclusionPolicy.Exclusive)

    def _follow_selection(self) -> None:
        some = bool(self.document.selection)
        things = bool(self.document.selected_things)
        for name in ("cut", "copy", "duplicate", "delete", "show selection"):
            self._actions[name].setEnabled(some)
        self._actions["tool support"].setEnabled(len(self.document.selected_plantings) == 1)
        for name in ("turn left", "turn right"):
            self._actions[name].setEnabled(things)
        for side in ("left", "right", "top", "bottom"):
            self._actions[f"align {side}"].setEnabled(len(self.document.selected_things) > 1)
        self._actions["bed sheet"].setEnabled(
            bool(self.document.selected_beds or self.document.selected_plantings)
        )
        filled = clipboard.holds_things()
        self._actions["paste"].setEnabled(filled)
        self._actions["paste here"].setEnabled(filled)

    def _say(self, text: str) -> None:
        self.message.setText(text)
        self.message.setToolTip(text)

    def _show_place(self, x: float, y: float) -> None:
        units = self.document.garden.site.units
        hours = self.view.light.hours_at((x, y))
        sun = f"{hours:.1f} h sun   " if hours is not None else ""
        self.place.setText(f"{sun}x {show_length(x, units)}   y {show_length(y, units)}")

    # -- doing ------------------------------------------------------------------------------

    def _show_on_sheet(self, key: str) -> None:
        self.pages.setCurrentWidget(self.middle)
        self.document.select((key,))
        self.view.show_selection()

    def _edit_variety(self, crop: str, key: str) -> None:
        self.pages.setCurrentWidget(self.seed_page)
        self.seed_page.setCurrentWidget(self.varieties)
        if key:
            self.varieties.show_variety(key)
        else:
            self.varieties.new(crop)

    def _save_paper(self) -> None:
        export.bed_sheets(self, self.document, self.asking, self.files, self.paper_page.chosen())

    def _take_crop(self, crop, variety: str, by_key: bool) -> None:
        self.pages.setCurrentWidget(self.middle)
        self.view.place_crop(crop, variety, by_key=by_key)
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _find_crop(self) -> None:
        self.crops_dock.show()
        self.left.setCurrentWidget(self.crops)
        self.crops.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.crops.search.selectAll()

    def _show_finding(self, finding: Finding | None) -> None:
        self.view.finding = finding
        if finding is not None:
            if self.document.day is not None and not finding.span.holds(self.document.day):
                self.document.show_day(finding.span.first)
            self.document.select(finding.plantings or finding.beds)
            if not finding.place.is_empty:
                point = finding.place.representative_point()
                self.view.show_place((point.x, point.y))
        self.view.viewport().update()

    def _to_details(self) -> None:
        self.details_dock.show()
        self.right.setCurrentWidget(self.details)
        self.details.focus_first()

    def _delete(self) -> None:
        if self.view.gesture is not None:
            return
        ids = self.document.selection
        if ids:
            self.document.edit(f"Delete {self.view.named(ids)}", lambda garden: edits.remove(garden, ids))

    def _duplicate(self) -> None:
        ids = self.document.selection
        if not ids or self.view.gesture is not None:
            return
        rect = [self.view.rect_of(key) for key in ids]
        down = max(r.height() for r in rect) / 100 + 0.4
        made: list[str] = []

        held = clipboard.held(self.document.garden, ids)

        def change(garden):
            # Plantings by themselves go onto the next free ground of their bed.
            garden, new = clipboard.paste(garden, held, 0.0, -down, None, self.document.year)
            made.extend(new)
            return garden

        if self.document.edit(f"Duplicate {self.view.named(ids)}", change):
            self.document.select(made)

    def _copy(self) -> None:
        if self.document.selection:
            clipboard.put(self.document.garden, self.document.selection)
            self._say(f"Copied {self.view.named(self.document.selection)}")

    def _cut(self) -> None:
        if self.view.gesture is not None:
            return
        self._copy()
        ids = self.document.selection
        self.document.edit(f"Cut {self.view.named(ids)}", lambda garden: edits.remove(garden, ids))

    def _paste(self) -> None:
        self._paste_at(at_pointer=True)

    def _paste_in_place(self) -> None:
        self._paste_at(at_pointer=False)

    def _paste_at(self, *, at_pointer: bool) -> None:
        held = clipboard.take()
        if held is None:
            self._say("There is nothing of a garden on the clipboard")
            return
        goal = self.view.pointer_place() if at_pointer else None
        dx, dy = clipboard.offset(held, goal)
        under = self.view.bed_under_pointer() if at_pointer else None
        target = under or (self.document.selected_beds[0] if self.document.selected_beds else None)
        made: list[str] = []

        def change(garden):
            garden, new = clipboard.paste(garden, held, dx, dy, target, self.document.year)
            made.extend(new)
            return garden

        if self.document.edit(f"Paste {len(held.ids)} things" if len(held.ids) > 1 else "Paste", change):
            self.document.select(made)

    def _select_all(self) -> None:
        plan = self.document.plan
        self.document.select([*(bed.id for bed in plan.beds), *(s.id for s in plan.garden.structures)])

    def _turn(self, degrees: float) -> None:
        ids = self.document.selected_things
        if not ids:
            return
        about = None
        if len(ids) > 1:
            rects = [self.view.rect_of(key) for key in ids]
            whole = rects[0]
            for rect in rects[1:]:
                whole = whole.united(rect)
            about = (whole.center().x() / 100, -whole.center().y() / 100)
        self.document.edit(
            f"Turn {self.view.named(ids)}",
            lambda garden: edits.turn_things(garden, ids, degrees, about),
            merge=f"turn {' '.join(ids)}",
        )

    def _align(self, side: str) -> None:
        ids = self.document.selected_things
        extents = {}
        for key in ids:
            rect = self.view.rect_of(key)
            extents[key] = (rect.left() / 100, -rect.bottom() / 100, rect.right() / 100, -rect.top() / 100)
        self.document.edit(
            f"Align {self.view.named(ids)}",
            lambda garden: edits.align_beds(garden, ids, side, extents),  # type: ignore[arg-type]
        )

    def _ask_series(self) -> None:
        keys = self.document.selected_plantings
        if len(keys) != 1:
            return
        planting = self.document.garden.plantings_by_id[keys[0]]
        plan = self.document.plan
        dates = plan.dates(planting)
        first = dates.first_harvest.day if dates.first_harvest else plan.span.first
        last = plan.frosts().autumn or plan.span.last
        dialog = SeriesDialog(self, self.view.named(keys), first, last)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.accepted.connect(lambda: self.make_series(dialog, keys[0]))
        dialog.open()

    def make_series(self, dialog: SeriesDialog, key: str) -> None:
        """Make a series from a planting, as one step; says what was left out and why."""
        try:
            series = dialog.make(self.document.plan, key)
        except BedwrightError as error:
            self._say(str(error))
            return
        made = len(series.members) - 1
        self.document.commit(f"Make a series of {self.view.named((key,))}", series.garden)
        self.document.select(series.members)
        left = [f"{out.start:%d %b}: {out.why}" for out in series.left_out]
        words = f"{made} more made" if made else "none could be added"
        self._say("; ".join([words, *left, *series.notes]))

    def _new_beds(self) -> None:
        dialog = BedDialog(self, self.document.garden.site.units)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.accepted.connect(lambda: self.add_beds(dialog.wish()))
        dialog.open()

    def add_beds(self, wish) -> None:
        """Add a bed or a range of them below what is drawn, or in the middle of an empty sheet."""
        plan = self.document.plan
        if plan.beds or plan.garden.structures:
            rect = self.view.sheet.content_rect()
            left, top = rect.left() / 100, -rect.bottom() / 100 - max(wish.path_up, 0.45)
        else:
            left, top = 0.0, 0.0
        made: list[str] = []

        def change(garden):
            garden, new = add_beds(garden, wish, round(left, 3), round(top, 3))
            made.extend(new)
            return garden

        number = wish.across * wish.up
        if self.document.edit(f"Add {number} beds" if number > 1 else "Add a bed", change):
            self.document.select(made)
            self.view.show_all()
            self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _whole_year(self, whole: bool) -> None:
        if whole:
            self.document.show_day(None)
        elif self.document.day is None:
            self.document.show_day(usual_day(self.document.plan))

    def _show_shadow(self, shown: bool) -> None:
        self.view.light.show(shadow=shown)
        self.ribbon.show_hours(shown)

    def _show_ways(self, shown: bool) -> None:
        self._say(self.view.access.show(shown))

    def _show_map(self, shown: bool) -> None:
        self.view.light.show(light_map=shown)

    def _map_span(self, over: bool) -> None:
        self.view.light.show(span=over)

    def _show_grid(self, shown: bool) -> None:
        self.view.grid_shown = shown
        self.view.viewport().update()

    def _snap(self, on: bool) -> None:
        self.view.snapping = on
        self._say("Snapping to grid and edges" if on else "No snapping")

    def _zoom_at(self, on: bool) -> None:
        self.view.zoom_at_pointer = on

    def _context_menu(self, at) -> None:
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for name in (
            "cut",
            "copy",
            "paste",
            "duplicate",
            "delete",
            "",
            "turn left",
            "turn right",
            "",
            "bed sheet",
            "show selection",
        ):
            if name:
                menu.addAction(self._actions[name])
            else:
                menu.addSeparator()
        menu.popup(at)

    # -- files ------------------------------------------------------------------------------

    def _fill_recent(self) -> None:
        self.recent_menu.clear()
        for path in self.files.recent():
            action = self.recent_menu.addAction(path.replace("&", "&&"))
            action.triggered.connect(lambda _checked=False, path=path: self.open_path(Path(path)))
        self.recent_menu.setEnabled(bool(self.files.recent()))

    def open_path(self, path: Path) -> bool:
        """Open a file, after asking about unsaved changes."""
        if not self.files.may_leave() or not self.files.open_path(path):
            return False
        self._opened()
        return True

    def _open_sample(self, name: str) -> None:
        if self.files.may_leave() and self.files.open_sample(name):
            self._opened()

    def _opened(self) -> None:
        self.view.sheet.reset_rect()
        self.view.show_all()

    def _export_all(self) -> None:
        export.bed_sheets(self, self.document, self.asking, self.files, None)

    def _export_selected(self) -> None:
        garden = self.document.garden
        beds = list(self.document.selected_beds)
        beds += [garden.plantings_by_id[k].bed for k in self.document.selected_plantings]
        export.bed_sheets(self, self.document, self.asking, self.files, list(dict.fromkeys(beds)))

    def _export_weeks(self) -> None:
        export.week_sheets(self, self.document, self.asking, self.files)

    def _export_calendar(self) -> None:
        export.calendar_file(self, self.document, self.asking, self.files)

    def _export_amounts(self) -> None:
        export.amounts_table(self, self.document, self.asking, self.files)

    def _print(self) -> None:
        export.print_sheets(self, self.document, self.asking)

    def _show_keys(self) -> None:
        from planner.desk.main_window.help import show_keys

        show_keys(self)

    def _about(self) -> None:
        from planner.desk.main_window.help import show_about

        show_about(self)

    # -- events -----------------------------------------------------------------------------

    @override
    def showEvent(self, event) -> None:
        super().showEvent(event)
        if not event.spontaneous():  # shown by the program, not brought back by the person
            QTimer.singleShot(0, self.view, self._opened)

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        self.view.cancel_gesture()
        if not self.files.may_leave():
            event.ignore()
            return
        self.settings.setValue("geometry", self.saveGeometry())
        self.settings.setValue("state", self.saveState())
        self.findings.stop()
        self.view.light.wait()
        self.files.close()
        event.accept()
