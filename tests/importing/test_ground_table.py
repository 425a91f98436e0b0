"""Beds and plantings from a table: what is read, what is told of what is not, and one edit."""

from __future__ import annotations

import datetime as dt
import io

import openpyxl
import pytest
from making import bed, garden, planting, rectangle

from planner.crops.german_names import OTHER_NAMES, crop_in_german
from planner.garden import Garden, Rectangle, Site, Stretch
from planner.garden.arrangements import Rows
from planner.importing import workbook_rows
from planner.importing.ground_columns import column_of
from planner.importing.ground_table import preview, take
from planner.importing.table_text import TableError

D = dt.date
TABLE = """Beet;Length (cm);Width (cm);Crop;Variety;Sown;Planted;Colour;From;To;Spacing
Long bed;480;120;carrot;Long Hallow;10.4.2026;;red;0;2,4;5
long bed;;;leek;;1.3.2026;20.5.2026;;2,4 m;4,8 m;
Short bed;200;80;;;;;;;;
"""


def read(text: str | bytes, catalogue, document: Garden | None = None, **choice):
    data = text.encode() if isinstance(text, str) else text
    return preview(data, document or Garden(), catalogue, 2026, **choice)


def workbook(rows, title: str = "Plan", before: tuple[str, ...] = ()) -> bytes:
    book = openpyxl.Workbook()
    for name in before:
        book.create_sheet(name, 0)
    sheet = book["Sheet"]
    sheet.title = title
    for row in rows:
        sheet.append(row)
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def test_german_tables_are_understood(catalogue):
    table = (
        "Beetname;Länge in m;Breite in cm;Beetart;Gemüse;Anbau;Aussaat;Gepflanzt am;Abstand (cm);Von;Bis;Farbe\n"
        "N1;4,80;120;Hochbeet;Möhren;Direktsaat;15. März;;5;0;2,4;rot\n"
        "N1;;;;Karotte;;1.4.2026;20.5.2026;;2,4;4,8;\n"
        "N1;;;;Weisskohl;Jungpflanzen;;;;;;\n"
    )
    for data in (table.encode(), table.encode("cp1252")):
        found = read(data, catalogue)
        assert not found.bad
        assert [column.text for column in found.columns if not column.means] == ["Farbe"]
        (made,) = found.beds
        assert (made.outline.length, made.outline.width, made.kind) == (4.8, 1.2, "raised")
        assert [(one.crop, one.start) for one in found.plantings] == [
            ("carrot", "sown"),
            ("carrot", "raised"),
            ("cabbage", "bought"),
        ]
        assert found.plantings[0].arrangement.in_row_spacing == 0.05
        assert found.plantings[0].pinned_dates.sow == D(2026, 3, 15)
        assert "'Möhren' is taken for carrot" in found.rows[0].notes


@pytest.mark.parametrize(
    ("heading", "means", "unit"),
    [
        ("Length [feet]", "length", "ft"),
        ("Width, inches", "width", "in"),
        ("Spacing in inches", "spacing", "in"),
        ("Spacing in", "spacing", "in"),
        ("Länge in m", "length", "m"),
        ("row_spacing_cm", "row spacing", "cm"),
        ("Breite (Fuß)", "width", "ft"),
        ("Plant out", "set out", ""),
        ("Reihen", "rows", ""),
        ("Inches", "", ""),
    ],
)
def test_headings_with_their_units(heading, means, unit):
    found = column_of(heading)
    assert (found.means, found.unit) == (means, unit)


def test_a_chosen_heading_keeps_its_unit(catalogue):
    found = read("Bed,Lang (cm),Width (ft)\nA,480,4\n", catalogue, choice={"lang (cm)": "length"})
    (made,) = found.beds
    assert (made.outline.length, made.outline.width) == pytest.approx((4.8, 1.2192))


def test_every_other_german_name_leads_to_one_crop(catalogue):
    for name, others in OTHER_NAMES.items():
        keys = {crop_in_german(catalogue, one).key for one in (name, *others)}
        assert len(keys) == 1, name
    for crop in catalogue.crops.values():
        if crop.german is not None:
            assert crop_in_german(catalogue, crop.german.value) is crop
    assert crop_in_german(catalogue, "Salat") is None


def test_beds_and_plantings_come_from_one_table(catalogue):
    found = read(TABLE, catalogue, choice={"beet": "bed"})
    assert not found.bad
    assert [(c.text, c.means) for c in found.columns if not c.means] == [("Colour", "")]
    after = take(Garden(), found)
    long, short = after.beds
    assert (long.name, long.outline.length, long.outline.width) == ("Long bed", 4.8, 1.2)
    assert (short.outline.length, short.outline.width) == (2.0, 0.8)
    carrot, leek = after.plantings
    assert (carrot.bed, carrot.crop, carrot.variety, carrot.year) == (long.id, "carrot", "Long Hallow", 2026)
    assert carrot.pinned_dates.sow == D(2026, 4, 10)
    assert carrot.plot == Stretch(start=0, end=2.4)
    assert carrot.arrangement == Rows(in_row_spacing=0.05)
    assert (leek.start, leek.pinned_dates.set_out) == ("raised", D(2026, 5, 20))
    assert leek.plot == Stretch(start=2.4, end=4.8)


def test_new_beds_lie_beside_what_is_there_and_not_on_each_other(catalogue):
    import shapely

    from planner.ground.shapes import plan_polygon

    lines = ["bed,length,width", *(f"B{k},4.8,1.2" for k in range(30))]
    before = garden(bed("b7", rectangle(6.0, 3.0, center=(2.0, 1.0)), name="Old"))
    after = take(before, read("\n".join(lines), catalogue, before))
    grounds = [plan_polygon(one.outline) for one in after.beds]
    assert len(grounds) == 31
    for k, one in enumerate(grounds):
        assert all(shapely.distance(one, other) >= 0.99 for other in grounds[:k])
    assert [one.id for one in after.beds[1:3]] == ["b8", "b9"]
    assert len({one.id for one in after.beds}) == 31


def test_a_place_that_is_given_is_kept(catalogue):
    found = read("bed,length,width,x,y,turn\nA,4,1,10.5,-3,30°", catalogue)
    assert found.beds[0].outline == Rectangle(center=(10.5, -3.0), length=4.0, width=1.0, turn=30.0)


def test_lengths_and_days_are_read_in_the_units_of_the_garden(catalogue, monkeypatch):
    monkeypatch.setenv("LC_ALL", "en_US.UTF-8")
    american = Garden(site=Site(units="feet_inches"))
    found = read("bed,length,width,crop,sown,spacing\nA,8,4 ft,carrot,4/5/2026,3", catalogue, american)
    assert found.beds[0].outline.length == pytest.approx(8 * 0.3048)
    assert found.plantings[0].pinned_dates.sow == D(2026, 4, 5)
    assert found.plantings[0].arrangement.in_row_spacing == pytest.approx(0.0762)


@pytest.mark.parametrize(
    ("row", "error"),
    [
        (",4,1,carrot,,", "no bed is named"),
        ("Z,,,carrot,,", "there is no bed 'Z'"),
        ("A,4,,carrot,,", "a length and a width"),
        ("A,4,x,carrot,,", "'x' is no length"),
        ("A,4,1,xyzzy,,", "no crop is called 'xyzzy'"),
        ("A,4,1,carrot,31.2.2026,", "31"),
        ("A,4,1,carrot,,late", "'late' is no whole number"),
        ("A,4,1,carrot,,2026,more", "7 cells under 6 headings"),
        ("A,0,1,carrot,,", "length"),
        ('A,4,1,"carrot,,', "quotation mark"),
    ],
)
def test_what_cannot_be_read_is_told_by_its_line(catalogue, row, error):
    found = read(f"bed,length,width,crop,sown,year\nB,4,1,pea,,\n{row}", catalogue)
    (bad,) = found.bad
    assert bad.line == 3
    assert error in bad.error
    assert bad.mend
    assert [one.name for one in found.beds] == ["B"], "the good rows are there"


def test_beds_that_are_there_keep_their_size_and_their_plantings(catalogue):
    before = garden(bed("b1", name="North"), planting("p1", year=2026))
    found = read("bed,length,width,crop\nnorth,4.8,1.2,carrot\nb1,9,9,pea", catalogue, before)
    assert not found.bad
    assert not found.beds
    assert "there is such a planting already" in " ".join(found.rows[0].notes)
    assert "keeps its size" in " ".join(found.rows[1].notes)
    after = take(before, found)
    assert [one.id for one in after.plantings] == ["p1", "p2", "p3"]
    assert after.plantings[0] is before.plantings[0]


def test_nothing_good_changes_nothing(catalogue):
    document = garden(bed())
    assert take(document, read("bed,crop\nX,carrot", catalogue, document)) is document


def test_a_workbook_is_read_as_its_table(catalogue):
    rows = [
        ["Bed", "Length", "Width", "Crop", "Sown", "Year"],
        ["A", 4.8, 1.2, "carrot", dt.datetime(2026, 4, 10), 2026],
        [None, None, None],
        ["A", None, None, "unknown thing", None, None],
    ]
    found = read(workbook(rows, before=("Notes",)), catalogue, sheet="plan")
    assert found.beds[0].outline.length == 4.8
    assert found.plantings[0].pinned_dates.sow == D(2026, 4, 10)
    assert [row.line for row in found.bad] == [4]
    csv = "Bed,Length,Width,Crop,Sown,Year\nA,4.8,1.2,carrot,2026-04-10,2026\n,,\nA,,,unknown thing,,\n"
    assert read(csv, catalogue).plantings == found.plantings


def test_a_sheet_that_is_not_there_is_told(catalogue):
    with pytest.raises(TableError, match="Its sheets are Notes and Plan"):
        read(workbook([["bed"]], before=("Notes",)), catalogue, sheet="Beds")
    with pytest.raises(TableError, match="the sheet is empty"):
        read(workbook([], before=("Notes",)), catalogue)


@pytest.mark.parametrize("data", [b"PK\x03\x04broken", workbook([["bed"]])[:-300], workbook([["bed"]])[:200]])
def test_broken_workbooks_are_told(catalogue, data):
    with pytest.raises(TableError, match="no workbook that can be read"):
        read(data, catalogue)


def test_a_workbook_that_unpacks_without_end_is_refused(catalogue, monkeypatch):
    monkeypatch.setattr(workbook_rows, "MOST_UNPACKED", 1_000)
    with pytest.raises(TableError, match="too large"):
        read(workbook([["bed"]]), catalogue)


def test_without_openpyxl_it_is_said_how_to_go_on(catalogue, monkeypatch):
    import sys

    monkeypatch.setitem(sys.modules, "openpyxl", None)
    with pytest.raises(TableError, match="pip install openpyxl, or save the sheet as CSV"):
        read(workbook([["bed"]]), catalogue)


@pytest.mark.parametrize(
    ("text", "choice", "error"),
    [
        ("crop,year\ncarrot,2026", {}, "no heading means the bed"),
        ("bed,plot\nA,B", {}, "bed and plot mean the same"),
        ("bed,crop\nA,B", {"beet": "bed"}, "no heading is 'beet'"),
        ("bed,crop\nA,B", {"crop": "colour"}, "there is no column 'colour'"),
        ("", {}, "the file is empty"),
        ("a\0b", {}, "the file is no text"),
    ],
)
def test_tables_that_cannot_be_read_at_all(catalogue, text, choice, error):
    with pytest.raises(TableError, match=error):
        read(text, catalogue, choice=choice)


def test_a_heading_may_be_passed_over(catalogue):
    found = read("bed,plot,length,width\nA,7,4,1", catalogue, choice={"Plot": ""})
    assert found.beds[0].name == "A"
