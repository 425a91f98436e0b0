"""The walk with a real mouse on a real (virtual) screen: draw, drag a crop, undo, redo, save."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hand import Hand
from people.screen import Screen, missing, wait_for
from people.screen import screen as begin_screen
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QToolBar, QWidget

from planner import storage
from planner.garden import Garden, Planting, Rectangle, edits
from planner.plan import Plan

WIDTH, HEIGHT = 1360, 860


@pytest.fixture
def screen(tmp_path: Path) -> Iterator[Screen]:
    if lacking := missing():
        why = f"{' and '.join(lacking)} not installed"
        if os.environ.get("BEDWRIGHT_NEED_XVFB") == "1":
            pytest.fail(why)
        pytest.skip(why)
    with begin_screen(tmp_path, (WIDTH, HEIGHT)) as begun:
        yield begun


def test_a_bed_is_drawn_planted_undone_and_saved_with_the_mouse(
    screen: Screen, open_hand: Callable[..., Hand], tmp_path: Path
) -> None:
    path = tmp_path / "walk.bedwright"
    storage.save(Garden(), path)
    log = (tmp_path / "log.txt").open("w+", encoding="utf-8")
    env = {
        **screen.env,
        "QT_QPA_PLATFORM": "xcb",
        "QT_SCALE_FACTOR": "1",
        "BEDWRIGHT_SETTINGS": str(tmp_path / "walk.ini"),
        "PYTHONPATH": os.pathsep.join(
            [str(Path(storage.__file__).parents[2]), os.environ.get("PYTHONPATH", "")]
        ),
    }
    program = subprocess.Popen(
        [sys.executable, "-m", "planner", "open", str(path)], env=env, stdout=log, stderr=log
    )
    try:
        _walk(screen, open_hand(Garden()), path, program)
        assert program.poll() is None
    finally:
        program.terminate()
        try:
            program.wait(20)
        except subprocess.TimeoutExpired:
            program.kill()
            program.wait(20)
        log.seek(0)
        said = log.read()
        log.close()
    assert "Traceback" not in said, said


def _walk(screen: Screen, twin: Hand, path: Path, program: subprocess.Popen[bytes]) -> None:
    def window() -> str:
        assert program.poll() is None, "the program ended"
        return screen.xdotool("search", "--onlyvisible", "--name", "walk – Bedwright")

    screen.window = str(wait_for(window, "the window")).split()[0]
    screen.xdotool("windowmove", screen.window, 0, 0)
    screen.xdotool("windowsize", screen.window, WIDTH, HEIGHT)
    screen.xdotool("windowfocus", screen.window)
    screen.still()
    twin.view.show_all()  # as the program does when it opens a file

    def at(widget: QWidget, point: QPoint) -> tuple[int, int]:
        return widget.mapTo(twin.window, point).toTuple()

    def on_plan(x: float, y: float) -> tuple[int, int]:
        return at(twin.view.viewport(), twin.at((x, y)).toPoint())

    button = twin.window.findChild(QToolBar, "tools").widgetForAction(twin.window.action("tool rectangle"))
    screen.click(at(button, button.rect().center()))
    screen.drag(on_plan(-2.0, 1.0), on_plan(2.0, -0.2))
    wait_for(lambda: "*" in screen.title, "the bed to be drawn")

    # X11 binds Ctrl+D to Delete as well; here it is the window's own.
    screen.key("ctrl+d")
    screen.key("ctrl+s")
    wait_for(lambda: len(storage.load(path).beds) == 2, "the bed and its copy in the file")
    screen.key("ctrl+z")
    wait_for(lambda: "*" in screen.title, "the copy to be undone")

    crops = twin.window.docks.crops
    screen.click(at(crops.search, crops.search.rect().center()))
    screen.xdotool("type", "--delay", "20", "carrot")
    crops.search.setText("carrot")
    screen.still()
    middle = on_plan(0.5, 0.4)
    (left, top), (right, bottom) = on_plan(-1.9, 0.9), on_plan(-0.2, 0.0)

    def area() -> bytes:
        return screen.pixels()[top:bottom, left:right].tobytes()

    before = area()
    row = crops.list.visualRect(crops.list.model().index(0, 0)).center()
    screen.drag(at(crops.list.viewport(), row), middle, lambda: area() != before)

    def saved(plantings: int) -> Garden | None:
        found = storage.load(path)
        return found if len(found.plantings) == plantings else None

    wait_for(lambda: "*" in screen.title, "the title")
    screen.still()
    screen.key("ctrl+s")
    wait_for(lambda: saved(1), "the planting in the file")
    screen.key("ctrl+z")
    wait_for(lambda: "*" in screen.title, "the step to be undone")
    screen.key("ctrl+s")
    assert len(wait_for(lambda: saved(0), "the file without the planting").beds) == 1
    screen.key("ctrl+shift+z")
    wait_for(lambda: "*" in screen.title, "the step to be done again")
    screen.key("ctrl+s")
    garden = wait_for(lambda: saved(1), "the planting in the file again")

    (bed,) = garden.beds
    (planting,) = garden.plantings
    outline = Rectangle(center=(0.0, 0.4), length=4.0, width=1.2)
    assert bed.outline == outline
    assert (planting.crop, planting.bed, planting.plot.kind) == ("carrot", bed.id, "whole")
    expected, key = edits.add_bed(Garden(), outline)
    # A drop in a bed takes the spacing for beds.
    assert planting.arrangement.kind == "staggered"
    expected, _ = edits.add_planting(expected, key, "carrot", planting.year, arrangement=planting.arrangement)
    count = _plants(expected, expected.plantings[0])
    assert _plants(garden, planting) == count > 100


def _plants(garden: Garden, planting: Planting) -> int:
    return Plan(garden, planting.year).placed(planting).plants
