"""What the tests of the window share: the application, a hand that works the window, no left-overs."""

from __future__ import annotations

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hand import FakePrompts, Hand
from PySide6.QtCore import QEvent, QSettings, QTimer
from PySide6.QtWidgets import QApplication

from planner.desk.app import application
from planner.desk.main_window.window import Window
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.garden import Garden

HERE = Path(__file__).parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if item.path.is_relative_to(HERE):
            item.add_marker("gui")
            # The offscreen platform has no window manager, and says so.
            item.add_marker(pytest.mark.qt_log_ignore("This plugin does not support"))


@pytest.fixture(scope="session")
def qapp() -> QApplication:
    return application()


@pytest.fixture(autouse=True)
def no_left_overs(qapp: QApplication) -> Iterator[None]:
    """Every test leaves no window and no running timer behind."""
    before = set(qapp.topLevelWidgets())
    yield
    _settle(qapp)
    if left := [w for w in qapp.topLevelWidgets() if w not in before and w.isVisible()]:
        names = [type(w).__name__ for w in left]
        for widget in left:
            widget.close()
            widget.deleteLater()
        _settle(qapp)
        pytest.fail(f"windows left open: {names}")
    running = [timer for timer in qapp.findChildren(QTimer) if timer.isActive()]
    assert not running


def _settle(app: QApplication) -> None:
    app.processEvents()
    app.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    app.processEvents()


@pytest.fixture(autouse=True)
def state_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Unsaved work and thumbnails of the tests stay in their own folder."""
    monkeypatch.setenv("BEDWRIGHT_STATE", str(tmp_path / "unsaved"))
    monkeypatch.setenv("BEDWRIGHT_CACHE", str(tmp_path / "thumbnails"))


@pytest.fixture
def settings(tmp_path: Path) -> QSettings:
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def open_hand(qtbot, settings: QSettings, qapp: QApplication) -> Iterator[Callable[..., Hand]]:
    """Open a window on a garden; more than one where a test needs it."""
    made: list[Window] = []

    def make(garden: Garden | None = None, look: LookSwitch | None = None) -> Hand:
        window = Window(settings, FakePrompts(), Document(garden), look)
        made.append(window)
        window.resize(1360, 860)
        with qtbot.waitExposed(window):
            window.show()
        qapp.processEvents()
        window.view.zoom_by(0.7)  # room around everything, to drag into
        return Hand(window)

    yield make
    for window in made:
        window.prompts.answers["leave"] = "leave"
        window.close()
        window.deleteLater()
    _settle(qapp)
    made.clear()


@pytest.fixture
def hand(open_hand: Callable[..., Hand]) -> Hand:
    """A window on an empty garden."""
    return open_hand()
