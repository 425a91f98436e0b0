"""The base of all forms: a column of labelled fields under a heading."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QApplication, QFormLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from planner.desk.forms.fields import ChoiceField, NotesField, TypedField, date_field
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.theme.palette import letters
from planner.garden.site import UnitSystem
from planner.garden.units import month_first
from planner.words.typed_days import date_as_typed

#: Between the labels and the fields of a form. [pixels]
SPACING = 8


def _reason_label() -> QLabel:
    """A line below a field for the reason why its text was refused; hidden at first."""
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setProperty("warn", True)
    _let_shrink(label)
    label.hide()
    return label


def _let_shrink(label: QLabel) -> None:
    """Let a label be narrower than its longest word, so that no name of one word widens its form."""
    policy = label.sizePolicy()
    policy.setHorizontalPolicy(QSizePolicy.Policy.Ignored)
    label.setSizePolicy(policy)


@dataclass(frozen=True, eq=False)
class FormPart:
    """A row of a form, a line of words, or a widget over the whole width.

    Attributes
    ----------
    section : QLabel or None
        Small heading that it is under.
    shown : tuple of QWidget
        All of it: the label and the fields, without the reason of a refusal.
    fields : tuple of QWidget
        None for words.
    """

    section: QLabel | None
    shown: tuple[QWidget, ...]
    fields: tuple[QWidget, ...]


class Form(QWidget):
    """A form about one thing of the document.

    A form shows the thing whose id is its ``key``, in :meth:`refresh`, and changes it with :meth:`edit`.

    Signals
    -------
    wrong : str
        What was typed cannot be read or is not possible; one line says why.
    righted
        What was wrong has been put right or taken back.
    """

    wrong = Signal(str)
    righted = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.key = ""
        self._typing: tuple[TypedField | NotesField, str] | None = None
        self.heading = QLabel()
        self.heading.setFont(letters(13, bold=True))
        self.heading.setWordWrap(True)
        self.heading.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.under = QLabel()
        for label in (self.heading, self.under):
            label.setTextFormat(Qt.TextFormat.PlainText)
            _let_shrink(label)
        self.under.setWordWrap(True)
        self.under.setProperty("second", True)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(10, 8, 10, 8)
        self._column.setSpacing(6)
        self._column.addWidget(self.heading)
        self._column.addWidget(self.under)
        self._rows: QFormLayout | None = None
        self._labels: list[QLabel] = []
        self._section: QLabel | None = None
        self.form_parts: list[FormPart] = []
        self._drafts: dict[str, dict[int, tuple[str, str]]] = {}
        document.opened.connect(self._drop_drafts)

    @property
    def units(self) -> UnitSystem:
        """The garden's unit system."""
        return self.document.garden.site.units

    def section(self, title: str) -> QLabel:
        """Begin a group of rows under a small heading, and return that; without a title it is not shown."""
        label = QLabel(title)
        if title:
            label.setWordWrap(True)
            label.setFont(letters(10, bold=True))
            label.setContentsMargins(0, 8, 0, 0)
            self._column.addWidget(label)
        self._section = label if title else None
        self._rows, self._labels = QFormLayout(), []
        self._rows.setContentsMargins(0, 0, 0, 0)
        self._rows.setHorizontalSpacing(0)
        self._rows.setVerticalSpacing(4)
        self._rows.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        self._rows.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        self._column.addLayout(self._rows)
        return label

    def row(self, words: str, *fields: QWidget) -> QWidget:
        """Add a row, and return its label; several fields lie side by side."""
        assert self._rows is not None, "a row needs a section"
        label = QLabel(words)
        label.setBuddy(fields[0])
        # Qt wraps a row where its own label and field are too wide, whatever the other labels and the spacing take.
        self._labels.append(label)
        widest = max(each.sizeHint().width() for each in self._labels)
        for each in self._labels:
            each.setMinimumWidth(widest + SPACING)
        if len(fields) == 1:
            self._rows.addRow(label, fields[0])
        else:
            line = FlowLayout(4, filling=True)
            for field in fields:
                line.addWidget(field)
            self._rows.addRow(label, line)
        self.form_parts.append(FormPart(self._section, (label, *fields), fields))
        reason = _reason_label()
        self._rows.addRow(reason)
        for field in fields:
            self._watch(field)
            if isinstance(field, TypedField):
                field.marked.connect(reason.setText)
                field.marked.connect(lambda why: reason.setVisible(bool(why)))
        return label

    def date_field(self, name: str, begins: Callable[[], dt.date] | None = None) -> TypedField:
        """A field for a day; one typed without a year is the first such day of the growing year shown.

        Parameters
        ----------
        name : str
            Accessible name.
        begins : callable, optional
            A day before which it is not: the growing year's first by default.
        """

        def read(text: str) -> dt.date:
            first = self.document.plan.span.first
            earliest = max(first, begins()) if begins is not None else first
            return date_as_typed(text, earliest, month_first=month_first(self.units))

        return date_field(name, read)

    def _watch(self, field: QWidget) -> None:
        # Connected before the slot that applies the value: a refusal then knows its field.
        if isinstance(field, TypedField):
            field.wrong.connect(self.wrong)
            field.righted.connect(self.righted)
            field.typed.connect(lambda _value: self._note(field, field.text()))
        elif isinstance(field, NotesField):
            field.typed.connect(lambda text: self._note(field, text))
        elif isinstance(field, ChoiceField):
            field.chosen.connect(lambda _value: self._note(None))

    def _note(self, field: TypedField | NotesField | None, text: str = "") -> None:
        self._typing = (field, text) if field is not None else None

    def words(self) -> QLabel:
        """Add a label for numbers that are worked out."""
        label = QLabel()
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setWordWrap(True)
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        _let_shrink(label)
        self._column.addWidget(label)
        self.form_parts.append(FormPart(self._section, (label,), ()))
        return label

    def widget(self, widget: QWidget) -> None:
        """Add any widget over the whole width."""
        self._watch(widget)
        self._column.addWidget(widget)
        self.form_parts.append(FormPart(self._section, (widget,), (widget,)))

    def finish(self) -> None:
        """End the form: what is left of its height stays empty."""
        self._column.addStretch(1)

    def edit(self, text: str, change: Callable[..., Any], **fields: Any) -> None:
        """Change the form's thing as one step; the form shows what it is afterwards.

        Parameters
        ----------
        text : str
            Name of the step in the Edit menu.
        change : callable
            The edit, called with the garden, the id of the thing, and the fields.
        **fields
        """
        key, typing = self.key, self._typing
        refusals: list[str] = []
        self._typing = None
        connection = self.document.edit_refused.connect(refusals.append)
        done = self.document.edit(text, lambda garden: change(garden, key, **fields))
        self.document.edit_refused.disconnect(connection)
        if not done:
            self.refresh()
        if refusals and typing is not None:
            typing[0].refuse(typing[1], refusals[0])

    def refuse(self, why: str) -> None:
        """Say why what was typed is not possible; its field is marked and shows it still."""
        typing, self._typing = self._typing, None
        self.wrong.emit(why)
        self.refresh()
        if typing is not None:
            typing[0].refuse(typing[1], why)

    def show_thing(self, key: str) -> None:
        """Show another thing by its id; what was typed about the last one and refused waits until that is shown."""
        if key != self.key:
            self._finish_typing()
            typed = list(enumerate(self.findChildren(TypedField)))
            self._drafts[self.key] = {
                number: field.draft for number, field in typed if field.draft is not None
            }
            waiting = self._drafts.pop(key, {})
            for number, field in typed:
                field.show_draft(waiting.get(number))
        self.key = key
        self.refresh()

    def _finish_typing(self) -> None:
        """What is half typed belongs to the thing shown so far: a selection may change while the focus stays."""
        field = QApplication.focusWidget()
        if field is None or not self.isAncestorOf(field):
            return
        if not all(key in self._ids() for key in self.key.split()):  # it is gone: its notes go with it
            if isinstance(field, NotesField):
                field.forget_typing()
            return
        field.clearFocus()

    def _ids(self) -> set[str]:
        return set(self.document.stable.ids())

    def _drop_drafts(self) -> None:
        """Another garden is open: nothing that was typed before belongs to it."""
        self._drafts.clear()
        for field in self.findChildren(TypedField):
            field.accept()

    def refresh(self) -> None:
        """Show the thing as it is now."""
        raise NotImplementedError
