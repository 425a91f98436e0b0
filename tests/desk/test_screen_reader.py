"""What a screen reader gets of the window, heard over AT-SPI as it hears it: names, roles, values, announcements.

Orca and its like were not tried themselves.
"""

from __future__ import annotations

import itertools
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hand import Hand
from making import bed, garden, planting
from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFocusFrame, QLabel, QMenu

from planner import resources
from planner.storage import load

HERE = Path(__file__).parent / "screen_reader"
LAUNCHER = Path("/usr/libexec/at-spi-bus-launcher")
#: Words of the announcement that is waited for.
LAST = "new finding"


def _python_with_gi() -> str | None:
    for found in filter(None, (shutil.which("python3", path="/usr/bin"), sys.executable)):
        done = subprocess.run(
            [found, "-c", "import gi; gi.require_version('Atspi', '2.0'); from gi.repository import Atspi"],
            capture_output=True,
        )
        if done.returncode == 0:
            return found
    return None


@pytest.fixture(scope="module")
def heard(tmp_path_factory) -> tuple[list[dict[str, Any]], list[str]]:
    """The parts of the window that are heard, and what was announced while a planting was made by keys."""
    missing = [name for name in ("xvfb-run", "dbus-run-session", "sh") if shutil.which(name) is None]
    missing += [] if LAUNCHER.is_file() else ["at-spi2-core"]
    python = None if missing else _python_with_gi()
    if missing or python is None:
        pytest.skip(f"not installed: {', '.join(missing) or 'gi with Atspi (python3-pyatspi)'}")
    folder = tmp_path_factory.mktemp("heard")
    done = subprocess.run(
        [
            *("xvfb-run", "-a", "-s", "-screen 0 1600x1000x24", "dbus-run-session", "--", "sh"),
            *(HERE / "session.sh", sys.executable, python, HERE, folder, LAST),
        ],
        env={
            **os.environ,
            "QT_QPA_PLATFORM": "xcb",
            "QT_LINUX_ACCESSIBILITY_ALWAYS_ON": "1",
            "PYTHONPATH": str(HERE.parents[2]),
            "BEDWRIGHT_STATE": str(folder / "state"),
            "BEDWRIGHT_LANGUAGE": "en",
            "ORDERS": "Box lettuce",
        },
        capture_output=True,
        text=True,
        timeout=120,
    )
    lines = [line for line in done.stdout.splitlines() if line.startswith("[")]
    said = "\n".join(file.read_text()[-1000:] for file in folder.glob("*.err"))
    assert len(lines) == 2, f"{done.stderr[-500:]}\n{said}"
    return json.loads(lines[0]), json.loads(lines[1])


def test_everything_that_takes_keys_has_a_name_and_a_role(heard) -> None:
    reached = [node for node in heard[0] if {"focusable", "showing"} <= set(node["states"])]
    assert len(reached) > 40
    assert [node for node in reached if not node["name"] or node["role"] in ("unknown", "invalid")] == []
    choices = [node for node in reached if node["role"] == "combo box"]
    assert len(choices) > 3
    assert [node for node in choices if node["description"] in ("", node["name"])] == [], "value, but no name"


def test_the_outline_tells_every_thing_of_the_sheet(heard) -> None:
    nodes = heard[0]
    at = next(n for n, node in enumerate(nodes) if node["name"] == "Contents of the garden")
    assert nodes[at]["role"] == "tree"
    under = [node["name"] for node in nodes[at + 1 :] if node["role"] == "table cell"]
    plan = load(resources.sample_folder() / "balcony_boxes.bedwright")
    things = [thing.name for thing in (*plan.beds, *plan.structures)]
    assert [name for name in things if not any(line.startswith(name) for line in under)] == []
    assert len(under) == len(things) + len(plan.plantings) + 1  # the edge of the plot


def test_the_sheet_and_the_year_tell_what_is_drawn_in_them(heard) -> None:
    nodes = heard[0]
    plan = load(resources.sample_folder() / "balcony_boxes.bedwright")

    def below(role: str, name: str) -> list[dict[str, Any]]:
        at = next(n for n, node in enumerate(nodes) if (node["role"], node["name"]) == (role, name))
        deeper = [node["depth"] > nodes[at]["depth"] for node in nodes[at + 1 :]]
        return nodes[at + 1 : at + 1 + (deeper.index(False) if False in deeper else len(deeper))]

    drawn = below("canvas", "Plan")
    names = [node["name"] for node in drawn if node["role"] == "image"]
    assert len(names) == len(plan.beds) + len(plan.structures)
    assert all(any(thing.name in name for name in names) for thing in (*plan.beds, *plan.structures))
    listed = [node["name"] for node in below("list", "Year") if node["role"] == "list item"]
    assert len(listed) == len([one for one in plan.plantings if one.year == 2026])
    assert any(line.startswith("tomato in Pot. On its plot from ") for line in listed)
    ends = [node for node, after in itertools.pairwise(nodes) if after["depth"] <= node["depth"]]
    shown = [node for node in ends if "showing" in node["states"] and node["name"]]
    assert [node["name"] for node in shown if node["role"] == "filler"] == []


def test_fields_tell_their_values(heard) -> None:
    texts = {node["name"]: node["text"] for node in heard[0] if node["role"] == "text"}
    assert texts["Name of the garden"] == "Balcony boxes"
    assert texts["Reach into a bed"] == "0.60 m"
    (grid,) = [node for node in heard[0] if node["name"] == "Grid"]
    assert grid["role"] == "check box"
    assert "checked" in grid["states"]


def test_counts_and_findings_are_announced(heard) -> None:
    said = " ".join(heard[1])
    assert said.startswith("Planted 2 butterhead lettuce in Box left")
    assert "new findings; the first: Radish in Box left and butterhead lettuce both take 0.08 m²" in said


# -- in the process ---------------------------------------------------------------------------


def test_only_findings_of_an_edit_are_announced(open_hand, qtbot) -> None:
    hand: Hand = open_hand(garden(bed("b1"), planting()))
    announcer = hand.window.announcer
    qtbot.waitUntil(lambda: hand.window.findings.run is not None)
    assert "finding" not in announcer.last
    hand.document.select(["b1"])
    hand.view.place_crop(hand.document.catalogue.crops["lettuce"], by_key=True)
    QTest.keyClick(hand.view, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: "new finding" in announcer.last)
    hand.document.open(garden(bed("b1")))
    announcer.last = ""
    qtbot.waitUntil(lambda: hand.window.findings.run is not None and not hand.window.findings.all)
    qtbot.wait(300)
    assert announcer.last == ""


def test_a_day_that_is_chosen_by_keys_is_announced(open_hand, qtbot) -> None:
    hand: Hand = open_hand(garden(bed("b1")))
    hand.window.activateWindow()
    hand.window.ribbon.setFocus()
    QTest.keyClick(hand.window.ribbon, Qt.Key.Key_Home)
    qtbot.waitUntil(lambda: hand.window.announcer.last == "1 Jan.")


def test_a_message_is_heard_by_its_words(hand: Hand) -> None:
    hand.window.status.say("There is no room for 3 rows.")
    assert hand.window.status.message.accessibleName() == "There is no room for 3 rows."
    hand.window.status.say("")
    assert hand.window.status.message.accessibleName() == "Message"
    bad = [
        label.accessibleName()
        for label in hand.window.findChildren(QLabel)
        if label.text() and label.accessibleName() not in ("", label.text())
    ]
    assert bad == [], "the name is heard in place of the words"


def test_the_menu_of_a_thing_opens_by_key_in_the_outline(open_hand, qapp) -> None:
    hand: Hand = open_hand(load(resources.sample_folder() / "balcony_boxes.bedwright"))
    docks = hand.window.docks
    docks.left.setCurrentWidget(docks.contents)
    tree = docks.contents
    tree.setFocus()
    QTest.keyClick(tree, Qt.Key.Key_Home)
    QTest.keyClick(tree, Qt.Key.Key_Down)
    (chosen,) = hand.document.selected_plantings
    asked = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, QPoint(0, 0), QPoint(0, 0))
    QApplication.sendEvent(tree, asked)
    menu = next(menu for menu in hand.window.findChildren(QMenu) if menu.isVisible() and not menu.title())
    words = [action.text().replace("&", "") for action in menu.actions() if action.isEnabled()]
    assert {"Delete", "Copy", "Enter what happened…"} <= set(words)
    menu.close()
    QTest.keyClick(tree, Qt.Key.Key_Return)
    assert docks.details.isAncestorOf(QApplication.focusWidget())
    tree.setFocus()
    QTest.keyClick(tree, Qt.Key.Key_Delete)
    assert chosen not in hand.garden.plantings_by_id
    qapp.processEvents()
    QTest.keyClick(tree, Qt.Key.Key_End)
    (last,) = hand.document.selection
    assert last in hand.garden.structures_by_id


def test_keys_show_where_they_go_and_the_mouse_hides_it(open_hand, qapp) -> None:
    hand: Hand = open_hand(garden(bed("b1")))
    window, ring = hand.window, hand.window.focus_ring
    window.activateWindow()
    seen: dict[str, bool] = {}
    window.docks.crops.search.setFocus()
    for _ in range(60):
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        now = QApplication.focusWidget()
        qapp.processEvents()
        assert ring.frame is not None
        assert ring.frame.widget() is now
        assert ring.frame.isVisible() or not now.isVisible()
        inner = not isinstance(ring.frame, QFocusFrame)
        edge = now.mapTo(window, QPoint(0, now.height() // 2)) if inner else QPoint(-1, -1)
        if inner and now.isVisible():  # the other kind is Qt's own, outside of the widget
            colour = window.grab(QRect(edge, QSize(2, 1))).toImage().pixelColor(0, 0)
            assert colour == window.look.now.accent, type(now).__name__
        seen[type(now).__name__] = inner
        if now is window.docks.crops.search:
            break
    assert seen["SheetView"]
    assert seen["Ribbon"]
    assert len(seen) > 6
    before = window.grab().toImage()
    QTest.mouseClick(window.view.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(5, 5))
    window.view.setFocus()
    qapp.processEvents()
    assert ring.frame is None
    assert before != window.grab().toImage()
