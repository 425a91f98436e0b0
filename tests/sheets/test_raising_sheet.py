"""The raising sheet, read by another reader and counted again."""

from __future__ import annotations

import datetime as dt
import io
import math
import re
from collections import defaultdict

import numpy as np
import pytest

from planner.amounts.raising import raisings
from planner.amounts.shopping import shopping
from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden
from planner.plan import Plan
from planner.season.tasks import monday
from planner.sheets.output import SheetError
from planner.sheets.raising_sheet import write_raising_sheet
from planner.sheets.raising_work import RaisingWork
from planner.storage import load
from tests.making import bed, garden, planting
from tests.sample_reading import sample
from tests.sheets.paper_reading import TODAY, Paper

CLIMATE = Climate(last_frost=FrostDates(risk_50="05-01"), first_frost=FrostDates(risk_50="10-16"))
NAMES = ("hollow_lane", "wattle_bank", "red_mesa")


def written(document: Garden, paper: str = "a4", year: int = 2026) -> bytes:
    stream = io.BytesIO()
    write_raising_sheet(Plan(document, year, load_catalogue()), stream, paper, TODAY)
    return stream.getvalue()


@pytest.fixture(scope="module", params=NAMES)
def read(request):
    """Work of a sample and its sheet, read."""
    document = load(sample(request.param))
    plan = Plan(document, 2026, load_catalogue())
    with Paper(written(document)) as paper:
        yield RaisingWork(plan), paper


def boxes(paper: Paper) -> int:
    """Boxes to tick, of 2.9 mm and a line of 0.25 mm."""
    found = 0
    for number in range(len(paper)):
        sizes = paper.paths(number)
        wide, high = sizes[:, 2] - sizes[:, 0], sizes[:, 3] - sizes[:, 1]
        found += int(np.count_nonzero((abs(wide - 3.4) < 0.06) & (abs(high - 3.4) < 0.06)))
    return found


def test_every_piece_of_work_has_its_row_and_box(read):
    work, paper = read
    lines = [line for week in work.weeks for line in week.lines]
    assert len(lines) > 10
    assert boxes(paper) == len(lines)
    words = "".join(paper.texts().split())
    for line in lines:
        assert "".join(line.number.split()) in words
        assert "".join(line.how.split()) in words


def test_all_that_is_raised_is_sown_moved_on_and_set_out_once(read):
    """Against the fills of each planting, and the mix added up again."""
    work, _ = read
    plan = work.plan
    by_planting = defaultdict(list)
    for week in work.weeks:
        for line in week.lines:
            by_planting[line.planting].append(line)
            assert week.monday == monday(line.day)
    litres = 0.0
    for part in raisings(plan):
        kinds = [line.kind for line in by_planting[part.planting.id]]
        assert kinds.count("sow") == 1
        inside = [fill for fill in part.fills if plan.span.holds(fill.day)]
        for fill in inside:
            assert kinds.count(fill.work) == 1
        litres += math.fsum(fill.litres for fill in inside)
        out = plan.dates(part.planting).set_out
        if out is not None and plan.span.holds(out.day):
            assert kinds.count("set out") == 1
    begun = {part.planting.id for part in raisings(plan)}
    of_year = [line for key in begun for line in by_planting[key]]
    assert math.isclose(math.fsum(line.litres for line in of_year), litres, abs_tol=1e-9)


def test_a_planting_is_on_the_bench_that_its_rows_say(read):
    """Every row that names a bench, against the days on the benches."""
    work, _ = read
    told = 0
    for week in work.weeks:
        for line in week.lines:
            there = [
                work.bench_name(one.bench)
                for one in work.benches.placed
                if one.standing.planting == line.planting
                and one.standing.first <= line.day <= one.standing.last
            ]
            if line.kind != "set out" and there:
                assert there[0] in line.how
                told += 1
    assert told > 5


def test_trays_of_a_week_are_those_counted_day_by_day(read):
    """Brute force: on each day of a week whole trays of each container, shared by all that stand on the bench."""
    work, _ = read
    for week in work.benches.weeks()[::5]:
        most = 0
        for day in (week.monday + dt.timedelta(days=n) for n in range(7)):
            numbers: dict[object, int] = defaultdict(int)
            for one in work.benches.placed:
                if one.bench == week.bench.id and one.standing.first <= day <= one.standing.last:
                    numbers[one.standing.container] += one.standing.number
            most = max(most, sum(math.ceil(n / box.per_tray) for box, n in numbers.items()))
        assert week.trays == most
        said = " ".join(work.bench_lines(week.monday))
        assert f"{work.bench_name(week.bench.id)}: {most} " in said


def test_the_head_has_the_trays_of_the_shopping_list(read):
    """Both against the trays counted day by day, bench by bench."""
    work, paper = read
    needed = {one.cells: one.needed for one in shopping(work.plan).items if one.kind == "cell tray"}
    counted: dict[int, int] = {}
    for cells in {
        one.standing.container.per_tray
        for one in work.benches.placed
        if one.standing.container.kind == "cells"
    }:
        for number in range((work.plan.span.last - work.plan.span.first).days + 1):
            day, there = work.plan.span.first + dt.timedelta(days=number), defaultdict(int)
            for one in work.benches.placed:
                standing = one.standing
                if (standing.container.kind, standing.container.per_tray) == ("cells", cells) and (
                    standing.first <= day <= standing.last
                ):
                    there[one.bench] += standing.number
            counted[cells] = max(counted.get(cells, 0), sum(-(-n // cells) for n in there.values()))
    assert counted == needed
    head = "".join(paper.texts().split()).partition("Mixinall")[0]
    assert all(f"{trays}tray{'s' * (trays > 1)}of{cells}" in head for cells, trays in counted.items())


def test_a_planting_that_shares_its_tray_says_with_what(read):
    """Against what else stands in the same trays on its bench, counted from the places."""
    work, _ = read
    for week in work.weeks:
        for line in week.lines:
            there = [
                one for one in work.benches.placed if one.standing.first <= line.day <= one.standing.last
            ]
            mine = next((one for one in there if one.standing.planting == line.planting), None)
            if line.kind == "set out" or mine is None:
                continue
            box = mine.standing.container
            others = [
                one for one in there
                if one.bench == mine.bench and one.standing.container == box and one is not mine
                and one.standing.number % box.per_tray
            ]  # fmt: skip
            shares = (
                bool(others)
                and box.kind in ("cells", "seed tray")
                and mine.standing.number % box.per_tray > 0
            )
            assert (", shared with " in line.number) is shares
            if 0 < len(others) <= 3 and shares:
                assert all(work.crop_of(one.standing.planting) in line.number for one in others)


def test_a_week_that_goes_on_says_so_under_the_heads_of_its_columns(read):
    _, paper = read
    words = paper.texts()
    again = [found.start() for found in re.finditer(", continued", words)]
    assert all("How many, in what" in words[at - 120 : at] for at in again)
    assert again or len(paper) < 5


def test_a_bench_has_a_page_that_names_all_that_stands_on_it(read):
    work, paper = read
    words = paper.texts()
    for there in work.benches.benches:
        standing = work.benches.by_bench.get(there.bench.id, ())
        if standing:
            page = words[words.rindex(work.bench_name(there.bench.id)[1:] + " ") :]
            assert "Comes" in page
            assert all(work.crop_of(one.planting)[1:].split()[0] in page for one in standing)


def test_a_garden_without_benches_is_told_what_they_would_hold():
    sown = planting("p1", "b1", crop="tomato", start="raised")
    document = garden(bed("b1"), sown, climate=CLIMATE)
    with Paper(written(document)) as paper:
        words = paper.texts()
    assert "No benches are entered" in words
    assert "Sow" in words
    assert "plot A" in words


def test_nothing_raised_is_refused_in_words():
    with pytest.raises(SheetError, match="nothing is raised in 2026"):
        written(garden(bed(), planting()))


def test_the_same_plan_gives_the_same_bytes():
    document = load(sample("wattle_bank"))
    assert written(document, "letter") == written(document, "letter")
