"""Which place of the manual tells of a part of the window.

Places have the names of the code: the class of a form or page, and the attribute by which it has a field.
``PlantingForm.variety`` is ``planting.variety``, the table of ``StockPage`` is ``page.stock``.  So every field has a place
as soon as there is one, and the tests ask that the manual has it.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QMenu,
    QMenuBar,
    QTabBar,
    QTabWidget,
    QToolButton,
    QWidget,
)

#: Ends of names of classes that say nothing about what they are of.
_ENDS = ("Form", "Rows", "View", "Page")
#: Fields that are parts of others, and hold nothing that has a place.
_FIELDS = "planner.desk.forms.fields"


def class_place(name: str) -> str:
    """Place of a class by its name.

    Examples
    --------
    >>> [class_place(name) for name in ("PlantingForm", "CoverRows", "StockPage", "WalkList")]
    ['planting', 'cover', 'page.stock', 'walk_list']
    """
    page = name.endswith("Page")
    name = next((name.removesuffix(end) for end in _ENDS if name.endswith(end)), name)
    snake = re.sub(r"(?<=[a-z])(?=[A-Z])", "_", name.lstrip("_")).lower()
    return f"page.{snake}" if page else snake


def action_place(name: str) -> str:
    """Place of a command of the menus by its name.

    Examples
    --------
    >>> [action_place(name) for name in ("turn year", "page 3", "tool structure:wall")]
    ['action.turn-year', 'action.page', 'action.structure']
    """
    first, _, rest = name.partition(" ")
    if name.startswith("tool structure:"):
        return "action.structure"
    if rest and first in ("page", "sample", "align", "look", "language", "colour", "recent"):
        return f"action.{first}"
    return f"action.{name.replace(' ', '-')}"


def places_of_entry(action: QAction) -> Iterator[str]:
    """Names of places that may tell of an entry of a menu, or of a menu; the nearest first.

    Parameters
    ----------
    action : QAction
    """
    name, menu = action.objectName(), action.menu()
    if name.startswith("menu."):
        yield name
    elif name:
        yield action_place(name)
    if isinstance(menu, QMenu):
        yield from (action_place(entry.objectName()) for entry in menu.actions() if entry.objectName())
    above = (one.menuAction() for one in action.associatedObjects() if isinstance(one, QMenu))
    for one in above:
        yield from places_of_entry(one)


def places_of(widget: QWidget | None) -> Iterator[str]:
    """Names of places that may tell of a part of the window, the nearest first.

    Parameters
    ----------
    widget : QWidget or None
    """
    while widget is not None:
        if isinstance(widget, QMenuBar) and (entry := widget.activeAction()) is not None:
            yield from places_of_entry(entry)
        if isinstance(widget, QToolButton) and (action := widget.defaultAction()) is not None:
            yield action_place(action.objectName())
        yield from _as_attribute(widget)
        if type(widget).__module__.startswith("planner") and type(widget).__module__ != _FIELDS:
            yield class_place(type(widget).__name__)
        if isinstance(widget, QTabBar) and isinstance(tabs := widget.parentWidget(), QTabWidget):
            widget = tabs.currentWidget()
        else:
            widget = widget.parentWidget()


def _as_attribute(widget: QWidget) -> Iterator[str]:
    """Places by the attributes under which parts of the window have a widget."""
    above = widget.parentWidget()
    while above is not None:
        if type(above).__module__.startswith("planner.desk"):
            yield from _attributes(above, widget, True)
        above = above.parentWidget()


def _attributes(holder: object, widget: QWidget, deeper: bool) -> Iterator[str]:
    own = class_place(type(holder).__name__)
    within: list[str] = []
    for name, value in vars(holder).items():
        if value is widget:
            yield f"{own}.{name.lstrip('_')}"
        elif isinstance(value, (tuple, list, dict)):
            parts: Collection[object] = value.values() if isinstance(value, dict) else value
            if any(part is widget for part in parts):
                within.append(f"{own}.{name.lstrip('_')}")
        elif (
            deeper
            and type(value).__module__.startswith("planner.desk")
            and not isinstance(value, QWidget)
            and hasattr(value, "__dict__")
        ):
            yield from _attributes(value, widget, False)
    yield from within


def is_typed_in(widget: QWidget | None) -> bool:
    """Whether a part of the window takes what is typed or chosen, so that it is what the person is at."""
    from PySide6.QtWidgets import (
        QAbstractItemView,
        QAbstractSlider,
        QAbstractSpinBox,
        QLineEdit,
        QPlainTextEdit,
    )

    kinds = (
        QLineEdit,
        QPlainTextEdit,
        QComboBox,
        QAbstractSpinBox,
        QAbstractItemView,
        QAbstractSlider,
        QAbstractButton,
    )
    return isinstance(widget, kinds)
