"""What is spread on a bed, on its sheet and on the sheet of its week."""

from __future__ import annotations

import datetime as dt
import io

import numpy as np
import pytest
from making import bed, garden, planting
from paper_reading import TODAY, Paper

from planner.garden import Climate, Dressing, FrostDates, Site
from planner.plan import Plan
from planner.sheets.bed_sheets import write_bed_sheets
from planner.sheets.output import new_canvas
from planner.sheets.page_chrome import PAPERS
from planner.sheets.pen import Pen
from planner.sheets.text_blocks import BOX_SIDE, ticked_paragraph
from planner.sheets.week_sheets import write_week_sheets

D = dt.date
CLIMATE = Climate(last_frost=FrostDates(risk_50="05-01"), first_frost=FrostDates(risk_50="10-16"))


def plan() -> Plan:
    spread = (
        Dressing(id="d1", bed="b1", kind="compost", day=D(2026, 3, 14), depth=0.05),
        Dressing(id="d2", bed="b1", kind="lime", day=D(2026, 3, 16), rate=150, done=D(2026, 3, 17)),
        Dressing(id="d3", bed="b1", kind="lime", day=D(2025, 2, 14), rate=150),
    )
    made = garden(
        bed("b1", name="North"),
        planting(first=D(2026, 4, 5)),
        site=Site(name="Hollow Lane", latitude=52.0),
        climate=CLIMATE,
        dressings=spread,
    )
    return Plan(made, 2026)


def words(data: bytes) -> str:
    with Paper(data) as paper:
        return " ".join(" ".join(paper.text(number) for number in range(len(paper))).split())


def test_a_bed_s_sheet_lists_its_dressings_of_the_year():
    stream = io.BytesIO()
    write_bed_sheets(plan(), stream, today=TODAY)
    found = words(stream.getvalue())
    assert "On the whole bed, 14 Mar: compost, 5 cm deep, 288 l" in found
    assert "On the whole bed, 17 Mar: lime, 150 g/m², 864 g in all" in found
    assert "stands there" not in found
    assert found.count("lime, 150") == 1  # that of 2025 is not of this year


@pytest.mark.parametrize(
    ("last", "remark"),
    [
        (D(2026, 3, 20), "leek stands there until 20 Mar: spread around it, or afterwards"),
        (D(2026, 6, 1), "leek stands there: spread around it"),
        (D(2026, 3, 14), None),
    ],
)
def test_what_stands_where_a_whole_bed_is_dressed_is_said(last: dt.date, remark: str | None):
    made = plan().garden
    leek = planting("p2", "b1", crop="leek", year=2025, first=D(2025, 7, 8), last=last, start="raised")
    with_leek = Plan(made.model_copy(update={"plantings": (leek,)}), 2026)
    sheets = io.BytesIO(), io.BytesIO()
    write_bed_sheets(with_leek, sheets[0], today=TODAY)
    write_week_sheets(with_leek, sheets[1], D(2026, 3, 9), D(2026, 3, 22), today=TODAY)
    for sheet in sheets:
        found = words(sheet.getvalue())
        assert "leek stands there" not in found if remark is None else remark in found
        assert found.count("stands there") <= 1  # the lime is spread


def test_what_is_spread_on_a_whole_bed_has_a_box_of_its_own():
    paper = PAPERS["a4"]
    stream = io.BytesIO()
    with new_canvas(stream, paper, "t") as canvas:
        pen = Pen(canvas)
        top = 200.0
        for done in (False, True):
            for block in ticked_paragraph(paper, "On the whole bed", ticked=done):
                block.draw(pen, top)
                top -= block.height
        canvas.showPage()
    with Paper(stream.getvalue()) as page:
        sides = page.paths(0)
        square = np.abs((sides[:, 2:] - sides[:, :2]) - BOX_SIDE).max(axis=1) < 0.6
        assert square.sum() == 2
        assert len(sides) > 2  # the tick too


def test_a_crop_under_film_is_not_earthed_up_on_its_sheet():
    def on_paper(**fields: object) -> str:
        potato = planting(crop="potato", first=D(2026, 4, 15), **fields)
        made = garden(bed("b1", name="North"), potato, site=Site(latitude=52.0), climate=CLIMATE)
        stream = io.BytesIO()
        write_bed_sheets(Plan(made, 2026), stream, today=TODAY)
        return words(stream.getvalue())

    assert "earth up" in on_paper()
    assert "earth up" not in on_paper(covers=({"kind": "film"},))


def test_a_week_s_sheet_has_them_with_box_amount_and_caution():
    stream = io.BytesIO()
    write_week_sheets(plan(), stream, D(2026, 3, 9), D(2026, 3, 22), today=TODAY)
    found = words(stream.getvalue())
    assert "North 14 Mar* Spread compost 5 cm deep, 288 l (about 3 barrows)" in found
    assert "done 17 Mar" in found
    assert "burns eyes, lungs and wet skin" in found
