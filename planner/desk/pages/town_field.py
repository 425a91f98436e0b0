"""The field for a place: a town by its name, a latitude, or a latitude with its longitude."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QPoint, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QListWidget, QListWidgetItem, QWidget
from typing_extensions import override

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.errors import BedwrightError
from planner.garden.coordinates import parse_latitude, parse_place, show_latitude, show_longitude
from planner.garden.gazetteer import Gazetteer, Town, load_gazetteer
from planner.words import say

#: So many towns are offered.
MOST_TOWNS = 6


@dataclass(frozen=True)
class Where:
    """A place as it was answered: degrees, time zone and country where they are known, and its words."""

    latitude: float
    longitude: float | None = None
    time_zone: str = ""
    country_code: str = ""
    words: str = ""


def town_words(town: Town) -> str:
    """A town in a list: ``München (Munich), Germany``."""
    name = say("{name} ({english})", name=town.also, english=town.name) if town.also else town.name
    if town.state:
        name = say("{town}, {state}", town=name, state=town.state)
    return say("{town}, {country}", town=name, country=town.country)


def _of_town(town: Town) -> Where:
    return Where(town.latitude, town.longitude, town.time_zone, town.country_code, town_words(town))


def _of_degrees(text: str) -> Where:
    """A place typed in degrees."""
    both = parse_place(text)
    if both is not None:
        words = say(
            "{latitude}, {longitude}", latitude=show_latitude(both[0]), longitude=show_longitude(both[1])
        )
        return Where(both[0], both[1], words=words)
    latitude = parse_latitude(text)
    return Where(latitude, words=show_latitude(latitude))


class TownField(QLineEdit):
    """A line that offers towns below it while one types; Enter and Tab take the one that is marked.

    Parameters
    ----------
    jobs : JobQueue
        Reads the list of towns when the first letter is typed.

    Signals
    -------
    answered : object
        A :class:`Where`; None while there is none.
    wrong : str
        Why there is none, as one line; empty where there is nothing to say.
    waiting
        The list of towns is being read.
    """

    answered = Signal(object)
    wrong = Signal(str)
    waiting = Signal()

    def __init__(self, jobs: JobQueue) -> None:
        super().__init__()
        self.setAccessibleName(say("Where the garden is"))
        self.setPlaceholderText(say("a town, 52 N, or 52.3, 9.7"))
        self.where: Where | None = None
        self._jobs = jobs
        self._gazetteer: Gazetteer | None = None
        self._waits = self._failed = False
        self.towns = QListWidget()
        self.towns.setAccessibleName(say("Towns"))
        self.towns.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.towns.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.towns.hide()
        self.towns.itemClicked.connect(lambda _item: self._take_marked())
        self.textEdited.connect(self._follow)

    def lay_list_into(self, parent: QWidget) -> None:
        """Let the list of towns float over the widgets of a parent."""
        self.towns.setParent(parent)
        self.towns.hide()

    @property
    def is_wrong(self) -> bool:
        """Whether something is typed that is no place, or not yet: the list of towns may still be read."""
        return bool(self.text().strip()) and self.where is None

    # -- typing -----------------------------------------------------------------------------

    def _follow(self, text: str) -> None:
        text = text.strip()
        self.towns.hide()
        self._answer(None)
        if not self._waits:
            self.wrong.emit("")
        if not text:
            return
        try:
            self._answer(_of_degrees(text))
        except BedwrightError:
            if any(sign.isalpha() for sign in text):
                self._look_up(text)

    def _look_up(self, text: str) -> None:
        if self._gazetteer is None:
            if not self._waits and not self._failed:
                self._waits = True
                self.waiting.emit()
                self._jobs.start(_read_towns, self._take_gazetteer, "towns")
            return
        self.towns.clear()
        for town in self._gazetteer.search(text, MOST_TOWNS):
            item = QListWidgetItem(town_words(town))
            item.setData(Qt.ItemDataRole.UserRole, _of_town(town))
            self.towns.addItem(item)
        if self.towns.count():
            self.towns.setCurrentRow(0)
            self._answer(self._marked())
            if self.hasFocus():
                self._show_list()

    def _take_gazetteer(self, found: Gazetteer | str | None) -> None:
        self._waits = False
        if isinstance(found, str):
            self._failed = True
            self.wrong.emit(found)
            return
        self._gazetteer = found
        self.wrong.emit("")
        text = self.text().strip()
        if found is not None and text and self.where is None:
            self._look_up(text)
            if not self.hasFocus():
                self._finish()

    def _answer(self, where: Where | None) -> None:
        if where != self.where:
            self.where = where
            self.setAccessibleDescription(where.words if where is not None else "")
            self.answered.emit(where)

    def _marked(self) -> Where | None:
        item = self.towns.currentItem()
        where: Where | None = item.data(Qt.ItemDataRole.UserRole) if item is not None else None
        return where

    def _take_marked(self) -> None:
        """Write out the town that is marked."""
        self._answer(self._marked())
        self._finish()

    def _finish(self) -> None:
        """Write out what was understood, or say that nothing was."""
        self.towns.hide()
        text = self.text().strip()
        if self.where is not None:
            if any(sign.isalpha() for sign in text) and self.where.country_code:
                self.setText(self.where.words)
        elif text and not self._waits and not self._failed:
            try:
                _of_degrees(text)
            except BedwrightError as error:
                digits = any(sign.isdigit() for sign in text)
                self.wrong.emit(str(error) if digits else self._not_found(text))

    @staticmethod
    def _not_found(text: str) -> str:
        return say(
            "No town of more than 15,000 people begins with “{text}”. Type the next larger one, or a latitude, as 52 N.",
            text=text,
        )

    # -- the list ---------------------------------------------------------------------------

    def _show_list(self) -> None:
        parent = self.towns.parentWidget()
        if parent is None:
            return
        high = self.towns.sizeHintForRow(0) * self.towns.count() + 2 * self.towns.frameWidth() + 2
        self.towns.setGeometry(
            self.mapTo(parent, QPoint(0, self.height())).x(),
            self.mapTo(parent, QPoint(0, self.height())).y(),
            self.width(),
            high,
        )
        self.towns.show()
        self.towns.raise_()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if self.towns.isVisible():
            step = {Qt.Key.Key_Down: 1, Qt.Key.Key_Up: -1}.get(Qt.Key(event.key()))
            if step is not None:
                row = min(max(self.towns.currentRow() + step, 0), self.towns.count() - 1)
                self.towns.setCurrentRow(row)
                self._answer(self._marked())
                return
            if event.key() == Qt.Key.Key_Escape:
                self.towns.hide()
                return
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self._take_marked()
                return
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._finish()
        super().keyPressEvent(event)

    @override
    def event(self, event: QEvent) -> bool:
        # Escape closes the list, though a menu or the page wants it too.
        closes = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape and self.towns.isVisible()
        if closes and event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        return super().event(event)

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self._finish()

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()


def _read_towns(cancelled: Cancelled) -> Iterator[Gazetteer | str | None]:
    try:
        yield load_gazetteer(cancelled)
    except BedwrightError as error:
        yield str(error)


#: What a town's people measure in where they do not measure in metres (ISO 3166).
FEET_COUNTRIES = frozenset({"US", "PR", "GU", "VI", "AS", "MP", "LR"})
