"""Outlines from drawings and maps, against another renderer and against the program's own maps."""

from __future__ import annotations

import io
import json

import numpy as np
import pytest
import resvg_py
import shapely
from geographiclib.geodesic import Geodesic
from making import bed, garden, rectangle
from PIL import Image
from sample_reading import FOLDER, YEAR

from planner import storage
from planner.garden import Garden, Rectangle, Site
from planner.ground.earth import NoPlaceError
from planner.ground.shapes import plan_polygon
from planner.importing.outlines import outline_through, preview_geojson, preview_svg, take_outlines
from planner.importing.svg_shapes import svg_shapes
from planner.importing.table_text import TableError
from planner.listings.reports.ground_map import map_report, map_text
from planner.plan import Plan

SHAPES = {
    "rectangle": '<rect x="10" y="20" width="60" height="30"/>',
    "ellipse": '<ellipse cx="100" cy="90" rx="50" ry="20"/>',
    "polygon": '<polygon points="10,10 150,20 90,120"/>',
    "relative": '<path d="m20 20h80v40l-30 30-50-10z"/>',
    "curves": '<path d="M20 100C20 20 120 20 120 100S60 160 20 100z"/>',
    "quadratic": '<path d="M20 100Q70 10 120 100T180 100L180 150H20Z"/>',
    "arcs": '<path d="M30 80A50 30 20 0 1 130 80A50 30 20 1 1 30 80z"/>',
    "flags": '<path d="M40 90a40 40 0 0180 0 40 40 0 01-80 0z"/>',
    "turned": '<g transform="translate(100 20) rotate(30)"><rect width="60" height="40" transform="scale(1.2 .8) skewX(10)"/></g>',
    "matrix": '<rect width="60" height="40" transform="matrix(.8 .3 -.2 1.1 60 40)"/>',
    "about": '<rect x="60" y="60" width="60" height="40" transform="rotate(-25 90 80)"/>',
}


def svg(body: str, size: str = 'width="200" height="200" viewBox="0 0 200 200"') -> bytes:
    names = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f"<svg {names} {size}>{body}</svg>".encode()


@pytest.mark.parametrize("name", SHAPES)
def test_shapes_cover_what_another_program_paints(name):
    data = svg(SHAPES[name])
    (shape,) = svg_shapes(data).shapes
    assert not shape.error
    ground = shapely.union_all([shapely.Polygon(ring) for ring in shape.rings])
    zoom = 4
    painted = resvg_py.svg_to_bytes(svg_string=data.decode(), width=200 * zoom, dpi=96, background="#ffffff")
    dark = np.asarray(Image.open(io.BytesIO(bytes(painted))).convert("L")) < 128
    y, x = np.mgrid[0 : 200 * zoom, 0 : 200 * zoom]
    ours = shapely.contains_xy(ground, (x + 0.5) / zoom, (y + 0.5) / zoom)
    assert dark.sum() > 10_000
    assert (ours != dark).sum() < 0.004 * dark.sum()


@pytest.mark.parametrize(
    ("size", "how", "metres"),
    [
        ('width="200mm" viewBox="0 0 200 200"', {"scale": 50}, 0.05),
        ('width="10cm" viewBox="0 0 200 200"', {"scale": 100}, 0.05),
        ('width="96" viewBox="0 0 96 96"', {"scale": 100}, 0.0254 * 100 / 96),
        ("", {"unit": 0.01}, 0.01),
        ('width="200mm" viewBox="0 0 20 20"', {"unit": 1.0}, 1.0),
    ],
)
def test_scale_and_unit_say_how_large_it_is(size, how, metres):
    found = preview_svg(svg(SHAPES["rectangle"], size), Garden(), **how)
    (made,) = found.beds
    assert made.outline.shape == "rectangle"
    assert (made.outline.length, made.outline.width) == pytest.approx((60 * metres, 30 * metres), abs=1e-6)


@pytest.mark.parametrize("how", [{}, {"unit": 1.0, "scale": 50}])
def test_a_size_is_asked_for(how):
    with pytest.raises(TableError, match="Give its scale, or the unit"):
        preview_svg(svg(SHAPES["rectangle"]), Garden(), **how)


def test_a_drawing_lies_beside_what_is_there_as_it_is_drawn():
    body = '<rect x="0" y="0" width="2" height="1"><title>Upper</title></rect><rect id="low" x="5" y="8" width="2" height="1"/>'
    before = garden(bed("b1", rectangle(6.0, 3.0)))
    after = take_outlines(before, preview_svg(svg(body), before, unit=1.0))
    upper, low = after.beds[1:]
    assert (upper.name, low.name) == ("Upper", "low")
    left, _, _, high = plan_polygon(upper.outline).bounds
    assert (left, high) == pytest.approx((4.0, 1.5)), "a metre to the right, tops in line"
    (ux, uy), (lx, ly) = upper.outline.center, low.outline.center
    assert (lx - ux, ly - uy) == pytest.approx((5.0, -8.0)), "down in the drawing is down on the plan"


def test_names_that_are_taken_get_a_number_and_holes_are_told():
    body = (
        '<path id="b1" d="M0 0H4V4H0ZM1 1H2V2H1Z"/><rect id="b1" x="9" width="2" height="2"/>'
        '<path id="two" d="M20 0h2v2h-2zM30 0h2v2h-2z"/>'
    )
    found = preview_svg(svg(body), garden(bed("b1", name="b1")), unit=1.0)
    assert not found.bad
    assert len({made.name for made in found.beds}) == 4
    assert "its hole is filled" in found.rows[0].notes
    assert "it is called" in found.rows[1].notes[0]
    assert found.beds[0].outline.length == 4.0


@pytest.mark.parametrize(
    ("body", "error"),
    [
        ('<line x2="4"/>', "encloses no ground"),
        ('<path d="M0 0L4 4L0 4"/>', "not closed"),
        ('<polyline points="0,0 4,0 4,4"/>', "not closed"),
        ('<path d="M0 0 L 4 x"/>', "cannot be read"),
        ('<path d="L4 4"/>', "does not begin with a move"),
        ('<path d=""/>', "encloses no ground"),
        ('<rect width="50%" height="2"/>', "is no length of a drawing"),
        ('<use xlink:href="#a"/>', "not followed"),
        ('<image width="3" height="3"/>', "no outline"),
        ('<path d="M0 0L4 4L4 0L0 4Z"/>', "crosses or touches itself"),
        ('<polygon points="0,0 0,0 0,0"/>', "outline"),
    ],
)
def test_what_cannot_be_taken_is_told_by_its_line(body, error):
    found = preview_svg(svg(f'<rect width="3" height="3"/>\n\n{body}'), Garden(), unit=1.0)
    (bad,) = found.bad
    assert bad.where == "line 3"
    assert error in bad.error
    assert len(found.beds) == 1


def test_what_is_only_defined_is_no_bed():
    body = '<defs><rect width="3" height="3"/></defs><clipPath><rect width="3" height="3"/></clipPath><g display="none"><rect width="3" height="3"/></g><text>Bed</text>'
    assert not preview_svg(svg(body), Garden(), unit=1.0).rows


@pytest.mark.parametrize(
    ("data", "error"),
    [
        (b"<html/>", "no SVG"),
        (b"<svg><rect", "no XML"),
        (b"", "no XML"),
        (b'<!DOCTYPE svg [<!ENTITY a "aaaa">]><svg>&a;</svg>', "declares entities"),
    ],
)
def test_files_that_are_no_drawing_are_refused(data, error):
    with pytest.raises(TableError, match=error):
        preview_svg(data, Garden(), unit=1.0)


@pytest.mark.parametrize("turn", [0.0, 12.5, 90.0, 179.0])
def test_four_square_corners_are_a_rectangle(turn):
    wanted = Rectangle(center=(3.0, -2.0), length=4.8, width=1.2, turn=turn)
    found = outline_through(list(plan_polygon(wanted).exterior.coords)[:-1])
    assert found.shape == "rectangle"
    assert {round(found.length, 6), round(found.width, 6)} == {4.8, 1.2}
    assert plan_polygon(found).symmetric_difference(plan_polygon(wanted)).area < 1e-5
    slanted = outline_through([(0, 0), (4, 0), (5, 2), (1, 2)])
    assert slanted.shape == "polygon"


@pytest.mark.parametrize("name", sorted(path.stem for path in FOLDER.glob("*.bedwright")))
def test_a_map_that_the_program_wrote_comes_back_as_it_was(name):
    document = storage.load(FOLDER / f"{name}.bedwright")
    data = map_text(map_report(Plan(document, YEAR))).encode()
    found = preview_geojson(data, Garden(site=document.site))
    after = take_outlines(Garden(site=document.site), found)
    beds = [one for one in document.beds if one.in_use(YEAR)]
    assert [one.name for one in after.beds] == [one.name for one in beds]
    for made, one in zip(after.beds, beds, strict=True):
        assert (made.kind, made.height) == (one.kind, one.height)
        assert made.outline.shape == one.outline.shape or one.outline.shape == "circle"
        apart = shapely.hausdorff_distance(plan_polygon(made.outline), plan_polygon(one.outline))
        assert apart < 0.01 if one.outline.shape != "circle" else apart < 0.1
    structures = [one for one in document.structures if one.in_use(YEAR)]
    assert [(one.kind, one.name, one.height) for one in after.structures] == [
        (one.kind, one.name, one.height) for one in structures
    ]


SITE = Site(latitude=50.0, longitude=5.0)
SQUARE = [[[5.0, 50.0], [5.0001, 50.0], [5.0001, 50.0001], [5.0, 50.0001], [5.0, 50.0]]]


def mapped(*geometries: object, properties: object = None) -> bytes:
    features = [{"type": "Feature", "geometry": one, "properties": properties} for one in geometries]
    return json.dumps({"type": "FeatureCollection", "features": features}).encode()


def test_a_square_on_the_earth_has_its_size_on_the_plan():
    (made,) = preview_geojson(mapped({"type": "Polygon", "coordinates": SQUARE}), Garden(site=SITE)).beds
    wide, high = (Geodesic.WGS84.Inverse(50.0, 5.0, *end)["s12"] for end in ((50.0, 5.0001), (50.0001, 5.0)))
    assert sorted((made.outline.length, made.outline.width)) == pytest.approx([wide, high], rel=1e-5)


@pytest.mark.parametrize(
    ("geometry", "error"),
    [
        ({"type": "Point", "coordinates": [5, 50]}, "encloses no ground"),
        (None, "encloses no ground"),
        ({"type": "Polygon", "coordinates": [[[5, 50]]]}, "cannot be read"),
        ({"type": "Polygon", "coordinates": "x"}, "cannot be read"),
        ({"type": "Polygon"}, "cannot be read"),
        ({"type": "Polygon", "coordinates": [[[5, 50], ["x", 50], [5, 51], [5, 50]]]}, "cannot be read"),
        ({"type": "Polygon", "coordinates": [[[5, 50], [5, 95], [6, 51], [5, 50]]]}, "cannot be read"),
        ({"type": "Polygon", "coordinates": [[[9, 50], [9, 50.1], [9.1, 50], [9, 50]]]}, "far from"),
    ],
)
def test_what_cannot_be_taken_from_a_map_is_told_by_its_number(geometry, error):
    found = preview_geojson(
        mapped({"type": "Polygon", "coordinates": SQUARE}, geometry), Garden(site=SITE), "shed"
    )
    assert [one.kind for one in found.structures] == ["shed"]
    (bad,) = found.bad
    assert bad.where == "feature 2"
    assert error in bad.error


@pytest.mark.parametrize("data", [b"{", b"[]", b"{}", b'{"type": "Feature', b"\xff\xfe", b"[" * 100_000])
def test_files_that_are_no_map_are_refused(data):
    with pytest.raises(TableError, match=r"no JSON|no GeoJSON"):
        preview_geojson(data, Garden(site=SITE))


def test_a_map_needs_the_place_of_the_garden():
    with pytest.raises(NoPlaceError, match="Type latitude and longitude"):
        preview_geojson(mapped(), Garden())
