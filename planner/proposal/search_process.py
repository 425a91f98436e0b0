"""The search for a layout in a process of its own, so that a window never waits for it.

OR-Tools holds up all of Python while it is imported, and the rounds of a search most of it.  A puzzle is plain numbers and goes to
the other process as it is; the steps come back one after the other.
"""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable, Iterator
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import NamedTuple

from planner.proposal.layout_model import SolverMissing
from planner.proposal.puzzle import Layout, Puzzle
from planner.proposal.search import Step, search

#: So often it is looked whether the search is to stop. [s]
GLANCE = 0.05
#: A process that was told to end is waited for no longer. [s]
PATIENCE = 2.0


class _Job(NamedTuple):
    """A search, as it goes to the other process."""

    puzzle: Puzzle
    start: Layout
    rounds: int | None
    seconds: float | None
    seed: int


class _End(NamedTuple):
    """The search is over; why, where it went wrong."""

    fault: BaseException | None = None


class SearchProcess:
    """Searches in a process that is begun with the first search and kept for those that follow.

    One thread at a time may search.  A search that is stopped ends its process at once: no round is waited for.
    """

    def __init__(self) -> None:
        self._process: BaseProcess | None = None
        self._pipe: Connection | None = None

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
        """
        if stop is not None and stop():
            return
        pipe = self._begin()
        pipe.send(_Job(puzzle, start, rounds, seconds, seed))
        whole = False
        try:
            while True:
                if stop is not None and stop():
                    return
                if not pipe.poll(GLANCE):
                    continue
                try:
                    told = pipe.recv()
                except EOFError:
                    raise RuntimeError("the process that searches for a layout has ended") from None
                if isinstance(told, _End):
                    whole = True
                    if told.fault is not None:
                        raise told.fault
                    return
                yield told
        finally:
            if not whole:
                self.close()

    def close(self) -> None:
        """End the process, whatever it does."""
        process, pipe = self._process, self._pipe
        self._process = self._pipe = None
        if pipe is not None:
            pipe.close()
        if process is not None:
            process.terminate()
            process.join(PATIENCE)
            if process.exitcode is not None:
                process.close()

    def _begin(self) -> Connection:
        if self._pipe is not None and self._process is not None and self._process.is_alive():
            return self._pipe
        self.close()
        context = multiprocessing.get_context("spawn")  # the window has threads, which no fork takes along
        ours, theirs = context.Pipe()
        process = context.Process(target=_serve, args=(theirs,), daemon=True)
        process.start()
        theirs.close()
        self._process, self._pipe = process, ours
        return ours


def _serve(pipe: Connection) -> None:
    """Search what comes through the pipe, until it is closed (in the other process)."""
    try:
        while True:
            job: _Job = pipe.recv()
            try:
                for step in search(
                    job.puzzle, job.start, rounds=job.rounds, seconds=job.seconds, seed=job.seed
                ):
                    pipe.send(step)
            except (SolverMissing, ValueError) as error:
                pipe.send(_End(error))
            else:
                pipe.send(_End())
    except (EOFError, OSError, KeyboardInterrupt):
        return
