"""Week sheets as another reader finds them on paper."""

from __future__ import annotations

import datetime as dt
import io
import re
from pathlib import Path

import numpy as np
import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle, ticked
from paper_reading import TODAY, Paper

from planner.amounts.bench import bench_year, benches_wanted
from planner.amounts.bench_moves import bench_moves
from planner.amounts.work import work_between
from planner.crops import load_catalogue
from planner.crops.cautions import cautions
from planner.garden import Climate, FrostDates, Garden, Site, Stretch, Structure
from planner.listings.phrases import days_in_short
from planner.listings.tasks import task_words
from planner.listings.weeks import Week, weeks
from planner.plan import Plan
from planner.season.tasks import monday
from planner.sheets.output import SheetError
from planner.sheets.page_chrome import PAPERS, UnknownPaperError
from planner.sheets.sheet_year import SheetYear
from planner.sheets.steps import steps
from planner.sheets.week_sheets import WeekSheets, write_week_sheets
from planner.sheets.week_work import WeekWork
from planner.words import day_words

D = dt.date
YEAR = (D(2026, 1, 1), D(2026, 12, 31))
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
CATALOGUE = catalogue_of(
    crop(
        "carrot",
        sow_from=-3,
        days_to_maturity=70,
        harvest_days=20,
        in_row_spacing=0.075,
        row_spacing=0.3,
        sowing_spacing=0.015,
        germination=0.55,
        seeds_per_gram=800,
    )
)


def sown(count: int, every: int = 7) -> Garden:
    """Beds of carrots, one sown every so many days from 5 April on."""
    beds = [bed(f"b{k}", name=f"Range {k}") for k in range(count)]
    plantings = [
        planting(f"p{k}", f"b{k}", first=D(2026, 4, 5) + dt.timedelta(days=every * k)) for k in range(count)
    ]
    return garden(*beds, *plantings, climate=CLIMATE, site=Site(name="Hollow Lane"))


def pdf(document: Garden, *days: dt.date, paper: str = "a4") -> bytes:
    stream = io.BytesIO()
    write_week_sheets(Plan(document, 2026, CATALOGUE), stream, *days, paper=paper, today=TODAY)
    return stream.getvalue()


def boxes(pages: Paper, number: int) -> int:
    """Boxes to tick on a page: 2.9 mm wide, their line of 0.25 mm on both sides."""
    sizes = pages.paths(number)
    width, high = sizes[:, 2] - sizes[:, 0], sizes[:, 3] - sizes[:, 1]
    return int(np.count_nonzero((abs(width - 3.4) < 0.05) & (abs(high - 3.4) < 0.05)))


def listed(document: Garden, first: dt.date = YEAR[0], last: dt.date = YEAR[1]) -> list[Week]:
    """The weeks of a span in which there is work, with what goes on."""
    work = work_between(Plan(document, 2026, CATALOGUE), first, last)
    return list(weeks(work, first, last, going_on_too=True))


def rows(week: Week) -> int:
    """Pieces of work of a week that have a box."""
    return sum(task.kind != "sow the next" for task in week.begins) + len(week.goes_on)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_every_piece_of_work_is_on_paper_with_a_box(paper):
    document = sown(20)
    found = work_between(Plan(document, 2026, CATALOGUE))
    with Paper(pdf(document, paper=paper)) as pages:
        assert sum(boxes(pages, k) for k in range(len(pages))) == sum(map(rows, listed(document)))
        words = pages.texts()
        assert pages.fonts_embedded()
        for task in found:
            assert task_words(task)[0] in words
            assert task.bed_name in words
        width, high = pages.document[0].get_size()
        assert (round(width), round(high)) == ((595, 842) if paper == "a4" else (612, 792))


def test_what_is_done_indoors_stands_before_the_beds_with_the_moves():
    """Kale raised on a heated bench: against its days, and the benches on which it stands."""
    raised = planting(
        "p1", "b1", crop="perennial_kale", start="raised", first=D(2026, 5, 1), raising={"way": "cells", "cells": 128},
    )  # fmt: skip
    document = garden(
        bed("b1", name="Long bed"), bed("b2", name="Near bed"), raised,
        planting("p2", "b2", crop="cabbage", start="raised", first=D(2026, 5, 1)), climate=CLIMATE,
    )  # fmt: skip
    plan = Plan(document, 2026, load_catalogue())
    moves = bench_moves(plan, bench_year(plan) if document.benches else benches_wanted(plan))
    found = WeekWork(plan).with_moves(weeks(work_between(plan), *YEAR, going_on_too=True), *YEAR)
    inside = {"sow", "prick out", "harden off"}
    told = []
    for week in found:
        for part in (there for person in WeekWork(plan).of_week(week, 2026) for there in person.beds):
            kinds = {line.task.kind for line in part.lines if line.task is not None}
            assert kinds <= inside if not part.bed_id else not kinds & inside
            assert not part.bed_id or all(line.task is not None for line in part.lines)
            told += [line for line in part.lines if line.task is None]
            assert part.bed_id or all(
                "or Long bed" in line.details or "or Near bed" in line.details for line in part.lines
            )
        beds = [one.bed_id for person in WeekWork(plan).of_week(week, 2026) for one in person.beds]
        assert "" not in beds[1:]
    assert len(told) == len(moves) > 0


def test_words_of_a_week():
    document = sown(1)
    with Paper(pdf(document)) as pages:
        words = pages.texts()
    dates = Plan(document, 2026, CATALOGUE).dates(document.plantings[0])
    assert dates.first_harvest is not None
    assert dates.last_harvest is not None
    first, last = dates.first_harvest.day, dates.last_harvest.day
    assert monday(first) < monday(last)
    for part in (
        "Hollow Lane · days are those planned, * set by hand Days Plot Work Remark",
        "30 Mar – 5 Apr 2026 · week 14",
        "Range 0 5 Apr* A Sow carrot 256 plants in 4 rows; 7½ cm apart in rows 30 cm apart; sow in a drill, "
        "67 seeds to the metre; thin to one every 7½ cm (our estimate: seeds in the drill); 1,280 seeds, 1.6 g",
        f"week {first:%V} Hollow Lane · days are those planned, * set by hand Days Plot Work Remark Range 0 "
        f"{days_in_short(first, last)} A Pick carrot 256 plants",
        f"Range 0 to {day_words(last)} A Pick carrot 256 plants {day_words(last)} A Clear carrot 256 plants",
    ):
        assert part in words, part
    assert "Take care" not in words  # a garden carrot has no caution of its own
    quiet = monday(first) + dt.timedelta(days=7)
    assert quiet < monday(last)
    assert f"week {quiet:%V} " in words  # a week of picking only
    assert "100 mm" not in words
    assert "program" not in words


@pytest.mark.parametrize(("count", "every"), [(30, 2), (45, 3), (60, 1)])
def test_each_week_has_pages_of_its_own(count, every):
    document = sown(count, every)
    with Paper(pdf(document)) as pages:
        texts = [pages.text(k) for k in range(len(pages))]
        for week in listed(document):
            on = [k for k, text in enumerate(texts) if text.startswith(week.title)]
            assert on
            assert on == list(range(on[0], on[-1] + 1))
            assert sum(boxes(pages, k) for k in on) == rows(week)
            if rows(week) <= 12:
                assert len(on) == 1


def order_of(words: str, *parts: str) -> list[int]:
    return [words.index(part) for part in parts]


def test_work_stands_in_the_order_in_which_it_is_done():
    """The ground is cleared before the arch, the arch put up before its beans, and these are covered last."""
    radish = planting("p0", crop="radish", first=D(2026, 4, 1), last=D(2026, 5, 28))
    beans = planting(
        "p1",
        crop="climbing_bean",
        start="sown",
        first=D(2026, 5, 28),
        support={"kind": "arch", "height": 2.2},
        covers=[{"kind": "fleece", "first": "2026-05-28", "last": "2026-06-20"}],
    )
    document = garden(bed("b1"), radish, beans, climate=CLIMATE, site=Site(name="Place"))
    stream = io.BytesIO()
    write_week_sheets(Plan(document, 2026), stream, D(2026, 5, 25), D(2026, 5, 31), today=TODAY)
    words = Paper(stream.getvalue()).texts()
    found = order_of(words, "Clear radish", "Put up arch", "Sow climbing bean", "Cover climbing bean")
    assert found == sorted(found)
    assert "Fleece, laid flat, sheet of " in words
    assert "Arch, 220 cm high, " in words


def test_work_is_grouped_by_person_then_by_bed():
    beds = [bed(f"b{k}", name=f"Range {k}") for k in range(3)]
    who = ["Zoe", "", "Zoe"]
    plantings = [planting(f"p{k}", f"b{k}", first=D(2026, 4, 6), tended_by=who[k]) for k in range(3)]
    document = garden(*beds, *plantings, climate=CLIMATE)
    with Paper(pdf(document, D(2026, 4, 6), D(2026, 4, 12))) as pages:
        words = pages.text(0)
    found = order_of(words, "Zoe", "Range 0", "Range 2", "Anybody", "Range 1")
    assert found == sorted(found)


@pytest.mark.parametrize(
    ("walk", "order"),
    [((), (2, 3, 1, 0)), (("b1", "b3"), (1, 3, 2, 0)), (("b0", "b1", "b2", "b3"), (0, 1, 2, 3))],
)
def test_beds_stand_in_walking_order(walk, order):
    """Beds in a line at 0, 3, 6 and 5 m with a gate at 7 m: the order of the walk by hand, else that of the way, on paper."""
    beds = [
        bed(f"b{k}", rectangle(1.0, 1.0, center=(x, 0)), name=f"Range {k}")
        for k, x in enumerate((0, 3, 6, 5))
    ]
    plantings = [planting(f"p{k}", f"b{k}", first=D(2026, 4, 6)) for k in range(4)]
    gate = Structure(id="g", name="Gate", kind="gate", height=1.0, outline=rectangle(0.5, 0.5, center=(7, 0)))
    site = Site(name="Hollow Lane", walk=walk)
    document = garden(*beds, *plantings, climate=CLIMATE, site=site, structures=(gate,))
    with Paper(pdf(document, D(2026, 4, 6), D(2026, 4, 12))) as pages:
        words = pages.text(0)
    found = order_of(words, *(f"Range {k}" for k in order))
    assert found == sorted(found)


def test_what_only_tells_what_follows_has_no_box():
    one = planting("p0", "b0", first=D(2026, 4, 6), last=D(2026, 7, 1))
    two = planting("p1", "b0", first=D(2026, 7, 2))
    document = garden(bed("b0", name="Range 0"), one, two, climate=CLIMATE)
    with Paper(pdf(document, D(2026, 6, 29), D(2026, 7, 5))) as pages:
        assert "Carrot follows carrot" in pages.text(0)
        (week,) = listed(document, D(2026, 6, 29), D(2026, 7, 5))
        assert boxes(pages, 0) == rows(week) == len(week.begins) + len(week.goes_on) - 1


def test_letters_are_those_of_the_bed_sheets():
    stretches = [{"kind": "stretch", "start": at, "end": at + 2.4} for at in (2.4, 0.0)]
    plantings = [planting(f"p{k}", "b0", plot=plot, first=D(2026, 4, 6)) for k, plot in enumerate(stretches)]
    document = garden(bed("b0"), *plantings, climate=CLIMATE)
    plan = Plan(document, 2026, CATALOGUE)
    assert {key: SheetYear(plan).letter(key) for key in ("p0", "p1")} == {"p0": "B", "p1": "A"}
    with Paper(pdf(document, D(2026, 4, 6), D(2026, 4, 12))) as pages:
        assert "A Sow carrot" in pages.text(0)
        assert "B Sow carrot" in pages.text(0)


def test_feet_gardens_have_ounces_feet_and_quarts():
    document = sown(1).with_(site=Site(units="feet_inches"))
    with Paper(pdf(document, D(2026, 4, 1), D(2026, 4, 7))) as pages:
        words = pages.texts()
    assert "20 seeds to the foot" in words
    assert "1,280 seeds, 0.056 oz" in words
    assert " cm" not in words
    assert " g" not in words.replace(" garden", "").replace(" growing", "")


def test_a_week_longer_than_a_page_is_split_with_its_heading_again():
    document = sown(90, 0)  # all on one day
    with Paper(pdf(document, D(2026, 4, 1), D(2026, 4, 5))) as pages:
        texts = [pages.text(k) for k in range(len(pages))]
        assert len(texts) > 1
        assert "30 Mar – 5 Apr 2026 · week 14, continued" in texts[1]
        assert sum(boxes(pages, k) for k in range(len(pages))) == 90


@pytest.mark.parametrize("count", range(23, 31))
def test_a_first_week_as_long_as_a_page_stays_above_the_foot(count):
    plan = Plan(sown(count, every=0), 2026, CATALOGUE)
    first, last = D(2026, 3, 30), D(2026, 4, 5)
    (week,) = weeks(work_between(plan, first, last), first, last)
    sheet = WeekSheets(plan, [week], first, last, PAPERS["a4"], TODAY)
    room = sheet.paper.height - sheet.paper.top - sheet.paper.bottom - sheet.foot.height
    assert all(sum(block.height for block in page) <= room + 1e-6 for page in sheet.pages)
    assert len(sheet.pages[0]) > 3  # head, the week's title and some of its work


def test_only_the_days_asked_for():
    document = sown(12)
    with Paper(pdf(document, D(2026, 5, 4), D(2026, 5, 10))) as pages:
        words = pages.texts()
        assert "4 – 10 May 2026 · week 19" in words
        assert len(set(re.findall(r"week \d+", words))) == 1
        assert "work 4 May 2026 to 10 May 2026" in words
    found = work_between(Plan(document, 2026, CATALOGUE), D(2026, 5, 4), D(2026, 5, 10))
    assert {monday(task.date) for task in found} == {D(2026, 5, 4)}


def test_done_work_is_ticked_and_says_when():
    document = sown(1)
    done = document.with_(records=(ticked("p0", "sow", D(2026, 4, 8)),))
    with Paper(pdf(document)) as before, Paper(pdf(done)) as after:
        assert "8 Apr A Sow carrot" in after.texts()
        assert "done 8 Apr 2026" in after.texts()
        assert len(after.lines(0)) == len(before.lines(0)) + 2


def test_long_names_stay_between_the_margins():
    document = garden(
        bed(name="Wide" * 40),
        planting(variety="Variety " * 20 + "x" * 30, first=D(2026, 4, 5)),
        climate=CLIMATE,
        site=Site(name="Garden" * 30),
    )
    with Paper(pdf(document)) as pages:
        for number in range(len(pages)):
            page = pages.picture(number)
            blank, edge = page.max(), int(9 * 2 * 72 / 25.4)
            assert (page[:, :edge] == blank).all()
            assert (page[:, -edge:] == blank).all()
            assert (page[-edge:] == blank).all()


def test_same_plan_and_day_give_the_same_bytes():
    assert pdf(sown(4)) == pdf(sown(4))
    assert pdf(sown(4)) != pdf(sown(5))


def test_nothing_to_do_is_an_error_and_writes_nothing(tmp_path: Path):
    plan = Plan(garden(bed(), planting()), 2026, CATALOGUE)
    with pytest.raises(
        SheetError, match=r"^Garden: no work falls on 1 Jan 2026 to 31 Dec 2026\. Give the frost"
    ):
        write_week_sheets(plan, tmp_path / "w.pdf")
    assert not list(tmp_path.iterdir())


def test_unknown_paper_and_unwritable_path(tmp_path: Path):
    plan = Plan(sown(1), 2026, CATALOGUE)
    with pytest.raises(UnknownPaperError, match="unknown paper 'a5'"):
        write_week_sheets(plan, tmp_path / "w.pdf", paper="a5")
    with pytest.raises(SheetError, match="cannot be written"):
        write_week_sheets(plan, tmp_path / "no" / "w.pdf")
    write_week_sheets(plan, tmp_path / "w.pdf", today=TODAY)
    assert (tmp_path / "w.pdf").read_bytes() == pdf(sown(1))


def test_progress_can_stop_the_work(tmp_path: Path):
    def stop(done: int, of: int) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        write_week_sheets(Plan(sown(1), 2026, CATALOGUE), tmp_path / "w.pdf", progress=stop)
    assert not list(tmp_path.iterdir())


def test_cautions_stand_complete_in_each_week_of_their_work():
    """Raw kidney beans are picked, rhubarb is not grown: only the one is printed."""
    beans = planting("p0", "b0", crop="climbing_bean", first=D(2026, 5, 20))
    document = garden(bed("b0"), beans, climate=CLIMATE, site=Site(name="Place"))
    stream = io.BytesIO()
    write_week_sheets(Plan(document, 2026), stream, today=TODAY)
    catalogue = load_catalogue()
    caution = cautions(catalogue)["raw_kidney_beans"]
    with Paper(stream.getvalue()) as pages:
        texts = [pages.text(k) for k in range(len(pages))]
    for text in texts:
        assert text.count(caution.text) == ("Pick climbing bean" in text)
    words = " ".join(texts)
    assert "rhubarb" not in words.casefold()
    assert "as said before" not in words
    assert catalogue.sources[caution.source].title in texts[-1]


def shared_film(*more) -> SheetYear:
    """Film on two plots in line: that on the right is laid thirteen days before that on the left."""
    film = [{"kind": "film", "first": D(2026, 5, 12)}], [{"kind": "film", "first": D(2026, 5, 25)}]
    right = planting(
        "p1", "b1", plot=Stretch(start=2, end=4), first=D(2026, 5, 12), last=D(2026, 9, 1), covers=film[0]
    )
    left = planting(
        "p2", "b1", plot=Stretch(start=0, end=2), first=D(2026, 5, 25), last=D(2026, 9, 1), covers=film[1]
    )
    beds = bed("b1", rectangle(4.0, 1.0), name="North bed")
    return SheetYear(Plan(garden(beds, right, left, *more, climate=CLIMATE), 2026, CATALOGUE))


def film_lines(year: SheetYear) -> list[tuple[D, str, str]]:
    work = work_between(year.plan, *YEAR)
    lines = [
        line
        for week in weeks(work, *YEAR)
        for person in WeekWork(year.plan).of_week(week, 2026)
        for one in person.beds
        for line in one.lines
        if line.task.kind == "film down"
    ]
    return [(line.task.date, line.work, line.details) for line in lines]


def test_a_sheet_over_two_plots_is_one_job_on_the_first_day_of_both():
    first, second = film_lines(shared_film())
    assert first[0] == D(2026, 5, 12)
    assert "sheet of" in first[2]
    assert "one sheet together with A" in first[2]
    assert second[0] == D(2026, 5, 25)
    assert second[1] == "Cut holes in the film for carrot"
    assert "already lies there since 12 May" in second[2]
    assert "sheet of" not in second[2]


def test_a_sheet_is_drawn_over_a_plot_only_when_what_stood_there_is_gone():
    before = planting("p3", "b1", plot=Stretch(start=0, end=2), first=D(2026, 4, 1), last=D(2026, 5, 20))
    _, second = film_lines(shared_film(before))
    assert "draw it over this too" in second[2]


def test_a_sheet_that_stays_over_another_plot_is_folded_back():
    beds, covers = bed("b1", rectangle(4.0, 1.0)), [(D(2026, 6, 25), 0), (D(2026, 7, 10), 2)]
    both = [
        planting(
            f"p{at}",
            "b1",
            plot=Stretch(start=at, end=at + 2),
            first=D(2026, 5, 12),
            last=D(2026, 9, 1),
            covers=[{"kind": "fleece", "first": D(2026, 5, 12), "last": until}],
        )
        for until, at in covers
    ]
    plan = Plan(garden(beds, *both, climate=CLIMATE), 2026, CATALOGUE)
    off = {
        line.letter: line.details
        for week in weeks(work_between(plan, *YEAR), *YEAR)
        for person in WeekWork(plan).of_week(week, 2026)
        for one in person.beds
        for line in one.lines
        if line.task.kind == "cover off"
    }
    assert "it stays over B until 10 Jul" in off["A"]
    assert "fold" not in off["B"]


def test_bed_sheets_and_week_sheets_agree_on_the_order_of_a_day():
    day = D(2026, 5, 24)
    covers = [{"kind": "film", "first": day}, {"kind": "fleece", "first": day}]
    one = planting(first=day, last=D(2026, 9, 1), start="raised", covers=covers, support={"kind": "net"})
    beds = bed("b1", rectangle(4.0, 1.0))
    plan = Plan(garden(beds, one, climate=CLIMATE), 2026, CATALOGUE)
    of_week = [
        line.task.kind
        for week in weeks(work_between(plan, day, day), day, day)
        for person in WeekWork(plan).of_week(week, 2026)
        for of_bed in person.beds
        for line in of_bed.lines
    ]
    of_bed_sheet = [
        step.word for step in steps(one, plan.dates(one), False, plan.span) if step.at and step.at.day == day
    ]
    assert of_week == ["film down", "support up", "set out", "cover on"]
    assert of_bed_sheet == ["film down", "support up", "set out", "fleece on"]


def test_what_is_picked_on_its_only_day_is_picked_all_at_once():
    pinned = {"first_harvest": D(2026, 6, 20)}
    beds = bed("b1", rectangle(4.0, 1.0)), bed("b2", rectangle(4.0, 1.0, center=(0.0, 2.0)))
    once = planting("p1", "b1", first=D(2026, 4, 5), last=D(2026, 6, 20), pinned_dates=pinned)
    over = planting("p2", "b2", first=D(2026, 4, 5), last=D(2026, 7, 20), pinned_dates=pinned)
    plan = Plan(garden(*beds, once, over, climate=CLIMATE), 2026, CATALOGUE)
    picked = {
        line.task.planting: line.details
        for week in weeks(work_between(plan, *YEAR), *YEAR)
        for person in WeekWork(plan).of_week(week, 2026)
        for one in person.beds
        for line in one.lines
        if line.task.kind == "pick"
    }
    assert picked["p1"].startswith("all at once")
    assert "all at once" not in picked["p2"]
