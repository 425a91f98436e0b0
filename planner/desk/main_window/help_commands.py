"""The Help menu, and F1: the place of the manual that tells of what has the focus or is under the pointer."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import shiboken6
from PySide6.QtCore import QSettings, Qt, QTimer
from PySide6.QtGui import QAction, QCursor, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QDialog, QDockWidget, QMainWindow, QVBoxLayout, QWidget

from planner.desk.main_window.guide import Guide
from planner.desk.main_window.help import show_about
from planner.desk.main_window.help_places import is_typed_in, places_of, places_of_entry
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.document import Document
from planner.desk.panels.findings_panel import FindingsPanel
from planner.desk.theme.palette import LookSwitch
from planner.words import say, translated

if TYPE_CHECKING:
    from planner.checks import Finding
    from planner.desk.pages.manual_view import ManualView
    from planner.manual.book import Generator

#: Remembers which news were shown last.
_NEWS = "manual/news"
#: Width of the manual at first, and size of its window over a dialog. [pixels]
WIDTH, OVER_DIALOG = 420, (560, 620)


class HelpCommands:
    """Opens the manual, and says what is new.

    Parameters
    ----------
    window : QMainWindow
    document : Document
    look : LookSwitch
    settings : QSettings
    view : SheetView
    findings : FindingsPanel
    guide : Guide
    actions : callable
        All commands of the menus by their names.
    draws : bool
        Whether the pictures of the manual may be drawn.

    Attributes
    ----------
    covered : callable
        Whether something lies over the docks.
    more : dict
        What else is filled into the manual: the commands of the command line, where it was started by one.
    """

    def __init__(
        self,
        window: QMainWindow,
        document: Document,
        look: LookSwitch,
        settings: QSettings,
        view: SheetView,
        findings: FindingsPanel,
        guide: Guide,
        actions: Callable[[], dict[str, QAction]],
        draws: bool,
    ) -> None:
        self._window, self._document, self._look, self._settings = window, document, look, settings
        self._view, self._findings, self._actions, self._draws = view, findings, actions, draws
        self.guide = guide
        self.covered: Callable[[], bool] = lambda: False
        self.more: dict[str, Generator] = {"commands": lambda _words, _: ""}
        self._manual: ManualView | None = None
        self._dock: QDockWidget | None = None
        self._before: QWidget | None = None
        self._sized = False
        findings.why_wanted.connect(self.tell_why)
        guide.more_wanted.connect(self.open_at)
        QApplication.instance().focusChanged.connect(self._reach_dialog)  # type: ignore[union-attr]

    # -- the manual -------------------------------------------------------------------------

    @property
    def manual(self) -> ManualView:
        """The manual in its dock, which is made when it is first wanted."""
        if self._manual is None:
            self._manual = self._make_view()
            dock = QDockWidget(say("Manual"), self._window)
            dock.setObjectName("manual")
            dock.setWidget(self._manual)
            self._manual.closed.connect(self._close_dock)
            self._sized = self._window.restoreDockWidget(dock)
            if not self._sized:
                self._window.addDockWidget(Qt.DockWidgetArea.RightDockWidgetArea, dock)
            dock.hide()
            self._dock = dock
        return self._manual

    def _size_dock(self) -> None:
        """Give the manual half of the height beside the details."""
        if self._dock is not None:
            self._window.resizeDocks([self._dock], [WIDTH], Qt.Orientation.Horizontal)
            self._window.resizeDocks([self._dock], [self._window.height() // 2], Qt.Orientation.Vertical)

    def _make_view(self) -> ManualView:
        from planner.desk.pages.manual_view import ManualView  # the window opens sooner without it

        return ManualView(self._look, self._settings, self.generators, self._draws)

    def generators(self) -> dict[str, Generator]:
        """What fills in what the program has to say."""
        from planner.manual.generated import generators

        return generators(
            {
                "action": lambda _words, name: self.action_words(name),
                "key": lambda _words, name: self.key_words(name),
                **self.more,
            }
        )

    def open_at(self, name: str) -> None:
        """Show a place of the manual, by its name; in a window of its own while a card covers the docks."""
        if self.covered():
            self._open_over(self._window, name)
            return
        manual = self.manual
        assert self._dock is not None
        focus = QApplication.focusWidget()
        if focus is not None and not self._dock.isAncestorOf(focus):
            self._before = focus
        self._dock.show()
        self._dock.raise_()
        if not self._sized:
            self._sized = True
            QTimer.singleShot(0, self._dock, self._size_dock)
        manual.open_at(name)
        manual.focus_text()

    def _close_dock(self) -> None:
        """Hide the manual, and give the focus back to what had it."""
        if self._dock is not None:
            self._dock.hide()
        before, self._before = self._before, None
        if before is not None and shiboken6.isValid(before) and before.isVisible():
            before.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self._view.setFocus(Qt.FocusReason.OtherFocusReason)

    def open_here(self) -> None:
        """Show the place that tells of what has the focus or is under the pointer."""
        self.open_at(self.place_here(QApplication.focusWidget(), QApplication.widgetAt(QCursor.pos())))

    def open_entry(self, action: QAction) -> None:
        """Show the place that tells of an entry of a menu."""
        book = self.manual.book
        self.open_at(next((name for name in places_of_entry(action) if name in book), "start"))

    def show_contents(self) -> None:
        """Show what is in the manual."""
        from planner.desk.pages.manual_view import CONTENTS

        self.open_at(CONTENTS)

    def place_here(self, focus: QWidget | None, under: QWidget | None) -> str:
        """Name of the place that tells of one of two parts of the window.

        What is typed in comes before what is only pointed at.

        Parameters
        ----------
        focus, under : QWidget or None
            What has the focus, and what is under the pointer.
        """
        if self._dock is not None:
            focus, under = (
                None if one is not None and (one is self._dock or self._dock.isAncestorOf(one)) else one
                for one in (focus, under)
            )
        parts = (focus, under) if is_typed_in(focus) else (under, focus)
        found = (self._place_of(part) for part in parts)
        return next((name for name in found if name), "start")

    def _place_of(self, widget: QWidget | None) -> str:
        """Name of the place that tells of a part of the window; empty for none."""
        if widget is None:
            return ""
        if self._findings.isAncestorOf(widget) and (finding := self._findings.shown_as_one()) is not None:
            return self.rule_place(finding)
        if widget is self._view.viewport() and (name := self._on_sheet()):
            return name
        book = self.manual.book
        return next((name for name in places_of(widget) if name in book), "")

    def _on_sheet(self) -> str:
        """Place of what lies under the pointer on the sheet; empty for none."""
        at = self._view.viewport().mapFromGlobal(QCursor.pos())
        thing = self._view.thing_at(self._view.pointer(at.toPointF(), Qt.KeyboardModifier.NoModifier))
        garden = self._document.garden
        for things, name in (
            (garden.plantings_by_id, "planting"),
            (garden.beds_by_id, "bed"),
            (garden.structures_by_id, "structure"),
        ):
            if thing in things:
                return name
        return ""

    # -- findings ---------------------------------------------------------------------------

    def tell_why(self, finding: Finding) -> None:
        """Show the rule by which a finding was judged."""
        self.open_at(self.rule_place(finding))

    def rule_place(self, finding: Finding) -> str:
        """Name of the place that tells of a finding's rule, else of its check."""
        from planner.manual.listed_rules import listed_rules, rule_of

        rule = rule_of(finding, {one.name: translated(one.rule) for one in listed_rules()})
        return f"rule.{rule.name}" if rule is not None else f"check.{finding.check.replace(' ', '-')}"

    # -- commands in the manual -------------------------------------------------------------

    def action_words(self, name: str) -> str:
        """A command as it is in the menus: its menu, its words and its keys."""
        from planner.desk.main_window.menu_words import menu_path

        action = self._actions()[name]
        return f"**{menu_path(action, self._window)}**{self._keys(action)}"

    def key_words(self, name: str) -> str:
        """A command by its words and keys alone."""
        action = self._actions()[name]
        return f"**{action.text().replace('&', '')}**{self._keys(action)}"

    def _keys(self, action: QAction) -> str:
        keys = [key.toString(QKeySequence.SequenceFormat.NativeText) for key in action.shortcuts()]
        return f" (`{keys[0]}`)" if keys else ""

    # -- over dialogs -----------------------------------------------------------------------

    def _reach_dialog(self, _old: QWidget | None, now: QWidget | None) -> None:
        """Let F1 act in a dialog as well, whose keys the window does not get."""
        dialog = now.window() if now is not None else None
        if not isinstance(dialog, QDialog) or dialog.property("helps") or not self._is_ours(dialog):
            return
        dialog.setProperty("helps", True)
        key = QShortcut(QKeySequence("F1"), dialog)
        key.activated.connect(lambda: self._open_over(dialog, self._place_in(dialog)))

    def _is_ours(self, dialog: QDialog) -> bool:
        above = dialog.parentWidget()
        while above is not None:
            if above is self._window:
                return True
            above = above.parentWidget()
        return False

    def _place_in(self, dialog: QDialog) -> str:
        """Name of the place that tells of what has the focus in a dialog."""
        book = self.manual.book
        return next((one for one in places_of(dialog.focusWidget() or dialog) if one in book), "start")

    def _open_over(self, below: QWidget, name: str) -> None:
        """Show a place of the manual in a window over a dialog, which lets nothing else be used."""
        view = self._make_view()
        shown = QDialog(below)
        shown.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        shown.setProperty("helps", True)
        shown.setWindowTitle(say("Manual"))
        shown.finished.connect(view.stop)
        view.closed.connect(shown.close)
        column = QVBoxLayout(shown)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(view)
        shown.resize(*OVER_DIALOG)
        shown.show()
        view.open_at(name)
        view.focus_text()

    # -- what is new ------------------------------------------------------------------------

    def show_news(self) -> None:
        """Show what is new, and remember that it was shown."""
        self._settings.setValue(_NEWS, latest_news())
        self.open_at("new")

    def offer_news(self) -> bool:
        """Show what is new once after an update; not at the very first start, when all is new."""
        seen, began = str(self._settings.value(_NEWS, "")), self._settings.contains("geometry")
        if seen == latest_news():
            return False
        if not seen and not began:
            self._settings.setValue(_NEWS, latest_news())
            return False
        self.show_news()
        return True

    def show_about(self) -> None:
        """Show what the program is."""
        show_about(self._window)

    def close(self) -> None:
        """The window closes."""
        if self._manual is not None:
            self._manual.stop()


def latest_news() -> str:
    """Name of the latest news."""
    from planner.manual.book import chapter_text
    from planner.manual.marks import names_in

    return next(
        name
        for line in chapter_text("en", "new").split("\n")
        if line.startswith("## ")
        for name in names_in(line)
    )
