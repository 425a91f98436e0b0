"""The quick part of the attacks; ``python -m tests.fire --minutes 30`` tries far more."""

from __future__ import annotations

import pytest
from fire.attacks import all_attacks
from fire.scoring import attack

#: Tries of each attack in this part; those that start a process or a window are slow.
TRIES = {
    "files changed by bytes": 400,
    "files changed by structure": 300,
    "faults while saving": 150,
    "faults in journals": 100,
    "faults in versions": 100,
    "hostile names on the command line": 6,
    "hostile places to write": 40,
    "hostile places to read": 40,
    "hostile names in tables of stock": 40,
    "gardens too large": 0,
    "gardens too large, a few": 1,
    "kills while saving": 5,
    "kills while editing": 4,
    "work in the window, undone": 4,
    "tables, drawings and maps taken in": 200,
    "followed facts": 0,
    "followed findings": 0,
    "followed light": 0,
}


# Qt's offscreen platform has no window manager, and says so.
@pytest.mark.qt_log_ignore("This plugin does not support")
@pytest.mark.parametrize("name", all_attacks())
def test_nothing_is_lost_and_nothing_breaks(name):
    score = attack(name, all_attacks()[name], iter(range(TRIES[name])))
    assert score.tried == TRIES[name]
    assert score.failed == [], score.line()
