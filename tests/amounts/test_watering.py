"""Watering of weeks with rain that was written down; drip lines; tanks against a simulation."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np
import pytest
from making import bed, planting, rectangle
from plan.test_water import grown

from planner.amounts.drip import drip_beds, drip_jobs, drip_zones, emitter_spacing
from planner.amounts.materials_year import materials_of_year
from planner.amounts.shopping import shopping
from planner.amounts.tank import inflow, least_volume, share_met, tank_of
from planner.amounts.watering import (
    beds_tended,
    listed_waterings,
    rain_of_week,
    rain_written_down,
    watering_of_week,
    weeks_to_water,
)
from planner.garden import Structure
from planner.garden.edits import add_records, change_planting
from planner.garden.weather_years import WeatherYears
from planner.importing.typed_records import add_typed_records, read_typed_records
from planner.listings.reports.water import week_records
from planner.listings.water import rain_words
from planner.plan import Plan
from planner.plan.water import garden_water

MONDAY = dt.date(2026, 7, 6)


def rained(made, *days: tuple[dt.date, float], unit: str = "mm", measure: str = "rain"):
    records = [
        {"kind": "measured", "day": day, "measure": measure, "value": value, "unit": unit}
        for day, value in days
    ]
    return add_records(made, records)[0]


def with_cabbages(**fields):
    of = bed(outline=rectangle(4.8, 1.2), **fields)
    return grown(of, plantings=(planting(crop="cabbage", bed=of.id, year=2026, start="raised"),))


def test_rain_is_read_in_its_units_and_languages():
    made = rained(with_cabbages(), (MONDAY, 12.0))
    made = rained(made, (MONDAY, 0.5), unit="in")
    made = rained(made, (MONDAY, 3.0), measure="Regen", unit="l/m2")
    made = rained(made, (MONDAY, 40.0), measure="height", unit="cm")
    assert rain_written_down(made.records) == {MONDAY: pytest.approx(12.0 + 12.7 + 3.0)}


@pytest.mark.parametrize("line", ["rain 12 mm", "12 mm of rain", "rained 12 mm"])
def test_rain_that_is_typed_is_rain(line):
    made = with_cabbages()
    read = read_typed_records(Plan(made, 2026), line, MONDAY)
    assert rain_written_down(add_typed_records(made, read).records) == {MONDAY: 12.0}


@pytest.mark.parametrize("line", ["rain 0.5 in", "rained 0.5 inches", "rain 0.5 inch"])
def test_rain_that_is_typed_in_inches_is_rain(line):
    made = with_cabbages()
    read = read_typed_records(Plan(made, 2026), line, MONDAY)
    assert rain_written_down(add_typed_records(made, read).records) == {MONDAY: pytest.approx(12.7)}


def test_the_example_of_rain_is_in_the_units_of_the_garden():
    made = with_cabbages()
    plan = Plan(made, 2026)
    assert "rain 12 mm" in rain_words(plan, watering_of_week(plan, MONDAY))
    inches = made.with_(site=made.site.model_copy(update={"units": "feet_inches"}))
    plan = Plan(inches, 2026)
    assert "rain 0.5 in," in rain_words(plan, watering_of_week(plan, MONDAY))


def test_a_garden_that_writes_no_rain_down_is_not_taken_for_a_dry_one():
    assert rain_of_week({}, MONDAY) is None
    assert rain_of_week({dt.date(2026, 5, 1): 9.0}, MONDAY) is None
    assert rain_of_week({dt.date(2026, 6, 25): 9.0}, MONDAY) == 0.0
    assert rain_of_week({dt.date(2026, 7, 4): 20.0, dt.date(2026, 7, 8): 10.0}, MONDAY) == 15.0


def test_a_week_is_given_its_need_and_less_after_rain():
    made = with_cabbages()
    (plain,) = watering_of_week(Plan(made, 2026), MONDAY)
    water = garden_water(Plan(made, 2026))
    assert plain.litres == pytest.approx(water.beds[0].median[water.week_of(MONDAY)])
    assert plain.rain is None
    (dry,) = watering_of_week(Plan(rained(made, (MONDAY, 0.0)), 2026), MONDAY)
    (damp,) = watering_of_week(Plan(rained(made, (MONDAY, 10.0)), 2026), MONDAY)
    assert dry.litres > plain.litres  # no rain at all
    assert dry.litres - damp.litres == pytest.approx(5.0 * 4.8 * 1.2, rel=1e-6)
    assert watering_of_week(Plan(rained(made, (MONDAY, 90.0)), 2026), MONDAY) == ()
    assert 1 <= plain.every <= 7


def test_weeks_without_plants_are_not_watered():
    found = weeks_to_water(Plan(with_cabbages(), 2026))
    span = Plan(with_cabbages(), 2026).span_of(with_cabbages().plantings[0])
    assert found
    assert all(span.first - dt.timedelta(days=7) < monday <= span.last for monday, _ in found)


def test_no_work_is_made_of_less_than_two_millimetres_or_of_a_winter_bed():
    of = bed(outline=rectangle(4.8, 1.2))
    made = grown(of, plantings=(planting(crop="strawberry", bed=of.id, year=2025, start="standing"),))
    plan = Plan(made, 2026)
    found = weeks_to_water(plan)
    assert found
    assert all(one.millimetres >= 2.0 for _, beds in found for one in beds)
    assert all(3 <= monday.month <= 10 for monday, _ in found)
    listed = {monday for monday, _ in found}
    of_bed = garden_water(plan).beds[0]
    small = [week for week, need in enumerate(of_bed.median) if 0 < need / (4.8 * 1.2) < 2.0]
    assert small
    assert listed.isdisjoint(garden_water(plan).weeks[week] for week in small)


def test_a_week_is_watered_as_often_in_the_work_as_in_the_table():
    plan = Plan(grown(), 2026)  # lettuce, of shallow roots
    water = garden_water(plan)
    table = {one.week: one.days_between for one in week_records(water, water.beds)}
    work = {monday: beds[0].every for monday, beds in weeks_to_water(plan)}
    assert len(set(work.values())) > 1
    assert work == {monday: table[monday] for monday in work}
    assert set(table.values()) <= set(range(1, 8))


def test_drip_lines_lie_along_the_rows_and_two_near_rows_share_one():
    made = with_cabbages(drip_lines=True)
    plan = Plan(made, 2026)
    (one,) = drip_beds(plan)
    rows = plan.placed(made.plantings[0]).layout.rows
    (part,) = one.plantings
    apart = abs(rows[1].across - rows[0].across)
    assert len(part.lines) == (len(rows) if apart >= 0.45 else math.ceil(len(rows) / 2))
    assert all(line.start[1] == pytest.approx(line.end[1]) for line in part.lines)
    assert part.emitters == sum(int(line.length / one.spacing + 1e-9) + 1 for line in part.lines)
    assert part.flow == 2.0 * part.emitters
    # What runs out in that time, less a tenth that is lost, is what was asked for.
    hours = one.hours(90.0, MONDAY)
    assert hours * one.flow * 0.9 == pytest.approx(90.0)


def test_emitters_are_nearer_in_sand_than_in_clay():
    assert emitter_spacing("sand") < emitter_spacing("loam") < emitter_spacing("clay")


def test_crops_without_rows_have_lines_over_their_plot():
    of = bed(outline=rectangle(4.8, 1.2), drip_lines=True)
    crops = (
        planting(crop="white_clover", bed=of.id, year=2026, arrangement={"kind": "scatter", "density": 50}),
    )
    (one,) = drip_beds(Plan(grown(of, plantings=crops), 2026))
    lines = one.plantings[0].lines
    assert len(lines) == 3  # 1.2 m by at most 0.45
    assert all(line.length == pytest.approx(4.8) for line in lines)


def test_zones_take_no_more_than_a_tap_gives():
    beds = tuple(
        bed(f"b{n}", outline=rectangle(9.6, 1.2, center=(0, 2 * n)), drip_lines=True) for n in range(6)
    )
    crops = tuple(planting(f"p{n}", crop="carrot", bed=f"b{n}", year=2026) for n in range(6))
    tap = Structure(
        id="t", kind="tap", outline={"shape": "circle", "center": (8.0, 0.0), "radius": 0.1}, height=0.8
    )
    plan = Plan(grown(*beds, plantings=crops, structures=(tap,)), 2026)
    zones = drip_zones(plan)
    assert len(zones) > 1
    assert all(zone.flow <= 600 or len(zone.beds) == 1 for zone in zones)
    assert sorted(one.bed.id for zone in zones for one in zone.beds) == [f"b{n}" for n in range(6)]
    assert all(zone.supply > 0 for zone in zones)


def test_lines_and_fittings_are_in_the_materials_and_on_the_shopping_list():
    plan = Plan(with_cabbages(drip_lines=True), 2026)
    jobs = drip_jobs(plan)
    (part,) = drip_beds(plan)[0].plantings
    assert sum(job.size[0] * job.number for job in jobs["drip line"]) == pytest.approx(
        part.length, abs=0.05 * len(part.lines)
    )
    found = {one.kind: one for one in materials_of_year(plan).materials}
    assert found["drip branch"].number("new") == len(part.lines)
    assert found["drip line"].number("new") == len(part.lines)
    assert found["pressure reducer"].number("new") == 1
    kinds = {item.kind for item in shopping(plan).items}
    assert {"drip line", "drip branch", "drip stop", "pressure reducer"} <= kinds
    assert not {"drip line", "drip branch"} & {
        one.kind for one in materials_of_year(Plan(with_cabbages(), 2026)).materials
    }


@pytest.mark.parametrize("seed", range(8))
def test_the_least_volume_is_where_the_simulated_tank_just_does_not_run_dry(seed):
    random = np.random.default_rng(seed)
    need = np.maximum(random.normal(40, 60, (52, 6)), 0)
    gathered = np.maximum(random.normal(30, 60, (52, 6)), 0)
    volume = least_volume(need, gathered)
    for year in range(6):
        pair = need[:, year : year + 1], gathered[:, year : year + 1]
        assert share_met(*pair, float(volume[year]) + 1e-6)[0] == pytest.approx(1.0)
        if volume[year] > 1:
            assert share_met(*pair, float(volume[year]) * 0.98)[0] < 1.0


def test_a_large_roof_fills_a_tank_that_lasts_and_a_small_one_does_not():
    made = with_cabbages()
    roof = Structure(id="s", kind="shed", outline=rectangle(20.0, 10.0, center=(30, 0)), height=2.5)
    small = roof.with_(outline=rectangle(0.5, 0.5, center=(30, 0)))
    plan = Plan(made.with_(structures=(roof,)), 2026)
    water = garden_water(plan)
    tank = tank_of(plan, water)
    assert tank.enough
    assert tank.met == pytest.approx(1.0)
    dry = [share_met(water.litres, inflow(water, 200.0), tank.volume)]
    assert np.mean(np.array(dry) > 0.999) >= 0.8
    little = Plan(made.with_(structures=(small,)), 2026)
    less = tank_of(little, garden_water(little))
    assert not less.enough
    assert less.met < 0.9
    without = tank_of(Plan(made, 2026), garden_water(Plan(made, 2026)))
    assert without.roof == 0
    assert without.weeks == 2
    assert 0 < without.volume < water.litres.sum(axis=0).max()


# -- among the work of a week ---------------------------------------------------------------


def test_watering_stands_among_the_work_where_weather_is_kept_or_rain_is_written_down():
    sunday = MONDAY + dt.timedelta(days=6)
    made = with_cabbages()
    assert list(listed_waterings(Plan(made, 2026), MONDAY, sunday)) == [MONDAY]
    assert listed_waterings(Plan(made, 2026), MONDAY, sunday, beds=()) == {}
    rough = made.with_(weather=WeatherYears())
    assert listed_waterings(Plan(rough, 2026), MONDAY, sunday) == {}
    ((monday, (one,)),) = listed_waterings(Plan(rained(rough, (MONDAY, 4.0)), 2026), MONDAY, sunday).items()
    assert (monday, one.rain) == (MONDAY, 2.0)


def test_watering_of_a_span_is_that_of_its_weeks_over_growing_years():
    plan = Plan(with_cabbages(), 2025)
    found = listed_waterings(plan, dt.date(2025, 12, 1), dt.date(2026, 12, 31))
    assert tuple(found.items()) == weeks_to_water(Plan(plan.garden, 2026))


def test_water_is_the_work_of_those_who_tend_the_bed():
    made = with_cabbages()
    (one,) = made.plantings
    made = change_planting(made, one.id, tended_by="Ada")
    plan = Plan(made, 2026)
    assert beds_tended(plan, None, None) is None
    assert beds_tended(plan, None, {"Ada"}) == {one.bed}
    assert beds_tended(plan, None, {"Ben"}) == set()
    assert beds_tended(plan, ["other"], {"Ada"}) == set()
