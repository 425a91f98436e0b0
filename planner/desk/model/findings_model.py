"""The findings of the plan shown, in step with it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from planner.desk.model.document import Document
from planner.desk.model.light_checker import LightChecker

if TYPE_CHECKING:
    from planner.checks import Finding, Run

#: Wait after an edit before the plan is checked again. [ms]
AFTER_EDIT = 30
#: Wait after another garden or year is shown: the window is painted first. [ms]
AFTER_OPENING = 250


class FindingsModel(QObject):
    """What the checks report of the document's plan.

    The light check is slow: it runs in the background, and its findings follow a moment later.

    Attributes
    ----------
    all : tuple of Finding
        Every finding, the gravest first; those that were waived too.
    lore, light : bool
        Whether lore counts, and whether the light is checked.
    run : Run or None
        The last run of all checks but that of light; None before the first.

    Signals
    -------
    changed
    light_progressed : float
        The share of the garden whose light has been looked at; 1 when it is known.
    fixes_known : str
        Key of a finding whose fixes took a while.
    """

    changed = Signal()
    light_progressed = Signal(float)
    fixes_known = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.lore, self.light = False, True
        self.all: tuple[Finding, ...] = ()
        self.run: Run | None = None
        self._open: tuple[tuple[Finding, ...], tuple[Finding, ...]] | None = None
        self._stopped = False
        self._other_findings: tuple[Finding, ...] = ()
        self._light_findings: tuple[Finding, ...] = ()
        self._light_checker = LightChecker(self)
        self._light_checker.found.connect(self._on_light_found)
        self._light_checker.progressed.connect(self.light_progressed)
        self._light_checker.fixes_known.connect(self.fixes_known)
        self._steps: Iterator[Run | None] | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._check)
        document.garden_settled.connect(self.check_soon)
        document.year_changed.connect(self.restart)
        self.check_soon()

    def restart(self) -> None:
        """Check everything anew."""
        self.run = None
        self.check_soon()

    def check_soon(self) -> None:
        """Check the plan again, a moment later."""
        if self._stopped:
            return  # the document outlives the window, and may still settle a last edit
        self._light_checker.cancel()
        self._steps = None
        self._timer.start(AFTER_EDIT if self.run is not None else AFTER_OPENING)

    def _check(self) -> None:
        """Check what an edit reaches; where that is everything, one check a turn of the event loop."""
        if self.document.unplaced or self.document.opening:
            return  # the garden settles when all of it is placed
        from planner.checks import CHECKS, Run, listed

        plan = self.document.plan
        if self._steps is None:
            run = self.run.after(plan) if self.run is not None else None
            self._steps = iter([run]) if run is not None else Run.steps(plan, self.lore, CHECKS, locate=True)
        run = next(self._steps)
        if run is None:
            self._timer.start(0)
            return
        self.run, self._steps = run, None
        self._other_findings = listed(run)
        if self.light:
            # Light findings stay until new ones arrive, as far as their plantings are still there.
            there = plan.garden.plantings_by_id
            self._light_findings = tuple(
                one for one in self._light_findings if all(key in there for key in one.plantings)
            )
            self._light_checker.check(plan)
        else:
            self._light_findings = ()
        self._publish()

    def _on_light_found(self, found: tuple[Finding, ...]) -> None:
        self._light_findings = found
        self.light_progressed.emit(1.0)
        self._publish()

    def _publish(self) -> None:
        from planner.checks import in_order

        others, light = self._other_findings, self._light_findings
        self.all = in_order((*others, *light)) if light else others  # which are in order
        self.changed.emit()

    def request_fixes(self, finding: Finding) -> bool:
        """Whether a finding's fixes can be had at once; slow ones are worked out in the background."""
        from planner.checks import LIGHT

        if finding.fixes_cached or finding.check not in LIGHT:
            return True
        self._light_checker.work_out_fixes(finding)
        return False

    def stop(self) -> None:
        """Check nothing any more, and wait for the thread (the window closes)."""
        self._stopped = True
        self._timer.stop()
        self._light_checker.stop()

    def include(self, *, lore: bool | None = None, light: bool | None = None) -> None:
        """Let lore count, or check the light, or leave them out; None leaves it as it is."""
        self.lore = self.lore if lore is None else lore
        self.light = self.light if light is None else light
        self.restart()

    def by_key(self, key: str) -> Finding | None:
        """The finding of a key; None where it is gone."""
        return next((finding for finding in self.all if finding.key == key), None)

    @property
    def open(self) -> tuple[Finding, ...]:
        """Findings that were not waived."""
        if self._open is None or self._open[0] is not self.all:
            self._open = self.all, tuple(finding for finding in self.all if not finding.waived)
        return self._open[1]
