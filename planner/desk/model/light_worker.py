"""The check of light beside the window: one job at a time, on a plan of its own."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal

from planner.checks import Finding, check_light
from planner.plan import Plan

#: Closing the window waits so long for a job to end. [ms]
PATIENCE = 5000


class _Job(QRunnable):
    def __init__(self, work: Callable[[], None]) -> None:
        super().__init__()
        self.work = work

    def run(self) -> None:
        """Do the work."""
        self.work()


class LightWorker(QObject):
    """Light findings and their mends, worked out in a thread.

    Its plan follows the window's from edit to edit, so that light is measured only where an edit
    changed what shades. Nothing but its one thread touches that plan, nor the findings' mends.

    Signals
    -------
    found : int, object
        Number of the question, and its findings.
    mended : str, int
        Key of a finding whose mends are known now, and how many there are.
    """

    found = Signal(int, object)
    mended = Signal(str, int)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = QThreadPool(self)
        self._pool.setMaxThreadCount(1)
        self._plan: Plan | None = None
        self.asked = 0

    def ask(self, plan: Plan) -> int:
        """Check the light of a plan, and say :attr:`found`; a question that was followed by another is dropped.

        Returns
        -------
        int
            Number of the question.
        """
        self.asked += 1
        number, garden, year = self.asked, plan.garden, plan.year
        first = plan.after(garden) if self._plan is None else None

        def work() -> None:
            if number != self.asked:
                return
            if self._plan is None:
                self._plan = first
            if self._plan is not None:
                self._plan = self._plan.after(garden, year)
                self._say(self.found.emit, number, check_light(self._plan))

        self._pool.start(_Job(work))
        return number

    def mend(self, finding: Finding) -> None:
        """Work out the mends of one of its findings, and say :attr:`mended`."""

        def work() -> None:
            self._say(self.mended.emit, finding.key, len(finding.fixes))

        self._pool.start(_Job(work))

    def _say(self, emit: Callable[..., object], *words: object) -> None:
        try:
            emit(*words)
        except RuntimeError:  # the window went meanwhile
            return

    def stop(self) -> None:
        """The window goes."""
        self.asked += 1
        self._pool.clear()
        self._pool.waitForDone(PATIENCE)
