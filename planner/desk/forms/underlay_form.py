"""The picture under the plan as a form."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QCheckBox, QSlider

from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.garden import edits
from planner.garden.angles import parse_angle, show_angle
from planner.garden.underlay import LEAST_STRENGTH
from planner.words import percent, say


class UnderlayForm(Form):
    """Which file it is, its place, size and turn, how faded it is, and whether it is locked or hidden.

    Signals
    -------
    tool_wanted : str
        The picture is to be scaled or moved on the sheet.
    """

    tool_wanted = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.back = WrappedButton(say("Back to the garden"))
        self.widget(self.back)
        self.problem = self.words()
        self.problem.setProperty("warn", True)
        self.section(say("Place"))
        self.width_field = fields.length_field(say("Width of the picture"), lambda: self.units)
        self.row(say("Width"), self.width_field)
        self.across = fields.length_field(say("Middle, across"), lambda: self.units)
        self.up = fields.length_field(say("Middle, up"), lambda: self.units)
        self.row(say("Middle x, y"), self.across, self.up)
        self.turn = fields.TypedField(say("Turn of the picture"), parse_angle, show_angle)
        self.row(say("Turn"), self.turn)
        self.page = fields.whole_field(say("Page of the PDF"))
        self._page_label = self.row(say("Page"), self.page)
        self.scale_button = WrappedButton(say("Scale by two points…"))
        self.move_button = WrappedButton(say("Move with the pointer"))
        for button, tool in ((self.scale_button, "underlay-scale"), (self.move_button, "underlay-move")):
            button.clicked.connect(lambda _on, tool=tool: self.tool_wanted.emit(tool))
            self.widget(button)
        self.section(say("Look"))
        self.strength = QSlider(Qt.Orientation.Horizontal)
        self.strength.setRange(round(100 * LEAST_STRENGTH), 100)
        self.strength.setPageStep(10)
        self.strength.setAccessibleName(say("Strength of its colours"))
        self._strength_label = self.row(say("Strength"), self.strength)
        self.hidden = QCheckBox(say("Hidden"))
        self.locked = QCheckBox(say("Locked on the sheet"))
        for box in (self.hidden, self.locked):
            self.widget(box)
        self.remove_button = WrappedButton(say("Take it away"))
        self.widget(self.remove_button)
        self.finish()
        change = say("Change the underlay")
        self.width_field.typed.connect(lambda value: self._change(change, width=value))
        self.across.typed.connect(lambda value: self._change(change, center=(value, self._center[1])))
        self.up.typed.connect(lambda value: self._change(change, center=(self._center[0], value)))
        self.turn.typed.connect(lambda value: self._change(say("Turn the underlay"), turn=value % 360.0))
        self.page.typed.connect(lambda value: self._change(say("Another page of the underlay"), page=value))
        self.strength.valueChanged.connect(self._fade)
        self.hidden.clicked.connect(lambda on: self._change(say("Hide or show the underlay"), hidden=on))
        self.locked.clicked.connect(lambda on: self._change(say("Lock or unlock the underlay"), locked=on))
        self.remove_button.clicked.connect(self._remove)

    @property
    def _center(self) -> tuple[float, float]:
        return self.document.garden.underlay.center

    def _change(self, words: str, **changes: Any) -> None:
        self.edit(words, lambda garden, _key: edits.change_underlay(garden, **changes))

    def _fade(self, hundredths: int) -> None:
        strength = hundredths / 100
        if abs(strength - self.document.garden.underlay.strength) > 1e-9:
            self.document.edit(
                say("Fade the underlay"),
                lambda garden: edits.change_underlay(garden, strength=strength),
                merge="fade underlay",
            )

    def _remove(self) -> None:
        if self.document.edit(say("Take the underlay away"), edits.remove_underlay):
            self.back.click()

    def show_problem(self, words: str) -> None:
        """Say what is not as it should be with its file."""
        self.problem.setText(words)
        self.problem.setVisible(bool(words))

    def refresh(self) -> None:
        """Show the underlay as it is now."""
        underlay = self.document.garden.underlay
        self.heading.setText(say("Underlay"))
        self.under.setText(underlay.path or say("There is none; the Draw menu lays one under the plan."))
        self.width_field.show_value(underlay.width)
        self.across.show_value(underlay.center[0])
        self.up.show_value(underlay.center[1])
        self.turn.show_value(underlay.turn)
        self.page.show_value(underlay.page)
        for widget in (self.page, self._page_label):
            widget.setVisible(underlay.path.casefold().endswith(".pdf"))
        self.strength.setValue(round(100 * underlay.strength))
        self.strength.setToolTip(percent(underlay.strength))
        self.hidden.setChecked(underlay.hidden)
        self.locked.setChecked(underlay.locked)
        for widget in (self.scale_button, self.move_button):
            widget.setEnabled(underlay.is_there and not underlay.locked and not underlay.hidden)
        self.remove_button.setEnabled(underlay.is_there)
