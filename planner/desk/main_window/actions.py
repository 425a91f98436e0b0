"""What the window offers: its actions with their keys, the menus, and the bar of tools.

The work itself is done by the window (:mod:`planner.desk.main_window.window`), which this is the base of.
"""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import (
    QComboBox,
    QLabel,
    QMainWindow,
    QMenu,
    QToolBar,
    QToolButton,
    QWidget,
)

from planner import resources
from planner.desk.main_window.files import SUFFIX
from planner.desk.theme.icons import icon

_STRUCTURES = ("wall", "fence", "hedge", "tree", "shed", "glasshouse", "tunnel", "arch", "other")


class Actions(QMainWindow):
    """Builds actions, menus and tools; a window fills in what they do."""

    def _action(
        self,
        menu: QMenu,
        name: str,
        text: str,
        do,
        keys: QKeySequence | QKeySequence.StandardKey | str | int | None = None,
        picture: str = "",
        *,
        checkable: bool = False,
    ) -> QAction:
        action = QAction(text, self)
        action.setObjectName(name)
        if keys is not None:
            if isinstance(keys, QKeySequence.StandardKey):
                action.setShortcuts(keys)
            else:
                action.setShortcut(QKeySequence(keys))
        if picture:
            action.setIcon(icon(picture, self.look))
        action.setCheckable(checkable)
        if checkable:
            action.toggled.connect(do)
        else:
            action.triggered.connect(lambda _checked=False: do())
        menu.addAction(action)
        self._actions[name] = action
        return action

    def action(self, name: str) -> QAction:
        """An action by its name."""
        return self._actions[name]

    def _menus(self) -> None:
        keys = QKeySequence.StandardKey
        bar = self.menuBar()
        file = bar.addMenu("&File")
        self._action(file, "new", "&New garden", self.files.new, keys.New)
        self._action(file, "open", "&Open…", self.files.open, keys.Open)
        self.recent_menu = file.addMenu("Open &recent")
        self.samples_menu = file.addMenu("Open a sa&mple")
        file.addSeparator()
        self._action(file, "save", "&Save", self.files.save, keys.Save)
        self._action(file, "save as", "Save &as…", self.files.save_as, "Ctrl+Shift+S")
        file.addSeparator()
        self._action(file, "bed sheets", "&Bed sheets as PDF…", self._export_all, "Ctrl+Shift+P", "paper")
        self._action(file, "bed sheet", "Sheet of the selected be&ds as PDF…", self._export_selected)
        self._action(file, "print", "&Print bed sheets…", self._print, keys.Print)
        self._action(file, "week sheets", "&Week sheets as PDF…", self._export_weeks)
        self._action(file, "calendar", "Work as calendar &file…", self._export_calendar)
        self._action(file, "amounts", "A&mounts as table…", self._export_amounts)
        file.addSeparator()
        self._action(file, "quit", "&Quit", self.close, "Ctrl+Q")

        edit = bar.addMenu("&Edit")
        stack = self.document.undo_stack
        for name, action, key, picture in (
            ("undo", stack.createUndoAction(self, "Undo"), keys.Undo, "undo"),
            ("redo", stack.createRedoAction(self, "Redo"), keys.Redo, "redo"),
        ):
            action.setObjectName(name)
            action.setShortcuts(key)
            if name == "redo":
                action.setShortcuts([*action.shortcuts(), QKeySequence("Ctrl+Y")])
            action.setIcon(icon(picture, self.look))
            # A running gesture is put back first: undoing then undoes what stands, not what moves.
            action.triggered.connect(self.view.viewport().update)
            edit.addAction(action)
            self._actions[name] = action
        edit.addSeparator()
        self._action(edit, "cut", "Cu&t", self._cut, keys.Cut)
        self._action(edit, "copy", "&Copy", self._copy, keys.Copy)
        self._action(edit, "paste", "&Paste at the pointer", self._paste, keys.Paste)
        self._action(edit, "paste here", "Paste in p&lace", self._paste_in_place, "Ctrl+Shift+V")
        self._action(edit, "duplicate", "D&uplicate", self._duplicate, "Ctrl+D")
        self._action(edit, "delete", "&Delete", self._delete, keys.Delete)
        edit.addSeparator()
        self._action(edit, "select all", "Select &all beds", self._select_all, keys.SelectAll)
        self._action(edit, "select none", "Select &nothing", lambda: self.document.select(()), "Ctrl+Shift+A")
        edit.addSeparator()
        self._action(edit, "turn left", "Turn by 15° to the left", lambda: self._turn(15), "Ctrl+[")
        self._action(edit, "turn right", "Turn by 15° to the right", lambda: self._turn(-15), "Ctrl+]")
        align = edit.addMenu("Ali&gn")
        for side in ("left", "right", "top", "bottom"):
            self._action(align, f"align {side}", f"By the {side} edges", lambda side=side: self._align(side))

        draw = bar.addMenu("&Draw")
        self.tools = QActionGroup(self)
        for tool, text, key, picture in (
            ("select", "&Select and move", "V", "select"),
            ("rectangle", "&Rectangular bed", "R", "rectangle"),
            ("polygon", "&Polygon bed", "P", "polygon"),
            ("circle", "Roun&d bed", "O", "circle"),
            ("measure", "&Measure", "M", "measure"),
        ):
            action = self._action(
                draw, f"tool {tool}", text, lambda tool=tool: self.view.take_tool(tool), key, picture
            )
            action.setCheckable(True)
            self.tools.addAction(action)
        self._actions["tool select"].setChecked(True)
        structures = draw.addMenu("S&tructure")
        structures.setIcon(icon("structure", self.look))
        for kind in _STRUCTURES:
            words = "Other structure" if kind == "other" else kind.capitalize()
            self._action(
                structures,
                f"tool structure:{kind}",
                words,
                lambda kind=kind: self.view.take_tool(f"structure:{kind}"),
            )
        self._action(
            draw,
            "tool support",
            "S&upport of the selected planting",
            lambda: self.view.take_tool("support"),
            "U",
        )
        draw.addSeparator()
        self._action(draw, "new beds", "New beds by &size…", self._new_beds, "Ctrl+B", "beds")
        self._action(draw, "place", "Plant the chosen &crop…", lambda: self.crops._take(True), "Ctrl+Return")
        self._action(draw, "find crop", "&Find a crop", self._find_crop, keys.Find)

        show = bar.addMenu("&View")
        self._action(show, "zoom in", "Zoom &in", lambda: self.view.zoom_by(1.25), keys.ZoomIn)
        self._actions["zoom in"].setShortcuts([QKeySequence("Ctrl++"), QKeySequence("Ctrl+=")])
        self._action(show, "zoom out", "Zoom &out", lambda: self.view.zoom_by(0.8), keys.ZoomOut)
        self._action(show, "show all", "Show &all", self.view.show_all, "Ctrl+0", "all")
        self._action(show, "show selection", "Show the &selection", self.view.show_selection, "Ctrl+Shift+0")
        show.addSeparator()
        grid = self._action(show, "grid", "&Grid", self._show_grid, "G", "grid", checkable=True)
        grid.setChecked(True)
        snap = self._action(show, "snap", "S&nap to grid and edges", self._snap, "N", "snap", checkable=True)
        snap.setChecked(True)
        at_pointer = self._action(
            show, "zoom at pointer", "The wheel zooms at the &pointer", self._zoom_at, checkable=True
        )
        at_pointer.setChecked(True)
        self._action(show, "shadow", "&Shadows of the hour", self._show_shadow, "H", "shadow", checkable=True)
        self._action(show, "light map", "&Map of direct sun", self._show_map, "L", "sun", checkable=True)
        self._action(show, "ways", "&Reach and narrow paths", self._show_ways, checkable=True)
        self._action(show, "light span", "Map over the whole growing year", self._map_span, checkable=True)
        show.addSeparator()
        whole = self._action(
            show, "whole year", "The whole &year at once", self._whole_year, "Y", checkable=True
        )
        self.document.day_changed.connect(lambda: whole.setChecked(self.document.day is None))
        show.addSeparator()
        looks = QActionGroup(self)
        for wish, text in (
            ("system", "Light or dark &by the system"),
            ("light", "&Light"),
            ("dark", "&Dark"),
        ):
            action = self._action(show, f"look {wish}", text, lambda wish=wish: self._choose_look(wish))
            action.setCheckable(True)
            looks.addAction(action)
        show.addSeparator()
        for number in range(self.pages.count()):
            words = f"Page {self.pages.tabText(number)}"
            self._action(
                show,
                f"page {number}",
                words,
                lambda n=number: self.pages.setCurrentIndex(n),
                f"Ctrl+{number + 1}",
            )
        show.addSeparator()
        for dock, key in ((self.crops_dock, "F7"), (self.details_dock, "F8")):
            action = dock.toggleViewAction()
            action.setShortcut(QKeySequence(key))
            show.addAction(action)
        self._action(show, "reset layout", "&Reset the layout", self._reset_layout)

        help_menu = bar.addMenu("&Help")
        self._action(help_menu, "keys", "&Keys and gestures", self._show_keys, keys.HelpContents)
        self._action(help_menu, "about", "&About Bedwright", self._about)

        self._toolbar()
        for name in (path.stem for path in sorted(resources.sample_folder().glob(f"*{SUFFIX}"))):
            words = name.replace("_", " ").capitalize()
            self._action(
                self.samples_menu, f"sample {name}", words, lambda name=name: self._open_sample(name)
            )
        self.files.on_recent = self._fill_recent
        self._fill_recent()

    def _toolbar(self) -> None:
        bar = QToolBar("Tools")
        bar.setObjectName("tools")
        bar.setMovable(False)
        bar.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonIconOnly)
        self.addToolBar(Qt.ToolBarArea.TopToolBarArea, bar)
        for name in ("undo", "redo"):
            bar.addAction(self._actions[name])
        bar.addSeparator()
        for tool in ("select", "rectangle", "polygon", "circle"):
            bar.addAction(self._actions[f"tool {tool}"])
        button = QToolButton()
        button.setIcon(icon("structure", self.look))
        button.setToolTip("Draw a structure")
        button.setAccessibleName("Draw a structure")
        button.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        menu = QMenu(button)
        for kind in _STRUCTURES:
            menu.addAction(self._actions[f"tool structure:{kind}"])
        button.setMenu(menu)
        bar.addWidget(button)
        bar.addAction(self._actions["new beds"])
        bar.addAction(self._actions["tool measure"])
        bar.addSeparator()
        for name in ("shadow", "light map"):
            bar.addAction(self._actions[name])
        bar.addSeparator()
        for name in ("grid", "snap", "show all"):
            bar.addAction(self._actions[name])
        bar.addSeparator()
        bar.addAction(self._actions["bed sheets"])
        spacer = QWidget()
        spacer.setSizePolicy(spacer.sizePolicy().Policy.Expanding, spacer.sizePolicy().Policy.Preferred)
        bar.addWidget(spacer)
        label = QLabel("Growing year ")
        bar.addWidget(label)
        self.year_box = QComboBox()
        self.year_box.setAccessibleName("Growing year")
        label.setBuddy(self.year_box)
        self.year_box.activated.connect(lambda _i: self.document.show_year(self.year_box.currentData()))
        bar.addWidget(self.year_box)
        self._fill_years()
