"""Every key of the window does one thing, with the standard keys of each system."""

from __future__ import annotations

import pytest
from making import bed, garden, rectangle
from PySide6.QtGui import QAction, QKeySequence, QShortcut

from planner.desk.main_window import actions

pytestmark = pytest.mark.one_window

_KEYS = QKeySequence.StandardKey

#: Standard keys by system, as Qt binds them: the table in its src/gui/kernel/qplatformtheme.cpp, for the keyboard schemes
#: of X11, Windows and macOS (where Ctrl is the Command key and Meta the Control key).  Keys of office keyboards that only
#: bear a name (Open, Cut ...) are left out.
STANDARD_KEYS: dict[str, dict[QKeySequence.StandardKey, str]] = {
    "x11": {
        _KEYS.HelpContents: "F1",
        _KEYS.Open: "Ctrl+O",
        _KEYS.Save: "Ctrl+S",
        _KEYS.New: "Ctrl+N",
        _KEYS.Delete: "Del; Ctrl+D",
        _KEYS.Cut: "Ctrl+X; Shift+Del; F20",
        _KEYS.Copy: "Ctrl+C; Ctrl+Ins; F16",
        _KEYS.Paste: "Ctrl+V; Ctrl+Shift+Ins; Shift+Ins; F18",
        _KEYS.Undo: "Ctrl+Z; F14",
        _KEYS.Redo: "Ctrl+Shift+Z",
        _KEYS.ZoomIn: "Ctrl++",
        _KEYS.ZoomOut: "Ctrl+-",
        _KEYS.Print: "Ctrl+P",
        _KEYS.Find: "Ctrl+F",
        _KEYS.SelectAll: "Ctrl+A",
    },
    "windows": {
        _KEYS.HelpContents: "F1",
        _KEYS.Open: "Ctrl+O",
        _KEYS.Save: "Ctrl+S",
        _KEYS.New: "Ctrl+N",
        _KEYS.Delete: "Del",
        _KEYS.Cut: "Ctrl+X; Shift+Del",
        _KEYS.Copy: "Ctrl+C; Ctrl+Ins",
        _KEYS.Paste: "Ctrl+V; Shift+Ins",
        _KEYS.Undo: "Ctrl+Z; Alt+Backspace",
        _KEYS.Redo: "Ctrl+Y; Alt+Shift+Backspace; Ctrl+Shift+Z",
        _KEYS.ZoomIn: "Ctrl++",
        _KEYS.ZoomOut: "Ctrl+-",
        _KEYS.Print: "Ctrl+P",
        _KEYS.Find: "Ctrl+F",
        _KEYS.SelectAll: "Ctrl+A",
    },
    "macos": {
        _KEYS.HelpContents: "Ctrl+?",
        _KEYS.Open: "Ctrl+O",
        _KEYS.Save: "Ctrl+S",
        _KEYS.New: "Ctrl+N",
        _KEYS.Delete: "Del; Meta+D",
        _KEYS.Cut: "Ctrl+X; Meta+K",
        _KEYS.Copy: "Ctrl+C",
        _KEYS.Paste: "Ctrl+V; Meta+Y",
        _KEYS.Undo: "Ctrl+Z",
        _KEYS.Redo: "Ctrl+Shift+Z",
        _KEYS.ZoomIn: "Ctrl++",
        _KEYS.ZoomOut: "Ctrl+-",
        _KEYS.Print: "Ctrl+P",
        _KEYS.Find: "Ctrl+F",
        _KEYS.SelectAll: "Ctrl+A",
    },
}


@pytest.fixture(params=STANDARD_KEYS)
def system(request, monkeypatch) -> str:
    table = STANDARD_KEYS[request.param]
    monkeypatch.setattr(
        actions, "standard_bindings", lambda key: [QKeySequence(text) for text in table[key].split("; ")]
    )
    return request.param


def owners(window) -> dict[str, list[str]]:
    """Who has each key of a window."""
    found: dict[str, list[str]] = {}
    for action in window.findChildren(QAction):
        for keys in action.shortcuts():
            found.setdefault(keys.toString(), []).append(action.objectName() or action.text())
    for shortcut in window.findChildren(QShortcut):
        for keys in QShortcut.keys(shortcut):
            found.setdefault(keys.toString(), []).append(f"shortcut of {type(shortcut.parent()).__name__}")
    return found


def test_every_key_is_one_actions_alone(system, hand) -> None:
    found = owners(hand.window)
    assert len(found) > 40
    assert {keys: names for keys, names in found.items() if len(names) > 1} == {}


def test_the_keys_that_are_told_are_there(system, hand) -> None:
    found = owners(hand.window)
    told = {"Ctrl+D": "duplicate", "Del": "delete", "Ctrl+Y": "redo", "Ctrl+Shift+Z": "redo", "F1": "manual"}
    assert {keys: found.get(keys) for keys in told} == {keys: [name] for keys, name in told.items()}


def test_ctrl_d_duplicates(system, open_hand) -> None:
    hand = open_hand(garden(bed("b1", rectangle(), name="North")))
    hand.click((0.0, 0.0))
    hand.shortcut("Ctrl+D")
    assert [one.name for one in hand.garden.beds] == ["North", "North 1"]
    hand.shortcut("Del")
    assert [one.name for one in hand.garden.beds] == ["North"]
