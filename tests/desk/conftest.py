"""What the tests of the window share: the application, a hand that works the window, no left-overs."""

from __future__ import annotations

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hand import FakePrompts, Hand
from PySide6.QtCore import QEvent, QSettings, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from planner.desk.app import application
from planner.desk.main_window.window import Window
from planner.desk.model import garbage
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.garden import Garden

HERE = Path(__file__).parent
#: Property of a window that the tests of a module share.
KEPT = "shared by the tests of a module"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    # These look through everything there is, again and again: they come first, while that is little.
    items.sort(key=lambda item: item.path.name != "test_memory.py")
    for item in items:
        if item.path.is_relative_to(HERE):
            item.add_marker("gui")
            # The offscreen platform has no window manager, and says so.
            item.add_marker(pytest.mark.qt_log_ignore("This plugin does not support"))


@pytest.fixture(scope="session")
def qapp() -> QApplication:
    # Tests open more windows than any person: what they leave is looked through now and then, not after every third.
    garbage.WORTH *= 5
    return application()


@pytest.fixture(autouse=True)
def no_left_overs(qapp: QApplication) -> Iterator[None]:
    """Every test leaves no window and no running timer behind."""
    before = set(qapp.topLevelWidgets())
    yield
    _settle(qapp)
    if left := [
        w for w in qapp.topLevelWidgets() if w not in before and w.isVisible() and not w.property(KEPT)
    ]:
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
def open_hand(
    qtbot, settings: QSettings, qapp: QApplication, request: pytest.FixtureRequest
) -> Iterator[Callable[..., Hand]]:
    """Open a window on a garden; more than one where a test needs it.

    In a module marked ``one_window`` a garden is opened in the window that its tests share (``reopen``); a second garden of
    a test, one in a look of its own, and a test marked ``own_window`` get a window of their own all the same.
    """
    made: list[Window] = []
    shared = (
        request.getfixturevalue("reopen")
        if {"one_window"} == {"one_window", "own_window"} & request.keywords.keys()
        else None
    )

    def make(garden: Garden | None = None, look: LookSwitch | None = None) -> Hand:
        nonlocal shared
        if shared is not None and look is None:
            again, shared = shared, None
            return again(Garden() if garden is None else garden)
        return _shown(made, Window(settings, FakePrompts(), Document(garden), look))

    yield make
    _close(made, qapp)


def _shown(made: list[Window], window: Window) -> Hand:
    made.append(window)
    window.resize(1360, 860)
    window.show()
    assert QTest.qWaitForWindowExposed(window)
    QApplication.processEvents()
    window.view.zoom_by(0.7)  # room around everything, to drag into
    return Hand(window)


def _close(made: list[Window], app: QApplication) -> None:
    for window in made:
        window.prompts.answers["leave"] = "leave"
        window.close()
        window.deleteLater()
    _settle(app)
    made.clear()


@pytest.fixture(scope="module")
def kept_hand(qapp: QApplication, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Hand]:
    """One window for many tests of a module that each open a garden in it, as a person would: see ``reopen``."""
    folder = tmp_path_factory.mktemp("kept")
    made: list[Window] = []
    with pytest.MonkeyPatch.context() as surroundings:
        surroundings.setenv("BEDWRIGHT_STATE", str(folder / "unsaved"))
        settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
        kept = _shown(made, Window(settings, FakePrompts(), Document()))
        kept.window.setProperty(KEPT, True)
        yield kept
        _close(made, qapp)


@pytest.fixture
def reopen(kept_hand: Hand) -> Callable[[Garden], Hand]:
    """Open a garden in the window that the tests of a module share."""

    def open_again(garden: Garden) -> Hand:
        window, view = kept_hand.window, kept_hand.view
        view.cancel_gesture()
        view.take_tool("select")
        window.prompts.start_anew()
        window.settings.clear()
        window.show()
        window.resize(1360, 860)
        window.docks.reset()
        window.pages.setCurrentIndex(0)
        kept_hand.document.open(garden)
        window.status.message.clear()
        kept_hand.said.clear()
        window.activateWindow()
        window.commands.file.show_opened()
        view.setFocus()
        QApplication.processEvents()
        view.zoom_by(0.7)
        return kept_hand

    return open_again


@pytest.fixture
def hand(open_hand: Callable[..., Hand]) -> Hand:
    """A window on an empty garden."""
    return open_hand()
