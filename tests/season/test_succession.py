"""Series: every so many days, or to be picked all season."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
from dated_plantings import CLIMATE, ZONE_5, D, ripe_in
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.garden import Planting, Stretch
from planner.garden import edits as e
from planner.plan import Plan
from planner.season.succession import all_season, every, usual_harvest

LETTUCE = crop("lettuce", hardiness="frost-tolerant", sow_from=-4, harvest_days=20, **ripe_in(50))
BEAN = crop("bean", hardiness="tender", sow_from=0, harvest_days=20, **ripe_in(60))
SHELF = catalogue_of(LETTUCE, BEAN, crop("bare", sow_from=0))


def plan_of(key: str = "lettuce", beds=1, **fields) -> Plan:
    ground = [bed(f"b{i}", rectangle(4.0, 1.2)) for i in range(1, beds + 1)]
    one = planting(crop=key, plot=fields.pop("plot", Stretch(start=0, end=1)), **fields)
    return Plan(garden(*ground, one, climate=CLIMATE), 2026, SHELF)


def members(plan: Plan, series) -> list[tuple[Planting, object]]:
    after = plan.after(series.garden)
    return [(p := series.garden.plantings_by_id[key], after.dates(p)) for key in series.members]


def test_every_two_weeks_until_it_no_longer_ripens():
    plan = plan_of("bean", beds=2)
    series = every(plan, "p1", 14, beds=["b2"])
    found = members(plan, series)
    starts = [dates.sow.day for _, dates in found]
    # from the day after which frost comes in one year of ten to the last that is ripe by 16 October
    assert starts == [D(2026, 5, 11) + dt.timedelta(days=14 * i) for i in range(8)]
    assert starts[-1] + dt.timedelta(days=60) <= D(2026, 10, 16) < starts[-1] + dt.timedelta(days=74)
    assert all(dates.ripens for _, dates in found)
    assert all(p.series == found[0][0].series for p, _ in found)
    first_out = series.left_out[0]
    assert first_out.start == D(2026, 8, 31)
    assert "would ripen on 30 Oct, after the first autumn frost (16 Oct)" in first_out.why
    assert series.notes == ("4 of 12 were not made",)


def test_members_take_the_next_free_stretch_and_never_each_others():
    plan = plan_of(beds=2)
    series = every(plan, "p1", 10, until=D(2026, 7, 20), beds=["b2"])
    after = plan.after(series.garden)
    found = [p for p, _ in members(plan, series)]
    assert [(p.bed, p.plot.start) for p in found[:4]] == [("b1", 0.0), ("b1", 1.0), ("b1", 2.0), ("b1", 3.0)]
    for i, one in enumerate(found):
        assert one.plot.end - one.plot.start == pytest.approx(1.0)
        for other in found[:i]:
            if one.bed == other.bed and after.span_of(one).meets(after.span_of(other)):
                assert one.plot.start >= other.plot.end - 1e-6 or one.plot.end <= other.plot.start + 1e-6
    assert {p.bed for p in found} == {"b1", "b2"}
    assert series.left_out == ()


def test_a_member_without_free_ground_is_left_out_with_the_reason():
    series = every(plan_of(plot={"kind": "whole"}), "p1", 14, until=D(2026, 5, 15))
    assert series.members == ("p1",)
    assert "no ground is free for it from" in series.left_out[0].why


def test_ground_is_taken_again_when_the_one_before_is_gone():
    series = every(plan_of(plot={"kind": "whole"}), "p1", 70, until=D(2026, 7, 1))
    assert len(series.members) == 2
    assert series.garden.plantings_by_id[series.members[1]].plot.kind == "whole"


def test_to_be_picked_from_may_to_september():
    plan = plan_of(beds=2)
    series = all_season(plan, "p1", D(2026, 6, 1), D(2026, 9, 30), beds=["b2"])
    found = members(plan, series)
    assert found[0][1].first_harvest.day == D(2026, 6, 1)
    for (_, one), (_, other) in itertools.pairwise(found):
        gap = (other.first_harvest.day - one.last_harvest.day).days
        assert gap <= 1, "no day without"
    assert found[-1][1].last_harvest.day >= D(2026, 9, 30)
    assert series.left_out == ()
    assert series.notes == ()


def test_a_harvest_earlier_than_the_window_allows_begins_as_soon_as_it_can():
    plan = plan_of(beds=2)
    series = all_season(plan, "p1", D(2026, 5, 1), D(2026, 7, 1), beds=["b2"])
    assert series.notes == ("It cannot be picked before 23 May: it starts on 3 Apr at the earliest",)
    assert members(plan, series)[0][1].first_harvest.day == D(2026, 5, 23)


def test_a_harvest_past_the_frost_is_left_out_with_its_reason():
    series = all_season(plan_of("bean", beds=2), "p1", D(2026, 8, 1), D(2026, 12, 1), beds=["b2"])
    assert series.left_out
    assert "after the first autumn frost" in series.left_out[0].why
    with pytest.raises(e.EditError, match="after the first autumn frost"):
        all_season(plan_of("bean"), "p1", D(2026, 11, 1), D(2026, 12, 1))


def test_a_series_is_picked_until_the_first_frost_where_nothing_else_is_wished():
    plan = plan_of()
    ripe = plan.dates(plan.garden.plantings[0]).first_harvest.day
    assert usual_harvest(plan, "p1") == (ripe, D(2026, 10, 16))
    assert plan.span.first < ripe < D(2026, 7, 1)
    unknown = Plan(garden(bed(), planting(crop="bare")), 2026, SHELF)
    assert usual_harvest(unknown, "p1") == (D(2026, 1, 1), D(2026, 12, 31))


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: every(plan_of(), "p1", 0), "every 0 days is no interval"),
        (lambda: every(plan_of(), "p7", 9), "there is no planting 'p7'"),
        (lambda: every(plan_of("unknown"), "p1", 9), "window"),
        (lambda: all_season(plan_of(), "p1", D(2026, 7, 1), D(2026, 6, 1)), "is before the first"),
        (
            lambda: all_season(plan_of("bare"), "p1", D(2026, 7, 1), D(2026, 8, 1)),
            "No days to maturity are known",
        ),
    ],
)
def test_what_cannot_be_made_is_refused_in_words(make, words):
    with pytest.raises(e.EditError) as caught:
        make()
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_member_that_would_ripen_only_after_the_winter_is_left_out_with_the_day():
    """400 degree-days over 4: two members find them before the winter of zone 5, the third grows on in spring."""
    figures = {"base_temperature": 4, "best_temperature": 20, "heat_to_harvest": 400}
    chard = crop(
        "chard", hardiness="very hardy", sow_from=-4, days_to_maturity=60, harvest_days=20, **figures
    )
    one = planting(crop="chard", plot=Stretch(start=0, end=1), first=D(2026, 8, 2))
    plan = Plan(garden(bed("b1", rectangle(4.0, 1.2)), one, climate=ZONE_5), 2026, catalogue_of(chard))
    series = every(plan, "p1", 28, until=D(2026, 9, 28))
    assert [dates.first_harvest.day.year for _, dates in members(plan, series)] == [2026, 2026]
    (late,) = series.left_out
    assert late.start == D(2026, 9, 27)
    assert late.why.startswith("chard started on 27 Sep would not ripen before ")
    assert late.why.endswith(" 2027")


@pytest.mark.parametrize(("gap", "made"), [(0.9, 1), (1.5, 2)])
def test_a_member_needs_free_ground_as_long_as_the_first(gap, made):
    """The first takes 2.5 to 4 m of the bed, another crop the metre and more before it but for a gap."""
    first = planting(crop="lettuce", plot=Stretch(start=2.5, end=4.0), first=D(2026, 5, 1))
    other = planting(
        "p2", crop="lettuce", plot=Stretch(start=gap, end=2.5), first=D(2026, 4, 1), last=D(2026, 9, 1)
    )
    plan = Plan(garden(bed("b1", rectangle(4.0, 1.2)), first, other, climate=CLIMATE), 2026, SHELF)
    series = every(plan, "p1", 14, until=D(2026, 5, 15))
    assert len(series.members) == made
    assert len(series.left_out) == 2 - made
