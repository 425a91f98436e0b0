"""Light that followed edits is the light of a garden looked at anew, with every caster over every planting."""

from __future__ import annotations

import random

import numpy as np
import pytest
from bench.bench_edit import big_garden
from checks.test_run import same
from random_edits import EDITS, random_edit

from planner import resources
from planner.checks import LIGHT, Run, in_order
from planner.checks.light_known import KnownLight
from planner.checks.registry import helpful_fixes
from planner.garden import Garden, Rectangle, Structure
from planner.garden import edits as e
from planner.light import shading
from planner.light.shading_arrays import Pairs, pairs_of
from planner.plan import Plan
from planner.storage import load

#: Gardens, and how often each is edited; after how many edits everything is looked at anew.
#: ``python -m tests.fire followed`` goes on for as long as there is time.
GARDENS = {"hollow_lane": 10, "wattle_bank": 10, "24 beds": 30}
EACH = 5


def start(name: str) -> Garden:
    """A garden with walls in it, so that some plantings lack sun."""
    if name.endswith("beds"):
        garden = big_garden(int(name.split()[0]))
        garden = garden.with_(site=garden.site.with_(latitude=53.0, longitude=0.0))
    else:
        garden = load(resources.sample_folder() / f"{name}.bedwright")
    x, y = np.array([bed.outline.center for bed in garden.beds]).T
    walls = tuple(
        Structure(
            id=f"wall{i}",
            kind="wall",
            height=3,
            outline=Rectangle(length=8, width=0.2, center=(float(x.mean()), float(y.min() + step))),
        )
        for i, step in enumerate(np.linspace(-1, y.max() - y.min(), 5).tolist())
    )
    return garden.with_(structures=(*garden.structures, *walls))


def dense(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every caster be tried over every piece of ground."""

    def every(self: shading.Shading, _away: object) -> Pairs:
        return pairs_of(np.ones((len(self.rasters), len(self._used)), dtype=bool))

    monkeypatch.setattr(shading.Shading, "_near", every)
    monkeypatch.setattr("planner.plan.day_casters.DayCasters.near", lambda self, *_area: self.all)


def follow_light(chance: random.Random, name: str, edits: int, each: int) -> tuple[int, int]:
    """Hold light that followed edits against a look at the whole garden, each time after some edits.

    Returns how many edits were followed, and how many findings there were.
    """
    document = start(name)
    year = document.years()[-1]
    run = Run.over(Plan(document, year), False, LIGHT)
    done = followed = found = 0
    while done < edits:
        kind = chance.choice(sorted(EDITS))
        after = random_edit(chance, document, kind, findings=tuple(run.by_key))
        if after is None or after is document:
            continue
        document, done = after, done + 1
        plan = run.plan.after(document)
        new = run.after(plan)
        followed += new is not None
        run = new or Run.over(plan, False, LIGHT)
        found += len(run.findings)
        if done % each == 0:
            with pytest.MonkeyPatch.context() as slow:
                dense(slow)
                whole = Run.over(Plan(document, year), False, LIGHT)
            assert same(run, whole) == "", kind
    return followed, found


@pytest.mark.parametrize("name", GARDENS)
def test_light_that_followed_edits_is_that_of_the_whole(name: str) -> None:
    edits = GARDENS[name]
    followed, found = follow_light(random.Random(name), name, edits, EACH)
    assert followed > edits / 2
    assert found > edits


def test_only_what_a_shadow_reaches_is_looked_at_again(monkeypatch: pytest.MonkeyPatch) -> None:
    document = start("24 beds")
    run = Run.over(Plan(document, 2026), False, LIGHT)
    looked: list[int] = []
    look_at = KnownLight.after.__globals__["look_at"]

    def counting(plan: Plan, place: object, judged: list[object]) -> object:
        looked.append(len(judged))
        return look_at(plan, place, judged)

    monkeypatch.setattr("planner.checks.light_known.look_at", counting)
    renamed = e.change_bed(document, "b3", name="Another name")
    assert run.after(run.plan.after(renamed)) is not None
    assert looked == [4], "the plantings of the bed that was renamed"
    moved = e.move_things(document, ["wall1"], 0.1, 0.1)
    assert run.after(run.plan.after(moved)) is not None
    assert 4 < looked[1] < len(document.plantings)


def test_the_light_of_a_garden_without_a_latitude_is_not_judged() -> None:
    document = big_garden(4)
    run = Run.over(Plan(document, 2026), False, LIGHT)
    assert run.findings == []
    after = run.after(run.plan.after(e.move_things(document, ["b1"], 0.1, 0)))
    assert after is not None
    assert after.findings == []


def test_mends_of_light_are_those_found_by_looking_at_the_whole_garden(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    document = start("12 beds")
    plan = Plan(document, 2026)
    run = Run.over(plan, False, LIGHT)
    found = in_order(run.findings)[:2]
    quick = [[(fix.text, fix.gain, fix.why) for fix in helpful_fixes(plan, one, run)] for one in found]
    monkeypatch.setattr(Run, "_change_within_reach", lambda self, plan: None)
    assert quick == [[(fix.text, fix.gain, fix.why) for fix in helpful_fixes(plan, one)] for one in found]
    assert any(quick)
