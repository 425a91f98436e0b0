"""The light check in the background."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QObject, Signal

from planner.checks import Finding, check_light
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.plan import Plan


class LightChecker(QObject):
    """Works out light findings and their fixes beside the window, on the window's own plan.

    A plan may be read by several threads; its cache holds the light of all that an edit left as it was.

    Signals
    -------
    found : object
        The light findings of the plan that was checked last.
    fixes_known : str
        Key of a finding whose fixes have been worked out.
    """

    found = Signal(object)
    fixes_known = Signal(str)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.jobs = JobQueue(self)

    def check(self, plan: Plan) -> None:
        """Check the light of a plan, and emit :attr:`found`; a plan that comes after it takes its place."""

        def work(_cancelled: Cancelled) -> Iterator[tuple[Finding, ...]]:
            yield check_light(plan)

        self.jobs.start(work, self.found.emit, "check")

    def cancel(self) -> None:
        """Emit nothing more of the plan that is being checked."""
        self.jobs.cancel("check")

    def work_out_fixes(self, finding: Finding) -> None:
        """Work out the fixes of one of its findings, and emit :attr:`fixes_known`."""

        def work(_cancelled: Cancelled) -> Iterator[str]:
            _ = finding.fixes
            yield finding.key

        self.jobs.start(work, self.fixes_known.emit, "fixes")
