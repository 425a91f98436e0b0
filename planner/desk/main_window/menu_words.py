"""Where a command is in the menus, in words."""

from __future__ import annotations

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMainWindow, QMenu


def menu_path(action: QAction, window: QMainWindow) -> str:
    """The menus that lead to a command, and the command: ``Edit › Turn the year…``."""
    found = _path_in(window.menuBar().actions(), action)
    return " › ".join(_plain(part) for part in (found or (action,)))


def _path_in(actions: list[QAction], wanted: QAction) -> tuple[QAction, ...] | None:
    for action in actions:
        if action is wanted:
            return (action,)
        menu = action.menu()
        if isinstance(menu, QMenu):
            below = _path_in(menu.actions(), wanted)
            if below is not None:
                return (action, *below)
    return None


def _plain(action: QAction) -> str:
    return action.text().replace("&", "")
