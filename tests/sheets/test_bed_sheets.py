"""Bed sheets as another reader finds them on paper."""

from __future__ import annotations

import ctypes
import datetime as dt
import io
import os
import re
import stat
import sys
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2.raw as raw
import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle, ring_bed, ticked
from paper_reading import TODAY, Paper, pdf_of
from shapes_zoo import RINGS

from planner import resources
from planner.crops import Catalogue
from planner.crops.cautions import cautions
from planner.errors import BedwrightError
from planner.garden import Circle, Climate, FrostDates, Garden, Rectangle, Site, Structure
from planner.garden import edits as e
from planner.plan import Plan
from planner.sheets.bed_pages import BedPages
from planner.sheets.bed_sheets import SheetError, write_bed_sheets
from planner.sheets.cautions import OF_THE_PLANTS, bed_cautions
from planner.sheets.kinds import SheetWish, parts_of, write_sheets
from planner.sheets.page_chrome import UnknownPaperError
from planner.storage import load
from planner.words import day_words

CROPS = catalogue_of(
    crop(
        "carrot",
        in_row_spacing=0.075,
        row_spacing=0.3,
        sowing_spacing=0.015,
        sowing_depth=0.012,
        germination=0.7,
        seeds_per_gram=800,
        starts={"value": ("sown",), "source": "practice"},
    ),
    crop(
        "bean",
        in_row_spacing=0.2,
        row_spacing=0.4,
        starts={"value": ("sown",), "source": "practice"},
    ),
)
WIDE = {"kind": "rows", "in_row_spacing": 0.3, "row_spacing": 0.3}


def read(document: Garden, *beds: str, paper: str = "a4") -> Paper:
    return Paper(pdf_of(document, *beds, paper=paper, catalogue=CROPS))


def scale_of(text: str) -> int:
    match = re.search(r"Scale 1 : (\d+)", text)
    assert match, text[:200]
    return int(match[1])


def apart(found: np.ndarray, expected: np.ndarray) -> float:
    """The farthest that a found place lies from the nearest expected one, and the other way round. [mm]"""
    distance = np.hypot(*(found[:, None, :] - expected[None, :, :]).transpose(2, 0, 1))
    return float(max(distance.min(axis=0).max(), distance.min(axis=1).max()))


def on_page(own: np.ndarray, half: tuple[float, float], mm: float, corner: tuple[float, float]) -> np.ndarray:
    """Stations from a bed's own coordinates to the page, from the bed's lower left corner there. [mm]"""
    return np.asarray((own + np.array(half)) * mm + np.array(corner))


# -- the drawing -----------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("units", ["metric", "feet_inches"])
def test_stations_lie_where_the_geometry_has_them(paper: str, units: Any) -> None:
    document = garden(bed(), planting(), site=Site(units=units))
    expected = Plan(document, 2026, CROPS).placed(document.plantings[0]).layout.points
    with read(document, paper=paper) as pages:
        mm = 1000 / scale_of(pages.text(0))
        left, low = pages.outline(0, 4.8 * mm, 1.2 * mm)
        found = pages.marks(0)
        assert len(found) == len(expected) == 64 * 4
        assert apart(found, on_page(expected, (2.4, 0.6), mm, (left, low))) < 0.2


@pytest.mark.parametrize("turn", [0.0, 90.0, 33.0])
def test_rows_turned_in_the_bed_are_drawn_as_they_lie(turn: float) -> None:
    document = garden(bed(), planting(arrangement={**WIDE, "turn": turn}))
    expected = Plan(document, 2026, CROPS).placed(document.plantings[0]).layout.points
    with read(document) as pages:
        mm = 1000 / scale_of(pages.text(0))
        left, low = pages.outline(0, 4.8 * mm, 1.2 * mm)
        assert apart(pages.marks(0), on_page(expected, (2.4, 0.6), mm, (left, low))) < 0.2


def test_bed_upright_on_the_plan_lies_level_on_paper() -> None:
    document = garden(bed(outline=rectangle(1.2, 4.8)), planting(arrangement=WIDE))
    expected = Plan(document, 2026, CROPS).placed(document.plantings[0]).layout.points
    level = np.column_stack([expected[:, 1], -expected[:, 0]])  # a quarter turn clockwise
    with read(document) as pages:
        mm = 1000 / scale_of(pages.text(0))
        left, low = pages.outline(0, 4.8 * mm, 1.2 * mm)
        assert apart(pages.marks(0), on_page(level, (2.4, 0.6), mm, (left, low))) < 0.2


@pytest.mark.parametrize("name", ["L", "U", "star", "hourglass", "askew", "comb"])
def test_concave_beds_keep_all_their_stations(name: str) -> None:
    document = garden(ring_bed(RINGS[name]), planting(arrangement=WIDE))
    plan = Plan(document, 2026, CROPS)
    expected = plan.placed(document.plantings[0]).layout.points
    with read(document) as pages:
        mm = 1000 / scale_of(pages.text(0))
        found = pages.marks(0)
        assert len(found) == len(expected) > 0
        # turned and moved, but with all its distances true
        one = np.sort(np.hypot(*(found - found.mean(axis=0)).T))
        two = np.sort(np.hypot(*(expected - expected.mean(axis=0)).T)) * mm
        assert np.abs(one - two).max() < 0.2


def test_round_bed() -> None:
    document = garden(bed(outline=Circle(radius=1.5)), planting(arrangement=WIDE))
    expected = Plan(document, 2026, CROPS).placed(document.plantings[0]).layout.points
    with read(document) as pages:
        mm = 1000 / scale_of(pages.text(0))
        left, low = pages.outline(0, 3.0 * mm, 3.0 * mm)
        assert apart(pages.marks(0), on_page(expected, (1.5, 1.5), mm, (left, low))) < 0.2
        assert "round, 3.00 m across" in pages.text(0)


def test_concave_plot_in_a_rectangle() -> None:
    ring = [(-2, -0.5), (2, -0.5), (2, 0.5), (0.5, 0.5), (0.5, -0.1), (-0.5, -0.1), (-0.5, 0.5), (-2, 0.5)]
    plot = {"kind": "region", "points": ring}
    row = {"kind": "rows", "in_row_spacing": 0.1, "row_spacing": 0.2}
    document = garden(bed(), planting(plot=plot, arrangement=row))
    expected = Plan(document, 2026, CROPS).placed(document.plantings[0]).layout.points
    with read(document) as pages:
        mm = 1000 / scale_of(pages.text(0))
        left, low = pages.outline(0, 4.8 * mm, 1.2 * mm)
        assert apart(pages.marks(0), on_page(expected, (2.4, 0.6), mm, (left, low))) < 0.2
        assert "(piece 1 of 2)" in pages.texts()
        assert "(piece 2 of 2)" in pages.texts()


@pytest.mark.parametrize("units", ["metric", "feet_inches"])
@pytest.mark.parametrize("length", [8.0, 15.6, 40.0, 120.0])
def test_long_bed_is_split_without_losing_a_station(length: float, units: Any) -> None:
    document = garden(bed(outline=rectangle(length, 1.2)), planting(arrangement=WIDE), site=Site(units=units))
    expected = Plan(document, 2026, CROPS).placed(document.plantings[0]).layout.points[:, 0] + length / 2
    with read(document) as pages:
        scale = scale_of(pages.text(0))
        # A bed that is not split is drawn small only as far as its rows can be told apart.
        parts = re.findall(r"Part (\d+) of (\d+):", pages.texts())
        assert scale <= (50 if parts else 100)
        assert [int(k) for k, _ in parts] == list(range(1, int(parts[0][1]) + 1) if parts else [])
        found = np.concatenate([pages.marks(k) for k in range(len(pages))])
        assert len(found) >= len(expected)  # those in the overlap are drawn twice
        marks = _along_the_bed(pages, scale)
        nearest = np.abs(marks[:, None] - np.unique(expected.round(6))[None, :])
        assert nearest.min(axis=0).max() * 1000 / scale < 0.2  # each place along the bed is drawn
        assert nearest.min(axis=1).max() * 1000 / scale < 0.2  # and nothing else is


def _along_the_bed(pages: Paper, scale: int) -> np.ndarray:
    """Places of all marks along the bed, from where each part says that it begins. [m]"""
    found = []
    for number in range(len(pages)):
        marks = pages.marks(number)
        starts = [_metres(t) for t in re.findall(r"Part \d+ of \d+: (.+?) to ", pages.text(number))]
        if not len(marks):
            continue
        starts = starts or [0.0]
        heights = np.unique(marks[:, 1].round(2))[::-1]
        gaps = np.flatnonzero(-np.diff(heights) > 20.0)
        bands = np.split(heights, gaps + 1)
        assert len(bands) == len(starts)
        for band, start in zip(bands, starts, strict=True):
            inside = (marks[:, 1] <= band[0] + 0.1) & (marks[:, 1] >= band[-1] - 0.1)
            found.append((marks[inside, 0] - 24.0) * scale / 1000 + start)
    return np.concatenate(found)


def _metres(text: str) -> float:
    from planner.garden.units import parse_length

    return parse_length(text)


def test_line_to_check_the_printer_is_100_mm_long() -> None:
    with read(garden(bed(), planting(), bed("b2"))) as pages:
        for number in range(len(pages)):
            lines = pages.lines(number)
            lengths = np.hypot(lines[:, 2] - lines[:, 0], lines[:, 3] - lines[:, 1])
            assert np.abs(lengths - 100.0).min() < 0.01
        assert "print at 100 %" in pages.text(0)


def test_north_arrow_follows_the_site_and_the_bed() -> None:
    site = Site(bearing_up=90.0)  # plan-up is east, so north lies to the left
    with read(garden(bed(), planting(), site=site)) as pages:
        assert "The north end of the bed is at the left of the drawing, its west side below." in pages.text(0)
        assert "Rows from the west side, cm On the tape from the north end, cm" in pages.text(0)


def test_crops_that_follow_each_other_come_into_two_drawings() -> None:
    document = garden(
        bed(),
        planting("p1", arrangement=WIDE, last=dt.date(2026, 6, 30)),
        planting("p2", crop="bean", arrangement=WIDE, first=dt.date(2026, 7, 1)),
    )
    with read(document) as pages:
        assert "Until 30 Jun" in pages.text(0)
        assert "From 1 Jul on" in pages.text(0)
        assert len(pages.marks(0)) == 2 * 64


def test_what_stands_beside_is_outlined_in_the_other_drawing() -> None:
    left, right = ({"kind": "stretch", "start": s, "end": s + 2.4} for s in (0.0, 2.4))
    document = garden(
        bed(),
        planting("p1", plot=left, last=dt.date(2026, 9, 20)),
        planting("p2", plot=right, last=dt.date(2026, 6, 1)),
        planting("p3", plot=right, first=dt.date(2026, 6, 5)),
    )
    with read(document) as pages:
        text = pages.text(0)
        assert "A · until 20 Sep" in text
        assert "Grey outline: A too, drawn in another drawing" in text


def test_interplanted_crops_share_a_drawing() -> None:
    document = garden(
        bed(), planting("p1", arrangement=WIDE), planting("p2", crop="bean", shares_ground=True)
    )
    plan = Plan(document, 2026, CROPS)
    with read(document) as pages:
        assert pages.texts().count("The whole year") == 1
        assert len(pages.marks(0)) == sum(plan.placed(p).plants for p in plan.plantings)


# -- the words -------------------------------------------------------------------------------------


def test_words_of_a_drilled_row() -> None:
    document = garden(
        bed(notes="Stony here."),
        planting(
            variety="Rondo",
            notes="Water the drill.",
            first=dt.date(2026, 4, 12),
            last=dt.date(2026, 8, 20),
            covers=[{"kind": "netting", "last": "2026-07-20"}],
            support={"kind": "net", "height": 1.5, "spacing": 2.0},
        ),
        site=Site(name="Hollow Lane"),
    )
    lesson = {"kind": "lesson", "day": dt.date(2025, 9, 1), "crop": "carrot", "words": "Sow thinner."}
    document = e.add_records(document, [lesson])[0]
    with read(document) as pages:
        words = pages.texts()
    for part in (
        "Remember: Sow thinner. (2025)",
        "Hollow Lane",
        "growing year 2026",
        "A Carrot ‘Rondo’",
        "256 plants in 4 rows",
        "Sow in a drill, 67 seeds to the metre; thin to one every 7½ cm (our estimate: depth and seeds in the drill)",
        "1,280 seeds, 1.6 g",
        "12 Apr to 20 Aug",
        "20 Jul*",
        "* set by hand",
        "net, 150 cm high, posts 200 cm apart, 4 nets of 480 × 150 cm, ",
        "15, 45, 75, 105 4 2 in 15 476 64 1 cm",
        "“2 in 15” means two plants, evenly, to every 15.",
        "netting on hoops 40 cm high, sheet of 590 × 189 cm, 5 hoops of 189 cm (one every 120 cm) and ",
        "Stony here.",
        "Water the drill.",
        "thin",
        "netting on",
        "netting off",
        "put up net",
        "printed 1 Mar 2026",
    ):
        assert part in words, part
    assert re.search(r"page 1 of \d", words)


def test_words_in_feet_and_inches() -> None:
    document = garden(
        bed(outline=Rectangle(length=8 * 0.3048, width=4 * 0.3048)),
        planting(arrangement={"kind": "rows", "in_row_spacing": 0.0762, "row_spacing": 0.3048}),
        site=Site(units="feet_inches"),
    )
    with read(document, paper="letter") as pages:
        words = pages.texts()
    assert "8 ft × 4 ft" in words
    assert "6″, 1′ 6″, 2′ 6″, 3′ 6″ 1½″ 3″ 7′ 10½″ 32" in words
    assert "20 seeds to the foot; thin to one every 3″" in words
    assert re.search(r"Scale 1 : 16 \(3/4 in = 1 ft\)", words)
    assert " cm" not in words


def test_there_is_no_page_without_a_planting() -> None:
    with read(
        garden(bed(name="North"), bed("b2", rectangle(center=(0, 5)), name="Fallow"), planting())
    ) as pages:
        assert "North" in pages.text(0)
        assert "Fallow" not in pages.texts()
    with pytest.raises(
        SheetError, match=r"^Garden: nothing is planted in Fallow in 2026\. Years with plantings: 2026\.$"
    ):
        read(garden(bed(), bed("b2", rectangle(center=(0, 5)), name="Fallow"), planting()), "b2")


@pytest.mark.parametrize("kind", ["arch", "frame"])
def test_posts_ask_for_buried_services(kind: str) -> None:
    with Paper(pdf_of(garden(bed(), planting(crop="runner_bean", support={"kind": kind})))) as pages:
        assert "buried" in pages.texts()
        assert re.search(r"Sources .*• Common Ground Alliance[^•]+\(cautions\)", pages.texts())


def test_arch_at_a_bed_asks_for_buried_services_and_one_far_off_does_not() -> None:
    def arch(x: float) -> Structure:
        return Structure(id="a", kind="arch", outline=rectangle(1.4, 0.8, center=(x, 0)), height=2.2)

    bean = planting(crop="bean")
    with read(garden(bed(), bean, structures=(arch(3.0),))) as pages:
        assert "buried" in pages.texts()
    with read(garden(bed(kind="raised", height=0.3), bean, structures=(arch(9.0),))) as pages:
        assert "Take care" not in pages.texts()


def test_names_in_many_scripts_are_on_the_page() -> None:
    names = ("ערוגה", "菜园", "🥕", "Grüße žluťoučký", "حديقة")
    for name in names:
        with read(garden(bed(name=name), planting(notes=name))) as pages:
            assert pages.fonts_embedded()
            words = pages.texts()
            assert "\ufffd" not in words
            if name in ("菜园", "Grüße žluťoučký"):
                assert name in words
            if name == "ערוגה":
                assert name in words or name[::-1] in words
            shown = pages.picture(0)
        with read(garden(bed(name="x"), planting(notes="x"))) as plain:
            assert (shown != plain.picture(0)).sum() > 200, name


def test_longest_names_and_notes_stay_between_the_margins() -> None:
    long = "Wide" * 50
    document = garden(
        bed(name=long, notes="word " * 4000),
        planting(variety=long, tended_by=long, notes="x" * 9000),
        site=Site(name=long),
    )
    with read(document) as pages:
        assert len(pages) > 3
        words = pages.texts().replace(" ", "")
        assert words.count("word") == 4000
        assert "x" * 300 in words
        for number in range(len(pages)):
            page = pages.picture(number)
            blank = page.max()
            edge = int(9 * 2 * 72 / 25.4)
            assert (page[:, :edge] == blank).all()
            assert (page[:, -edge:] == blank).all()
            assert (page[:edge] == blank).all()
            assert (page[-edge:] == blank).all()


# -- dates, notes, cautions ------------------------------------------------------------------------

CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
DATED = catalogue_of(
    crop(
        "cabbage",
        in_row_spacing=0.4,
        row_spacing=0.4,
        starts={"value": ("raised",), "source": "practice"},
        weeks_to_raise=6,
        set_out_from=-1,
        days_to_maturity=80,
        harvest_days=10,
        maturity_from="setting out",
        germination=0.8,
        seeds_per_gram=300,
    )
)


def dated(*plantings: Any, records: Any = (), **more: Any) -> str:
    document = garden(bed(), *plantings, climate=CLIMATE, records=records, **more)
    with Paper(pdf_of(document, catalogue=DATED)) as pages:
        return pages.texts()


def harvest_words(one: Any, **more: Any) -> tuple[str, str]:
    """First and last day of the harvest of a planting, by the plan."""
    dates = Plan(garden(bed(), one, climate=CLIMATE, **more), 2026, DATED).dates(one)
    assert dates.first_harvest is not None
    assert dates.last_harvest is not None
    return day_words(dates.first_harvest.day), day_words(dates.last_harvest.day)


def test_each_box_has_its_day() -> None:
    one = planting(crop="cabbage", covers=[{"kind": "netting"}])
    words, (first, last) = dated(one), harvest_words(one)
    # counted by hand from the last frost on 1 May: set out a week before, sown six weeks before that
    for part in (
        "sow 13 Mar prick out 2 Apr harden off 16 Apr set out 24 Apr netting on 24 Apr "
        f"pick from {first} pick until {last} netting off {last} clear {last}",
        f"24 Apr to {last}",
        "The day at a box is the one planned for frost at 50 % risk.",
    ):
        assert part in words, part
    assert "set by hand" not in words


def test_a_step_without_a_day_says_so() -> None:
    with Paper(pdf_of(garden(bed(), planting(crop="cabbage", start="bought")))) as pages:
        words = " ".join(pages.texts().split())
    assert "get plants (day not known)" in words
    assert "harden off (day not known)" in words
    with_day = " ".join(dated(planting(crop="cabbage", start="bought", first="2026-05-04")).split())
    assert "get plants by 4 May" in with_day


@pytest.mark.parametrize(("sown", "thinned"), [(0.1, False), (0.02, True)])
def test_only_what_is_sown_closer_than_it_stands_is_thinned(sown: float, thinned: bool) -> None:
    figures = {"in_row_spacing": 0.1, "row_spacing": 0.3, "sowing_spacing": sown}
    with Paper(pdf_of(garden(bed(), planting()), catalogue=catalogue_of(crop(**figures)))) as pages:
        assert ("thin (day not known)" in " ".join(pages.texts().split())) is thinned


def test_days_given_by_hand_are_marked_and_days_of_other_years_have_theirs() -> None:
    words = dated(planting(crop="cabbage", pinned_dates={"set_out": "2026-08-03"}, last="2027-02-10"))
    assert "3 Aug*" in words
    assert "10 Feb ’27*" in words
    assert "22 Jun" in words  # sown six weeks before
    assert "* set by hand." in words


def test_what_is_done_is_ticked() -> None:
    one = planting(crop="cabbage")
    done = ticked("p1", "set out", dt.date(2026, 4, 28))
    document = garden(bed(), one, climate=CLIMATE)
    with (
        Paper(pdf_of(document, catalogue=DATED)) as before,
        Paper(pdf_of(document.with_(records=(done,)), catalogue=DATED)) as after,
    ):
        assert "28 Apr" in after.text(0)
        planned, real = harvest_words(one)[0], harvest_words(one, records=(done,))[0]
        assert planned != real
        assert real in after.text(0)  # the harvest follows the real day
        assert f"pick from {planned}" not in after.text(0)
        assert len(after.lines(0)) == len(before.lines(0)) + 2  # two strokes of the tick


def test_doubts_and_what_is_not_known_are_said() -> None:
    with Paper(pdf_of(garden(bed(), planting(crop="cabbage")), catalogue=DATED)) as pages:
        assert (
            "Warning The last spring frost is not given: when cabbage starts is not known." in pages.texts()
        )
    late = dated(planting(crop="cabbage", last="2026-06-01"))
    first, _ = harvest_words(planting(crop="cabbage"))
    assert f"Cabbage is cleared on 1 Jun, before its first harvest ({first})." in late


def note_lines(pages: Paper, number: int) -> int:
    """Lines to write on: as wide as the page's room and 7.5 mm apart."""
    lines = pages.lines(number)
    width = np.hypot(lines[:, 2] - lines[:, 0], lines[:, 3] - lines[:, 1]) > 181
    heights = np.sort(lines[width, 1])
    spaces = int(np.count_nonzero(np.abs(np.diff(heights) - 7.5) < 0.05))
    return spaces + 1 if spaces else 0


@pytest.mark.parametrize("count", range(1, 12))
def test_every_sheet_ends_with_a_record_on_its_last_page_or_on_one_of_its_own(count: int) -> None:
    plantings = [
        planting(f"p{k}", arrangement=WIDE, plot={"kind": "stretch", "start": 0.4 * k, "end": 0.4 * k + 0.4})
        for k in range(count)
    ]
    with read(garden(bed(), *plantings)) as pages:
        for number in range(len(pages)):
            words = pages.text(number)
            drawn = note_lines(pages, number)
            last = number == len(pages) - 1
            alone = not any(part in words for part in ("Rows from the south side", "Scale", "Sources"))
            assert last or not alone
            assert drawn == 0 or last
            assert (drawn >= 25) if alone else (drawn >= 3 or not last)
            assert ("Harvest record" in words) == (drawn > 0)
        assert pages.texts().count("Harvest record") == 1


def test_long_notes_of_the_bed_run_on_and_are_all_there() -> None:
    with read(garden(bed(notes="stony " * 900), planting(arrangement=WIDE))) as pages:
        assert len(pages) > 1
        assert pages.texts().count("stony") == 900


def test_every_caution_of_a_mixed_bed_is_said_once_and_complete(catalogue: Catalogue) -> None:
    crops = (
        "runner_bean",
        "potato",
        "garlic",
        "parsnip",
        "radish",
        "lettuce",
        "winter_squash",
        "chilli_pepper",
    )
    plantings = [
        planting(
            f"p{k}",
            crop=key,
            plot={"kind": "stretch", "start": 0.6 * k, "end": 0.6 * k + 0.6},
            support={"kind": "arch"} if key == "runner_bean" else None,
        )
        for k, key in enumerate(crops)
    ]
    document = garden(bed(), *plantings)
    of_bed = bed_cautions(Plan(document, 2026, catalogue), document.beds[0])
    assert len(of_bed) > 8
    with Paper(pdf_of(document, catalogue=catalogue)) as pages:
        words = pages.texts()
    printed = [caution for caution in of_bed if words.count(caution.text) == 1]
    assert printed == list(of_bed)
    order = sorted(of_bed, key=lambda caution: words.index(caution.text))
    assert order[0].key == "buried_services"
    for_plants = [caution.key in OF_THE_PLANTS for caution in order]
    assert for_plants == sorted(for_plants)  # those come last
    assert "program" not in words
    assert not any(caution.key in words for caution in of_bed)
    assert set(OF_THE_PLANTS) <= set(cautions(catalogue))


def test_every_page_is_numbered() -> None:
    document = garden(bed(notes="word\n" * 200), planting(), bed("b2"), planting("p2", "b2"))
    with read(document, "b1") as pages:
        long = len(pages)
    with read(document) as pages:
        numbers = [(int(k), int(of)) for k, of in re.findall(r"page (\d+) of (\d+)", pages.texts())]
        assert numbers == [*((k, long) for k in range(1, long + 1)), (1, 1)]


# -- the file --------------------------------------------------------------------------------------


def test_same_garden_gives_the_same_bytes() -> None:
    document = garden(bed(name="菜园"), planting(), bed("b2"))
    first = pdf_of(document, catalogue=CROPS)
    assert pdf_of(document.with_(beds=(bed(name="z"), bed("b2"))), catalogue=CROPS) != first
    assert pdf_of(document, catalogue=CROPS) == first


def test_beds_by_id_and_by_name_in_the_order_asked() -> None:
    document = garden(bed("b1", name="North"), bed("b2", name="South"), planting(), planting("p2", "b2"))
    with read(document, "south", "b1") as pages:
        assert pages.text(0).startswith("South")
        assert pages.text(1).startswith("North")


def test_unknown_bed_is_named(tmp_path: Path) -> None:
    plan = Plan(garden(bed(name="North")), 2026, CROPS)
    with pytest.raises(SheetError, match=r"^Garden: no bed 'Nroth'\. Its beds are 'North'\.$"):
        write_bed_sheets(plan, tmp_path / "a.pdf", ["Nroth"])
    assert not list(tmp_path.iterdir())


def test_garden_without_beds_says_so(tmp_path: Path) -> None:
    with pytest.raises(SheetError, match="no bed is in use in 2026"):
        write_bed_sheets(Plan(garden(), 2026, CROPS), tmp_path / "a.pdf")


def test_unknown_paper_is_named(tmp_path: Path) -> None:
    with pytest.raises(UnknownPaperError, match=r"^unknown paper 'a5'\. Choose one of a3, a4 and letter\.$"):
        write_bed_sheets(Plan(garden(bed(), planting()), 2026, CROPS), tmp_path / "a.pdf", paper="a5")


@pytest.mark.parametrize("place", ["missing/a.pdf", "folder"])
def test_unwritable_path_is_one_line_and_leaves_nothing_behind(tmp_path: Path, place: str) -> None:
    (tmp_path / "folder").mkdir()
    with pytest.raises(BedwrightError) as caught:
        write_bed_sheets(Plan(garden(bed(), planting()), 2026, CROPS), tmp_path / place)
    assert "\n" not in str(caught.value)
    assert "cannot be written" in str(caught.value) or "is a folder" in str(caught.value)
    assert [path.name for path in tmp_path.iterdir()] == ["folder"]


def test_failed_write_keeps_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.pdf"
    path.write_bytes(b"%PDF-1.4 old")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(SheetError, match="no space left on device"):
        write_bed_sheets(Plan(garden(bed(), planting()), 2026, CROPS), path, today=TODAY)
    assert path.read_bytes() == b"%PDF-1.4 old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["a.pdf"]


def test_written_file_is_readable_by_others_as_usual(tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    write_bed_sheets(Plan(garden(bed(), planting()), 2026, CROPS), path, today=TODAY)
    plain = tmp_path / "plain"
    plain.touch()
    assert stat.S_IMODE(path.stat().st_mode) == stat.S_IMODE(plain.stat().st_mode)
    assert path.read_bytes().startswith(b"%PDF-")


def test_progress_can_stop_the_work(tmp_path: Path) -> None:
    seen: list[tuple[int, int]] = []

    def stop(done: int, of: int) -> None:
        seen.append((done, of))
        raise KeyboardInterrupt

    plan = Plan(garden(bed(), bed("b2"), planting(), planting("p2", "b2")), 2026, CROPS)
    with pytest.raises(KeyboardInterrupt):
        write_bed_sheets(plan, tmp_path / "a.pdf", progress=stop)
    assert seen == [(1, 2)]
    assert not list(tmp_path.iterdir())


def test_what_was_left_standing_is_named_with_its_reason():
    import io

    import pypdfium2

    from planner import resources, storage
    from planner.checks import check_all
    from planner.plan import Plan
    from planner.sheets.bed_sheets import write_bed_sheets

    plan = Plan(storage.load(resources.sample_folder() / "hollow_lane.bedwright"), 2026)
    findings = check_all(plan)
    waived = next(f for f in findings if f.waived)
    calm = next(b for b in plan.beds if plan.in_bed(b) and not any(b.id in f.beds for f in findings))

    def words(bed: str) -> str:
        buffer = io.BytesIO()
        write_bed_sheets(plan, buffer, beds=[bed])
        pages = pypdfium2.PdfDocument(buffer.getvalue())
        return " ".join(" ".join(page.get_textpage().get_text_bounded().split()) for page in pages)

    printed = words(waived.beds[0])
    assert "Findings" in printed
    assert waived.waived.split(";")[0] in printed
    assert "Findings" not in words(calm.id)


@pytest.mark.parametrize(
    ("name", "words"),
    [("Bean arch", "the arch “Bean arch” beside it, 230 cm high"), ("", "the arch beside it, 230 cm high")],
)
def test_beans_at_an_arch_have_it_as_their_support(name: str, words: str) -> None:
    outline = rectangle(0.8, 4.4, center=(0.0, 0.9), turn=90.0)
    arch = Structure(id="s1", kind="arch", name=name, outline=outline, height=2.3)
    strip = {"kind": "region", "points": [(-2.4, 0.4), (2.4, 0.4), (2.4, 0.6), (-2.4, 0.6)]}
    beans = planting(crop="runner_bean", plot=strip, first="2026-06-01")
    with Paper(pdf_of(garden(bed(), beans, structures=(arch,)))) as pages:
        assert words in " ".join(pages.texts().split())
        assert "none planned" not in pages.texts()


def test_the_lines_of_a_support_are_printed() -> None:
    canes = planting(crop="raspberry", support={"kind": "wire", "lines": 3, "line_spacing": 0.35})
    with Paper(pdf_of(garden(bed(), canes))) as pages:
        assert "wire, 180 cm high, 3 lines 35 cm apart" in " ".join(pages.texts().split())


@pytest.mark.parametrize(("kind", "named"), [("board", True), ("path", True), ("wall", False)])
def test_what_one_stands_on_in_a_bed_is_drawn_and_named(kind: str, named: bool) -> None:
    lies = Structure(id="s1", kind=kind, height=0.04, outline=rectangle(4.8, 0.25))
    document = garden(bed(outline=rectangle(4.8, 1.5)), planting(arrangement=WIDE), structures=(lies,))
    with read(document) as pages:
        assert (kind in pages.text(0).split()) == named
        assert len(pages.marks(0)) == Plan(document, 2026, CROPS).placed(document.plantings[0]).plants


def test_a_sheet_that_fails_is_a_page_that_says_so_and_the_others_are_printed(monkeypatch) -> None:
    reported: list[BaseException] = []
    monkeypatch.setattr(sys, "excepthook", lambda _kind, fault, _trace: reported.append(fault))
    laid_out = BedPages.pages.func

    def fails(self):
        if self.bed.name == "South":
            raise ZeroDivisionError("float division by zero")
        return laid_out(self)

    prop = cached_property(fails)
    prop.__set_name__(BedPages, "pages")
    monkeypatch.setattr(BedPages, "pages", prop)
    beds = [
        bed(f"b{n}", rectangle(center=(0, 3 * n)), name=name)
        for n, name in enumerate(("North", "South", "West"))
    ]
    plantings = [planting(f"p{n}", f"b{n}") for n in range(3)]
    with read(garden(*beds, *plantings)) as pages:
        assert len(pages) == 3
        assert "The sheet of South could not be made (ZeroDivisionError)" in " ".join(pages.text(1).split())
        assert "West" in pages.text(2)
    assert isinstance(reported[0], ZeroDivisionError)


@pytest.mark.parametrize(("width", "named"), [(3.0, True), (0.5, False)])
def test_a_bed_in_a_tunnel_says_what_it_is_made_of(width: float, named: bool) -> None:
    tunnel = Structure(id="s1", kind="tunnel", name="Long tunnel", outline=rectangle(6, width), height=2.2)
    with read(garden(bed(), planting(), structures=(tunnel,))) as pages:
        words = " ".join(pages.text(0).split())
    assert ("in the Long tunnel (clear film, one layer, " in words) == named
    assert ("% of the sun)" in words) == named


# -- parts, sizes and inks ----------------------------------------------------------------------------


def test_sheets_made_bed_by_bed_are_those_made_at_once(catalogue: Catalogue) -> None:
    beds = [bed(f"b{k}", rectangle(center=(0, 4 * k)), name=f"Range {k}") for k in range(3)]
    plantings = [planting(f"p{k}", f"b{k}", crop=name) for k, name in ((0, "rhubarb"), (2, "potato"))]
    plan = Plan(garden(*beds, *plantings), 2026, catalogue)

    def texts(wish: SheetWish) -> list[str]:
        stream = io.BytesIO()
        write_sheets(plan, stream, wish, TODAY)
        with Paper(stream.getvalue()) as pages:
            return [pages.text(k) for k in range(len(pages))]

    parts = list(parts_of(plan, SheetWish()))
    assert [part.beds for part in parts] == [("b0",), ("b2",), None]
    assert [text for part in parts for text in texts(part)] == texts(SheetWish())
    assert "Sources" in texts(SheetWish())[-1]


def sizes(pages: Paper) -> set[float]:
    """Sizes of all texts. [points]"""
    found = set()
    for page in pages.document:
        for thing in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT], max_depth=2):
            size = ctypes.c_float()
            raw.FPDFTextObj_GetFontSize(thing.raw, size)
            found.add(round(size.value, 2))
    return found


@pytest.mark.parametrize("name", ["hollow_lane", "red_mesa", "wattle_bank", "balcony_boxes"])
def test_no_text_is_smaller_than_8_points_and_every_plot_is_named(name: str) -> None:
    plan = Plan(load(resources.sample_folder() / f"{name}.bedwright"), 2026)
    stream = io.BytesIO()
    write_bed_sheets(plan, stream, today=TODAY)
    with Paper(stream.getvalue()) as pages:
        assert min(sizes(pages)) >= 8.0
        words = pages.texts()
    for one in plan.plantings:
        crop_of = plan.figures_of(one).crop
        assert crop_of is not None
        assert crop_of.name[1:] in words
    assert "program" not in words


def coloured(pages: Paper) -> int:
    """Points of the first page that are neither black, grey nor white."""
    picture = np.asarray(pages.document[0].render(scale=1).to_numpy()).astype(int)
    return int(np.count_nonzero(picture.max(axis=2) - picture.min(axis=2) > 12))


def test_plots_are_tinted_by_choice_alone() -> None:
    document = garden(bed(), planting(crop="carrot"))
    plain, tinted = io.BytesIO(), io.BytesIO()
    write_bed_sheets(Plan(document, 2026), plain, today=TODAY)
    write_bed_sheets(Plan(document, 2026), tinted, today=TODAY, tint=True)
    with Paper(plain.getvalue()) as one, Paper(tinted.getvalue()) as other:
        assert coloured(one) == 0
        assert coloured(other) > 5000
        assert one.text(0) == other.text(0)


def test_a_cover_is_drawn_around_its_ground_with_its_hoops() -> None:
    netting = [{"kind": "netting", "height": 0.6}]
    document = garden(bed(), planting(covers=netting, first=dt.date(2026, 4, 12)))
    with read(document) as pages:
        mm = 1000 / scale_of(pages.text(0))
        left, low = pages.outline(0, 4.8 * mm, 1.2 * mm)
        around = pages.paths(0) - [left, low, left + 4.8 * mm, low + 1.2 * mm]
        # a line of 0.4 mm, 0.7 mm outside
        assert (np.abs(around - [-1.1, -1.1, 1.1, 1.1]) < 0.15).all(axis=1).sum() == 1
        upright = pages.lines(0)
        tall = (np.abs(upright[:, 0] - upright[:, 2]) < 0.01) & (upright[:, 3] - upright[:, 1] > 1.2 * mm + 1)
        hoops = np.sort(upright[tall, 0])
        assert np.allclose(hoops - left, np.linspace(0, 4.8 * mm, 5), atol=0.1)
        assert "5 hoops of " in pages.text(0)
        assert "Dashed line with hoops: netting over A" in pages.text(0)


def test_a_support_is_drawn_along_its_line() -> None:
    document = garden(bed(), planting(support={"kind": "net", "lines": 1}))
    with read(document) as pages:
        mm = 1000 / scale_of(pages.text(0))
        left, low = pages.outline(0, 4.8 * mm, 1.2 * mm)
        lines = pages.lines(0) - [left, low, left, low]
        along = np.abs(lines - [0, 0.6 * mm, 4.8 * mm, 0.6 * mm]).max(axis=1) < 5.0
        assert along.any()
        assert "Thick line: net of A" in pages.text(0)
