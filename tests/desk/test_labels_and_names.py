"""Labels of the window, and the names of crops in it in the garden's English."""

from __future__ import annotations

import pytest
from making import bed, garden, rectangle
from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtWidgets import QComboBox, QLabel, QMenu

from planner.desk.canvas.guides import place_of_words
from planner.garden import edits

pytestmark = pytest.mark.one_window


def make(**site):
    return garden(bed("b1", name="North"), site=site)


def _menus(hand) -> dict[str, list[str]]:
    """Entries of each menu of the bar, without marks for the keyboard."""
    found = {}
    for action in hand.window.menuBar().actions():
        menu = action.menu()
        assert isinstance(menu, QMenu)
        found[action.text().replace("&", "")] = [one.text().replace("&", "") for one in menu.actions()]
    return found


def test_planting_and_finding_a_crop_are_in_edit(open_hand):
    menus = _menus(open_hand(make()))
    for words in ("Find a crop", "Plant the chosen crop…"):
        assert words in menus["Edit"]
        assert words not in menus["Draw"]


def test_letters_of_a_menu_are_used_once(open_hand):
    hand = open_hand(make())
    for action in hand.window.menuBar().actions():
        letters = [
            one.text()[one.text().index("&") + 1].casefold()
            for one in action.menu().actions()
            if "&" in one.text()
        ]
        if action.text().replace("&", "") in ("File", "Edit"):
            assert len(letters) == len(set(letters)), action.text()


def test_pages_are_called_by_plain_words(open_hand):
    pages = open_hand(make()).window.pages
    titles = [pages.tabText(index) for index in range(pages.count())]
    assert titles == ["Plan", "Year", "Records", "About this crop", "Quantities", "Harvest", "Seed", "Print"]


@pytest.mark.parametrize(("latitude", "month"), [(52.0, "January"), (None, "January"), (-36.0, "July")])
def test_the_usual_first_month_is_named(open_hand, latitude, month):
    hand = open_hand(make(latitude=latitude))
    form = hand.window.docks.details.garden
    assert form.month.currentText() == f"{month}, as usual here"
    hand.document.edit("Set", lambda made: edits.change_site(made, first_month=4))
    assert form.month.currentText() == "April"
    assert form.month.itemText(0) == f"{month}, as usual here"


def test_labels_of_the_forms(open_hand):
    details = open_hand(make()).window.docks.details
    of_garden = {label.text() for label in details.garden.findChildren(QLabel)}
    assert {"Top of the plan faces", "Reach and paths", "Narrowest path", "Names of crops"} <= of_garden
    of_planting = {label.text() for label in details.planting.findChildren(QLabel)}
    assert {"Spacing", "Use", "Angle of the rows"} <= of_planting
    assert "Shape" in {label.text() for label in details.bed.findChildren(QLabel)}
    assert details.planting.purpose.itemText(0) == "fresh"


def test_the_window_speaks_the_english_of_the_garden(open_hand, qapp):
    hand = open_hand(make(units="feet_inches"))
    window, document = hand.window, hand.document
    crops = window.docks.crops
    page = window.pages.crop
    window.pages.setCurrentWidget(page)
    page.show_crop(document.catalogue.crops["aubergine"])

    def shown() -> list[str]:
        model = crops.list.model()
        return [model.index(row, 0).data() for row in range(model.rowCount())]

    assert "Eggplant" in shown()
    assert page.name.text() == "Eggplant"
    assert window.pages.stock.crop.findText("Zucchini") >= 0
    document.edit("Choose", lambda made: edits.change_site(made, crop_names="british"))
    qapp.processEvents()
    assert "Aubergine" in shown()
    assert "Eggplant" not in shown()
    assert page.name.text() == "Aubergine"
    assert "eggplant" in page.under.text()
    assert window.pages.stock.crop.findText("Courgette") >= 0
    crops.search.setText("eggplant")
    assert shown() == ["Aubergine"]
    document.undo_stack.undo()
    qapp.processEvents()
    assert page.name.text() == "Eggplant"


def test_all_titles_of_pages_have_room_in_a_small_window(open_hand, qapp):
    window = open_hand(make()).window
    window.resize(900, 640)
    qapp.processEvents()
    pages = window.pages
    crop = pages.indexOf(pages.crop)
    assert pages.tabBar().sizeHint().width() <= pages.width()
    assert pages.tabToolTip(crop) == "About this crop"
    window.resize(1500, 800)
    qapp.processEvents()
    assert pages.tabText(crop) == "About this crop"


def test_the_words_of_a_dimension_line_go_where_nothing_is_written() -> None:
    p, q, extent = QPointF(0, 0), QPointF(200, 0), QSizeF(40, 14)
    assert place_of_words(p, q, extent, []).center() == QPointF(100, 0)
    beside = place_of_words(p, q, extent, [QRectF(85, -7, 30, 14)])
    assert beside.center() == QPointF(40, 0)
    assert not beside.intersects(QRectF(85, -7, 30, 14))
    everywhere = QRectF(-100, -50, 400, 100)
    assert place_of_words(p, q, extent, [everywhere]).center() == QPointF(100, 0)
    assert place_of_words(p, q, extent, [everywhere, QRectF(0, -7, 130, 14)]).center().x() == 160


def test_choices_are_never_blank(open_hand, qapp):
    hand = open_hand(make())
    window = hand.window
    window.pages.bring(window.pages.records)
    qapp.processEvents()
    shown = [box for box in window.findChildren(QComboBox) if box.isVisible()]
    assert len(shown) > 5
    assert [box.accessibleDescription() for box in shown if not box.currentText()] == []


def test_a_thing_that_is_called_by_its_kind_is_listed_once(open_hand):
    hand = open_hand(make())
    hand.document.edit(
        "Build", lambda made: edits.add_structure(made, "tunnel", rectangle(2.0, 1.0), 2.0, name="tunnel")[0]
    )
    hand.document.edit(
        "Build", lambda made: edits.add_structure(made, "shed", rectangle(2.0, 1.0), 2.0, name="Old hut")[0]
    )
    tree = hand.window.docks.contents
    hand.window.docks.left.setCurrentWidget(tree)
    lines = [tree.topLevelItem(n).text(0) for n in range(tree.topLevelItemCount())]
    assert lines[-2:] == ["tunnel", "Old hut (shed)"]
