"""Work done in a thread beside the window."""

from __future__ import annotations

import sys
import threading
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeVar

from PySide6.QtCore import QObject, Signal

if TYPE_CHECKING:
    from concurrent.futures import Future, ThreadPoolExecutor

T = TypeVar("T")

#: Whether the job is no longer wanted; its work calls it now and then, so as to end early.
Cancelled = Callable[[], bool]
#: Closing the window waits no longer than this for a job to end. [s]
PATIENCE = 5.0


@dataclass(eq=False)
class _Job:
    """One piece of work, and who receives its results."""

    work: Callable[[Cancelled], Iterable[Any]]
    receive: Callable[[Any], None]
    cancelled: threading.Event = field(default_factory=threading.Event)


class JobQueue(QObject):
    """Runs jobs one after the other in a thread of its own; of each kind only the latest counts.

    A job is a function that yields results, as soon as it has them. Each result is delivered in the
    window's thread. Starting a job cancels the former one of its kind: if that still waits, it never
    runs; if it runs, nothing more of it is delivered.

    What a job works on must not change meanwhile: give it frozen values, or a plan that only jobs of this
    queue use.
    """

    _result = Signal(object, object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._latest: dict[str, _Job] = {}
        self._executor: ThreadPoolExecutor | None = None
        self._futures: list[Future[None]] = []
        self._result.connect(self._deliver)

    def start(
        self, work: Callable[[Cancelled], Iterable[T]], receive: Callable[[T], None], kind: str = ""
    ) -> None:
        """Do some work when the jobs before it have ended.

        Parameters
        ----------
        work : callable
            Called in the thread, with a function that says whether the job was cancelled; yields results.
        receive : callable
            Called in the window's thread with each result.
        kind : str
            The former job of the same kind is cancelled.
        """
        self.cancel(kind)
        job = self._latest[kind] = _Job(work, receive)
        if self._executor is None:
            from concurrent.futures import ThreadPoolExecutor

            self._executor = ThreadPoolExecutor(1)
        self._futures = [future for future in self._futures if not future.done()]
        self._futures.append(self._executor.submit(self._run, job))

    def cancel(self, kind: str = "") -> None:
        """Deliver nothing more of the latest job of a kind, and end it as soon as it can be."""
        job = self._latest.pop(kind, None)
        if job is not None:
            job.cancelled.set()

    def stop(self) -> None:
        """Cancel all jobs, and wait until none runs (the window closes)."""
        for kind in tuple(self._latest):
            self.cancel(kind)
        if self._executor is not None:
            from concurrent.futures import wait

            self._executor.shutdown(wait=False, cancel_futures=True)
            self._executor = None
            wait(self._futures, PATIENCE)

    def _run(self, job: _Job) -> None:
        """Do the work of a job (in the thread)."""
        if job.cancelled.is_set():
            return
        try:
            for result in job.work(job.cancelled.is_set):
                if job.cancelled.is_set() or not self._emit(job, result):
                    return
        except Exception:
            sys.excepthook(*sys.exc_info())  # a fault of the program: reported as any other

    def _emit(self, job: _Job, result: object) -> bool:
        """Hand a result over to the window's thread; False where the window is gone."""
        try:
            self._result.emit(job, result)
        except RuntimeError:
            return False
        return True

    def _deliver(self, job: _Job, result: object) -> None:
        if not job.cancelled.is_set():
            job.receive(result)
