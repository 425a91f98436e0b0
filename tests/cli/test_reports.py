"""What the commands write as JSON: its schemas, its rounding, and that one thing has one name in all of it."""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Iterator
from typing import Any

import jsonschema
import pytest
from sample_reading import FOLDER

from planner.cli.schema import REPORTS as NAMES
from planner.listings.reports.base import VERSION, rounded_grams
from planner.listings.reports.schemas import REPORTS, report_schema
from planner.storage import load

SAMPLES = sorted(FOLDER.glob("*.bedwright"))

#: What each name means, in every report that has it.
MEANINGS = {
    # the report
    "report": "which report", "in_part": "wishes met in part", "bare": "what lies bare", "version": "of the reports", "garden": "its name", "growing_year": "of the plan",
    "year": "a growing year, or the year of a frost", "first": "first day", "last": "last day", "date": "a day",
    "hearsay": "neighbours by hearsay count", "light": "the sun was checked", "table": "name of a file",
    "plantings": "records of plantings, or how many", "totals": "by variety", "seed": "needed and on hand",
    "tasks": "records of work", "findings": "records of findings", "crops": "records of crops, or how many",
    # places and plants
    "bed": "its name", "bed_id": "its id", "beds": "names or records", "bed_ids": "their ids",
    "planting_id": "its id", "planting_ids": "their ids", "structures": "names", "structure_ids": "their ids",
    "crop": "key of a crop", "crop_name": "its name as shown", "variety": "of the crop", "tended_by": "who tends it",
    "also": "other names", "american": "American name", "latin": "Latin name", "family": "botanical",
    "life_cycle": "of a crop", "growth_form": "of a crop", "cautions": "keys of cautions",
    # quantities
    "plants": "plants on the plot", "rows": "rows with plants", "area_m2": "of the plot",
    "seeds": "seeds to sow", "seed_g": "their mass", "seeds_per_plant": "sown for each plant",
    "thinned_from": "seeds in a drill", "plants_to_raise": "sown to have enough plants",
    "sets_and_plants_needed": "plants, sets, tubers, cloves, crowns", "germination": "share that comes up",
    "seeds_needed": "from the latest count on", "seeds_on_hand": "in usable lots", "seeds_ordered": "in lots ordered",
    "seeds_short": "seeds to get", "seed_short_g": "their mass", "lots_unusable": "too old or dead",
    "start": "how a planting starts", "sowing": "how it is sown", "missing": "what cannot be worked out, or how many",
    "problem": "of a layout",
    # covers, supports and what is spread
    "covers": "records of covers", "cover": "its kind", "held": "how a sheet is", "ground_length_m": "under a cover",
    "ground_width_m": "under a cover", "height_m": "of hoops, plants or supports", "sheet_length_m": "of a cover",
    "sheet_width_m": "of a cover", "fleece_g_per_m2": "its weight", "mesh_m": "of netting", "hoops": "how many",
    "hoop_length_m": "with both feet", "pegs": "along edges", "holes": "in film", "cloches": "how many",
    "guards": "one a plant, or bundles", "dressing_id": "of what is spread",
    "plants_height_m": "under a cover", "too_wide": "for hoops",
    "materials": "records of pieces", "length_m": "of a piece or bar", "width_m": "of a sheet or roll", "number": "of pieces or bars",
    "supply": "where pieces come from", "shed_id": "of an item in the shed", "cut_lists": "records", "cuts": "records of bars",
    "pieces": "cut from a bar", "left_m": "of a bar", "bought_m": "length to buy", "bought_least_m": "a bound to that",
    "cut_from_shed": "how many pieces", "cut_from_order": "how many pieces", "parts": "of what is joined", "whole_m": "what is joined", "joined": "records of what is",
    "parts_m": "of what is joined", "too_long": "pieces", "supports": "records of supports", "support": "its kind", "string_m": "used up", "string_to_buy_m": "of it",
    "depth_m": "of what is spread", "rate_g_per_m2": "of what is spread", "volume_l": "of what is spread",
    "load_g": "mass of what is spread", "volume_in_shed_l": "of it", "volume_to_buy_l": "of it", "load_in_shed_g": "of it",
    "load_to_buy_g": "of it", "barrows": "to wheel", "bag_l": "size of a bag", "bags": "to buy",
    # the shopping list
    "currency": "of prices", "items": "records of lines", "price": "of a line, or of all", "without_price": "how many lines",
    "status": "of a line", "group": "of lines", "what": "a line in words", "by": "first day not covered", "amount_needed": "in the unit",
    "amount_on_hand": "in the unit", "amount_ordered": "in the unit", "amount_to_buy": "in the unit", "packs": "in words", "shops": "where",
    "shop": "where", "amount": "in the unit", "offer_id": "of an offer or a size sold", "pack_amount": "in one pack", "price_each": "of one pack",
    "cells": "of a tray", "pot_m": "width of a pot", "estimated": "of sizes sold", "purchases": "records of packs", "serves": "records of plantings",
    # work and findings
    "work": "kind of work", "text": "the sentence", "material": "what is needed", "why": "reason of a day",
    "origin": "where a day comes from", "done": "the real day", "done_before": "on a day nobody wrote down", "key": "of a finding", "check": "name of the check",
    "severity": "of a finding", "rule": "behind a finding", "mends": "edits that mend it",
    "aftercare": "work that a crop needs", "task": "what is done, of a kind of work", "when": "it is due",
    "accepted": "reason for which it is", "source": "key of a publication", "citation": "the publication",
    # what happened
    "records": "of what happened", "record_id": "its id", "picked_for": "where it went", "harm": "that was seen",
    "share": "harmed, or come up", "seedlings": "counted", "sown": "seeds", "measure": "what was measured", "measured": "its number",
    "ended_why": "of a planting", "look_again": "a day", "words": "of a record", "written_by": "who", "photographs": "paths",
    # raising
    "way": "of raising", "way_entered": "not the usual one", "size_source": "key of a publication", "days_to_emerge": "days", "days_to_emerge_known": "not a stand-in",
    "days_growing": "on the bench", "days_hardening": "on the bench", "nursery_area_m2": "of a nursery bed", "mix_l": "in containers",
    "loose_mix_l": "to have", "fills": "records of containers filled", "on_bench": "records of days on a bench",
    "container": "cells, pots, blocks or seed tray", "per_tray": "places on a tray",
    "trays": "whole trays", "left_over": "empty places", "bench": "its name", "bench_id": "its id", "bench_kind": "of a bench",
    "benches": "records of benches", "capacity": "trays that fit", "weeks": "records of weeks",
    "week": "its Monday", "taken_m2": "ground under trays", "free_m2": "ground that is left",
    # the ground at its place
    "type": "of GeoJSON", "bbox": "of GeoJSON", "features": "of GeoJSON", "geometry": "of GeoJSON", "coordinates": "of GeoJSON",
    "properties": "of GeoJSON", "id": "as in the garden file", "thing": "of a feature", "name": "of a feature",
    # light and weather
    "least_h": "in the darkest part", "mean_h": "mean", "most_h": "in the lightest part",
    "unshaded_h": "without shade", "needed_h": "by the crop",
    "southern": "south of the equator", "columns": "how a table was read", "minimum": "a heading",
    "maximum": "a heading", "unit": "of numbers", "last_frost": "in spring", "first_frost": "in autumn",
    "threshold_c": "of a frost", "risk_10": "day at 10 %", "risk_50": "day at 50 %", "risk_90": "day at 90 %",
    "years": "records of years", "years_left_out": "for gaps", "day": "of a frost",
    "yearly_minimum_c": "mean of years", "zone": "of hardiness", "monthly_minimum_c": "means",
    "monthly_maximum_c": "means", "notes": "sentences", "files": "records of files", "file": "its name", "layout": "of a file",
    "holds": "kinds of values", "element": "kind of value", "month_column": "a heading", "year_column": "a heading",
    "rain": "a heading", "rain_unit": "of numbers", "evapotranspiration": "a heading", "evapotranspiration_unit": "of numbers",
    "measured_at": "the place of a weather table", "latitude": "in degrees", "longitude": "in degrees", "elevation_m": "above the sea",
    "distance_m": "from the garden", "taken_warmer_c": "for the height", "gaps": "records of gaps", "days_known": "with a value",
    "days_missing": "without a value", "longest_gap_days": "in a row", "longest_gap_from": "its first day",
    # water
    "need_l": "watering of a year or week", "need_dry_l": "in a dry year", "need_mm": "watering of a week", "most_l": "in the thirstiest week",
    "days_between": "waterings", "rain_share": "that reaches a bed", "soil_assumed": "its texture", "years_counted": "how many",
    "rain_known": "whether", "days_filled": "missing days of weather", "tank": "a record", "roof_m2": "of sheds and glasshouses", "tank_l": "its volume",
    "lasts": "whether a tank does", "met_share": "of the need", "gathered_l": "by roofs", "zones": "of drip lines", "flow_l_per_h": "of a zone",
    "pipe_m": "to a zone", "lines_m": "of drip lines", "emitters": "how many",
    # the turn of a year
    "stays": "records of plantings", "goes_over": "records of plantings", "not_ticked_off": "records of work",
    "seed_used": "records of packets", "seed_saved": "records of packets", "repeated": "records of plantings",
    "wishes": "records of wishes", "lessons": "records of lessons", "lot_id": "of a packet of seed",
    "seeds_before": "in a packet", "seeds_after": "in a packet", "seed_before_g": "in a packet", "seed_after_g": "in a packet",
    "seed_saved_g": "own seed", "repeated_id": "of the new planting", "repeated_bed": "its name", "moved": "on other ground",
    "at_end_of_years": "records of plantings", "planted_year": "growing year", "usual_years": "that such plants bear", "planned_last": "a day",
    "seed_not_confirmed": "records of sowings", "no_packet": "named for it", "seeds_sown_beyond": "more than was in stock", "already_there": "repeated before",
    "accepted_against": "what was accepted of its ground",
    "best_place": "the best place for what is not repeated, and what is against it",
    "wish_id": "of a wish", "wished": "how much", "wished_unit": "of a wish",
    # a proposed layout, and what could still go in
    "wishes_total": "how many", "wishes_met_before": "how many", "cost": "points", "bound": "points", "rounds": "of search",
    "judged": "by the checks", "placed": "records of plantings", "unmet": "records of wishes", "importance": "of a wish",
    "other_beds": "records", "next_best_bed": "its name", "next_best_points": "more than where it is", "fillings": "records",
    # figures
    "figures": "of a crop", "not_known": "fields", "value": "of a figure", "at": "value at a temperature", "none_at": "temperatures without one",
    "low": "of a range", "high": "of a range", "applies": "has a meaning", "provenance": "how it came about",
    "recalled": "from memory", "note": "on a figure", "other": "further readings",
    "fields": "of crops", "driving_fields": "of crops", "aim": "share", "total": "counts", "driving": "counts",
    "by_field": "counts", "by_crop": "counts", "printed": "how many", "chosen": "how many", "derived": "how many", "practice": "how many",
    "estimate": "how many", "does_not_apply": "how many", "published_share": "of all there should be",
    "printed_or_chosen_share": "of all there should be", "aim_printed_or_chosen": "of a share", "values": "several numbers",
    "further_products": "what else is harvested", "product": "what is harvested", "toxic": "what poisons", "part": "of a plant",
    "harms": "whom",
    # odds over recorded years
    "rests_on": "a first picking", "counted_years": "how many", "picked_years": "how many", "small_years": "how many", "frost_years": "how many",
    "bolted_years": "how many", "unripe_years": "how many", "cleared_years": "how many", "emergence_days": "when it comes up, or days by temperature",
    "flower_days": "when it flowers", "first_picking_days": "when", "last_picking_days": "when", "free_ground_days": "when",
    "harvest_length": "days of picking", "by_10": "in a share of years", "by_25": "in a share of years", "by_50": "in a share of years",
    "by_75": "in a share of years", "by_90": "in a share of years", "days_10": "in a share of years", "days_25": "in a share of years",
    "days_50": "in a share of years", "days_75": "in a share of years", "days_90": "in a share of years", "recorded_at": "name of a station",
    "recorded_from": "first year", "recorded_until": "last year",
    # harvest and store
    "harvest_g": "what is picked", "purpose": "of a planting", "shape": "how a harvest comes",
    "yield_g": "in all years", "yield_least_g": "of its range", "yield_most_g": "of its range",
    "shape_source": "key of a publication",
    # what happened, and what it tells
    "begun": "sown or set out, or when", "came_up": "a day, or a share", "first_picked": "a day", "last_picked": "a day", "ended": "a day",
    "lost": "of a planting", "picked_g": "in a year", "picked_otherwise": "amounts", "harmed_by": "what", "learned_use": "when figures are used",
    "own_figures": "records of figures", "lots_seen": "records of packets", "lost_ids": "plantings", "lost_counts": "of a trial", "verdict": "of a trial", "left_out": "records of years", "reason": "why nothing is learned", "cause": "of a loss", "lost_share": "of plants", "sowings": "how many", "figure": "what is learned", "field": "of a crop",
    "own": "mean of own years", "published": "by the published figures", "factor": "own over published", "factor_low": "of an interval", "factor_high": "of an interval",
    "spread": "what is spread, or a standard deviation", "weight": "of the own years", "by_plant_g": "yield", "by_metre_g": "yield", "used": "whether", "choice": "the gardener's",
    "trials": "records of trials", "trial_id": "its id", "question": "of a trial", "blocks": "of a trial", "treatments": "records", "treatment": "its name",
    "numbers": "of its plantings", "mean": "of values", "comparisons": "records", "compared_with": "a treatment", "difference": "of means", "difference_low": "of an interval",
    "difference_high": "of an interval", "method": "of a comparison", "chance": "of chance alone", "chance_by_t": "of chance alone", "ways": "of laying out", "unmeasured_ids": "of plantings",

    "persons": "who eat", "eaten": "records of crops", "person_year_g": "one person's in a year", "weeks_eaten": "how many",
    "weekly_g": "wanted in a week", "eaten_g": "in the year", "too_much": "weeks", "too_little": "weeks", "spoilt_g": "not eaten in time",
    "lost_g": "would come after frost or clearing", "in_gap_g": "there when it lacks",
    "lacking_g": "less than is wanted", "closing": "planting that closes a gap", "sow": "day of sowing", "on_plot": "day it takes its plot",
    "first_harvest": "first day of picking", "row_m": "length of rows", "places": "to keep a harvest", "stores": "records of lots",
    "place": "where it is kept", "kind": "of a place or record", "temperature_c": "of a place", "humidity": "of a place", "keeps_until": "last good day",
    "gone": "the day it runs out", "keeps_less": "why", "levels": "by month", "stored_g": "on a day",
    # what the recorded years tell
    "over_years": "of a harvest", "assumed": "of recorded years", "low_g": "of a spread", "middle_g": "of a spread", "high_g": "of a spread",
    "worst": "records of stores", "worst_year": "a recorded year", "worst_g": "in that year", "worst_gone": "in that year", "planned_g": "by the plan",
    "planned_gone": "by the plan",
    "until": "the day asked for", "room": "free ground", "start_m": "along a bed", "end_m": "along a bed",
}  # fmt: skip
#: Names of one thing in what people read: heading in listings, heading in the window, label on the sheet of a bed.
HEADINGS = {
    "plants": ("plants", "Plants", "Plants"),
    "rows": ("rows", "Rows", "Row"),
    "seeds": ("seeds", "Seeds", None),
    "seed_g": ("seed, g", "Seed, g", None),
    "plants_to_raise": ("plants\nto raise", "Plants to raise", None),
    "sets_and_plants_needed": ("sets and\nplants\nneeded", "Sets and plants needed", None),
    "start": ("start", "Start", None),
}


def _commands(path: str) -> dict[str, list[str]]:
    return {
        "amounts": ["amounts", path, "--json"],
        "raising": ["amounts", path, "--what", "raising", "--json"],
        "harvest": ["amounts", path, "--what", "harvest", "--json"],
        "store": ["amounts", path, "--what", "store", "--json"],
        "enough": ["enough", "onion", path, "--for", "2", "--until", "1 Mar", "--json"],
        "tasks": ["tasks", path, "--json"],
        "check": ["check", path, "--json", "--hearsay", "--no-light"],
        "covers": ["amounts", path, "--what", "covers", "--json"],
        "supports": ["amounts", path, "--what", "supports", "--json"],
        "ground": ["amounts", path, "--what", "ground", "--json"],
        "shopping": ["amounts", path, "--what", "shopping", "--json"],
        "sun": ["sun", path, "--date", "2026-06-21", "--span", "2026-05-01", "2026-07-31", "--json"],
        "water": ["water", path, "--json"],
    }


def _names(schema: Any) -> Iterator[tuple[str, Any]]:
    """Names of properties in a schema, each with its own schema."""
    if isinstance(schema, dict):
        properties = schema.get("properties", {}) if schema.get("type") == "object" else {}
        yield from properties.items()
        parts = [part for key, part in schema.items() if part is not properties]
        for part in (*parts, *properties.values()):  # a property may itself be called properties
            yield from _names(part)
    elif isinstance(schema, list):
        for part in schema:
            yield from _names(part)


def _numbers(value: Any) -> Iterator[float]:
    if isinstance(value, float):
        yield value
    elif isinstance(value, (dict, list)):
        for part in value.values() if isinstance(value, dict) else value:
            yield from _numbers(part)


def _check(name: str, out: str) -> Any:
    found = json.loads(out)
    jsonschema.Draft202012Validator(report_schema(name), format_checker=jsonschema.FormatChecker()).validate(
        found
    )
    assert (found["report"], found["version"]) == (name, VERSION)
    long = [number for number in _numbers(found) if len(repr(number).lstrip("-0.").replace(".", "")) > 7]
    assert not long, "numbers without noise"
    return found


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize(
    "name",
    [
        "amounts",
        "raising",
        "covers",
        "supports",
        "ground",
        "harvest",
        "store",
        "enough",
        "tasks",
        "check",
        "sun",
        "water",
    ],
)
def test_reports_on_the_samples_keep_to_their_schemas(bedwright, path, name):
    code, out, _ = bedwright(*_commands(str(path))[name])
    assert code in (0, 1)
    found = _check(name, out)
    assert found["garden"]
    assert found["growing_year"]["first"] < found["growing_year"]["last"]


def test_a_report_of_a_turn_keeps_to_its_schema(bedwright, tmp_path):
    path, new = FOLDER / "balcony_boxes.bedwright", tmp_path / "next.bedwright"
    code, out, _ = bedwright("turn", str(path), "-o", str(new), "--year", "2026", "--repeat", "all", "--json")
    assert code == 0
    found = _check("turn", out)
    after = load(new)
    assert found["growing_year"]["year"] == 2027
    assert [one["wish_id"] for one in found["wishes"]] == [one.id for one in after.wishes]
    assert [one["repeated_id"] for one in found["repeated"]] == [
        p.id for p in after.plantings if p.year == 2027
    ]
    assert {one["planting_id"] for one in found["stays"]} <= {p.id for p in after.plantings}
    assert found["not_ticked_off"]


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("crops", ["crops", "--json"]),
        ("crops", ["crops", "carrot", "--json"]),
        ("coverage", ["crops", "--coverage", "--json"]),
    ],
)
def test_reports_on_crops_keep_to_their_schemas(bedwright, name, arguments):
    _check(name, bedwright(*arguments)[1])


def test_a_report_on_weather_keeps_to_its_schema(bedwright, tmp_path):
    days = [dt.date(2001, 1, 1) + dt.timedelta(days=number) for number in range(3 * 365)]
    rows = [f"{day},{abs(7 - day.month) * -3 + 9.123},{20.456 - abs(7 - day.month)}" for day in days]
    lines = ["date,tmin,tmax", *rows]
    (tmp_path / "w.csv").write_text("\n".join(lines))
    _check("weather", bedwright("weather", str(tmp_path / "w.csv"), "--json")[1])


@pytest.mark.parametrize("name", REPORTS)
def test_schemas_are_published_and_strict(bedwright, name):
    code, out, _ = bedwright("schema", name)
    schema = json.loads(out)
    assert code == 0
    assert schema == report_schema(name)
    jsonschema.Draft202012Validator.check_schema(schema)
    for part in (schema, *schema.get("$defs", {}).values()):
        if "properties" in part:
            assert part["additionalProperties"] is False
            assert set(part["required"]) == set(part["properties"]), "every field is always written"
    assert not jsonschema.Draft202012Validator(schema).is_valid([])
    assert not jsonschema.Draft202012Validator(schema).is_valid({"report": name, "version": VERSION + 1})


def test_the_names_of_the_schemas_are_those_of_the_reports():
    assert tuple(REPORTS) == NAMES


def test_every_command_that_writes_json_has_its_schema():
    """Of the parser itself, so that a new command or a new part of the amounts is not forgotten."""
    from planner.cli.amounts import PLANTS
    from planner.cli.draw import KINDS
    from planner.cli.parser import make_parser
    from planner.listings.amounts_parts import PARTS

    (commands,) = (action.choices for action in make_parser()._actions if isinstance(action.choices, dict))
    writing = {name for name, one in commands.items() if "--json" in one._option_string_actions}
    assert {"amounts", "enough", "tasks", "check", "sun", "weather", "crops"} <= writing
    assert {*writing, *PARTS} - {PLANTS} <= set(REPORTS)
    assert ".geojson" in KINDS
    assert "map" in REPORTS


def test_one_thing_has_one_name_in_all_reports():
    used = {name for report in REPORTS for name, _ in _names(report_schema(report))}
    assert used - set(MEANINGS) == set(), "a new name: is there one for it already?"
    assert set(MEANINGS) - used == set()


def test_names_of_measures_carry_their_unit():
    units = {"[g]": "_g", "[m2]": "_m2", "[h]": "_h", "[deg C]": "_c", "[l]": "_l", "[m]": "_m"}
    for report in REPORTS:
        for name, schema in _names(report_schema(report)):
            text = json.dumps(schema)
            for unit, suffix in units.items():
                if unit in text and "$ref" not in text:
                    assert name.endswith(suffix), f"{report}: {name}"
    every = {name for report in REPORTS for name, _ in _names(report_schema(report))}
    assert not {name for name in every if re.search(r"gram|hours|station|celsius", name)}


def test_headings_say_what_the_names_say():
    from planner.desk.pages import amounts_page
    from planner.listings.amounts import bed_heads

    for name, (listing, window, _sheet) in HEADINGS.items():
        assert name in MEANINGS
        assert listing in bed_heads()
        assert listing.replace("\n", " ") == window.casefold(), "the same words"
        assert window in amounts_page._HEADS


def test_sheets_say_what_the_names_say(bedwright, tmp_path):
    import pypdfium2

    target = tmp_path / "s.pdf"
    assert bedwright("sheets", str(FOLDER / "hollow_lane.bedwright"), "-o", str(target))[0] == 0
    with pypdfium2.PdfDocument(str(target)) as pdf:
        text = "\n".join(page.get_textpage().get_text_range() for page in pdf)
    for _, _, sheet in HEADINGS.values():
        assert sheet is None or sheet in text


@pytest.mark.parametrize(
    ("mass", "shown"),
    [
        (4 / 15, 0.267),
        (12.000000000000002, 12.0),
        (0.0021347, 0.00213),
        (0.09999, 0.1),
        (0.0, 0.0),
        (1234.5678, 1234.568),
    ],
)
def test_a_mass_is_rounded_by_its_size(mass, shown):
    assert rounded_grams(mass) == shown
