"""The light check in the background."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.plan import Plan
from planner.plan.changes import same_world

if TYPE_CHECKING:
    from planner.checks import Finding, Run


class LightChecker(QObject):
    """Works out light findings and their fixes beside the window, on the window's own plan.

    A plan may be read by several threads.  The first check looks at the whole garden and is finished whatever is
    edited meanwhile; those after it look only at what an edit reaches.

    Signals
    -------
    found : object
        The light findings of the plan that was checked last.
    progressed : float
        The share of the garden that the first check has looked at.
    fixes_known : str
        Key of a finding whose fixes have been worked out.
    """

    found = Signal(object)
    progressed = Signal(float)
    fixes_known = Signal(str)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.jobs = JobQueue(self)
        self._wanted: Plan | None = None
        self._run: Run | None = None

    def check(self, plan: Plan) -> None:
        """Check the light of a plan, and emit :attr:`found`; a plan that comes after it takes its place."""
        from planner.checks import Run, light_steps, listed

        self._wanted = plan

        def work(cancelled: Cancelled) -> Iterator[float | tuple[Finding, ...]]:
            before, self._run = self._run, None
            run = before.after(plan) if before is not None else None
            for step in light_steps(plan) if run is None else ():
                if isinstance(step, Run):
                    run = step
                elif not cancelled():
                    yield step
                elif self._wanted is None or not same_world(plan, self._wanted):
                    return  # else the check of the plan wanted now goes on from this one
            self._run = run
            if run is not None:
                yield listed(run)

        self.jobs.start(work, self._deliver, "check")

    def _deliver(self, result: float | tuple[Finding, ...]) -> None:
        if isinstance(result, float):
            self.progressed.emit(result)
        else:
            self.found.emit(result)

    def cancel(self) -> None:
        """Emit nothing more of the plan that is being checked."""
        self.jobs.cancel("check")

    def stop(self) -> None:
        """Check nothing any more, and wait for the thread (the window closes)."""
        self._wanted = None
        self.jobs.stop()

    def work_out_fixes(self, finding: Finding) -> None:
        """Work out the fixes of one of its findings, and emit :attr:`fixes_known`."""

        def work(_cancelled: Cancelled) -> Iterator[str]:
            _ = finding.fixes
            yield finding.key

        self.jobs.start(work, self.fixes_known.emit, "fixes")
