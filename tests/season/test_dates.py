"""Dates of plantings: every way of starting, forward and backward, pinned and done; facts of practice."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.crops import Catalogue
from planner.garden import Climate, Cover, FrostDates, Garden, PinnedDates, Planting, Site, Support
from planner.garden import edits as e
from planner.plan import Plan
from planner.season.counting_back import count_back, latest_start
from planner.season.planting_dates import Dates
from planner.season.spans import OPEN_END

D = dt.date
#: Last frost 1 May, first frost 16 October, whatever the risk but for ten days either way.
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
#: A zone 5 garden of the inner continent: last frost 29 April. [deg C]
ZONE_5 = Climate(
    last_frost=FrostDates(risk_10="05-10", risk_50="04-29", risk_90="04-18"),
    first_frost=FrostDates(risk_10="09-24", risk_50="10-04", risk_90="10-15"),
    zone="5b",
    monthly_minimum=(-11.0, -9.0, -3.0, 3.5, 10.0, 15.5, 18.0, 17.0, 12.0, 5.0, -1.5, -8.0),
    monthly_maximum=(-1.5, 1.0, 8.5, 16.5, 22.5, 28.0, 30.0, 29.0, 25.0, 18.0, 9.0, 1.0),
)
SOWN = {"sow_from": -3, "days_to_maturity": 60, "harvest_days": 20, "maturity_from": "sowing"}
BEAN = crop("bean", starts={"value": ["sown"], "source": "practice"}, hardiness="tender", **SOWN)
KALE = crop("kale", hardiness="very hardy", **SOWN)
HARDY = crop("hardy", hardiness="frost-tolerant", **SOWN)
RAISED = crop(
    "raised",
    starts={"value": ["raised", "bought", "sown"], "source": "practice"},
    hardiness="frost-tolerant",
    weeks_to_raise=6,
    set_out_from=-1,
    sow_from=0,
    days_to_maturity=50,
    harvest_days=10,
    maturity_from="setting out",
)
FROM_SOWING = RAISED.model_copy(update={"key": "early", "maturity_from": KALE.maturity_from})
BARE = crop("bare", sow_from=0)
SHELF = catalogue_of(BEAN, KALE, HARDY, RAISED, FROM_SOWING, BARE)


def plan_of(one: Planting, climate: Climate = CLIMATE, shelf: Catalogue = SHELF, **fields) -> Plan:
    ground = fields.pop("bed", bed())
    return Plan(garden(ground, one, climate=climate, **fields), one.year, shelf)


def dates(key: str, climate: Climate = CLIMATE, shelf: Catalogue = SHELF, **fields) -> Dates:
    one = planting(crop=key, **{k: v for k, v in fields.items() if k not in ("site", "bed_kind")})
    ground = bed(kind=fields["bed_kind"]) if "bed_kind" in fields else bed()
    more = {"site": fields["site"]} if "site" in fields else {}
    return plan_of(one, climate, shelf, bed=ground, **more).dates(one)


def day(dated) -> dt.date | None:
    return dated.day if dated is not None else None


# -- forward --------------------------------------------------------------------------------------


def test_sown_in_place_counts_from_the_last_frost():
    found = dates("hardy")
    assert day(found.sow) == D(2026, 4, 10)
    assert day(found.first_harvest) == D(2026, 6, 9)
    assert day(found.last_harvest) == D(2026, 6, 28)
    assert day(found.clear) == D(2026, 6, 28)
    assert found.sow is not None
    assert found.sow.why == "3 weeks before the last spring frost (01 May, risk 50 %)"
    assert (found.sow.source, found.sow.origin) == ("estimate", "worked out")
    assert (found.prick_out, found.set_out, found.indoors) == (None, None, None)


@pytest.mark.parametrize(("risk", "sown"), [(10, D(2026, 4, 20)), (50, D(2026, 4, 10)), (90, D(2026, 3, 31))])
def test_the_risk_chosen_moves_the_dates(risk, sown):
    assert day(dates("hardy", CLIMATE.with_(risk=risk)).sow) == sown


def test_raised_plants_are_sown_so_many_weeks_before_they_are_set_out():
    found = dates("raised")
    assert day(found.set_out) == D(2026, 4, 24)
    assert day(found.sow) == D(2026, 3, 13)
    assert day(found.prick_out) == D(2026, 4, 2), "10 days to come up, 10 to prick out"
    assert day(found.harden_off) == D(2026, 4, 16)
    assert day(found.first_harvest) == D(2026, 6, 13)
    assert found.indoors == (D(2026, 3, 13), D(2026, 4, 23))
    assert [(s.name, s.first) for s in found.stages()] == [
        ("indoors", D(2026, 3, 13)),
        ("growing", D(2026, 4, 24)),
        ("picking", D(2026, 6, 13)),
    ]


def test_days_to_maturity_from_sowing_count_from_the_sowing():
    assert day(dates("early", start="raised").first_harvest) == D(2026, 3, 13) + dt.timedelta(days=60 - 10)


def test_bought_plants_are_set_out_and_have_the_weeks_indoors_behind_them():
    found = dates("early", start="bought")
    assert (day(found.set_out), found.sow) == (D(2026, 4, 24), None)
    assert day(found.first_harvest) == D(2026, 4, 24) + dt.timedelta(days=17), "a third at least is left"
    assert day(dates("raised", start="bought").first_harvest) == D(2026, 6, 13)


def test_sown_in_place_takes_the_time_young_plants_would_have_been_raised_longer():
    assert day(dates("raised", start="sown").first_harvest) == D(2026, 5, 1) + dt.timedelta(days=42 + 50)


@pytest.mark.parametrize(("crop", "start"), [("onion", "sets"), ("potato", "tubers"), ("shallot", "sets")])
def test_sets_and_tubers_are_planted_in_their_window(catalogue, crop, start):
    found = dates(crop, shelf=catalogue, start=start)
    assert found.sow is None
    assert found.set_out is not None
    assert D(2026, 3, 15) < found.set_out.day < D(2026, 5, 1)
    assert found.first_harvest is not None
    assert found.first_harvest.day > found.set_out.day


def test_what_stands_already_has_no_starting_work():
    found = dates("kale", start="standing")
    assert (found.sow, found.set_out, found.thin) == (None, None, None)


# -- pinned and done ------------------------------------------------------------------------------


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


def test_a_wanted_first_harvest_is_counted_backward():
    found = dates("raised", pinned_dates={"first_harvest": D(2026, 7, 1)})
    assert day(found.set_out) == D(2026, 7, 1) - dt.timedelta(days=50)
    assert day(found.sow) == D(2026, 7, 1) - dt.timedelta(days=92)
    assert found.first_harvest is not None
    assert found.first_harvest.pinned


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


# -- autumn ---------------------------------------------------------------------------------------


def test_count_back_gives_the_worked_examples():
    """The published formula of VCE 426-334; example numbers worked by hand."""
    frost = D(2026, 10, 16)
    assert count_back(frost, 50, 0, 14, tender=True) == D(2026, 7, 16)
    assert count_back(frost, 60, 35, 14, tender=False) == D(2026, 6, 15)
    assert (frost - count_back(frost, 65, 0, 0, tender=False)).days == 79


def test_a_window_that_only_frost_ends_is_counted_back_for_the_crop():
    """The rule of Virginia Cooperative Extension 426-334, with the crop's own figures."""
    frost = D(2026, 10, 16)
    # 60 days, its 20 days of harvest, a fall factor of 14, and 14 more for a crop that frost kills
    assert (frost - latest_start(BEAN, "sown", frost)).days == 60 + 20 + 14 + 14
    assert (frost - latest_start(KALE, "sown", frost)).days == 60 + 20 + 14
    assert latest_start(crop("unknown"), "sown", frost) is None


def test_counting_back_reckons_with_harvest_and_short_days():
    bean = dates("bean", timing="count back")
    assert day(bean.sow) == D(2026, 10, 16) - dt.timedelta(days=60 + 20 + 28)
    hardy = dates("hardy", timing="count back")
    assert day(hardy.sow) == D(2026, 10, 16) - dt.timedelta(days=60 + 20 + 14)
    assert hardy.sow is not None
    assert hardy.sow.source == "vce426334"
    raised = dates("raised", timing="count back")
    assert day(raised.set_out) == D(2026, 10, 16) - dt.timedelta(days=50 + 10 + 14)
    assert day(raised.sow) == D(2026, 10, 16) - dt.timedelta(days=50 + 10 + 14 + 42), "D + T + H + 14"


def test_short_days_delay_what_is_started_after_midsummer():
    assert day(dates("hardy", first=D(2026, 8, 1)).first_harvest) == D(2026, 9, 30) + dt.timedelta(days=14)
    assert day(dates("hardy", first=D(2026, 6, 1)).first_harvest) == D(2026, 7, 31)
    assert day(dates("hardy", first=D(2026, 7, 20)).first_harvest) == D(2026, 9, 18), "before the equinox"


def test_frost_ends_the_harvest_of_a_tender_crop_only():
    bean = dates("bean", first=D(2026, 8, 5))
    assert bean.ripens is False, "60 days and 14 for short days end on 18 October"
    assert "would ripen on 18 Oct, after the first autumn frost (16 Oct)" in bean.doubts[-1]
    early = dates("bean", first=D(2026, 7, 20), pinned_dates={"first_harvest": D(2026, 10, 1)})
    assert day(early.last_harvest) == D(2026, 10, 15)
    assert day(dates("kale", first=D(2026, 7, 28)).last_harvest) == D(2026, 10, 29)
    glass = dates("bean", first=D(2026, 8, 5), bed_kind="under glass")
    assert (glass.ripens, day(glass.first_harvest)) == (True, D(2026, 10, 4))


def test_what_autumn_catches_small_grows_on_in_spring():
    found = dates("kale", first=D(2026, 10, 10))
    assert found.first_harvest is not None
    # six days before the frost, then from 10 April on
    assert found.first_harvest.day == D(2027, 4, 10) + dt.timedelta(days=54)
    assert "stands still over winter" in found.first_harvest.why


# -- southern, leap, polar, frost-free, missing ------------------------------------------------------


def test_southern_plantings_have_their_spring_in_september():
    south = Climate(
        last_frost=FrostDates(risk_10="11-10", risk_50="10-12", risk_90="09-14"),
        first_frost=FrostDates(risk_10="04-02", risk_50="04-25", risk_90="05-18"),
    )
    site = Site(latitude=-41)
    found = dates("hardy", south, site=site)
    assert day(found.sow) == D(2026, 9, 21)
    assert day(found.first_harvest) == D(2026, 11, 20)
    late = dates("bean", south, site=site, first=D(2027, 2, 10))
    assert day(late.first_harvest) == D(2027, 4, 11) + dt.timedelta(days=14), "after the equinox of 21 March"
    assert day(dates("bean", south, site=site, timing="count back").sow) == D(2027, 1, 7)


def test_garlic_stands_over_the_winter_and_is_lifted_in_summer_north_and_south(catalogue):
    found = dates("garlic", shelf=catalogue)
    assert found.set_out is not None
    assert found.first_harvest is not None
    assert D(2026, 10, 1) < found.set_out.day < D(2026, 11, 15)
    assert D(2027, 6, 15) < found.first_harvest.day < D(2027, 8, 15)
    assert found.clear is not None
    one = planting(crop="garlic")
    span = plan_of(one, shelf=catalogue).span_of(one)
    assert span.holds(D(2027, 1, 15))
    south = Climate(
        last_frost=FrostDates(risk_10="11-10", risk_50="10-12", risk_90="09-14"),
        first_frost=FrostDates(risk_10="04-02", risk_50="04-25", risk_90="05-18"),
    )
    there = dates("garlic", south, catalogue, site=Site(latitude=-41))
    assert there.set_out is not None
    assert there.first_harvest is not None
    assert D(2027, 4, 15) < there.set_out.day < D(2027, 6, 1)
    assert D(2027, 12, 15) < there.first_harvest.day < D(2028, 2, 15)


def test_a_frost_on_the_29th_of_february_and_plantings_over_it():
    leap = CLIMATE.with_(last_frost=FrostDates(risk_10="03-10", risk_50="02-29", risk_90="02-01"))
    assert day(dates("bare", leap, year=2028).sow) == D(2028, 2, 29)
    assert day(dates("bare", leap, year=2027).sow) == D(2027, 2, 28)
    assert day(dates("hardy", year=2028, first=D(2028, 2, 29)).sow) == D(2028, 2, 29)


def test_no_frost_at_all_asks_for_a_day_by_hand():
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


def test_a_polar_garden_gets_dates_and_is_told_what_does_not_ripen():
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


# -- degree-days --------------------------------------------------------------------------------------


def test_by_heat_a_summer_sowing_is_quicker_and_the_usual_one_the_same():
    heat = ZONE_5.with_(by_heat=True)
    usual = dates("bean", heat)
    assert usual.sow is not None
    assert usual.first_harvest is not None
    assert (usual.first_harvest.day - usual.sow.day).days == 60
    summer = dates("bean", heat, first=D(2026, 6, 20))
    assert summer.first_harvest is not None
    assert (summer.first_harvest.day - D(2026, 6, 20)).days < 50
    assert "degree-days over 10.0 °C" in summer.first_harvest.why
    never = dates("bean", heat, first=D(2026, 9, 25))
    assert never.first_harvest is None or never.first_harvest.day > D(2027, 4, 1), "winter gives no heat"
    assert never.ripens is False


def test_cold_soil_is_pointed_out_and_named_an_estimate():
    cold = crop("cold", sow_from=-8, soil_least=12, days_to_maturity=60, harvest_days=9)
    found = dates("cold", ZONE_5, catalogue_of(cold))
    assert "judged by the mean air temperature; cold needs 12 °C to come up" in found.doubts[0]


# -- facts of common practice ---------------------------------------------------------------------------


def test_melons_are_raised_two_weeks_and_set_out_in_the_second_week_of_may_in_zone_5(catalogue):
    found = dates("melon", ZONE_5, catalogue)
    assert found.set_out is not None
    assert found.sow is not None
    assert D(2026, 5, 8) <= found.set_out.day <= D(2026, 5, 15)
    assert (found.set_out.day - found.sow.day).days == pytest.approx(14, abs=2)


def test_winter_squash_likewise_with_fleece_on_hoops_for_two_weeks(catalogue):
    covers = ({"kind": "low tunnel"}, {"kind": "fleece"})
    found = dates("winter_squash", ZONE_5, catalogue, covers=covers)
    assert found.set_out is not None
    assert found.start == "raised"
    assert D(2026, 5, 4) <= found.set_out.day <= D(2026, 5, 15)
    for cover in found.covers:
        assert cover.on.day == found.set_out.day
        assert day(cover.off) == found.set_out.day + dt.timedelta(days=14)


def test_corn_may_be_sown_weeks_later_on_purpose_for_a_later_harvest(catalogue):
    usual = dates("sweet_corn", ZONE_5, catalogue, start="sown")
    assert usual.sow is not None
    late = dates("sweet_corn", ZONE_5, catalogue, start="sown", first=usual.sow.day + dt.timedelta(weeks=4))
    assert late.ripens
    assert late.first_harvest is not None
    assert usual.first_harvest is not None
    assert (late.first_harvest.day - usual.first_harvest.day).days == 28
    assert late.doubts == ()


@pytest.mark.parametrize("key", ["beetroot", "chard"])
def test_a_floating_cover_over_beet_and_chard_stays_from_sowing_to_clearing(catalogue, key):
    found = dates(key, ZONE_5, catalogue, covers=({"kind": "fleece"},))
    (cover,) = found.covers
    assert cover.on.day == day(found.sow)
    assert day(cover.off) == day(found.clear)


def test_a_closed_cover_comes_off_when_insects_must_reach_the_flowers(catalogue):
    found = dates("courgette", ZONE_5, catalogue, covers=({"kind": "netting"}, {"kind": "film"}))
    net, film = found.covers
    assert found.flower is not None
    assert day(net.off) == found.flower.day
    assert found.set_out is not None
    assert found.set_out.day < found.flower.day < day(found.first_harvest)
    assert day(film.off) == day(found.clear)


def test_days_of_a_cover_given_by_hand_stay(catalogue):
    by_hand = Cover(kind="fleece", first=D(2026, 5, 2), last=D(2026, 5, 9))
    (cover,) = dates("courgette", ZONE_5, catalogue, covers=(by_hand,)).covers
    assert (cover.on.day, day(cover.off), cover.on.pinned) == (D(2026, 5, 2), D(2026, 5, 9), True)


def test_perennials_stand_until_they_are_taken_out(catalogue):
    one = planting(crop="asparagus", start="standing", year=2026, first=D(2022, 4, 1))
    plan = plan_of(one, shelf=catalogue)
    assert (plan.span_of(one).last, plan.span_of(one).open) == (OPEN_END, True)
    for year in (2022, 2026, 2031):
        assert plan.after(plan.garden, year).plantings == (one,)
    assert plan.after(plan.garden, 2021).plantings == ()
    picked = [day(plan.after(plan.garden, year).dates(one).first_harvest) for year in (2023, 2024, 2030)]
    assert picked[0] is None, "too young in its second year"
    assert [one.year if one else None for one in picked[1:]] == [2024, 2030]
    last = e.change_planting(plan.garden, "p1", last=D(2029, 10, 1))
    assert plan.after(last).span_of(last.plantings[0]).last == D(2029, 10, 1)


@pytest.mark.parametrize(
    "key", ["tomato", "garlic", "potato", "runner_bean", "spring_onion", "sweet_pepper", "shallot"]
)
def test_perennials_grown_for_one_season_do_not_stand(catalogue, key):
    assert not dates(key, shelf=catalogue).stays_for_years


def test_support_goes_up_with_the_start_and_potatoes_are_earthed_up(catalogue):
    pea = dates("pea", shelf=catalogue, support=Support(kind="sticks"))
    assert day(pea.support_up) == day(pea.sow)
    potato = dates("potato", shelf=catalogue)
    assert potato.set_out is not None
    assert day(potato.emerge) == potato.set_out.day + dt.timedelta(days=28), "no temperatures are known"
    assert day(potato.earth_up) == potato.emerge.day + dt.timedelta(days=14)
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
