"""What the program is: the last of the Help menu."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMessageBox, QWidget

from planner import __version__
from planner.garden.gazetteer import CREDIT
from planner.words import say


def show_about(parent: QWidget) -> None:
    """Show what the program is."""
    box = QMessageBox(parent)
    box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    box.setWindowTitle(say("About Bedwright"))
    box.setText(f"<b>Bedwright {__version__}</b>")
    about = say("Plan what grows in which bed, how much of it, and when.")
    fonts = say("Letters: IBM Plex Sans (SIL Open Font License 1.1).")
    box.setInformativeText(f"{about}\n\n{fonts}\n{say(CREDIT)}")
    box.open()
