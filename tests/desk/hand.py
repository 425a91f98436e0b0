"""A hand that works the window with real events, in metres of the plan."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from PySide6.QtCore import QEvent, QMimeData, QPointF, Qt
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QKeySequence,
    QMouseEvent,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from planner.desk.forms.fields import TypedField
from planner.desk.main_window.prompts import Prompts
from planner.desk.main_window.window import Window
from planner.desk.model.crop_drag import CROP_MIME
from planner.desk.panels.crop_model import CROP_ROLE
from planner.garden import Garden, edits

#: Longest wait for what must happen: reached only where it never does, however busy the machine is. [ms]
LIMIT = 120_000

Place = tuple[float, float]
NONE = Qt.KeyboardModifier.NoModifier
SHIFT, CTRL, ALT = (
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.AltModifier,
)
LEFT = Qt.MouseButton.LeftButton
COPY = Qt.DropAction.CopyAction


class FakePrompts(Prompts):
    """Answers questions from ``answers``, and remembers the questions and the errors shown."""

    may_show = False

    def __init__(self) -> None:
        self.start_anew()

    def start_anew(self) -> None:
        """Give the usual answers again, and forget what was asked."""
        self.answers: dict[str, str] = {"open": "", "save": "", "leave": "leave", "recover": "later"}
        self.questions: list[str] = []
        self.errors: list[str] = []

    def open_path(self, parent: QWidget, folder: str, *_kinds: str) -> str:
        self.questions.append("open")
        return self.answers["open"]

    def notes_paths(self, parent: QWidget, folder: str) -> list[str]:
        self.questions.append("notes")
        return self.answers.get("notes", "").split()

    def save_path(self, parent: QWidget, suggestion: str, *_kinds: str) -> str:
        self.questions.append(f"save {suggestion}")
        return self.answers["save"]

    def folder(self, parent: QWidget, start: str, title: str) -> str:
        self.questions.append(f"folder {start}")
        return self.answers.get("folder", "")

    def keep_changes(self, parent: QWidget, name: str) -> str:
        self.questions.append(f"leave {name}")
        return self.answers["leave"]

    def recover(self, parent: QWidget, text: str, answers: Sequence[str]) -> str:
        self.questions.append(f"recover {text}")
        return self.answers["recover"] if self.answers["recover"] in answers else "later"

    def changed_on_disk(self, parent: QWidget, text: str) -> str:
        self.questions.append(f"changed {text}")
        return self.answers.get("changed", "stay")

    def second_window(self, parent: QWidget, text: str) -> str:
        self.questions.append(f"second {text}")
        return self.answers.get("second", "stay")

    def show_error(self, parent: QWidget, text: str) -> None:
        self.errors.append(text)


class Hand:
    """Presses, drags, types; and tells what the document holds afterwards."""

    def __init__(self, window: Window) -> None:
        self.window = window
        self.view, self.document = window.view, window.document
        self.said: list[str] = []
        self.view.said.connect(self.said.append)

    # -- what holds -------------------------------------------------------------------------

    @property
    def garden(self) -> Garden:
        return self.document.garden

    @property
    def steps(self) -> int:
        """Steps that can be undone."""
        return self.document.undo_stack.index()

    @property
    def step(self) -> str:
        """Name of the last step."""
        return self.document.undo_stack.undoText()

    @property
    def prompts(self) -> FakePrompts:
        return self.window.prompts

    def bed(self, name: str) -> Any:
        return next(bed for bed in self.garden.beds if bed.name == name)

    def selected(self) -> set[str]:
        return set(self.document.selection)

    # -- pointer ----------------------------------------------------------------------------

    def at(self, place: Place) -> QPointF:
        """A place of the plan, in the viewport; it must be seen."""
        point = self.view.to_view(place)
        assert self.view.viewport().rect().contains(point.toPoint()), f"{place} is not to be seen"
        return point

    def mouse(
        self,
        kind: QEvent.Type,
        point: QPointF,
        held: Qt.KeyboardModifier = NONE,
        button: Qt.MouseButton = LEFT,
    ) -> None:
        viewport = self.view.viewport()
        moving, letting_go = kind == QEvent.Type.MouseMove, kind == QEvent.Type.MouseButtonRelease
        event = QMouseEvent(
            kind,
            point,
            QPointF(viewport.mapToGlobal(point.toPoint())),
            Qt.MouseButton.NoButton if moving else button,
            Qt.MouseButton.NoButton if letting_go else button,
            held,
        )
        QApplication.sendEvent(viewport, event)

    def press(self, place: Place, held: Qt.KeyboardModifier = NONE) -> None:
        self.view.setFocus()
        self.mouse(QEvent.Type.MouseButtonPress, self.at(place), held)

    def move(self, place: Place, held: Qt.KeyboardModifier = NONE) -> None:
        self.mouse(QEvent.Type.MouseMove, self.at(place), held)

    def release(self, place: Place, held: Qt.KeyboardModifier = NONE) -> None:
        self.mouse(QEvent.Type.MouseButtonRelease, self.at(place), held)

    def click(self, place: Place, held: Qt.KeyboardModifier = NONE) -> None:
        self.press(place, held)
        self.release(place, held)

    def carry(self, start: Place, end: Place, held: Qt.KeyboardModifier = NONE, begin=None) -> None:
        """Press and move; the button stays down. ``begin`` are the keys held at the press."""
        self.press(start, held if begin is None else begin)
        for k in range(1, 6):
            f = k / 5
            self.move((start[0] + f * (end[0] - start[0]), start[1] + f * (end[1] - start[1])), held)

    def drag(self, start: Place, end: Place, held: Qt.KeyboardModifier = NONE, begin=None) -> None:
        self.carry(start, end, held, begin)
        self.release(end, held)

    # -- keys -------------------------------------------------------------------------------

    def key(self, key: Qt.Key, held: Qt.KeyboardModifier = NONE) -> None:
        """A key to what has the focus, through the shortcuts as from a keyboard."""
        target = QApplication.focusWidget() or self.view
        QTest.keyClick(target, key, held)

    def shortcut(self, keys: str) -> None:
        combination = QKeySequence(keys)[0]
        self.key(combination.key(), combination.keyboardModifiers())

    def do(self, name: str) -> None:
        """Trigger an action of the menus, which must be possible now."""
        action = self.window.action(name)
        assert action.isEnabled(), f"{name} is not possible"
        action.trigger()

    # -- drag and drop ----------------------------------------------------------------------

    def crop_data(self, crop: str, variety: str = "") -> QMimeData:
        """What the list gives to a drag."""
        model = self.window.docks.crops.model
        row = next(i for i, (c, v) in enumerate(model.rows) if (c.key, v) == (crop, variety))
        return model.mimeData([model.index(row)])

    def drop(
        self,
        crop: str,
        path: Sequence[Place],
        held: Qt.KeyboardModifier = NONE,
        *,
        let_go: bool = True,
        variety: str = "",
    ) -> bool:
        """Drag a crop over places and let it go over the last; returns whether it may land there."""
        viewport, data = self.view.viewport(), self.crop_data(crop, variety)
        assert data.hasFormat(CROP_MIME)
        enter = QDragEnterEvent(self.at(path[0]).toPoint(), COPY, data, LEFT, held)
        QApplication.sendEvent(viewport, enter)
        assert enter.isAccepted()
        may = False
        for place in path:
            over = QDragMoveEvent(self.at(place).toPoint(), COPY, data, LEFT, held)
            QApplication.sendEvent(viewport, over)
            may = over.isAccepted()
        if let_go:
            down = QDropEvent(self.at(path[-1]), COPY, data, LEFT, held)
            QApplication.sendEvent(viewport, down)
        return may

    def leave(self) -> None:
        QApplication.sendEvent(self.view.viewport(), QDragLeaveEvent())

    # -- forms ------------------------------------------------------------------------------

    def type(self, field: TypedField, text: str, *, end: Qt.Key = Qt.Key.Key_Return) -> None:
        """Replace a field's text and finish it."""
        self.ask_for(field)
        assert field.isVisible(), field.accessibleName()
        field.setFocus(Qt.FocusReason.TabFocusReason)
        field.selectAll()
        QTest.keyClick(field, Qt.Key.Key_Delete)
        for sign in text:
            QTest.keyClicks(field, sign)
        QTest.keyClick(field, end)

    def ask_for(self, field: QWidget) -> None:
        """Press "More" where a field of a planting is shown only on request."""
        details = self.window.docks.details
        form = details.__dict__.get("planting")
        if (
            not field.isVisible()
            and form is not None
            and form.isAncestorOf(field)
            and not form.more.isChecked()
        ):
            QTest.mouseClick(form.more, Qt.MouseButton.LeftButton)

    def choose(self, box: Any, value: object) -> None:
        """Choose by hand, with the keys."""
        self.ask_for(box)
        wanted = box._values.index(value)
        box.setFocus()
        box.showPopup()
        box.view().setCurrentIndex(box.model().index(wanted, 0))
        QTest.keyClick(box.view(), Qt.Key.Key_Return)

    def crops_shown(self) -> list[str]:
        proxy = self.window.docks.crops.list.model()
        return [proxy.index(i, 0).data(CROP_ROLE).key for i in range(proxy.rowCount())]

    def message(self) -> str:
        return self.window.status.message.text()


def stand(garden: Garden, bed: str, crop: str, **fields: Any) -> tuple[Garden, str]:
    """Add a planting in 2026."""
    return edits.add_planting(garden, bed, crop, 2026, **fields)


def near(a: Iterable[float], b: Iterable[float], tolerance: float = 1e-6) -> bool:
    return all(abs(x - y) <= tolerance for x, y in zip(a, b, strict=True))
