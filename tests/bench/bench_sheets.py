"""Bed sheets of 40 beds and 20,000 stations, against one circle operator for each station; the preview; the drawn plan."""

from __future__ import annotations

import datetime as dt
import io
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from bench.figures import Measured, best, ms

from planner.checks import check_all
from planner.garden import Bed, Garden, Planting, Rectangle, Rows, Stretch
from planner.ground.bed_frame import BedFrame
from planner.plan import Plan
from planner.plan.fullest_day import fullest_day
from planner.sheets.bed_sheets import write_bed_sheets
from planner.sheets.fonts import MM
from planner.sheets.kinds import SheetWish, parts_of, write_sheets
from planner.sheets.plan_files import plan_svg
from planner.sheets.plan_page import plan_page

CROPS = ("carrot", "onion", "beetroot", "lettuce", "spinach")
BEDS = 40
TODAY = dt.date(2026, 3, 1)


def sheet_garden(beds: int = BEDS) -> Garden:
    """Beds of 5 m x 1.2 m with two plots of 250 plants each."""
    ground = tuple(
        Bed(id=f"b{i}", name=f"Range {i}", outline=Rectangle(length=5.0, width=1.2, center=(0, 2.0 * i)))
        for i in range(beds)
    )
    plantings = tuple(
        Planting(
            id=f"p{i}-{k}",
            bed=f"b{i}",
            crop=CROPS[(2 * i + k) % len(CROPS)],
            year=2026,
            plot=Stretch(start=2.5 * k, end=2.5 * k + 2.5),
            arrangement=Rows(in_row_spacing=0.1, row_spacing=0.12),
        )
        for i in range(beds)
        for k in range(2)
    )
    return Garden(beds=ground, plantings=plantings)


def sheets(garden: Garden) -> bytes:
    """The sheets, the plan worked out anew."""
    stream = io.BytesIO()
    write_bed_sheets(Plan(garden, 2026), stream, today=TODAY)
    return stream.getvalue()


def circles(garden: Garden) -> bytes:
    """The baseline: a page a bed with a circle operator for each station, and nothing else."""
    from reportlab.pdfgen.canvas import Canvas

    stream, plan = io.BytesIO(), Plan(garden, 2026)
    canvas = Canvas(stream, pagesize=(595, 842), invariant=1, pageCompression=1)
    for bed in plan.beds:
        frame = BedFrame(bed)
        for planting in plan.in_bed(bed):
            for x, y in frame.points(plan.placed(planting).layout.points).tolist():
                canvas.circle(50 + x * 1000 / 30 * MM, 600 + y * 1000 / 30 * MM, 4, stroke=1, fill=0)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def first_page(plan: Plan) -> None:
    """The first page of bed sheets as the Print page's preview shows it; the checks of the plan have run before."""
    import pypdfium2

    stream = io.BytesIO()
    write_sheets(plan, stream, next(parts_of(plan, SheetWish())), TODAY)
    with pypdfium2.PdfDocument(stream.getvalue()) as document:
        document[0].render(scale=1.5)


def preview(beds: int) -> Measured:
    """The preview's first page, of a plan that the window has checked."""

    found = []
    for _ in range(3):
        plan = Plan(sheet_garden(beds), 2026)
        check_all(plan)
        begun = time.perf_counter()
        first_page(plan)
        found.append(time.perf_counter() - begun)
    seconds = min(found)
    return Measured(
        f"preview of bed sheets, {beds} beds: first page", ms(seconds), "", "", "200 ms", seconds < 0.2
    )


def field(beds: int = 1500) -> Garden:
    """Beds of 4.8 m x 1.2 m side by side, with four plots each: their names hardly find room on a page."""
    ground = tuple(
        Bed(
            id=f"b{i}",
            name=f"Field {i // 30 + 1} bed {i % 30 + 1}",
            outline=Rectangle(length=4.8, width=1.2, center=(5.4 * (i % 30), 1.8 * (i // 30))),
        )
        for i in range(beds)
    )
    plantings = tuple(
        Planting(
            id=f"p{i}-{k}",
            bed=f"b{i}",
            crop=CROPS[(3 * i + k) % len(CROPS)],
            year=2026,
            plot=Stretch(start=1.2 * k, end=1.2 * k + 1.2),
        )
        for i in range(beds)
        for k in range(4)
    )
    return Garden(beds=ground, plantings=plantings)


def _plan_as_svg(plan: Plan) -> str:
    return plan_svg(plan_page(plan, fullest_day(plan)))


def drawn() -> Measured:
    """The plan of very many beds as SVG, worked out anew."""
    garden = field()
    seconds = best(
        lambda: _plan_as_svg(Plan(garden, 2026)),
        times=2,
    )
    work = f"plan of {len(garden.beds):,} beds, {len(garden.plantings):,} plantings as SVG"
    return Measured(work, f"{seconds:.1f} s", "", "", "10 s", seconds < 10.0)


def measure() -> list[Measured]:
    """Seconds and KiB of the sheets beside the baseline's."""
    garden = sheet_garden()
    plan = Plan(garden, 2026)
    stations = sum(plan.placed(planting).plants for planting in plan.plantings)
    seconds = best(lambda: sheets(garden), times=5)
    base_seconds = best(lambda: circles(garden), times=3)
    size, base_size = len(sheets(garden)) / 1024, len(circles(garden)) / 1024
    work = f"sheets of {len(plan.beds)} beds, {stations:,} stations"
    return [
        Measured(
            work,
            f"{seconds:.2f} s",
            f"{base_seconds:.2f} s, stations only",
            f"{base_seconds / seconds:.1f}",
            "1 s",
            seconds < 1.0,
        ),
        Measured(
            work,
            f"{size:.0f} KiB",
            f"{base_size:.0f} KiB",
            f"{base_size / size:.1f}",
            "300 KiB",
            size < 300,
        ),
        preview(40),
        preview(216),
        drawn(),
    ]


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
