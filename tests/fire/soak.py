"""The memory of a window that is worked in for a long time."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path
from random import Random

#: Plantings of the garden at most: all of it copied again and again doubles it each time, and no step would end.
MOST_PLANTINGS = 400


def memory() -> float:
    """Memory of this process. [MiB]"""
    for line in Path("/proc/self/status").read_text().splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    return 0.0


def soak(seconds: float, seed: int) -> str:
    """Work in one window for some time; a line with its memory at ten moments, and the longest step.

    What makes the garden larger than :data:`MOST_PLANTINGS` is undone.

    Parameters
    ----------
    seconds : float
    seed : int
    """
    from fire.desk_work import application, closed, opened, step

    from planner.desk.model.garbage import collect_all

    application()
    rng, curve, steps, longest = Random(seed), [], 0, 0.0
    with tempfile.TemporaryDirectory() as folder:
        hand = opened(folder, "hollow_lane")
        begin = time.monotonic()
        for moment in range(10):
            while time.monotonic() - begin < seconds * (moment + 1) / 10:
                turn = time.process_time()
                step(rng, hand)
                longest = max(longest, time.process_time() - turn)
                steps += 1
                while len(hand.garden.plantings) > MOST_PLANTINGS and hand.document.undo_stack.canUndo():
                    hand.document.undo_stack.undo()
            collect_all()
            curve.append(f"{memory():.0f}")
        closed(hand)
    told = f"memory over {steps} steps of work in hollow_lane [MiB]: {', '.join(curve)}"
    return f"{told}; longest step {longest:.1f} s"
