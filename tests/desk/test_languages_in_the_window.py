"""The window in other languages: all of it comes from the catalogue, has room in German, and keeps its keys."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator

import pytest
from hand import Hand
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QDockWidget,
    QLabel,
    QLineEdit,
    QMenu,
    QPushButton,
    QTabBar,
    QTableView,
    QTabWidget,
    QTreeView,
    QWidget,
)
from words.extract import TOP
from words.pseudo import pseudo_language, untranslated

from planner.crops import load_catalogue
from planner.garden import Garden
from planner.storage.files import load
from planner.words import say, use_language

SAMPLE = TOP / "sample_gardens" / "balcony_boxes.bedwright"
#: Words that are the same in every language: letters of plantings, the program, languages, papers, units of columns.
_SAME = {"a", "Bedwright", "English", "Deutsch", "A4", "Letter", "PDF", "kg", "g", "lb", "oz"}


@pytest.fixture
def german() -> Iterator[None]:
    use_language("de")
    yield
    use_language("en")


def shown_pages(hand: Hand) -> Iterator[QWidget]:
    """Bring every page to the front, one after the other."""
    pages = hand.window.pages
    for number in range(pages.count()):
        pages.setCurrentIndex(number)
        page = pages.widget(number)
        for inner in range(page.count() if isinstance(page, QTabWidget) else 1):
            if isinstance(page, QTabWidget):
                page.setCurrentIndex(inner)
            QApplication.processEvents()
            yield page.currentWidget() if isinstance(page, QTabWidget) else page


# Reasons of days are sentences too: each language works them out anew.
pytestmark = pytest.mark.fresh


def texts(root: QWidget) -> Iterator[str]:
    """All that is written, announced or told by a tip on a widget and those in it, but not what tables hold."""
    for widget in (root, *root.findChildren(QWidget)):
        if isinstance(widget, QAbstractButton) and isinstance(widget.parent(), QTabBar | QDockWidget):
            continue  # Qt's own, with words of its own
        yield from (widget.accessibleName(), widget.accessibleDescription(), widget.toolTip())
        if isinstance(widget, QLabel | QAbstractButton):
            yield widget.text()
        if isinstance(widget, QLineEdit):
            yield widget.placeholderText()
        if isinstance(widget, QComboBox):
            yield from (widget.itemText(number) for number in range(widget.count()))
        if isinstance(widget, QTabWidget):
            yield from (widget.tabText(number) for number in range(widget.count()))
        if isinstance(widget, QTableView | QTreeView) and not (
            isinstance(widget, QTreeView) and widget.isHeaderHidden()
        ):
            model = widget.model()
            for column in range(model.columnCount()):
                yield str(model.headerData(column, Qt.Orientation.Horizontal) or "")
    for action in root.findChildren(QAction):
        yield from (action.text(), action.toolTip())


def _strings(value: object) -> Iterator[str]:
    """All texts in the fields of a record, in those of its parts too."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for part in value.values():
            yield from _strings(part)
    elif isinstance(value, list | tuple):
        for part in value:
            yield from _strings(part)


class Names:
    """Names and citations, which no language changes."""

    def __init__(self, garden: Garden) -> None:
        catalogue = load_catalogue().in_english(garden.site.english)
        crops = catalogue.crops.values()
        names = {
            *_strings(garden.model_dump()),
            *(name for crop in crops for name in (crop.name, crop.latin, crop.family, *crop.also)),
            *(text for source in catalogue.sources.values() for text in _strings(source.model_dump())),
            *_SAME,
        }
        names |= {name[:1].upper() + name[1:] for name in names}
        self._all = {name for name in names if name}
        found = "|".join(re.escape(name) for name in sorted(self._all, key=len, reverse=True))
        self._pattern = re.compile(rf"(?<![A-Za-z])(?:{found})(?![A-Za-z])")

    def untranslated(self, text: str) -> str:
        """Words of a text that are neither from the catalogue nor names."""
        if text in self._all or not re.search(r"[A-Za-z]", text):
            return ""
        if "<" in text:
            text = html.unescape(re.sub(r"<[^>]+>", " ", text))
        return untranslated(self._pattern.sub(" ", re.sub(r"\(\*[^)]*\)", " ", text)), frozenset())


def test_all_words_of_the_window_are_from_the_catalogue(open_hand: Callable[..., Hand]) -> None:
    garden = load(SAMPLE)
    names = Names(garden)
    with pseudo_language():
        hand = open_hand(garden)
        for _ in shown_pages(hand):
            pass
        found = set(texts(hand.window))
        selections = [
            (garden.beds[0].id,),
            (garden.plantings[0].id,),
            tuple(one.id for one in garden.plantings[:2]),
            *((one.id,) for one in garden.structures[:1]),
        ]
        for selection in selections:
            hand.document.select(selection)
            QApplication.processEvents()
            found |= set(texts(hand.window.docks.right))
    raw = {text: words for text in found if (words := names.untranslated(text))}
    assert not raw
    assert len(found) > 900


# -- German -----------------------------------------------------------------------------------------


def too_narrow(page: QWidget) -> Iterator[str]:
    """What is shown on a page in less room than it needs."""
    for widget in page.findChildren(QWidget):
        if not widget.isVisible():
            continue
        if isinstance(widget, QPushButton) and widget.width() < widget.sizeHint().width():
            yield f"button {widget.text()}"
        if (
            isinstance(widget, QLabel)
            and not widget.wordWrap()
            and widget.width() < widget.sizeHint().width()
        ):
            yield f"label {widget.text()}"
        if isinstance(widget, QComboBox):
            needed = widget.fontMetrics().horizontalAdvance(widget.currentText())
            if widget.width() < needed + 24 and not widget.toolTip():
                yield f"choice {widget.currentText()}"
        if isinstance(widget, QTableView | QTreeView):
            head = widget.horizontalHeader() if isinstance(widget, QTableView) else widget.header()
            for column in range(head.count() - 1):  # the last takes what room is left
                if head.isVisible() and head.sectionSize(column) < head.sectionSizeHint(column):
                    words = head.model().headerData(column, Qt.Orientation.Horizontal)
                    yield f"head {words}: {head.sectionSize(column)} of {head.sectionSizeHint(column)} pixels"


def test_nothing_is_cut_off_in_german(open_hand: Callable[..., Hand], german: None) -> None:
    hand = open_hand(load(SAMPLE))
    window = hand.window
    found = [text for page in shown_pages(hand) for text in too_narrow(page)]
    for bar in window.findChildren(QTabBar):
        if bar.isVisible():
            found += [f"tab {bar.tabText(0)}"] if bar.sizeHint().width() > bar.width() else []
    assert not found
    assert window.pages.tabText(window.pages.indexOf(window.pages.crop)) == "Über diese Kultur"


def test_letters_of_a_menu_are_used_once_in_german(open_hand: Callable[..., Hand], german: None) -> None:
    for action in open_hand(Garden()).window.menuBar().actions():
        menu = action.menu()
        assert isinstance(menu, QMenu)
        entries = [one.text() for one in menu.actions()]
        letters = [text[text.index("&") + 1].casefold() for text in entries if "&" in text]
        assert len(letters) == len(set(letters)), entries


def test_a_language_is_chosen_in_the_menu_and_remembered(open_hand: Callable[..., Hand]) -> None:
    hand = open_hand(Garden())
    hand.do("language de")
    assert hand.window.settings.value("language") == "de"
    assert hand.message() == say("The window speaks it from the next start on")
    hand.do("language system")
    assert hand.window.settings.value("language") == ""
