"""Gardens with too much of something, and the work that is done with each in a process of its own.

python -m fire.large CASE PART prints the time and the memory that it takes.
"""

from __future__ import annotations

import json
import math
import os
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from random import Random
from typing import NamedTuple

TESTS = Path(__file__).parents[1]
if __name__ == "__main__":
    sys.path[:0] = [str(TESTS), str(TESTS.parent), str(TESTS / "desk")]

#: Most time of the processor, and most memory, that any garden may take. [s], [MiB]
MOST_TIME, MOST_MEMORY = 10.0, 1024.0
#: After so long a process is ended. [s]
_PATIENCE = 90.0

_FROST = {"last_frost": {"risk_50": "05-06"}, "first_frost": {"risk_50": "10-17"}}


def _made(*things: object):
    from making import garden

    return garden(*things, site={"latitude": 52.0, "longitude": 0.0}, climate=_FROST)


def _rows(spacing: float, apart: float | None = None, **more: object) -> dict[str, object]:
    return {"kind": "rows", "in_row_spacing": spacing, "row_spacing": apart or spacing, **more}


def _stakes(kind: str):
    from making import bed, planting, rectangle

    return _made(
        bed("b1", rectangle(200, 127)),
        planting(crop="tomato", arrangement=_rows(0.5), support={"kind": kind, "height": 1.8}),
    )


def _long_support(kind: str, spacing: float | None):
    from making import bed, planting, rectangle

    line = [(-1_000, -900), (1_000, 900), (-1_000, 0), (1_000, 0)]
    support = {
        "kind": kind,
        "height": 2.0,
        "line": line,
        "lines": 100,
        "line_spacing": 0.5,
        "spacing": spacing,
    }
    return _made(
        bed("b1", rectangle(2_000, 2_000)),
        planting(crop="climbing_bean", arrangement=_rows(0.5), support=support),
    )


def _support_of_rows(kind: str):
    from making import bed, planting, rectangle

    return _made(
        bed("b1", rectangle(2_000, 1_000)),
        planting(crop="climbing_bean", arrangement=_rows(2.0, 0.5), support={"kind": kind, "height": 2.0}),
    )


def _scatter(length: float):
    from making import bed, planting, rectangle

    return _made(
        bed("b1", rectangle(length, 5)), planting(arrangement={"kind": "scatter", "density": 100_000})
    )


def _ring(number: int, radius: float) -> list[tuple[float, float]]:
    """A star of many points."""
    return [
        (
            round(radius * (1 + 0.4 * (n % 2)) * math.cos(2 * math.pi * n / number), 6),
            round(radius * (1 + 0.4 * (n % 2)) * math.sin(2 * math.pi * n / number), 6),
        )
        for n in range(number)
    ]


def _comb(number: int) -> list[tuple[float, float]]:
    """A bed with many narrow arms."""
    teeth = [
        point for n in range(number // 4) for point in ((n, 0.0), (n, 5.0), (n + 0.5, 5.0), (n + 0.5, 0.0))
    ]
    return [(x - number / 8, y) for x, y in [*teeth[1:-1], (number / 4 - 0.5, -1.0), (0.0, -1.0)]]


def _corners(ring: list[tuple[float, float]], count: int, far: float):
    from making import planting, ring_bed

    beds = [ring_bed(ring, f"b{n}", center=(0, n * far)) for n in range(count)]
    return _made(*beds, *(planting(f"p{n}", f"b{n}", arrangement=_rows(0.1)) for n in range(count)))


def _many_rows():
    from making import bed, planting, rectangle

    return _made(bed("b1", rectangle(30, 30)), planting(arrangement=_rows(0.05, 0.006, rows=5_000)))


def _fine_comb():
    from making import planting, ring_bed

    return _made(ring_bed(_comb(1_996)), planting(arrangement=_rows(0.02, 0.002, rows=5_000)))


def _many_places():
    from making import bed, planting, rectangle

    points = [(round(x * 0.3 - 60, 3), round(y * 0.3 - 20, 3)) for x in range(400) for y in range(130)]
    return _made(
        bed("b1", rectangle(130, 50)),
        planting(
            crop="tomato",
            arrangement={"kind": "places", "points": points},
            support={"kind": "stake", "height": 1.8},
        ),
    )


CASES: dict[str, Callable[[], object]] = {
    "100,000 stakes": lambda: _stakes("stake"),
    "100,000 cages": lambda: _stakes("cage"),
    "52,000 single stakes": _many_places,
    "500 km of net": lambda: _long_support("net", None),
    "500 km of net with a post a centimetre": lambda: _long_support("net", 0.01),
    "500 km of towers": lambda: _long_support("tower", 0.01),
    "500 km of frame": lambda: _long_support("frame", None),
    "500 km of sticks": lambda: _long_support("sticks", None),
    "2,000 rows of net": lambda: _support_of_rows("net"),
    "2,000 rows of frame": lambda: _support_of_rows("frame"),
    "towers in a bed of 2 km": lambda: _support_of_rows("tower"),
    "100,000 a square metre": lambda: _scatter(9.99),
    "100,000 a square metre, too many": lambda: _scatter(2_000),
    "a star of 2,000 corners": lambda: _corners(_ring(2_000, 5), 1, 20),
    "20 stars of 2,000 corners": lambda: _corners(_ring(2_000, 5), 20, 13),
    "a comb of 2,000 corners": lambda: _corners(_comb(1_996), 1, 20),
    "5,000 rows": _many_rows,
    "5,000 rows in a comb": _fine_comb,
}


def _place(garden: object) -> None:
    from planner.amounts import amounts
    from planner.plan import Plan

    amounts(Plan(garden, 2026))  # type: ignore[arg-type]  # a Garden


def _check(garden: object, light: bool = False) -> None:
    from planner.checks import check_all
    from planner.checks.registry import helpful_fixes
    from planner.plan import Plan

    plan = Plan(garden, 2026)  # type: ignore[arg-type]  # a Garden
    for finding in check_all(plan, light=light):
        assert finding.topic != "failed", finding.text
        if not light:
            helpful_fixes(plan, finding)


def _light(garden: object) -> None:
    from planner.checks.registry import check_light
    from planner.plan import Plan

    check_light(Plan(garden, 2026))  # type: ignore[arg-type]  # a Garden


def _sheets(garden: object) -> None:
    import io

    from planner.plan import Plan
    from planner.sheets.bed_sheets import write_bed_sheets
    from planner.sheets.week_sheets import write_week_sheets

    plan = Plan(garden, 2026)  # type: ignore[arg-type]  # a Garden
    write_bed_sheets(plan, io.BytesIO())
    write_week_sheets(plan, io.BytesIO())


def _window(garden: object) -> None:
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        os.environ["BEDWRIGHT_STATE"] = folder
        from hand import FakePrompts
        from PySide6.QtCore import QSettings

        from planner.desk.app import application
        from planner.desk.main_window.window import Window
        from planner.desk.model.document import Document

        app = application()
        document = Document(garden)  # type: ignore[arg-type]  # a Garden
        window = Window(QSettings(f"{folder}/s.ini", QSettings.Format.IniFormat), FakePrompts(), document)
        window.resize(1200, 800)
        document.show_year(2026)
        window.show()
        for _ in range(3):
            app.processEvents()
            window.action("zoom in").trigger()
            app.processEvents()
            window.grab()
        window.close()


PARTS: dict[str, Callable[[object], None]] = {
    "placing": _place,
    "checks": _check,
    "light": _light,
    "sheets": _sheets,
    "window": _window,
}


class Cost(NamedTuple):
    """What a part takes with a garden."""

    case: str
    part: str
    seconds: float
    memory: float
    fault: str = ""

    @property
    def wrong(self) -> str:
        """What is too much; empty where nothing is."""
        if self.fault:
            return f"{self.case}, {self.part}: {self.fault}"
        if self.seconds > MOST_TIME or self.memory > MOST_MEMORY:
            return f"{self.case}, {self.part}: {self.seconds:.1f} s and {self.memory:.0f} MiB"
        return ""


def cost(case: str, part: str) -> Cost:
    """Measure a part of the work with a garden, in a process of its own."""
    command = [sys.executable, __file__, case, part]
    try:
        done = subprocess.run(command, capture_output=True, text=True, timeout=_PATIENCE, check=False)
    except subprocess.TimeoutExpired:
        return Cost(case, part, _PATIENCE, 0.0, f"not done after {_PATIENCE:.0f} s")
    lines = [line for line in done.stdout.splitlines() if line.startswith("{")]
    if done.returncode or not lines:
        return Cost(
            case, part, 0.0, 0.0, (done.stderr.strip().splitlines() or [f"ended with {done.returncode}"])[-1]
        )
    found = json.loads(lines[-1])
    return Cost(case, part, found["seconds"], found["memory"])


def too_large(rng: Random) -> str:
    """Work with too much of something is done within the limits, or refused in words."""
    return cost(rng.choice(list(CASES)), rng.choice(list(PARTS))).wrong


def a_few(rng: Random) -> str:
    """Those that were slowest before, in the parts where they were."""
    quick = (
        ("100,000 stakes", "light"),
        ("a star of 2,000 corners", "checks"),
        ("500 km of net", "placing"),
        ("5,000 rows", "placing"),
    )
    return next((wrong for case, part in quick if (wrong := cost(case, part).wrong)), "")


ATTACKS = {"gardens too large": too_large, "gardens too large, a few": a_few} if os.name == "posix" else {}


def _most_memory() -> float:
    """Most memory of this process; not ``ru_maxrss``, which it begins with from the one that started it. [MiB]"""
    status = Path("/proc/self/status")
    if not status.exists():
        import resource

        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    high = next(line for line in status.read_text().splitlines() if line.startswith("VmHWM:"))
    return int(high.split()[1]) / 1024


def main() -> None:
    """Do one part with one garden and print what it took."""
    import resource

    resource.setrlimit(resource.RLIMIT_AS, (6 * 2**30, 6 * 2**30))
    garden = CASES[sys.argv[1]]()
    begun = time.process_time()
    PARTS[sys.argv[2]](garden)
    took = time.process_time() - begun
    print(json.dumps({"seconds": took, "memory": _most_memory()}))


if __name__ == "__main__":
    main()
