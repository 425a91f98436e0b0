"""The memory of a window that is worked in for a long time."""

from __future__ import annotations

import tempfile
import time
from pathlib import Path
from random import Random


def memory() -> float:
    """Memory of this process. [MiB]"""
    for line in Path("/proc/self/status").read_text().splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    return 0.0


def soak(seconds: float, seed: int) -> str:
    """Work in one window for some time; a line with its memory at ten moments.

    Parameters
    ----------
    seconds : float
    seed : int
    """
    from fire.desk_work import application, closed, opened, step

    from planner.desk.model.garbage import collect_all

    application()
    rng, curve, steps = Random(seed), [], 0
    with tempfile.TemporaryDirectory() as folder:
        hand = opened(folder, "hollow_lane")
        begin = time.monotonic()
        for moment in range(10):
            while time.monotonic() - begin < seconds * (moment + 1) / 10:
                step(rng, hand)
                steps += 1
            collect_all()
            curve.append(f"{memory():.0f}")
        closed(hand)
    return f"memory over {steps} steps of work in hollow_lane [MiB]: {', '.join(curve)}"
