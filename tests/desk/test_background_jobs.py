"""Jobs beside the window: one at a time, the latest of a kind, results in the window's thread."""

from __future__ import annotations

import sys
import threading
from collections.abc import Iterator

import pytest
from hand import LIMIT
from PySide6.QtCore import QObject

from planner.desk.model.background_jobs import Cancelled, JobQueue


class Slow:
    """A job that yields when it is let go on, and remembers what became of it."""

    def __init__(self, *results: str) -> None:
        self.results = results
        self.begun, self.go_on = threading.Event(), threading.Event()
        self.yielded: list[str] = []
        self.thread = 0
        self.was_cancelled = False

    def __call__(self, cancelled: Cancelled) -> Iterator[str]:
        self.thread = threading.get_ident()
        self.begun.set()
        for result in self.results:
            assert self.go_on.wait(10)
            self.was_cancelled = cancelled()
            self.yielded.append(result)
            yield result


@pytest.fixture
def parent(qapp):
    return QObject()


@pytest.fixture
def jobs(parent):
    queue = JobQueue(parent)
    yield queue
    queue.stop()


def test_results_arrive_one_by_one_in_the_windows_thread(jobs, qtbot):
    job, received, threads = Slow("rough", "fine"), [], set()
    jobs.start(job, lambda result: (received.append(result), threads.add(threading.get_ident())))
    job.go_on.set()
    qtbot.waitUntil(lambda: received == ["rough", "fine"], timeout=LIMIT)
    assert threads == {threading.get_ident()}
    assert job.thread not in {0, threading.get_ident()}


def test_a_job_takes_the_place_of_the_former_one_of_its_kind(jobs, qtbot):
    first, second, third, received = Slow("1"), Slow("2"), Slow("3"), []
    jobs.start(first, received.append)
    assert first.begun.wait(10)
    jobs.start(second, received.append)
    jobs.start(third, received.append)
    for job in (first, second, third):
        job.go_on.set()
    qtbot.waitUntil(lambda: received == ["3"], timeout=LIMIT)
    assert first.was_cancelled
    assert not second.begun.is_set()
    assert not third.was_cancelled


def test_a_result_that_is_on_its_way_when_the_job_is_cancelled_is_not_delivered(jobs, qtbot):
    job, received = Slow("late"), []
    jobs.start(job, received.append)
    job.go_on.set()
    while not job.yielded:  # without the event loop, which would deliver it
        assert job.begun.wait(10)
    jobs.cancel()
    last: list[str] = []
    jobs.start(lambda _cancelled: ["next"], last.append, "another kind")
    qtbot.waitUntil(lambda: last == ["next"], timeout=LIMIT)
    assert received == []


def test_jobs_of_different_kinds_follow_each_other(jobs, qtbot):
    one, other, received = Slow("one"), Slow("other"), []
    jobs.start(one, received.append, "one")
    jobs.start(other, received.append, "other")
    assert one.begun.wait(10)
    assert not other.begun.is_set()
    one.go_on.set()
    other.go_on.set()
    qtbot.waitUntil(lambda: received == ["one", "other"], timeout=LIMIT)
    assert one.thread == other.thread


def test_stopping_waits_for_what_runs_and_drops_what_waits(parent, qtbot):
    queue, runs, waits, received = JobQueue(parent), Slow("a", "b"), Slow("c"), []
    queue.start(runs, received.append, "runs")
    queue.start(waits, received.append, "waits")
    assert runs.begun.wait(10)
    threading.Timer(0.05, runs.go_on.set).start()
    queue.stop()
    assert runs.yielded == ["a"], "it ends at the first result after it was cancelled"
    assert not waits.begun.is_set()
    again: list[str] = []
    queue.start(lambda _cancelled: ["again"], again.append)
    qtbot.waitUntil(lambda: again == ["again"], timeout=LIMIT)
    queue.stop()
    assert received == []


def test_stopping_a_queue_without_jobs_does_nothing(parent):
    JobQueue(parent).stop()


def test_a_fault_in_a_job_is_reported_and_the_next_job_runs(jobs, qtbot, monkeypatch):
    faults: list[type] = []
    monkeypatch.setattr(sys, "excepthook", lambda kind, _error, _trace: faults.append(kind))

    def faulty(_cancelled: Cancelled) -> Iterator[int]:
        yield 1 // 0

    received: list[int] = []
    jobs.start(faulty, received.append, "faulty")
    jobs.start(lambda _cancelled: [2], received.append, "sound")
    qtbot.waitUntil(lambda: received == [2], timeout=LIMIT)
    assert faults == [ZeroDivisionError]
