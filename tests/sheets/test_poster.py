"""The poster and the strip of days, read and laid together by another reader."""

from __future__ import annotations

import datetime as dt
import io
import itertools

import numpy as np
import pytest
from paper_reading import MM, Paper

from planner.errors import BedwrightError
from planner.plan import Plan
from planner.season.spans import year_span
from planner.sheets.map_sheet import write_map_sheet
from planner.sheets.page_chrome import paper_named
from planner.sheets.plan_strip import StripDay, four_days, strip_page
from planner.sheets.poster import MOST_PAGES, OVERLAP, PosterError, make_poster, poster_wish
from planner.storage import load
from tests.making import bed, garden, planting, rectangle
from tests.sample_reading import sample

DAY = dt.date(2026, 7, 1)
DOTS = 200.0 / 25.4
#: Half the length of a cross, and lengths are read this exactly. [mm]
CROSS, EXACT = 3.0, 0.02


@pytest.fixture(scope="module")
def plan() -> Plan:
    return Plan(load(sample("hollow_lane")), 2026)


def written(plan: Plan, wish: str, paper: str = "a4") -> bytes:
    stream = io.BytesIO()
    write_map_sheet(plan, stream, DAY, paper, DAY, poster=poster_wish(wish))
    return stream.getvalue()


@pytest.fixture(scope="module", params=[("2x3", "a4"), ("1:40", "a4"), ("3x1", "letter")])
def laid(request, plan):
    """A poster as it was made, and its pages as they were read."""
    wish, paper = request.param
    poster = make_poster(plan, DAY, poster_wish(wish), paper_named(paper), DAY)
    with Paper(written(plan, wish, paper)) as pages:
        assert len(pages) == poster.count > 1
        yield poster, pages


def crosses(pages: Paper, number: int) -> np.ndarray:
    """Middles of the crosses of a page, from its lines alone (n, 2). [mm]"""
    lines = pages.lines(number)
    long = np.abs(lines[:, 2:] - lines[:, :2])
    level = lines[(abs(long[:, 0] - 2 * CROSS) < EXACT) & (long[:, 1] < EXACT)]
    upright = lines[(abs(long[:, 1] - 2 * CROSS) < EXACT) & (long[:, 0] < EXACT)]
    middles = {tuple(np.round((one[:2] + one[2:]) / 2, 3)) for one in level}
    others = {tuple(np.round((one[:2] + one[2:]) / 2, 3)) for one in upright}
    return np.array(sorted(middles & others)).reshape(-1, 2)


def joins(poster):
    """Neighbouring pages: the first, the other, and which way."""
    for number in range(poster.count):
        for side, other in poster.neighbours(number).items():
            if side in ("right", "bottom"):
                yield number, other, side


def test_crosses_of_neighbours_are_the_same_points(laid):
    """The step between two pages, from their own crosses, is the one of all of them to 0.2 mm, with the overlap as told."""
    poster, pages = laid
    for number, other, side in joins(poster):
        axis, sign = (0, 1) if side == "right" else (1, -1)
        there, beside = crosses(pages, number), crosses(pages, other)
        size = np.array(pages.document[number].get_size()) * MM
        # Of the first page the crosses farthest to its neighbour, of the other those nearest to it.
        edge = there[abs(there[:, axis] - (sign * there[:, axis]).max() * sign) < EXACT]
        facing = beside[abs(beside[:, axis] - (sign * beside[:, axis]).min() * sign) < EXACT]
        along = 1 - axis
        edge, facing = edge[np.argsort(edge[:, along])], facing[np.argsort(facing[:, along])]
        shared = [(a, b) for a in edge for b in facing if abs(a[along] - b[along]) < 0.2]
        assert len(shared) >= 2
        steps = np.array([a - b for a, b in shared])
        assert np.ptp(steps, axis=0).max() < 0.2
        shown = size[axis] - (20.0 if axis == 0 else 34.0)
        assert abs(abs(steps[0, axis]) - (shown - OVERLAP)) < 0.2


def test_what_is_drawn_on_the_overlap_is_the_same_on_both_pages(laid):
    """Painted by another program and laid together: no dot that is dark on one page is far from a dark one on the other."""
    poster, pages = laid
    painted = [
        np.asarray(pages.document[n].render(scale=DOTS * MM).to_pil().convert("L"))
        for n in range(poster.count)
    ]
    compared = 0
    for number, other, _ in joins(poster):
        one, two = poster.window(number), poster.window(other)
        left, low = max(one[0], two[0]) + 1, max(one[1], two[1]) + 1
        right, high = min(one[2], two[2]) - 1, min(one[3], two[3]) - 1
        parts = []
        for page in (number, other):
            x0, y1 = poster.on_page(page, left, high)
            x1, y0 = poster.on_page(page, right, low)
            tall = poster.paper.height
            rows = slice(round((tall - y1) * DOTS), round((tall - y0) * DOTS))
            parts.append(painted[page][rows, round(x0 * DOTS) : round(x1 * DOTS)])
        tall, wide = min(part.shape[0] for part in parts), min(part.shape[1] for part in parts)
        for one, two in itertools.permutations(part[:tall, :wide] for part in parts):
            mine, its = one < 90, two < 200  # a thin line is fainter where it falls between two rows of dots
            near = np.zeros_like(its)
            for dx, dy in itertools.product((-1, 0, 1), repeat=2):  # a dot is 0.13 mm
                near |= np.roll(np.roll(its, dx, axis=1), dy, axis=0)
            inner = (mine & ~near)[1:-1, 1:-1]
            assert np.count_nonzero(inner) == 0
            compared += int(mine.sum())
    assert compared > 200


def test_the_scale_is_true(laid, plan):
    """Beds that lie whole on a page: their sides on paper, as they are read there, against their sides on the ground."""
    poster, pages = laid
    scale = poster.page.drawing.scale
    found = 0
    for one, shape in zip(plan.beds, poster.page.drawing.picture.beds, strict=True):
        if one.outline.shape != "rectangle":
            continue
        left, low, right, high = poster.page.drawing.page(shape.ground).bounds
        sides = {round(1000 * side / scale, 2) for side in (one.outline.length, one.outline.width)}
        for number in range(poster.count):
            window = poster.window(number)
            if window[0] < left and window[1] < low and window[2] > right and window[3] > high:
                paths = pages.paths(number)
                sizes = np.sort(paths[:, 2:] - paths[:, :2], axis=1)
                assert (abs(sizes - sorted(sides)).max(axis=1) < EXACT).any()
                found += 1
    assert found


def test_a_scale_that_is_asked_for_is_kept_to(plan):
    poster = make_poster(plan, DAY, poster_wish("1:33"), paper_named("a4"), DAY)
    assert poster.page.drawing.scale == 33
    with Paper(written(plan, "1:33")) as pages:
        assert "Scale 1 : 33" in pages.text(0)
        lines = pages.lines(0)
        assert (
            abs(np.hypot(*(lines[:, 2:] - lines[:, :2]).T) - 100.0) < 0.05
        ).any()  # the line to check the printer


def test_every_page_has_its_letter_and_names_those_beside_it(laid):
    poster, pages = laid
    for number, letter in enumerate(poster.letters):
        words = pages.text(number)
        assert f"page {letter} of {poster.count}" in words
        for other in poster.neighbours(number).values():
            assert f"to {poster.letters[other]}" in words
    joined = {name for n in range(poster.count) for name in pages.text(n).split() if name.isalpha()}
    for one in poster.page.drawing.picture.beds:
        assert set(one.name.split()[:1]) <= joined


@pytest.mark.parametrize("text", ["", "2", "0x3", "3x0", "99x99", "1:2", "1:999999", "2x3x4", "two"])
def test_what_is_no_poster_is_refused_in_one_line(text):
    with pytest.raises(PosterError, match="no poster can be made") as caught:
        poster_wish(text)
    assert "\n" not in str(caught.value)


def test_too_many_pages_are_refused(plan):
    with pytest.raises(BedwrightError, match=f"no more than {MOST_PAGES}"):
        make_poster(plan, DAY, poster_wish("1:5"), paper_named("a4"), DAY)


# -- the strip ---------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["hollow_lane", "wattle_bank", "red_mesa", "balcony_boxes"])
def test_four_days_of_the_growing_year(name):
    document = load(sample(name))
    plan = Plan(document, 2026)
    days = four_days(plan)
    assert {one.name for one in days} == {"Spring", "Early summer", "Late summer", "Winter"}
    span = year_span(document.site, 2026)
    assert all(span.holds(one.day) for one in days)
    assert [one.day for one in days] == sorted(one.day for one in days)
    spring = next(one.day for one in days if one.name == "Spring")
    assert spring.month == (10 if name == "wattle_bank" else 4)


@pytest.mark.parametrize("first_month", [1, 4, 7, 10, 12])
@pytest.mark.parametrize("latitude", [-36.0, 52.0])
def test_the_days_lie_in_any_growing_year(first_month, latitude):
    document = garden(bed("b1"))
    site = document.site.model_copy(update={"first_month": first_month, "latitude": latitude})
    plan = Plan(document.model_copy(update={"site": site}), 2026)
    assert all(plan.span.holds(one.day) for one in four_days(plan))


def test_a_strip_draws_what_grows_on_each_day():
    early = planting("p1", "b1", crop="radish", first="2026-04-01", last="2026-05-10")
    late = planting("p2", "b1", crop="kale", first="2026-08-01", last="2026-12-31")
    plan = Plan(garden(bed("b1", rectangle(6.0, 4.0)), early, late), 2026)
    page = strip_page(plan, four_days(plan))
    drawn = [[plot.planting for plot in one.picture.beds[0].plots] for one in page.drawings]
    assert drawn == [["p1"], [], ["p2"], ["p2"]]
    assert len({one.scale for one in page.drawings}) == 1


def test_the_same_name_has_the_same_number_on_every_drawing(plan):
    page = strip_page(plan, four_days(plan))
    for one in page.drawings:
        numbers = page.drawings[-1].names.numbers
        assert all(numbers[name] == number for name, number in one.names.numbers.items())
    for left, right in itertools.combinations(page.drawings, 2):
        a, b = left.frame, right.frame
        assert a[2] <= b[0] or b[2] <= a[0] or a[1] >= b[3] or b[1] >= a[3]


def test_the_days_asked_for_are_on_the_page(plan):
    stream = io.BytesIO()
    days = [StripDay(dt.date(2026, 3, 1)), StripDay(dt.date(2026, 9, 9))]
    write_map_sheet(plan, stream, DAY, "letter", DAY, strip=days)
    with Paper(stream.getvalue()) as paper:
        words = paper.text(0)
        assert len(paper) > 1
    assert "1 Mar 2026" in words
    assert "9 Sep 2026" in words
    assert "Hollow Lane through 2026" in words
