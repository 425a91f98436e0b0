"""Menus made of a table of actions: keys, groups of which one is checked, switches."""

from __future__ import annotations

import pytest
from hand import Hand
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QWidget

from planner.desk.main_window.actions import LINE, Actions, Entry, Made, Submenu, Switch
from planner.desk.theme.palette import LookSwitch


@pytest.fixture
def owner(qapp):
    widget = QWidget()
    yield widget
    widget.deleteLater()


@pytest.fixture
def actions(owner) -> Actions:
    return Actions(owner, LookSwitch())


def test_a_menu_has_entries_lines_and_submenus_in_their_order(actions, owner):
    done: list[str] = []
    menu = QMenu(owner)
    actions.fill(
        menu,
        (
            Entry("cut", "Cu&t", lambda: done.append("cut"), QKeySequence.StandardKey.Cut),
            LINE,
            Submenu("more", "&More", (Entry("far", "&Far", lambda: done.append("far"), ("Ctrl+1", "F2")),)),
        ),
    )
    texts = [action.text() for action in menu.actions()]
    assert texts == ["Cu&t", "", "&More"]
    assert menu.actions()[1].isSeparator()
    actions["cut"].trigger()
    actions["far"].trigger()
    assert done == ["cut", "far"]
    assert [keys.toString() for keys in actions["far"].shortcuts()] == ["Ctrl+1", "F2"]
    assert actions.menu("more").actions() == [actions["far"]]
    assert actions.get("near") is None


def test_one_entry_of_a_group_is_checked_or_none(actions, owner):
    tools = tuple(
        Entry(name, name, lambda: None, group="tools", checked=name == "pick") for name in ("pick", "draw")
    )
    actions.fill(QMenu(owner), (*tools, Entry("other", "other", lambda: None)))

    def checked() -> list[str]:
        return [name for name in ("pick", "draw") if actions[name].isChecked()]

    assert checked() == ["pick"]
    actions["draw"].trigger()
    assert checked() == ["draw"]
    actions.check_in_group("tools", "pick")
    assert checked() == ["pick"]
    actions.check_in_group("tools", "other")
    assert checked() == []
    actions.check_in_group("tools", "draw")
    assert checked() == ["draw"]


def test_a_switch_that_is_on_at_first_is_switched_on(actions, owner):
    seen: list[tuple[str, bool]] = []
    actions.fill(
        QMenu(owner),
        (
            Switch("grid", "Grid", lambda on: seen.append(("grid", on)), on=True),
            Switch("map", "Map", lambda on: seen.append(("map", on))),
        ),
    )
    assert seen == [("grid", True)]
    actions["map"].trigger()
    actions["grid"].trigger()
    assert seen == [("grid", True), ("map", True), ("grid", False)]


def test_an_action_made_elsewhere_gets_its_keys_and_name(actions, owner):
    made = QAction("Undo", owner)
    actions.fill(QMenu(owner), (Made("undo", made, "Ctrl+Z", "undo"),))
    assert actions["undo"] is made
    assert made.shortcut() == QKeySequence("Ctrl+Z")
    assert not made.icon().isNull()


def test_a_key_written_out_goes_before_what_the_system_binds_besides(actions, owner, monkeypatch):
    bound = [QKeySequence("Del"), QKeySequence("Ctrl+D")]
    monkeypatch.setattr("planner.desk.main_window.actions.standard_bindings", lambda _key: bound)
    delete = Entry("delete", "&Delete", lambda: None, QKeySequence.StandardKey.Delete)
    copy = Entry("copy", "&Copy", lambda: None, "Ctrl+D")
    for order in ((delete, copy), (copy, delete)):
        made = Actions(owner, LookSwitch())
        made.fill(QMenu(owner), order)
        assert [keys.toString() for keys in made["delete"].shortcuts()] == ["Del"]
        assert [keys.toString() for keys in made["copy"].shortcuts()] == ["Ctrl+D"]


def test_two_entries_with_one_key_are_refused(actions, owner):
    actions.fill(QMenu(owner), (Entry("far", "&Far", lambda: None, "F2"),))
    with pytest.raises(ValueError, match="F2 is given to far and to near"):
        actions.fill(QMenu(owner), (Entry("near", "&Near", lambda: None, "F2"),))


def test_a_letter_typed_beside_the_plan_is_no_command(hand: Hand, qapp) -> None:
    window = hand.window
    window.activateWindow()
    units = window.docks.details.garden.unit
    for widget in (units, window.docks.crops.list):
        widget.setFocus()
        qapp.processEvents()
        QTest.keyClick(widget, Qt.Key.Key_R)
        assert hand.view.tool == "select"
    hand.view.setFocus()
    qapp.processEvents()
    QTest.keyClick(hand.view, Qt.Key.Key_R)
    assert hand.view.tool == "rectangle"


def test_a_letter_in_an_open_menu_is_no_key_of_a_tool(actions, owner, qapp):
    """What is accepted as an override is no shortcut: it goes to the menu."""
    menu = QMenu(owner)
    actions.fill(menu, (Entry("near", "&Near", lambda: None, "N"),))

    def is_kept_from_tools(key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> bool:
        event = QKeyEvent(QKeyEvent.Type.ShortcutOverride, key, held, "n")
        event.ignore()
        QApplication.sendEvent(owner, event)
        return event.isAccepted()

    owner.show()
    assert not is_kept_from_tools(Qt.Key.Key_N)
    menu.popup(owner.mapToGlobal(owner.rect().center()))
    assert is_kept_from_tools(Qt.Key.Key_N)
    assert not is_kept_from_tools(Qt.Key.Key_N, Qt.KeyboardModifier.ControlModifier)
    menu.close()
    qapp.processEvents()
    assert not is_kept_from_tools(Qt.Key.Key_N)
