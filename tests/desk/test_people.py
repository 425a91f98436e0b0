"""A newcomer's first sheet in the real window; the other people's tasks are run by hand: ``python -m tests.people``."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from people import newcomer, screen


def test_a_newcomer_comes_to_a_first_sheet(tmp_path: Path) -> None:
    if lacking := screen.missing():
        why = f"{' and '.join(lacking)} not installed"
        if os.environ.get("BEDWRIGHT_NEED_XVFB") == "1":
            pytest.fail(why)
        pytest.skip(why)
    newcomer.run(tmp_path)
