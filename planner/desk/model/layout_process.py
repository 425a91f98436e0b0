"""The search for a layout in a process of its own, so that the window never waits for it.

The process is a plain Python that imports this module and nothing of Qt: a garden goes in, layouts come out as they are shown.  In a
thread of the window it would take many times as long beside the checks, and hold up what is drawn while the solver is loaded.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import queue
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import IO, NamedTuple

from planner.errors import BedwrightError
from planner.garden import Garden
from planner.listings.found_layout import FoundLayout, bare_remarks, found_layout, unmet_whys
from planner.plan import Plan
from planner.proposal.layout_model import SolverError, cp_model
from planner.proposal.propose import Proposal, propose, unlike
from planner.words import say, spoken_language, use_language

#: So often it is looked whether the search is to end. [s]
GLANCE = 0.05
#: Better layouts come no more often: each time all of the list is made anew. [s]
SHOWN_EVERY = 0.4
#: What the other process runs.
_RUN = "from planner.desk.model.layout_process import serve; serve()"


class LayoutTask(NamedTuple):
    """What is searched for.

    Attributes
    ----------
    garden : Garden
    year : int
    beds : frozenset of str or None
        Ids of the beds that are planned anew; None for all.
    seconds : float or None
        How long to search; None for a number of rounds. [s]
    seed : int
        Another one searches elsewhere.
    rounds : int or None
        Of search, instead of a time.
    """

    garden: Garden
    year: int
    beds: frozenset[str] | None = None
    seconds: float | None = None
    seed: int = 0
    rounds: int | None = None


class UnlikeTask(NamedTuple):
    """Layouts unlike the one that was found last, and about as good, are searched for.

    Attributes
    ----------
    most : int
        So many of them.
    seed : int
    """

    most: int = 3
    seed: int = 0


class Whys(NamedTuple):
    """Why wishes are not met, or in part only, by their ids."""

    lines: dict[str, tuple[str, ...]]


class Remarks(NamedTuple):
    """What is to be said of the layout that was found last: what it leaves bare."""

    lines: tuple[str, ...]


class Unlikes(NamedTuple):
    """Layouts unlike the one that was found last; why wishes are not met in each."""

    layouts: tuple[FoundLayout, ...]
    whys: tuple[dict[str, tuple[str, ...]], ...]


class Failed(NamedTuple):
    """Nothing can be proposed, or the search has broken off; why, in a line."""

    why: str


class _Numbered(NamedTuple):
    """A task with its number, and the language that it is answered in."""

    number: int
    language: str
    task: LayoutTask | UnlikeTask


class _Stop(NamedTuple):
    """The search of a number is to end; what it found is still judged."""

    number: int


class _End(NamedTuple):
    """All of a task is told."""


#: What comes back of a task.
Told = FoundLayout | Whys | Remarks | Unlikes | Failed


class LayoutProcess:
    """Searches in a process that is begun when it is needed, and kept for the searches that follow."""

    def __init__(self) -> None:
        self._process: subprocess.Popen[bytes] | None = None
        self._told: queue.SimpleQueue[Told | _End] = queue.SimpleQueue()
        self._number = 0
        self._lock = threading.Lock()

    def begin(self) -> None:
        """Begin the process, where it is not there: it takes a second or two until it can search."""
        with self._lock:
            self._begin()

    def _begin(self) -> None:
        if self._process is not None and self._process.poll() is None:
            return
        self._end()
        home = str(Path(__file__).resolve().parents[3])
        path = os.pathsep.join(filter(None, (home, os.environ.get("PYTHONPATH", ""))))
        self._process = subprocess.Popen(
            [sys.executable, "-c", _RUN],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": path},
        )
        self._told = queue.SimpleQueue()
        threading.Thread(target=_listen, args=(self._process.stdout, self._told), daemon=True).start()

    def search(self, task: LayoutTask | UnlikeTask, ended: Callable[[], bool]) -> Iterator[Told]:
        """Layouts, each better than the one before, the last one judged; then why wishes are not met.

        Parameters
        ----------
        task : LayoutTask or UnlikeTask
        ended : callable
            Whether nothing more of it is wanted: the process is ended then, whatever it does.
        """
        with self._lock:
            self._begin()
            self._number += 1
            self._send(_Numbered(self._number, spoken_language().replace("-", "_"), task))
            told_by = self._told
        whole = False
        try:
            while not ended():
                try:
                    told = told_by.get(timeout=GLANCE)
                except queue.Empty:
                    continue
                if isinstance(told, _End):
                    whole = True
                    return
                yield told
        finally:
            if not whole:
                self.close()

    def stop(self) -> None:
        """Search no further for the task that is searched for; what was found so far is still judged."""
        with self._lock:
            self._send(_Stop(self._number))

    def _send(self, what: _Numbered | _Stop) -> None:
        if self._process is None or self._process.stdin is None:
            return
        with contextlib.suppress(OSError):  # it has ended: that is told by the other pipe
            pickle.dump(what, self._process.stdin)
            self._process.stdin.flush()

    def close(self) -> None:
        """End the process, whatever it does."""
        with self._lock:
            self._end()

    def _end(self) -> None:
        process, self._process = self._process, None
        if process is None:
            return
        process.kill()
        process.wait()
        if process.stdin is not None:
            with contextlib.suppress(OSError):
                process.stdin.close()


def _listen(pipe: IO[bytes], told: queue.SimpleQueue[Told | _End]) -> None:
    """Take what the other process tells, until it ends (in a thread)."""
    with pipe:
        try:
            while True:
                told.put(pickle.load(pipe))
        except (EOFError, OSError, ValueError, pickle.UnpicklingError):
            told.put(Failed(str(BedwrightError(say("the search has broken off"), fix=say("Search again")))))
            told.put(_End())


# -- in the other process ------------------------------------------------------------------------------


def serve() -> None:
    """Search for what comes in, until no more can come."""
    into = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # whatever else is printed goes to where errors go
    tasks: queue.SimpleQueue[_Numbered | None] = queue.SimpleQueue()
    stopped: set[int] = set()
    threading.Thread(target=_take, args=(tasks, stopped), daemon=True).start()
    with contextlib.suppress(SolverError):  # the search says so
        cp_model()
    answering = Answering()
    with contextlib.suppress(OSError, KeyboardInterrupt):
        while (one := tasks.get()) is not None:
            use_language(one.language)
            for told in answering.answers(one.task, lambda number=one.number: number in stopped):  # type: ignore[misc]
                _tell(into, told)
            _tell(into, _End())


def _take(tasks: queue.SimpleQueue[_Numbered | None], stopped: set[int]) -> None:
    with contextlib.suppress(EOFError, OSError):
        while True:
            what = pickle.load(sys.stdin.buffer)
            if isinstance(what, _Stop):
                stopped.add(what.number)
            else:
                tasks.put(what)
    tasks.put(None)


def _tell(into: IO[bytes], what: Told | _End) -> None:
    pickle.dump(what, into)
    into.flush()


class Answering:
    """Answers tasks one after the other; unlike layouts are those of the layout that was found last."""

    def __init__(self) -> None:
        self._last: Proposal | None = None

    def answers(self, task: LayoutTask | UnlikeTask, stop: Callable[[], bool]) -> Iterator[Told]:
        """What is told of a task: see :meth:`LayoutProcess.search`.

        Parameters
        ----------
        task : LayoutTask or UnlikeTask
        stop : callable
            Whether to search no further.
        """
        try:
            if isinstance(task, UnlikeTask):
                yield self._unlikes(task, stop)
            else:
                yield from self._layouts(task, stop)
        except BedwrightError as error:
            yield Failed(str(error))

    def _layouts(self, task: LayoutTask, stop: Callable[[], bool]) -> Iterator[Told]:
        self._last = proposal = None
        shown = -SHOWN_EVERY
        for proposal in propose(
            Plan(task.garden, task.year),
            beds=task.beds,
            rounds=task.rounds,
            seconds=task.seconds,
            seed=task.seed,
            stop=stop,
        ):
            if proposal.judged or time.monotonic() - shown >= SHOWN_EVERY:
                yield found_layout(proposal)
                shown = time.monotonic()
        self._last = proposal
        if proposal is not None:
            yield Whys(unmet_whys(proposal))
            yield Remarks(bare_remarks(proposal))

    def _unlikes(self, task: UnlikeTask, stop: Callable[[], bool]) -> Unlikes:
        if self._last is None:
            raise BedwrightError(say("no layout was found yet"), fix=say("Search again"))
        found = unlike(self._last, task.most, seed=task.seed, stop=stop)
        return Unlikes(tuple(found_layout(one) for one in found), tuple(unmet_whys(one) for one in found))
