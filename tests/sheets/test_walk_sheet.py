"""The walk sheet, read by another reader."""

from __future__ import annotations

import datetime as dt
import io
import re

import pytest

from planner import resources
from planner.amounts.work import work_between
from planner.garden import Garden
from planner.garden import edits as e
from planner.listings.phrases import days_in_short
from planner.listings.walk import walk_stops
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order
from planner.season.tasks import monday
from planner.sheets.output import SheetError
from planner.sheets.walk_sheet import write_walk_sheet
from planner.storage import load
from tests.making import bed, garden, planting, rectangle
from tests.sheets.paper_reading import Paper

DAY = dt.date(2026, 5, 14)


@pytest.fixture(scope="module")
def sample() -> Garden:
    return load(resources.sample_folder() / "hollow_lane.bedwright")


def written(document: Garden, day: dt.date = DAY, **choices) -> bytes:
    stream = io.BytesIO()
    write_walk_sheet(Plan(document, day.year), stream, day, printed=DAY, **choices)
    return stream.getvalue()


def test_beds_stand_in_walking_order_each_once(sample):
    for walk in ((), ("nothing", *(one.id for one in reversed(sample.beds)))):
        document = e.change_site(sample, walk=walk)
        with Paper(written(document)) as paper:
            words = paper.texts()
        names = [re.escape(one.name) for one in beds_in_walking_order(Plan(document, 2026))]
        numbered = [f"{number}\\. {name}" for number, name in enumerate(names, 1)]
        found = re.findall("|".join(numbered), words)
        assert len(found) == len(names)
        assert [int(one.split(".")[0]) for one in found] == list(range(1, len(names) + 1))


def test_all_work_of_the_week_has_a_box_and_every_bed_lines_to_write_on(sample):
    plan = Plan(sample, 2026)
    begins = monday(DAY)
    work = work_between(plan, begins, begins + dt.timedelta(days=6))
    with Paper(written(sample)) as paper:
        boxes = lines = 0
        for number in range(len(paper)):
            paths = paper.paths(number)
            wide, high = paths[:, 2] - paths[:, 0], paths[:, 3] - paths[:, 1]
            boxes += int(((abs(wide - 3.2) < 0.4) & (abs(high - 3.2) < 0.4)).sum())
            lines += int(((high < 0.5) & (wide > 30) & (wide < 80)).sum())
        words = paper.texts()
    assert boxes == len(work)
    assert lines >= 2 * len(plan.beds)
    assert "Set out winter squash" in words


def test_what_stands_there_is_told_with_what_comes_next(sample):
    with Paper(written(sample)) as paper:
        words = paper.texts()
    plan = Plan(sample, 2026)
    potato = next(one for one in plan.plantings if one.crop == "potato" and plan.span_of(one).holds(DAY))
    up = plan.dates(potato).emerge.day
    assert f"Potato: comes up about {up.day} {up:%b}" in words
    assert "Rhubarb: picked until 1 Jun" in words


def test_a_name_in_another_script_a_bare_bed_and_other_beds(sample):
    document = garden(
        bed("b1", name="北の畝"), bed("b2", rectangle(2, 1, center=(9, 0)), name="South"), planting()
    )
    with Paper(written(document)) as paper:
        words = paper.texts()
    assert "1. 北の畝" in words
    assert "nothing" in words
    with Paper(written(document, beds={"b2"})) as paper:
        words = paper.texts()
    assert "1. South" in words
    assert "北" not in words


def test_letter_paper_and_the_same_bytes(sample):
    assert written(sample, paper="letter") == written(sample, paper="letter") != written(sample)


def test_a_garden_without_beds_is_refused_in_words():
    with pytest.raises(SheetError, match="no bed is in use in 2026"):
        written(Garden())


def test_work_has_the_numbers_that_the_page_asks_for(sample):
    plan = Plan(sample, 2026)
    stop = max(walk_stops(plan, DAY), key=lambda one: len(one.work))
    with Paper(written(sample, beds={stop.bed.id})) as paper:
        words = " ".join(paper.texts().split())
    for number, task in enumerate(stop.work, 1):
        assert re.search(rf"\b{number} +{days_in_short(task.date, task.until)}: ", words), task
