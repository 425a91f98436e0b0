"""Questions to the person, in dialogs."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

#: Suffix of garden files.
SUFFIX = ".bedwright"
#: Kinds of files to choose from.
GARDENS = f"Gardens (*{SUFFIX});;All files (*)"


class Prompts:
    """Questions to the person; tests put another in its place."""

    #: Whether a written sheet is opened in the system's viewer.
    may_show = True

    def open_path(self, parent: QWidget, folder: str) -> str:
        """Which file to open; empty for none."""
        return QFileDialog.getOpenFileName(parent, "Open a garden", folder, GARDENS)[0]

    def save_path(
        self, parent: QWidget, suggestion: str, kinds: str = GARDENS, title: str = "Save the garden"
    ) -> str:
        """Where to save; empty for nowhere."""
        dialog = QFileDialog(parent, title, str(Path(suggestion).parent), kinds)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        # The dialog completes the name, so that it warns before that very file is replaced.
        dialog.setDefaultSuffix(Path(suggestion).suffix)
        dialog.selectFile(Path(suggestion).name)
        accepted = dialog.exec() == QFileDialog.DialogCode.Accepted
        chosen = dialog.selectedFiles()
        dialog.deleteLater()
        return chosen[0] if accepted and chosen else ""

    def keep_changes(self, parent: QWidget, name: str) -> str:
        """``save``, ``leave`` or ``stay`` before a changed garden is closed."""
        return _choose(
            parent,
            f"{name} has changes that are not saved.",
            "Save them first?",
            {"save": "Save", "leave": "Leave without saving", "stay": "Stay"},
        )

    def recover(self, parent: QWidget, name: str, when: str) -> str:
        """``take`` unsaved work that was found, ``drop`` it, or decide ``later``."""
        return _choose(
            parent,
            f"There is unsaved work on {name}, of {when}.",
            "Take it up again?",
            {"take": "Take it up", "drop": "Throw it away", "later": "Decide later"},
        )

    def show_error(self, parent: QWidget, text: str) -> None:
        """Show a line about something that went wrong."""
        box = QMessageBox(QMessageBox.Icon.Warning, "Bedwright", "", QMessageBox.StandardButton.Ok, parent)
        box.setTextFormat(Qt.TextFormat.PlainText)  # names in it may look like markup
        box.setText(text)
        box.exec()
        box.deleteLater()


def _choose(parent: QWidget, text: str, question: str, answers: dict[str, str]) -> str:
    """Show a question; return the key of the answer.

    Parameters
    ----------
    parent : QWidget
    text : str
        What the question is about.
    question : str
    answers : dict
        Labels of the three buttons: what is proposed, what gives something up, and what leaves all as it
        is, which closing the box means too.
    """
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setTextFormat(Qt.TextFormat.PlainText)  # names in it may look like markup
    box.setText(text)
    box.setInformativeText(question)
    roles = (
        QMessageBox.ButtonRole.AcceptRole,
        QMessageBox.ButtonRole.DestructiveRole,
        QMessageBox.ButtonRole.RejectRole,
    )
    buttons = {
        key: box.addButton(label, role) for (key, label), role in zip(answers.items(), roles, strict=True)
    }
    first, *_, last = answers
    box.setDefaultButton(buttons[first])
    box.exec()
    clicked = box.clickedButton()
    box.deleteLater()
    return next((key for key, button in buttons.items() if button is clicked), last)
