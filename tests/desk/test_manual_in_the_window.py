"""F1, the manual in its dock, why a finding is one, the pictures of the manual, and what is new."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cached_property
from pathlib import Path

import pytest
from hand import LIMIT, Hand
from making import bed, garden, planting, rectangle
from PySide6.QtCore import QPoint, QSettings, Qt, QUrl
from PySide6.QtGui import QImage, QShortcut
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractSlider,
    QAbstractSpinBox,
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QScrollBar,
    QTableView,
    QTabWidget,
    QTextBrowser,
    QToolButton,
    QWidget,
)

from planner.desk import manual_pictures
from planner.desk.main_window.help_commands import latest_news
from planner.desk.main_window.help_places import action_place, class_place, places_of, places_of_entry
from planner.desk.main_window.menus import context_menu
from planner.desk.main_window.window import Window
from planner.desk.pages.manual_view import ManualView
from planner.garden import Garden
from planner.manual.book import CHAPTERS, Book, chapter_text, read_book
from planner.manual.html import pictures_of
from planner.manual.marks import marks_in
from planner.manual.words import LANGUAGES, ManualWords

#: What is typed in or chosen from.
INPUTS = (QLineEdit, QComboBox, QPlainTextEdit, QAbstractSpinBox, QAbstractSlider, QCheckBox, QTableView)


def inputs_of(window: QWidget) -> list[QWidget]:
    """All fields of a window, those of pages and forms not made yet too, without the parts that Qt makes of them."""
    if isinstance(window, Window):
        for holder in (window.pages, window.docks.details):
            for name in made_late(holder):
                getattr(holder, name)
    return [
        widget
        for widget in window.findChildren(QWidget)
        if isinstance(widget, INPUTS)
        and not isinstance(widget, QScrollBar)
        and not widget.objectName().startswith("qt_")
        and not isinstance(widget.parentWidget(), (QComboBox, QAbstractSpinBox))
    ]


def made_late(holder: QWidget) -> list[str]:
    """Names of what a part of the window makes when it is first wanted."""
    return [
        name
        for kind in type(holder).__mro__
        for name, value in vars(kind).items()
        if isinstance(value, cached_property)
    ]


def a_garden() -> Garden:
    return garden(bed("b1", rectangle(2.0, 1.0)), planting("p1"))


def read(hand: Hand, language: str) -> Book:
    return read_book(language, hand.window.commands.help.generators())


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_field_and_command_has_its_own_place(kept_hand: Hand, language: str) -> None:
    book = read(kept_hand, language)
    without = [
        next(places_of(field)) for field in inputs_of(kept_hand.window) if next(places_of(field)) not in book
    ]
    assert without == [], "write of these fields in resources/manual/en and de (details.md or pages.md)"
    assert len(inputs_of(kept_hand.window)) > 200
    commands = {action_place(name) for name in kept_hand.window.action_names}
    assert [name for name in sorted(commands) if name not in book] == []


def test_every_page_and_form_has_its_own_place(kept_hand: Hand) -> None:
    book, window = read(kept_hand, "en"), kept_hand.window
    details = window.docks.details
    inputs_of(window)
    names = ("garden", "climate", "bed", "planting", "structure", "plantings", "many")
    forms = [getattr(details, name) for name in names]
    tabs = [window.pages.widget(number) for number in range(window.pages.count())]
    pages = [
        page
        for tab in tabs[1:]
        for page in ([tab.widget(n) for n in range(tab.count())] if isinstance(tab, QTabWidget) else [tab])
    ]
    for part in (*forms, *pages, window.docks.findings, window.docks.crops, window.docks.walk, window.view):
        name = next(one for one in places_of(part) if one in book)
        assert book.section(name).title
        assert name not in ("page_tabs", "window"), part


def test_what_the_manual_says_of_commands_is_what_the_menus_say(kept_hand: Hand) -> None:
    text = read(kept_hand, "en").chapter("start").markdown
    assert "**File › Bed sheets as PDF…** (`Ctrl+Shift+P`)" in text
    assert "**Help › A guided first plan**" in text


def test_f1_opens_the_place_of_the_field_that_has_the_focus(reopen: Callable[..., Hand]) -> None:
    hand = reopen(a_garden())
    hand.document.select(("p1",))
    field = hand.window.docks.details.planting.in_row
    hand.ask_for(field)
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_F1)
    manual = hand.window.commands.help.manual
    assert manual.place == "planting.in_row"
    assert manual.isVisible()
    cursor = manual.browser.textCursor()
    assert "In the row" in cursor.block().text()
    assert manual.browser.extraSelections()
    QTest.keyClick(manual.browser, Qt.Key.Key_Escape)
    assert not manual.isVisible()
    assert QApplication.focusWidget() is field


def test_f1_in_an_open_menu_opens_the_place_of_the_entry(reopen: Callable[..., Hand], qapp) -> None:
    hand = reopen(a_garden())
    window, manual = hand.window, hand.window.commands.help.manual
    hand.document.select(("p1",))
    edit = next(a.menu() for a in window.menuBar().actions() if a.objectName() == "menu.edit")

    def asked(menu: QMenu, name: str) -> str:
        menu.popup(window.mapToGlobal(QPoint(60, 60)))
        menu.setActiveAction(window.action(name) if name else None)
        qapp.processEvents()
        QTest.keyClick(menu, Qt.Key.Key_F1)
        assert QApplication.activePopupWidget() is None
        assert manual.isVisible()
        return manual.place

    assert asked(edit, "duplicate") == "action.duplicate"
    assert asked(edit, "") == "menu.edit"
    align = window.action("align left").associatedObjects()
    assert asked(next(one for one in align if isinstance(one, QMenu)), "") == "action.align"
    # The menu of what is selected on the sheet as well.
    menu = context_menu(window, window._actions)
    assert asked(menu, "split rows") == "action.split-rows"
    menu.deleteLater()
    # A key that leads on in the menu still does.
    edit.popup(window.mapToGlobal(QPoint(60, 60)))
    QTest.keyClick(edit, Qt.Key.Key_Down)
    assert edit.activeAction() is not None
    edit.close()


def test_every_entry_of_the_menus_leads_to_a_place(kept_hand: Hand) -> None:
    book, window = kept_hand.window.commands.help.manual.book, kept_hand.window

    def lost(menu: QMenu) -> list[str]:
        found = []
        for entry in menu.actions():
            if not entry.isSeparator() and not any(name in book for name in places_of_entry(entry)):
                found.append(entry.text())
            if isinstance(entry.menu(), QMenu):
                found += lost(entry.menu())
        return found

    menus = [entry.menu() for entry in window.menuBar().actions()]
    assert len(menus) == 5
    assert [name for menu in menus for name in lost(menu)] == []


def test_what_is_typed_in_comes_before_what_is_pointed_at(reopen: Callable[..., Hand]) -> None:
    hand = reopen(a_garden())
    help_, window = hand.window.commands.help, hand.window
    field, other = window.docks.details.garden.name, window.docks.details.garden.reach
    assert help_.place_here(field, other) == "garden.name"
    assert help_.place_here(window.view, other) == "garden.reach"
    assert help_.place_here(window.view, None) == "sheet"
    assert help_.place_here(None, None) == "start"
    action = window.action("new beds")
    button = next(one for one in window.findChildren(QToolButton) if one.defaultAction() is action)
    assert help_.place_here(None, button) == "action.new-beds"


def test_the_menu_of_a_finding_tells_why(qtbot, reopen: Callable[..., Hand]) -> None:
    hand = reopen(garden(bed("b1", rectangle(2.0, 1.0)), planting("p1"), planting("p2")))
    panel, window = hand.window.docks.findings, hand.window
    window.docks.right.setCurrentWidget(panel)
    qtbot.waitUntil(lambda: any(one.check == "overlap" for one in panel.findings.all), timeout=LIMIT)
    finding = next(one for one in panel.findings.all if one.check == "overlap")
    panel._choose((finding.key,))
    panel.list.why_wanted.emit()
    manual = window.commands.help.manual
    assert manual.place == "rule.overlap.rule"
    assert manual.book.section(manual.place).chapter == "checks"
    assert window.commands.help.place_here(panel.list, None) == "rule.overlap.rule"
    assert panel.list.why in panel.list.actions()
    manual.closed.emit()


@pytest.fixture
def manual(qtbot, kept_hand: Hand, settings: QSettings) -> ManualView:
    view = ManualView(kept_hand.window.look, settings, kept_hand.window.commands.help.generators, draws=False)
    qtbot.addWidget(view)
    view.resize(420, 500)
    view.show()
    return view


def test_links_lead_on_and_the_buttons_back_and_forward(manual: ManualView) -> None:
    manual.open_at("planting.variety")
    manual.open_at("check.rotation")
    manual.browser.anchorClicked.emit(QUrl("#figures.learned"))
    assert manual.place == "figures.learned"
    manual.back.click()
    manual.back.click()
    assert manual.place == "planting.variety"
    assert not manual.back.isEnabled()
    manual.forward.click()
    assert manual.place == "check.rotation"
    manual.open_at("no.such.place")
    assert manual.place == "start"
    assert not manual.forward.isEnabled()


def test_words_are_searched_and_enter_opens_the_first(manual: ManualView) -> None:
    manual.contents.click()
    assert "Command line" in manual.browser.toPlainText()
    QTest.keyClicks(manual.search, "voles")
    assert "Care" in manual.browser.toPlainText() or "voles" in manual.browser.toPlainText()
    QTest.keyClicks(manual.search, " zzz")
    assert "voles zzz" in manual.browser.toPlainText()
    manual.search.clear()
    QTest.keyClicks(manual.search, "rotation")
    QTest.keyClick(manual.search, Qt.Key.Key_Return)
    assert manual.place == "check.rotation"
    manual.back.click()
    assert manual.place == "=search rotation"


def test_another_language_shows_the_same_place_and_is_remembered(
    manual: ManualView, settings: QSettings
) -> None:
    manual.open_at("check.frost")
    manual.language.setCurrentIndex(1)
    manual.language.activated.emit(1)
    assert manual.place == "check.frost"
    assert "Draußen, bevor die Fröste vorbei sind" in manual.browser.toPlainText()
    assert settings.value("manual/language") == "de"
    manual.open_at("planting.variety")
    assert "Sorte (Variety)" in manual.browser.toPlainText()


def test_every_chapter_can_be_shown_in_both_looks(manual: ManualView) -> None:
    for name in CHAPTERS:
        manual.open_at(name)
        assert manual.browser.toPlainText().startswith(manual.book.chapter(name).title)
        assert "{" not in re.sub(r"\{[a-z]+\}", "", manual.browser.toPlainText()) or name in (
            "format",
            "commands",
            "sources",
        )


def test_f1_in_a_dialog_opens_the_manual_over_it(reopen: Callable[..., Hand]) -> None:
    hand = reopen(a_garden())
    hand.do("new beds")
    dialog = next(one for one in hand.window.findChildren(QDialog) if one.isVisible())
    field = dialog.findChildren(QLineEdit)[0]
    field.setFocus()
    hand.window.commands.help._reach_dialog(None, field)  # as the system says when the focus comes
    dialog.findChild(QShortcut).activated.emit()
    over = next(one for one in dialog.findChildren(QDialog) if one.isVisible())
    view = over.findChild(ManualView)
    assert view.place == "bed_dialog"
    view.closed.emit()
    assert not over.isVisible()
    dialog.reject()


def test_f1_on_the_first_card_opens_the_manual_over_it(reopen: Callable[..., Hand]) -> None:
    hand = reopen(a_garden())
    help_, start = hand.window.commands.help, hand.window.start
    start.show()
    without = [next(places_of(field)) for field in inputs_of(start.page)]
    assert [name for name in without if name not in read(hand, "de")] == []
    help_.open_at(help_.place_here(start.page.answers.where, None))
    over = next(one for one in hand.window.findChildren(QDialog) if one.isVisible())
    assert over.findChild(ManualView).place == "first_answers.where"
    over.close()
    start.close()


def test_every_dialog_has_its_place(kept_hand: Hand) -> None:
    book = read(kept_hand, "en")
    folder = Path(__file__).parents[2] / "planner" / "desk"
    names = [
        name
        for path in sorted(folder.rglob("*.py"))
        for name in re.findall(r"^class (\w+)\(QDialog\)", path.read_text("utf-8"), re.MULTILINE)
    ]
    assert len(names) > 8
    assert [name for name in names if class_place(name) not in book] == []


# -- pictures ---------------------------------------------------------------------------------


def test_every_picture_of_the_manual_is_made_by_the_program() -> None:
    named = {
        word.split()[0]
        for language in LANGUAGES
        for name in CHAPTERS
        for kind, word in marks_in(chapter_text(language, name))
        if kind == "picture"
    }
    assert named == set(manual_pictures.PICTURES)
    folder = Path(__file__).parents[2] / "resources" / "manual"
    assert {path.suffix for path in folder.rglob("*") if path.is_file()} == {".md", ".toml"}


def test_a_picture_shows_the_window_and_is_the_same_again(qapp: QApplication) -> None:
    with manual_pictures.unseen_window(a_garden()) as window:
        made = [manual_pictures.picture_of(window, manual_pictures.SHOWN["guide"]) for _ in range(2)]
    assert made[0] == made[1]
    image = QImage.fromData(made[0])
    assert (image.width(), image.height()) == manual_pictures.SIZE
    colours = {image.pixel(x, y) for x in range(0, 1180, 20) for y in range(0, 760, 20)}
    assert len(colours) > 12


def test_the_build_takes_commands_from_a_window_that_nobody_sees(qapp: QApplication) -> None:
    shown = manual_pictures.screen(with_pictures=False)
    assert shown.pictures == {}
    assert shown.generators["action"](ManualWords("en"), "turn year") == "**Edit › Turn the year…**"
    assert shown.generators["key"](ManualWords("en"), "write record") == "**Enter what happened…** (`E`)"


def test_pictures_that_are_there_are_shown_as_wide_as_there_is_room(manual: ManualView) -> None:
    manual.open_at("year")
    assert pictures_of(manual.book.chapter("pages").markdown)
    manual.open_at("page.year")
    assert "The year: all beds" in manual.browser.toPlainText()  # its words, while it is not there
    manual._folder.mkdir(parents=True, exist_ok=True)
    image = QImage(900, 500, QImage.Format.Format_RGB32)
    image.fill(0x336699)
    image.save(str(manual._folder / "year.png"))
    manual._show_again()
    html = manual.browser.toHtml()
    width = int(re.search(r'<img src="picture:year" width="(\d+)"', html).group(1))
    assert 200 <= width <= manual.browser.viewport().width()


# -- what is new ------------------------------------------------------------------------------


def test_news_are_shown_once_after_an_update_and_not_at_the_first_start(reopen: Callable[..., Hand]) -> None:
    hand = reopen(a_garden())
    help_, settings = hand.window.commands.help, hand.window.settings
    settings.remove("manual/news")
    settings.remove("geometry")
    assert not help_.offer_news()  # the first start: all is new
    settings.setValue("geometry", b"x")
    settings.setValue("manual/news", "new.before")
    assert help_.offer_news()
    assert help_.manual.place == "new"
    assert settings.value("manual/news") == latest_news()
    assert not help_.offer_news()
    help_.manual.closed.emit()
    assert isinstance(help_.manual.browser, QTextBrowser)
