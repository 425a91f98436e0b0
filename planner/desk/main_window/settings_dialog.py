"""All settings on one page, each with a sentence; what is changed holds at once."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QFrame,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.forms.fields import ChoiceField
from planner.desk.main_window.docks import room_on_screen
from planner.desk.model.preferences import CHOICES, SWITCHES, Preferences
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.words import later, say
from planner.words.languages import LANGUAGES

#: What each preference is called.
_TITLES = {
    "look": later("Look"),
    "language": later("Language"),
    "units": later("Units of new gardens"),
    "grid": later("Grid on the sheet"),
    "snap": later("Snap to grid and edges"),
    "zoom at pointer": later("The wheel zooms at the pointer"),
    "less motion": later("Little motion"),
}
#: What each does.
_SENTENCES = {
    "look": later(
        "High contrast has white and yellow on black, and an edge around everything that can be used."
    ),
    "language": later(
        "Window, sheets and lists are in this language from the next start. Names of your own stay as you wrote them."
    ),
    "units": later("A garden that is there already keeps its own, which its form changes."),
    "grid": later("Lines at whole steps of the garden's units. The key is G."),
    "snap": later("What is dragged stops at lines of the grid and at edges nearby. The key is N."),
    "zoom at pointer": later("Otherwise it zooms at the middle of the sheet."),
    "less motion": later(
        "The year plays by jumps of a week, menus and lists open at once, and the text cursor does not blink."
    ),
}
#: The values that can be chosen, but for the languages, which have names of their own.
_VALUES = {
    ("look", "system"): later("as the system"),
    ("look", "light"): later("light"),
    ("look", "dark"): later("dark"),
    ("look", "contrast"): later("high contrast"),
    ("language", ""): later("as the system"),
    ("units", "system"): later("as usual in this country"),
    ("units", "metric"): later("metres and centimetres"),
    ("units", "feet_inches"): later("feet and inches"),
}
#: Size at first. [pixels]
SIZE = QSize(520, 640)


class SettingsDialog(QDialog):
    """Shows the preferences; they can be changed here or by the menus meanwhile.

    Parameters
    ----------
    parent : QWidget
    preferences : Preferences
    reset_layout, forget_recent : callable
        What the buttons do that set no preference.
    """

    def __init__(
        self,
        parent: QWidget,
        preferences: Preferences,
        reset_layout: Callable[[], object],
        forget_recent: Callable[[], object],
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Settings"))
        self._preferences = preferences
        self.choices: dict[str, ChoiceField] = {}
        self.switches: dict[str, QCheckBox] = {}
        page = QWidget()
        self._column = QVBoxLayout(page)
        self._column.setContentsMargins(16, 12, 16, 12)
        self._column.setSpacing(4)
        for name in CHOICES:
            self._add_choice(name)
        for name in SWITCHES:
            self._add_switch(name)
        self.layout_button = self._add_button(
            say("Put window and panels back"),
            say(
                "Places and widths of the panels, as they are at first. They are remembered for each set of screens."
            ),
            reset_layout,
        )
        self.recent_button = self._add_button(
            say("Forget the gardens used last"),
            say("Empties the list in the File menu and on the first card. The files stay where they are."),
            forget_recent,
        )
        self._column.addStretch(1)
        self._scroll = scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(page)
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Close)
        self.reset_button = buttons.addButton(say("All as at &first"), QDialogButtonBox.ButtonRole.ResetRole)
        self.reset_button.clicked.connect(preferences.reset)
        close = buttons.button(QDialogButtonBox.StandardButton.Close)
        close.setIcon(QIcon())
        self.reset_button.setAutoDefault(False)  # Enter closes
        close.setDefault(True)
        buttons.rejected.connect(self.close)
        whole = QVBoxLayout(self)
        whole.addWidget(scroll, 1)
        whole.addWidget(buttons)
        preferences.changed.connect(self.follow)
        self.follow()
        for field in page.findChildren(QWidget):
            if field.focusPolicy() & Qt.FocusPolicy.TabFocus:
                field.installEventFilter(self)
        self.resize(SIZE.boundedTo(room_on_screen(self)))

    def _add_choice(self, name: str) -> None:
        field = ChoiceField(
            say(_TITLES[name]),
            [
                (value, LANGUAGES[value] if value in LANGUAGES else say(_VALUES[name, value]))
                for value in CHOICES[name]
            ],
        )
        field.chosen.connect(lambda value: self._preferences.choose(name, str(value)))
        label = QLabel(say(_TITLES[name]))
        label.setBuddy(field)
        self.choices[name] = field
        self._column.addWidget(label)
        self._column.addWidget(field, 0, Qt.AlignmentFlag.AlignLeft)
        self._add_sentence(field, say(_SENTENCES[name]))

    def _add_switch(self, name: str) -> None:
        box = QCheckBox(say(_TITLES[name]))
        box.toggled.connect(lambda on: self._preferences.switch(name, on))
        self.switches[name] = box
        self._column.addWidget(box)
        self._add_sentence(box, say(_SENTENCES[name]))

    def _add_button(self, title: str, sentence: str, run: Callable[[], object]) -> QPushButton:
        button = QPushButton(title)
        button.setAutoDefault(False)
        button.clicked.connect(lambda: run())
        self._column.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        self._add_sentence(button, sentence)
        return button

    def _add_sentence(self, field: QWidget, sentence: str) -> None:
        """Say below a field what it does, also to those who hear it."""
        line = QLabel(sentence)
        line.setWordWrap(True)
        line.setProperty("second", True)
        line.setContentsMargins(0, 0, 0, 8)
        field.setAccessibleDescription(sentence)
        self._column.addWidget(line)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Scroll to what the Tab key has reached."""
        if event.type() == QEvent.Type.FocusIn and isinstance(watched, QWidget):
            self._scroll.ensureWidgetVisible(watched)
        return super().eventFilter(watched, event)

    def follow(self) -> None:
        """Show what holds."""
        for name, field in self.choices.items():
            field.show_value(self._preferences.choice(name))
        for name, box in self.switches.items():
            box.setChecked(self._preferences.is_on(name))
