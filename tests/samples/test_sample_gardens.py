"""The shipped sample gardens: sound files, plantable in every part, with dates that fit together."""

from __future__ import annotations

import datetime as dt
import itertools
import json
from pathlib import Path

import jsonschema
import pytest
import shapely
from sample_reading import FOLDER, YEAR, ground, grounds, overlaps, own_ground, sample

from planner import resources
from planner.checks import check_all
from planner.crops import load_catalogue
from planner.garden import Garden
from planner.plan import Plan
from planner.season.frosts import climate_doubts
from planner.season.planting_dates import Dates
from planner.storage import dump, garden_schema, load

FILES = sorted(FOLDER.glob("*.bedwright"))

every = pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)


@pytest.fixture(scope="module")
def balcony() -> Garden:
    return load(sample("balcony_boxes"))


def test_the_four_promised_samples_are_there() -> None:
    assert [file.stem for file in FILES] == ["balcony_boxes", "hollow_lane", "red_mesa", "wattle_bank"]


# -- every sample ---------------------------------------------------------------------------


@every
def test_file_is_valid_by_the_published_schema(file: Path) -> None:
    schema = garden_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(json.loads(file.read_text("utf-8")))


@every
def test_file_is_in_canonical_form(file: Path) -> None:
    assert dump(load(file)) == file.read_text("utf-8")


@every
def test_every_crop_is_in_the_catalogue(file: Path) -> None:
    catalogue = load_catalogue()
    assert {p.crop for p in load(file).plantings if catalogue.get(p.crop) is None} == set()


@every
def test_every_planting_of_every_year_has_plants_and_no_problem(file: Path) -> None:
    garden = load(file)
    faults = []
    for year in garden.years():
        plan = Plan(garden, year, load_catalogue())
        for planting in plan.plantings:
            placed = plan.placed(planting)
            if placed.problem or placed.plants < 1:
                faults.append((year, plan.bed_of(planting).name, planting.crop, placed.problem))
    assert faults == []


@every
def test_no_two_plantings_take_the_same_ground_on_the_same_days(file: Path) -> None:
    garden = load(file)
    plan = Plan(garden, YEAR, load_catalogue())
    clashes = [
        (bed, a.crop, b.crop)
        for bed, a, b in overlaps(garden, plan)
        if not (a.shares_ground or b.shares_ground) and plan.span_of(a).meets(plan.span_of(b))
    ]
    assert clashes == []


@every
def test_every_bed_is_planted_this_year(file: Path) -> None:
    plan = Plan(load(file), YEAR, load_catalogue())
    assert [bed.name for bed in plan.beds if not plan.in_bed(bed)] == []


@every
def test_beds_and_solid_structures_lie_apart_and_inside_the_site(file: Path) -> None:
    beds = grounds(file, "beds")
    document = json.loads(file.read_text("utf-8"))
    solid = {
        s["name"]: ground(s)
        for s in document["structures"]
        if s["kind"] not in ("arch", "tunnel", "glasshouse")
    }
    for (one, a), (other, b) in itertools.combinations({**beds, **solid}.items(), 2):
        assert a.distance(b) > 0.005 or (one in solid and other in solid), (one, other)
    site = ground(document["site"])
    assert [name for name, bed in beds.items() if not bed.within(site)] == []


@every
def test_place_and_weather_are_marked_as_invented(file: Path) -> None:
    assert any("invented" in note.text for note in load(file).notes)


@every
def test_whoever_tends_a_bed_is_an_initial_or_a_role(file: Path) -> None:
    assert {p.tended_by for p in load(file).plantings} <= {"", "M.", "school group"}


@every
def test_plots_and_given_places_lie_inside_their_bed(file: Path) -> None:
    document = json.loads(file.read_text("utf-8"))
    beds = {bed["id"]: own_ground(bed["outline"]).buffer(1e-6) for bed in document["beds"]}
    outside = []
    for planting in document["plantings"]:
        bed, plot = beds[planting["bed"]], planting.get("plot", {"kind": "whole"})
        arrangement = planting.get("arrangement", {})
        if plot["kind"] == "stretch":
            left, _, right, _ = bed.bounds
            inside = 0 <= plot["start"] < plot["end"] <= right - left
        else:
            inside = plot["kind"] == "whole" or shapely.Polygon(plot["points"]).within(bed)
        if arrangement.get("kind") == "places":
            inside = inside and shapely.MultiPoint(arrangement["points"]).within(bed)
        if not inside:
            outside.append(planting["id"])
    assert outside == []


def dates_of(file: Path) -> list[tuple[str, Dates]]:
    garden, catalogue = load(file), load_catalogue()
    plans = {year: Plan(garden, year, catalogue) for year in (*garden.years(), YEAR)}
    return [
        (f"{p.year} {plans[p.year].bed_of(p).name} {p.crop}", plan.dates(p))
        for p in garden.plantings
        for plan in [plans[YEAR if p.start == "standing" else p.year]]
    ]


@every
def test_no_date_is_missing_or_in_doubt_and_all_ripens(file: Path) -> None:
    assert [
        (where, dates.missing, dates.doubts)
        for where, dates in dates_of(file)
        if dates.missing or dates.doubts or not dates.ripens
    ] == []


@every
def test_dates_of_every_planting_are_known_and_in_order(file: Path) -> None:
    green = {p.crop for p in load(file).plantings if p.purpose == "green manure"}
    for where, dates in dates_of(file):
        steps = [dates.sow, dates.prick_out, dates.harden_off, dates.set_out]
        if not dates.stays_for_years:
            steps += [dates.first_harvest, dates.last_harvest, dates.clear]
            assert dates.on_plot is not None, where
            assert dates.clear is not None, where
        picked = dates.first_harvest is not None and dates.last_harvest is not None
        young = dates.stays_for_years and dates.on_plot is not None and dates.on_plot.day.year == YEAR
        assert picked or young or where.split()[-1] in green, where
        days = [step.day for step in steps if step is not None]
        assert days == sorted(days), where


@every
def test_covers_lie_while_the_planting_stands(file: Path) -> None:
    garden = load(file)
    plan = Plan(garden, YEAR, load_catalogue())
    for planting in garden.plantings:
        span = plan.span_of(planting)
        for cover in plan.dates(planting).covers:
            ahead = dt.timedelta(days=7 if cover.kind == "film" else 0)
            assert span.first - ahead <= cover.on.day <= span.last, planting.crop
            assert cover.off is None or cover.on.day < cover.off.day <= span.last, planting.crop


@every
def test_frost_dates_fit_the_place(file: Path) -> None:
    garden = load(file)
    assert climate_doubts(garden.site, garden.climate) == ()


@pytest.mark.parametrize("name", ["hollow_lane", "red_mesa", "wattle_bank"])
def test_monthly_means_are_complete_and_in_order(name: str) -> None:
    climate = load(sample(name)).climate
    low, high = climate.monthly_minimum, climate.monthly_maximum
    assert low is not None
    assert high is not None
    assert len(low) == len(high) == 12
    assert all(a < b for a, b in zip(low, high, strict=True))


# -- balcony_boxes --------------------------------------------------------------------------


def test_balcony_has_three_containers_with_soil_depth(balcony: Garden) -> None:
    assert [bed.kind for bed in balcony.beds] == ["container"] * 3
    assert all(bed.depth for bed in balcony.beds)
    boxes = [(b.outline.length, b.outline.width) for b in balcony.beds if b.outline.shape == "rectangle"]
    assert boxes == [(0.8, 0.3), (0.8, 0.3)]
    assert [b.outline.radius for b in balcony.beds if b.outline.shape == "circle"] == [0.25]


def test_balcony_lies_at_48_north_behind_a_railing_before_a_wall(balcony: Garden) -> None:
    assert balcony.site.latitude == pytest.approx(48, abs=0.5)
    assert {s.name for s in balcony.structures} == {"railing", "house wall"}


def test_beginners_plan_is_small(balcony: Garden) -> None:
    assert {p.crop for p in balcony.plantings} == {
        "lettuce",
        "radish",
        "spinach",
        "strawberry",
        "chives",
        "tomato",
        "basil",
    }
    assert balcony.years() == (YEAR,)
    assert len(balcony.notes) == 1


@pytest.mark.parametrize("name", ["balcony_boxes", "red_mesa", "wattle_bank"])
def test_samples_but_the_first_are_clean_or_say_why_not(name):
    garden = load(resources.sample_folder() / f"{name}.bedwright")
    assert [one.text for one in check_all(Plan(garden, garden.years()[-1])) if not one.waived] == []
