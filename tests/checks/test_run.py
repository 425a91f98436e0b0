"""A run of the checks that followed edits finds what one over the whole garden finds, and so do the mends."""

from __future__ import annotations

import random

import pytest
from bench.bench_edit import big_garden
from making import bed, garden, planting, rectangle
from plan.values import difference
from random_edits import EDITS, random_edit

from planner import resources
from planner.checks import CHECKS, Finding, Run, check_all, in_order
from planner.checks import run as run_module
from planner.checks.grouping import group_mends, grouped
from planner.checks.registry import LIGHT, helpful_fixes
from planner.garden import Garden, Structure, Support, Variety
from planner.garden import edits as e
from planner.plan import Plan
from planner.storage import load

#: Gardens, and how often each is edited.
GARDENS = {"hollow_lane": 30, "wattle_bank": 20, "24 beds": 50}
FIELDS = (
    "key",
    "severity",
    "plantings",
    "beds",
    "structures",
    "span",
    "text",
    "rule",
    "kind",
    "cause",
    "place",
)


def start(name: str) -> Garden:
    if name == "24 beds":
        return big_garden(24)
    return load(resources.sample_folder() / f"{name}.bedwright")


def same(one: Run, other: Run) -> str:
    """What differs between two runs; empty where nothing does."""
    mine, theirs = in_order(one.findings), in_order(other.findings)
    if [found.key for found in mine] != [found.key for found in theirs]:
        return f"{[f.text for f in mine if f.key not in other.by_key]} {[f.text for f in theirs if f.key not in one.by_key]}"
    pairs = ((a, b, field) for a, b in zip(mine, theirs, strict=True) for field in FIELDS)
    return next(
        (d for a, b, field in pairs if (d := difference(getattr(a, field), getattr(b, field), a.key))), ""
    )


@pytest.mark.parametrize("name", GARDENS)
def test_after_any_edits_the_findings_are_those_of_the_whole(name: str) -> None:
    edits = GARDENS[name]
    assert follow_edits(random.Random(name), name, edits) > edits / 2


def follow_edits(chance: random.Random, name: str, edits: int) -> int:
    """Hold findings that followed random edits against those of the whole garden; how many edits were followed."""
    lore = name == "hollow_lane"
    document = start(name)
    year = document.years()[-1]
    run = Run.over(Plan(document, year), lore, CHECKS)
    done = followed = 0
    while done < edits:
        kind = chance.choice(sorted(EDITS))
        after = random_edit(chance, document, kind, findings=tuple(run.by_key))
        if after is None or after is document:
            continue
        document, done = after, done + 1
        plan = run.plan.after(document)
        new, whole = run.after(plan), Run.over(plan, lore, CHECKS)
        followed += new is not None
        assert new is None or same(new, whole) == "", kind
        run = new or whole
    assert same(run, Run.over(Plan(document, year), lore, CHECKS)) == ""
    return followed


def words(found: tuple) -> list[tuple[str, str, str]]:
    return [(fix.text, fix.gain, fix.why) for fix in found]


@pytest.mark.parametrize("name", GARDENS)
def test_the_mends_are_those_found_by_checking_the_whole_garden(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    chance = random.Random(name)
    document = start(name)
    for _ in range(12):
        document = random_edit(chance, document) or document
    plan = Plan(document, document.years()[-1])
    found = list(check_all(plan, light=False))
    some = chance.sample(found, min(8, len(found)))
    mended = [words(one.fixes) for one in some]
    group = max(grouped(plan, found), key=lambda group: len(group.findings)).findings[:12]
    together = [mend.text for mend in group_mends(plan, group)]
    monkeypatch.setattr(Run, "_change_within_reach", lambda self, plan: None)
    assert mended == [words(helpful_fixes(plan, one)) for one in some]
    assert together == [mend.text for mend in group_mends(plan, group)]


# -- what an edit reaches -------------------------------------------------------------------------


def followed(before: Garden, after: Garden) -> Run | None:
    """The run over an edited garden that follows from the one before, held against the whole."""
    plan = Plan(before, 2026)
    run = Run.over(plan, False, CHECKS)
    new = run.after(plan.after(after))
    assert new is None or same(new, Run.over(Plan(after, 2026), False, CHECKS)) == ""
    return new


def test_an_edit_of_one_bed_leaves_findings_far_away_untouched():
    document = big_garden(24)
    plan = Plan(document, 2026)
    run = Run.over(plan, False, CHECKS)
    change = run.change(plan.after(e.move_things(document, ["b1"], 0.05, 0)))
    assert change.reached is not None
    assert len(change.reached.part.plantings) < len(document.plantings) / 2
    assert {"p88", "p89"}.isdisjoint(change.reached.plantings)


def test_a_support_that_crosses_a_path_reaches_the_bed_beyond():
    beds = bed("b1"), bed("b2", rectangle(2, 1, center=(0, 2.2))), bed("b3", rectangle(2, 1, center=(9, 9)))
    beans = planting(
        "p1", "b1", crop="runner_bean", support=Support(kind="net", height=1.6, line=((0, 0), (0, 1.5)))
    )
    document = garden(*beds, beans)
    assert followed(document, e.move_things(document, ["b2"], 0, -0.3)) is not None


def test_a_structure_on_a_bed_reaches_the_neighbours_of_its_plantings():
    beds = bed("b1"), bed("b2", rectangle(2, 1, center=(0, 1.2)))
    document = garden(*beds, planting("p1", "b1"), planting("p2", "b2", crop="lettuce"))
    shed = Structure(id="s1", kind="shed", outline=rectangle(0.5, 0.5, center=(0, -0.4)), height=2)
    assert followed(document, document.with_(structures=(shed,))) is not None


def test_a_crop_grown_for_seed_hears_of_its_kind_far_away():
    beds = bed("b1"), bed("b2", rectangle(2, 1, center=(60, 60)))
    seed = planting("p1", "b1", crop="leek", purpose="seed")
    document = garden(*beds, seed, planting("p2", "b2", crop="carrot", purpose="seed"))
    after = e.change_planting(document, "p2", crop="leek", variety="Other")
    run = followed(document, after)
    assert run is not None
    assert any(one.check == "seed purity" and len(one.plantings) == 2 for one in run.findings)


@pytest.mark.parametrize(
    "change",
    [
        lambda g: e.change_site(g, reach=0.3),
        lambda g: g.with_(varieties=(Variety(id="v9", crop="carrot", name="Early"),)),
        lambda g: g.with_(
            structures=(
                Structure(id="s9", kind="tree", name="Black walnut", outline=rectangle(1, 1), height=9),
            )
        ),
    ],
)
def test_what_all_depends_on_is_checked_over_the_whole_garden(change):
    document = big_garden(4)
    assert followed(document, change(document)) is None


@pytest.mark.may_fail
def test_a_check_that_fails_is_reported_by_a_run_over_the_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(_context: object) -> list[Finding]:
        raise RuntimeError("a fault")

    document = big_garden(4)
    plan = Plan(document, 2026)
    checks = {**CHECKS, "frost": fails}
    run = Run.over(plan, False, checks)
    after = plan.after(e.move_things(document, ["b1"], 0.05, 0))
    assert run.after(after) is None
    assert Run.over(plan, False, CHECKS).after(after) is not None
    assert [one.topic for one in run.findings if one.check == "frost"] == ["failed"]


def test_a_run_narrowed_to_fewer_checks_is_the_run_of_those() -> None:
    plan = Plan(start("hollow_lane"), 2026)
    whole = Run.over(plan, False, {**CHECKS, **LIGHT})
    fewer = whole.narrowed(CHECKS)
    alone = Run.over(plan, False, CHECKS)
    assert [one.key for one in in_order(fewer.findings)] == [one.key for one in in_order(alone.findings)]
    assert fewer.by_subject.keys() == alone.by_subject.keys()
    assert len(fewer.findings) > 3
    assert whole.narrowed(CHECKS) is fewer
    assert fewer.narrowed(CHECKS) is fewer
    assert any(one.check in LIGHT for one in whole.findings) or len(whole.findings) == len(fewer.findings)
    edited = e.remove(plan.garden, [plan.plantings[0].id])
    ours, theirs = fewer.change(plan.after(edited)), alone.change(plan.after(edited))
    assert [one.key for one in ours.come] == [one.key for one in theirs.come]
    assert {one.key for one in ours.gone} == {one.key for one in theirs.gone}


def test_a_run_in_steps_pauses_within_long_checks(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(run_module, "LONGEST_STEP", 0.0)
    plan = Plan(start("balcony_boxes"), 2026)
    *steps, last = Run.steps(plan, False, CHECKS)
    assert len(steps) > len(CHECKS)
    assert last is not None
    assert [one.key for one in last.findings] == [one.key for one in Run.over(plan, False, CHECKS).findings]
