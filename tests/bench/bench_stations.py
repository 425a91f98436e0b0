"""Stations in any outline, against a loop that asks of each place whether the polygon contains it."""

from __future__ import annotations

import math
import sys
from pathlib import Path

import shapely

from planner.ground import lay_rows

sys.path.insert(0, str(Path(__file__).parent.parent))

from bench.figures import Measured, best, ms
from shapes_zoo import comb, regular, star

OUTLINES = {
    "L": shapely.Polygon([(0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10)]),
    "star": shapely.Polygon(star(7, 10, 5)),
    "comb": shapely.Polygon(comb(40, 1.0, 10.0)),
    "circle": shapely.Polygon(regular(1440, 5.0)),
}


def by_loop(plot: shapely.Polygon, spacing: float) -> int:
    """Stations laid the plain way: every place of the lattice about a polygon that it contains."""
    left, low, right, high = plot.bounds
    columns, rows = int((right - left) / spacing), int((high - low) / spacing)
    found = []
    for row in range(rows):
        y = low + (row + 0.5) * spacing
        for column in range(columns):
            x = left + (column + 0.5) * spacing
            if plot.contains(shapely.Point(x, y)):
                found.append((x, y))
    return len(found)


def measure() -> list[Measured]:
    """100,000 stations with the loop beside them, then a million."""
    lines = []
    for name, plot in OUTLINES.items():
        spacing = math.sqrt(plot.area / 100_000)
        ours = best(lambda p=plot, s=spacing: lay_rows(p, s, s), times=30)
        count = lay_rows(plot, spacing, spacing).count
        loop = best(lambda p=plot, s=spacing: by_loop(p, s), times=1)
        ratio = loop / ours
        lines.append(
            Measured(
                f"{count:,} stations, {name}",
                ms(ours),
                f"{loop:.2f} s loop",
                f"{ratio:,.0f}",
                "1,000 x the loop",
                ratio >= 1000,
            )
        )
    for name, plot in OUTLINES.items():
        spacing = math.sqrt(plot.area / 1_000_000)
        ours = best(lambda p=plot, s=spacing: lay_rows(p, s, s), times=30)
        count = lay_rows(plot, spacing, spacing).count
        rate = count / ours / 1e6
        lines.append(
            Measured(
                f"{count:,} stations, {name}",
                ms(ours),
                "",
                f"{rate:.0f} million/s",
                "50 million/s",
                rate >= 50,
            )
        )
    return lines


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
