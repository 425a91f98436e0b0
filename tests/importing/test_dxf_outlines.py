"""Outlines from DXF drawings that ezdxf wrote, against geometry that is known and areas by shapely."""

from __future__ import annotations

import io
import math
import random

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf.math import Matrix44
from making import bed, garden, rectangle

from planner.garden import Garden
from planner.ground.shapes import plan_polygon
from planner.importing import dxf_shapes
from planner.importing.dxf_shapes import SAGITTA, DxfDrawing
from planner.importing.outlines import preview_dxf, take_outlines
from planner.importing.table_text import TableError

SQUARE = [(0, 0), (4, 0), (4, 3), (0, 3)]


class Drawn:
    """A drawing under way: its model, its file, and its bytes."""

    def __init__(self, unit: int = 6, version: str = "R2010"):
        self.file = ezdxf.new(version, units=unit)
        self.model = self.file.modelspace()

    @property
    def bytes(self) -> bytes:
        text = io.StringIO()
        self.file.write(text)
        return text.getvalue().encode(self.file.output_encoding)

    def ground(self, metres: float = 1.0) -> shapely.Geometry:
        """All that is read of it, on the ground."""
        shapes = DxfDrawing(self.bytes).shapes(metres)
        assert not any(shape.error for shape in shapes)
        return shapely.union_all([shapely.Polygon(ring * metres) for shape in shapes for ring in shape.rings])


@pytest.mark.parametrize("version", ["R12", "R2000", "R2010", "R2018"])
def test_closed_lines_are_as_they_were_drawn(version):
    drawn = Drawn(version=version)
    corners = [(1, 2), (6, 2), (7, 4), (3, 5)]
    if version == "R12":
        drawn.model.add_polyline2d(corners, close=True, dxfattribs={"layer": "Beds"})
    else:
        drawn.model.add_lwpolyline(corners, close=True, dxfattribs={"layer": "Beds"})
    drawn.model.add_polyline3d([(10, 0, 5), (12, 0, 6), (11, 3, 5)], close=True)
    wanted = shapely.union_all([shapely.Polygon(corners), shapely.Polygon([(10, 0), (12, 0), (11, 3)])])
    assert drawn.ground().symmetric_difference(wanted).area < 1e-9


@pytest.mark.parametrize(
    ("unit", "metres"), [(1, 0.0254), (2, 0.3048), (4, 0.001), (5, 0.01), (6, 1.0), (14, 0.1)]
)
def test_the_file_says_its_unit(unit, metres):
    drawn = Drawn(unit)
    size = (4.8 / metres, 1.2 / metres)
    drawn.model.add_lwpolyline([(0, 0), (size[0], 0), size, (0, size[1])], close=True)
    (made,) = preview_dxf(drawn.bytes, Garden()).beds
    assert made.outline.shape == "rectangle"
    assert (made.outline.length, made.outline.width) == pytest.approx((4.8, 1.2), abs=1e-6)
    (given,) = preview_dxf(drawn.bytes, Garden(), unit=2 * metres).beds
    assert given.outline.length == pytest.approx(9.6, abs=1e-6), (
        "a unit that is given goes before that of the file"
    )


@pytest.mark.parametrize("unit", [0, 12])
def test_a_unit_that_is_not_known_is_asked_for(unit):
    drawn = Drawn(unit)
    drawn.model.add_lwpolyline(SQUARE, close=True)
    with pytest.raises(TableError, match="Give the unit of its numbers"):
        preview_dxf(drawn.bytes, Garden())


@pytest.mark.parametrize("bulge", [0.1, 1.0, -0.3, 2.5, -1.0])
@pytest.mark.parametrize("metres", [1.0, 0.001])
def test_bulges_are_arcs_to_a_millimetre(bulge, metres):
    # The area between an arc and its chord, r^2 (a - sin a) / 2, is added to a square's or taken from it.
    drawn, side = Drawn(), 4.0 / metres
    drawn.model.add_lwpolyline(
        [(0, 0, bulge), (side, 0, 0), (side, -side, 0), (0, -side, 0)], format="xyb", close=True
    )
    if bulge < 0 or bulge == 2.5:
        drawn.model.delete_all_entities()
        drawn.model.add_lwpolyline(
            [(0, 0, bulge), (side, 0, 0), (side, -2.9 * side, 0), (0, -2.9 * side, 0)],
            format="xyb",
            close=True,
        )
    height = 4.0 if 0 < bulge < 2 else 4.0 * 2.9
    angle = 4 * math.atan(bulge)
    radius = 2.0 / math.sin(abs(angle) / 2)
    segment = radius**2 / 2 * (abs(angle) - math.sin(abs(angle))) * math.copysign(1, bulge)
    found = drawn.ground(metres)
    arc = radius * abs(angle)
    assert abs(found.area - (4.0 * height - segment)) < SAGITTA * arc
    assert abs(found.area - (4.0 * height + segment)) > 0.1, "the arc lies on the side that the format says"


@pytest.mark.parametrize("radius", [0.0008, 0.3, 5.0, 200.0])
def test_circles_lose_no_more_than_a_millimetre_of_their_radius(radius):
    drawn = Drawn()
    drawn.model.add_circle((3, 4), radius)
    found = drawn.ground()
    true = shapely.Point(3, 4).buffer(radius, quad_segs=2000)
    assert found.hausdorff_distance(true) <= max(SAGITTA, 0.2 * radius if radius < SAGITTA else 0) * 1.01
    assert found.area < true.area


def test_ellipses_are_read_whole_and_not_in_parts():
    drawn = Drawn()
    drawn.model.add_ellipse((0, 0), major_axis=(3, 0), ratio=0.5)
    wanted = shapely.affinity.scale(shapely.Point(0, 0).buffer(1, quad_segs=2000), 3.0, 1.5)
    assert drawn.ground().hausdorff_distance(wanted) < 1.01 * SAGITTA
    drawn.model.add_ellipse((20, 0), major_axis=(3, 0), ratio=0.5, start_param=0, end_param=3)
    drawn.model.add_open_spline([(0, 0, 0), (4, 0, 0), (4, 4, 0), (0, 4, 0)])
    _, *parts = DxfDrawing(drawn.bytes).shapes(1.0)
    assert [shape.error for shape in parts] == [
        "the line is not closed",
        "it is no closed outline that is read",
    ]


def test_lines_and_open_ones_are_told_by_layer_and_kind():
    drawn = Drawn()
    drawn.model.add_lwpolyline(SQUARE, dxfattribs={"layer": "Open"})
    drawn.model.add_lwpolyline([*SQUARE, SQUARE[0]], dxfattribs={"layer": "Met"})
    for y in range(3):
        drawn.model.add_line((0, y), (4, y), dxfattribs={"layer": "Paths"})
    drawn.model.add_text("Beans", dxfattribs={"layer": "Words"})
    hidden = drawn.file.layers.add("Old")
    hidden.off()
    drawn.model.add_circle((0, 0), 1, dxfattribs={"layer": "Old"})
    found = preview_dxf(drawn.bytes, Garden())
    assert [made.name for made in found.beds] == ["Met"], "ends that meet are closed"
    assert [(row.where, row.error) for row in found.bad] == [
        ("layer Open: LWPOLYLINE", "the line is not closed"),
        ("layer Paths: LINE, 3 of them", "it encloses no ground"),
        ("layer Words: TEXT", "it is no closed outline that is read"),
        ("layer Old: CIRCLE", "its layer is switched off"),
    ]
    assert found.lost == 6


@pytest.mark.parametrize("turn", [0.0, 30.0])
@pytest.mark.parametrize("scale", [(1, 1), (2, 2), (2, 0.5), (-1, 1)])
def test_inserted_blocks_lie_where_another_reckoning_puts_them(turn, scale):
    drawn = Drawn()
    block = drawn.file.blocks.new("Box", base_point=(1, 1))
    block.add_lwpolyline([(0, 0), (4, 0, 0, 0, 0.5), (4, 3), (0, 3)], close=True)
    block.add_circle((10, 0), 1, dxfattribs={"layer": "Rounds"})
    drawn.model.add_blockref(
        "Box",
        (100, 50),
        dxfattribs={"layer": "East", "rotation": turn, "xscale": scale[0], "yscale": scale[1]},
    )
    shapes = DxfDrawing(drawn.bytes).shapes(1.0)
    assert [shape.name for shape in shapes] == ["East", "Rounds"], (
        "what is on layer 0 has the layer of its place"
    )
    plain = [(0, 0), (4, 0, 0.5), (4, 3), (0, 3)]
    corners = np.array([(x, y, *(rest or [0])) for x, y, *rest in plain], dtype=float)
    moved = dxf_shapes.bulged(corners, True, 1e-4)
    place = (
        Matrix44.translate(-1, -1, 0)
        @ Matrix44.scale(*scale, 1)
        @ Matrix44.z_rotate(math.radians(turn))
        @ Matrix44.translate(100, 50, 0)
    )
    wanted = shapely.Polygon([one.vec2 for one in place.transform_vertices(moved)])
    ground = shapely.Polygon(shapes[0].rings[0])
    assert ground.symmetric_difference(wanted).area < 2 * SAGITTA * wanted.length
    assert shapely.Polygon(shapes[1].rings[0]).area == pytest.approx(
        math.pi * abs(scale[0] * scale[1]), rel=4e-3
    )


def test_rows_of_blocks_blocks_in_blocks_and_mirrored_ones():
    drawn = Drawn()
    inner = drawn.file.blocks.new("Inner")
    inner.add_lwpolyline(SQUARE, close=True)
    outer = drawn.file.blocks.new("Outer")
    outer.add_blockref("Inner", (10, 0))
    drawn.model.add_blockref(
        "Outer",
        (0, 0),
        dxfattribs={"column_count": 3, "row_count": 2, "column_spacing": 20, "row_spacing": 10},
    )
    shapes = DxfDrawing(drawn.bytes).shapes(1.0)
    corners = {tuple(shapely.Polygon(shape.rings[0]).bounds[:2]) for shape in shapes}
    assert corners == {(x, y) for x in (10, 30, 50) for y in (0, 10)}
    assert {shape.name for shape in shapes} == {"Outer"}
    mirrored = Drawn()
    mirrored.model.add_lwpolyline(SQUARE, close=True, dxfattribs={"extrusion": (0, 0, -1)})
    assert mirrored.ground().bounds == pytest.approx((-4, 0, 0, 3)), "x runs the other way seen from below"
    slanted = Drawn()
    slanted.model.add_circle((0, 0), 1, dxfattribs={"extrusion": (1, 0, 1)})
    (shape,) = DxfDrawing(slanted.bytes).shapes(1.0)
    assert shape.error == "it does not lie flat on the plan"


def test_blocks_that_hold_themselves_and_too_many_end():
    drawn = Drawn()
    block = drawn.file.blocks.new("Loop")
    block.add_blockref("Loop", (1, 0))
    block.add_circle((0, 0), 1)
    drawn.model.add_blockref("Loop", (0, 0), dxfattribs={"layer": "L"})
    assert 0 < len(DxfDrawing(drawn.bytes).shapes(1.0)) <= dxf_shapes.MOST_DEEP + 1
    many = Drawn()
    many.file.blocks.new("Box").add_lwpolyline(SQUARE, close=True)
    many.model.add_blockref(
        "Box",
        (0, 0),
        dxfattribs={"column_count": 300, "row_count": 300, "column_spacing": 9, "row_spacing": 9},
    )
    with pytest.raises(TableError, match="more than"):
        DxfDrawing(many.bytes).shapes(1.0)


def test_up_in_the_drawing_is_up_on_the_plan_beside_what_is_there():
    drawn = Drawn(4)
    for x, y, layer in ((0, 0, "Low"), (5000, 8000, "High")):
        corners = [(x, y), (x + 2000, y), (x + 2000, y + 1000), (x, y + 1000)]
        drawn.model.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})
    before = garden(bed("b1", rectangle(6.0, 3.0)))
    low, high = take_outlines(before, preview_dxf(drawn.bytes, before)).beds[1:]
    assert plan_polygon(low.outline).bounds[0] == pytest.approx(4.0)
    assert plan_polygon(high.outline).bounds[3] == pytest.approx(1.5), "tops in line"
    (lx, ly), (hx, hy) = low.outline.center, high.outline.center
    assert (hx - lx, hy - ly) == pytest.approx((5.0, 8.0))


def test_binary_files_are_read_too():
    drawn = Drawn()
    drawn.model.add_lwpolyline(SQUARE, close=True, dxfattribs={"layer": "Öl"})
    stream = io.BytesIO()
    drawn.file.write(stream, fmt="bin")
    (made,) = preview_dxf(stream.getvalue(), Garden()).beds
    assert (made.name, made.outline.length) == ("Öl", 4.0)


@pytest.mark.parametrize(
    "data", [b"", b"<svg/>", b"\x00" * 400, b"0\nSECTION\n2\nENT", bytes(range(256)) * 9]
)
def test_files_that_are_no_dxf_are_refused(data):
    with pytest.raises(TableError, match=r"no DXF|in what its numbers are"):
        preview_dxf(data, Garden())


def test_broken_files_are_repaired_or_refused_without_a_word_beside(capfd):
    drawn, chance = Drawn(), random.Random(3)
    drawn.model.add_lwpolyline([(0, 0), (4, 0, 0, 0, 0.5), (4, 3)], close=True)
    drawn.file.blocks.new("Box").add_circle((0, 0), 1)
    drawn.model.add_blockref("Box", (9, 9), dxfattribs={"rotation": 30})
    whole = drawn.bytes
    begin = whole.index(b"ENTITIES")
    refused = 0
    for number in range(24):
        at = chance.randrange(begin, len(whole) - 40)
        put = chance.choice([b"1e999\n", b"nan\n", b"-1\n", b"  0\nINSERT\n", b"\xff", b""])
        broken = whole[:at] if number % 6 == 0 else whole[:at] + put + whole[at + chance.randint(0, 20) :]
        try:
            preview_dxf(broken, Garden(), unit=1.0)
        except TableError:
            refused += 1
    assert 0 < refused < 24
    assert capfd.readouterr() == ("", "")


def test_it_is_said_when_the_reader_is_missing(monkeypatch):
    monkeypatch.setitem(__import__("sys").modules, "ezdxf", None)
    with pytest.raises(TableError, match=r"pip install ezdxf, or save the drawing as SVG"):
        preview_dxf(b"", Garden())
