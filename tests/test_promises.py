"""The promises of the manual name tests that exist."""

from __future__ import annotations

import re
from pathlib import Path

PROMISES = Path(__file__).parents[1] / "resources" / "manual" / "promises.md"


def test_each_promise_names_a_test_that_exists():
    text = PROMISES.read_text(encoding="utf-8")
    tests = set()
    for file in Path(__file__).parent.rglob("test_*.py"):
        tests |= set(re.findall(r"^def (test_\w+)\(", file.read_text(encoding="utf-8"), re.MULTILINE))
    promises = [" ".join(part.split()) for part in re.split(r"^- ", text, flags=re.MULTILINE)[1:]]
    assert len(promises) >= 15
    for promise in promises:
        named = re.findall(r"`(test_\w+)`", promise)
        assert named, f"no test is named for: {promise}"
        assert set(named) <= tests, f"{set(named) - tests} for: {promise}"
