"""Dates of plantings as a whole: pinned and done, southern, leap, polar, frost-free, incomplete."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import CLIMATE, FROSTS_ALONE, ZONE_5, D, dates, day, plan_of, steady
from making import bed, garden, planting

from planner.garden import Climate, FrostDates, Garden, PinnedDates, Site, Support
from planner.garden import edits as e
from planner.season.spans import OPEN_END


def test_pinned_dates_are_shown_as_such_and_the_rest_follows():
    found = dates("hardy", pinned_dates={"sow": D(2026, 5, 20)})
    assert found.sow is not None
    assert found.sow.pinned
    assert day(found.first_harvest) == D(2026, 7, 19)
    first = dates("hardy", first=D(2026, 5, 20), last=D(2026, 9, 1))
    assert day(first.first_harvest) == D(2026, 7, 19)
    assert first.clear is not None
    assert (first.clear.day, first.clear.pinned) == (D(2026, 9, 1), True)
    late = dates("raised", pinned_dates={"sow": D(2026, 4, 1)})
    assert day(late.set_out) == D(2026, 5, 13)


def test_ticking_off_moves_the_rest_and_unticking_moves_it_back():
    one = planting(crop="raised")
    plan = plan_of(one)
    before = plan.dates(one)
    ticked = e.tick(plan.garden, "p1", "set out", D(2026, 5, 4))
    after = plan.after(ticked)
    moved = after.dates(one)
    assert moved.set_out is not None
    assert (moved.set_out.day, moved.set_out.origin) == (D(2026, 5, 4), "done")
    assert day(moved.first_harvest) == D(2026, 6, 23)
    assert after.span_of(one).first == D(2026, 5, 4)
    assert day(moved.sow) == D(2026, 5, 4) - dt.timedelta(days=42)
    back = after.after(e.untick(ticked, "p1", "set out"))
    assert back.dates(one) == before
    sown = plan.after(e.tick(plan.garden, "p1", "sow", D(2026, 3, 20))).dates(one)
    assert day(sown.set_out) == D(2026, 5, 1)
    assert day(sown.first_harvest) == D(2026, 6, 20)


def test_what_was_done_comes_before_what_was_pinned():
    one = planting(crop="hardy", first=D(2026, 4, 20), last=D(2026, 8, 1))
    plan = plan_of(one)
    after = plan.after(e.tick(plan.garden, "p1", "sow", D(2026, 4, 28)))
    assert after.span_of(one).first == D(2026, 4, 28)
    gone = after.after(e.tick(after.garden, "p1", "clear", D(2026, 7, 10)))
    assert gone.span_of(one).last == D(2026, 7, 10)


def test_southern_plantings_have_their_spring_in_september():
    south = Climate(
        last_frost=FrostDates(risk_10="11-10", risk_50="10-12", risk_90="09-14"),
        first_frost=FrostDates(risk_10="04-02", risk_50="04-25", risk_90="05-18"),
    )
    site = Site(latitude=-41)
    south = steady(14.0, 24.0, south)
    found = dates("hardy", south, site=site)
    assert day(found.sow) == D(2026, 9, 21)
    assert day(found.first_harvest) == D(2026, 11, 20)
    late = dates("bean", south, site=site, first=D(2027, 2, 10))
    assert day(late.first_harvest) == D(2027, 4, 11)
    counted = dates("bean", south, site=site, timing="count back")
    assert day(counted.sow) == D(2027, 4, 2) - dt.timedelta(days=80), (
        "its 60 days and 20 of harvest before 2 April"
    )


def test_garlic_lives_through_the_winter_and_is_lifted_in_summer_north_and_south(catalogue):
    found = dates("garlic", FROSTS_ALONE, catalogue)
    assert found.set_out is not None
    assert found.first_harvest is not None
    assert D(2026, 10, 1) < found.set_out.day < D(2026, 11, 15)
    assert D(2027, 6, 15) < found.first_harvest.day < D(2027, 8, 15)
    assert found.clear is not None
    one = planting(crop="garlic")
    span = plan_of(one, FROSTS_ALONE, catalogue).span_of(one)
    assert span.holds(D(2027, 1, 15))
    south = Climate(
        last_frost=FrostDates(risk_10="11-10", risk_50="10-12", risk_90="09-14"),
        first_frost=FrostDates(risk_10="04-02", risk_50="04-25", risk_90="05-18"),
    )
    there = dates("garlic", south, catalogue, site=Site(latitude=-41))
    assert there.set_out is not None
    assert there.first_harvest is not None
    assert D(2027, 4, 15) < there.set_out.day < D(2027, 6, 1)
    assert D(2027, 12, 1) < there.first_harvest.day < D(2028, 2, 15)


def test_a_frost_on_the_29th_of_february_and_plantings_over_it():
    leap = CLIMATE.with_(last_frost=FrostDates(risk_10="03-10", risk_50="02-29", risk_90="02-01"))
    assert day(dates("bare", leap, year=2028).sow) == D(2028, 2, 29)
    assert day(dates("bare", leap, year=2027).sow) == D(2027, 2, 28)
    assert day(dates("hardy", year=2028, first=D(2028, 2, 29)).sow) == D(2028, 2, 29)


def test_without_any_frost_a_day_by_hand_is_needed():
    found = dates("hardy", Climate(frost_free=True))
    assert found.sow is None
    assert found.missing == ("This garden has no frost to count from: give the first day of hardy by hand",)
    assert day(dates("hardy", Climate(frost_free=True), first=D(2026, 3, 1)).first_harvest) == D(2026, 4, 30)


def test_no_climate_leaves_the_growing_year_as_it_was():
    one = planting(crop="hardy")
    plan = plan_of(one, Climate())
    assert plan.dates(one).missing == ("The last spring frost is not given: when hardy starts is not known",)
    assert plan.span_of(one) == plan.span


def test_a_crop_without_days_to_maturity_has_no_harvest_and_says_so():
    found = dates("bare")
    assert day(found.sow) == D(2026, 5, 1)
    assert (found.first_harvest, found.clear) == (None, None)
    assert found.missing == ("No days to maturity are known for bare: its harvest is not known",)
    one = planting(crop="bare")
    plan = plan_of(one)
    assert (plan.span_of(one).first, plan.span_of(one).last) == (D(2026, 5, 1), D(2026, 12, 31))


def test_a_crop_that_is_not_in_the_catalogue_does_no_harm():
    found = dates("moon lettuce")
    assert found.missing
    assert found.stages() == ()


def test_a_polar_garden_gets_dates_and_a_note_on_what_does_not_ripen():
    short = Climate(
        last_frost=FrostDates(risk_10="07-20", risk_50="07-14", risk_90="07-01"),
        first_frost=FrostDates(risk_10="07-28", risk_50="08-04", risk_90="08-15"),
    )
    found = dates("bean", short, site=Site(latitude=78.2))
    assert found.ripens is False
    assert day(found.clear) == D(2026, 8, 4)


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        (
            {"pinned_dates": {"sow": D(2026, 5, 1), "first_harvest": D(2026, 4, 1)}},
            "the first harvest 2026-04-01 is before the sowing 2026-05-01",
        ),
        (
            {"first": D(2026, 5, 1), "pinned_dates": {"first_harvest": D(2026, 4, 1)}},
            "the first harvest 2026-04-01 is before the first day on its plot",
        ),
        (
            {"pinned_dates": {"set_out": D(2026, 5, 1), "sow": D(2026, 6, 1)}},
            "the setting out 2026-05-01 is before the sowing 2026-06-01",
        ),
        (
            {"last": D(2026, 4, 1), "pinned_dates": {"sow": D(2026, 5, 1)}},
            "the last day 2026-04-01 is before its start 2026-05-01",
        ),
    ],
)
def test_a_harvest_before_sowing_is_refused_in_words(fields, words):
    document = garden(bed(), planting())
    with pytest.raises(e.EditError) as caught:
        e.change_planting(document, "p1", **fields)
    assert words in str(caught.value)


@pytest.mark.parametrize("first", [dt.date.min, dt.date.max])
def test_days_at_the_ends_of_the_calendar_do_no_harm(first):
    for key in ("hardy", "raised", "bean"):
        one = planting(crop=key, first=first)
        plan = plan_of(one)
        assert plan.dates(one).on_plot is not None
        assert plan.span_of(one).first == first


def test_perennials_stay_until_they_are_taken_out(catalogue):
    """Crowns of asparagus are cut from their third year on."""
    one = planting(crop="asparagus", start="crowns", year=2026, first=D(2022, 4, 1))
    plan = plan_of(one, FROSTS_ALONE, catalogue)
    assert (plan.span_of(one).last, plan.span_of(one).open) == (OPEN_END, True)
    for year in (2022, 2026, 2031):
        assert plan.after(plan.garden, year).plantings == (one,)
    assert plan.after(plan.garden, 2021).plantings == ()
    picked = [day(plan.after(plan.garden, year).dates(one).first_harvest) for year in (2023, 2025, 2030)]
    assert picked[0] is None, "too young in its second year"
    assert [one.year if one else None for one in picked[1:]] == [2025, 2030]
    last = e.change_planting(plan.garden, "p1", last=D(2029, 10, 1))
    assert plan.after(last).span_of(last.plantings[0]).last == D(2029, 10, 1)


@pytest.mark.parametrize(
    "key", ["tomato", "garlic", "potato", "runner_bean", "spring_onion", "sweet_pepper", "shallot"]
)
def test_perennials_grown_for_one_season_do_not_stay(catalogue, key):
    assert not dates(key, shelf=catalogue).stays_for_years


def test_support_goes_up_with_the_start_and_potatoes_are_earthed_up(catalogue):
    pea = dates("pea", shelf=catalogue, support=Support(kind="sticks"))
    assert day(pea.support_up) == day(pea.sow)
    potato = dates("potato", Climate(frost_free=True), catalogue, first=D(2026, 4, 3))
    assert potato.set_out is not None
    assert day(potato.emerge) == potato.set_out.day + dt.timedelta(days=28), "no temperatures are known"
    assert day(potato.care_day("earth up")) == potato.emerge.day + dt.timedelta(days=14)
    early, late = (
        dates("potato", ZONE_5, catalogue, first=first).emerge for first in (D(2026, 4, 1), D(2026, 5, 1))
    )
    assert 30 <= (early.day - D(2026, 4, 1)).days <= 45
    assert 18 <= (late.day - D(2026, 5, 1)).days <= 28


def test_every_crop_of_the_catalogue_gets_dates_in_order(catalogue):
    for key, one in catalogue.crops.items():
        for start in one.starts.value if one.starts else ("sown",):
            found = dates(key, ZONE_5, catalogue, start=start)
            steps = [
                found.sow,
                found.prick_out,
                found.harden_off,
                found.set_out,
                found.first_harvest,
                found.last_harvest,
            ]
            if found.stays_for_years:
                steps = steps[:4]
            known = [step.day for step in steps if step is not None]
            assert known == sorted(known), (key, start)
            assert found.on_plot or found.missing or start == "standing", (key, start)


def test_an_edit_of_the_climate_moves_spans_and_one_of_the_name_does_not():
    one = planting(crop="hardy")
    plan = plan_of(one)
    before = plan.dates(one)
    assert plan.after(e.change_bed(plan.garden, "b1", name="x")).dates(one) is before
    later = plan.after(e.change_climate(plan.garden, risk=10))
    assert later.span_of(one).first == plan.span_of(one).first + dt.timedelta(days=10)


def test_plants_indoors_take_bench_and_not_bed():
    one = planting(crop="raised")
    plan = plan_of(one)
    bench = plan.bench(one)
    assert bench is not None
    assert (bench.first, bench.last) == (D(2026, 3, 13), D(2026, 4, 23))
    assert plan.free(plan.garden.beds[0], bench.first, bench.last).area == pytest.approx(4.8 * 1.2)
    assert plan.free(plan.garden.beds[0], D(2026, 4, 24), D(2026, 4, 24)).is_empty


def test_pinned_dates_and_records_are_kept_in_the_document():
    one = planting(crop="raised", pinned_dates=PinnedDates(thin=D(2026, 6, 1)), timing="spring", series="s")
    document = e.tick(garden(bed(), one), "p1", "sow", D(2026, 3, 3))
    assert Garden.model_validate_json(document.model_dump_json()) == document
