"""What a start leaves for later: modules, pages and forms that are not seen yet."""

from __future__ import annotations

import importlib.util
import re
import subprocess
import sys
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QLabel

from planner import desk
from planner.desk.main_window import early_reading
from planner.desk.main_window.page_tabs import PageTabs

DESK = Path(desk.__file__).parent

#: Prints which modules the first paint has read, and of which files the source is kept.
STARTED = """
import linecache, sys
from planner.desk.app import application
from planner.desk.main_window.window import Window
from PySide6.QtCore import QSettings
app = application()
window = Window(QSettings("/nonexistent/none.ini", QSettings.Format.IniFormat))
window.files.open_sample("hollow_lane")
window.show()
app.processEvents()
window.view.viewport().repaint()
print("read", *(name for name in sys.modules if name.startswith("planner.")))
print("kept", *(name for name, entry in linecache.cache.items() if len(entry) > 1 and "planner" in name))
"""


# It starts a process: what others in this one have imported would count.
def test_the_first_paint_waits_for_no_checks_and_no_page():
    done = subprocess.run([sys.executable, "-c", STARTED], check=True, capture_output=True, text=True)
    read, kept = (line.split()[1:] for line in done.stdout.splitlines())
    assert "planner.plan.plan" in read
    late = ("planner.checks", "planner.proposal", "planner.importing", "planner.sheets.bed_sheets")
    assert not [name for name in read if name.startswith((*late, "planner.desk.pages."))]
    assert kept == [], "Qt's bindings read the source of every module"


def test_pages_are_made_when_they_come_to_the_front_and_keep_their_tabs(hand):
    pages: PageTabs = hand.window.pages
    titles = [(pages.tabText(n), pages.tabToolTip(n)) for n in range(pages.count())]
    assert not any(map(pages.is_made, ("year", "records", "walk", "paper")))
    pages.setCurrentIndex(1)
    assert pages.is_made("year")
    assert pages.currentWidget() is pages.year
    pages.setCurrentIndex(2)
    group = pages.currentWidget()
    assert group.currentWidget() is pages.records
    assert not pages.is_made("walk")
    group.setCurrentIndex(1)
    assert group.currentWidget() is pages.walk
    pages.bring(pages.trials)
    assert group.currentWidget() is pages.trials
    assert [(pages.tabText(n), pages.tabToolTip(n)) for n in range(pages.count())] == titles


def test_the_page_of_no_crop_says_what_to_choose(hand):
    page = hand.window.pages.crop
    hand.window.pages.bring(page)
    assert page.name.text() == "Choose a crop at the left"
    assert "type its name" in page.under.text()
    shown = [label.text() for label in page.findChildren(QLabel) if label.isVisible()]
    assert shown == [page.name.text(), page.under.text()]
    assert not page.text.isVisible()
    hand.window.pages.show_crop(hand.document.catalogue.crops["carrot"])
    assert page.text.isVisible()
    assert page.name.text() == "Carrot"


def test_a_crop_chosen_before_its_page_was_made_is_on_it(hand):
    pages, crops = hand.window.pages, hand.document.catalogue.crops
    pages.show_crop(crops["carrot"])
    assert not pages.is_made("crop")
    pages.setCurrentWidget(pages.crop)
    assert pages.crop.crop.key == "carrot"


def test_all_pages_are_read_early_and_none_that_is_not_there():
    pages = {path.stem for path in (DESK / "pages").glob("*.py")}
    source = (DESK / "main_window" / "late_pages.py").read_text()
    late = set(re.findall(r"from planner\.desk\.pages\.(\w+) import", source))
    assert late <= set(early_reading.PAGES) <= pages
    assert set(early_reading.FORMS) <= {path.stem for path in (DESK / "forms").glob("*.py")}
    assert all(importlib.util.find_spec(name) for name in early_reading.COMPUTING)


def test_what_pages_want_is_read_in_a_thread_and_then_in_the_window(qtbot):
    parent = QObject()
    early = early_reading.EarlyReading(parent)
    with qtbot.waitSignal(early.ended, timeout=60_000):
        early.begin()
    assert "planner.desk.pages.records_page" in sys.modules
    early._jobs.stop()
