"""The page of a walk: numbers of work, what is said of them, boxes, and lines that stay with their beds."""

from __future__ import annotations

import pytest
import typed_records_corpus as corpus
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner.desk.model.document import Document
from planner.desk.pages.walk_page import WalkPage

ENTER = Qt.Key.Key_Return


@pytest.fixture
def document():
    document = Document(corpus.plot())
    document.show_year(2026)
    yield document
    document.end()


@pytest.fixture
def walk(document, qtbot):
    page = WalkPage(document)
    qtbot.addWidget(page)
    page.resize(1000, 700)
    page.show()
    page.activateWindow()
    page.day.show_day(corpus.TODAY)
    page.refresh()
    return page


def go_to(walk, bed):
    walk.beds.setCurrentRow([stop.bed.name for stop in walk.stops].index(bed))


def type_in(walk, text, *, enter=False):
    QTest.keyClicks(walk.entry.line, text)
    walk.entry.show_meaning()
    if enter:
        QTest.keyClick(walk.entry.line, ENTER)


def test_a_number_says_what_enter_does_and_the_message_goes_with_it(walk, document):
    go_to(walk, "Bed 5")
    type_in(walk, "1")
    assert walk.entry.meaning.text() == "10 Jun 2026: 1  Sow beetroot is ticked off"
    assert not walk.entry.meaning.property("warn")
    QTest.keyClick(walk.entry.line, ENTER)
    assert walk.entry.meaning.text() == "Done: Sow beetroot"
    assert not walk.entry.line.text()
    assert [one.task for one in document.garden.records] == ["sow"]


def test_a_number_of_done_work_or_of_none_is_said_and_does_nothing(walk, document):
    go_to(walk, "Bed 5")
    type_in(walk, "1", enter=True)
    type_in(walk, "1")
    assert walk.entry.meaning.text() == "1  Sow beetroot is done already, on 10 Jun 2026"
    assert walk.entry.meaning.property("warn")
    QTest.keyClick(walk.entry.line, ENTER)
    walk.entry.line.clear()
    type_in(walk, "17", enter=True)
    assert walk.entry.meaning.text() == "There is no work 17 here"
    assert len(document.garden.records) == 1


def test_a_box_ticks_and_takes_back(walk, document, qtbot):
    go_to(walk, "Bed 5")
    words = [one.key for one in walk.stop.work]
    walk.work.boxes[0].click()
    qtbot.waitUntil(lambda: len(document.garden.records) == 1)
    assert [one.key for one in walk.stop.work] == words
    assert walk.work.boxes[0].isChecked()
    walk.work.boxes[0].click()
    qtbot.waitUntil(lambda: not document.garden.records)
    assert not walk.work.boxes[0].isChecked()
    assert document.undo_stack.count() == 2


def test_what_is_typed_stays_with_its_bed(walk, document):
    go_to(walk, "Bed 5")
    type_in(walk, "1")
    go_to(walk, "Bed 6")
    assert walk.entry.line.text() == ""
    assert walk.entry.meaning.text() == ""
    QTest.keyClick(walk.entry.line, Qt.Key.Key_PageUp)
    assert walk.stop.bed.name == "Bed 5"
    assert walk.entry.line.text() == "1"
    assert "Sow beetroot" in walk.entry.meaning.text()
    said = []
    walk.said.connect(said.append)
    go_to(walk, walk.stops[-1].bed.name)
    walk.go(1)
    assert said[-1].endswith("a line is not entered yet in Bed 5")
    assert not document.garden.records
