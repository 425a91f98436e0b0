"""What every bench gives back, and how it is printed."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Measured:
    """One line of the table.

    Attributes
    ----------
    work : str
    ours, baseline : str
        As measured in this run; the baseline may be empty.
    ratio : str
        Baseline over ours, may be empty.
    target : str
        Of the design.
    met : bool
    """

    work: str
    ours: str
    baseline: str
    ratio: str
    target: str
    met: bool


def best(work: Callable[[], object], times: int = 7) -> float:
    """Shortest of some runs. [s]  Each result is kept until the next is there, as a plan keeps them."""
    found, kept = [], None
    for _ in range(times):
        start = time.perf_counter()
        result = work()
        found.append(time.perf_counter() - start)
        kept = result
    del kept
    return min(found)


def percentile(values: Iterable[float], share: float) -> float:
    """The value that this share of the values does not exceed."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def ms(seconds: float) -> str:
    """Milliseconds, to three figures."""
    return f"{seconds * 1e3:.3g} ms"


def table(lines: Iterable[Measured]) -> str:
    """The lines as a table."""
    head = ("work", "ours", "baseline", "ratio", "target", "met")
    rows = [head]
    rows += [(m.work, m.ours, m.baseline, m.ratio, m.target, "yes" if m.met else "NO") for m in lines]
    widths = [max(len(row[i]) for row in rows) for i in range(len(head))]
    return "\n".join(
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows
    )
