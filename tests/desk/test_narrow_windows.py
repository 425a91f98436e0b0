"""Every form and page can be worked in a small window: what they hold lies within what is seen, or scrolls."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from itertools import combinations

import pytest
from hand import Hand
from narrow import cut, pages_cut, show_every_form
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QWidget

from planner import resources
from planner.desk.forms.fields import ChoiceField
from planner.desk.main_window.bed_dialog import BedDialog
from planner.garden import edits
from planner.storage import load

pytestmark = pytest.mark.one_window

SIZES = [(900, 640), (1100, 700), (1360, 860)]


@pytest.fixture
def sample(open_hand) -> Iterator[Hand]:
    hand = open_hand(load(resources.sample_folder() / "hollow_lane.bedwright"))
    yield hand
    hand.view.light.wait()


@pytest.mark.parametrize("size", SIZES)
def test_forms_lie_within_what_is_seen(sample: Hand, qapp, size) -> None:
    sample.window.resize(*size)
    qapp.processEvents()
    assert sample.window.size().toTuple() == size
    assert [fault for name in show_every_form(sample.window) for fault in cut(sample.window, name)] == []


@pytest.mark.parametrize("size", SIZES)
def test_pages_lie_within_what_is_seen(sample: Hand, qapp, size) -> None:
    sample.window.resize(*size)
    qapp.processEvents()
    assert pages_cut(sample.window) == []


def test_forms_fit_again_after_the_window_was_small(sample: Hand, qapp) -> None:
    for size in ((900, 640), (640, 400), (1360, 860)):
        sample.window.resize(*size)
        qapp.processEvents()
    assert sample.window.size().toTuple() == (1360, 860)
    assert [fault for name in show_every_form(sample.window) for fault in cut(sample.window, name)] == []
    assert pages_cut(sample.window) == []


def test_forms_fit_in_the_narrowest_details(sample: Hand, qapp) -> None:
    sample.window.resize(1360, 860)
    docks = sample.window.docks
    sample.window.resizeDocks([docks._right_dock], [10], Qt.Orientation.Horizontal)
    qapp.processEvents()
    assert docks.details.viewport().width() < 250
    assert [fault for name in show_every_form(sample.window) for fault in cut(sample.window, name)] == []


def test_a_long_message_widens_no_window(sample: Hand, qapp) -> None:
    sample.window.resize(900, 640)
    sample.window.status.say("Not possible. " * 60)
    qapp.processEvents()
    assert sample.window.size().toTuple() == (900, 640)


def test_a_short_form_has_nothing_to_scroll_to(sample: Hand, qapp) -> None:
    sample.window.resize(900, 760)
    sample.document.select([bed.id for bed in sample.document.plan.beds[:3]])
    for _ in range(3):
        qapp.processEvents()
    assert sample.window.docks.details.verticalScrollBar().maximum() == 0


def test_names_of_one_long_word_widen_no_form(sample: Hand, qapp) -> None:
    document = sample.document
    bed = document.plan.beds[0]
    document.edit("Rename", lambda g: edits.change_bed(g, bed.id, name="W" * 200))
    sample.window.resize(900, 640)
    qapp.processEvents()
    assert [fault for name in show_every_form(sample.window) for fault in cut(sample.window, name)] == []


@pytest.mark.own_window
@pytest.mark.parametrize("width", [350, 700, 1100])
def test_the_ribbon_shows_all_twelve_months(sample: Hand, qapp, width) -> None:
    ribbon = sample.window.ribbon
    ribbon.setParent(None)
    ribbon.resize(width, 200)
    first, last = (
        ribbon.x_of(day) for day in (sample.document.plan.span.first, sample.document.plan.span.last)
    )
    assert last <= width - 10
    assert last - first > 0.55 * width
    ribbon.deleteLater()


def test_a_list_shows_all_words_of_its_entries(sample: Hand, qapp) -> None:
    sample.window.docks.details.show_climate(True)
    for box in sample.window.docks.details.climate.findChildren(ChoiceField):
        box.showPopup()
        qapp.processEvents()
        view = box.view()
        assert view.sizeHintForColumn(0) <= view.viewport().width(), box.accessibleName()
        box.hidePopup()


def test_the_year_page_puts_the_week_below_the_chart_where_it_is_narrow(sample: Hand, qapp) -> None:
    page = sample.window.pages.year
    sample.window.pages.setCurrentWidget(page)
    (split,) = page.findChildren(QSplitter)
    for size, orientation in (
        ((900, 640), Qt.Orientation.Vertical),
        ((1360, 860), Qt.Orientation.Horizontal),
    ):
        sample.window.resize(*size)
        qapp.processEvents()
        assert split.orientation() == orientation


@pytest.mark.parametrize("size", [(800, 480), (800, 600), (900, 640), (1360, 860)])
def test_nothing_beside_the_chart_lies_over_another(sample: Hand, qapp, size) -> None:
    page = sample.window.pages.year
    sample.window.pages.setCurrentWidget(page)
    sample.window.resize(*size)
    for _ in range(3):  # lines that go on in a further one find their height in rounds
        qapp.processEvents()
    side = page.list.parentWidget()
    shown = [w for w in side.findChildren(QWidget) if w.parentWidget() is side and w.isVisible()]
    assert len(shown) > 5
    assert all(side.rect().contains(w.geometry()) for w in shown)
    assert [
        (a.geometry(), b.geometry())
        for a, b in combinations(shown, 2)
        if a.geometry().intersects(b.geometry())
    ] == []


def test_the_dialog_for_beds_fits_a_small_screen(sample: Hand) -> None:
    dialog = BedDialog(sample.window, "feet_inches")
    assert dialog.sizeHint().width() <= 640
    assert dialog.sizeHint().height() <= 480
    dialog.deleteLater()


_SCALED = """
import sys
sys.path[:0] = {paths!r}
from PySide6.QtCore import QSettings
from narrow import cut, pages_cut, show_every_form
from planner.desk.app import application
from planner.desk.main_window.window import Window

app = application()
window = Window(QSettings(sys.argv[1], QSettings.Format.IniFormat))
window.show()
app.processEvents()
room, frame = window.screen().availableGeometry(), window.frameGeometry()
assert frame.width() <= room.width() and frame.height() <= room.height(), (frame, room)
window.files.open_sample("hollow_lane")
for size in ((900, 640), (1100, 700), (1360, 860)):
    window.resize(*size)
    app.processEvents()
    assert window.size().toTuple() == size
    faults = [fault for name in show_every_form(window) for fault in cut(window, name)]
    assert not faults, (size, faults)
    assert not pages_cut(window), (size, pages_cut(window))
print("fits")
sys.stdout.flush()
window.view.light.wait()
window.findings.stop()
"""


#: A screen of a notebook of today, in its own pixels.
SCREEN = {"name": "screen", "x": 0, "y": 0, "width": 1920, "height": 1080, "logicalDpi": 96, "dpr": 1}


@pytest.mark.parametrize("factor", ["1.5", "2"])
def test_forms_and_window_fit_at_scale_factors(factor, tmp_path) -> None:
    screens = tmp_path / "screens.json"
    screens.write_text(json.dumps({"screens": [SCREEN]}))
    code = _SCALED.format(paths=[os.path.dirname(__file__)])
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "s.ini")],
        capture_output=True,
        text=True,
        env={
            **os.environ,
            "QT_QPA_PLATFORM": f"offscreen:configfile={screens}",
            "QT_SCALE_FACTOR": factor,
            "BEDWRIGHT_STATE": str(tmp_path),
        },
        timeout=600,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    assert done.stdout.splitlines()[-1] == "fits"
