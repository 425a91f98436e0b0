"""The drawn plan: its places on paper, its shadows, its names, and that SVG, PNG and PDF show the same."""

from __future__ import annotations

import datetime as dt
import io
import itertools
import json
import math
from contextlib import nullcontext
from xml.etree import ElementTree

import numpy as np
import pvlib
import pytest
import resvg_py
import shapely
from making import bed, garden, planting, rectangle
from paper_reading import Paper
from PIL import Image
from sample_reading import FOLDER, YEAR

from planner import resources, storage
from planner.garden import Circle, Garden, Site, Structure
from planner.listings.nothing_to_draw import NothingToDrawError
from planner.plan import Plan
from planner.plan.fullest_day import fullest_day
from planner.sheets import fonts
from planner.sheets.plan_files import MOST_WIDTH, PictureSizeError, plan_pdf, plan_png, plan_svg
from planner.sheets.plan_page import PlanPage, plan_page
from planner.sheets.plan_picture import plan_picture
from planner.sheets.plan_strip import four_days, strip_page

SAMPLES = sorted(path.stem for path in FOLDER.glob("*.bedwright"))
SVG = "{http://www.w3.org/2000/svg}"


def page_of(name: str, *, day: dt.date | None = None, hour: int | None = None) -> PlanPage:
    plan = Plan(storage.load(FOLDER / f"{name}.bedwright"), YEAR)
    day = day or fullest_day(plan)
    return plan_page(plan, day, None if hour is None else dt.datetime.combine(day, dt.time(hour)))


def box_of(outline: dict[str, object]) -> tuple[float, float, float, float]:
    """Bounds of an outline on the plan, from the file's own numbers: plain trigonometry. [m]"""
    cx, cy = outline.get("center", (0.0, 0.0))
    if outline["shape"] == "circle":
        r = outline["radius"]
        return cx - r, cy - r, cx + r, cy + r
    if outline["shape"] == "rectangle":
        x, y = outline["length"] / 2, outline["width"] / 2
        points = [(x, y), (-x, y), (-x, -y), (x, -y)]
    else:
        points = outline["points"]
    angle = math.radians(outline.get("turn", 0.0))
    xs = [cx + x * math.cos(angle) - y * math.sin(angle) for x, y in points]
    ys = [cy + x * math.sin(angle) + y * math.cos(angle) for x, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def grey(png: bytes) -> np.ndarray:
    """Grey values of a picture."""
    return np.asarray(Image.open(io.BytesIO(png)).convert("L"), dtype=float)


def by_resvg(svg: str, width: int) -> bytes:
    """An SVG painted by another program, with the fonts of the sheets."""
    fonts = str(resources.resource("fonts"))
    painted = resvg_py.svg_to_bytes(
        svg_string=svg, width=width, dpi=96, skip_system_fonts=True, font_dirs=[fonts], background="#ffffff"
    )
    return bytes(painted)


@pytest.mark.parametrize("name", SAMPLES)
def test_beds_lie_on_paper_where_they_lie_on_the_ground(name):
    page = page_of(name)
    document = json.loads((FOLDER / f"{name}.bedwright").read_text("utf-8"))
    boxes = [box_of(one["outline"]) for one in document["beds"] if one.get("first_year", YEAR) <= YEAR]
    with Paper(plan_pdf(page)) as paper:
        found = paper.paths(0)  # those that are filled have no line
    per_metre = 1000.0 / page.drawing.scale
    wanted = np.array(boxes) * per_metre
    anchors = [
        path for path in found if np.abs((path[2:] - path[:2]) - (wanted[0, 2:] - wanted[0, :2])).max() < 0.1
    ]
    errors = []
    for anchor in anchors:  # beds of one size: the right one brings all others to their places
        moved = wanted + np.tile(anchor[:2] - wanted[0, :2], 2)
        errors.append(max(np.abs(found - box).max(axis=1).min() for box in moved))
    assert min(errors) < 0.2, "0.2 mm on paper"


@pytest.mark.parametrize("name", SAMPLES)
def test_the_svg_painted_by_another_program_is_the_png(name):
    page = page_of(name, hour=15)
    ours = grey(plan_png(page, 1600))
    theirs = grey(by_resvg(plan_svg(page), 1600))
    high = min(ours.shape[0], theirs.shape[0])
    assert abs(ours.shape[0] - theirs.shape[0]) <= 1
    apart = np.abs(ours[:high] - theirs[:high])
    # Every thin line and word adds a little: on a page without covers, supports and their explanation it is 2.7.
    assert apart.mean() < 3.5, "of 255"
    assert (apart > 96).mean() < 0.004, "thin lines fall on other pixels, areas and words do not"
    other = grey(plan_png(page_of(name, hour=9), 1600))
    assert np.abs(ours - other).mean() > 1.5 * apart.mean(), "other shadows would be seen"


def test_the_paper_is_upright_or_across_and_drawn_as_large_as_it_fits():
    tall = plan_page(Plan(garden(bed(outline=rectangle(2.0, 12.0))), 2026), dt.date(2026, 6, 1))
    wide = plan_page(Plan(garden(bed(outline=rectangle(12.0, 2.0))), 2026), dt.date(2026, 6, 1))
    assert (tall.width, tall.height) == (210.0, 297.0)
    assert (wide.width, wide.height) == (297.0, 210.0)
    assert tall.drawing.scale == wide.drawing.scale == 50


@pytest.mark.parametrize("bearing", [0.0, 40.0])
def test_a_shadow_falls_where_the_sun_has_it_fall(bearing):
    """The end of a post's shadow by pvlib's sun and plain trigonometry, looked up in the picture."""
    post = Structure(id="s1", kind="other", outline=Circle(radius=0.4), height=3.0, opacity=(1.0,))
    plain = bed("b1", rectangle(30.0, 30.0))
    site = Site(latitude=51.5, longitude=-1.0, time_zone="Europe/London", bearing_up=bearing)
    plan = Plan(garden(plain, site=site, structures=(post,)), 2026)
    moment = dt.datetime(2026, 6, 21, 16, 0)
    page = plan_page(plan, moment.date(), moment)
    shaded = grey(plan_png(page, 2000))
    sun = pvlib.solarposition.get_solarposition("2026-06-21 15:00:00+00:00", 51.5, -1.0)
    length = 3.0 / math.tan(math.radians(float(sun["apparent_elevation"].iloc[0])))
    away = math.radians(float(sun["azimuth"].iloc[0]) + 180.0 - bearing)

    def shade(distance: float, picture: np.ndarray = shaded) -> float:
        ((x, y),) = page.drawing.page_points(
            np.array([[distance * math.sin(away), distance * math.cos(away)]])
        )
        per_mm = picture.shape[1] / page.width
        return float(picture[round((page.height - y) * per_mm), round(x * per_mm)])

    light = shade(length + 0.4 + 0.3)
    assert shade(length + 0.4 - 0.3) < light - 20
    assert shade(length / 2) < light - 20
    without = grey(plan_png(plan_page(plan, moment.date()), 2000))
    assert shade(length / 2, without) == light


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("month", [5, 9])
def test_every_plot_is_named_and_no_name_lies_over_another(name, month):
    page = page_of(name, day=dt.date(YEAR, month, 20))
    names = page.drawing.names
    for one, other in itertools.combinations(names.placed, 2):
        assert not one.box.intersects(other.box), (one.text, other.text)
    written = {name.text for name in names.placed}
    for one in page.drawing.picture.beds:
        for plot in one.plots:
            numbered = str(names.numbers.get(plot.names[0], "")) in written
            listed = plot.names[0] in names.unnamed.get(one.name, ())
            assert written & set(plot.names) or numbered or listed, plot.names
    assert {name for name in written if name.isdigit()} == {str(n) for n in names.numbers.values()}


@pytest.mark.parametrize("name", SAMPLES)
def test_the_name_of_a_bed_lies_on_it_or_is_nearest_to_it(name):
    """Against the distances from each name to the grounds of all beds."""
    drawing = page_of(name, day=dt.date(YEAR, 6, 20)).drawing
    grounds = {bed.name: drawing.page(bed.ground) for bed in drawing.picture.beds}
    assert len({one.text for one in drawing.names.placed} & set(grounds)) > 2
    for one in drawing.names.placed:
        if one.text in grounds and one.style == "bold":
            away = {bed: one.box.distance(ground) for bed, ground in grounds.items()}
            own = away.pop(one.text)
            assert own < min(away.values()), (one.text, own, min(away.values()))


@pytest.mark.parametrize("name", SAMPLES)
def test_gates_and_taps_are_named(name):
    drawing = page_of(name, day=dt.date(YEAR, 6, 20)).drawing
    written = {one.text for one in drawing.names.placed}
    for one in drawing.picture.structures:
        if one.kind in ("gate", "tap"):
            assert written & {one.name, one.kind}, one.name


def test_beds_in_a_tunnel_are_named_along_themselves():
    names = page_of("hollow_lane", day=dt.date(YEAR, 6, 20)).drawing.names
    assert {"Tunnel west", "Tunnel east", "Corner bed"} <= {one.text for one in names.placed}


def test_two_sorts_of_a_crop_are_told_apart():
    """A name on the ground stands for one sort only; else there is a number, and the key has the sort in full."""
    page = page_of("hollow_lane", day=dt.date(YEAR, 6, 20))
    written = {one.text for one in page.drawing.names.placed}
    full: dict[str, set[str]] = {}
    for plot in (plot for one in page.drawing.picture.beds for plot in one.plots):
        for words in plot.names:
            full.setdefault(words, set()).add(plot.names[0])
    assert any(len(sorts) > 1 for sorts in full.values())
    assert not [words for words, sorts in full.items() if len(sorts) > 1 and words in written]
    assert [" ".join(lines) for lines in page.key.entries] == list(page.key.numbers)


class Words:
    """A pen that only keeps what it writes: left edge, base line, text and size, of level text."""

    def __init__(self) -> None:
        self.texts: list[tuple[float, float, str, float]] = []

    def text(self, x, y, text, size, style="regular", rgb=None, align="left", turn=0.0):
        if align == "left" and not turn:
            self.texts.append((x, y, text, size))

    def __getattr__(self, name):
        return lambda *args, **fields: nullcontext()


@pytest.mark.parametrize("name", ["hollow_lane", "wattle_bank"])
def test_no_line_of_a_strip_reaches_beyond_the_margin(name):
    plan = Plan(storage.load(FOLDER / f"{name}.bedwright"), YEAR)
    page, pen = strip_page(plan, four_days(plan)), Words()
    page.draw(pen)
    assert any("Black marks" in text for _, _, text, _ in pen.texts)
    assert all(x + fonts.width(text, size) <= page.width - 9.9 for x, _, text, size in pen.texts)
    left, low, right, high = page.drawings[0].frame
    across, up = np.ptp(
        np.array(page.drawings[0].page(shapely.box(*page.drawings[0].picture.bounds)).bounds).reshape(2, 2),
        axis=0,
    )
    assert max(across / (right - left), up / (high - low)) > 0.85, "the drawings fill their frames"
    listed = " ".join(page.key.rest)
    for drawing in page.drawings:
        assert all(bed in listed for bed in drawing.names.unnamed)


def test_a_key_that_is_too_long_says_what_is_left_out():
    from planner.sheets.plan_key import Key

    key = Key(tuple(f"{k} crop" for k in range(100)), 190.0, ("Bed: sage", "Bed 2: thyme")).cut(6)
    assert key.columns == 4
    assert key.height <= 6
    assert key.rest[-1] == "and 82 more entries"  # 80 numbers and both lines of beds
    assert len(key.numbers) == 20


def test_names_with_signs_that_xml_does_not_know_are_drawn():
    odd = "A<&>\"' \ufffe bed"
    page = plan_page(Plan(garden(bed(name=odd, outline=rectangle())), 2026), dt.date(2026, 6, 1))
    tree = ElementTree.fromstring(plan_svg(page))
    texts = ["".join(text.itertext()) for text in tree.iter(f"{SVG}text")]
    assert "A<&>\"'   bed" in texts


def test_the_svg_is_of_true_size_and_in_layers():
    page = page_of("hollow_lane")
    tree = ElementTree.fromstring(plan_svg(page))
    assert (tree.get("width"), tree.get("height")) == ("297mm", "210mm")
    layers = [group.get("id") for group in tree.iter(f"{SVG}g") if group.get("id")]
    assert {"beds", "structures", "names", "shadows"} <= set(layers)
    assert len(layers) == len(set(layers))
    assert tree.findtext(f"{SVG}title") == page.title


def test_the_same_plan_gives_the_same_files():
    first, second = page_of("red_mesa"), page_of("red_mesa")
    assert plan_pdf(first) == plan_pdf(second)
    assert plan_svg(first) == plan_svg(second)
    assert plan_png(first, 400) == plan_png(second, 400)


@pytest.mark.parametrize("width", [200, 333, 1999])
def test_a_png_is_as_wide_as_it_is_asked_to_be(width):
    picture = Image.open(io.BytesIO(plan_png(page_of("balcony_boxes"), width)))
    assert picture.size == (width, math.ceil(width * 210 / 297 - 0.01))
    assert picture.info["Title"] == "Balcony boxes"


@pytest.mark.parametrize("width", [0, 199, MOST_WIDTH + 1])
def test_a_width_beyond_the_limits_is_refused(width):
    with pytest.raises(PictureSizeError, match="Give a width from 200 to 6000"):
        plan_png(page_of("balcony_boxes"), width)


def test_a_garden_without_anything_is_refused():
    with pytest.raises(NothingToDrawError, match="Draw a bed first"):
        plan_page(Plan(Garden(), 2026), dt.date(2026, 6, 1))


def test_only_the_beds_that_are_named_are_planted():
    one, other = bed("b1", name="One"), bed("b2", name="Two", outline=rectangle(center=(0.0, 2.0)))
    document = garden(one, other, planting("p1", "b1"), planting("p2", "b2", crop="pea"))
    plan = Plan(document, 2026)
    page = plan_page(plan, fullest_day(plan), beds=[one])
    assert [name.text for name in page.drawing.names.placed] == ["One", "Carrot"]
    assert page.title == "Garden: One"


def test_many_plots_too_small_for_names_are_counted_not_listed():
    beds = [bed(f"b{k}", rectangle(4.8, 1.2, center=(6.0 * (k % 20), 2.0 * (k // 20)))) for k in range(200)]
    plantings = [
        planting(f"p{k}", f"b{k}", variety=f"Sort {k}", first="2026-05-01", last="2026-08-01")
        for k in range(200)
    ]
    page = plan_page(Plan(garden(*beds, *plantings), 2026), dt.date(2026, 6, 1))
    assert page.drawing.scale == 500
    assert sum(map(len, page.drawing.names.unnamed.values())) == 200
    assert page.key.rest == ("200 plots are too small for a name at this scale",)


def test_covers_and_supports_are_drawn_while_they_are_there():
    """A cover of May and a net from 1 June on, on days before, in and after; their ground against the bed's own sides."""
    carrots = planting(
        "p1",
        "b1",
        first="2026-04-01",
        last="2026-09-30",
        plot={"kind": "stretch", "start": 0.0, "end": 2.0},
        covers=[{"kind": "netting", "first": "2026-05-01", "last": "2026-05-31"}],
    )
    peas = planting(
        "p2",
        "b1",
        crop="pea",
        first="2026-06-01",
        last="2026-09-30",
        plot={"kind": "stretch", "start": 2.0, "end": 4.8},
        support={"kind": "net", "height": 1.5},
    )
    plan = Plan(garden(bed("b1", rectangle(4.8, 1.2, center=(10.0, 5.0), turn=90.0)), carrots, peas), 2026)
    there = {day: plan_picture(plan, dt.date(2026, *day)) for day in ((4, 20), (5, 15), (6, 20), (10, 15))}
    assert [len(one.covers) for one in there.values()] == [0, 1, 0, 0]
    assert [len(one.supports) for one in there.values()] == [0, 0, 1, 0]
    cover = there[5, 15].covers[0]
    assert np.allclose(cover.ground.bounds, (9.4, 2.6, 10.6, 4.6))
    assert len(cover.hoops) >= 2
    assert all(cover.ground.buffer(1e-6).covers(shapely.LineString(hoop)) for hoop in cover.hoops)
    bed_ground = shapely.box(9.4, 2.6, 10.6, 7.4)
    lines = there[6, 20].supports[0].lines
    assert lines
    assert all(bed_ground.buffer(1e-6).covers(line) and line.bounds[1] > 4.6 - 1e-6 for line in lines)
    said = plan_page(plan, dt.date(2026, 5, 15)).subtitle
    assert said == "As it grows on 15 May 2026. Dashed lines: netting"
    with_net = plan_svg(plan_page(plan, dt.date(2026, 6, 20)))
    assert "Thick lines: net" in with_net
    assert "stroke-dasharray" in plan_svg(plan_page(plan, dt.date(2026, 5, 15)))
