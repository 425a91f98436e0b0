"""What is left of a planting: hand-worked cases, and a second reckoning of the stated rule over random records."""

from __future__ import annotations

import datetime as dt
import math
import random
from typing import Any

import pytest
from checks.faults import day, lettuce, made
from making import bed, planting

from planner.amounts.harvest import harvest
from planner.amounts.supply_year import crop_years
from planner.amounts.tasks import planting_tasks
from planner.amounts.yields import missing_of_loss, planting_yield
from planner.checks import check_all
from planner.garden import Garden
from planner.garden import edits as e
from planner.garden.weight_words import weight_words
from planner.plan import Plan

Told = dict[str, Any]


def told(of: Garden, *records: Told) -> Garden:
    """A garden with records of its first planting."""
    return e.add_records(of, [{"planting": "p1", **one} for one in records])[0]


def seen(lost: float | None, on: dt.date, **fields: Any) -> Told:
    return {"kind": "seen", "harm": "slugs", "lost": lost, "day": on, **fields}


def came_up(on: dt.date, **fields: Any) -> Told:
    return {"kind": "came up", "day": on, **fields}


def left(of: Garden) -> tuple[float, int]:
    found = Plan(of, 2026).survival(of.plantings[0])
    return round(found.left, 3), found.plants


HEADS = made(bed(), lettuce())
BEANS = made(bed(), planting(crop="dwarf_bean", start="sown", sowing="stations", first=day(5, 25)))
TOMATOES = made(bed(), planting(crop="tomato", start="raised", first=day(5, 25)))
COURGETTE = made(bed(), planting(crop="courgette", start="raised", first=day(6, 5)))


def planned(of: Garden) -> int:
    return Plan(of, 2026).placed(of.plantings[0]).plants


@pytest.mark.parametrize(
    ("records", "share"),
    [
        ([], 1.0),
        ([seen(None, day(5, 20), share=0.3)], 1.0),  # damaged, not dead
        ([seen(0.5, day(5, 20))], 0.5),
        ([seen(0.5, day(5, 20)), seen(1 / 3, day(6, 20))], 1 / 3),  # a third of the half that was left
        ([seen(0.2, day(5, 20)), seen(0.5, day(5, 22))], 0.4),
        ([seen(1.0, day(5, 22)), seen(0.2, day(5, 20))], 0.0),  # by day, not as written down
        ([seen(0.5, day(5, 20)), {"kind": "done", "task": "set out", "day": day(5, 10)}], 0.5),
        ([seen(1.0, day(5, 20))], 0.0),
    ],
)
def test_each_loss_is_of_what_was_there_on_its_day(records: list[Told], share: float) -> None:
    of = told(HEADS, *records)
    found = left(of)
    assert found[0] == round(share, 3)
    assert share == 1.0 or found[1] == round(share * planned(HEADS))


def test_a_share_that_came_up_is_held_against_the_seed_that_was_sown() -> None:
    """Of stations it is theirs; of raised plants a third more is sown than there will be, so half of them are enough for more."""
    beans = told(BEANS, came_up(day(6, 8), share=0.6))
    assert left(beans)[0] == 0.6
    germination = Plan(HEADS, 2026).figures_of(HEADS.plantings[0]).number("germination")
    assert germination is not None
    heads = told(HEADS, came_up(day(4, 10), share=germination / 2))
    assert left(heads)[0] == 0.5
    enough = told(HEADS, came_up(day(4, 10), share=germination))
    assert left(enough)[0] == 1.0


def test_a_count_replaces_what_was_told_before_and_filled_gaps_come_back() -> None:
    number = planned(BEANS)
    half = seen(0.5, day(6, 12))
    counted = told(BEANS, half, came_up(day(6, 20), count=number // 4))
    assert left(counted)[1] == number // 4
    filled = told(BEANS, half, {"kind": "done", "task": "sow", "day": day(6, 14)})
    assert left(filled) == (1.0, number)
    partly = told(
        BEANS,
        half,
        {"kind": "done", "task": "sow", "day": day(6, 14), "amount": {"value": 3, "unit": "plants"}},
    )
    assert left(partly)[1] == round(number * 0.5 + 3)


def test_random_records_against_a_second_reckoning() -> None:
    """Brute force of the stated rule: start over at the last count, then the share that came up times what each loss leaves."""
    rng = random.Random(18)
    number = planned(BEANS)
    for _ in range(60):
        days = sorted(rng.sample(range(1, 28), 5))
        records: list[Told] = []
        for at in days:
            sort = rng.choice(["seen", "share", "count", "harm"])
            on = day(6, at)
            if sort == "seen":
                records.append(seen(rng.choice([0.1, 0.3, 0.7]), on))
            elif sort == "share":
                records.append(came_up(on, share=rng.choice([0.4, 0.8, 1.0])))
            elif sort == "count":
                records.append(came_up(on, count=rng.randrange(number + 4)))
            else:
                records.append(seen(None, on, share=0.9))
        last = max((n for n, one in enumerate(records) if "count" in one), default=-1)
        after = records[last + 1 :]
        shares = [one["share"] for one in after if one["kind"] == "came up"]
        first = min(1.0, records[last]["count"] / number) if last >= 0 else 1.0
        up = shares[-1] if shares else first
        expected = up * math.prod(1 - one["lost"] for one in after if one.get("lost") is not None)
        assert left(told(BEANS, *records))[0] == pytest.approx(expected, abs=1e-3)


def test_yield_picking_tasks_and_the_larder_follow_a_loss() -> None:
    of = told(HEADS, seen(0.5, day(5, 20)))
    before, after = Plan(HEADS, 2026), Plan(of, 2026)
    whole, half = planting_yield(before, HEADS.plantings[0]), planting_yield(after, of.plantings[0])
    assert whole.grams is not None
    assert (half.grams, half.left) == (round(whole.grams / 2), 0.5)
    assert half.pieces == round((whole.pieces or 0) / 2)
    assert harvest(after, of.plantings[0]).picked == pytest.approx(
        harvest(before, HEADS.plantings[0]).picked / 2, abs=1
    )
    (year,), (other,) = crop_years(before), crop_years(after)
    assert sum(one.picked for one in other.harvests) == pytest.approx(
        sum(one.picked for one in year.harvests) / 2, abs=1
    )


def test_what_was_picked_before_a_loss_is_not_lost() -> None:
    of = COURGETTE
    whole = harvest(Plan(of, 2026), of.plantings[0])
    assert whole.picking is not None
    middle = whole.picks[len(whole.picks) // 2].day
    found = harvest(Plan(told(of, seen(0.5, middle)), 2026), of.plantings[0])
    expected = [one.grams * (0.5 if one.day >= middle else 1) for one in whole.picks]
    assert [one.day for one in found.picks] == [one.day for one in whole.picks]
    for pick, grams in zip(found.picks, expected, strict=True):
        assert pick.grams == pytest.approx(grams, abs=2)
    assert found.amount.grams == pytest.approx(sum(expected) + whole.lost / 2, abs=2)


def test_only_what_is_left_is_set_out_and_nothing_of_what_is_gone() -> None:
    germination = Plan(HEADS, 2026).figures_of(HEADS.plantings[0]).number("germination")
    assert germination is not None
    of = told(HEADS, came_up(day(4, 10), share=germination / 2))
    tasks = {one.kind: one for one in planting_tasks(Plan(of, 2026), of.plantings[0])}
    assert tasks["set out"].stations == round(planned(HEADS) / 2)
    assert tasks["sow"].stations == planned(HEADS)
    gone = told(HEADS, seen(1.0, day(5, 20)))
    assert all(
        one.date <= day(5, 20) for one in planting_tasks(Plan(gone, 2026), gone.plantings[0]) if not one.done
    )


def test_a_loss_touches_only_work_on_or_after_its_day() -> None:
    """Held against the work without the loss: the same before its day, half of it from then on."""
    whole = {one.kind: one for one in planting_tasks(Plan(TOMATOES, 2026), TOMATOES.plantings[0])}
    kinds = ("sow", "prick out", "harden off", "set out")
    number = planned(TOMATOES)
    for loss in (whole["prick out"].date, whole["set out"].date, whole["set out"].date + dt.timedelta(9)):
        of = told(TOMATOES, seen(0.5, loss))
        work = {one.kind: one for one in planting_tasks(Plan(of, 2026), of.plantings[0])}
        for kind in kinds:
            if kind == "sow" or whole[kind].date < loss:
                assert work[kind] == whole[kind]
            else:
                assert work[kind].stations == round(number / 2)
        cells, half = whole["prick out"].fill, work["prick out"].fill
        assert cells is not None
        assert half is not None
        assert half.number == (
            cells.number if whole["prick out"].date < loss else math.ceil(cells.number / 2)
        )


def test_the_steps_before_an_end_are_over() -> None:
    whole = planting_tasks(Plan(TOMATOES, 2026), TOMATOES.plantings[0])
    due = {one.kind: one.date for one in whole}
    for ended in (due["prick out"], due["set out"] + dt.timedelta(40)):
        of = told(TOMATOES, {"kind": "ended", "why": "eaten", "day": ended})
        work = {one.kind: one for one in planting_tasks(Plan(of, 2026), of.plantings[0])}
        begun = {kind for kind in ("sow", "prick out", "harden off", "set out") if due[kind] <= ended}
        assert begun <= set(work)
        assert all(work[kind].done_before for kind in begun)
        assert not [kind for kind in ("harden off", "set out") if kind in work and kind not in begun]


@pytest.mark.parametrize(
    ("lost", "severity"), [(0.05, None), (0.3, "note"), (0.5, "note"), (0.6, "mind"), (1.0, "stop")]
)
def test_the_finding_is_as_grave_as_the_loss(lost: float, severity: str | None) -> None:
    of = told(HEADS, seen(lost, day(5, 20)))
    found = [one for one in check_all(Plan(of, 2026)) if one.check == "losses"]
    assert [one.severity for one in found] == ([severity] if severity else [])


def test_the_finding_says_what_was_lost_to_what_and_what_is_left() -> None:
    of = told(HEADS, seen(0.5, day(5, 20), cause="snails"))
    (found,) = [one for one in check_all(Plan(of, 2026)) if one.check == "losses"]
    number = planned(HEADS)
    assert "50 %" in found.text
    assert "snails" in found.text
    assert "20 May" in found.text
    assert f"{number // 2} of {number} plants are left" in found.text


def test_what_was_lost_altogether_is_told_once_with_what_is_missing_and_what_can_still_be_done() -> None:
    """The kilos are those of the yield without the loss."""
    of = told(HEADS, seen(1.0, day(5, 20)), {"kind": "ended", "why": "eaten", "day": day(5, 21)})
    plan = Plan(of, 2026)
    (found,) = [one for one in check_all(plan) if one.check == "losses"]
    grams = planting_yield(Plan(HEADS, 2026), HEADS.plantings[0]).grams
    assert (
        f"was lost on 21 May (slugs); {weight_words(grams, 'metric')} less is picked; it may be begun anew until"
        in found.text
    )
    (fix,) = found.fixes
    again = fix.apply(of)
    assert [one.replaces for one in again.plantings] == [None, "p1"]
    assert [one for one in check_all(Plan(again, 2026)) if one.check == "losses"] == []
    assert harvest(plan, of.plantings[0]).missing.endswith(
        f"was lost on 21 May (slugs): {weight_words(grams, 'metric')} is missing"
    )


def test_it_is_said_where_it_is_too_late_to_begin_anew() -> None:
    of = told(COURGETTE, seen(0.8, day(9, 1)))
    (found,) = [one for one in check_all(Plan(of, 2026)) if one.check == "losses"]
    assert "too late in the year to begin it anew" in found.text
    assert found.fixes == ()


def test_a_loss_of_half_says_what_is_picked_less() -> None:
    of = told(HEADS, seen(0.5, day(5, 20)))
    (found,) = [one for one in check_all(Plan(of, 2026)) if one.check == "losses"]
    less = (
        planting_yield(Plan(HEADS, 2026), HEADS.plantings[0]).grams
        - planting_yield(Plan(of, 2026), of.plantings[0]).grams
    )
    assert f"{weight_words(less, 'metric')} less is picked" in found.text


def test_lost_is_of_a_planting() -> None:
    with pytest.raises(e.EditError, match="name the planting"):
        e.add_records(HEADS, [{"kind": "seen", "harm": "voles", "bed": "b1", "lost": 0.5, "day": day(5, 1)}])


def test_a_followed_plan_says_what_a_fresh_one_says() -> None:
    plan = Plan(HEADS, 2026)
    check_all(plan)
    planting_yield(plan, HEADS.plantings[0])
    of = told(HEADS, seen(0.6, day(5, 20)))
    followed = plan.after(of)
    assert planting_yield(followed, of.plantings[0]) == planting_yield(Plan(of, 2026), of.plantings[0])
    assert [one.text for one in check_all(followed)] == [one.text for one in check_all(Plan(of, 2026))]


def test_what_took_some_of_it_is_named_all_and_once() -> None:
    of = told(HEADS, seen(0.5, day(5, 20), cause="snails"), {"kind": "seen", "harm": "frost", "lost": 0.5, "day": day(5, 24)},
              seen(0.2, day(5, 28), cause="snails"), {"kind": "seen", "harm": "wind", "share": 0.9, "day": day(5, 29)})  # fmt: skip
    (found,) = [one for one in check_all(Plan(of, 2026)) if one.check == "losses"]
    assert "lost to snails and frost by 28 May" in found.text
    ended = told(of, {"kind": "ended", "why": "eaten", "day": day(6, 2)})
    (found,) = [one for one in check_all(Plan(ended, 2026)) if one.check == "losses"]
    assert "(snails and frost)" in found.text


def test_what_was_picked_before_all_of_it_was_lost_is_not_missing() -> None:
    """A loss of half is half of what a loss of all is; all is never more than what was still to come."""
    of, planting = COURGETTE, COURGETTE.plantings[0]
    whole = harvest(Plan(of, 2026), planting)
    middle = whole.picks[len(whole.picks) // 2].day
    before = sum(pick.grams for pick in whole.picks if pick.day < middle)
    lost = Plan(told(of, {"kind": "ended", "why": "eaten", "day": middle}), 2026)
    half = Plan(told(of, seen(0.5, middle)), 2026)
    assert 0 < before < whole.picked
    assert harvest(lost, planting).picked == pytest.approx(before, abs=2)
    assert missing_of_loss(lost, planting) == pytest.approx(whole.picked - before, abs=2)
    assert missing_of_loss(half, planting) == pytest.approx((whole.picked - before) / 2, abs=2)
    (found,) = [one for one in check_all(lost) if one.check == "losses"]
    assert weight_words(missing_of_loss(lost, planting) or 0, "metric") in found.text


def test_what_is_lifted_all_at_once_is_lost_whole_though_it_was_ripe() -> None:
    of = made(bed(), planting(crop="potato", start="tubers", first=day(4, 20)))
    planting_, plan = of.plantings[0], Plan(of, 2026)
    ripe = plan.dates(planting_).first_harvest
    assert ripe is not None
    lost = Plan(told(of, {"kind": "ended", "why": "eaten", "day": ripe.day + dt.timedelta(days=3)}), 2026)
    assert harvest(lost, planting_).picked == 0
    assert missing_of_loss(lost, planting_) == harvest(plan, planting_).picked > 0


def test_a_picking_written_down_in_the_middle_takes_nothing_from_the_harvest() -> None:
    """Others may have gone before it unwritten; only what is called the first picking begins the harvest."""
    of, planting_ = COURGETTE, COURGETTE.plantings[0]
    whole = harvest(Plan(of, 2026), planting_)
    middle = whole.picks[len(whole.picks) // 2].day
    picked = {"kind": "picked", "day": middle, "amount": {"value": 1200, "unit": "g"}}
    assert harvest(Plan(told(of, picked), 2026), planting_).picked == whole.picked
    half, both = told(of, seen(0.5, middle)), told(of, picked, seen(0.5, middle))
    assert missing_of_loss(Plan(half, 2026), planting_) == missing_of_loss(Plan(both, 2026), planting_)
    early = whole.picks[0].day - dt.timedelta(days=9)
    sooner = Plan(told(of, {**picked, "day": early}), 2026).dates(planting_).first_harvest
    assert sooner is not None
    assert sooner.day == early
    first = Plan(told(of, {"kind": "first picking", "day": middle}), 2026).dates(planting_).first_harvest
    assert first is not None
    assert first.day == middle
