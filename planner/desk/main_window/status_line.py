"""The status bar: a message at the left, the place of the pointer at the right."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QSizePolicy, QStatusBar

from planner.desk.canvas.light_layer import LightLayer
from planner.desk.model.document import Document
from planner.desk.theme.palette import letters
from planner.desk.theme.plain_tips import plain_tip
from planner.garden.units import show_length
from planner.season.lived.assumed import assumed_words
from planner.words import capital, number_words, say

#: Least breadth of the pointer's place. [pixels]
PLACE_WIDTH = 170


class StatusLine(QStatusBar):
    """Shows the latest message, and where the pointer is on the plan.

    A message goes away when it was answered: with the next step of the history, another selection, the end of the
    gesture it explained, or the text put right that it complained of.

    Parameters
    ----------
    document : Document
        Its units are used.
    light : LightLayer
        While its map is shown, the hours of sun at the pointer are shown too.

    Signals
    -------
    said : str
        A message is shown; empty where it is taken away.
    assumption_wanted
        What is assumed of the recorded years is to be changed.
    """

    said = Signal(str)
    assumption_wanted = Signal()

    def __init__(self, document: Document, light: LightLayer) -> None:
        super().__init__()
        self._document, self._light = document, light
        self._complains = False
        self.setSizeGripEnabled(False)
        self.message = QLabel()
        self.message.setTextFormat(Qt.TextFormat.PlainText)
        self.message.setAccessibleName(say("Message"))
        self.message.setSizePolicy(
            QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred
        )  # widens no window
        self.message.setContentsMargins(8, 0, 0, 0)
        self.addWidget(self.message, 1)
        self.assumed = QPushButton()
        self.assumed.setFlat(True)
        self.assumed.setFont(letters(9, bold=True))
        self.assumed.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.assumed.setToolTip(say("What is assumed of the recorded years; press to change it"))
        self.assumed.clicked.connect(self.assumption_wanted)
        self.assumed.hide()
        self.addPermanentWidget(self.assumed)
        self.place = QLabel()
        self.place.setTextFormat(Qt.TextFormat.PlainText)
        self.place.setMinimumWidth(PLACE_WIDTH)
        self.addPermanentWidget(self.place)
        document.undo_stack.indexChanged.connect(self._go_on)
        document.selection_changed.connect(self._go_on)
        document.assumed_changed.connect(self._show_assumed)
        self._show_assumed()

    def _show_assumed(self) -> None:
        """Mark what is assumed of the recorded years, on every page."""
        plan = self._document.plan
        words = capital(assumed_words(plan.assumed, plan.garden.site.units))
        self.assumed.setText(words.replace("&", "&&"))
        self.assumed.setAccessibleName(words or say("Assumption"))
        self.assumed.setVisible(bool(words))

    def say(self, text: str) -> None:
        """Show a message."""
        self._complains = False
        self.message.setText(text)
        self.message.setAccessibleName(text or say("Message"))  # a name is read in place of the text
        self.message.setToolTip(plain_tip(text))
        self.said.emit(text)

    def complain(self, text: str) -> None:
        """Show a message about something typed that is not possible."""
        self.say(text)
        self._complains = True

    def righted(self) -> None:
        """What was typed is right now: take a complaint away."""
        if self._complains:
            self.say("")

    def withdraw(self, text: str) -> None:
        """Take a message away, where it is still shown."""
        if self.message.text() == text:
            self.say("")

    def _go_on(self) -> None:
        self.say("")

    def show_place(self, x: float, y: float) -> None:
        """Show the place of the pointer on the plan. [m]"""
        units = self._document.garden.site.units
        hours = self._light.hours_at((x, y))
        sun = say("{hours} h sun   ", hours=number_words(hours, 1)) if hours is not None else ""
        self.place.setText(f"{sun}x {show_length(x, units)}   y {show_length(y, units)}")
