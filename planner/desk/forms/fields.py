"""Fields of a form: each shows a value, and emits another one that was typed or chosen."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Collection, Sequence
from typing import Any

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QWheelEvent
from PySide6.QtWidgets import QComboBox, QLineEdit, QPlainTextEdit, QWidget
from typing_extensions import override

from planner.desk.theme.choice_names import name_choice
from planner.desk.theme.plain_tips import plain_tip, wrapped_tip
from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.garden.units import (
    parse_length,
    parse_temperature,
    show_length,
    show_mean_temperature,
    show_spacing,
)
from planner.words import full_day_words, say, short_number

#: No field is narrower, and none for a date. [pixels]
LEAST_WIDTH, LEAST_DATE_WIDTH = 76, 96
#: A choice is as wide as its longest entry, up to this; its list and its tool tip show all of it. [pixels]
CHOICE_WIDTH = 200


class TypedField(QLineEdit):
    """A line that is read when Enter is pressed or the focus leaves; Escape brings the old value back.

    Parameters
    ----------
    name : str
        Accessible name.
    read : callable
        The value of a text; raises a :class:`BedwrightError` or ValueError where it has none.
    show : callable
        The text of a value.
    may_be_empty : bool
        Whether the line may be emptied: its value is None then.

    Signals
    -------
    typed : object
        The value read; None where the line was emptied.
    wrong : str
        What was typed cannot be read; one line says why.
    righted
        It shows the old value again.
    marked : str
        It is marked as wrong, with the reason; empty where it is no longer.
    """

    typed = Signal(object)
    wrong = Signal(str)
    righted = Signal()
    marked = Signal(str)

    def __init__(
        self,
        name: str,
        read: Callable[[str], Any],
        show: Callable[[Any], str],
        *,
        may_be_empty: bool = False,
    ) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self._read, self._show, self._may_be_empty = read, show, may_be_empty
        self.setMinimumWidth(LEAST_WIDTH)
        self._shown = self._why = self._explanation = ""
        self.editingFinished.connect(self._finish)

    def show_value(self, value: object, usual: str = "") -> None:
        """Show a value (None: empty, with what is usual as a hint), unless another is being typed."""
        self.setPlaceholderText(usual)
        text = "" if value is None else self._show(value)
        self._shown = text
        if self.isModified():
            return
        if self.text() != text:
            self.setText(text)
            self.setCursorPosition(0)
        self._mark("")

    def explain(self, text: str) -> None:
        """Say what is meant, on hover and to a screen reader; the reason of a refusal comes before it there."""
        self._explanation = text
        self.setToolTip(wrapped_tip(text))
        self.setAccessibleDescription(self._why or text)

    @property
    def is_wrong(self) -> bool:
        """Whether it is marked, with a text that was refused."""
        return bool(self.property("wrong"))

    @property
    def why_wrong(self) -> str:
        """Why its text was refused; empty where it was not."""
        return self._why

    def refuse(self, text: str, why: str) -> None:
        """Mark a text that was read but refused, with the reason; it stays, to be corrected."""
        self.setText(text)
        self.setModified(True)
        self._mark(why)

    def accept(self) -> None:
        """Take the mark away; the next value that is shown takes the place of the text."""
        self.setModified(False)
        self._mark("")

    @property
    def draft(self) -> tuple[str, str] | None:
        """A text that no value was made of yet, and the reason where it was refused; None without one."""
        return (self.text(), self._why) if self.isModified() else None

    def show_draft(self, draft: tuple[str, str] | None) -> None:
        """Show a text that was typed before, as it was; None: nothing is being typed."""
        if draft is None:
            self.accept()
        else:
            self.refuse(*draft)

    def _mark(self, why: str) -> None:
        if why == self._why:
            return
        self._why = why
        self.setProperty("wrong", bool(why))
        self.setAccessibleDescription(why or self._explanation)
        self.style().unpolish(self)
        self.style().polish(self)
        self.marked.emit(why)

    def _finish(self) -> None:
        text = self.text().strip()
        if text == self._shown:
            self.restore()
            return
        if not text:
            if self._may_be_empty:
                self.setModified(False)
                self._shown = ""
                self.typed.emit(None)
            else:
                self.restore()
            return
        try:
            value = self._read(text)
        except BedwrightError as error:
            why = str(BedwrightError(error.what, error.where or self.accessibleName(), error.fix))
        except ValueError as error:
            why = str(BedwrightError(str(error), self.accessibleName()))
        else:
            self.setModified(False)
            self._shown = text
            self._mark("")  # before it is told: whoever listens may ask whether it is wrong
            self.typed.emit(value)
            return
        self.setModified(True)
        self._mark(why)
        self.wrong.emit(why)

    def restore(self) -> None:
        """Show the old value again."""
        self.setText(self._shown)
        self.accept()
        self.righted.emit()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.isModified():
            self.restore()
            return
        super().keyPressEvent(event)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()


def text_field(name: str, *, may_be_empty: bool = False) -> TypedField:
    """A line of words."""
    return TypedField(name, lambda text: text, str, may_be_empty=may_be_empty)


def length_field(
    name: str, units: Callable[[], UnitSystem], *, small: bool = False, may_be_empty: bool = False
) -> TypedField:
    """A length in the garden's units; ``small`` for spacings and depths."""
    return TypedField(
        name,
        lambda text: parse_length(text, units(), small=small),
        lambda value: (show_spacing if small else show_length)(float(value), units()),
        may_be_empty=may_be_empty,
    )


def _number(text: str) -> float:
    try:
        value = float(text.replace(",", ".").replace("−", "-").rstrip("°%").strip())
    except ValueError:
        value = math.nan
    if not math.isfinite(value) or "_" in text:
        raise BedwrightError(say("'{text}' is no number", text=text), fix=say("Type one like 1.5"))
    return value


def _whole(text: str) -> int:
    value = _number(text)
    if value != int(value):
        raise BedwrightError(say("'{text}' is no whole number", text=text), fix=say("Type one like 3"))
    return int(value)


def number_field(name: str, *, after: str = "", may_be_empty: bool = False) -> TypedField:
    """A number with a decimal point or comma."""
    return TypedField(name, _number, lambda value: f"{short_number(value)}{after}", may_be_empty=may_be_empty)


def degree_sign(units: UnitSystem) -> str:
    """The unit of temperatures."""
    return "°C" if units == "metric" else "°F"


def temperature_field(
    name: str, units: Callable[[], UnitSystem], *, may_be_empty: bool = False
) -> TypedField:
    """A temperature in the garden's units."""
    return TypedField(
        name,
        lambda text: parse_temperature(text, units()),
        lambda value: f"{show_mean_temperature(float(value), units())} {degree_sign(units())}",
        may_be_empty=may_be_empty,
    )


def whole_field(name: str, *, may_be_empty: bool = False) -> TypedField:
    """A whole number."""
    return TypedField(name, _whole, lambda value: f"{value}", may_be_empty=may_be_empty)


def _share(text: str) -> float:
    share = _number(text) / 100
    if not 0 <= share <= 1:
        raise BedwrightError(
            say("'{text}' is no share of a whole", text=text), fix=say("Type a number from 0 to 100")
        )
    return share


def share_field(name: str, show: Callable[[Any], str]) -> TypedField:
    """A share of a whole, typed in hundredths; its value is from 0 to 1."""
    return TypedField(name, _share, show)


def date_field(name: str, read: Callable[[str], dt.date]) -> TypedField:
    """A day, or none."""
    field = TypedField(name, read, full_day_words, may_be_empty=True)
    field.setMinimumWidth(LEAST_DATE_WIDTH)
    return field


class ChoiceField(QComboBox):
    """A choice among a few values, each shown as words.

    Parameters
    ----------
    name : str
        Accessible name.
    choices : sequence of (value, words)

    Signals
    -------
    chosen : object
        The value chosen by the person.
    """

    chosen = Signal(object)

    def __init__(self, name: str, choices: Sequence[tuple[object, str]]) -> None:
        super().__init__()
        name_choice(self, name)
        # AdjustToContents would take the hinted width by itself, past the layout.
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.model().dataChanged.connect(lambda *_: self.updateGeometry())
        self._explanation = ""
        self.currentTextChanged.connect(self._tell)
        self.offer(choices)
        self.activated.connect(lambda index: self.chosen.emit(self._values[index]))

    def explain(self, text: str) -> None:
        """Say what is chosen here, on hover and to a screen reader."""
        self._explanation = text
        self.setAccessibleDescription(text)
        self._tell(self.currentText())

    def _tell(self, chosen: str) -> None:
        if self._explanation:
            self.setToolTip(wrapped_tip("\n".join(line for line in (chosen, self._explanation) if line)))
        else:
            self.setToolTip(plain_tip(chosen))

    def offer(self, choices: Sequence[tuple[object, str]]) -> None:
        """Offer other choices."""
        self._values = [value for value, _ in choices]
        self.clear()
        self.addItems([words for _, words in choices])
        self.updateGeometry()

    @property
    def values(self) -> tuple[object, ...]:
        """The values that can be chosen."""
        return tuple(self._values)

    @property
    def value(self) -> object:
        """The value of the choice shown; None without choices."""
        return self._values[self.currentIndex()] if self.currentIndex() >= 0 else None

    def show_value(self, value: object) -> None:
        """Show the choice of a value."""
        if value in self._values:
            self.setCurrentIndex(self._values.index(value))

    def show_common(self, values: Collection[object]) -> None:
        """Show the choice that several have made, or that they differ."""
        if len(set(values)) == 1:
            self.show_value(next(iter(values)))
        else:
            self.setPlaceholderText(say("several"))
            self.setCurrentIndex(-1)

    @override
    def sizeHint(self) -> QSize:
        hint = super().sizeHint()  # of frame and arrow
        texts = [self.itemText(index) for index in range(self.count())]
        metrics = self.fontMetrics()
        widest = max((metrics.horizontalAdvance(text) for text in texts), default=0)
        return QSize(hint.width() + widest + 4, hint.height())

    @override
    def minimumSizeHint(self) -> QSize:
        return self.sizeHint().boundedTo(QSize(CHOICE_WIDTH, 1_000))

    @override
    def showPopup(self) -> None:
        view = self.view()
        frame = view.width() - view.viewport().width() if view.isVisible() else 2 * view.frameWidth() + 16
        view.setMinimumWidth(view.sizeHintForColumn(0) + frame)
        super().showPopup()

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()  # scrolling a form changes nothing


class NotesField(QPlainTextEdit):
    """A few lines of text, read when the focus leaves.

    Signals
    -------
    typed : object
        The text.
    """

    typed = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setPlaceholderText(name)
        self.setTabChangesFocus(True)
        self.setFixedHeight(64)
        self._shown = ""

    def explain(self, text: str) -> None:
        """Say what belongs here, on hover and to a screen reader."""
        self.setToolTip(wrapped_tip(text))
        self.setAccessibleDescription(text)

    def refuse(self, text: str, why: str) -> None:
        """Show a text that was refused, to be corrected, with the reason."""
        self.setPlainText(text)
        self.setToolTip(plain_tip(why))

    def forget_typing(self) -> None:
        """Show what was there before it was typed over."""
        self.setPlainText(self._shown)

    def show_value(self, text: str) -> None:
        """Show a text, unless another is being typed."""
        typing = self.hasFocus() and self.toPlainText() != self._shown
        if not typing and self.toPlainText() != text:
            self.setPlainText(text)
        self._shown = text

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if self.toPlainText() != self._shown:
            self._shown = self.toPlainText()
            self.typed.emit(self._shown)
