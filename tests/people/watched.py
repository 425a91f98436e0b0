"""The real program in a process of its own, which tells what is to be seen on it and where; it is worked from outside."""

from __future__ import annotations

import json
import os
import sys
from typing import Any

from narrow import needed_width
from PySide6.QtCore import QPoint, QPointF, QRect, QSocketNotifier
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QListView,
    QMenu,
    QMenuBar,
    QTabBar,
    QTreeView,
    QWidget,
)

from planner.cli import main
from planner.desk.app import application
from planner.desk.canvas.camera import Camera

Seen = dict[str, Any]
#: So many rows of a list are told.
MOST = 60


def _words(widget: QWidget) -> str:
    if isinstance(widget, (QLabel, QLineEdit, QAbstractButton)):
        return widget.text()
    if isinstance(widget, QComboBox):
        return widget.currentText()
    return widget.title() if isinstance(widget, QGroupBox) else ""


def _box(widget: QWidget, part: QRect) -> list[int]:
    """A part of a widget on the screen, in pixels: left, top, width, height."""
    corner, ratio = widget.mapToGlobal(part.topLeft()), widget.devicePixelRatio()
    return [round(v * ratio) for v in (corner.x(), corner.y(), part.width(), part.height())]


def _parts(widget: QWidget) -> list[tuple[str, str, QRect]]:
    """Kind, text and place of what a widget shows that is no widget itself."""
    if isinstance(widget, QTabBar):
        return [("tab", widget.tabText(n), widget.tabRect(n)) for n in range(widget.count())]
    if isinstance(widget, (QMenu, QMenuBar)):
        return [("entry", a.text(), widget.actionGeometry(a)) for a in widget.actions() if a.isVisible()]
    if isinstance(widget, QAbstractItemView) and widget.model() is not None:
        return _rows(widget)
    return []


def _rows(view: QAbstractItemView) -> list[tuple[str, str, QRect]]:
    model, found, area = view.model(), [], view.viewport().rect()
    index = view.indexAt(QPoint(4, 4))
    if not index.isValid():
        index = model.index(0, 0)
    for _ in range(MOST):
        if not index.isValid():
            break
        columns = 1 if isinstance(view, QListView) else model.columnCount(index.parent())
        for column in range(min(columns, 12)):
            cell = index.siblingAtColumn(column)
            seen = view.visualRect(cell).intersected(area)
            if not seen.isEmpty():
                corner = view.viewport().mapTo(view, seen.topLeft())
                found.append(("row", str(cell.data() or ""), QRect(corner, seen.size())))
        index = view.indexBelow(index) if isinstance(view, QTreeView) else index.siblingAtRow(index.row() + 1)
    return found


def _widget(widget: QWidget, shown: QRect) -> list[Seen]:
    text = _words(widget)
    focus = QApplication.focusWidget()
    name = widget.accessibleName() or text.replace("&", "")
    whole = shown.width() == widget.width()
    wanted = needed_width(widget)
    found: Seen = {
        "kind": type(widget).__name__,
        "is": [cls.__name__ for cls in type(widget).__mro__ if cls.__name__.startswith("Q")],
        "name": name,
        "text": text,
        "box": _box(widget, shown),
        "enabled": widget.isEnabled(),
        "checked": isinstance(widget, QAbstractButton) and widget.isChecked(),
        "focus": widget is focus,
        "cut": wanted - widget.width() if whole and wanted > widget.width() else 0,
    }
    parts: list[Seen] = [
        {"kind": kind, "is": [], "name": words.replace("&", ""), "text": words, "box": _box(widget, part),
         "enabled": True, "checked": False, "focus": False, "cut": 0}
        for kind, words, part in _parts(widget)
    ]  # fmt: skip
    return [found, *parts]


def seen(question: dict[str, Any]) -> dict[str, Any]:
    """What is to be seen of the window in front: its title, its widgets, and where places of the plan are."""
    front = QApplication.activePopupWidget() or QApplication.activeModalWidget()
    tops = [front] if front is not None else [w for w in QApplication.topLevelWidgets() if w.isVisible()]
    widgets: list[Seen] = []
    for top in tops:
        for widget in (top, *top.findChildren(QWidget)):
            if widget.isVisible() and not (shown := widget.visibleRegion().boundingRect()).isEmpty():
                widgets += _widget(widget, shown)
    answer: dict[str, Any] = {
        "title": tops[0].windowTitle() if tops else "",
        "modal": QApplication.activeModalWidget() is not None,
        "widgets": widgets,
    }
    cameras = [w for w in QApplication.allWidgets() if isinstance(w, Camera) and w.isVisible()]
    if "place" in question and cameras:
        point: QPointF = cameras[0].to_view(tuple(question["place"]))
        port = cameras[0].viewport()
        answer["place"] = _box(port, QRect(point.toPoint(), port.size()))[:2]
    return answer


def run() -> int:
    asked, told = int(sys.argv[1]), int(sys.argv[2])
    application()
    lines, answers = os.fdopen(asked), os.fdopen(told, "w")
    notifier = QSocketNotifier(asked, QSocketNotifier.Type.Read)

    def answer() -> None:
        if line := lines.readline():
            try:
                print(json.dumps(seen(json.loads(line))), file=answers, flush=True)
            except Exception:
                answers.close()  # whoever asks is not left waiting
                raise
        else:
            notifier.setEnabled(False)

    notifier.activated.connect(answer)
    return main(["open", *sys.argv[3:]])


if __name__ == "__main__":
    os._exit(run())
