"""The support of a planting: which lines each kind follows."""

from __future__ import annotations

import shapely

from planner.garden import Support
from planner.ground.built_support import BuiltSupport, build_along
from planner.ground.layout import Layout
from planner.ground.support_lines import drawn_lines, lines_over_plot
from planner.ground.support_materials import Material, add_up, line_materials


def built_support(support: Support, layout: Layout, plot: shapely.Geometry) -> BuiltSupport:
    """Build the support of a planting, in its bed's coordinates.

    A support with a drawn line follows that, in as many lines as it has.  Otherwise stakes and cages are at every plant,
    and an arch follows the middle of the plot.  All others are in as many lines as they have; if that is not given,
    sticks, nets, wires, panels and strings follow every row, an A-frame is over each two neighbouring rows, and towers follow the
    middle of the plot.

    Parameters
    ----------
    support : Support
    layout : Layout
    plot : shapely.Geometry
        In the bed's coordinates. [m]
    """
    rows = [shapely.LineString([row.start, row.end]) for row in layout.rows]
    kind, height, spacing = support.kind, support.height, support.spacing
    if support.line:
        at = layout.points if kind in ("stake", "cage", "strings") else None
        return build_along(kind, drawn_lines(support), height, spacing, stations=at)
    if support.lines is not None and kind not in ("stake", "cage", "arch"):
        at = layout.points if kind == "strings" else None
        return build_along(kind, lines_over_plot(support, layout, plot), height, spacing, stations=at)
    if kind in ("tower", "arch"):
        return build_along(kind, _middle_lines(plot), height, spacing)
    if kind in ("stake", "cage"):
        return build_along(kind, rows, height, spacing, stations=layout.points)
    if not rows:
        rows = _middle_lines(plot)
    elif kind == "frame":
        return _frames(layout, height, spacing)
    at = layout.points if kind == "strings" else None
    return build_along(kind, rows, height, spacing, stations=at)


def _frames(layout: Layout, height: float, spacing: float | None) -> BuiltSupport:
    """Build an A-frame over each pair of rows; a row in several pieces, or left over, gets one of its own."""
    by_row: dict[int, list[shapely.LineString]] = {}
    for row in layout.rows:
        by_row.setdefault(row.index, []).append(shapely.LineString([row.start, row.end]))
    numbers = sorted(by_row)
    shapes: list[shapely.Geometry] = []
    lines: list[shapely.LineString] = []
    materials: list[Material] = []
    while numbers:
        one = by_row[numbers.pop(0)]
        if numbers and len(one) == len(by_row[numbers[0]]) == 1:
            pair = [*one, *by_row[numbers.pop(0)]]
            shapes.append(shapely.convex_hull(shapely.union_all(pair)))
            width, length = float(pair[0].distance(pair[1])), max(float(line.length) for line in pair)
            lines += pair
            materials += line_materials("frame", [length], height, spacing, width)
        else:
            single = build_along("frame", one, height, spacing)
            shapes.append(single.over)
            lines += one
            materials += single.materials
    over = shapely.union_all(shapes)
    return BuiltSupport("frame", over, over, height, tuple(lines), materials=add_up(materials))


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
