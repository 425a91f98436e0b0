"""The buttons at the foot of a dialog."""

from __future__ import annotations

from typing import Any

from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QDialogButtonBox


class DialogButtons(QDialogButtonBox):
    """Buttons in words alone: some systems put pictures before them, in colours of their own."""

    def __init__(self, *parts: Any) -> None:
        super().__init__(*parts)
        for button in self.buttons():
            button.setIcon(QIcon())
