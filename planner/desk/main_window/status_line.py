"""The status bar: a message at the left, the place of the pointer at the right."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QStatusBar

from planner.desk.canvas.light_layer import LightLayer
from planner.desk.model.document import Document
from planner.garden.units import show_length

#: Least breadth of the pointer's place. [pixels]
PLACE_WIDTH = 170


class StatusLine(QStatusBar):
    """Shows the latest message, and where the pointer is on the plan.

    Parameters
    ----------
    document : Document
        Its units are used.
    light : LightLayer
        While its map is shown, the hours of sun at the pointer are shown too.
    """

    def __init__(self, document: Document, light: LightLayer) -> None:
        super().__init__()
        self._document, self._light = document, light
        self.setSizeGripEnabled(False)
        self.message = QLabel()
        self.message.setAccessibleName("Message")
        self.addWidget(self.message, 1)
        self.place = QLabel()
        self.place.setMinimumWidth(PLACE_WIDTH)
        self.addPermanentWidget(self.place)

    def say(self, text: str) -> None:
        """Show a message."""
        self.message.setText(text)
        self.message.setToolTip(text)

    def show_place(self, x: float, y: float) -> None:
        """Show the place of the pointer on the plan. [m]"""
        units = self._document.garden.site.units
        hours = self._light.hours_at((x, y))
        sun = f"{hours:.1f} h sun   " if hours is not None else ""
        self.place.setText(f"{sun}x {show_length(x, units)}   y {show_length(y, units)}")
