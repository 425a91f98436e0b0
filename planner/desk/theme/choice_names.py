"""Names of choices for those who hear the window."""

from __future__ import annotations

from PySide6.QtWidgets import QComboBox


def name_choice(box: QComboBox, name: str) -> None:
    """Name a choice, also where its value is told in place of its name: as Qt does on X11 and Wayland."""
    box.setAccessibleName(name)
    box.setAccessibleDescription(name)
