"""How much warmth a crop needs, and when it has had it."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from calendar_cases import read_places
from dated_plantings import D, context_at, steady
from hypothesis import given
from hypothesis import strategies as st
from making import crop

from planner.crops import Crop, load_catalogue
from planner.crops.growing_places import GrowingPlace, shipped_places
from planner.garden import Climate, Variety
from planner.garden.varieties import OwnFigure
from planner.season import practice
from planner.season.development import (
    AHEAD_OF_SOWN,
    BENCH,
    INTO_WINDOW,
    LEFT_AT_LEAST,
    Need,
    Stretch,
    day_reached,
    heat_by,
    latest_start,
    need_of,
)
from planner.season.thermal_time import Response
from planner.season.usual_weather import UsualWeather, weather_of

DAY = dt.timedelta(days=1)
#: Every day 14 to 24 degrees: 9 degree-days over 10. [deg C]
WARM = steady(14.0, 24.0)
OVER_TEN = {"base_temperature": 10, "best_temperature": 30, "ceiling_temperature": 40, "hardiness": "tender"}
EAR = crop(
    "ear", days_to_maturity=80, heat_to_harvest=720, weeks_to_raise=4, maturity_from="sowing", **OVER_TEN
)


def weather(climate: Climate = WARM, latitude: float = 45.0) -> UsualWeather:
    found = weather_of(climate, latitude, latitude < 0)
    assert found is not None
    return found


def needs(heat: float, response: Response | None = None, slows: bool = False) -> Need:
    return Need(heat, response or Response(10.0, 30.0, 40.0), slows, "practice", False, "", 0.0)


# -- the day --------------------------------------------------------------------------------------


def test_a_steady_climate_gives_the_same_every_day():
    """90 degree-days at 9 a day are ten days; the day on which the last of them is had."""
    assert day_reached(D(2026, 5, 1), needs(90.0), (Stretch(0, weather()),)) == D(2026, 5, 11)
    assert day_reached(D(2026, 5, 1), needs(90.1), (Stretch(0, weather()),)) == D(2026, 5, 12)
    assert heat_by(D(2026, 5, 1), D(2026, 5, 11), needs(90.0), (Stretch(0, weather()),)) == pytest.approx(
        90.0
    )


def test_covers_change_the_pace_while_they_lie():
    """Ten days at 9, five at 14 under something 5 degrees warmer, then 9 again."""
    place = weather()
    warmer = place.under(None, 5.0)
    stretches = (Stretch(0, place), Stretch(10, warmer), Stretch(15, place))
    assert day_reached(D(2026, 5, 1), needs(90 + 70 + 18), stretches) == D(2026, 5, 18)
    assert day_reached(D(2026, 5, 1), needs(90 + 28), stretches) == D(2026, 5, 13)
    assert heat_by(D(2026, 5, 1), D(2026, 5, 18), needs(1.0), stretches) == pytest.approx(178.0)
    assert heat_by(D(2026, 5, 1), D(2026, 5, 13), needs(1.0), stretches) == pytest.approx(118.0)


def test_what_never_has_its_warmth_has_no_day():
    cold = weather(steady(2.0, 8.0))
    assert day_reached(D(2026, 5, 1), needs(1.0), (Stretch(0, cold),)) is None
    assert latest_start(D(2026, 10, 1), needs(1.0), cold) is None


@pytest.mark.parametrize("begins", [5, 100, 400, 1000, 5000])
@pytest.mark.parametrize("month", [1, 6, 12])
def test_a_cover_that_lies_for_years_is_no_fault(begins, month):
    cold = weather(steady(2.0, 8.0))
    stretches = (Stretch(0, cold.under(None, 0.5)), Stretch(begins, cold))
    assert day_reached(D(2026, month, 20), needs(1.0), stretches) is None
    assert heat_by(D(2026, month, 20), D(2026, month, 28), needs(1.0), stretches) == 0.0


@given(
    st.integers(0, 364),
    st.floats(20, 2000),
    st.sampled_from(sorted(read_places())),
    st.sampled_from([Response(4.0, 20.0, 35.0), Response(10.0, 28.0, 40.0)]),
    st.booleans(),
)
def test_the_latest_start_is_the_inverse_of_the_day_reached(ordinal, heat, place, response, slows):
    """From it the need is met in time, and from the day after it is not.  Each year is a leap year within."""
    site, climate = read_places()[place]
    here, need = weather(climate, site.latitude), needs(heat, response, slows)
    until = D(2028, 3, 1) + ordinal * DAY
    latest = latest_start(until, need, here)
    if latest is None:
        assert day_reached(until - 2 * 366 * DAY, need, (Stretch(0, here),)) is None or heat > 900
        return
    short = (
        DAY if latest < D(2027, 3, 1) or until >= D(2029, 2, 28) else 0 * DAY
    )  # a year without 29 February between
    assert day_reached(latest - short, need, (Stretch(0, here),)) <= until + short
    assert day_reached(latest + DAY + short, need, (Stretch(0, here),)) > until - short


@given(st.integers(0, 364), st.floats(20, 1500), st.sampled_from(sorted(read_places())))
def test_heat_until_the_day_reached_is_the_need(ordinal, heat, place):
    site, climate = read_places()[place]
    here, need = weather(climate, site.latitude), needs(heat)
    on = D(2027, 3, 1) + ordinal * DAY
    found = day_reached(on, need, (Stretch(0, here),))
    if found is not None and (found - on).days < 700:
        before, after = (heat_by(on, found + i * DAY, need, (Stretch(0, here),)) for i in (-1, 0))
        assert before < heat + 1e-6
        assert after >= heat - 25 * (found.year > 2028)  # a year has no 29 February


@given(st.integers(0, 300), st.floats(50, 900))
def test_who_starts_later_is_never_ripe_sooner(ordinal, heat):
    site, climate = read_places()["Hamburg"]
    here, need = (Stretch(0, weather(climate, site.latitude)),), needs(heat, Response(4.0, 20.0, 35.0), True)
    days = [day_reached(D(2027, 3, 1) + (ordinal + later) * DAY, need, here) for later in (0, 1, 30)]
    assert days == sorted(days)


# -- what it needs --------------------------------------------------------------------------------


def test_a_published_sum_is_the_need():
    found = need_of(context_at(EAR, WARM, start="sown"))
    assert (found.heat, found.derived, found.source) == (720, False, "estimate")
    assert found.response == Response(10.0, 30.0, 40.0)


def test_raised_plants_bring_half_the_bench_with_them():
    """Four weeks at 18 degrees over 10 are 224 degree-days; half of them count."""
    assert (BENCH, AHEAD_OF_SOWN) == (18.0, 0.5)
    for start in ("raised", "bought"):
        assert need_of(context_at(EAR, WARM, start=start)).heat == pytest.approx(720 - 112)
    from_plants = EAR.model_copy(update={"maturity_from": crop(maturity_from="setting out").maturity_from})
    assert need_of(context_at(from_plants, WARM, start="raised")).heat == 720
    assert need_of(context_at(from_plants, WARM, start="sown")).heat == pytest.approx(720 + 112)


def test_however_long_it_was_raised_half_is_left():
    slow = crop(
        "slow",
        days_to_maturity=80,
        heat_to_harvest=720,
        weeks_to_raise=40,
        maturity_from="sowing",
        **OVER_TEN,
    )
    assert need_of(context_at(slow, WARM, start="raised")).heat == pytest.approx(LEFT_AT_LEAST * 720)
    assert LEFT_AT_LEAST == 1 / 2


def test_a_bench_warmer_than_the_best_counts_as_that():
    cool = crop("cool", days_to_maturity=80, heat_to_harvest=720, weeks_to_raise=4, maturity_from="sowing", base_temperature=2, best_temperature=14)  # fmt: skip
    assert need_of(context_at(cool, WARM, start="raised")).heat == pytest.approx(720 - 0.5 * 28 * 12)


def own(**figures: float) -> Variety:
    return Variety(
        id="v1",
        crop="ear",
        name="Quick",
        figures=tuple(OwnFigure(field=f, value=v) for f, v in figures.items()),
    )


def test_a_sort_of_ones_own_is_judged_by_its_own_days_and_heat():
    quick = need_of(context_at(EAR, WARM, variety=own(days_to_maturity=60), start="sown"))
    assert (quick.heat, quick.derived) == (pytest.approx(540), True)
    measured = need_of(
        context_at(EAR, WARM, variety=own(days_to_maturity=60, heat_to_harvest=500), start="sown")
    )
    assert (measured.heat, measured.source, measured.derived) == (500, "own variety", False)


def test_early_and_late_sorts_need_as_much_less_or_more_as_their_days():
    sorts = EAR.model_copy(
        update={"days_early": crop(days_early=60).days_early, "days_late": crop(days_late=100).days_late}
    )
    context = context_at(sorts, WARM, start="sown")
    assert need_of(context, "early").heat == pytest.approx(540)
    assert need_of(context, "late").heat == pytest.approx(900)
    assert (need_of(context, "early").sort, need_of(context).sort) == ("early", "")


def test_without_days_or_heat_there_is_no_need():
    assert need_of(context_at(crop("bare"), WARM)) is None


# -- sums derived from days -----------------------------------------------------------------------


def usual_start(one: Crop, place: GrowingPlace) -> dt.date:
    """Three weeks into its window, or the day on which such crops are started there: a second way to say it."""
    tender = practice.tender(one)
    hint = place.warm_start if tender else place.cool_start
    if hint:
        return dt.date.fromisoformat(f"2028-{hint}")
    autumn = one.number("autumn_from") if one.usual_start == "cloves" else None
    if autumn is not None:
        return dt.date.fromisoformat(f"2028-{place.first_frost}") + 7 * autumn * DAY
    fields = ["sow_from", "set_out_from"]
    known = [one.number(f) for f in (fields if one.usual_start == "sown" else reversed(fields))]
    weeks = next((w for w in known if w is not None), 0)
    return dt.date.fromisoformat(f"2028-{place.last_frost}") + (round(7 * weeks) + INTO_WINDOW) * DAY


def counted() -> list[str]:
    crops = load_catalogue().crops
    return [
        key
        for key, one in crops.items()
        if one.number("days_to_maturity")
        and one.number("heat_to_harvest") is None
        and not practice.stays_for_years(one)
    ]


def test_most_crops_of_the_catalogue_have_days():
    assert len(counted()) > 60


@pytest.mark.parametrize("key", counted())
def test_a_crops_own_days_are_given_back_where_they_were_counted(key):
    """Planted there at its usual time it takes the days its source prints, however the sum came about."""
    one = load_catalogue().crops[key]
    place = shipped_places().measured_at(one.days_to_maturity.source)
    here = weather(
        Climate(monthly_minimum=place.monthly_minimum, monthly_maximum=place.monthly_maximum), place.latitude
    )
    start = "raised" if one.maturity_from and one.maturity_from.value == "setting out" else "sown"
    need = need_of(
        context_at(one, WARM, start=one.usual_start if one.usual_start in practice.LIFTED else start)
    )
    assert need.derived
    assert need.source == one.days_to_maturity.source
    on, days = usual_start(one, place), round(one.number("days_to_maturity"))
    found = day_reached(on, need, (Stretch(0, here),))
    late = found - on - days * DAY
    still = heat_by(on + (days - 1) * DAY, on + days * DAY, need, (Stretch(0, here),)) < 0.01
    assert late <= DAY
    assert abs(late) <= DAY or still, "nothing grew on the last of them"


def test_days_counted_in_the_cool_are_worth_less_than_those_counted_in_the_warm():
    """Sixty days of a Maine spring and of a Gulf spring."""
    found = []
    for source in ("ume_chart", "uf_sp103"):
        one = crop("leaf", days_to_maturity={"value": 60, "source": source}, sow_from=-4, base_temperature=4)
        found.append(need_of(context_at(one, WARM, start="sown")))
    assert shipped_places().measured_at("ume_chart").key == "maine"
    assert found[1].heat > 1.1 * found[0].heat


def test_warmer_places_take_fewer_days():
    """The same need in five climates in the order of their warmest half year."""
    need = need_of(context_at(load_catalogue().crops["sweet_corn"], WARM, start="sown"))
    days = {}
    for place in ("Athens GA", "Ames IA", "Hamburg", "Kent"):
        site, climate = read_places()[place]
        found = day_reached(D(2026, 5, 20), need, (Stretch(0, weather(climate, site.latitude)),))
        days[place] = (found - D(2026, 5, 20)).days
    assert days["Athens GA"] < days["Ames IA"] < min(days["Hamburg"], days["Kent"])


def test_the_sum_of_sweet_corn_is_reached_by_hand():
    """845 degree-days over 10, cut off at 30, day by day from the sine."""
    site, climate = read_places()["Ames IA"]
    here = weather(climate, site.latitude)
    need = need_of(context_at(load_catalogue().crops["sweet_corn"], WARM, start="sown"))
    hours = np.arange(24) + 0.5
    total, day = 0.0, D(2028, 5, 10)
    while total < 845:
        at = day.timetuple().tm_yday - 1
        curve = (here.low[at] + here.high[at]) / 2 - (here.high[at] - here.low[at]) / 2 * np.cos(
            2 * np.pi * hours / 24
        )
        total += float((np.clip(curve, 10, 30) - 10).mean())
        day += DAY
    assert need.heat == pytest.approx(845)
    assert day_reached(D(2028, 5, 10), need, (Stretch(0, here),)) == day
