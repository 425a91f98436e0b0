"""What is known of the sample gardens is worked out once for many tests.

Half a second of work stands behind each opening of the largest sample.  Tests of what is shown, printed or listed
need not do it anew: a sample file is read to the same garden each time, and its plans read the facts of one plan that nobody
changes, below a cache of their own.  Facts are compared by the identity of their inputs, so an edited garden works out what
its edit touches.  Tests of the work itself (``plan``, ``checks``, ``light`` ...) have fresh plans.
"""

from __future__ import annotations

import functools
from typing import Any

import pytest

from planner import resources
from planner.checks import check_all
from planner.garden import Garden
from planner.plan import Plan
from planner.plan.cache import FactCache
from planner.season.lived.assumed import AS_RECORDED, Assumed
from planner.storage import files

_parse, _plan = files.parse, Plan.__init__


@functools.cache
def _samples() -> dict[bytes, Garden]:
    """The sample gardens by what their files hold."""
    contents = (path.read_bytes() for path in sorted(resources.sample_folder().glob("*.bedwright")))
    return {content: _parse(content, "sample") for content in contents}


@functools.cache
def _facts(number: int, year: int) -> FactCache:
    """Facts of a sample in a year; nothing is added later."""
    below = FactCache()
    plan = object.__new__(Plan)
    _plan(plan, list(_samples().values())[number], year, None, below)
    check_all(plan)
    return below


def _read(content: bytes, name: str, *more: Any, **named: Any) -> Garden:
    found = _samples().get(content)
    return _parse(content, name, *more, **named) if found is None else found


def _init(
    self: Plan,
    garden: Garden,
    year: int,
    catalogue: Any = None,
    cache: FactCache | None = None,
    assumed: Assumed = AS_RECORDED,
) -> None:
    if cache is None:
        for number, sample in enumerate(_samples().values()):
            if sample is garden and year in sample.years():
                cache = FactCache(_facts(number, year))
    _plan(self, garden, year, catalogue, cache, assumed)


def share(monkeypatch: pytest.MonkeyPatch) -> None:
    """Share gardens and facts of the samples during a test."""
    monkeypatch.setattr(files, "parse", _read)
    monkeypatch.setattr(Plan, "__init__", _init)
