"""The structure tree of PDFs, read with pikepdf and PDFium, which we did not write."""

from __future__ import annotations

import ctypes
import datetime as dt
import io
from collections import Counter
from collections.abc import Iterator
from typing import Any

import pikepdf
import pypdfium2
import pypdfium2.raw as raw
import pytest
from open_weather import with_weather
from sample_reading import sample

from planner.garden import edits as e
from planner.plan import Plan
from planner.sheets.kinds import SHEET_KINDS, SheetKind, SheetWish, write_sheets
from planner.sheets.label_formats import label_format
from planner.sheets.label_sheets import write_calibration
from planner.sheets.output import new_canvas
from planner.sheets.page_chrome import PAPERS
from planner.sheets.pen import Pen
from planner.sheets.plan_files import plan_pdf
from planner.sheets.plan_page import plan_page
from planner.sheets.poster import poster_wish
from planner.storage import load

DAY = dt.date(2026, 6, 20)
#: Roles that each kind of PDF has at the least.
ROLES = {
    "bed": {"H1", "H2", "P", "Table", "TR", "TH", "TD", "Figure"},
    "week": {"H1", "P", "Table", "TR", "TH", "TD"},
    "year": {"H1", "Figure"},
    "map": {"H1", "Table", "TR", "TH", "TD", "Figure"},
    "raising": {"H1", "H2", "Table", "TR", "TH", "TD"},
    "strip": {"Figure"},
    "poster": {"Figure"},
    "walk": {"H1", "Table", "TR", "TH", "TD"},
    "water": {"H1", "P", "Table", "TR", "TH", "TD"},
    "shopping": {"H1", "H2", "P", "Table", "TR", "TH", "TD"},
    "labels": {"P", "Figure"},
    "weather": {"H1", "P", "Figure"},
    "calibration": {"P"},
    "drawing": {"Figure"},
}


@pytest.fixture(scope="module")
def plan() -> Plan:
    raised = e.change_planting(load(sample("balcony_boxes")), "p7", start="raised")  # bought as it is
    return Plan(with_weather(raised), 2026)


@pytest.fixture(scope="module", params=[*SHEET_KINDS, "strip", "poster", "calibration", "drawing"])
def read(request, plan):
    """Each kind of PDF, and what it was made of."""
    stream, thing = io.BytesIO(), request.param
    if thing == "calibration":
        write_calibration(stream, label_format("a4-3x8"))
    elif thing == "drawing":
        stream.write(plan_pdf(plan_page(plan, DAY)))
    elif thing == "strip":
        write_sheets(plan, stream, SheetWish("map", strip=True), DAY)
    elif thing == "poster":
        write_sheets(plan, stream, SheetWish("map", poster=poster_wish("2x2")), DAY)
    else:
        kind: SheetKind = thing
        write_sheets(plan, stream, SheetWish(kind, codes=True), DAY)
    with pikepdf.open(stream) as pdf:
        yield thing, pdf, stream.getvalue()


def kids(element: Any) -> list[Any]:
    if "/K" not in element:
        return []
    found = element.K
    return list(found) if isinstance(found, pikepdf.Array) else [found]


def elements(element: Any) -> Iterator[Any]:
    """An element and all below it, each known by its parent."""
    yield element
    for kid in kids(element):
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            assert kid.P.objgen == element.objgen
            yield from elements(kid)


def pieces_of(element: Any, pages: dict[Any, int]) -> Iterator[tuple[int, int]]:
    """Page and number of the pieces that are the content of an element itself."""
    for kid in kids(element):
        if isinstance(kid, pikepdf.Dictionary):
            if kid.get("/Type") == "/MCR":
                yield pages[kid.Pg.objgen], int(kid.MCID)
        else:
            yield pages[element.Pg.objgen], int(kid)


def marked_on(page: pikepdf.Page) -> list[int]:
    """Numbers of the pieces of a page, which hold everything drawn but artifacts."""
    found, open_marks = [], []
    for operands, operator in pikepdf.parse_content_stream(page):
        match str(operator):
            case "BMC":
                open_marks.append(str(operands[0]))
            case "BDC":
                open_marks.append(str(operands[0]))
                if "/MCID" in operands[1]:
                    assert len(open_marks) == 1  # no piece is within another, nor within an artifact
                    found.append(int(operands[1].MCID))
            case "EMC":
                open_marks.pop()
            case "Tj" | "TJ" | "S" | "f" | "B" | "f*" | "B*" | "Do":
                assert open_marks, operator
    assert open_marks == []
    return found


def test_the_tree_is_reached_and_says_that_it_holds(read):
    thing, pdf, _ = read
    assert pdf.Root.MarkInfo.Marked is True
    top = pdf.Root.StructTreeRoot
    assert top.K.S == "/Document"
    roles = {str(one.S)[1:] for one in elements(top.K)}
    assert roles - {"Document"} >= ROLES.get(thing, {"P"})


def test_each_piece_of_each_page_is_in_the_tree_once(read):
    pdf = read[1]
    pages = {page.obj.objgen: number for number, page in enumerate(pdf.pages)}
    told = Counter(piece for one in elements(pdf.Root.StructTreeRoot.K) for piece in pieces_of(one, pages))
    marked = [(number, piece) for number, page in enumerate(pdf.pages) for piece in marked_on(page)]
    assert sorted(told) == sorted(marked)
    assert set(told.values()) == {1}


def test_each_piece_leads_back_to_its_element(read):
    pdf = read[1]
    pages = {page.obj.objgen: number for number, page in enumerate(pdf.pages)}
    numbers = list(pdf.Root.StructTreeRoot.ParentTree.Nums)
    by_page = {int(numbers[k]): numbers[k + 1] for k in range(0, len(numbers), 2)}
    for one in elements(pdf.Root.StructTreeRoot.K):
        for page, piece in pieces_of(one, pages):
            back = by_page[int(pdf.pages[page].obj.StructParents)][piece]
            assert back.objgen == one.objgen


#: Most lines of text on a page that are passed over: foot, scale to check the printer, north, a repeated head.
MOST_PASSED_OVER = 16


def test_no_text_is_passed_over_but_feet_and_repeated_heads(read):
    for page in read[1].pages:
        marks: list[str] = []
        passed_over = 0
        for operands, operator in pikepdf.parse_content_stream(page):
            if str(operator) in ("BMC", "BDC"):
                marks.append(str(operands[0]))
            elif str(operator) == "EMC":
                marks.pop()
            elif str(operator) == "ET":
                passed_over += "/Artifact" in marks
        assert passed_over <= MOST_PASSED_OVER


def test_tables_have_rows_of_cells_as_wide_as_each_other(read):
    for table in (one for one in elements(read[1].Root.StructTreeRoot.K) if one.S == "/Table"):
        widths = set()
        for row in kids(table):
            assert row.S == "/TR"
            assert {str(cell.S) for cell in kids(row)} <= {"/TH", "/TD"}
            widths.add(sum(int(cell.get("/A", {}).get("/ColSpan", 1)) for cell in kids(row)))
        assert len(widths) == 1
        assert any(cell.S == "/TH" and cell.A.Scope for row in kids(table) for cell in kids(row))


def test_pictures_are_told_in_words(read):
    thing, pdf, _ = read
    alts = [str(one.Alt) for one in elements(pdf.Root.StructTreeRoot.K) if one.S == "/Figure"]
    assert all(alts)
    if thing == "bed":
        assert alts[0] == "Drawing of the bed to scale: A Radish and B Butterhead lettuce"
    if thing in ("map", "drawing"):
        assert alts == [
            "Plan of Balcony boxes. As it grows on 20 Jun 2026. Black marks: stake. Scale 1 : 15."
        ]


def read_by_pdfium(data: bytes, number: int) -> list[tuple[str, int]]:
    """Role and depth of the elements on a page, as PDFium finds them."""
    document = pypdfium2.PdfDocument(data)
    page = document[number]
    tree = raw.FPDF_StructTree_GetForPage(page.raw)
    found: list[tuple[str, int]] = []

    def look(element: Any, depth: int) -> None:
        length = raw.FPDF_StructElement_GetType(element, None, 0)
        letters = (ctypes.c_char * length)()
        raw.FPDF_StructElement_GetType(element, letters, length)
        found.append((bytes(letters).decode("utf-16-le").rstrip("\0"), depth))
        for k in range(raw.FPDF_StructElement_CountChildren(element)):
            kid = raw.FPDF_StructElement_GetChildAtIndex(element, k)
            if kid:
                look(kid, depth + 1)

    for k in range(raw.FPDF_StructTree_CountChildren(tree)):
        look(raw.FPDF_StructTree_GetChildAtIndex(tree, k), 0)
    raw.FPDF_StructTree_Close(tree)
    document.close()
    return found


def test_another_reader_finds_the_same_tree(read):
    _, pdf, data = read
    there = Counter(role for role, _ in read_by_pdfium(data, 0))
    assert set(there) - {"Document"} <= {str(one.S)[1:] for one in elements(pdf.Root.StructTreeRoot.K)}
    pages = {page.obj.objgen: number for number, page in enumerate(pdf.pages)}
    first = Counter(
        str(one.S)[1:]
        for one in elements(pdf.Root.StructTreeRoot.K)
        if any(page == 0 for below in elements(one) for page, _ in pieces_of(below, pages))
    )
    assert there == first


# -- a canvas by itself -----------------------------------------------------------------------


def drawn(draw) -> pikepdf.Pdf:
    stream = io.BytesIO()
    with new_canvas(stream, PAPERS["a4"], "Tags") as canvas:
        draw(Pen(canvas), canvas)
    return pikepdf.open(stream)


def shape(element: Any) -> Any:
    """Role and number of pieces of an element, and the elements below it."""
    below = [kid for kid in kids(element) if isinstance(kid, pikepdf.Dictionary) and "/S" in kid]
    return (str(element.S)[1:], len(kids(element)) - len(below), [shape(kid) for kid in below])


def test_what_goes_on_over_pages_is_one_element():
    def draw(pen: Pen, canvas: Any) -> None:
        for page in range(2):
            with pen.heads("t"), pen.head_cell():
                pen.text(10, 200, "Head")
            with pen.row("t"), pen.cell():
                pen.text(10, 100, "Cell")
            with pen.tagged("P", "words"):
                pen.text(10, 50, f"line {page}")
            if page == 0:
                with pen.tagged("P", "words"):
                    pen.text(10, 40, "more")
            canvas.showPage()

    with drawn(draw) as pdf:
        table = ("Table", 0, [("TR", 0, [("TH", 1, [])]), ("TR", 0, [("TD", 1, [])])])
        assert shape(pdf.Root.StructTreeRoot.K) == ("Document", 0, [table, ("P", 2, []), table, ("P", 1, [])])

    def goes_on(pen: Pen, canvas: Any) -> None:
        for _ in range(2):
            with pen.heads("t"), pen.head_cell():
                pen.text(10, 200, "Head")
            with pen.row("t"), pen.grouped("TD"), pen.tagged("P"):
                pen.text(10, 100, "Cell")
            canvas.showPage()
        with pen.tagged("P"):
            pass
        canvas.showPage()

    with drawn(goes_on) as pdf:
        cell = ("TR", 0, [("TD", 0, [("P", 1, [])])])
        table = ("Table", 0, [("TR", 0, [("TH", 1, [])]), cell, cell])
        assert shape(pdf.Root.StructTreeRoot.K) == ("Document", 0, [table])
        assert [marked_on(page) for page in pdf.pages] == [[0, 1], [0], []]


def test_what_is_drawn_within_a_picture_is_part_of_it_and_the_rest_is_passed_over():
    def draw(pen: Pen, canvas: Any) -> None:
        pen.line(0, 0, 10, 10)
        with pen.tagged("Figure", alt="A “bed” \U0001f955"), pen.row("t"), pen.cell():
            pen.text(10, 100, "A")
        pen.line(0, 0, 10, 10)
        canvas.showPage()
        pen.line(0, 0, 10, 10)
        canvas.showPage()

    with drawn(draw) as pdf:
        assert shape(pdf.Root.StructTreeRoot.K) == ("Document", 0, [("Figure", 1, [])])
        assert str(pdf.Root.StructTreeRoot.K.K.Alt) == "A “bed” \U0001f955"
        assert [marked_on(page) for page in pdf.pages] == [[0], []]
        assert "/StructParents" not in pdf.pages[1].obj
