"""What beds need of water, in a plan: rain, glass, covers, mulch, soil, containers and walls."""

from __future__ import annotations

import datetime as dt
import functools

import numpy as np
import pytest
from invented_weather import invented
from making import bed, garden, planting, rectangle

from planner.garden import Climate, FrostDates, Garden, Site, Structure
from planner.garden.edits import change_planting
from planner.garden.soil import Soil
from planner.garden.weather_years import WeatherYears
from planner.plan import Plan
from planner.plan.water import garden_water, weather_for_water
from planner.season.water.planting_water import mondays, season_of_growth
from planner.season.weather_years import years_of

CLIMATE = Climate(
    last_frost=FrostDates(risk_50="05-10"),
    first_frost=FrostDates(risk_50="10-10"),
    monthly_minimum=(0.6, 0.6, 1.9, 3.6, 6.2, 9.1, 10.9, 10.7, 8.8, 6.1, 3.0, 0.9),
    monthly_maximum=(6.7, 7.4, 9.5, 12.2, 15.3, 17.9, 19.8, 19.4, 16.9, 13.0, 9.3, 6.9),
)
SITE = Site(latitude=56.0, longitude=-3.0, elevation=60.0)


@functools.cache
def recorded() -> WeatherYears:
    return WeatherYears(years=years_of(invented("hollow_lane")))


def grown(*beds, plantings=None, weather=True, structures=(), **fields) -> Garden:
    beds = beds or (bed(outline=rectangle(4.8, 1.2)),)
    plantings = plantings or (planting(crop="lettuce", bed=beds[0].id, year=2026),)
    made = garden(*beds, *plantings)
    return made.with_(
        site=fields.pop("site", SITE),
        climate=fields.pop("climate", CLIMATE),
        weather=recorded() if weather else WeatherYears(),
        structures=tuple(structures),
        **fields,
    )


def need_of(made: Garden, place: int = 0) -> float:
    """Need of a planting over the year, in the median of the recorded years. [mm]"""
    water = garden_water(Plan(made, 2026))
    assert water is not None
    parts = [part for one in water.beds for part in one.plantings]
    return float(np.median(parts[place].water.need.sum(axis=0)))


def test_thirty_years_give_a_need_of_each_week_and_a_dry_year_needs_more():
    water = garden_water(Plan(grown(), 2026))
    assert water is not None
    assert len(water.weather.years) == 30
    assert not water.weather.rough
    one = water.beds[0]
    assert one.litres.shape == (len(water.weeks), 30)
    assert one.median.sum() > 0
    assert (one.dry >= one.median - 1e-9).all()
    assert water.litres.sum() == pytest.approx(one.litres.sum())
    driest = water.litres.sum(axis=0)
    assert (driest < driest[water.drought]).mean() == pytest.approx(0.8, abs=0.07)


def test_without_recorded_years_the_means_are_taken_and_no_rain():
    water = garden_water(Plan(grown(weather=False), 2026))
    assert water is not None
    assert water.weather.rough
    assert not water.weather.rain_known
    assert water.litres.shape[1] == 1
    assert need_of(grown(weather=False)) > need_of(grown())


def test_nothing_is_said_where_nothing_of_the_climate_is_known():
    assert garden_water(Plan(grown(weather=False, climate=Climate()), 2026)) is None


def test_a_crop_under_glass_gets_no_rain_and_takes_less():
    roof = Structure(id="g1", kind="glasshouse", outline=rectangle(6.0, 2.0), height=2.3)
    plan = Plan(grown(structures=(roof,)), 2026)
    water = garden_water(plan)
    assert water is not None
    inside = water.beds[0].plantings[0]
    assert inside.inputs.glass
    outside = garden_water(Plan(grown(), 2026)).beds[0].plantings[0]
    assert inside.water.taken.sum() < outside.water.taken.sum()
    # Without rain what it takes is what it is given, but for what the soil held.
    assert np.median(inside.water.need.sum(axis=0)) > 0.7 * np.median(inside.water.taken.sum(axis=0))


def test_film_and_straw_keep_water_in_the_ground():
    plain = grown(weather=False)
    in_film = change_planting(plain, plain.plantings[0].id, covers=[{"kind": "film"}])
    assert need_of(in_film) < need_of(plain)
    day = Plan(plain, 2026).span_of(plain.plantings[0]).first
    strawed = plain.with_(
        dressings=({"id": "d1", "bed": plain.beds[0].id, "kind": "straw", "day": day, "depth": 0.1},)
    )
    strawed = Garden.model_validate(strawed.model_dump())
    assert need_of(strawed) < need_of(plain)


def test_sand_is_watered_more_often_than_clay():
    def interval(texture):
        of = bed(outline=rectangle(4.8, 1.2), soil=Soil(texture=texture))
        made = grown(of, plantings=(planting(crop="cabbage", bed=of.id, year=2026, start="raised"),))
        water = garden_water(Plan(made, 2026))
        days = water.beds[0].interval
        return days[days > 0].min()

    assert interval("sand") < 0.75 * interval("silt loam")


def test_a_container_dries_faster_than_the_ground():
    pot = bed("pot", outline=rectangle(0.8, 0.3), kind="container", height=0.25, depth=0.2)
    ground = bed("ground", outline=rectangle(0.8, 0.3, center=(0, 3)))
    made = grown(
        pot,
        ground,
        plantings=(
            planting("p1", crop="tomato", bed="pot", year=2026, start="raised"),
            planting("p2", crop="tomato", bed="ground", year=2026, start="raised"),
        ),
    )
    water = garden_water(Plan(made, 2026))
    of_pot, of_ground = water.bed("pot"), water.bed("ground")
    late = water.week_of(dt.date(2026, 8, 26))  # grown, with roots as deep as they can go
    lasts = [
        float(one.plantings[0].water.readily[late] / one.plantings[0].water.daily[late])
        for one in (of_pot, of_ground)
    ]
    assert lasts[0] < 0.6 * lasts[1]
    assert of_pot.interval[late] <= of_ground.interval[late]
    assert of_pot.millimetres[late].mean() > of_ground.millimetres[late].mean()


def test_the_foot_of_a_wall_has_less_rain():
    of = bed(outline=rectangle(4.0, 0.4))
    wall = Structure(id="w1", kind="wall", outline=rectangle(4.0, 0.2, center=(0.0, 0.3)), height=1.8)
    crops = (planting(crop="lettuce", bed=of.id, year=2026),)
    dry = garden_water(Plan(grown(of, plantings=crops, structures=(wall,)), 2026)).beds[0]
    assert dry.rain_share == pytest.approx(0.5, abs=0.01)  # half of the rain within half a metre
    assert need_of(grown(of, plantings=crops, structures=(wall,))) > need_of(grown(of, plantings=crops))


def test_ground_that_two_plantings_share_is_watered_once():
    of = bed(outline=rectangle(4.0, 1.0))
    one = (planting("p1", crop="lettuce", bed=of.id, year=2026),)
    two = (*one, planting("p2", crop="lettuce", bed=of.id, year=2026))
    alone = garden_water(Plan(grown(of, plantings=one), 2026)).beds[0]
    both = garden_water(Plan(grown(of, plantings=two), 2026)).beds[0]
    np.testing.assert_allclose(both.litres, alone.litres, rtol=1e-6)


def test_crops_of_kin_and_unknown_soil_are_marked():
    of = bed(outline=rectangle(4.0, 1.0))
    made = grown(of, plantings=(planting(crop="corn_salad", bed=of.id, year=2026),))
    one = garden_water(Plan(made, 2026)).beds[0]
    assert one.plantings[0].estimated
    assert one.texture_assumed


def test_an_edit_works_out_what_it_touched():
    beds = tuple(bed(f"b{n}", outline=rectangle(4.0, 1.0, center=(0, 2 * n))) for n in range(3))
    crops = tuple(planting(f"p{n}", crop="lettuce", bed=f"b{n}", year=2026) for n in range(3))
    plan = Plan(grown(*beds, plantings=crops), 2026)
    before = garden_water(plan)
    edited = plan.after(change_planting(plan.garden, "p1", covers=[{"kind": "film"}]))
    after = garden_water(edited)
    assert after.beds[0].plantings[0].water is before.beds[0].plantings[0].water
    assert after.beds[1].plantings[0].water is not before.beds[1].plantings[0].water
    fresh = garden_water(Plan(edited.garden, 2026))
    for one, other in zip(after.beds, fresh.beds, strict=True):
        np.testing.assert_array_equal(one.litres, other.litres)


def test_a_garden_of_the_south_has_its_summer_in_january():
    site = Site(latitude=-41.0, longitude=174.0)
    assert site.southern
    monthly = CLIMATE.monthly_minimum[6:] + CLIMATE.monthly_minimum[:6]
    high = CLIMATE.monthly_maximum[6:] + CLIMATE.monthly_maximum[:6]
    climate = Climate(
        last_frost=FrostDates(risk_50="10-10"),
        first_frost=FrostDates(risk_50="05-10"),
        monthly_minimum=monthly,
        monthly_maximum=high,
    )
    plan = Plan(grown(weather=False, site=site, climate=climate), 2026)
    weather = weather_for_water(plan)
    assert weather.first == dt.date(2026, 7, 1)
    most = weather.first + dt.timedelta(days=int(weather.reference[:, 0].argmax()))
    assert most.month in (12, 1)


def test_weeks_begin_on_mondays_and_cover_the_year():
    weeks = mondays(dt.date(2026, 1, 1), 365)
    assert weeks[0] == dt.date(2025, 12, 29)
    assert weeks[-1] == dt.date(2026, 12, 28)
    assert all(day.weekday() == 0 for day in weeks)


def test_plants_in_cold_ground_are_not_watered():
    of = bed(outline=rectangle(4.8, 1.2))
    made = grown(of, plantings=(planting(crop="strawberry", bed=of.id, year=2025, start="standing"),))
    plan = Plan(made, 2026)
    water = garden_water(plan)
    mean = (water.weather.low + water.weather.high) / 2
    days = water.weather.days
    grows = np.array(
        [np.mean([mean[(day + off) % days] for off in range(-10, 11)]) >= 5.0 for day in range(days)]
    )
    assert (grows == season_of_growth(water.weather)).all()
    assert grows[180]
    assert not grows[:31].any()
    (part,) = water.beds[0].plantings
    first = plan.span.first
    for week, monday in enumerate(water.weeks):
        inside = [day for day in range((monday - first).days, (monday - first).days + 7) if 0 <= day < days]
        if not grows[inside].any():
            assert part.water.need[week].max() == 0
            assert part.water.interval[week] == 0
    assert part.water.need.sum() > 0


def test_under_a_roof_all_that_is_drawn_is_given_week_by_week():
    """Roots that reach deep would live on the soil's store for weeks, and no rain would fill it again."""
    roof = Structure(id="g1", kind="tunnel", outline=rectangle(6.0, 2.0), height=2.3)
    of = bed(outline=rectangle(4.8, 1.2))
    of_crop = planting(crop="tomato", bed=of.id, year=2026, start="raised")
    plan = Plan(grown(of, plantings=(of_crop,), structures=(roof,)), 2026)
    water = garden_water(plan)
    (part,) = water.beds[0].plantings
    assert part.inputs.glass
    given, taken = part.water.need.sum(axis=0), part.water.taken.sum(axis=0)
    # But for what was missing as it was set out, and what it draws on its last day.
    assert (given > taken - 4.0).all()
    assert (given < taken + 30.0).all()
    span = plan.span_of(of_crop)
    weeks = [
        week
        for week, monday in enumerate(water.weeks)
        if span.first + dt.timedelta(days=14) <= monday <= span.last - dt.timedelta(days=7)
    ]
    assert len(weeks) > 8
    assert (part.water.median[weeks] > 0.5 * np.median(part.water.taken[weeks], axis=1)).all()


def test_a_sowing_of_spring_is_not_the_thirstiest_time():
    """Digging mixes the dry top of bare ground with the moist ground beneath it."""
    of = bed(outline=rectangle(4.8, 1.2))
    sown = {"start": "sown", "pinned_dates": {"sow": "2026-04-15"}}
    plan = Plan(grown(of, plantings=(planting(crop="carrot", bed=of.id, year=2026, **sown),)), 2026)
    water = garden_water(plan)
    (one,) = water.beds
    (part,) = one.plantings
    first = water.week_of(plan.span_of(part.planting).first)
    assert 6 <= water.weeks[int(one.dry.argmax())].month <= 8
    assert part.water.median[first : first + 2].sum() < 0.8 * 2 * part.water.median.max()
