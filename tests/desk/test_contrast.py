"""Words can be read: contrast of 4.5 to 1 at least, by success criterion 1.4.3 of WCAG 2.2; 7 to 1 (1.4.6) in the look for it.

What is disabled is left out, as the criterion does.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import fields

import pytest
from hand import Hand
from making import bed, garden
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QColor, QImage, QPalette
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QCalendarWidget,
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QListWidget,
    QMenu,
    QPlainTextEdit,
    QPushButton,
    QTableWidget,
    QTabWidget,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from planner.desk.theme.palette import CONTRAST, DARK, GROUNDS, LIGHT, Look, letters, palette
from planner.desk.theme.style_sheet import style_sheet

LEAST = 4.5
LOOKS = {"light": LIGHT, "dark": DARK, "contrast": CONTRAST}


def least(look: Look) -> float:
    """Least contrast of words in a look."""
    return 7.0 if look.strong else LEAST


ROLE, GROUP = QPalette.ColorRole, QPalette.ColorGroup
#: Roles of words in a palette, each with those of its grounds.
ROLES = [
    (ROLE.WindowText, ROLE.Window),
    (ROLE.Text, ROLE.Base),
    (ROLE.Text, ROLE.AlternateBase),
    (ROLE.PlaceholderText, ROLE.Base),
    (ROLE.ButtonText, ROLE.Button),
    (ROLE.ToolTipText, ROLE.ToolTipBase),
    (ROLE.HighlightedText, ROLE.Highlight),
    (ROLE.Link, ROLE.Base),
    (ROLE.Link, ROLE.Window),
    (ROLE.LinkVisited, ROLE.Base),
    (ROLE.BrightText, ROLE.Dark),
]
#: Parts of widgets that hold no words.
WORDLESS = ("::indicator", "QScrollBar", "::corner", "::separator", "::pane", "menu-indicator")


def luminance(colour: QColor) -> float:
    """Relative luminance, as WCAG 2.2 defines it."""

    def linear(value: float) -> float:
        return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(value) for value in (colour.redF(), colour.greenF(), colour.blueF()))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: QColor, other: QColor) -> float:
    """Contrast ratio, as WCAG 2.2 defines it: from 1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_published_ends() -> None:
    white, black = QColor("#ffffff"), QColor("#000000")
    assert contrast(white, black) == pytest.approx(21)
    assert contrast(white, white) == pytest.approx(1)
    assert contrast(QColor("#767676"), white) == pytest.approx(
        4.54, abs=0.01
    )  # the lightest grey that passes


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("words", GROUNDS)
def test_colours_of_words_on_their_grounds(look, words) -> None:
    colours = LOOKS[look]
    found = {ground: contrast(getattr(colours, words), _opaque(colours, ground)) for ground in GROUNDS[words]}
    assert {ground: ratio for ground, ratio in found.items() if ratio < least(colours)} == {}


def _opaque(look: Look, ground: str) -> QColor:
    """A ground's colour; what shines through it is the least favourable of the sheet's."""
    colour: QColor = getattr(look, ground)
    below, alpha = look.built, colour.alphaF()
    parts = [
        (alpha * a + (1 - alpha) * b) for a, b in zip(colour.getRgbF()[:3], below.getRgbF()[:3], strict=True)
    ]
    return QColor.fromRgbF(*parts)


def test_high_contrast_has_edges_and_marks_that_are_seen() -> None:
    """3 to 1 around what can be used, and of what is selected or warned of (WCAG 2.2, 1.4.11)."""
    grounds = (CONTRAST.panel, CONTRAST.field, CONTRAST.sheet, CONTRAST.soil)
    marks = (CONTRAST.edge, CONTRAST.accent, CONTRAST.warn, CONTRAST.glass)
    assert min(contrast(mark, ground) for mark in marks for ground in grounds) >= 3
    buttons = [body for selector, body in rules(CONTRAST) if selector == "QPushButton"]
    assert [body["border"] for body in buttons] == [f"1px solid {CONTRAST.edge.name()}"]


def test_every_colour_of_words_is_measured() -> None:
    names = {field.name for field in fields(Look)}
    assert set(GROUNDS) <= names
    assert {"ink", "panel_ink", "pencil", "accent", "on_accent", "warn"} == set(GROUNDS)


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("group", [GROUP.Active, GROUP.Inactive])
def test_roles_of_the_palette(look, group) -> None:
    colours = palette(LOOKS[look])
    found = {
        f"{words.name} on {ground.name}": contrast(colours.color(group, words), colours.color(group, ground))
        for words, ground in ROLES
    }
    assert {pair: ratio for pair, ratio in found.items() if ratio < least(LOOKS[look])} == {}


def rules(look: Look) -> Iterator[tuple[str, dict[str, str]]]:
    """Selectors of the style sheet with their properties."""
    for selector, body in re.findall(r"([^{}]+)\{([^{}]*)\}", style_sheet(look)):
        pairs = [part.split(":", 1) for part in body.split(";") if ":" in part]
        yield " ".join(selector.split()), {name.strip(): value.strip() for name, value in pairs}


@pytest.mark.parametrize("look", LOOKS)
def test_rules_of_the_style_sheet(look) -> None:
    colours, bad = LOOKS[look], []
    for selector, properties in rules(colours):
        if any(part in selector for part in WORDLESS):
            continue
        words = [QColor(properties["color"])] if "color" in properties else [colours.panel_ink]
        grounds = (
            [QColor(properties["background"])]
            if "background" in properties
            else [colours.panel, colours.field]
        )
        if "placeholder-text-color" in properties:
            words.append(QColor(properties["placeholder-text-color"]))
        bad += [(selector, contrast(w, g)) for w in words for g in grounds if contrast(w, g) < least(colours)]
        if "selection-background-color" in properties:
            chosen = contrast(
                QColor(properties["selection-color"]), QColor(properties["selection-background-color"])
            )
            bad += [(f"{selector}, selected", chosen)] if chosen < least(colours) else []
    assert bad == []
    assert any(":hover" in selector for selector, _ in rules(colours))


# -- as painted -------------------------------------------------------------------------------


def painted(image: QImage, place: QRect) -> float:
    """Contrast of the words painted in a place: of its commonest colour and the one farthest from it."""
    ratio = image.devicePixelRatio()
    seen: Counter[int] = Counter()
    for y in range(round(place.top() * ratio), round(place.bottom() * ratio)):
        for x in range(round(place.left() * ratio), round(place.right() * ratio)):
            if image.rect().contains(x, y):
                seen[image.pixel(x, y)] += 1
    ((ground, _),) = seen.most_common(1)
    return max(contrast(QColor(ground), QColor(colour)) for colour in seen)


def ground_of(image: QImage, place: QRect) -> str:
    """The commonest colour of a place."""
    seen = Counter(
        image.pixel(x, y)
        for y in range(place.top() + 1, place.bottom())
        for x in range(place.left() + 1, place.right())
        if image.rect().contains(x, y)
    )
    return QColor(seen.most_common(1)[0][0]).name()


# What is painted in the look of high contrast differs by its colours and edges alone, which are measured above.
@pytest.fixture(params=["light", "dark"])
def looked(request, open_hand, qapp) -> Iterator[Hand]:
    """A window in each look."""
    hand = open_hand(garden(bed("b1"), site={"latitude": 52.0}))
    hand.window.look.choose(request.param)
    qapp.processEvents()
    yield hand
    hand.window.look.choose("light")


def boxes(hand: Hand) -> list[QComboBox]:
    found = [
        box
        for box in hand.window.findChildren(QComboBox)
        if box.isVisible() and box.isEnabled() and box.count() > 1
    ]
    assert len(found) >= 3
    return found


def test_the_highlighted_entry_of_an_opened_choice_can_be_read(looked: Hand, qapp) -> None:
    accent = looked.window.look.now.accent.name()
    for box in boxes(looked):
        for row in (0, box.count() - 1):
            box.showPopup()
            qapp.processEvents()
            view = box.view()
            view.setCurrentIndex(box.model().index(row, box.modelColumn()))
            qapp.processEvents()
            image = view.viewport().grab().toImage()
            chosen = view.visualRect(view.currentIndex())
            other = view.visualRect(box.model().index(1 - min(row, 1), box.modelColumn()))
            assert ground_of(image, chosen) == accent, box.accessibleName()
            assert painted(image, chosen) >= LEAST, box.accessibleName()
            assert painted(image, other) >= LEAST, box.accessibleName()
            box.hidePopup()


def test_a_choice_has_one_edge_all_round(looked: Hand, qapp) -> None:
    """The arrow at its end has no frame of its own."""
    for box in boxes(looked):
        image = box.grab().toImage()
        middle, right, low = image.height() // 2, image.width() - 1, image.height() - 1
        assert image.pixel(right, middle) == image.pixel(0, middle), box.accessibleName()
        assert image.pixel(right - 9, low) == image.pixel(9, low), box.accessibleName()
        assert image.pixel(right - 9, low - 1) == image.pixel(9, low - 1), box.accessibleName()
        arrow = QRect(right - 18, 2, 16, low - 4)
        assert painted(image, arrow) >= 3, box.accessibleName()


def test_the_entry_under_the_pointer_can_be_read(looked: Hand, qapp) -> None:
    box = boxes(looked)[0]
    box.showPopup()
    qapp.processEvents()
    view = box.view()
    place = view.visualRect(box.model().index(1, box.modelColumn()))
    QTest.mouseMove(view.viewport(), place.center())
    qapp.processEvents()
    assert painted(view.viewport().grab().toImage(), place) >= LEAST
    box.hidePopup()


def test_the_entry_of_a_menu_can_be_read(looked: Hand, qapp) -> None:
    menu = QMenu(looked.window)
    chosen, other = menu.addAction("Chosen entry"), menu.addAction("Other entry")
    menu.popup(looked.window.mapToGlobal(QPoint(50, 50)))
    menu.setActiveAction(chosen)
    qapp.processEvents()
    image = menu.grab().toImage()
    for action in (chosen, other):
        assert painted(image, menu.actionGeometry(action).adjusted(2, 2, -2, -2)) >= LEAST
    menu.close()
    menu.deleteLater()


def test_the_calendar_of_a_day_can_be_read(looked: Hand, qapp) -> None:
    looked.window.pages.setCurrentWidget(looked.window.pages.year)
    field = looked.window.pages.year.done
    field.calendar.trigger()
    qapp.processEvents()
    calendar = field.findChild(QCalendarWidget)
    image, size = calendar.grab().toImage(), calendar.size()
    sundays = QRect(size.width() - 30, size.height() // 2, 28, size.height() // 2 - 4)
    assert painted(image, sundays) >= LEAST
    for menu in field.findChildren(QMenu):
        menu.close()


@pytest.fixture
def board(looked: Hand, qapp) -> Iterator[QWidget]:
    """Widgets of each kind in the window's style, in large letters, so that strokes have their full ink."""
    board = QWidget(looked.window, Qt.WindowType.Window)
    board.setFont(letters(20))
    board.resize(500, 700)
    column = QVBoxLayout(board)
    made: dict[str, QWidget] = {}

    def add(name: str, widget: QWidget) -> None:
        widget.setObjectName(name)
        widget.setFont(letters(20))
        made[name] = widget
        column.addWidget(widget)

    line, hint, text = QLineEdit("Words"), QLineEdit(), QPlainTextEdit("Words")
    hint.setPlaceholderText("Words")
    line.selectAll()
    text.selectAll()
    for name, widget in (("selected line", line), ("hint of a line", hint), ("selected text", text)):
        add(name, widget)
    second, warn = QLabel("Words"), QLabel("Words")
    second.setProperty("second", True)
    warn.setProperty("warn", True)
    for name, widget in (("second words", second), ("warning", warn), ("button", QPushButton("Words"))):
        add(name, widget)
    add("check box", QCheckBox("Words"))
    box = QComboBox()
    box.addItem("Words")
    add("choice", box)
    tabs = QTabWidget()
    tabs.addTab(QWidget(), "Words")
    tabs.addTab(QWidget(), "Other")
    add("tabs", tabs.tabBar())
    board.show()
    qapp.processEvents()
    yield board
    board.close()
    board.deleteLater()


def test_widgets_can_be_read_at_rest_and_under_the_pointer(board: QWidget, qapp) -> None:
    bad = []
    for widget in board.findChildren(QWidget, options=Qt.FindChildOption.FindDirectChildrenOnly):
        for state in ("at rest", "hovered"):
            if state == "hovered":
                QTest.mouseMove(widget, widget.rect().center())
                qapp.processEvents()
            image = widget.grab().toImage()
            place = widget.rect().adjusted(5, 5, -22, -5)
            if widget.objectName() == "check box":
                place.setLeft(26)
            ratio = painted(image, place)
            if ratio < LEAST:
                bad.append((widget.objectName(), state, round(ratio, 2)))
    assert bad == []


@pytest.mark.parametrize("kind", [QListWidget, QTreeWidget, QTableWidget])
@pytest.mark.parametrize("focused", [True, False])
def test_selected_lines_of_lists_can_be_read(looked: Hand, qapp, kind, focused) -> None:
    view = kind(looked.window)
    view.setWindowFlag(Qt.WindowType.Window)
    view.setFont(letters(16))
    if isinstance(view, QTreeWidget):
        view.addTopLevelItems([QTreeWidgetItem(["Words"]), QTreeWidgetItem(["Others"])])
        first = view.topLevelItem(0)
    elif isinstance(view, QTableWidget):
        from PySide6.QtWidgets import QTableWidgetItem

        view.setRowCount(2)
        view.setColumnCount(1)
        for row, words in enumerate(("Words", "Others")):
            view.setItem(row, 0, QTableWidgetItem(words))
        first = view.item(0, 0)
    else:
        view.addItems(["Words", "Others"])
        first = view.item(0)
    view.setCurrentItem(first)
    view.resize(300, 200)
    view.show()
    if focused:
        view.activateWindow()
        view.setFocus()
    else:
        looked.window.activateWindow()
    qapp.processEvents()
    image = view.viewport().grab().toImage()
    for row in (0, 1):
        place = view.visualRect(view.model().index(row, 0)).adjusted(2, 2, -2, -2)
        assert painted(image, place) >= LEAST
    view.close()
    view.deleteLater()
