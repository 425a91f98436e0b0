"""The docks of the window: crops and contents at the left, details and findings at the right."""

from __future__ import annotations

import hashlib

from PySide6.QtCore import QByteArray, QSettings, QSize, Qt
from PySide6.QtWidgets import QApplication, QDockWidget, QMainWindow, QWidget

from planner.desk.main_window.actions import Made
from planner.desk.main_window.tight_tabs import TightTabs
from planner.desk.model.document import Document
from planner.desk.model.findings_model import FindingsModel
from planner.desk.panels.contents_tree import ContentsTree
from planner.desk.panels.crop_list import CropList
from planner.desk.panels.details import Details
from planner.desk.panels.findings_panel import FindingsPanel
from planner.desk.panels.walk_list import WalkList
from planner.desk.theme.palette import LookSwitch
from planner.words import say

#: Breadth of the docks at first. [pixels]
LEFT_WIDTH, RIGHT_WIDTH = 250, 300
#: Taken of a screen by the frame of a window: both sides together, title and foot. [pixels]
FRAME = (8, 40)
_LEFT, _RIGHT = Qt.DockWidgetArea.LeftDockWidgetArea, Qt.DockWidgetArea.RightDockWidgetArea


class Docks:
    """The panels beside the pages, in tabs of two docks.

    Attributes
    ----------
    left, right : TightTabs
    crops, contents, walk : CropList, ContentsTree, WalkList
        At the left.
    details, findings : Details, FindingsPanel
        At the right.
    """

    def __init__(
        self, window: QMainWindow, document: Document, look: LookSwitch, findings: FindingsModel
    ) -> None:
        self._window, self._model = window, findings
        # The screens for which the places of window and docks hold.
        self._screens = screens_key()
        self.crops = CropList(document, look)
        self.contents = ContentsTree(document)
        self.walk = WalkList(document)
        self.details = Details(document)
        self.findings = FindingsPanel(findings)
        self.left = _tabs(
            say("Crops and contents"),
            {say("Crops"): self.crops, say("Contents"): self.contents, say("Walk"): self.walk},
        )
        self.right = _tabs(
            say("Details and findings"), {say("Details"): self.details, say("Findings"): self.findings}
        )
        self._left_dock = _dock(window, "crops", say("Crops"), self.left)
        self._right_dock = _dock(window, "details", say("Details"), self.right)
        self.reset()
        findings.changed.connect(self._show_number)

    def _show_number(self) -> None:
        """Write the number of open findings on their tab."""
        number = len(self._model.open)
        tab = self.right.indexOf(self.findings)
        title = say("Findings ({count})", count=number) if number else say("Findings")
        if title != self.right.tabText(tab):
            self.right.setTabText(tab, title)
            self.right.fit_titles()

    def toggles(self) -> tuple[Made, ...]:
        """Actions that show and hide the docks."""
        return tuple(
            Made(f"show {dock.objectName()}", dock.toggleViewAction(), keys)
            for dock, keys in ((self._left_dock, "F7"), (self._right_dock, "F8"))
        )

    # -- bringing to the front --------------------------------------------------------------

    def find_crop(self) -> None:
        """Show the list of crops, ready to type in what is looked for."""
        self._left_dock.show()
        self.left.setCurrentWidget(self.crops)
        self.crops.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.crops.search.selectAll()

    def show_walk(self) -> None:
        """Show the beds in walking order, ready to be moved in it."""
        self._left_dock.show()
        self.left.setCurrentWidget(self.walk)
        self.walk.list.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def show_details(self) -> None:
        """Show the details of what is selected, ready to type in the first field."""
        self._right_dock.show()
        self.right.setCurrentWidget(self.details)
        self.details.focus_first()

    # -- layout -----------------------------------------------------------------------------

    def reset(self) -> None:
        """Put both docks where they are at first, and show them."""
        for dock, area in ((self._left_dock, _LEFT), (self._right_dock, _RIGHT)):
            self._window.addDockWidget(area, dock)
            dock.show()
        self._window.resizeDocks(
            [self._left_dock, self._right_dock], [LEFT_WIDTH, RIGHT_WIDTH], Qt.Orientation.Horizontal
        )

    def save(self, settings: QSettings) -> None:
        """Remember where window and docks are, for the screens there are now."""
        for group in ("", f"screens/{self._screens}/"):
            settings.setValue(group + "geometry", self._window.saveGeometry())
            settings.setValue(group + "state", self._window.saveState())

    def restore(self, settings: QSettings) -> None:
        """Put window and docks back where they were last with the screens there are now, else where they were last."""
        self._screens = screens_key()
        group = f"screens/{self._screens}/"
        if not settings.contains(group + "geometry"):
            group = ""
        geometry, state = settings.value(group + "geometry"), settings.value(group + "state")
        if isinstance(geometry, QByteArray):
            self._window.restoreGeometry(geometry)
        if isinstance(state, QByteArray):
            self._window.restoreState(state)
        if not self._window.isMaximized() and not self._window.isFullScreen():
            self._window.resize(self._window.size().boundedTo(room_on_screen(self._window)))
        # A window that was on a screen which is gone comes back to one that is there.
        screens, frame = QApplication.screens(), self._window.frameGeometry()
        if screens and not any(screen.availableGeometry().intersects(frame) for screen in screens):
            self._window.move(screens[0].availableGeometry().topLeft())

    def follow_screens(self, settings: QSettings) -> None:
        """A screen has come or gone: put window and docks where they were last with those there are now.

        Where they were with the others is remembered.
        """
        if screens_key() == self._screens:
            return
        self.save(settings)
        self.restore(settings)


def screens_key() -> str:
    """Names the screens there are: the same for the same ones at the same places, in the same sizes."""
    told = sorted(
        f"{screen.name()} {screen.geometry().getRect()} {screen.devicePixelRatio():g}"
        for screen in QApplication.screens()
    )
    return hashlib.sha256("\n".join(told).encode()).hexdigest()[:12]


def room_on_screen(window: QWidget) -> QSize:
    """Size that a window can have on its screen, within its frame. [pixels]"""
    return window.screen().availableGeometry().size() - QSize(*FRAME)


def _tabs(name: str, panels: dict[str, QWidget]) -> TightTabs:
    tabs = TightTabs()
    tabs.setDocumentMode(True)
    tabs.setAccessibleName(name)
    for title, panel in panels.items():
        tabs.addTab(panel, title)
    return tabs


def _dock(window: QMainWindow, name: str, title: str, widget: QWidget) -> QDockWidget:
    dock = QDockWidget(title, window)
    dock.setObjectName(name)
    dock.setWidget(widget)
    dock.setTitleBarWidget(QWidget(dock))  # the tabs and headings inside say what it is
    dock.setAllowedAreas(_LEFT | _RIGHT)
    dock.setFeatures(
        QDockWidget.DockWidgetFeature.DockWidgetMovable | QDockWidget.DockWidgetFeature.DockWidgetClosable
    )
    return dock
