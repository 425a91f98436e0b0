"""The crop list and the outline; names for screen readers."""

from __future__ import annotations

import pytest
from hand import Hand, stand
from making import bed, garden, rectangle
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractScrollArea,
    QApplication,
    QComboBox,
    QLabel,
    QScrollArea,
    QTabBar,
    QWidget,
)

from planner.desk.panels.crop_model import CropModel
from planner.garden.edits import add_structure, put_variety


def full():
    made = garden(
        bed("b1", rectangle(center=(0.0, 2.0)), name="North"),
        bed("b2", rectangle(center=(0, -2.0)), name="South"),
    )
    made, _ = stand(made, "b1", "carrot")
    made, _ = stand(made, "b1", "onion")
    made, _ = add_structure(made, "wall", rectangle(2.0, 0.3, center=(-4.0, 0.0)), 1.8)
    return made


@pytest.fixture
def hand(open_hand) -> Hand:
    return open_hand(full())


# -- crops ------------------------------------------------------------------------------------


def test_the_crop_model_keeps_the_rules_of_models(hand: Hand, qtmodeltester) -> None:
    model = CropModel(hand.document)
    qtmodeltester.check(model)
    qtmodeltester.check(hand.window.docks.crops.list.model())
    hand.document.edit("Name", lambda g: put_variety(g, crop="carrot", name="Nantes ‘&’")[0])
    qtmodeltester.check(model)
    assert ("carrot", "Nantes ‘&’") in [(crop.key, variety) for crop, variety in model.rows]


def test_searching_finds_the_crop_and_clearing_shows_all(hand: Hand) -> None:
    search = hand.window.docks.crops.search
    everything = hand.crops_shown()
    assert len(everything) > 100
    QTest.keyClicks(search, "courg")
    assert hand.crops_shown()[0] == "courgette"
    assert len(hand.crops_shown()) < 20
    QTest.keyClick(search, Qt.Key.Key_Escape)
    assert hand.crops_shown() == everything


def test_searching_for_nothing_there_is_says_so(hand: Hand) -> None:
    crops = hand.window.docks.crops
    QTest.keyClicks(crops.search, "zzzz")
    assert crops.none.isVisible()
    QTest.keyClick(crops.search, Qt.Key.Key_Return)
    assert hand.view.gesture is None


def test_an_own_variety_is_found_by_its_name(hand: Hand) -> None:
    hand.document.edit("Name", lambda g: put_variety(g, crop="carrot", name="Old Amber")[0])
    QTest.keyClicks(hand.window.docks.crops.search, "amber")
    model = hand.window.docks.crops.list.model()
    assert model.index(model.rowCount() - 1, 0).data() == "Carrot ‘Old Amber’"


def test_arrow_down_goes_from_the_words_to_the_list(hand: Hand, qapp) -> None:
    crops = hand.window.docks.crops
    crops.search.setFocus()
    QTest.keyClick(crops.search, Qt.Key.Key_Down)
    assert qapp.focusWidget() is crops.list
    first = crops.list.currentIndex().row()
    QTest.keyClick(crops.list, Qt.Key.Key_Down)
    assert crops.list.currentIndex().row() == first + 1


def test_letters_in_the_list_go_to_a_crop_and_take_no_tool(hand: Hand, qapp) -> None:
    crops = hand.window.docks.crops
    crops.list.setFocus()
    hand.key(Qt.Key.Key_P)
    assert crops.list.currentIndex().data().startswith("P")
    assert hand.view.tool == "select"


def test_summaries_follow_the_units(hand: Hand) -> None:
    hand.document.edit("Units", lambda g: g.with_(site=g.site.with_(units="feet_inches")))
    model = hand.window.docks.crops.model
    row = next(i for i, (crop, _) in enumerate(model.rows) if crop.key == "carrot")
    assert " in" in model._summary(*model.rows[row])


# -- outline ----------------------------------------------------------------------------------


def words(hand: Hand) -> list[str]:
    tree = hand.window.docks.contents
    hand.window.docks.left.setCurrentWidget(tree)
    found = []
    for i in range(tree.topLevelItemCount()):
        item = tree.topLevelItem(i)
        found.append(item.text(0))
        found += [item.child(j).text(0) for j in range(item.childCount())]
    return found


def test_everything_on_the_sheet_is_in_the_outline(hand: Hand) -> None:
    found = words(hand)
    assert [text.split()[0] for text in found] == ["North", "Carrot", "Onion", "South", "wall"]
    hand.document.select(["b2"])
    hand.do("delete")
    assert len(words(hand)) == 4
    hand.do("undo")
    assert words(hand) == found


def test_an_outline_behind_its_tab_costs_nothing_until_it_is_shown(hand: Hand, monkeypatch) -> None:
    tree, told = hand.window.docks.contents, []
    monkeypatch.setattr(tree, "_words", lambda key: told.append(key) or key)
    hand.document.select(["b2"])
    hand.do("delete")
    assert told == []
    hand.window.docks.left.setCurrentWidget(tree)
    assert set(told) == {"b1", "p1", "p2", "s1"}
    assert tree.topLevelItemCount() == 2


def test_selecting_in_the_outline_selects_on_the_sheet(hand: Hand) -> None:
    hand.window.docks.left.setCurrentWidget(hand.window.docks.contents)
    tree = hand.window.docks.contents
    item = tree.topLevelItem(0).child(1)
    QTest.mouseClick(
        tree.viewport(), Qt.MouseButton.LeftButton, pos=tree.visualItemRect(item).center() + QPoint(4, 0)
    )
    assert hand.selected() == {"p2"}
    QTest.keyClick(tree, Qt.Key.Key_Down)
    assert hand.selected() == {"b2"}
    QTest.keyClick(tree, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert hand.selected() == {"b2", "s1"}


def test_selecting_on_the_sheet_selects_in_the_outline(hand: Hand) -> None:
    hand.click((0.0, -2.0))
    assert [item.text(0).split()[0] for item in hand.window.docks.contents.selectedItems()] == ["South"]
    hand.click((3.8, 0.0))
    assert hand.window.docks.contents.selectedItems() == []
    hand.do("select all")
    assert len(hand.window.docks.contents.selectedItems()) == 3


def test_delete_in_the_outline_deletes_what_is_selected(hand: Hand) -> None:
    hand.window.docks.left.setCurrentWidget(hand.window.docks.contents)
    hand.document.select(["b2"])
    hand.window.docks.contents.setFocus()
    hand.key(Qt.Key.Key_Delete)
    assert [b.id for b in hand.garden.beds] == ["b1"]


def test_only_what_is_seen_in_a_year_stays_selected(hand: Hand) -> None:
    hand.document.select(["p1", "b2"])
    hand.document.show_year(2027)
    assert hand.selected() == {"b2"}
    assert words(hand) == [text for text in words(hand) if not text.startswith("Carrot")]


# -- access -----------------------------------------------------------------------------------


def unnamed(window: QWidget) -> list[str]:
    found = []
    for widget in window.findChildren(QWidget):
        # Parts of other controls, and words that can be selected, speak for themselves.
        inner = isinstance(widget, (QLabel, QScrollArea, QTabBar)) or widget.objectName().startswith("qt_")
        inner = inner or any(isinstance(p, QComboBox) for p in (widget.parent(), widget.parent().parent()))
        inner = inner or (
            isinstance(widget.parent(), QAbstractScrollArea) and widget is widget.parent().viewport()
        )
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and not inner:
            action = getattr(widget, "defaultAction", lambda: None)()
            name = (
                widget.accessibleName() or getattr(widget, "text", str)() or (action.text() if action else "")
            )
            if not name.strip():
                found.append(f"{type(widget).__name__} in {type(widget.parent()).__name__}")
    return found


def test_every_control_has_a_name(hand: Hand) -> None:
    for key in ("", "b1", "p1", "s1"):
        hand.document.select([key] if key else [])
    assert unnamed(hand.window) == []


def test_every_control_of_the_bed_dialog_has_a_name(hand: Hand, qtbot) -> None:
    from planner.desk.main_window.bed_dialog import BedDialog

    dialog = BedDialog(hand.window, "metric")
    assert [name for name in unnamed(dialog) if "spinbox" not in name.lower()] == []
    dialog.deleteLater()


def test_no_two_actions_share_a_key(hand: Hand) -> None:
    seen: dict[str, str] = {}
    for action in hand.window.findChildren(type(hand.window.action("copy"))):
        for keys in {keys.toString() for keys in action.shortcuts()}:
            assert seen.setdefault(keys, action.text()) == action.text()


def test_tab_reaches_every_field_of_a_form(hand: Hand) -> None:
    hand.document.select(["b1"])
    form = hand.window.docks.details.bed
    form.name.setFocus()
    seen = set()
    for _ in range(30):
        seen.add(QApplication.focusWidget())
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
    for field in (
        form.name,
        form.length,
        form.wide,
        form.across,
        form.up,
        form.turn,
        form.kind,
        form.first,
        form.notes,
    ):
        assert field in seen, field.accessibleName()


def test_lists_are_item_views_a_screen_reader_can_read(hand: Hand) -> None:
    for view in (hand.window.docks.crops.list, hand.window.docks.contents):
        assert isinstance(view, QAbstractItemView)
        assert view.accessibleName()
    index = hand.window.docks.crops.list.model().index(0, 0)
    assert index.data(Qt.ItemDataRole.AccessibleDescriptionRole)


def test_a_thing_says_its_kind_once(open_hand) -> None:
    from planner.desk.model.thing_words import thing_words

    made = garden(bed("b1", rectangle(), name="Bed 1"), bed("b2", rectangle(center=(0, -3)), name="West 1"))
    made, wall = add_structure(made, "wall", rectangle(3, 0.2, center=(0, 5)), 2.0, name="old wall")
    made, tunnel = add_structure(made, "tunnel", rectangle(3, 2, center=(9, 5)), 2.0)
    plan = open_hand(made).document.plan
    assert thing_words(plan, "b1").startswith("Bed 1, 4.80 × 1.20 m, 0 plantings")
    assert thing_words(plan, "b2").startswith("bed West 1, ")
    assert thing_words(plan, wall) == "old wall, 2.00 m high"
    assert thing_words(plan, tunnel) == "tunnel, 2.00 m high"
