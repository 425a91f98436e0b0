"""Reading a table of stock: a preview row by row, and the import."""

from __future__ import annotations

import pytest
from making import catalogue_of, crop, garden

from planner.garden import Lot
from planner.importing.stock_cells import heading, unguarded
from planner.importing.stock_table import (
    MOST_BYTES,
    MOST_ROWS,
    StockFileError,
    import_lots,
    preview,
)

CATALOGUE = catalogue_of(crop("carrot"), crop("broad_bean"), crop("runner_bean"), crop("beet"))


def read(text: str, encoding: str = "utf-8"):
    return preview(text.encode(encoding), CATALOGUE)


def only(text: str, heads: str = "crop,variety,amount,packed,germination,notes"):
    (row,) = read(f"{heads}\r\n{text}\r\n").rows
    return row


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "latin-1", "cp1252", "utf-16"])
def test_separators_and_encodings_are_found(separator, encoding):
    text = separator.join(("Crop", "Variety", "Seeds")) + "\n" + separator.join(("carrot", "Früh", "20"))
    found = read(text, encoding)
    assert found.separator == separator
    assert found.rows[0].lot == Lot(id="new", crop="carrot", variety="Früh", seeds=20)


def test_a_line_that_names_the_separator_is_no_heading():
    found = read("sep=;\ncrop;seeds\ncarrot;5\n")
    assert found.rows[0].line == 3
    assert found.rows[0].lot.seeds == 5


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("Crop", "crop"), ("VEGETABLE", "crop"), ("Cultivar", "variety"), ("Seeds", "seeds"),
        ("amount (g)", "grams"), ("Weight (g)", "grams"), ("Quantity", "amount"), ("Year packed", "packed"),
        ("packed/year", "packed"), ("Germination %", "germination %"), ("germination (per cent)", "germination %"),
        ("germination", "germination"), ("Remarks", "notes"), ("price", ""), ("", ""),
    ],
)  # fmt: skip
def test_headings_are_forgiving(text, word):
    assert heading(text) == word


@pytest.mark.parametrize(
    ("cells", "fields"),
    [
        ("Carrots,Nantes,200 seeds,2024,85,", {"variety": "Nantes", "seeds": 200, "packed": 2024, "germination": 0.85}),
        ("carrot,,2.5 g,,,", {"grams": 2.5}),
        ('carrot,,"2,5 g",,,', {"grams": 2.5}),
        ("carrot,,500 mg,,,", {"grams": 0.5}),
        ("carrot,,1 oz,,,", {"grams": 28.349523125}),
        ("carrot,,2 lb,,,", {"grams": 907.18474}),
        ("carrot,,0.5 kg,,,", {"grams": 500.0}),
        ('carrot,,"1,234.5 g",,,', {"grams": 1234.5}),
        ('carrot,,"1.234,5 g",,,', {"grams": 1234.5}),
        ("carrot,,,2024 (spring 2024),,", {"packed": 2024}),
        ("carrot,,,,100,", {"germination": 1.0}),
        ('carrot,,"1,200 seeds",packed 2023,85.5 %,', {"seeds": 1200, "packed": 2023, "germination": 0.855}),
        ("carrot,,1 200 seeds,2023-03-01,0,", {"seeds": 1200, "packed": 2023, "germination": 0.0}),
        ('carrot,,,,,"say ""x"", then\r\nmore"', {"notes": 'say "x", then\r\nmore'}),
        ("carrot", {}),
    ],
)  # fmt: skip
def test_cells_as_people_write_them(cells, fields):
    row = only(cells)
    assert row.error == ""
    assert row.lot == Lot(id="new", crop="carrot", **fields)


@pytest.mark.parametrize(
    ("cells", "error", "mend"),
    [
        (",Nantes,5 g,,,", "no crop is given", "Write its name"),
        ("carott?x,,,,,", "no crop is called 'carott?x'", ""),
        ("runer beanz,,,,,", "no crop is called 'runer beanz'", "Write one of: runner_bean"),
        ("bean,,,,,", "'bean' may be several crops", "Write one of: broad_bean, runner_bean"),
        ("carrot,,200,,,", "'200' may be seeds or grams", "Write 200 seeds, or 200 g"),
        ("carrot,,3 packets,,,", "'packets' is no unit of seed", "Write 3 seeds, or 3 g"),
        ("carrot,,many,,,", "'many' is no number", "Write a number"),
        ("carrot,,2.5 seeds,,,", "no whole number of seeds", "whole number"),
        ('carrot,,"1,200 g",,,', "may be 1200 or 1.200", "with a point"),
        ("carrot,,-5 g,,,", "at least 0 is possible", ""),
        ("carrot,,,last year,,", "'last year' names no year", "four digits"),
        ("carrot,,,2023/2024,,", "names no year", "four digits"),
        ("carrot,,,,105,", "germination 105 is not from 0 to 100 %", "Write per cent"),
        ("carrot,,,,0.85,", "germination 0.85 may be 0.85 % or 85", "Write it in per cent"),
        ("carrot,,,,1,", "germination 1 may be 1 % or 100 %", "Write it in per cent"),
        ("carrot,,,,good,", "'good' is no number", ""),
        ("carrot,a,b,c,d,e,f", "7 cells under 6 headings", "between quotation marks"),
        (f"carrot,{'x' * 201},,,,", "at most 200 characters", ""),
        ('carrot,"two\nlines",,,,', "must be one line", ""),
    ],
)  # fmt: skip
def test_a_row_that_cannot_be_says_how_to_mend_it(cells, error, mend):
    row = only(cells)
    assert row.lot is None
    assert error in row.error
    assert mend in row.mend


def test_rows_have_the_line_they_begin_on():
    found = read('crop,notes\ncarrot,"one\ntwo"\n\nzzzzz,\n,\nbeet,\n')
    assert [(row.line, bool(row.lot)) for row in found.rows] == [(2, True), (5, False), (7, True)]
    assert [row.line for row in found.good] == [2, 7]
    assert [row.line for row in found.bad] == [5]


def test_a_mark_that_is_not_closed_ends_the_reading_with_its_line():
    found = read('crop,notes\nbeet,\ncarrot,"one\nbeet,\n')
    assert [row.line for row in found.rows] == [2, 3]
    assert "quotation mark" in found.rows[1].error


def test_what_is_taken_for_something_else_is_said():
    assert only("carots,,,,,").notes == ("'carots' is taken for carrot",)
    assert "read as 0.9 %" in only("carrot,,,,0.9 %,").notes[0]


def test_two_amounts_that_differ_are_refused():
    assert read("crop,seeds,amount\ncarrot,5,5 seeds\n").rows[0].lot.seeds == 5
    assert "two different amounts" in read("crop,seeds,amount\ncarrot,5,6 seeds\n").rows[0].error


def test_a_column_of_units():
    assert read("crop,quantity,unit\ncarrot,5,g\n").rows[0].lot.grams == 5


def test_columns_that_mean_nothing_are_passed_over():
    found = read("price,crop\n3.50,carrot\n")
    assert found.understood == ("", "crop")
    assert found.rows[0].lot == Lot(id="new", crop="carrot")


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "the file is empty"),
        (b"\n\n", "the file is empty"),
        (b"name\ncarrot\n", "no column is headed 'crop'"),
        (b"crop,plant\nx,y\n", "'crop' and 'plant' both mean crop"),
        (b"\x00\x01\x02", "the file is no text"),
        (b'"crop\n', "quotation mark"),
        (b"x" * (MOST_BYTES + 1), "At most 5 MB are read"),
        (b"crop\n" + b"carrot\n" * (MOST_ROWS + 1), "more than 10,000 rows"),
    ],
)
def test_a_file_that_is_no_table_of_stock_is_one_line(data, words):
    with pytest.raises(StockFileError) as caught:
        preview(data, CATALOGUE)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_nothing_is_imported_before_it_is_wished():
    before = garden(stock=(Lot(id="l7", crop="beet"),))
    found = preview(b"crop,seeds\ncarrot,5\nzzzz,1\nbeet,\n", CATALOGUE, before)
    assert before == garden(stock=(Lot(id="l7", crop="beet"),))
    assert "there is such a lot already" in found.rows[2].notes[0]
    after = import_lots(before, found)
    assert [(lot.id, lot.crop) for lot in after.stock] == [("l7", "beet"), ("l8", "carrot"), ("l9", "beet")]


def test_a_lot_that_is_there_is_noticed_whatever_its_capitals_and_notes():
    before = garden(stock=(Lot(id="l1", crop="beet", variety="Egyptian", seeds=5, notes="old"),))
    found = preview(b"crop,variety,seeds\nbeet,EGYPTIAN,5\nbeet,Egyptian,6\n", CATALOGUE, before)
    assert [bool(row.notes) for row in found.rows] == [True, False]


def test_as_many_rows_as_are_read():
    found = preview(b"crop\n" + b"carrot\n" * MOST_ROWS, CATALOGUE)
    assert len(found.good) == MOST_ROWS


def test_nothing_good_changes_nothing():
    before = garden()
    assert import_lots(before, preview(b"crop\nzzzz\n", CATALOGUE)) is before


def test_only_an_apostrophe_that_guards_is_taken_away():
    assert unguarded("'=x") == "=x"
    assert unguarded("''x") == "'x"
    assert unguarded("'tis") == "'tis"
    assert unguarded("'") == "'"
