"""The garden map, read by another reader."""

from __future__ import annotations

import datetime as dt
import io

import pytest

from planner import resources
from planner.garden import Garden
from planner.garden import edits as e
from planner.plan import Plan
from planner.sheets.map_sheet import by_bed, by_crop, write_map_sheet
from planner.sheets.output import SheetError
from planner.storage import load
from tests.making import bed, garden, planting
from tests.sheets.paper_reading import Paper

DAY = dt.date(2026, 7, 1)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return Plan(load(resources.sample_folder() / "hollow_lane.bedwright"), 2026)


def written(plan: Plan, **choices) -> bytes:
    stream = io.BytesIO()
    write_map_sheet(plan, stream, DAY, printed=DAY, **choices)
    return stream.getvalue()


def test_the_plan_comes_first_and_every_bed_and_crop_stands_in_the_index(plan):
    with Paper(written(plan)) as paper:
        first, index = paper.text(0), " ".join(paper.text(n) for n in range(1, len(paper)))
    assert "1 Jul 2026" in first
    assert "Scale 1" in first
    for one in plan.beds:
        assert one.name in index
    for one in plan.plantings:
        assert plan.catalogue.name_of(one.crop).capitalize()[1:] in index


def test_the_index_names_each_planting_once_by_crop_and_once_by_bed(plan):
    crops, beds = by_crop(plan), by_bed(plan)
    assert [name for name, _ in beds] == [one.name for one in plan.beds]
    assert [name for name, _ in crops] == sorted((name for name, _ in crops), key=str.casefold)
    radish = next(words for name, words in crops if name == "Radish")
    assert radish.count("Middle 1") == 2
    assert dict(beds)["West 3"].startswith(("Carrot", "Parsnip"))
    assert "for years" in dict(crops)["Rhubarb"]


def test_a_bare_bed_and_another_script():
    plan = Plan(garden(bed("b1", name="北の畝"), bed("b2", name="Bare"), planting()), 2026)
    with Paper(written(plan, paper="letter")) as paper:
        words = paper.texts()
    assert "北の畝" in words
    assert "nothing" in words


def test_an_empty_garden_is_refused_in_words():
    with pytest.raises(SheetError) as refused:
        written(Plan(Garden(), 2026))
    assert "\n" not in str(refused.value)


def test_the_same_map_is_the_same_bytes(plan):
    assert written(plan) == written(plan)


def test_notes_on_the_year_and_lessons_of_the_garden_are_printed(plan):
    noted = e.put_year_note(plan.garden, plan.year, "A dry spring, the butts empty by June.")
    lesson = {"kind": "lesson", "day": DAY, "words": "order seed in January"}
    with Paper(written(plan.after(e.add_records(noted, [lesson])[0]))) as paper:
        words = " ".join(paper.text(1).split())
    assert "A dry spring, the butts empty by June." in words
    assert "Remember: order seed in January (2026)" in words
