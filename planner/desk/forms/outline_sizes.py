"""The sizes of an outline as rows of a form: length and width, or a radius."""

from __future__ import annotations

from collections.abc import Callable

from planner.desk.forms.fields import length_field
from planner.desk.forms.form import Form
from planner.garden import Outline
from planner.words import say


class OutlineSizes:
    """Rows for length, width and radius; those are shown that the outline has.

    Parameters
    ----------
    form : Form
        Gets the rows.
    resize : callable
        Called with the name of the size and its new value. [m]
    """

    def __init__(self, form: Form, resize: Callable[[str, float], None]) -> None:
        self.length = length_field(say("Length"), lambda: form.units)
        self.width = length_field(say("Width"), lambda: form.units)
        self.radius = length_field(say("Radius"), lambda: form.units)
        self._rows = [
            (form.row(say("Length"), self.length), self.length, "length"),
            (form.row(say("Width"), self.width), self.width, "width"),
            (form.row(say("Radius"), self.radius), self.radius, "radius"),
        ]
        for _label, field, name in self._rows:
            field.typed.connect(lambda value, name=name: resize(name, value))

    def show(self, outline: Outline) -> None:
        """Show the sizes of an outline."""
        for label, field, name in self._rows:
            value = getattr(outline, name, None)
            label.setVisible(value is not None)
            field.setVisible(value is not None)
            field.show_value(value)
