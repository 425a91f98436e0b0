"""Measures whether what forms and pages hold lies within what is seen of them."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QToolButton,
    QWidget,
)

from planner.desk.forms.fields import CHOICE_WIDTH, TypedField
from planner.desk.main_window.window import Window


def show_every_form(window: Window) -> Iterator[str]:
    """Show each form of the details in turn; its name."""
    document, details = window.document, window.docks.details
    window.docks.show_details()
    for bed in (document.plan.beds[0], next(b for b in document.plan.beds if b.kind != "open")):
        document.select([bed.id])
        yield f"bed {bed.kind}"
    plantings = document.plan.plantings
    for planting in (
        next(p for p in plantings if p.support is not None),
        next(p for p in plantings if p.covers),
        next(p for p in plantings if p.arrangement.kind == "scatter"),
    ):
        document.select([planting.id])
        yield f"planting {planting.crop}"
    for structure in {s.kind: s for s in document.garden.structures}.values():
        document.select([structure.id])
        yield f"structure {structure.kind}"
    document.select([bed.id for bed in document.plan.beds[:3]])
    yield "several beds"
    document.select([planting.id for planting in plantings[:3]])
    yield "several plantings"
    document.select([])
    yield "garden"
    for field in details.garden.findChildren(TypedField):
        if not field.isHidden():
            field.refuse(
                "x", "Latitude: 'x' is no latitude. Type one like 52.2, 52 N or 52 degrees 12 minutes north"
            )
    yield "garden with refused texts"
    for field in details.garden.findChildren(TypedField):
        field.restore()
    details.show_climate(True)
    yield "climate"
    details.show_climate(False)


def cut(window: Window, name: str) -> list[str]:
    """What of the form shown is cut: wider than it is shown, or beyond the edge of the details."""
    for _ in range(3):  # wrapped words find their height in rounds
        QApplication.processEvents()
    details = window.docks.details
    form = details.stack.currentWidget()
    faults = _cut_in(form, details.viewport().width(), name)
    if details.horizontalScrollBar().maximum() > 0:
        faults.append(f"{name}: scrolls sideways")
    return faults


def pages_cut(window: Window) -> list[str]:
    """What of the pages but the sheet is cut, outside areas that scroll."""
    faults = []
    for number in range(1, window.pages.count()):
        window.pages.setCurrentIndex(number)
        QApplication.processEvents()
        page = window.pages.widget(number)
        faults += _cut_in(page, page.width(), window.pages.tabText(number))
    window.pages.setCurrentIndex(0)
    return faults


def _cut_in(whole: QWidget, room: int, name: str) -> list[str]:
    faults = []
    for widget in whole.findChildren(QWidget):
        if not widget.isVisibleTo(whole) or _scrolls(widget, whole):
            continue
        right = widget.mapTo(whole, QPoint(widget.width(), 0)).x()
        need = needed_width(widget)
        words = f"{name}: {type(widget).__name__} '{widget.accessibleName() or _text(widget)}'"
        if right > room + 1:
            faults.append(f"{words} ends at {right} of {room}")
        if need > widget.width():
            faults.append(f"{words} needs {need} and has {widget.width()}")
    return faults


def _scrolls(widget: QWidget, whole: QWidget) -> bool:
    """Whether a widget lies in an area that scrolls sideways."""
    parent = widget.parentWidget()
    while parent is not None and parent is not whole:
        if (
            isinstance(parent, QAbstractScrollArea)
            and parent.horizontalScrollBarPolicy() != Qt.ScrollBarPolicy.ScrollBarAlwaysOff
        ):
            return True
        parent = parent.parentWidget()
    return False


def _text(widget: QWidget) -> str:
    return widget.text() if isinstance(widget, (QLabel, QAbstractButton)) else ""


def needed_width(widget: QWidget) -> int:
    """Width that a widget needs for its text or choice; of wrapped words that of none."""
    if isinstance(widget, QLabel):
        return 0 if widget.wordWrap() else widget.sizeHint().width()
    if isinstance(widget, QComboBox):
        return min(widget.sizeHint().width(), CHOICE_WIDTH)
    if isinstance(widget, QLineEdit):
        text = widget.text() or widget.placeholderText()
        editing = widget.parentWidget() is not None and isinstance(widget.parentWidget(), QComboBox)
        long = widget.accessibleName().startswith(("Name", "Variety", "Tended")) or editing
        return 0 if long else widget.fontMetrics().horizontalAdvance(text) + 12
    if isinstance(widget, QToolButton) and widget.toolButtonStyle() == Qt.ToolButtonStyle.ToolButtonIconOnly:
        return 0
    if isinstance(widget, QAbstractButton) and widget.text():
        return max(widget.fontMetrics().horizontalAdvance(line) for line in widget.text().split("\n")) + 8
    return 0
