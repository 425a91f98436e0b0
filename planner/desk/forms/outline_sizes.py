"""The sizes of an outline as rows of a form: length and width, a radius, or the sides of a polygon."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from planner.desk.forms.fields import ChoiceField, TypedField, length_field
from planner.desk.forms.form import Form
from planner.garden import Outline
from planner.garden.angles import parse_angle, show_angle
from planner.garden.units import show_length
from planner.ground.measured import inner_angles, side_lengths, with_inner_angle, with_side_length
from planner.words import say


class OutlineSizes:
    """Rows for length, width and radius, and for the sides of a polygon; those are shown that the outline has.

    Length is the longer side, whichever of the two the outline calls so; only an arch has its span as its length.

    Parameters
    ----------
    form : Form
        Gets the rows.
    resize : callable
        Called with changed fields of the outline. [m]
    """

    def __init__(self, form: Form, resize: Callable[..., None]) -> None:
        self._form, self._resize = form, resize
        self._outline: Outline | None = None
        self._is_swapped = False
        self._lengths: list[str] = []  # of the sides that are offered
        self.length = length_field(say("Length"), lambda: form.units)
        self.width = length_field(say("Width"), lambda: form.units)
        self.radius = length_field(say("Radius"), lambda: form.units)
        self._rows = [
            (form.row(say("Length"), self.length), self.length, "length"),
            (form.row(say("Width"), self.width), self.width, "width"),
            (form.row(say("Radius"), self.radius), self.radius, "radius"),
        ]
        for _label, field, name in self._rows:
            field.typed.connect(lambda value, name=name: resize(**{self._own_name(name): value}))
        self.side = ChoiceField(say("Side of the outline, in the order of its corners"), ())
        self._side_label = form.row(say("Side"), self.side)
        self.side.chosen.connect(lambda _side: self._show_side())
        self.side_length = length_field(say("Length of this side; all angles stay"), lambda: form.units)
        self.angle = TypedField(
            say("Angle at the beginning of this side; it stays as long as it is"), parse_angle, show_angle
        )
        self._measures_label = form.row(say("Its length, angle"), self.side_length, self.angle)
        self.side_length.typed.connect(lambda value: self._reshape(with_side_length, value))
        self.angle.typed.connect(lambda value: self._reshape(with_inner_angle, value))

    def _own_name(self, name: str) -> str:
        """The outline's own name of a size."""
        return {"length": "width", "width": "length"}.get(name, name) if self._is_swapped else name

    def _reshape(self, change: Callable[..., Any], value: float) -> None:
        outline, side = self._outline, self.side.value
        if change is with_side_length and value <= 0:
            self._form.refuse(say("A side must be longer than nothing"))
        elif outline is not None and outline.shape == "polygon" and isinstance(side, int):
            self._resize(points=change(outline.points, side, value))

    def show(self, outline: Outline, *, span_is_length: bool = False) -> None:
        """Show the sizes of an outline.

        Parameters
        ----------
        outline : Outline
        span_is_length : bool
            Whether its length is a span, and not the longer side.
        """
        self._outline = outline
        self._is_swapped = (
            outline.shape == "rectangle" and outline.width > outline.length and not span_is_length
        )
        for label, field, name in self._rows:
            value = getattr(outline, self._own_name(name), None)
            label.setVisible(value is not None)
            field.setVisible(value is not None)
            field.show_value(value)
        is_polygon = outline.shape == "polygon"
        for widget in (self.side, self._side_label, self.side_length, self.angle, self._measures_label):
            widget.setVisible(is_polygon)
        if outline.shape == "polygon":
            chosen = self.side.value
            lengths = [show_length(long, self._form.units) for long in side_lengths(outline.points)]
            if lengths != self._lengths:
                self._lengths = lengths
                words = [
                    say("{number}: {length}", number=n, length=each) for n, each in enumerate(lengths, 1)
                ]
                self.side.offer(list(enumerate(words)))
            self.side.show_value(chosen if isinstance(chosen, int) and chosen < len(lengths) else 0)
        self._show_side()

    def _show_side(self) -> None:
        """Show the measures of the side that is chosen."""
        outline, side = self._outline, self.side.value
        if outline is None or outline.shape != "polygon" or not isinstance(side, int):
            return
        self.side_length.show_value(side_lengths(outline.points)[side])
        self.angle.show_value(inner_angles(outline.points)[side])
