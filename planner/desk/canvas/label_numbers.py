"""Numbers on the sheet for what has no room for its name there: of a planting on its plot, or of a bed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.desk.canvas.labels import Label, LabelGroup, Numbered

#: What stands between the name of a bed and the number beside it.
BESIDE_NAME = "  ·  "


def with_numbers(groups: Sequence[LabelGroup]) -> tuple[list[LabelGroup], tuple[Numbered, ...]]:
    """Count the numbers through all beds, and write them.

    Parameters
    ----------
    groups : sequence of LabelGroup
        In the order of the numbers.

    Returns
    -------
    tuple of (list of LabelGroup, tuple of Numbered)
        The groups with their numbers written, and what the numbers stand for, in their order, with the beds that head some.
    """
    listed: list[Numbered] = []
    found, last = [], 0
    for group in groups:
        if not group.numbered:
            found.append(group)
            continue
        numbers: dict[str, int] = {}
        for one in group.numbered:
            if not one.heads:
                last += 1
                numbers[one.key] = last
            listed.append(one._replace(number=numbers.get(one.key, 0)))
        found.append(replace(group, labels=tuple(_with_number(one, numbers) for one in group.labels)))
    return found, tuple(listed)


def _with_number(label: Label, numbers: dict[str, int]) -> Label:
    """A label with the number of its planting or bed."""
    number = numbers.get(label.key, 0) if label.number else 0
    if not number:
        return label
    text = f"{label.text}{number}" if label.kind == "numbers" else str(number)
    return replace(label, text=text, number=number)
