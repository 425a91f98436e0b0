"""Every sample is painted at every screen scale, in light and dark, near and far, without a fault."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

_PAINT = """
import sys
from PySide6.QtCore import QSettings
from planner import resources
from planner.desk.app import application
from planner.desk.main_window.window import Window

faults = []
sys.excepthook = lambda *fault: faults.append(fault[1])
app = application()
window = Window(QSettings(sys.argv[1], QSettings.Format.IniFormat))
window.resize(1000, 700)
window.show()
for path in sorted(resources.sample_folder().glob("*.bedwright")):
    window.files.open_sample(path.stem)
    for look in ("light", "dark"):
        window.look.choose(look)
        for day in (window.document.day, None):
            window.document.show_day(day)
            for zoom in (8, 40, 160, 900) if sys.argv[2] == "1" else (8, 160) if look == "light" else (40, 900):
                window.view.scale_to(zoom)
                app.processEvents()
                picture = window.view.grab()
                assert not picture.isNull()
for number in range(window.pages.count()):
    window.pages.setCurrentIndex(number)
    app.processEvents()
assert not faults, faults
window.view.light.wait()
print("painted")
"""


@pytest.mark.parametrize("factor", ["1", "1.5", "2"])
def test_all_samples_are_painted(factor, tmp_path):
    env = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "QT_SCALE_FACTOR": factor}
    done = subprocess.run(
        [sys.executable, "-c", _PAINT, str(tmp_path / "s.ini"), factor],
        capture_output=True,
        text=True,
        env={**env, "BEDWRIGHT_STATE": str(tmp_path)},
        timeout=600,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    assert done.stdout.split() == ["painted"]
