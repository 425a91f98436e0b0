"""Random work in the window, undone to the beginning; and long work, with its memory."""

from __future__ import annotations

import os
import sys
import tempfile
from pathlib import Path
from random import Random

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).parents[1] / "desk"))

from hand import ALT, CTRL, NONE, SHIFT, FakePrompts, Hand
from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QApplication

from planner import resources, storage
from planner.desk.app import application
from planner.desk.main_window.window import Window
from planner.desk.model.document import Document

#: Commands that are tried; those that leave the window or ask for a file are not.
COMMANDS = (
    "undo", "redo", "cut", "copy", "paste", "paste here", "duplicate", "delete", "select all", "select none",
    "turn left", "turn right", "align left", "align top", "show all", "zoom in", "zoom out", "whole year",
    "tool select", "tool rectangle", "tool polygon", "page 0", "page 1", "page 2", "page 3", "page 4", "page 5",
)  # fmt: skip
KEYS = (
    Qt.Key.Key_Left,
    Qt.Key.Key_Up,
    Qt.Key.Key_Escape,
    Qt.Key.Key_Return,
    Qt.Key.Key_Tab,
    Qt.Key.Key_Delete,
)


def step(rng: Random, hand: Hand) -> None:
    """One thing that a person may do."""
    at = rng.uniform(-3, 14), rng.uniform(-3, 9)
    to = at[0] + rng.uniform(-3, 3), at[1] + rng.uniform(-2, 2)
    held = rng.choice((NONE, NONE, NONE, SHIFT, CTRL, ALT))
    seen = hand.view.viewport().rect().contains
    # A hidden page is neither clicked nor kept up to date.
    in_view = hand.view.isVisible() and all(seen(hand.view.to_view(place).toPoint()) for place in (at, to))
    match rng.randrange(6):
        case 0 if in_view:
            hand.click(at, held)
        case 1 if in_view:
            hand.drag(at, to, held)
        case 2:
            hand.key(rng.choice(KEYS))
        case 3:
            years = hand.document.year
            hand.document.show_year(rng.choice((years, years, 2025, 2026, 2027)))
        case _:
            action = hand.window.action(rng.choice(COMMANDS))
            if action.isEnabled():
                action.trigger()
    application().processEvents()


def opened(folder: str, sample: str = "balcony_boxes") -> Hand:
    """A window with a sample."""
    os.environ["BEDWRIGHT_STATE"] = folder
    garden = storage.load(resources.sample_folder() / f"{sample}.bedwright")
    settings = QSettings(str(Path(folder) / "settings.ini"), QSettings.Format.IniFormat)
    window = Window(settings, FakePrompts(), Document(garden))
    window.resize(1200, 800)
    window.show()
    application().processEvents()
    return Hand(window)


def closed(hand: Hand) -> None:
    """Close a window for good."""
    hand.window.prompts.answers["leave"] = "leave"
    hand.window.close()
    hand.window.deleteLater()
    application().processEvents()
    # What was copied is ours: Qt's platform without a screen would destroy it when Python is gone already.
    QApplication.clipboard().clear()


def work_and_undo(rng: Random) -> str:
    """After any work, undoing all of it gives the garden of the beginning, and redoing that of the end."""
    application()
    with tempfile.TemporaryDirectory() as folder:
        hand = opened(folder)
        faults: list[str] = []
        hook, sys.excepthook = (
            sys.excepthook,
            lambda kind, fault, _t: faults.append(f"{kind.__name__}: {fault}"),
        )
        try:
            first = hand.garden
            for _ in range(60):
                step(rng, hand)
            hand.view.cancel_gesture()
            stack = hand.document.undo_stack
            last, steps = hand.document.stable, stack.index()
            while stack.canUndo():
                stack.undo()
            if hand.document.stable != first:
                return "undoing all of it gives another garden"
            while stack.index() < steps:
                stack.redo()
            if hand.document.stable != last:
                return "redoing all of it gives another garden"
            return faults[0] if faults else ""
        finally:
            sys.excepthook = hook
            closed(hand)


ATTACKS = {"work in the window, undone": work_and_undo}
