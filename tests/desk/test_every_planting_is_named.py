"""Whatever the zoom: every planting of the day shown has a name or a number, and no words lie on others."""

from __future__ import annotations

import datetime as dt
import re

import numpy as np
import pytest
from forty_beds import forty_beds
from PySide6.QtCore import QRectF
from PySide6.QtGui import QTransform

from planner.desk.canvas import transform
from planner.desk.canvas.finding_marks import _step_aside
from planner.desk.canvas.label_layer import BESIDE_NAME, LabelLayer, _font
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


def _numbers(text: str) -> set[int]:
    """Numbers beside the name of a bed."""
    found: set[int] = set()
    for part in re.findall(r"\d+(?:–\d+)?", text.rpartition(BESIDE_NAME)[2]):
        first, _, last = part.partition("–")
        found |= set(range(int(first), int(last or first) + 1))
    return found


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


@pytest.mark.parametrize("factor", ZOOMS)
def test_every_planting_is_named_and_no_label_lies_on_another(sheet: SheetPicture, factor: float) -> None:
    sheet.show_all()
    sheet.scale_to(sheet.pixels_per_metre * factor)
    placed, numbered = sheet.labels.all_placed(), sheet.labels.numbered
    shown = {painted.planting.id for item in sheet.sheet.beds.values() for painted in item.painted}
    assert shown
    named = {label.key for label, _ in placed if label.kind == "planting"}
    beside = {n for label, _ in placed if label.kind == "numbers" for n in _numbers(label.text)}
    named |= {key for number, key in enumerate(numbered, start=1) if number in beside}
    assert named == shown
    by_number = {label.key: label for label, _ in placed if label.number}
    assert {key: str(numbered.index(key) + 1) for key in by_number} == {
        key: label.text for key, label in by_number.items()
    }
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


def test_no_words_are_smaller_than_nine_points(qapp) -> None:
    assert min(_font(kind).pointSizeF() for kind in KINDS) >= 9.0


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
    view.scale_to(view.pixels_per_metre * 0.7)
    key.follow()
    assert not key.isHidden()
    assert key.list.count() == len(view.labels.numbered) > 0
    key.list.itemClicked.emit(key.list.item(0))
    assert document.selection == (view.labels.numbered[0],)
    view.scale_to(400)
    key.follow()
    assert key.isHidden()
