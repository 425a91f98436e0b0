"""Season and soil warmth: both sides of each threshold."""

from __future__ import annotations

import datetime as dt

import pytest
from checks.faults import CLIMATE, INLAND, WARM, YEAR, beans, day, made, rows
from checks.thresholds import Threshold, own
from making import bed, planting

from planner.checks import Fix, check_all, check_only
from planner.checks.registry import helpful_fixes
from planner.garden import Climate, Garden
from planner.garden import edits as e
from planner.plan import Plan


def late_corn(first: dt.date) -> Garden:
    return made(
        bed(),
        planting(crop="sweet_corn", start="raised", first=first, arrangement=rows(0.3, 0.4)),
        climate=WARM,
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
    return late_corn(first)


def sown(crop: str, first: dt.date, climate: Climate = CLIMATE) -> Garden:
    one = planting(crop=crop, start="sown", first=first, arrangement=rows(0.1, 0.3))
    return made(bed(), one, climate=climate)


def sweet_potato(may: float) -> Garden:
    """Sweet potatoes set out on 20 May, in a place with such a mean in that month."""
    one = planting(crop="sweet_potato", start="bought", first=day(5, 20), arrangement=rows(0.3, 0.9))
    climate = CLIMATE.with_(
        monthly_minimum=(0.4, 0.4, 1.5, 3.0, may - 6, 15.0, 16.0, 16.0, 14.0, 9.6, 2.7, 0.6),
        monthly_maximum=(6.5, 7.1, 9.1, 11.8, may + 6, 28.0, 30.0, 30.0, 26.0, 19.6, 9.0, 6.7),
    )
    return made(bed(), one, climate=climate)


def chard(last: dt.date) -> Garden:
    """Chard, of whose earliest sorts no days are known but those of its sources, and no others are taken."""
    one = planting(crop="chard", start="sown", first=day(4, 20), last=last, arrangement=rows(0.2, 0.3))
    return made(bed(), one)


def own_carrot(last: dt.date) -> Garden:
    """Carrots of a variety that can first be picked on 15 September."""
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


def spinach_in_a_july_of(mean: float) -> Garden:
    """Spinach sown in the middle of a month of such a mean, between two as warm."""
    warm = CLIMATE.with_(
        monthly_minimum=(0.4, 0.4, 1.5, 3.0, 10.0, mean - 6, mean - 6, mean - 6, 11.0, 5.6, 2.7, 0.6),
        monthly_maximum=(6.5, 7.1, 9.1, 11.8, 22.0, mean + 6, mean + 6, mean + 6, 21.0, 12.6, 9.0, 6.7),
    )
    one = planting(crop="spinach", start="sown", first=day(7, 16), arrangement=rows(0.1, 0.3))
    return made(bed(), one, climate=warm)


THRESHOLDS = [
    Threshold(
        "ripe 14 or 15 days after the frost",
        "season",
        lambda first: made(bed(), beans(first=first)),
        day(8, 10),
        [("mind", "frost")],
        day(8, 11),
        [("stop", "frost")],
    ),
    Threshold(
        "ripe the day of the frost or the day after",
        "season",
        lambda first: made(bed(), beans(first=first)),
        day(8, 7),
        [],
        day(8, 8),
        [("mind", "frost")],
    ),
    Threshold(
        "ripe less than 14 days before the frost",
        "season",
        late_corn,
        day(7, 12),
        [],
        day(7, 13),
        [("note", "barely")],
    ),
    Threshold(
        "ripe a week before the frost",
        "season",
        late_corn,
        day(7, 15),
        [("note", "barely")],
        day(7, 16),
        [("mind", "barely")],
    ),
    Threshold(
        "cloves in days of 14 and a half hours",
        "season",
        garlic,
        day(4, 18),
        [],
        day(4, 19),
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
        "slow crop whose soonest sort is picked before the cold, or only when it has come",
        "season",
        leek,
        day(7, 9),
        [],
        day(7, 10),
        [("note", "late")],
    ),
    Threshold(
        "heat sum of 80 % of the need or 79 %",
        "season",
        corn_in_a_cool_summer,
        day(8, 2),
        [("mind", "heat")],
        day(8, 3),
        [("stop", "heat")],
    ),
    Threshold(
        "fewer than half of the seeds",
        "soil warmth",
        lambda d: sown("carrot", d, INLAND),
        day(3, 16),
        [],
        day(3, 15),
        [("note", "")],
    ),
    Threshold(
        "fewer than 20 of 100 seeds",
        "soil warmth",
        lambda d: sown("carrot", d, INLAND),
        day(3, 4),
        [("note", "")],
        day(3, 3),
        [("mind", "")],
    ),
    Threshold(
        "tender seed that lies longer than 21 days",
        "soil warmth",
        lambda d: sown("sweet_corn", d),
        day(5, 3),
        [],
        day(5, 2),
        [("note", "")],
    ),
    Threshold(
        "three quarters of such seed",
        "soil warmth",
        lambda d: sown("tomato", d),
        day(4, 29),
        [],
        day(4, 28),
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
        day(5, 8),
        [("note", "")],
        day(5, 7),
        [("mind", "")],
    ),
    Threshold(
        "2.5 degrees colder than its least, without a table",
        "soil warmth",
        lambda d: sown("leek", d),
        day(2, 18),
        [],
        day(2, 17),
        [("note", "")],
    ),
    Threshold("roots 4 degrees colder", "soil warmth", sweet_potato, 12.4, [], 12.3, [("note", "roots")]),
    Threshold(
        "cleared 3 or 4 days too soon",
        "season",
        own_carrot,
        day(9, 12),
        [],
        day(9, 11),
        [("mind", "cleared")],
    ),
    Threshold(
        "cleared 14 or 15 days too soon",
        "season",
        own_carrot,
        day(9, 1),
        [("mind", "cleared")],
        day(8, 31),
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
        "soil under glass, five weeks sooner than in the open",
        "soil warmth",
        lambda first: dwarf_beans_sown(first, "under glass"),
        day(4, 24),
        [],
        day(4, 23),
        [("note", "")],
    ),
    Threshold(
        "soil under film; bare ground is so warm on 31 May",
        "soil warmth",
        lambda first: dwarf_beans_sown(first, covers=({"kind": "film"},)),
        day(5, 12),
        [],
        day(5, 11),
        [("note", "")],
    ),
    Threshold(
        "soil of bare ground",
        "soil warmth",
        dwarf_beans_sown,
        day(5, 31),
        [],
        day(5, 30),
        [("note", "")],
    ),
    Threshold(
        "soil one degree hotter than its most",
        "soil warmth",
        lambda july: spinach_in_a_july_of(july),
        24.5,  # 24.0 on that day, and the soil is a degree warmer than the air
        [],
        24.6,
        [("note", "hot")],
    ),
    Threshold(
        "soil 2.5 degrees hotter",
        "soil warmth",
        lambda july: spinach_in_a_july_of(july),
        26.1,
        [("note", "hot")],
        26.2,
        [("mind", "hot")],
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()


@pytest.mark.parametrize(("cleared", "early"), [(day(7, 12), True), (day(7, 11), False)])
def test_what_the_earliest_sorts_reach_is_said_and_offered(cleared: dt.date, early: bool) -> None:
    garden = chard(cleared)
    (one,) = check_only(Plan(garden, YEAR), ["season"])
    assert (one.severity, one.topic) == ("note" if early else "mind", "cleared")
    assert one.text.endswith("; only the earliest sorts are ready by then") == early
    told = {fix.text: fix for fix in one.candidates(Plan(garden, YEAR)) if isinstance(fix, Fix)}
    sorts = [text for text in told if text.startswith("Grow an early sort of chard, picked from ")]
    assert bool(sorts) == early
    for text in (*sorts, "Leave its day of clearing to be worked out"):
        after = Plan(told[text].apply(garden), YEAR)
        assert check_only(after, ["season"]) == ()
        assert after.dates(after.plantings[0]).doubts == ()


@pytest.mark.parametrize("short", [2, 3, 4, 20, 60])
def test_dates_and_findings_agree_on_what_is_cleared_too_soon(short: int) -> None:
    garden = own_carrot(day(9, 15) - dt.timedelta(days=short))
    plan = Plan(garden, YEAR)
    first = plan.dates(plan.plantings[0]).first_harvest
    assert first is not None
    assert first.day == day(9, 15)
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
    garden = chard(day(7, 14))
    plan = Plan(garden, YEAR)
    (one,) = check_only(plan, ["season"])
    fixes = (fix for fix in one.candidates(plan) if isinstance(fix, Fix))
    fix = next(fix for fix in fixes if fix.text.startswith("Grow an early sort of chard"))
    after = Plan(fix.apply(garden), YEAR)
    assert after.span_of(after.plantings[0]).first == plan.span_of(plan.plantings[0]).first
    assert check_only(after, ["season"]) == ()


@pytest.mark.parametrize(("short", "sooner"), [(10, True), (60, False)])
def test_start_is_moved_by_four_weeks_at_most(short: int, sooner: bool) -> None:
    plan = Plan(own_carrot(day(9, 15) - dt.timedelta(days=short)), YEAR)
    (one,) = check_only(plan, ["season"])
    starts = [fix for fix in helpful_fixes(plan, one) if fix.text.startswith("Sow ")]
    assert len(starts) == sooner
    for fix in starts:
        after = Plan(fix.apply(plan.garden), YEAR)
        assert (day(4, 20) - after.span_of(after.plantings[0]).first).days <= 28
        assert check_only(after, ["frost", "season", "soil warmth", "bolting"]) == ()


def test_what_is_never_picked_before_the_winter_is_started_sooner_not_left_for_a_year() -> None:
    sprouts = planting(
        crop="brussels_sprouts",
        start="raised",
        first=day(10, 5),
        last=day(2, 20, YEAR + 1),
        arrangement=rows(0.6, 0.6),
    )
    garden = made(bed(), sprouts)
    found = [one for one in check_all(Plan(garden, YEAR), light=False) if one.check == "season"]
    assert found
    texts = [fix.text for one in found for fix in one.fixes]
    assert not any(text.startswith("Clear ") for text in texts), texts
    starts = {text for text in texts if text.startswith("Set out ")}
    assert len(starts) == 1, texts
