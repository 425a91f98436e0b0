"""Whatever the zoom: every planting of the day shown has a name or a number, and no words lie on others."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from forty_beds import forty_beds
from PySide6.QtCore import QRectF
from PySide6.QtGui import QTransform
from PySide6.QtWidgets import QApplication

from planner.desk.canvas import transform
from planner.desk.canvas.finding_marks import _step_aside
from planner.desk.canvas.label_drafts import label_font
from planner.desk.canvas.label_layer import LabelLayer
from planner.desk.canvas.label_numbers import BESIDE_NAME
from planner.desk.canvas.labels import KINDS
from planner.desk.canvas.planting_labels import shorter_names
from planner.desk.canvas.sheet_picture import SheetPicture
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.garden import Garden
from planner.storage.files import load

SAMPLES = ("balcony_boxes", "hollow_lane", "red_mesa", "wattle_bank", "forty")
#: Against the zoom at which the whole garden is seen in a small window.
ZOOMS = (1.0, 1.5, 3.0, 8.0)
#: So far the corners of words may lie over the edge of a bed that is turned. [pixels]
OVER = 3.0


def _garden(name: str) -> Garden:
    return forty_beds() if name == "forty" else load(f"sample_gardens/{name}.bedwright")


@pytest.fixture(scope="module", params=SAMPLES)
def sheet(request, qapp):
    document = Document(_garden(request.param))
    if request.param == "forty":
        document.show_year(2026)
        document.show_day(dt.date(2026, 6, 20))
    view = SheetPicture(document, LookSwitch())
    view.resize(900, 600)
    view.show_all()
    yield view
    view.close()
    document.end()


@pytest.fixture(params=[(325, 332), (317, 320), (400, 360)])
def small_sheet(sheet, request):
    """About as large as the sheet is beside its key in a window of 1,000 by 700 pixels."""
    sheet.show()  # or it is not told of its size
    sheet.resize(*request.param)
    QApplication.processEvents()
    yield sheet
    sheet.resize(900, 600)
    QApplication.processEvents()
    sheet.hide()


def _check_names(sheet: SheetPicture) -> None:
    """All plantings of the day have a name on their bed, or stand in the key under a number that is on the sheet."""
    placed, numbered = sheet.labels.all_placed(), sheet.labels.numbered
    shown = {painted.planting.id for item in sheet.sheet.beds.values() for painted in item.painted}
    assert shown
    named = {label.key for label, _ in placed if label.kind == "planting"}
    written = {label.key for label, _ in placed if label.number}
    assert [one.number for one in numbered if not one.heads] == [
        n + 1 for n in range(sum(not one.heads for one in numbered))
    ]
    for entry in numbered:
        if entry.key in written:
            named |= {entry.key, *entry.plantings}
            texts = [label.text for label, _ in placed if label.key == entry.key and label.number]
            assert [text.rpartition(BESIDE_NAME)[2] for text in texts] == [str(entry.number)]
    assert shown <= named
    for index, (label, rect) in enumerate(placed):
        for other, place in placed[index + 1 :]:
            assert not rect.adjusted(0.5, 0.5, -0.5, -0.5).intersects(place), (label.text, other.text)
    scale = sheet.pixels_per_metre / transform.SCALE
    for label, rect in placed:
        if label.kind == "planting":
            bed = sheet.sheet.beds[sheet.document.garden.plantings_by_id[label.key].bed]
            outline = QTransform.fromScale(scale, scale).map(bed.shape())
            assert outline.contains(rect.adjusted(OVER, OVER, -OVER, -OVER)), label.text
    assert LabelLayer(sheet).all_placed() == placed


@pytest.mark.parametrize("factor", ZOOMS)
def test_every_planting_is_named_and_no_label_lies_on_another(sheet: SheetPicture, factor: float) -> None:
    sheet.show_all()
    sheet.scale_to(sheet.pixels_per_metre * factor)
    _check_names(sheet)


def test_in_a_small_window_every_planting_and_every_bed_is_named(small_sheet: SheetPicture) -> None:
    sheet = small_sheet
    sheet.show_all()
    placed = sheet.labels.all_placed()
    beds = {label.key for label, _ in placed if label.kind in ("bed", "numbers")}
    # Where names or numbers of all plantings fill a bed, the key names it before them.
    beds |= {one.key for one in sheet.labels.numbered if not one.plantings} & set(sheet.sheet.beds)
    assert beds == set(sheet.sheet.beds)
    assert sheet.labels.left_end() >= 0
    assert sheet.labels.right_end() <= sheet.area.right()
    _check_names(sheet)


def test_a_number_lies_on_no_bed_but_its_own(small_sheet: SheetPicture) -> None:
    sheet = small_sheet
    sheet.show_all()
    scale = sheet.pixels_per_metre / transform.SCALE
    drawn = {
        key: QTransform.fromScale(scale, scale).map(bed.shape()) for key, bed in sheet.sheet.beds.items()
    }
    for label, rect in sheet.labels.all_placed():
        if label.kind in ("bed", "numbers"):
            inner = rect.adjusted(1, 1, -1, -1)
            assert {key for key, bed in drawn.items() if bed.intersects(inner)} <= {label.key}, label.text


def test_no_words_are_smaller_than_nine_points(qapp) -> None:
    assert min(label_font(kind).pointSizeF() for kind in KINDS) >= 9.0


def test_names_are_shortened_by_one_rule() -> None:
    names = shorter_names("Sweet pepper ‘Red’ · 2 rows · 8", "Sweet pepper ‘Red’", "Sweet pepper", "x · 8")
    assert names[1:] == (
        "x · 8",
        "Sweet pepper ‘Red’",
        "Sweet pepper",
        "S. pepper",
        "Pepper",
        "Pepp.",
    )
    assert shorter_names("Pea", "Pea", "Pea", "Pea · 4") == ("Pea", "Pea · 4")


def test_marks_of_findings_step_aside_from_words() -> None:
    places = np.array([[50.0, 20.0], [200.0, 20.0]])
    _step_aside(places, np.array([True, True]), [QRectF(30, 10, 60, 14), QRectF(30, 26, 60, 14)])
    assert places[1].tolist() == [200.0, 20.0]
    assert places[0].tolist() == [50.0, 3.0]


def test_the_pointer_tells_days_number_and_next_work(open_hand, qapp) -> None:
    hand = open_hand(load("sample_gardens/red_mesa.bedwright"))
    view, document = hand.window.view, hand.document
    painted = next(item.painted[0] for item in view.sheet.beds.values() if item.painted)
    at = view.viewportTransform().map(painted.plot.boundingRect().center())
    name, days, work = view.words_at(at).split("\n")
    assert name.startswith("Beet · ")
    assert days.startswith("On its plot from ")
    assert work.startswith(("Next, ", "Nothing more"))
    assert view.words_at(at * 50) == ""
    # The key is there while there are numbers, and leads to the plantings.
    key = hand.window.pages.number_key
    view.show_all()
    view.scale_to(12)
    key.follow()
    assert not key.isHidden()
    numbered = view.labels.numbered
    assert key.list.count() == sum(1 + len(entry.plantings) for entry in numbered) > 0
    lines = [key.list.item(row).text() for row in range(key.list.count())]
    assert lines[0] == "1  North 1"
    assert lines[1].strip() == "Beet"
    key.list.itemClicked.emit(key.list.item(0))
    assert document.selection == (numbered[0].key,)
    key.list.itemClicked.emit(key.list.item(1))
    assert document.selection == numbered[0].plantings[:1]
    view.scale_to(400)
    key.follow()
    assert key.isHidden()
