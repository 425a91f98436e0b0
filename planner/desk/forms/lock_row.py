"""Whether beds and structures are locked, as a row of a form."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox

from planner.desk.forms.form import Form
from planner.desk.theme.plain_tips import plain_tip
from planner.garden import Bed, Structure
from planner.words import say


class LockRow:
    """A box to tick; where several differ it is half ticked.

    Parameters
    ----------
    form : Form
        Gets the row.
    lock : callable
        Called with whether they are to be locked.
    """

    def __init__(self, form: Form, lock: Callable[[bool], None]) -> None:
        self.box = QCheckBox(say("Locked on the sheet"))
        self.box.setToolTip(
            plain_tip(say("No drag, arrow key or command moves, turns, resizes or deletes what is locked"))
        )
        form.widget(self.box)
        self.note = form.words()
        self.note.setProperty("second", True)
        # What a click makes of a half-ticked box is decided here: it locks all.
        self.box.clicked.connect(lambda: lock(self.box.checkState() != Qt.CheckState.Unchecked))

    def show(self, things: Sequence[Bed | Structure]) -> None:
        """Show whether they are locked."""
        locked = {thing.locked for thing in things}
        self.box.setTristate(len(locked) > 1)
        state = Qt.CheckState.PartiallyChecked if len(locked) > 1 else Qt.CheckState.Unchecked
        self.box.setCheckState(Qt.CheckState.Checked if locked == {True} else state)
        self.note.setText(
            say("It stays as it is on the sheet; its measures can be typed here.") if locked == {True} else ""
        )
        self.note.setVisible(locked == {True})
