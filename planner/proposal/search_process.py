"""The search for a layout in a process of its own, so that a window never waits for it.

OR-Tools holds up all of Python while it is imported, and the rounds of a search most of it.  A puzzle is plain numbers and goes to
the other process as it is; the steps come back one after the other.  The process is a plain Python that imports this module and
nothing of the program around it.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import queue
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import IO, NamedTuple

from planner.errors import BedwrightError
from planner.proposal.layout_model import SolverMissing, cp_model
from planner.proposal.puzzle import Layout, Puzzle
from planner.proposal.search import Step, search
from planner.words import say

#: So often it is looked whether the search is to stop. [s]
GLANCE = 0.05
#: What the other process runs.
_RUN = "from planner.proposal.search_process import serve; serve()"


class SearchEnded(BedwrightError):
    """The process that searched has ended by itself."""


class _Job(NamedTuple):
    """A search, as it goes to the other process."""

    puzzle: Puzzle
    start: Layout
    rounds: int | None
    seconds: float | None
    seed: int


class _End(NamedTuple):
    """The search is over; why, where it went wrong."""

    fault: Exception | None = None


class SearchProcess:
    """Searches in a process that is begun with the first search and kept for those that follow.

    One thread at a time may search.  A search that is stopped ends its process at once: no round is waited for.
    """

    def __init__(self) -> None:
        self._process: subprocess.Popen[bytes] | None = None
        self._told: queue.SimpleQueue[Step | _End] = queue.SimpleQueue()

    def search(
        self,
        puzzle: Puzzle,
        start: Layout,
        *,
        rounds: int | None = None,
        seconds: float | None = None,
        seed: int = 0,
        stop: Callable[[], bool] | None = None,
    ) -> Iterator[Step]:
        """Better and better layouts, as :func:`planner.proposal.search.search` finds them.

        Parameters
        ----------
        puzzle : Puzzle
        start : tuple of Choice
        rounds : int, optional
        seconds : float, optional
            The time that the process needs to begin is not counted. [s]
        seed : int
        stop : callable, optional
            Whether to end now.

        Raises
        ------
        SolverMissing
            Where OR-Tools is not installed.
        SearchEnded
            Where the process has ended by itself.
        """
        if stop is not None and stop():
            return
        self.begin()
        whole = False
        try:
            self._send(_Job(puzzle, start, rounds, seconds, seed))
            while stop is None or not stop():
                try:
                    told = self._told.get(timeout=GLANCE)
                except queue.Empty:
                    continue
                if isinstance(told, _End):
                    whole = not isinstance(told.fault, SearchEnded)
                    if told.fault is not None:
                        raise told.fault
                    return
                yield told
        finally:
            if not whole:
                self.close()

    def begin(self) -> None:
        """Begin the process, where it is not there yet: to load the solver takes it a while."""
        if self._process is not None and self._process.poll() is None:
            return
        self.close()
        home = str(Path(__file__).resolve().parents[2])
        path = os.pathsep.join(filter(None, (home, os.environ.get("PYTHONPATH", ""))))
        self._process = subprocess.Popen(
            [sys.executable, "-c", _RUN],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": path},
        )
        self._told = queue.SimpleQueue()
        assert self._process.stdout is not None
        threading.Thread(target=_listen, args=(self._process.stdout, self._told), daemon=True).start()

    def _send(self, job: _Job) -> None:
        assert self._process is not None
        assert self._process.stdin is not None
        with contextlib.suppress(OSError):  # it has ended: the other pipe tells so
            pickle.dump(job, self._process.stdin)
            self._process.stdin.flush()

    def close(self) -> None:
        """End the process, whatever it does."""
        process, self._process = self._process, None
        if process is None:
            return
        process.kill()
        process.wait()
        if process.stdin is not None:
            with contextlib.suppress(OSError):
                process.stdin.close()


def _listen(pipe: IO[bytes], told: queue.SimpleQueue[Step | _End]) -> None:
    """Take what the other process tells, until it ends (in a thread)."""
    with pipe:
        try:
            while True:
                told.put(pickle.load(pipe))
        except (EOFError, OSError, pickle.UnpicklingError):
            told.put(_End(SearchEnded(say("the search has ended by itself"), fix=say("Search again")))) 


def serve() -> None:
    """Search what comes in, until no more can come (in the other process)."""
    into = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # whatever else is printed goes to where errors go
    with contextlib.suppress(SolverMissing):  # the search says so
        cp_model()
    with contextlib.suppress(EOFError, OSError, KeyboardInterrupt):
        while True:
            job: _Job = pickle.load(sys.stdin.buffer)
            try:
                for step in search(
                    job.puzzle, job.start, rounds=job.rounds, seconds=job.seconds, seed=job.seed
                ):
                    _tell(into, step)
            except (SolverMissing, ValueError) as error:
                _tell(into, _End(error))
            else:
                _tell(into, _End())


def _tell(into: IO[bytes], what: Step | _End) -> None:
    pickle.dump(what, into)
    into.flush()
