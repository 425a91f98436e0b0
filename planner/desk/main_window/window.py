"""The main window: sheet in the middle, crops and outline at the left, details at the right."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QSettings, QSize, Qt, QTimer
from PySide6.QtGui import QAction, QCloseEvent, QGuiApplication, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QMenu
from typing_extensions import override

from planner.desk.main_window import menus
from planner.desk.main_window.actions import Actions
from planner.desk.main_window.announcer import Announcer
from planner.desk.main_window.docks import Docks, room_on_screen
from planner.desk.main_window.draw_commands import DrawCommands
from planner.desk.main_window.edit_commands import EditCommands
from planner.desk.main_window.exports import Exports
from planner.desk.main_window.file_commands import FileCommands
from planner.desk.main_window.files import Files
from planner.desk.main_window.focus_ring import FocusRing
from planner.desk.main_window.guide import Guide
from planner.desk.main_window.help_commands import HelpCommands
from planner.desk.main_window.navigation import Navigation
from planner.desk.main_window.page_connections import connect_page
from planner.desk.main_window.page_tabs import PageTabs
from planner.desk.main_window.prompts import Prompts
from planner.desk.main_window.row_commands import RowCommands
from planner.desk.main_window.season_commands import SeasonCommands
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.main_window.start import Start
from planner.desk.main_window.status_line import StatusLine
from planner.desk.main_window.tool_bar import make_tool_bar
from planner.desk.main_window.view_commands import ViewCommands
from planner.desk.model.background_jobs import JobQueue
from planner.desk.model.document import Document
from planner.desk.model.findings_model import FindingsModel
from planner.desk.model.preferences import SWITCHES
from planner.desk.panels.ribbon import Ribbon
from planner.desk.theme.palette import LookSwitch
from planner.desk.theme.style_sheet import style_sheet
from planner.words import day_words, say

#: Size of the window where none is remembered. [pixels]
WIDTH, HEIGHT = 1360, 860
#: From the coming or going of a screen to putting window and panels in their places. [ms]
SCREENS_REST = 400


class Window(QMainWindow):
    """One garden on the desk.

    Makes the parts and connects them; what the menus do is in the commands.

    Attributes
    ----------
    document, look, settings, prompts, files
    view, ribbon, findings
        The sheet, the year below it, and the findings of the plan.
    pages, docks, status
        Where the parts lie.
    guide : Guide
        The guided first plan; :meth:`Guide.start` begins it.
    commands : menus.Commands
    start : Start
        The card with which a garden begins.
    """

    def __init__(
        self,
        settings: QSettings | None = None,
        prompts: Prompts | None = None,
        document: Document | None = None,
        look: LookSwitch | None = None,
    ) -> None:
        super().__init__()
        self.settings = settings if settings is not None else QSettings("Bedwright", "Bedwright")
        self.look = look if look is not None else LookSwitch()
        self.document = document if document is not None else Document()
        self.prompts = prompts if prompts is not None else Prompts()
        self.files = Files(self, self.document, self.settings, self.prompts)
        self.look.choose(self.files.preferences.choice("look"))
        self._make_parts()
        self._make_menus()
        self._connect_document()
        self._connect_sheet()
        self._connect_screens()
        self._connect_panels()
        self._connect_pages()
        self._follow_look()  # once: to style all parts takes as long as to make them
        self._follow_title()
        self._follow_selection()
        self.status.message.clear()
        self.announcer.hush()
        self.resize(QSize(WIDTH, HEIGHT).boundedTo(room_on_screen(self)))
        self._actions[f"look {self.look.wish}"].setChecked(True)
        self._follow_preference("language")
        self.docks.restore(self.settings)
        self.docks.crops.remember(self.settings)
        self.view.setFocus()  # letters are commands there

    # -- building ---------------------------------------------------------------------------

    def _make_parts(self) -> None:
        document, look = self.document, self.look
        self.view = SheetView(document, look)
        self.ribbon = Ribbon(document, look)
        self.findings = FindingsModel(document)
        self.view.findings = self.findings
        self.guide = Guide(document)
        self.pages = PageTabs(document, look, self.view, self.ribbon, self.guide)
        self.setCentralWidget(self.pages)
        self.docks = Docks(self, document, look, self.findings)
        self.status = StatusLine(document, self.view.light)
        self.setStatusBar(self.status)
        self.announcer = Announcer(self.status, document, self.findings)
        self.status.said.connect(self.announcer.say)
        self.focus_ring = FocusRing(self)

    def _make_menus(self) -> None:
        document, view, tell = self.document, self.view, self.status.say
        stack = document.undo_stack
        self._actions = Actions(self, self.look)
        files = FileCommands(self.files, view, tell)
        self.start = Start(self, document, view, self.look, self.files, files, tell)
        self.commands = menus.Commands(
            window=self,
            file=files,
            start=self.start,
            exports=Exports(self, document, self.prompts, self.files, tell),
            edit=EditCommands(document, view, tell),
            draw=DrawCommands(self, document, view, tell, self.prompts, self.docks.details),
            view=ViewCommands(
                document,
                view,
                self.ribbon,
                self.docks,
                self.pages,
                self.look,
                self.files.preferences,
                self.files,
                tell,
            ),
            navigation=Navigation(document, view, self.pages, self.docks),
            season=SeasonCommands(self, document, tell),
            rows=RowCommands(document, view, tell),
            help=self._make_help(),
        )
        self.commands.exports.made = self.guide.sheet_made
        self._actions.help_wanted.connect(self.commands.help.open_entry)
        self.commands.help.covered = lambda: self.start.page is not None
        undo = (stack.createUndoAction(self, say("Undo")), stack.createRedoAction(self, say("Redo")))
        on = {name: self.files.preferences.is_on(name) for name in SWITCHES}
        menus.fill_menu_bar(self.menuBar(), self._actions, self.commands, undo, self.docks.toggles())
        for name in SWITCHES:
            self._actions[name].setChecked(on[name])
        self._actions.keep_letters_to(view)
        for action in undo:
            action.triggered.connect(view.viewport().update)
        self.addToolBar(Qt.ToolBarArea.TopToolBarArea, make_tool_bar(self._actions, document))
        self._fill_recent()

    def _make_help(self) -> HelpCommands:
        return HelpCommands(
            self,
            self.document,
            self.look,
            self.settings,
            self.view,
            self.docks.findings,
            self.guide,
            lambda: self._actions.by_name,
            self.prompts.may_show,
        )

    def action(self, name: str) -> QAction:
        """An action of the menus by its name."""
        return self._actions[name]

    @property
    def action_names(self) -> tuple[str, ...]:
        """Names of all actions of the menus."""
        return tuple(self._actions.by_name)

    def menu(self, name: str) -> QMenu:
        """A submenu by its name."""
        return self._actions.menu(name)

    # -- connecting -------------------------------------------------------------------------

    def _connect_document(self) -> None:
        document = self.document
        document.renamed.connect(self._follow_title)
        document.selection_changed.connect(self._follow_selection)
        document.day_changed.connect(self._follow_day)
        document.opened.connect(self._forget_finding)
        document.year_changed.connect(self._forget_finding)
        document.edit_refused.connect(self.status.complain)
        self.status.assumption_wanted.connect(self.commands.view.assume)
        self.look.changed.connect(self._follow_look)
        self.files.recent_changed.connect(self._fill_recent)
        self.files.said.connect(self.status.say)
        self.files.preferences.changed.connect(self._follow_preference)
        QApplication.clipboard().dataChanged.connect(self._follow_selection)

    def _connect_screens(self) -> None:
        # After the system has moved what was on a screen that is gone.
        self._screens_rest = QTimer(self, singleShot=True, interval=SCREENS_REST)
        self._screens_rest.timeout.connect(lambda: self.docks.follow_screens(self.settings))
        app = QGuiApplication.instance()
        assert isinstance(app, QGuiApplication)
        for told in (app.screenAdded, app.screenRemoved):
            told.connect(self._screens_rest.start)

    def _connect_sheet(self) -> None:
        view = self.view
        view.said.connect(self.status.say)
        view.sheet.colouring.said.connect(self.status.say)
        view.unsaid.connect(self.status.withdraw)
        view.pointer_at.connect(self.status.show_place)
        view.details_wanted.connect(self.commands.navigation.show_details)
        view.menu_wanted.connect(self._show_context_menu)
        view.tool_changed.connect(self._follow_tool)

    def _connect_panels(self) -> None:
        docks, navigation = self.docks, self.commands.navigation
        docks.crops.crops_taken.connect(navigation.place_crops)
        docks.crops.crop_shown.connect(self.pages.show_crop)
        docks.details.wrong.connect(self.status.complain)
        docks.details.righted.connect(self.status.righted)
        docks.details.form_made.connect(self._connect_form)
        docks.walk.shown.connect(lambda: self.view.take_tool("walk"))
        docks.findings.said.connect(self.status.say)
        docks.contents.said.connect(self.status.say)
        docks.contents.menu_wanted.connect(self._show_context_menu)
        docks.contents.details_wanted.connect(navigation.show_details)
        docks.findings.chosen.connect(navigation.show_finding)
        self.findings.changed.connect(self._follow_findings)

    def _connect_form(self, name: str) -> None:
        """Connect a form of the details that has been made."""
        details, commands = self.docks.details, self.commands
        if name == "bed":
            details.bed.sheet_button.clicked.connect(commands.exports.sheets_of_selected_beds)
        elif name == "underlay":
            form, layer = details.underlay, self.view.underlay
            form.tool_wanted.connect(commands.draw.take_tool)
            layer.read.connect(lambda: form.show_problem(layer.words))
            form.show_problem(layer.words)
        elif name == "planting":
            details.planting.remember_more(self.settings)
            details.planting.series.clicked.connect(commands.draw.new_series)
            details.planting.course.ended.clicked.connect(commands.season.end_selected)
            details.planting.course.anew.clicked.connect(commands.season.sow_anew)

    def _connect_pages(self) -> None:
        self.pages.page_made.connect(self._connect_page)
        self.guide.left.connect(self.commands.navigation.back_to_sheet)
        self.pages.number_key.planting_wanted.connect(self.commands.navigation.go_to)
        self.pages.record_bar.closed.connect(self.commands.navigation.back_to_sheet)

    def _connect_page(self, name: str) -> None:
        connect_page(self, name)

    # -- following --------------------------------------------------------------------------

    def _follow_look(self) -> None:
        self.setStyleSheet(style_sheet(self.look.now))
        self._actions.redraw_icons()

    def _follow_preference(self, name: str) -> None:
        """A preference has another value, by a menu or on the page of settings."""
        preferences = self.files.preferences
        if name in SWITCHES:
            self._actions[name].setChecked(preferences.is_on(name))
        elif name == "look":
            wish = preferences.choice("look")
            self._actions[f"look {wish}"].setChecked(True)
            if wish != self.look.wish:
                self.look.choose(wish)
        elif name == "language":
            self._actions[f"language {preferences.choice('language') or 'system'}"].setChecked(True)

    def _follow_title(self) -> None:
        star = "*" if self.document.changed else ""
        only = say(" (only shown)") if self.document.only_shown else ""
        self.setWindowTitle(f"{self.document.title}{star}{only} – Bedwright")
        self.setWindowModified(False)

    def _follow_tool(self, tool: str) -> None:
        self._actions.check_in_group("tools", f"tool {tool}")

    def _follow_selection(self) -> None:
        menus.enable_for_selection(self._actions, self.document)
        document = self.document
        crops = {document.garden.plantings_by_id[key].crop for key in document.selected_plantings}
        if len(crops) == 1 and (crop := document.catalogue.get(crops.pop())) is not None:
            self.pages.show_crop(crop)

    def _follow_day(self) -> None:
        self._actions["whole year"].setChecked(self.document.day is None)
        if self.ribbon.hasFocus() and self.document.day is not None:
            self.announcer.say(day_words(self.document.day))

    def _follow_findings(self) -> None:
        self.commands.navigation.follow_findings(self.findings)
        self.view.viewport().update()

    def _forget_finding(self) -> None:
        self.commands.navigation.forget_finding()

    def _fill_recent(self) -> None:
        self.commands.file.fill_recent(self._actions.menu("recent"))

    def _show_context_menu(self, at: QPoint) -> None:
        menu = menus.context_menu(self, self._actions)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(at)

    # -- events -----------------------------------------------------------------------------

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if not event.spontaneous():  # shown by the program, not brought back by the person
            QTimer.singleShot(0, self.view, self.commands.file.show_opened)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape, where nothing else wants it, leads back to the sheet."""
        if event.key() == Qt.Key.Key_Escape:
            self.commands.navigation.back_to_sheet()
            return
        super().keyPressEvent(event)

    @override
    def closeEvent(self, event: QCloseEvent) -> None:
        self.view.cancel_gesture()
        if not self.files.may_leave():
            event.ignore()
            return
        self.docks.save(self.settings)
        self.start.close()
        self.commands.season.close()
        self.commands.help.close()
        if self.pages.is_made("layout_page"):
            self.pages.layout_page.search.close()
        self.findings.stop()
        self.view.light.wait()
        self.view.sheet.colouring.stop()
        self.pages.player.stop()
        self.pages.two_days.close_second()
        for jobs in self.findChildren(JobQueue):
            jobs.stop()
        self.files.close()
        self.document.end()
        event.accept()
