"""Questions to the person, in dialogs."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from planner.words import later, say

#: Suffix of garden files.
SUFFIX = ".bedwright"
#: Kinds of files to choose from.
GARDENS = later("Gardens (*.bedwright);;All files (*)")


class Prompts:
    """Questions to the person; tests put another in its place."""

    #: Whether a written sheet is opened in the system's viewer.
    may_show = True

    def open_path(self, parent: QWidget, folder: str, kinds: str = "", title: str = "") -> str:
        """Which file to open; empty for none."""
        return QFileDialog.getOpenFileName(
            parent, title or say("Open a garden"), folder, kinds or say(GARDENS)
        )[0]

    def notes_paths(self, parent: QWidget, folder: str) -> list[str]:
        """Which files of notes to take in; none for none."""
        kinds = say("Notes from the pocket page (*.json);;All files (*)")
        return QFileDialog.getOpenFileNames(parent, say("Take notes from outside"), folder, kinds)[0]

    def save_path(self, parent: QWidget, suggestion: str, kinds: str = "", title: str = "") -> str:
        """Where to save; empty for nowhere."""
        folder = str(Path(suggestion).parent)
        dialog = QFileDialog(parent, title or say("Save the garden"), folder, kinds or say(GARDENS))
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        # The dialog completes the name, so that it warns before that very file is replaced.
        dialog.setDefaultSuffix(Path(suggestion).suffix)
        dialog.selectFile(Path(suggestion).name)
        accepted = dialog.exec() == QFileDialog.DialogCode.Accepted
        chosen = dialog.selectedFiles()
        dialog.deleteLater()
        return chosen[0] if accepted and chosen else ""

    def folder(self, parent: QWidget, start: str, title: str) -> str:
        """A folder to write into; empty for none."""
        return QFileDialog.getExistingDirectory(parent, title, start)

    def keep_changes(self, parent: QWidget, name: str) -> str:
        """``save``, ``leave`` or ``stay`` before a changed garden is closed."""
        return _choose(
            parent,
            say("{name} has changes that are not saved.", name=name),
            say("Save them first?"),
            {"save": say("Save"), "leave": say("Leave without saving"), "stay": say("Stay")},
        )

    def recover(self, parent: QWidget, text: str, answers: Sequence[str]) -> str:
        """What to do with unsaved work that was found.

        Parameters
        ----------
        parent : QWidget
        text : str
            Of what garden, of when, and how it differs from what is saved.
        answers : sequence of str
            Some of ``take`` it, ``join`` it with what is saved, ``drop`` it, and decide ``later``.
        """
        labels = {
            "take": say("Take it up"),
            "join": say("Join it with the saved garden"),
            "drop": say("Throw it away"),
            "later": say("Decide later"),
        }
        return _choose(parent, text, say("What is to become of it?"), {key: labels[key] for key in answers})

    def changed_on_disk(self, parent: QWidget, text: str) -> str:
        """``join`` what another program wrote with the garden, take ``theirs``, keep ``both``, or ``stay``."""
        return _choose(
            parent,
            text,
            say("What is to become of the two?"),
            {
                "join": say("Join both"),
                "theirs": say("Take theirs"),
                "both": say("Save mine under another name"),
                "stay": say("Decide later"),
            },
        )

    def second_window(self, parent: QWidget, text: str) -> str:
        """Work on a ``copy`` of a garden that is open in another window, only ``look`` at it, or ``stay``."""
        return _choose(
            parent,
            text,
            say("Only one window can change a garden."),
            {"copy": say("Work on a copy"), "look": say("Only look at it"), "stay": say("Do not open it")},
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
        Labels of the buttons by answer: what is proposed first; last what leaves all as it is, which closing the
        box means too.
    """
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setTextFormat(Qt.TextFormat.PlainText)  # names in it may look like markup
    box.setText(text)
    box.setInformativeText(question)
    buttons = {key: box.addButton(label, _role(key, tuple(answers))) for key, label in answers.items()}
    first, *_, last = answers
    box.setDefaultButton(buttons[first])
    box.exec()
    clicked = box.clickedButton()
    box.deleteLater()
    return next((key for key, button in buttons.items() if button is clicked), last)


def _role(key: str, answers: Sequence[str]) -> QMessageBox.ButtonRole:
    """Role of an answer's button, by which each system puts it where its people look for it."""
    if key == answers[-1]:
        return QMessageBox.ButtonRole.RejectRole
    return QMessageBox.ButtonRole.AcceptRole if key == answers[0] else QMessageBox.ButtonRole.DestructiveRole
