"""A plan that followed any edits gives what a fresh one gives: every fact, every finding."""

from __future__ import annotations

import datetime as dt
import functools
import random
import threading

import pytest
from making import bed, garden, planting, rectangle
from plan.values import changeable, difference
from random_edits import EDITS, random_edit

from planner import resources
from planner.amounts import amounts, shortages
from planner.amounts.bench import bench_year, benches_wanted
from planner.amounts.covers import covers
from planner.amounts.drip import drip_beds
from planner.amounts.harvest import harvests
from planner.amounts.harvest_years import HarvestYears, harvest_years
from planner.amounts.raising import raisings
from planner.amounts.shopping import shopping
from planner.amounts.spread import spreads
from planner.amounts.supply_year import crop_years
from planner.amounts.supports import supports
from planner.amounts.tasks import tasks
from planner.checks import Finding, check_all
from planner.garden import Garden, Site
from planner.garden import edits as e
from planner.importing.record_line import NamesInputs, names_of
from planner.light import Caster
from planner.plan import Plan
from planner.plan.following import followers
from planner.plan.pictures import shots_of
from planner.plan.recorded import lessons_in_plan, records_of_bed
from planner.plan.walking import walk_from
from planner.plan.water import garden_water
from planner.storage import load
from tests.recorded_gardens import recorded

SAMPLES = sorted(path.stem for path in resources.sample_folder().glob("*.bedwright"))
#: Sequences of edits over each sample, edits of each, and after how many of them everything is compared.
#: ``python -m tests.fire followed`` tries more.
SEEDS, STEPS, EACH = 2, 24, 8


#: What decides when crops can be begun: an edit that leaves it alone leaves what can follow a crop alone.
SEASON = ("site", "climate", "sources", "crops", "varieties")


#: Held by the facts of a planting, or taken over from the plan before, which do not look into the cache again: compared
#: through the plan.
HELD = (
    "planting facts",
    "world",
    "figures",
    "dates",
    "span",
    "shelter",
    "sheltering structures",
    "records by planting",
    "seen of planting",
    "learned of garden",
    "placed",
    "obstacles",
    "footprints",
    "bed at origin",
)


def sample(name: str) -> Garden:
    return load(resources.sample_folder() / f"{name}.bedwright")


def everything(plan: Plan, light: bool = True, later: bool = True) -> tuple[object, ...]:
    """All that is asked of a plan anywhere: it fills the cache.

    What can follow a crop is half of the work: it is left out where ``later`` says so.
    """
    days = [plan.span.first + dt.timedelta(days=n) for n in (100, 190)]
    lore = check_all(plan, lore=True, light=False)
    found = check_all(plan, light=light)
    casters = [plan.casters(day) for day in days]
    free = [plan.free_from(one) for one in plan.beds[:3]]
    return (
        amounts(plan),
        tuple((year, tuple(year.gaps(*year.season)) if year.season else ()) for year in crop_years(plan)),
        tasks(plan),
        raisings(plan),
        bench_year(plan),
        benches_wanted(plan),
        found,
        lore,
        tuple(casters),
        walk_from(plan, "gate"),
        walk_from(plan, "tap"),
        garden_water(plan),
        drip_beds(plan),
        shortages(plan, amounts(plan)),
        tuple(tuple(one) for one in free),
        followers(plan, plan.catalogue.crops["pea"]) if later else (),
        covers(plan),
        supports(plan),
        spreads(plan),
        shopping(plan),
        tuple(
            (lessons_in_plan(plan, bed=one.id), records_of_bed(plan, one.id)) for one in plan.garden.beds[:3]
        ),
        tuple(shots_of(plan, None)),
        dict(
            plan.cached(
                names_of, "", NamesInputs(plan.garden.beds, plan.garden.plantings, plan.catalogue)
            ).found
        ),
        tuple(plan.odds(one) for one in plan.plantings),
        _years(harvest_years(plan, harvests(plan))),
    )


def _years(found: HarvestYears | None) -> tuple[object, ...]:
    return (found.years, found.grams.tolist()) if found is not None else ()


def compare(followed: Plan, light: bool = True, later: bool = True) -> None:
    """Hold a plan against a fresh one of the same garden."""
    fresh = Plan(followed.garden, followed.year)
    there, new = everything(followed, light, later), everything(fresh, light, later)
    assert difference(there, new) == ""
    assert followed.learned == fresh.learned
    for one in followed.garden.plantings:
        for of in (Plan.figures_of, Plan.dates, Plan.span_of, Plan.placed):
            assert difference(of(followed, one), of(fresh, one)) == "", one.id
    for there in followed.garden.beds:
        assert followed.shelter_of(there) == fresh.shelter_of(there), there.id
        for climbing in (False, True):
            ground = followed.obstacles(there, climbing), fresh.obstacles(there, climbing)
            assert difference(*ground) == "", there.id
        assert followed.garden_in_bed(there.id) == fresh.garden_in_bed(there.id)
    facts, expected = followed.cache.newest(), fresh.cache.newest()
    assert {slot for slot in expected if slot[0] not in HELD} <= facts.keys()
    wrong = {
        slot: found
        for slot, value in expected.items()
        if slot[0] not in HELD and (found := difference(facts[slot], value))
    }
    assert wrong == {}


@pytest.mark.parametrize("seed", range(SEEDS))
@pytest.mark.parametrize("name", SAMPLES)
def test_after_any_edits_every_fact_and_finding_is_that_of_a_fresh_plan(name: str, seed: int) -> None:
    follow(random.Random(f"{name} {seed}"), name, light=seed == 0)


def test_after_any_edits_odds_are_those_of_a_fresh_plan() -> None:
    follow(random.Random("odds"), "red_mesa", light=False, start=recorded("red_mesa"))


def follow(
    chance: random.Random, name: str, light: bool, later: bool = False, start: Garden | None = None
) -> None:
    """Let a plan of a sample follow random edits, and hold it against fresh plans.

    What can follow a crop is held against them at the end only, unless ``later`` is given: that is two thirds of the work.
    It begins with the sample, or another garden that is given.
    """
    document = start if start is not None else sample(name)
    years = document.years()
    plan = Plan(document, years[-1])
    everything(plan, light=light)
    done, findings = 0, tuple(one.key for one in check_all(plan, light=False))
    gardens = [document]
    while done < STEPS:
        kind = chance.random()
        if kind < 0.06 and len(gardens) > 1:
            after = gardens[chance.randrange(len(gardens))]  # undone, and done again
        elif kind < 0.10:
            plan = plan.after(document, chance.choice(years))
            continue
        else:
            after = random_edit(chance, document, findings=findings)
        if after is None or after is document:
            continue
        document, done = after, done + 1
        gardens.append(after)
        if chance.random() < 0.3:  # something is tried out, and leaves nothing
            trial = random_edit(chance, document)
            if trial is not None:
                everything(plan.what_if(trial), light=False, later=later)
        plan = plan.after(document)
        if chance.random() < 0.5:
            amounts(plan)
        if done % EACH == 0:
            compare(plan, light=light, later=later or done == STEPS)
            findings = tuple(one.key for one in check_all(plan, light=False))


@functools.cache
def looked_at() -> Plan:
    """A plan of which everything was asked: each kind of edit follows it, as if those before were undone."""
    plan = Plan(sample("hollow_lane"), 2026)
    everything(plan, light=False)
    return plan


@pytest.mark.parametrize("name", sorted(EDITS))
def test_after_each_kind_of_edit_every_fact_is_that_of_a_fresh_plan(name: str) -> None:
    chance, plan = random.Random(name), looked_at()
    for _ in range(60):
        after = random_edit(chance, plan.garden, name)
        if after is not None and after is not plan.garden:
            followed = plan.after(after)
            later = any(getattr(after, part) != getattr(plan.garden, part) for part in SEASON)
            compare(followed, light=False, later=later)
            if not later:
                pea = plan.catalogue.crops["pea"]
                assert difference(followers(followed, pea), followers(plan, pea)) == ""
            break
    else:
        pytest.skip("nothing of this kind can be done in the sample")


@pytest.mark.parametrize("name", SAMPLES)
def test_what_is_cached_cannot_be_changed(name: str) -> None:
    plan = Plan(sample(name), sample(name).years()[-1])
    everything(plan)
    found = {slot: where for slot, value in plan.cache.newest().items() if (where := changeable(value))}
    assert found == {}


def test_a_second_look_works_nothing_out() -> None:
    document = sample("hollow_lane")
    plan = Plan(document, document.years()[-1])
    everything(plan)
    before = plan.cache.newest()
    again = plan.after(document)
    everything(again)
    after = again.cache.newest()
    assert after.keys() == before.keys()
    assert [slot for slot in before if after[slot] is not before[slot]] == []


def test_a_plan_may_be_read_by_several_threads() -> None:
    document = sample("hollow_lane")
    moved = e.move_things(document, [document.beds[0].id], 0.4, 0.2)
    plan = Plan(document, document.years()[-1])
    expected = [everything(Plan(one, plan.year), later=False) for one in (document, moved)]
    found: dict[int, tuple[object, ...]] = {}

    def read(number: int) -> None:
        found[number] = everything(plan if number % 2 == 0 else plan.after(moved), later=False)

    threads = [threading.Thread(target=read, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(120)
    assert [difference(found[number], expected[number % 2]) for number in range(4)] == [""] * 4


def test_shadows_move_and_turn_with_their_bed() -> None:
    tall = planting("p1", "b1")
    document = garden(
        bed("b1", rectangle(4, 1.2, center=(0, 0))),
        bed("b2", rectangle(4, 1.2, center=(0, 2.0))),
        tall,
        planting("p2", "b2", crop="lettuce"),
        site=Site(latitude=52.0, longitude=0.0),
    )
    document = e.change_planting(
        document, "p1", crop="sweet_corn", first=dt.date(2026, 5, 20), last=dt.date(2026, 10, 1)
    )
    plan = Plan(document, 2026)
    day = dt.date(2026, 9, 1)

    def casters(plan: Plan) -> list[Caster]:
        return [one for one in plan.casters(day) if one.key == "p1"]

    assert len(casters(plan)) == 1
    for edit in (
        lambda g: e.move_things(g, ["b1"], 1.5, -0.4),
        lambda g: e.turn_things(g, ["b1"], 35.0),
        lambda g: e.change_bed(g, "b1", kind="raised", height=0.5),
    ):
        document = edit(document)
        plan = plan.after(document)
        (there,), (new,) = casters(plan), casters(Plan(document, 2026))
        assert there.shape.equals_exact(new.shape, 1e-9)
        assert (there.base, there.top) == (new.base, new.top)


def test_findings_follow_the_first_month_and_the_hemisphere() -> None:
    document = garden(
        bed("b1", rectangle(4, 3.0)),
        planting("p1", "b1", crop="lettuce"),
        site=Site(latitude=52.0, longitude=0.0),
    )
    plan = Plan(document, 2026)

    def spans(plan: Plan) -> list[tuple[str, dt.date, dt.date]]:
        found: list[Finding] = [one for one in check_all(plan, light=False) if one.check == "reach"]
        return [(one.check, one.span.first, one.span.last) for one in found]

    assert spans(plan) == [("reach", dt.date(2026, 1, 1), dt.date(2026, 12, 31))]
    for change in ({"first_month": 10}, {"first_month": None, "latitude": -41.0}):
        document = e.change_site(document, **change)
        plan = plan.after(document)
        assert spans(plan) == spans(Plan(document, 2026))
        assert spans(plan)[0][1] != dt.date(2026, 1, 1)
