"""A share of a planting: typed, or chosen from a few."""

from __future__ import annotations

from PySide6.QtCore import QEvent
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QLineEdit, QMenu
from typing_extensions import override

from planner.desk.forms.day_field import down_sign
from planner.desk.forms.fields import TypedField
from planner.importing.share_text import read_share
from planner.listings.share_words import SHARES, chosen_share_words
from planner.words import say


class ShareChoice(TypedField):
    """A line for a share, with a list of a few to choose from.

    Parameters
    ----------
    name : str
        Accessible name.
    """

    def __init__(self, name: str) -> None:
        super().__init__(name, read_share, chosen_share_words, may_be_empty=True)
        self.shares = QMenu(self)
        for share in SHARES:
            self.shares.addAction(chosen_share_words(share)).triggered.connect(
                lambda _on, one=share: self._choose(one)
            )
        self.shares.addSeparator()
        self.shares.addAction(say("not said")).triggered.connect(lambda _on: self._choose(None))
        self.open: QAction = self.addAction(
            down_sign(self.palette().windowText().color()), QLineEdit.ActionPosition.TrailingPosition
        )
        self.open.setText(say("Choose a share"))
        self.open.setToolTip(say("Choose a share, or type one like half, 30 % or 9 of 28"))
        self.open.triggered.connect(self._show_shares)

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.open.setIcon(down_sign(self.palette().windowText().color()))

    def _show_shares(self) -> None:
        self.shares.popup(self.mapToGlobal(self.rect().bottomLeft()))

    def _choose(self, share: float | None) -> None:
        self.accept()
        self.show_value(share)
        self.typed.emit(share)
