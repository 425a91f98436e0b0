"""Two screens of unlike scale, the second at 300 %: the window goes over, is sharp there, holds all it shows, and comes back."""

from __future__ import annotations

import json
import os
import subprocess
import sys

_GOES_OVER = """
import sys
sys.path[:0] = {paths!r}
from PySide6.QtCore import QPoint, QSettings
from narrow import cut, pages_cut, show_every_form
from planner.desk.app import application
from planner.desk.main_window.window import Window

app = application()
settings = QSettings(sys.argv[1], QSettings.Format.IniFormat)
window = Window(settings)
window.resize(1100, 640)
window.show()
window.files.open_sample("hollow_lane")
near, far = sorted(app.screens(), key=lambda screen: screen.geometry().left())
assert (near.devicePixelRatio(), far.devicePixelRatio()) == (1, 3)
assert window.screen() is near

def soft(times):
    # Share of the squares of so many pixels in which all are alike, of those with lines: 1 for a picture made larger.
    picture = window.view.grab().toImage()
    assert picture.devicePixelRatio() == times
    edges = alike = 0
    for y in range(300, 900, times):
        for x in range(300, 1500, times):
            here = {{picture.pixel(x + a, y + b) for a in range(times) for b in range(times)}}
            beside = picture.pixel(x - 1, y)
            edges += len(here) > 1 or beside not in here
            alike += len(here) == 1 and beside not in here
    assert edges > 1000, edges
    return alike / edges

window.move(far.geometry().topLeft() + QPoint(20, 20))
for _ in range(5):
    app.processEvents()
assert window.screen() is far, window.screen().name()
assert window.size().toTuple() == (1100, 640)
assert soft(3) < 0.6, soft(3)
faults = [fault for name in show_every_form(window) for fault in cut(window, name)]
assert not faults, faults
assert not pages_cut(window), pages_cut(window)
window.view.light.wait()
window.close()
again = Window(settings)
again.show()
app.processEvents()
assert again.screen() is far
again.move(near.geometry().topLeft())
app.processEvents()
assert window.view.devicePixelRatio() == 3 and again.view.grab().devicePixelRatio() == 1
print("fits")
sys.stdout.flush()
again.view.light.wait()
again.findings.stop()
"""

SCREENS = [
    {"name": "near", "x": 0, "y": 0, "width": 1920, "height": 1080, "logicalDpi": 96, "dpr": 1},
    {"name": "far", "x": 1920, "y": 0, "width": 3840, "height": 2160, "logicalDpi": 96, "dpr": 1},
]


def test_a_window_on_two_screens(tmp_path) -> None:
    screens = tmp_path / "screens.json"
    screens.write_text(json.dumps({"screens": SCREENS}))
    here = os.path.dirname(__file__)
    done = subprocess.run(
        [
            sys.executable,
            "-c",
            _GOES_OVER.format(paths=[here, os.path.dirname(here)]),
            str(tmp_path / "s.ini"),
        ],
        capture_output=True,
        text=True,
        env={
            **os.environ,
            "QT_QPA_PLATFORM": f"offscreen:configfile={screens}",
            "QT_SCREEN_SCALE_FACTORS": "near=1;far=3",  # Qt gives windows on this platform no ratio of its own
            "BEDWRIGHT_STATE": str(tmp_path),
        },
        timeout=300,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    assert done.stdout.splitlines()[-1] == "fits"
