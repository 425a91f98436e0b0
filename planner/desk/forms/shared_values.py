"""Fields about several things: they show what all have in common, or that they differ."""

from __future__ import annotations

from collections.abc import Sequence

from planner.desk.forms import fields
from planner.words import say


def show_typed(field: fields.TypedField, values: Sequence[object], usual: str = "") -> None:
    """Show a value that all have, or that they differ."""
    if len(set(values)) == 1:
        field.show_value(values[0], usual)
    else:
        field.show_value(None, say("several"))
