"""Does the window freeze?  Watches the event loop over a scripted session, and tells what keeps it for too long.

Time is that of the window's thread (CPU), so that other programs on the machine do not count; what waits for a file or another
process is not in it, and nothing of the session does.
"""

from __future__ import annotations

import os
import sys
import threading
import time
import traceback
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from types import FrameType

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).parents[1] / "desk"))

from hand import FakePrompts, Hand
from PySide6.QtCore import QEventLoop, QObject, QPoint, QSettings, Qt, QTimer
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QTabWidget

from planner import resources, storage
from planner.desk.app import application
from planner.desk.main_window.early_reading import EarlyReading
from planner.desk.main_window.window import Window
from planner.desk.model.document import Document

#: Nothing keeps the event loop longer. [ms]
LIMIT = 100.0
#: From one beat to the next. [ms]
BEAT = 2
#: The loop turns for so long after a step, to paint and to check. [ms]
AFTER_STEP = 60
_TESTS = str(Path(__file__).parents[1])

Step = tuple[str, Callable[[], object]]


@dataclass
class Freeze:
    """What kept the event loop for too long.

    Attributes
    ----------
    step : str
        What was being done.
    ms : float
    where : str
        Function of ours that was seen at work most often meanwhile; empty where it was not seen.
    """

    step: str
    ms: float
    where: str = ""


@dataclass
class LoopWatch:
    """Beats in the event loop, and measures what lies between two beats.

    Attributes
    ----------
    step : str
        Name of what is being done.
    freezes : list of Freeze
    worst : dict
        Longest time between two beats by step. [ms]
    """

    limit: float = LIMIT
    step: str = "opening"
    freezes: list[Freeze] = field(default_factory=list)
    worst: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self._thread = threading.get_ident()
        self._ends = threading.Event()
        self._beat_at, self._cpu_at = time.monotonic(), time.thread_time()
        self._seen: dict[str, int] = {}
        self._timer = QTimer(timerType=Qt.TimerType.PreciseTimer, interval=BEAT)
        self._timer.timeout.connect(self.beat)
        self._watcher = threading.Thread(target=self._watch, daemon=True)

    def __enter__(self) -> LoopWatch:
        self._timer.start()
        self._watcher.start()
        self.beat(count=False)
        return self

    def __exit__(self, *_: object) -> None:
        self._timer.stop()
        self._ends.set()
        self._watcher.join()

    def beat(self, *, count: bool = True) -> None:
        """The loop has turned."""
        cpu = time.thread_time()
        took, self._cpu_at = 1_000 * (cpu - self._cpu_at), cpu
        self._beat_at = time.monotonic()
        seen, self._seen = self._seen, {}
        if not count:
            return
        self.worst[self.step] = max(took, self.worst.get(self.step, 0.0))
        if took > self.limit:
            self.freezes.append(Freeze(self.step, took, max(seen, key=seen.__getitem__, default="")))

    def _watch(self) -> None:
        while not self._ends.wait(0.01):
            if time.monotonic() - self._beat_at > self.limit / 2_000:
                frame = sys._current_frames().get(self._thread)
                place = _place(frame)
                self._seen[place] = self._seen.get(place, 0) + 1

    def tell(self) -> list[str]:
        """Lines: for each step that froze how often, the worst time, and where; the worst first."""
        by_step: dict[str, list[Freeze]] = {}
        for one in self.freezes:
            by_step.setdefault(one.step, []).append(one)
        order = sorted(by_step.items(), key=lambda item: -max(one.ms for one in item[1]))
        lines = []
        for step, found in order:
            worst = max(found, key=lambda one: one.ms)
            lines.append(f"{worst.ms:6.0f} ms  {len(found):3} x  {step}: {worst.where or 'not seen where'}")
        return lines


def _place(frame: FrameType | None) -> str:
    """The innermost function of the program in a stack, with that which the event loop called."""
    ours = [
        entry
        for entry in traceback.extract_stack(frame)
        if "/planner/" in entry.filename and not entry.filename.startswith(_TESTS)
    ]
    if not ours:
        return ""
    names = [f"{entry.filename.partition('/planner/')[2].removesuffix('.py')}.{entry.name}" for entry in ours]
    return names[-1] if len(names) == 1 else f"{names[0]} > {names[-1]}"


def turn(milliseconds: int) -> None:
    """Let the event loop turn."""
    loop = QEventLoop()
    QTimer.singleShot(milliseconds, loop, loop.quit)
    loop.exec()


def run(watch: LoopWatch, steps: Iterator[Step], until: float) -> int:
    """Take steps from within the event loop until they or the time are over; returns their number."""
    taken = 0
    for name, work in steps:
        if time.monotonic() > until:
            break
        here = QObject()
        watch.step = name
        QTimer.singleShot(0, here, work)
        turn(AFTER_STEP)
        taken += 1
    return taken


def session(hand: Hand, rng: Random) -> Iterator[Step]:
    """What a person does in a garden, over and over: look, choose, plant, move, undo, turn the days, read the pages."""
    window, view, document = hand.window, hand.view, hand.document

    def wheel(by: int) -> None:
        at = view.viewport().rect().center().toPointF()
        event = QWheelEvent(
            at, at, QPoint(), QPoint(0, by), Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier,
            Qt.ScrollPhase.NoScrollPhase, False,
        )  # fmt: skip
        view.wheelEvent(event)

    def choose(kind: str) -> None:
        things = {"bed": document.plan.beds, "planting": document.plan.plantings}[kind]
        document.select([rng.choice(list(things)).id])

    def plant() -> None:
        choose("bed")
        crop = document.catalogue.crops[rng.choice(("carrot", "lettuce", "leek", "cabbage", "radish"))]
        view.place_crop(crop, by_key=True)

    def key(name: Qt.Key) -> None:
        QTest.keyClick(view, name)

    def day() -> None:
        span = document.plan.span
        document.show_day(span.first + (span.last - span.first) * rng.random())

    while True:
        yield "show the sheet", window.pages.show_sheet
        yield "show all", window.action("show all").trigger
        for _ in range(6):
            yield "zoom with the wheel", lambda: wheel(rng.choice((120, -120)))
        for _ in range(3):
            yield "select a bed", lambda: choose("bed")
            yield "select a planting", lambda: choose("planting")
        for _ in range(3):
            yield "hold a crop over a bed", plant
            yield "go on to the next piece", lambda: key(Qt.Key.Key_Tab)
            yield "plant it", lambda: key(Qt.Key.Key_Return)
            yield "let go", lambda: key(Qt.Key.Key_Escape)
        for _ in range(3):
            yield "select a bed", lambda: choose("bed")
            yield "nudge a bed", lambda: key(Qt.Key.Key_Right)
            yield "turn a bed", window.action("turn left").trigger
        for _ in range(8):
            yield "undo", window.action("undo").trigger
        for _ in range(2):
            yield "redo", window.action("redo").trigger
        for _ in range(6):
            yield "another day", day
        yield "all of the year", window.action("whole year").trigger
        yield "a day again", window.action("whole year").trigger
        for switch in ("shadow", "light map", "access"):
            yield f"show {switch}", window.action(switch).trigger
            yield "another day", day
            yield f"hide {switch}", window.action(switch).trigger
        for _ in range(2):
            yield "another year", lambda: document.show_year(rng.choice((2025, 2026, 2027)))
        for number in range(window.pages.count()):
            yield f"page {window.pages.tabText(number)}", lambda n=number: window.pages.setCurrentIndex(n)
            yield "undo behind a page", window.action("undo").trigger
            inner = window.pages.widget(number)
            if isinstance(inner, QTabWidget):
                for part in range(inner.count()):
                    name = f"page {window.pages.tabText(number)}, {inner.tabText(part)}"
                    yield name, lambda i=inner, p=part: i.setCurrentIndex(p)


def opened(folder: str, document: Document) -> Hand:
    """A window of its own, which has been there for a while."""
    os.environ["BEDWRIGHT_STATE"] = folder
    settings = QSettings(str(Path(folder) / "settings.ini"), QSettings.Format.IniFormat)
    window = Window(settings, FakePrompts(), document)
    window.resize(1360, 860)
    window.show()
    early = EarlyReading(window)
    loop = QEventLoop()
    early.ended.connect(loop.quit)
    early.begin()
    loop.exec()
    return Hand(window)


def closed(hand: Hand) -> None:
    """Close a window for good."""
    hand.window.prompts.answers["leave"] = "leave"
    hand.window.close()
    hand.window.deleteLater()
    application().processEvents()
    # What was copied is ours: Qt's platform without a screen would destroy it when Python is gone already.
    QApplication.clipboard().clear()


def watched(sample: str, seconds: float, seed: int, folder: str) -> LoopWatch:
    """Work in a sample for so long, and watch."""
    application()
    hand = opened(folder, Document())
    turn(300)
    garden = storage.load(resources.sample_folder() / f"{sample}.bedwright")
    try:
        with LoopWatch() as watch:
            steps: Iterator[Step] = iter([("open a garden", lambda: hand.document.open(garden))])
            run(watch, steps, time.monotonic() + seconds)
            watch.step = "after opening"
            turn(1_500)
            steps = session(hand, Random(seed))
            run(watch, steps, time.monotonic() + seconds)
    finally:
        closed(hand)
    return watch


def freezes(seconds: float, seed: int, samples: tuple[str, ...] = ("hollow_lane", "wattle_bank")) -> str:
    """What froze the window in samples, as text: one line a kind of step."""
    import tempfile

    told = []
    for sample in samples:
        with tempfile.TemporaryDirectory() as folder:
            watch = watched(sample, seconds / len(samples), seed, folder)
        held = len(watch.worst) - len({one.step for one in watch.freezes})
        told.append(f"freezes over {LIMIT:.0f} ms in {sample}: {held} kinds of steps held, these did not:")
        told += watch.tell() or ["     none"]
    return "\n".join(told)
