"""The light check beside the window: its first look at a garden is finished whatever is edited meanwhile."""

from __future__ import annotations

import pytest
from bench.bench_edit import big_garden
from PySide6.QtCore import QObject

from planner import checks
from planner.checks import Finding, Run, check_light
from planner.checks.registry import light_steps
from planner.desk.model.light_checker import LightChecker
from planner.garden import Garden, Rectangle, Structure
from planner.garden import edits as e
from planner.plan import Plan


def shaded_garden() -> Garden:
    garden = big_garden(12)
    wall = Structure(id="w", kind="wall", height=4, outline=Rectangle(length=40, width=0.3, center=(25, 3)))
    site = garden.site.with_(latitude=53.0, longitude=0.0)
    return garden.with_(site=site, structures=(wall,))


def keys(found: tuple[Finding, ...]) -> list[str]:
    return [one.key for one in found]


def test_edits_during_the_first_check_do_not_begin_it_anew(qtbot, monkeypatch: pytest.MonkeyPatch) -> None:
    plan = Plan(shaded_garden(), 2026)
    parent = QObject()
    checker = LightChecker(parent)
    begun: list[Plan] = []
    plans = [plan]
    received: list[tuple[Finding, ...]] = []
    checker.found.connect(received.append)

    def steps(plan: Plan) -> object:
        begun.append(plan)
        for step in light_steps(plan):
            if len(plans) < 4 and not isinstance(step, Run):  # edited while it works
                plans.append(plans[-1].after(e.move_things(plans[-1].garden, ["w"], 0.0, 0.5)))
                checker.check(plans[-1])
            yield step

    monkeypatch.setattr(checks, "light_steps", steps)
    checker.check(plan)
    qtbot.waitUntil(lambda: bool(received), timeout=10_000)
    checker.stop()
    assert begun == [plan]
    assert len(plans) > 1
    assert keys(received[-1]) == keys(check_light(Plan(plans[-1].garden, 2026)))
    assert received[-1], "some plantings lack sun behind the wall"


def test_the_share_that_is_done_is_told(qtbot, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("planner.checks.light_known.AT_ONCE", 10)
    parent = QObject()
    checker = LightChecker(parent)
    shares: list[float] = []
    checker.progressed.connect(shares.append)
    with qtbot.waitSignal(checker.found, timeout=10_000):
        checker.check(Plan(shaded_garden(), 2026))
    checker.stop()
    assert shares == sorted(shares)
    assert len(shares) == 5
