"""The window does not freeze; ``python -m tests.fire --minutes 10 freezes`` goes on for longer, and through all pages."""

from __future__ import annotations

import itertools
import time
from random import Random

import pytest
from fire import freezes
from fire.freezes import LIMIT, LoopWatch, run, session, turn

from planner import resources, storage
from planner.desk.app import application
from planner.desk.model.document import Document

#: Of a session: steps that a person takes again and again, before the pages are read.
STEPS = 72


def busy(seconds: float) -> None:
    end = time.thread_time() + seconds
    while time.thread_time() < end:
        pass


def test_the_watch_finds_what_keeps_the_loop(monkeypatch) -> None:
    application()
    # Ours is the program's, for once.
    monkeypatch.setattr(freezes, "_place", lambda frame: frame.f_code.co_name if frame else "")
    with LoopWatch() as watch:
        run(watch, iter([("rest", lambda: None), ("work", lambda: busy(0.3))]), time.monotonic() + 10)
    (found,) = watch.freezes
    assert found.step == "work"
    assert found.ms == pytest.approx(300, abs=100)
    assert found.where == "busy"
    assert watch.tell() == [f"{found.ms:6.0f} ms    1 x  work: busy"]
    assert watch.worst["rest"] < LIMIT


# Qt's offscreen platform has no window manager, and says so.
@pytest.mark.qt_log_ignore("This plugin does not support")
def test_a_short_session_does_not_freeze(tmp_path, monkeypatch) -> None:
    application()
    monkeypatch.setattr(freezes, "AFTER_STEP", 8)
    hand = freezes.opened(
        str(tmp_path), Document(storage.load(resources.sample_folder() / "wattle_bank.bedwright"))
    )
    try:
        turn(800)  # the checks of a garden that was opened
        steps = itertools.islice(session(hand, Random(4)), STEPS)
        # Twice the limit: a machine of tests may be half as fast as the slowest that the limit is for.
        with LoopWatch(limit=2 * LIMIT) as watch:
            taken = run(watch, steps, time.monotonic() + 60)
    finally:
        freezes.closed(hand)
    assert taken == STEPS
    assert {"plant it", "nudge a bed", "undo", "another day", "show access"} <= set(watch.worst)
    assert watch.tell() == []
