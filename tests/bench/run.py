"""Run all benches and print one table: ``python tests/bench/run.py [NAME ...]``.

A bench is a module ``bench_NAME.py`` beside this file with a function ``measure`` that gives lines.
"""

from __future__ import annotations

import importlib
import os
import platform
import sys
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))
sys.path.insert(0, str(HERE.parent.parent))

from bench.figures import Measured, table  # noqa: E402


def main(names: list[str]) -> int:
    """Print the table; 1 when a target is missed."""
    known = sorted(path.stem.removeprefix("bench_") for path in HERE.glob("bench_*.py"))
    unknown = [name for name in names if name not in known]
    if unknown:
        print(f"there is no bench '{unknown[0]}'; there are {', '.join(known)}", file=sys.stderr)
        return 2
    lines: list[Measured] = []
    for name in names or known:
        lines += importlib.import_module(f"bench.bench_{name}").measure()
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores")
    print(table(lines))
    return 0 if all(line.met for line in lines) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
