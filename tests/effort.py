"""How long random tests go on: a telling part with every run, all of it where it is asked for."""

from __future__ import annotations

import os

#: Set to anything, random tests go on for as long as they were written for.
VARIABLE = "BEDWRIGHT_LONG_TESTS"


def tries(usual: int, long: int) -> int:
    """Number of edits or seeds of a random test."""
    return long if os.environ.get(VARIABLE) else usual
