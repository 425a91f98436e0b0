"""Processes that are killed while they save and while they journal steady work."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from random import Random

from planner.garden import Garden
from planner.storage import load
from planner.storage.unsaved import unsaved_of

#: Most work that may be lost. [s]
AT_RISK = 1.0

_SAVING = """
import sys
from pathlib import Path
sys.path[:0] = [{tests!r}, {root!r}]
from making import bed, garden, rectangle
from planner.storage import save
number = 0
print("begun", flush=True)
while True:
    number += 1
    beds = [bed(f"b{{n}}", rectangle(1, 0.5, center=(0, n)), name=f"Bed {{number}}") for n in range(60)]
    save(garden(*beds), {file!r})
"""

_EDITING = """
import os, sys, time
from pathlib import Path
sys.path[:0] = [{tests!r}, {root!r}]
os.environ["QT_QPA_PLATFORM"] = "offscreen"
os.environ["BEDWRIGHT_STATE"] = {own!r}
from making import rectangle
from PySide6.QtCore import QCoreApplication, QTimer
from planner.desk.model.document import Document
from planner.desk.model.recovery import Recovery
from planner.garden import edits as e
from planner.storage import read
app = QCoreApplication([])
document = Document()
document.open(read({file!r}).garden, Path({file!r}))
recovery = Recovery(document)
log = open({log!r}, "w")
def step():
    number = len(document.garden.beds)
    document.edit("Add", lambda g: e.add_bed(g, rectangle(1, 0.5, center=(0, number)))[0])
    log.write(f"{{number + 1}} {{time.time()}}\\n")
    log.flush()
timer = QTimer()
timer.timeout.connect(step)
timer.start({pause})
print("begun", flush=True)
app.exec()
"""


def _run_and_kill(program: str, after: float) -> None:
    command = [sys.executable, "-c", program]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        process.stdout.readline()
        time.sleep(after)
        process.send_signal(signal.SIGKILL)


def _places() -> dict[str, str]:
    tests = Path(__file__).parents[1]
    return {"tests": str(tests), "root": str(tests.parent)}


def while_saving(rng: Random) -> str:
    """The file is whole, whenever the process is killed."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plot.bedwright"
        _run_and_kill(_SAVING.format(file=str(file), **_places()), rng.uniform(0.02, 0.4))
        if not file.exists():
            return ""  # killed before its first save
        beds = load(file).beds
        return "" if len(beds) == 60 and len({bed.name for bed in beds}) == 1 else "a mixture of two gardens"


def while_editing(rng: Random) -> str:
    """All but the last second of steady work is found again."""
    from planner.storage import save

    with tempfile.TemporaryDirectory() as folder:
        file, own, log = Path(folder) / "plot.bedwright", Path(folder) / "own", Path(folder) / "log"
        save(Garden(), file)
        program = _EDITING.format(
            file=str(file), own=str(own), log=str(log), pause=rng.choice((20, 90, 250, 600)), **_places()
        )
        _run_and_kill(program, rng.uniform(0.6, 2.5))
        killed = time.time()
        made = [line.split() for line in log.read_text().splitlines() if line.count(" ") == 1]
        safe = max((int(number) for number, when in made if float(when) < killed - AT_RISK), default=0)
        found = unsaved_of(file, load(file), "", own)
        kept = max((len(one.garden.beds) for one in found if one.garden is not None), default=0)
        if any(one.garden is None for one in found):
            return f"a damaged journal: {[one.fault for one in found]}"
        return "" if kept >= safe else f"{safe} edits were older than {AT_RISK} s, and {kept} are kept"


ATTACKS = (
    {"kills while saving": while_saving, "kills while editing": while_editing} if os.name == "posix" else {}
)
