"""Time until the core is there: a new interpreter, what it imports, and the catalogue by itself."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
sys.path.insert(0, str(ROOT / "tests"))

from bench.figures import Measured, best, ms  # noqa: E402

STEPS = {
    "python alone": "pass",
    "numpy, shapely, pydantic": "import numpy, shapely, pydantic",
    "planner.plan": "import planner.plan",
    "plan, amounts, storage and catalogue": (
        "import planner.plan, planner.amounts, planner.storage; planner.plan.load_catalogue()"
    ),
}
CATALOGUE = """
import resource, time
import planner.plan
start = time.perf_counter()
planner.plan.load_catalogue()
print(time.perf_counter() - start, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def run(code: str) -> str:
    """What a new interpreter prints."""
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, check=True, capture_output=True, text=True)
    return done.stdout


def measure() -> list[Measured]:
    """Start of the core, step by step; the window's own part is not in it."""
    lines = []
    for name, code in STEPS.items():
        seconds = best(lambda c=code: run(c), times=5)
        lines.append(Measured(f"start: {name}", ms(seconds), "", "", "part of 1 s", seconds <= 1.0))
    runs = [run(CATALOGUE).split() for _ in range(5)]
    seconds, size = min(float(one[0]) for one in runs), float(runs[0][1])
    lines.append(Measured("catalogue by itself", ms(seconds), "", "", "part of 1 s", seconds <= 0.5))
    lines.append(Measured("resident with catalogue", f"{size:.0f} MB", "", "", "part of 150 MB", size <= 150))
    return lines


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
