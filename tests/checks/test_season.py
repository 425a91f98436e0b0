"""Season and soil warmth: both sides of each threshold."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import CLIMATE, WARM, YEAR, beans, day, made, rows
from checks.thresholds import Threshold, own
from making import bed, planting

from planner.checks import check_all, check_only
from planner.garden import Garden
from planner.garden import edits as e
from planner.plan import Plan


def late_corn(first: dt.date) -> Garden:
    return made(
        bed(),
        planting(crop="sweet_corn", start="raised", first=first, arrangement=rows(0.3, 0.4)),
        climate=CLIMATE.with_(monthly_minimum=None, monthly_maximum=None),
    )


def garlic(first: dt.date) -> Garden:
    return made(bed(), planting(crop="garlic", start="cloves", first=first, arrangement=rows(0.15, 0.3)))


def parsnip(first: dt.date) -> Garden:
    return made(
        bed(),
        planting(crop="parsnip", start="sown", first=first, last=day(12, 20), arrangement=rows(0.15, 0.3)),
    )


def leek(first: dt.date) -> Garden:
    return made(bed(), planting(crop="leek", start="raised", first=first, arrangement=rows(0.15, 0.3)))


def corn_in_a_cool_summer(first: dt.date) -> Garden:
    return made(bed(), planting(crop="sweet_corn", start="raised", first=first, arrangement=rows(0.3, 0.4)))


def sown(crop: str, first: dt.date) -> Garden:
    return made(bed(), planting(crop=crop, start="sown", first=first, arrangement=rows(0.1, 0.3)))


def sweet_potato(may: float) -> Garden:
    """Sweet potatoes set out on 20 May, in a place with such a mean in that month."""
    one = planting(crop="sweet_potato", start="bought", first=day(5, 20), arrangement=rows(0.3, 0.9))
    climate = CLIMATE.with_(
        monthly_minimum=(0.4, 0.4, 1.5, 3.0, may - 6, 15.0, 16.0, 16.0, 14.0, 9.6, 2.7, 0.6),
        monthly_maximum=(6.5, 7.1, 9.1, 11.8, may + 6, 28.0, 30.0, 30.0, 26.0, 19.6, 9.0, 6.7),
    )
    return made(bed(), one, climate=climate)


def beetroot(last: dt.date) -> Garden:
    """Beetroot that can first be picked on 24 June; its earliest sorts are ten days ahead."""
    one = planting(crop="beetroot", start="sown", first=day(4, 20), last=last, arrangement=rows(0.1, 0.3))
    return made(bed(), one)


def own_carrot(last: dt.date) -> Garden:
    """Carrots of a variety that can first be picked on 19 July."""
    one = planting(
        crop="carrot",
        variety="Own",
        start="sown",
        first=day(4, 20),
        last=last,
        arrangement=rows(0.05, 0.3),
    )
    return made(bed(), one, **own("carrot", days_to_maturity=90))


def onion_sets(first: dt.date) -> Garden:
    return made(bed(), planting(crop="onion", start="sets", first=first, arrangement=rows(0.1, 0.3)))


def swede(days: float) -> Garden:
    """A swede that takes so many days, sown in late August."""
    one = planting(crop="swede", variety="Own", start="sown", first=day(8, 25), arrangement=rows(0.2, 0.45))
    return made(bed(), one, **own("swede", days_to_maturity=days))


def okra(night: float) -> Garden:
    """Okra where the nights of July are so warm."""
    warm = WARM.with_(
        monthly_minimum=(0.4, 0.4, 1.5, 3.0, 8.6, 12.0, night, 12.2, 11.3, 7.6, 2.7, 0.6),
        monthly_maximum=(6.5, 7.1, 9.1, 11.8, 19.9, 26.4, 29.1, 28.8, 23.2, 14.6, 9.0, 6.7),
    )
    one = planting(crop="okra", start="raised", first=day(6, 20), arrangement=rows(0.4, 0.6))
    return made(bed(), one, climate=warm)


def dwarf_beans_sown(first: dt.date, kind: str = "open", covers: tuple[dict[str, str], ...] = ()) -> Garden:
    one = planting(crop="dwarf_bean", start="sown", first=first, covers=covers, arrangement=rows(0.15, 0.4))
    return made(bed(kind=kind), one)


THRESHOLDS = [
    Threshold(
        "ripe 14 or 15 days after the frost",
        "season",
        lambda first: made(bed(), beans(first=first)),
        day(9, 13),
        [("mind", "frost")],
        day(9, 14),
        [("stop", "frost")],
    ),
    Threshold(
        "ripe the day of the frost or the day after",
        "season",
        lambda first: made(bed(), beans(first=first)),
        day(8, 30),
        [],
        day(8, 31),
        [("mind", "frost")],
    ),
    Threshold(
        "ripe less than 14 days before the frost",
        "season",
        late_corn,
        day(7, 24),
        [],
        day(7, 25),
        [("note", "barely")],
    ),
    Threshold(
        "ripe a week before the frost",
        "season",
        late_corn,
        day(7, 28),
        [("note", "barely")],
        day(7, 29),
        [("mind", "barely")],
    ),
    Threshold(
        "cloves 91 or 90 days before they ripen",
        "season",
        garlic,
        day(4, 28),
        [],
        day(4, 29),
        [("mind", "small")],
    ),
    Threshold(
        "seed 110 or 111 days before the last frost",
        "season",
        parsnip,
        day(1, 16),
        [("note", "early")],
        day(1, 15),
        [],
    ),
    Threshold(
        "slow crop that finds 75 % of its warmth or 74 %",
        "season",
        leek,
        day(8, 1),
        [],
        day(8, 2),
        [("note", "late")],
    ),
    Threshold(
        "heat sum of 75 % of the need or 74 %",
        "season",
        corn_in_a_cool_summer,
        day(7, 9),
        [("mind", "heat")],
        day(7, 10),
        [("stop", "heat")],
    ),
    Threshold(
        "fewer than half of the seeds",
        "soil warmth",
        lambda d: sown("carrot", d),
        day(2, 12),
        [],
        day(2, 11),
        [("note", "")],
    ),
    Threshold(
        "fewer than 20 of 100 seeds",
        "soil warmth",
        lambda d: sown("turnip", d),
        day(2, 19),
        [("note", "")],
        day(2, 18),
        [("mind", "")],
    ),
    Threshold(
        "tender seed that lies longer than 21 days",
        "soil warmth",
        lambda d: sown("sweet_corn", d),
        day(5, 2),
        [],
        day(5, 1),
        [("note", "")],
    ),
    Threshold(
        "three quarters of such seed",
        "soil warmth",
        lambda d: sown("tomato", d),
        day(4, 22),
        [],
        day(4, 21),
        [("note", "")],
    ),
    Threshold(
        "a third colder than its least, without a table",
        "soil warmth",
        lambda d: sown("courgette", d),
        day(6, 4),
        [],
        day(6, 3),
        [("note", "")],
    ),
    Threshold(
        "half as cold again",
        "soil warmth",
        lambda d: sown("courgette", d),
        day(5, 2),
        [("note", "")],
        day(5, 1),
        [("mind", "")],
    ),
    Threshold(
        "3.5 degrees colder than its least, without a table",
        "soil warmth",
        lambda d: sown("leek", d),
        day(2, 10),
        [],
        day(2, 9),
        [("note", "")],
    ),
    Threshold("roots 5 degrees colder", "soil warmth", sweet_potato, 11.4, [], 11.3, [("note", "roots")]),
    Threshold(
        "cleared 3 or 4 days too soon",
        "season",
        own_carrot,
        day(7, 16),
        [],
        day(7, 15),
        [("mind", "cleared")],
    ),
    Threshold(
        "cleared 14 or 15 days too soon",
        "season",
        own_carrot,
        day(7, 5),
        [("mind", "cleared")],
        day(7, 4),
        [("stop", "cleared")],
    ),
    Threshold(
        "sets 21 or 22 days before their window",
        "season",
        onion_sets,
        day(3, 4),
        [],
        day(3, 3),
        [("note", "early")],
    ),
    Threshold("slow from 80 days on", "season", swede, 79, [], 80, [("note", "late")]),
    Threshold(
        "started 100 days before the last frost",
        "season",
        lambda first: made(bed(), beans(first=first)),
        day(1, 26),
        [("stop", "frost")],
        day(1, 27),
        [],
    ),
    Threshold("nights one degree cooler", "season", okra, 14.0, [], 13.9, [("mind", "nights")]),
    Threshold(
        "soil 5 degrees warmer under glass",
        "soil warmth",
        lambda first: dwarf_beans_sown(first, "under glass"),
        day(3, 26),
        [],
        day(3, 25),
        [("note", "")],
    ),
    Threshold(
        "soil 2 degrees warmer under film",
        "soil warmth",
        lambda first: dwarf_beans_sown(first, covers=({"kind": "film"},)),
        day(5, 3),
        [],
        day(5, 2),
        [("note", "")],
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()


@pytest.mark.parametrize(("cleared", "early"), [(day(6, 11), True), (day(6, 10), False)])
def test_what_the_earliest_sorts_reach_is_said_and_offered(cleared: dt.date, early: bool) -> None:
    garden = beetroot(cleared)
    (one,) = check_only(Plan(garden, YEAR), ["season"])
    assert (one.severity, one.topic) == ("note" if early else "mind", "cleared")
    assert one.text.endswith("; only the earliest sorts are ready by then") == early
    told = {fix.text: fix for fix in one.candidates(Plan(garden, YEAR))}
    sorts = [text for text in told if text.startswith("Grow an early sort of beetroot, picked from ")]
    assert bool(sorts) == early
    for text in (*sorts, "Leave its day of clearing to be worked out"):
        after = Plan(told[text].apply(garden), YEAR)
        assert check_only(after, ["season"]) == ()
        assert after.dates(after.plantings[0]).doubts == ()


@pytest.mark.parametrize("short", [2, 3, 4, 20, 60])
def test_dates_and_findings_agree_on_what_is_cleared_too_soon(short: int) -> None:
    garden = own_carrot(day(7, 19) - dt.timedelta(days=short))
    plan = Plan(garden, YEAR)
    first = plan.dates(plan.plantings[0]).first_harvest
    assert first is not None
    assert first.day == day(7, 19)
    found = check_only(plan, ["season"])
    assert bool(plan.dates(plan.plantings[0]).doubts) == bool(found) == (short > 3)


@pytest.mark.parametrize(("short", "told"), [(14, False), (15, True)])
def test_what_stood_over_winter_may_be_cleared_two_weeks_sooner(short: int, told: bool) -> None:
    garlic = planting(crop="garlic", start="cloves", first=day(10, 10), last=day(8, 30, YEAR + 1))
    plan = Plan(made(bed(), garlic), YEAR)
    first = plan.dates(garlic).first_harvest
    assert first is not None
    early = garlic.with_(last=first.day - dt.timedelta(days=short))
    after = Plan(made(bed(), early), YEAR)
    assert bool(after.dates(early).doubts) == told
    assert bool(check_only(after, ["season"])) == told


def test_what_was_picked_before_it_starts_is_told() -> None:
    garden = e.tick(made(bed(), planting(crop="carrot")), "p1", "pick", day(3, 30))
    plan = Plan(garden, YEAR)
    assert any("before it starts" in line for line in plan.dates(plan.plantings[0]).doubts)
    (one,) = [one for one in check_all(plan, light=False) if one.check == "season"]
    assert (one.severity, one.topic, one.fixes) == ("mind", "order", ())
    assert one.text == (
        "Carrot in b1 is picked from 30 Mar, before it starts on 15 Apr: give its first day, or tick off when it was "
        "started"
    )
    started = e.tick(garden, "p1", "sow", day(1, 10))
    assert not any("before it starts" in line for line in Plan(started, YEAR).dates(plan.plantings[0]).doubts)
    assert "order" not in {one.topic for one in check_only(Plan(started, YEAR), ["season"])}


def test_an_early_sort_keeps_its_start() -> None:
    potato = planting(crop="potato", start="tubers", last=day(7, 10), arrangement=rows(0.3, 0.7))
    garden = made(bed(), potato)
    plan = Plan(garden, YEAR)
    (one,) = check_only(plan, ["season"])
    fix = next(fix for fix in one.candidates(plan) if fix.text.startswith("Grow an early sort of potato"))
    after = Plan(fix.apply(garden), YEAR)
    assert after.span_of(after.plantings[0]).first == plan.span_of(plan.plantings[0]).first
    assert check_only(after, ["season"]) == ()


@pytest.mark.parametrize(("cleared", "sooner"), [(day(6, 28), True), (day(6, 27), False)])
def test_start_is_moved_by_four_weeks_at_most(cleared: dt.date, sooner: bool) -> None:
    plan = Plan(own_carrot(cleared), YEAR)
    (one,) = check_only(plan, ["season"])
    gains = [fix.gain for fix in one.candidates(plan)]
    assert ("28 days sooner, and picked for a week" in gains) == sooner
    assert any(gain.endswith("sooner, and picked for a week") for gain in gains) == sooner
