"""What a screen reader finds of widgets that are drawn: their role, and the things drawn in them by name.

Qt tells of a widget that draws itself no role at all, and nothing of what is drawn in it.
"""

from __future__ import annotations

import weakref
from functools import cache
from typing import NamedTuple, Protocol, runtime_checkable

import shiboken6
from PySide6.QtCore import QObject, QPoint, QRect
from PySide6.QtGui import QAccessible, QAccessibleInterface
from PySide6.QtWidgets import QAccessibleWidget, QWidget
from typing_extensions import override

#: Attribute of a class of widgets that draw themselves: what a screen reader hears of it.
ROLE = "heard_as"
#: Things drawn in such a widget, by its role.
_PARTS = {
    QAccessible.Role.List: QAccessible.Role.ListItem,
    QAccessible.Role.Canvas: QAccessible.Role.Graphic,
}


class HeardPart(NamedTuple):
    """A thing that is drawn.

    Attributes
    ----------
    name : str
        What it is, in words.
    rect : QRect
        Where it is in its widget. [pixels]
    selected : bool
    """

    name: str
    rect: QRect
    selected: bool


@runtime_checkable
class HeardParts(Protocol):
    """A widget that draws things of which each is heard by itself."""

    def heard_count(self) -> int:
        """How many things are drawn."""

    def heard_part(self, number: int) -> HeardPart | None:
        """A thing by its number; None where it is gone."""


def _living(drawn_by: weakref.ref[QWidget]) -> QWidget | None:
    """A widget, unless it is gone."""
    widget = drawn_by()
    return widget if widget is not None and shiboken6.isValid(widget) else None


class _Drawing(QAccessibleWidget):
    """A widget that draws itself."""

    def __init__(self, widget: QWidget, role: QAccessible.Role) -> None:
        super().__init__(widget, role)
        self._drawn_by = weakref.ref(widget)


class _DrawingOfParts(_Drawing):
    """A widget whose drawn things are heard each by itself."""

    def __init__(self, widget: QWidget, role: QAccessible.Role) -> None:
        super().__init__(widget, role)
        self._parts: list[_Part] = []

    @override
    def childCount(self) -> int:
        drawing = _living(self._drawn_by)
        return drawing.heard_count() if isinstance(drawing, HeardParts) else 0

    @override
    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt takes None for none
        if not 0 <= index < self.childCount():
            return None
        # One for each number: Qt remembers it, and asks it what it is now.
        while len(self._parts) <= index:
            self._parts.append(_Part(self._drawn_by, len(self._parts), _PARTS[self.role()]))
        return self._parts[index]

    @override
    def indexOfChild(self, child: QAccessibleInterface) -> int:
        return child.number if isinstance(child, _Part) else -1

    @override
    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt takes None for none
        # What is drawn last lies above.
        for number in reversed(range(self.childCount())):
            part = self.child(number)
            if part is not None and part.rect().contains(x, y):
                return part
        return None


class _Part(QAccessibleInterface):
    """A thing that is drawn in a widget."""

    def __init__(self, drawn_by: weakref.ref[QWidget], number: int, role: QAccessible.Role) -> None:
        super().__init__()
        self._drawn_by, self.number, self._role = drawn_by, number, role

    def _now(self) -> HeardPart | None:
        drawing = _living(self._drawn_by)
        if not isinstance(drawing, HeardParts) or self.number >= drawing.heard_count():
            return None
        return drawing.heard_part(self.number)

    @override
    def isValid(self) -> bool:
        return self._now() is not None

    @override
    def object(self) -> QObject | None:  # type: ignore[override]  # Qt takes None for none
        return None

    @override
    def parent(self) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt takes None for none
        drawing = _living(self._drawn_by)
        return QAccessible.queryAccessibleInterface(drawing) if drawing is not None else None

    @override
    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt takes None for none
        return None

    @override
    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # Qt takes None for none
        return None

    @override
    def childCount(self) -> int:
        return 0

    @override
    def indexOfChild(self, child: QAccessibleInterface) -> int:
        return -1

    @override
    def rect(self) -> QRect:
        drawing, now = _living(self._drawn_by), self._now()
        if drawing is None or now is None:
            return QRect()
        return now.rect.translated(drawing.mapToGlobal(QPoint(0, 0)))

    @override
    def role(self) -> QAccessible.Role:
        return self._role

    @override
    def state(self) -> QAccessible.State:
        state, drawing, now = QAccessible.State(), _living(self._drawn_by), self._now()
        if drawing is None or now is None:
            state.invisible = True
            return state
        state.selectable = True
        state.selected = now.selected
        state.invisible = not drawing.isVisible()
        state.offscreen = not now.rect.intersects(drawing.rect())
        return state

    @override
    def text(self, kind: QAccessible.Text) -> str:
        now = self._now()
        return now.name if now is not None and kind == QAccessible.Text.Name else ""

    @override
    def setText(self, kind: QAccessible.Text, text: str) -> None:
        pass


#: Qt keeps addresses of all interfaces it has been given, for as long as the program runs: none may go before.
#: Only a screen reader that is at work asks for any.
_kept: list[_Drawing] = []


def _make(_class_name: str, thing: QObject) -> QAccessibleInterface | None:
    role = getattr(type(thing), ROLE, None)
    if role is None or not isinstance(thing, QWidget):
        return None
    made = (_DrawingOfParts if isinstance(thing, HeardParts) else _Drawing)(thing, role)
    _kept.append(made)
    return made


@cache
def tell_of_drawings() -> None:
    """Let screen readers find widgets that draw themselves; once in a program."""
    QAccessible.installFactory(_make)
