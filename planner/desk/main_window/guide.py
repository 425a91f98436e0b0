"""A guided first plan: a strip over the sheet that says what to do next, and ticks off what the garden shows as done."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QSizePolicy, QToolButton, QVBoxLayout

from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.theme.palette import letters
from planner.words import later, say


class Step(NamedTuple):
    """A step of the first plan, by its name, and where the manual tells more of it."""

    name: str
    place: str


STEPS = (Step("bed", "draw"), Step("crop", "plant"), Step("day", "ribbon"), Step("sheet", "sheets"))
#: What each step is called.
TITLES = {
    "bed": later("A bed"),
    "crop": later("A crop"),
    "day": later("The day"),
    "sheet": later("The sheet"),
}
#: What to do in each step.
WORDS = {
    "bed": later(
        "Press R and drag a bed on the sheet: its measures go with the pointer. Or Ctrl+B, and type its size."
    ),
    "crop": later(
        "Drag a crop from the list at the left onto the bed. Its plants show, with their number, before you let go. "
        "By keys: Ctrl+F, its name, Enter, arrows to the bed, Enter."
    ),
    "day": later("Drag the day on the year below the sheet: the sheet shows what stands there on that day."),
    "sheet": later(
        "Ctrl+Shift+P writes the bed's sheet, to take outside: rows, distances, days, and boxes to tick."
    ),
}
_DONE = later("That was all of it. From here on the garden leads. F1 tells of whatever is under your hand.")


class Guide(QFrame):
    """The strip; hidden until it is started, and left at any step.

    Signals
    -------
    more_wanted : str
        The manual is to be opened at a place.
    left
        It was left, or is done: the keys go back to the sheet.

    Attributes
    ----------
    done : dict
        Whether each step is done, by its name.
    """

    more_wanted = Signal(str)
    left = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.done = dict.fromkeys((step.name for step in STEPS), False)
        self.setAccessibleName(say("First plan"))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self._make_parts()
        document.garden_changed.connect(self._look)
        document.day_changed.connect(self._on_day)
        document.opened.connect(self.leave)
        self.hide()

    def _make_parts(self) -> None:
        ticks = FlowLayout(14)
        self.ticks = {step.name: QLabel() for step in STEPS}
        for label in self.ticks.values():
            ticks.addWidget(label)
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        self.words.setFont(letters(11))
        self.words.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.more = QPushButton(say("More…"))
        self.more.setAccessibleName(say("More about this step"))
        self.more.clicked.connect(lambda: self.more_wanted.emit(self.step.place if self.step else "start"))
        self.skip = QPushButton(say("Skip"))
        self.skip.setAccessibleName(say("Skip this step"))
        self.skip.clicked.connect(self._skip)
        self.shut = QToolButton()
        self.shut.setText("✕")
        self.shut.setAccessibleName(say("Leave the guide"))
        self.shut.setToolTip(say("Leave the guide; Help begins it again"))
        self.shut.clicked.connect(self.leave)
        head = QHBoxLayout()
        head.addLayout(ticks, 1)
        for button in (self.more, self.skip, self.shut):
            head.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 6, 12, 8)
        column.setSpacing(4)
        column.addLayout(head)
        column.addWidget(self.words)

    @property
    def step(self) -> Step | None:
        """The step to do next; None where all are done."""
        return next((step for step in STEPS if not self.done[step.name]), None)

    def start(self) -> None:
        """Begin with the first step that the garden does not show as done."""
        self.done = dict.fromkeys(self.done, False)
        self.show()
        self._look()
        self._show()

    def leave(self) -> None:
        """Hide the strip; the garden stays as it is."""
        if not self.isHidden():
            self.hide()
            self.left.emit()

    def sheet_made(self) -> None:
        """Sheets were written or printed."""
        self._tick("sheet", True)

    def _look(self) -> None:
        if self.isHidden():
            return
        garden = self.document.stable
        self._tick("bed", bool(garden.beds))
        self._tick("crop", bool(garden.plantings))

    def _on_day(self) -> None:
        # The day also follows the garden: it is the person's only once there is something to look at.
        self._tick("day", self.done["crop"])

    def _tick(self, name: str, done: bool) -> None:
        if done and not self.isHidden() and not self.done[name]:
            self.done[name] = True
            self._show()

    def _skip(self) -> None:
        if self.step is None:
            self.leave()
        else:
            self._tick(self.step.name, True)

    def _show(self) -> None:
        now = self.step
        for step in STEPS:
            sign = "✓" if self.done[step.name] else "▸" if step is now else "○"
            label = self.ticks[step.name]
            label.setText(say("{sign} {step}", sign=sign, step=say(TITLES[step.name])))
            label.setFont(letters(10, bold=step is now))
            label.setAccessibleDescription(say("done") if self.done[step.name] else say("still to do"))
        self.words.setText(say(WORDS[now.name]) if now is not None else say(_DONE))
        self.skip.setText(say("Skip") if now is not None else say("Close"))
        self.skip.setAccessibleName(say("Skip this step") if now is not None else say("Close the guide"))
