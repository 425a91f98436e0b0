"""The support of a planting: which lines each kind follows."""

from __future__ import annotations

from dataclasses import replace

import shapely

from planner.crops import Crop
from planner.garden import Support
from planner.ground.built_support import FRAME_WIDTH, BuiltSupport, build_along
from planner.ground.layout import Layout, Row
from planner.ground.shapes import turned
from planner.ground.support_lines import drawn_lines, lines_over_plot, lines_through_plants
from planner.ground.support_materials import Material, add_up, level_net_materials, line_materials

#: Supports with a string or pole for each plant.
_BY_PLANTS = ("strings", "frame", "tower")


def built_support(
    support: Support, layout: Layout, plot: shapely.Geometry, *, level: bool = False
) -> BuiltSupport:
    """Build the support of a planting, in its bed's coordinates.

    A support with a drawn line follows that, in as many lines as it has.  Otherwise stakes and cages are at every plant,
    and an arch follows the middle of the plot.  All others are in as many lines as they have; if that is not given,
    sticks, nets, wires, panels and strings follow every row, or the lines in which plants were set singly, an A-frame is over each two neighbouring rows, and towers follow the
    middle of the plot.

    Parameters
    ----------
    support : Support
    layout : Layout
    plot : shapely.Geometry
        In the bed's coordinates. [m]
    level : bool
        Its net lies level over the plot, as over flowers that grow up through it.
    """
    if level and support.kind == "net" and not support.line:
        built = built_support(support, layout, plot)
        sizes = _level_sizes(layout, plot)
        materials = level_net_materials(sizes, support.height, support.spacing)
        return replace(built, materials=materials, level=sizes)
    rows = [shapely.LineString([row.start, row.end]) for row in layout.rows]
    kind, height, spacing = support.kind, support.height, support.spacing
    if support.line:
        at = layout.points if kind in ("stake", "cage", *_BY_PLANTS) else None
        return build_along(kind, drawn_lines(support), height, spacing, stations=at)
    if support.lines is not None and kind not in ("stake", "cage", "arch"):
        at = layout.points if kind in _BY_PLANTS else None
        return build_along(kind, lines_over_plot(support, layout, plot), height, spacing, stations=at)
    if kind in ("tower", "arch"):
        at = layout.points if kind == "tower" and layout.count else None
        return build_along(kind, _middle_lines(plot), height, spacing, stations=at)
    if kind in ("stake", "cage"):
        return build_along(kind, rows, height, spacing, stations=layout.points)
    if not rows:
        rows = (lines_through_plants(layout) if kind != "frame" else []) or _middle_lines(plot)
    elif kind == "frame":
        return _frames(layout, height, spacing)
    at = layout.points if kind in _BY_PLANTS else None
    return build_along(kind, rows, height, spacing, stations=at)


def nets_lie_level(crop: Crop | None) -> bool:
    """Whether a crop's nets lie level over it: flowers for cutting that do not climb grow up through them (practice)."""
    product = crop.product if crop is not None else None
    return (
        crop is not None
        and crop.growth_form != "climber"
        and product is not None
        and product.value == "flowers"
    )


def _frames(layout: Layout, height: float, spacing: float | None) -> BuiltSupport:
    """Build an A-frame over each pair of rows; a row in several pieces, or left over, gets one of its own."""
    by_row: dict[int, list[Row]] = {}
    for row in layout.rows:
        by_row.setdefault(row.index, []).append(row)
    numbers = sorted(by_row)
    shapes: list[shapely.Geometry] = []
    lines: list[shapely.LineString] = []
    materials: list[Material] = []
    while numbers:
        of_rows = by_row[numbers.pop(0)]
        if numbers and len(of_rows) == len(by_row[numbers[0]]) == 1:
            of_rows = [*of_rows, *by_row[numbers.pop(0)]]
            pair = list(map(_line, of_rows))
            shapes.append(shapely.convex_hull(shapely.union_all(pair)))
            width, length = float(pair[0].distance(pair[1])), max(float(line.length) for line in pair)
            lines += pair
            plants = sum(row.count for row in of_rows)
            materials += line_materials("frame", [length], height, spacing, width, plants)
        else:
            one = list(map(_line, of_rows))
            single = build_along("frame", one, height, spacing)
            shapes.append(single.over)
            lines += one
            for row, line in zip(of_rows, one, strict=True):
                length = float(line.length)
                materials += line_materials("frame", [length], height, spacing, FRAME_WIDTH, row.count)
    over = shapely.union_all(shapes)
    return BuiltSupport("frame", over, over, height, tuple(lines), materials=add_up(materials))


def _line(row: Row) -> shapely.LineString:
    return shapely.LineString([row.start, row.end])


def _level_sizes(layout: Layout, plot: shapely.Geometry) -> tuple[tuple[float, float], ...]:
    """Length and width of the level net over each piece of a plot, along its rows. [m]"""
    found = []
    for part in shapely.get_parts(turned(plot, -layout.direction)):
        if shapely.is_empty(part):  # a plot beyond its bed
            continue
        left, low, right, high = shapely.bounds(part).tolist()
        sides = sorted((right - left, high - low), reverse=True)
        found.append((round(sides[0], 6), round(sides[1], 6)))
    return tuple(found)


def _middle_lines(plot: shapely.Geometry) -> list[shapely.LineString]:
    """The line along the middle of each piece of a plot, in the direction of its longer side."""
    found = []
    for part in shapely.get_parts(plot):
        corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(part))
        if len(corners) < 5:
            continue
        sides = [(corners[i] + corners[i + 1]) / 2 for i in range(4)]
        one, other = shapely.LineString([sides[0], sides[2]]), shapely.LineString([sides[1], sides[3]])
        line = shapely.intersection(max(one, other, key=lambda way: float(way.length)), part)
        found += [piece for piece in shapely.get_parts(line) if piece.geom_type == "LineString"]
    return found
