"""Attacks on files, journals, names and the window, for as long as there is time; and what freezes the window.

python -m tests.fire --minutes 30 [NAME ...]
"""

from __future__ import annotations

import argparse
import itertools
import sys
import time
from collections.abc import Iterator
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS.parent)]

from fire.attacks import all_attacks  # noqa: E402
from fire.freezes import freezes  # noqa: E402
from fire.scoring import attack  # noqa: E402
from fire.soak import soak  # noqa: E402


def seeds(seconds: float, first: int) -> Iterator[int]:
    """Seeds until the time is over; at least one."""
    end = time.monotonic() + seconds
    for seed in itertools.count(first):
        yield seed
        if time.monotonic() > end:
            return


def main() -> int:
    """Run attacks and print what each tried; 1 where anything failed."""
    parser = argparse.ArgumentParser(prog="python -m tests.fire", description=__doc__)
    parser.add_argument("names", nargs="*", help="attacks whose names hold one of these; all by default")
    parser.add_argument("--minutes", type=float, default=5.0, help="for all of them together")
    parser.add_argument("--seed", type=int, default=1_000, help="the first seed")
    given = parser.parse_args()
    attacks = {
        name: one
        for name, one in all_attacks().items()
        if not given.names or any(word in name for word in given.names)
    }
    share = 60 * given.minutes / (len(attacks) + 2)
    failed = False
    for name, one in attacks.items():
        score = attack(name, one, seeds(share, given.seed))
        print(score.line(), flush=True)
        failed = failed or bool(score.failed)
    if not given.names or any(word in "memory" for word in given.names):
        print(soak(share, given.seed), flush=True)
    if not given.names or any(word in "freezes" for word in given.names):
        print(freezes(share, given.seed), flush=True)
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
