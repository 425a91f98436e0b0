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
        "import planner.plan, planner.amounts, planner.storage, planner.crops; planner.crops.load_catalogue()"
    ),
}
CATALOGUE = """
import time
import planner.plan, planner.crops
start = time.perf_counter()
planner.crops.load_catalogue()
spent = time.perf_counter() - start
# What the process itself has held at most; a child's ru_maxrss begins with its parent's.
peak = next(line for line in open("/proc/self/status") if line.startswith("VmHWM"))
print(spent, int(peak.split()[1]) / 1024)
"""
ALL = """
import time
import planner.plan, planner.crops
from planner.crops.cautions import cautions
from planner.crops.neighbours import rules
start = time.perf_counter()
catalogue = planner.crops.load_catalogue()
rules(catalogue), cautions(catalogue)
print(time.perf_counter() - start)
"""
PARSED = """
import time, tomllib
from planner import resources
start = time.perf_counter()
for path in (resources.resource("sources.toml"), *resources.resource("crops").glob("*.toml")):
    tomllib.loads(path.read_text("utf-8"))
print(time.perf_counter() - start)
"""
#: Longest that reading the catalogue may take. [s]
CATALOGUE_TARGET = 0.050


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
    parsed = min(float(run(PARSED)) for _ in range(5))
    target, base = ms(CATALOGUE_TARGET), f"tomllib alone {ms(parsed)}"
    ratio = f"{parsed / seconds:.2g} x"
    lines.append(Measured("crops and sources", ms(seconds), base, ratio, target, seconds <= CATALOGUE_TARGET))
    seconds = min(float(run(ALL)) for _ in range(5))
    lines.append(
        Measured("with neighbours and cautions", ms(seconds), "", "", target, seconds <= CATALOGUE_TARGET)
    )
    lines.append(Measured("resident with catalogue", f"{size:.0f} MB", "", "", "part of 150 MB", size <= 150))
    return lines


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
