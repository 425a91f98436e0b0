"""What PDFs say about themselves, read with pikepdf, which we did not write."""

from __future__ import annotations

import datetime as dt
import gettext
import io

import pikepdf
import pytest
from open_weather import with_weather
from sample_reading import sample

from planner.garden import edits as e
from planner.plan import Plan
from planner.sheets.kinds import SHEET_KINDS, SheetKind, SheetWish, write_sheets
from planner.sheets.label_formats import label_format
from planner.sheets.label_sheets import write_calibration
from planner.sheets.pdf_metadata import made_at
from planner.sheets.plan_files import plan_pdf
from planner.sheets.plan_page import plan_page
from planner.storage import load
from planner.words import use_translations

TODAY = dt.date(2026, 6, 20)
MOMENT = dt.datetime(2026, 6, 20, 8, 15, 30, tzinfo=dt.timezone(-dt.timedelta(hours=5, minutes=30)))
#: Bookmarks of each kind of PDF of the smallest sample: the first, and how many at the least.
BOOKMARKS = {
    "bed": ("Box left", 3),
    "week": ("30 Mar – 5 Apr 2026", 10),
    "year": ("Box left", 3),
    "map": ("Map", 3),
    "walk": ("Box left", 3),
    "water": ("Box left", 2),
    "shopping": ("Seed", 2),
    "labels": ("Box left", 3),
    "weather": ("Balcony boxes: the weather of a year, 2012 to 2015", 1),
    "calibration": ("Calibration of labels", 1),
    "drawing": ("Balcony boxes", 1),
}


@pytest.fixture(scope="module")
def plan() -> Plan:
    raised = e.change_planting(load(sample("balcony_boxes")), "p7", start="raised")  # bought as it is
    return Plan(with_weather(raised), 2026)


def written(plan: Plan, thing: str) -> bytes:
    stream = io.BytesIO()
    if thing == "calibration":
        write_calibration(stream, label_format("a4-3x8"))
    elif thing == "drawing":
        return plan_pdf(plan_page(plan, TODAY))
    else:
        kind: SheetKind = thing  # type: ignore[assignment]
        write_sheets(plan, stream, SheetWish(kind), TODAY)
    return stream.getvalue()


@pytest.fixture(scope="module", params=[*SHEET_KINDS, "calibration", "drawing"])
def read(request, plan):
    """Each kind of PDF, and what it was made of."""
    with made_at(MOMENT):
        data = written(plan, request.param)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        yield request.param, pdf


def test_every_pdf_is_sound(read):
    assert read[1].check_pdf_syntax() == []


def test_title_and_language(read):
    thing, pdf = read
    title = str(pdf.docinfo.Title)
    assert title == ("Calibration of labels" if thing == "calibration" else title)
    assert thing == "calibration" or title.startswith("Balcony boxes")
    assert str(pdf.Root.Lang) == "en"
    meta = pdf.open_metadata()
    assert meta["dc:title"] == title
    assert meta["dc:language"] == {"en"}
    assert meta["dc:format"] == "application/pdf"


def test_nothing_is_said_that_is_not_known(read):
    pdf = read[1]
    assert set(pdf.docinfo) == {"/Title", "/Creator", "/Producer", "/CreationDate", "/ModDate"}
    assert "dc:creator" not in pdf.open_metadata()


def test_made_when_and_by_what(read):
    pdf = read[1]
    assert str(pdf.docinfo.CreationDate) == "D:20260620081530-05'30'"
    assert str(pdf.docinfo.Creator).startswith("Bedwright ")
    meta = pdf.open_metadata()
    assert dt.datetime.fromisoformat(meta["xmp:CreateDate"]) == MOMENT
    assert meta["pdf:Producer"] == str(pdf.docinfo.Producer)
    assert str(pdf.docinfo.Producer).startswith("ReportLab ")


def test_printed_as_it_is(read):
    wishes = read[1].Root.ViewerPreferences
    assert wishes.PrintScaling == "/None"
    assert wishes.DisplayDocTitle is True


def test_bookmarks(read):
    thing, pdf = read
    with pdf.open_outline() as outline:
        names = [entry.title for entry in outline.root]
        places = [entry.destination[0] for entry in outline.root]
    first, least = BOOKMARKS.get(thing, ("", 1))
    assert len(names) >= least
    assert len(set(names)) == len(names)
    assert names[0].startswith(first)
    pages = [place.objgen for place in places]
    known = [page.obj.objgen for page in pdf.pages]
    assert sorted(pages, key=known.index) == pages


def test_every_font_is_in_the_file(read):
    found = 0
    for thing in read[1].objects:
        if isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/Font":
            assert "/FontFile2" in thing.FontDescriptor, thing
            found += 1
    assert found
    for page in read[1].pages:
        named = set(page.Resources.Font.keys())
        used = {str(one.operands[0]) for one in pikepdf.parse_content_stream(page, "Tf")}
        assert used
        assert used <= named


@pytest.mark.parametrize("thing", ["map", "drawing"])
def test_without_a_moment_the_same_bytes(plan, thing):
    data = written(plan, thing)
    assert data == written(plan, thing)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert "/CreationDate" not in pdf.docinfo
        assert "xmp:CreateDate" not in pdf.open_metadata()


def test_language_of_the_program_is_that_of_the_sheets(plan):
    other = gettext.NullTranslations()
    other._info = {"language": "pt_BR"}
    before = use_translations(other)
    try:
        with pikepdf.open(io.BytesIO(written(plan, "calibration"))) as pdf:
            assert str(pdf.Root.Lang) == "pt-BR"
            assert pdf.open_metadata()["dc:language"] == {"pt-BR"}
    finally:
        use_translations(before)


def test_signs_that_xml_has_not_do_not_break_the_metadata(plan):
    site = plan.garden.site.model_copy(update={"name": "A & B <c> \x07 “ü”"})
    odd = Plan(plan.garden.model_copy(update={"site": site}), 2026)
    with pikepdf.open(io.BytesIO(written(odd, "drawing"))) as pdf:
        assert pdf.open_metadata()["dc:title"] == "A & B <c>  “ü”"
