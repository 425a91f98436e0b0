"""Garbage collection in the window's thread only.

Python's collector runs in whatever thread happens to allocate.  Qt objects that only refer to each other (a document with its
undo stack and timers) were then destroyed in the thread of a background job, and Qt ended the program: its objects may only
be destroyed where they live.
"""

from __future__ import annotations

import gc
import time

from PySide6.QtCore import QObject, Qt, QTimer

#: From one look at the garbage to the next. [ms]
INTERVAL = 250
#: So many new objects from one look to the next are those of a garden that was opened: they stay, and are not looked through.
MANY = 50_000
#: Everything is looked through when nothing was done for so long ... [s]
QUIET = 4.0
#: ... once so many objects were set aside since.
WORTH = 200_000

_worked_at = 0.0


def note_work() -> None:
    """Something is going on in the window: looking through everything waits."""
    global _worked_at
    _worked_at = time.monotonic()


class WindowThreadCollector(QObject):
    """Collects garbage from a timer of the thread it is made in, in the place of Python's own collector.

    What outlives two collections is set aside: looking through a large garden takes a quarter of a second, and would
    stop the window in the midst of work.  All of it is looked through while nothing goes on.
    """

    def __init__(self) -> None:
        super().__init__()
        gc.disable()
        self._set_aside = 0
        self._timer = QTimer(self)
        self._timer.setTimerType(Qt.TimerType.CoarseTimer)
        self._timer.timeout.connect(self.collect)
        self._timer.start(INTERVAL)

    def collect(self) -> None:
        """Collect the garbage among new objects; among all while nothing goes on."""
        counts, thresholds = gc.get_count(), gc.get_threshold()
        if counts[0] > MANY:
            self._set_aside += counts[0]
            gc.freeze()
        elif self._set_aside > WORTH and time.monotonic() > _worked_at + QUIET:
            self._set_aside = 0
            collect_all()
            gc.freeze()
        elif counts[1] > thresholds[1]:
            gc.collect(1)
            gc.freeze()
        elif counts[0] > thresholds[0]:
            self._set_aside += counts[0]
            gc.collect(0)


def collect_all() -> None:
    """Collect all garbage, among what was set aside too."""
    gc.unfreeze()
    gc.collect()
