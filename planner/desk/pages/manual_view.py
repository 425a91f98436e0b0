"""The manual in the window: a page of it, its contents, a search, and the way back."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Mapping
from html import escape
from pathlib import Path

from PySide6.QtCore import QProcess, QProcessEnvironment, QSettings, Qt, QTimer, QUrl, Signal
from PySide6.QtGui import QColor, QImage, QKeyEvent, QKeySequence, QResizeEvent, QTextCursor, QTextDocument
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLineEdit,
    QTextBrowser,
    QTextEdit,
    QToolButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner import __version__
from planner.desk.theme.choice_names import name_choice
from planner.desk.theme.palette import LookSwitch
from planner.manual.book import Book, Generator, Section, read_book
from planner.manual.words import LANGUAGES
from planner.storage.photographs import cache_folder
from planner.words import say, spoken_language

#: Place of the list of chapters, and how places of a search begin: no chapter is called so.
CONTENTS, SEARCH = "=contents", "=search "
#: Remembers the language of the manual.
_LANGUAGE = "manual/language"
#: Around a picture, and its width at least. [pixels]
_MARGIN, LEAST_PICTURE = 28, 200
#: Letters of a place that a search shows.
_SHOWN = 140


class _Browser(QTextBrowser):
    """Shows HTML whose pictures are files of a folder."""

    resized = Signal()

    @property
    def room(self) -> int:
        """Width that a picture may have. [pixels]"""
        return max(LEAST_PICTURE, self.viewport().width() - _MARGIN)

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self._folder = folder
        self.setOpenLinks(False)
        self.setAccessibleName(say("Manual"))

    @override
    def loadResource(self, kind: int, name: QUrl | str) -> object:
        url = QUrl(name)
        if kind == QTextDocument.ResourceType.ImageResource.value and url.scheme() == "picture":
            picture = QImage(str(self._folder / f"{url.path()}.png"))
            wide, ratio = min(picture.width(), self.room), self.devicePixelRatioF()
            smooth = Qt.TransformationMode.SmoothTransformation
            scaled = picture.scaledToWidth(min(picture.width(), round(wide * ratio)), smooth)
            scaled.setDevicePixelRatio(scaled.width() / wide if wide else 1.0)
            return scaled
        return None

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.resized.emit()


class ManualView(QWidget):
    """The manual, in one of its languages.

    Parameters
    ----------
    look : LookSwitch
    settings : QSettings
        Remembers the language.
    generators : callable
        What fills in what the program has to say; called when the manual is first read.
    draws : bool
        Whether the program may be started once more, unseen, to draw the pictures.

    Signals
    -------
    closed
        It was read: whatever had the focus before has it again.
    """

    closed = Signal()

    def __init__(
        self,
        look: LookSwitch,
        settings: QSettings,
        generators: Callable[[], Mapping[str, Generator]],
        draws: bool = True,
    ) -> None:
        super().__init__()
        self._look, self._settings, self._generators = look, settings, generators
        self._books: dict[str, Book] = {}
        self._visited: list[str] = []
        self._scrolled: dict[int, int] = {}
        self._at = -1
        self._folder = cache_folder() / f"manual-{__version__}"
        self._painter: QProcess | None = None
        self._draws = draws
        wish = str(settings.value(_LANGUAGE, "")) or spoken_language().split("-")[0]
        self._language = wish if wish in LANGUAGES else "en"
        self._make_head()
        self.browser = _Browser(self._folder)
        self.browser.anchorClicked.connect(self._follow_link)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 6, 8, 8)
        column.setSpacing(6)
        column.addLayout(self._head)
        column.addWidget(self.browser, 1)
        self._again = QTimer(self)
        self._again.setSingleShot(True)
        self._again.setInterval(120)
        self._again.timeout.connect(self._show_refitted)
        self._scrolled_to = -1
        self.browser.resized.connect(self._fit_pictures)
        look.changed.connect(self._show_again)

    def _make_head(self) -> None:
        self.back = self._button("‹", say("Back"), QKeySequence.StandardKey.Back, lambda: self._go(-1))
        self.forward = self._button(
            "›", say("Forward"), QKeySequence.StandardKey.Forward, lambda: self._go(1)
        )
        self.contents = self._button("☰", say("Contents"), None, lambda: self.open_at(CONTENTS))
        self.search = QLineEdit()
        self.search.setAccessibleName(say("Search the manual"))
        self.search.setPlaceholderText(say("Search the manual"))
        self.search.setClearButtonEnabled(True)
        self.search.textEdited.connect(self._search)
        self.search.returnPressed.connect(self._open_first)
        self.language = QComboBox()
        name_choice(self.language, say("Language of the manual"))
        for key, name in LANGUAGES.items():
            self.language.addItem(name, key)
        self.language.setCurrentIndex(list(LANGUAGES).index(self._language))
        self.language.activated.connect(self._choose_language)
        self._head = QHBoxLayout()
        self._head.setSpacing(3)
        self.shut = self._button(
            "✕", say("Close the manual"), QKeySequence.StandardKey.Cancel, self.closed.emit
        )
        for widget in (self.back, self.forward, self.contents):
            self._head.addWidget(widget)
        self._head.addWidget(self.search, 1)
        self._head.addWidget(self.language)
        self._head.addWidget(self.shut)

    def _button(
        self, sign: str, words: str, key: QKeySequence.StandardKey | None, run: Callable[[], object]
    ) -> QToolButton:
        made = QToolButton()
        made.setText(sign)
        made.setAccessibleName(words)
        keys = QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText) if key is not None else ""
        made.setToolTip(f"{words} ({keys})" if keys else words)
        made.clicked.connect(lambda _checked=False: run())
        return made

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes it; the keys of a browser go back and forward."""
        if event.matches(QKeySequence.StandardKey.Cancel):
            self.closed.emit()
        elif event.matches(QKeySequence.StandardKey.Back):
            self._go(-1)
        elif event.matches(QKeySequence.StandardKey.Forward):
            self._go(1)
        else:
            super().keyPressEvent(event)

    # -- places -----------------------------------------------------------------------------

    @property
    def book(self) -> Book:
        """The manual in the language that is chosen; read when it is first asked for."""
        if self._language not in self._books:
            self._books[self._language] = read_book(self._language, self._generators())
        return self._books[self._language]

    @property
    def place(self) -> str:
        """Name of the place that is shown; empty before any was."""
        return self._visited[self._at] if self._at >= 0 else ""

    def open_at(self, name: str) -> None:
        """Show a place, by its name: its own, or that of what it belongs to."""
        if not name.startswith("="):
            name = self.book.nearest(name)
        if name != self.place:
            self._scrolled[self._at] = self.browser.verticalScrollBar().value()
            self._visited = [*self._visited[: self._at + 1], name]
            self._at += 1
        self._show()

    def _go(self, steps: int) -> None:
        if 0 <= self._at + steps < len(self._visited):
            self._scrolled[self._at] = self.browser.verticalScrollBar().value()
            self._at += steps
            self._show(self._scrolled.get(self._at))

    def _follow_link(self, url: QUrl) -> None:
        if url.hasFragment():
            self.open_at(url.fragment())

    def _search(self, text: str) -> None:
        if not text.strip():
            self.open_at(CONTENTS)
            return
        name = f"{SEARCH}{text.strip()}"
        if self.place.startswith(SEARCH):  # one step back, however long it was typed
            self._visited[self._at] = name
            self._show()
        else:
            self.open_at(name)

    def _open_first(self) -> None:
        found = self.book.found(self.search.text())
        if found:
            self.open_at(_name_of(found[0]))
            self.browser.setFocus()

    def _choose_language(self) -> None:
        self._language = str(self.language.currentData())
        self._settings.setValue(_LANGUAGE, self._language)
        self._show_again()

    # -- showing ----------------------------------------------------------------------------

    def _show_again(self) -> None:
        if self._at >= 0:
            self._show(self.browser.verticalScrollBar().value())

    def _show_refitted(self) -> None:
        """Show it in another width: at its place still, unless it was scrolled since."""
        at = self.browser.verticalScrollBar().value()
        self._show(None if at == self._scrolled_to else at)

    def _fit_pictures(self) -> None:
        if "<img" in self._shown_html():
            self._again.start()

    def _show(self, scrolled: int | None = None) -> None:
        place = self.place
        self.browser.document().setDefaultStyleSheet(self._style())
        self.browser.setHtml(self._shown_html())
        self.back.setEnabled(self._at > 0)
        self.forward.setEnabled(self._at < len(self._visited) - 1)
        self.browser.setExtraSelections([])
        if scrolled is not None:
            self.browser.verticalScrollBar().setValue(scrolled)
        elif not place.startswith("="):
            section = self.book.section(place)
            if section.level != 1:
                self._mark(place)
                self.browser.scrollToAnchor(place)
        self._scrolled_to = self.browser.verticalScrollBar().value()

    def _shown_html(self) -> str:
        place = self.place
        if not place:
            return ""
        if place == CONTENTS:
            return self._contents_html()
        if place.startswith(SEARCH):
            return self._found_html(place.removeprefix(SEARCH))
        from planner.manual.html import chapter_html

        chapter = self.book.chapter(self.book.section(place).chapter)
        return chapter_html(chapter.markdown, self._picture_html)

    def _picture_html(self, name: str, words: str) -> str:
        path = self._folder / f"{name}.png"
        if not path.is_file():
            self._draw_pictures()
            return f"<p><i>{words}</i></p>"
        size = QImage(str(path)).size()
        wide = min(size.width(), self.browser.room)
        return f'<p><img src="picture:{name}" width="{wide}"></p><p><i>{words}</i></p>'

    def _contents_html(self) -> str:
        lines = []
        for chapter in self.book.chapters:
            lines.append(f'<h3><a href="#{chapter.name}">{escape(chapter.title)}</a></h3>')
            parts = [one for one in chapter.sections if one.level == 2]
            links = (f'<a href="#{_name_of(one)}">{escape(one.title)}</a>' for one in parts if one.names)
            lines.append(f"<p>{' · '.join(links)}</p>")
        return "".join(lines)

    def _found_html(self, words: str) -> str:
        found = self.book.found(words)
        if not found:
            nothing = say("Nothing in the manual has all of these words: {words}", words=words)
            return f"<p>{escape(nothing)}</p>"
        lines = []
        for section in found:
            title = self.book.chapter(section.chapter).title
            text = _around(section.text, words.split()[0])
            lines.append(
                f'<p><a href="#{_name_of(section)}"><b>{escape(section.title)}</b></a> – {escape(title)}<br>{escape(text)}</p>'
            )
        return "".join(lines)

    def _style(self) -> str:
        look = self._look.now
        return f"""
        a {{ color: {look.accent.name()}; text-decoration: none; }}
        h1 {{ font-size: 17pt; }} h2 {{ font-size: 13pt; margin-top: 16px; }} h3 {{ font-size: 11pt; margin-top: 10px; }}
        p, li {{ margin-top: 4px; margin-bottom: 4px; }} i, em {{ color: {look.pencil.name()}; }}
        td, th {{ padding: 2px 8px 2px 0; text-align: left; }} code, pre {{ color: {look.panel_ink.name()}; white-space: pre-wrap; }}
        """

    def _mark(self, name: str) -> None:
        """Mark the paragraph of a place."""
        document = self.browser.document()
        block = document.begin()
        while block.isValid():
            parts = block.begin()
            while not parts.atEnd():
                if name in parts.fragment().charFormat().anchorNames():
                    self._mark_at(block.position())
                    return
                parts += 1
            block = block.next()

    def _mark_at(self, position: int) -> None:
        cursor = QTextCursor(self.browser.document())
        cursor.setPosition(position)
        mark = QTextEdit.ExtraSelection()
        mark.cursor = cursor
        colour = QColor(self._look.now.accent)
        colour.setAlpha(45)
        mark.format.setBackground(colour)
        mark.format.setProperty(mark.format.Property.FullWidthSelection, True)
        self.browser.setExtraSelections([mark])
        self.browser.setTextCursor(cursor)

    # -- pictures ---------------------------------------------------------------------------

    def _draw_pictures(self) -> None:
        """Let the program draw its own pictures, beside this window and unseen; they are kept for later."""
        if not self._draws or self._painter is not None:
            return
        surroundings = QProcessEnvironment.systemEnvironment()
        surroundings.insert("QT_QPA_PLATFORM", "offscreen")
        surroundings.insert(
            "PYTHONPATH",
            os.pathsep.join([str(Path(__file__).parents[3]), os.environ.get("PYTHONPATH", "")]),
        )
        self._painter = QProcess(self)
        self._painter.setProcessEnvironment(surroundings)
        self._painter.finished.connect(self._show_again)
        self._painter.start(sys.executable, ["-m", "planner", "manual", "--pictures", str(self._folder)])

    def stop(self) -> None:
        """Stop drawing pictures: the window closes."""
        self._again.stop()
        if self._painter is not None and self._painter.state() != QProcess.ProcessState.NotRunning:
            self._painter.finished.disconnect(self._show_again)
            self._painter.kill()
            self._painter.waitForFinished(1000)

    def focus_text(self) -> None:
        """Put the focus into the text, so that the keys scroll it."""
        self.browser.setFocus(Qt.FocusReason.ShortcutFocusReason)


def _around(text: str, word: str) -> str:
    """Some of a long text, about a word in it."""
    begin = max(0, text.casefold().find(word.casefold()) - _SHOWN // 3)
    begin = text.rfind(" ", 0, begin) + 1
    shown = text[begin : begin + _SHOWN].strip()
    before, after = "… " if begin else "", " …" if begin + _SHOWN < len(text) else ""
    return f"{before}{shown}{after}"


def _name_of(section: Section) -> str:
    return section.names[0] if section.names else section.chapter
