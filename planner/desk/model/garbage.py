"""Garbage collection in the window's thread only.

Python's collector runs in whatever thread happens to allocate.  Qt objects that only refer to each other (a document with its
undo stack and timers) were then destroyed in the thread of a background job, and Qt ended the program: its objects may only
be destroyed where they live.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, Qt, QTimer

#: From one look at the garbage to the next. [ms]
INTERVAL = 250


class WindowThreadCollector(QObject):
    """Collects garbage from a timer of the thread it is made in, in the place of Python's own collector."""

    def __init__(self) -> None:
        super().__init__()
        gc.disable()
        self._timer = QTimer(self)
        self._timer.setTimerType(Qt.TimerType.CoarseTimer)
        self._timer.timeout.connect(self.collect)
        self._timer.start(INTERVAL)

    def collect(self) -> None:
        """Collect the oldest generation of which there is enough, as Python's own collector does."""
        counts, thresholds = gc.get_count(), gc.get_threshold()
        for generation in (2, 1, 0):
            if counts[generation] > thresholds[generation]:
                gc.collect(generation)
                return
