"""The walk with a real mouse on a real (virtual) screen: draw, drag a crop, undo, redo, save."""

from __future__ import annotations

import os
import shutil
import struct
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

import numpy as np
import pytest
from hand import Hand
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QToolBar, QWidget

from planner import storage
from planner.garden import Garden, Planting, Rectangle, edits
from planner.plan import Plan

WIDTH, HEIGHT = 1360, 860
#: Longest wait for anything. [s]
PATIENCE = 60.0


def wait_for(condition: Callable[[], object], what: str) -> object:
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        with suppress(OSError, subprocess.CalledProcessError, struct.error):
            if found := condition():
                return found
        time.sleep(0.05)
    pytest.fail(f"waited {PATIENCE:.0f} s for {what}")


class Screen:
    """A virtual screen with a mouse and keys."""

    def __init__(self, display: str, picture: Path) -> None:
        self.env = {**os.environ, "DISPLAY": display}
        self.picture = picture
        self.window = ""
        self.pointer = QPoint(0, 0)

    def xdotool(self, *words: object) -> str:
        done = subprocess.run(
            ["xdotool", *map(str, words)],
            env=self.env,
            check=True,
            capture_output=True,
            text=True,
            timeout=20,
        )
        return done.stdout.strip()

    def pixels(self, left: int = 0, top: int = 0, width: int = WIDTH, height: int = HEIGHT) -> bytes:
        """A part of the screen, as the X server holds it."""
        data = self.picture.read_bytes()
        head = struct.unpack(">25I", data[:100])
        start, line, each = head[0] + head[19] * 12, head[12], head[11] // 8
        return b"".join(
            data[start + y * line + left * each : start + y * line + (left + width) * each]
            for y in range(top, top + height)
        )

    def still(self) -> None:
        """Wait until something is drawn and nothing moves any more."""
        last, alike = np.zeros(0, np.uint8), 0

        def steady() -> bool:
            nonlocal last, alike
            time.sleep(0.1)
            before, last = last, np.frombuffer(self.pixels(), np.uint8)
            # A caret may blink.  On a busy machine the window takes its time between two steps of its layout.
            same = before.size == last.size and np.count_nonzero(before != last) < 600
            alike = alike + 1 if same and len(np.unique(last)) > 8 else 0
            return alike >= 6

        wait_for(steady, "a still picture")

    def go(self, to: QPoint) -> None:
        for k in range(1, 9):
            x = self.pointer.x() + (to.x() - self.pointer.x()) * k / 8
            y = self.pointer.y() + (to.y() - self.pointer.y()) * k / 8
            self.xdotool("mousemove", round(x), round(y))
        self.pointer = to

    def drag(self, start: QPoint, end: QPoint, until: Callable[[], bool] | None = None) -> None:
        self.go(start)
        self.xdotool("mousedown", 1)
        self.go(end)
        if until is not None:
            wait_for(until, "the picture to follow the drag")
        self.xdotool("mouseup", 1)

    def click(self, at: QPoint) -> None:
        self.go(at)
        self.xdotool("click", 1)

    def key(self, keys: str) -> None:
        self.xdotool("key", "--clearmodifiers", keys)

    @property
    def title(self) -> str:
        return self.xdotool("getwindowname", self.window)


@pytest.fixture
def screen(tmp_path: Path) -> Iterator[Screen]:
    missing = [tool for tool in ("Xvfb", "xdotool") if shutil.which(tool) is None]
    if missing:
        why = f"{' and '.join(missing)} not installed"
        if os.environ.get("BEDWRIGHT_NEED_XVFB") == "1":
            pytest.fail(why)
        pytest.skip(why)
    out, into = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(into), "-screen", "0", f"{WIDTH}x{HEIGHT}x24", "-dpi", "96", "-nolisten", "tcp",
         "-fbdir", str(tmp_path)],
        pass_fds=(into,),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )  # fmt: skip
    os.close(into)
    try:
        with os.fdopen(out) as answer:
            number = answer.readline().strip()
        assert number, "Xvfb did not start"
        yield Screen(f":{number}", tmp_path / "Xvfb_screen0")
    finally:
        server.terminate()
        server.wait(20)


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

    def at(widget: QWidget, point: QPoint) -> QPoint:
        return widget.mapTo(twin.window, point)

    def on_plan(x: float, y: float) -> QPoint:
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
    area = (on_plan(-1.9, 0.9), on_plan(-0.2, 0.0))
    box = (area[0].x(), area[0].y(), area[1].x() - area[0].x(), area[1].y() - area[0].y())
    before = screen.pixels(*box)
    row = crops.list.visualRect(crops.list.model().index(0, 0)).center()
    screen.drag(at(crops.list.viewport(), row), middle, lambda: screen.pixels(*box) != before)

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
