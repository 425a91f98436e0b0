"""A window on a thousand beds with its findings shown: an edit, the findings after it, and the memory once the light is known."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from bench.bench_edit import big_garden
from bench.figures import Measured, ms, percentile

BEDS, EDITS = 1_000, 40
#: Wait for what comes by itself, at most. [s]
PATIENCE = 120.0

_LIGHT = """
import sys, time
sys.path[:0] = ["tests", "."]
from planner.desk.app import application
from planner.desk.main_window.window import Window
from planner.desk.model.document import Document
from bench.bench_edit import big_garden
from PySide6.QtCore import QSettings
app = application()
garden = big_garden(1_000)
garden = garden.with_(site=garden.site.with_(latitude=52.0, longitude=0.0))
settings = QSettings("/nonexistent/none.ini", QSettings.Format.IniFormat)
window = Window(settings, document=Document(garden))
window.resize(1600, 1000)
window.show()
shares = [0.0]
window.findings.light_progressed.connect(shares.append)
while shares[-1] < 1:
    app.processEvents()
    time.sleep(0.005)
status = open("/proc/self/status").read().split()
print(int(status[status.index("VmHWM:") + 1]) / 1024)
"""


def measure() -> list[Measured]:
    """Processor time of the window's thread; the light is left out but for the memory."""
    from PySide6.QtCore import QSettings

    from planner.desk.app import application
    from planner.desk.main_window.window import Window
    from planner.desk.model import findings_model
    from planner.desk.model.document import Document
    from planner.garden import edits

    app = application()
    findings_model.AFTER_EDIT = 250  # apart from the edit, however long that takes
    document = Document(big_garden(BEDS))
    window = Window(QSettings("/nonexistent/none.ini", QSettings.Format.IniFormat), document=document)
    window.findings.light = False
    window.resize(1600, 1000)
    window.show()
    window.docks.right.setCurrentWidget(window.docks.findings)
    published: list[float] = []
    window.findings.changed.connect(lambda: published.append(time.monotonic()))

    def turn() -> float:
        begun = time.thread_time()
        app.processEvents()
        return time.thread_time() - begun

    def until(done: Callable[[], bool]) -> float:
        """The longest turn until something is done, and a few after it."""
        end, longest = time.monotonic() + PATIENCE, 0.0
        while not done() and time.monotonic() < end:
            longest = max(longest, turn())
            time.sleep(0.002)
        return max(longest, *(turn() for _ in range(5)))

    until(lambda: bool(published) and not document.unplaced)
    edited, after = [], []
    for number in range(EDITS + 1):
        bed, before = document.garden.beds[7 * number].id, len(published)
        begun = time.thread_time()
        document.edit("Move", lambda garden, key=bed: edits.move_things(garden, [key], 0.01, 0.0))  # type: ignore[misc]
        app.processEvents()
        edited.append(time.thread_time() - begun)
        after.append(until(lambda there=before: len(published) > there))  # type: ignore[misc]
    found = len(window.findings.all)
    document.undo_stack.setClean()
    window.close()
    done = subprocess.run(
        [sys.executable, "-c", _LIGHT],
        check=True,
        capture_output=True,
        text=True,
        env={**os.environ, "PYTHONPATH": "."},
        cwd=Path(__file__).parents[2],
    )
    megabytes = float(done.stdout.split()[-1])
    work = f"{BEDS:,} beds, {found:,} findings shown"
    lines = []
    for name, times, wanted in ((f"{work}: one edit", edited, 0.03), ("longest turn after it", after, 0.05)):
        ours, middle = percentile(times[1:], 0.95), percentile(times[1:], 0.5)
        lines.append(
            Measured(f"{name}, 95 %", ms(ours), f"median {ms(middle)}", "", ms(wanted), ours <= wanted)
        )
    told = f"{megabytes:.0f} MB"
    return [*lines, Measured("memory with the light known", told, "", "", "350 MB", megabytes <= 350)]


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
