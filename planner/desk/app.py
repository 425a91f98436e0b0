"""Starts the window."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QLibraryInfo, QLocale, QSettings, QSize, Qt, QTimer, QTranslator
from PySide6.QtGui import QFont, QGuiApplication, QIcon
from PySide6.QtWidgets import QApplication

from planner.desk import bindings  # noqa: F401  # before the others
from planner.desk.main_window.early_reading import EarlyReading
from planner.desk.main_window.window import Window
from planner.desk.model.garbage import WindowThreadCollector
from planner.desk.model.heard_drawings import tell_of_drawings
from planner.desk.theme.palette import load_fonts
from planner.resources import resource
from planner.words import spoken_language, use_language, wished_language

if TYPE_CHECKING:
    from planner.manual.book import Generator

#: Kept as long as the application.
_collector: WindowThreadCollector | None = None


def application() -> QApplication:
    """The one application of the process, with its style and font."""
    found = QApplication.instance()
    if isinstance(found, QApplication):
        return found
    QGuiApplication.setHighDpiScaleFactorRoundingPolicy(Qt.HighDpiScaleFactorRoundingPolicy.PassThrough)
    app = QApplication(sys.argv[:1])
    app.setApplicationName("Bedwright")
    app.setOrganizationName("Bedwright")
    app.setDesktopFileName("bedwright")  # of the desktop entry, from which some desktops take the icon
    app.setWindowIcon(_icon())
    app.setStyle("Fusion")
    app.setFont(QFont(load_fonts(), 10))
    tell_of_drawings()
    global _collector
    _collector = WindowThreadCollector()
    return app


def _icon() -> QIcon:
    """The program's icon; a picture of it is read when its size is wanted."""
    icon = QIcon()
    for size in (16, 24, 32, 48, 64, 128, 256, 512):
        icon.addFile(str(resource("icons", f"bedwright-{size}.png")), QSize(size, size))
    return icon


def settings() -> QSettings:
    """Where the window remembers its layout and files: an INI file, elsewhere if BEDWRIGHT_SETTINGS says so."""
    path = os.environ.get("BEDWRIGHT_SETTINGS")
    if path:
        return QSettings(path, QSettings.Format.IniFormat)
    return QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, "Bedwright", "bedwright")


def speak(app: QApplication, wish: str = "") -> None:
    """Speak the language that is wished, from the first widget on; Qt's own words and the signs of numbers as well.

    Parameters
    ----------
    app : QApplication
    wish : str
        Code of the language that was chosen in the settings; empty for that of the system.
    """
    use_language(wished_language(os.environ, wish))
    QLocale.setDefault(QLocale(spoken_language()))
    translator = QTranslator(app)
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    if translator.load(QLocale(), "qtbase", "_", folder):
        app.installTranslator(translator)


def run(path: str | None, sample: bool = False, commands: Generator | None = None) -> int:
    """Open the window, and run until it is closed.

    Parameters
    ----------
    path : str or None
        A garden file, the name of a sample, or None for a new garden.
    sample : bool
        Whether ``path`` names a sample.
    commands : callable, optional
        Tells in the manual of the commands of the command line.
    """
    app, remembered = application(), settings()
    speak(app, str(remembered.value("language", "")))
    window = Window(remembered)
    if path is not None:
        opened = window.files.open_sample(path) if sample else window.files.open_path(Path(path))
        if opened:
            window.document.garden_changed.emit()
    else:
        window.files.empty()  # in the units chosen
    if commands is not None:
        window.commands.help.more["commands"] = commands
    window.show()
    EarlyReading(window).begin_later()
    QTimer.singleShot(0, window, window.commands.help.offer_news)
    if path is None:
        window.start.show()
    if path is None or sample:
        QTimer.singleShot(0, window, window.files.offer_untitled)
    return app.exec()
