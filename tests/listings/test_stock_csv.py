"""Stock as CSV, which reads back the same."""

from __future__ import annotations

import csv
import io

from hypothesis import given
from hypothesis import strategies as st
from making import catalogue_of, crop

from planner.garden import Garden, Lot
from planner.importing.stock_table import preview
from planner.listings.formulas import might_be_computed
from planner.listings.stock import stock_csv

CATALOGUE = catalogue_of(crop("carrot"), crop("broad_bean"), crop("runner_bean"), crop("beet"))
TEXTS = st.text(st.characters(blacklist_categories=("Cs",), blacklist_characters="\0"), max_size=30)
NAMES = TEXTS.map(lambda text: "".join(sign if sign.isprintable() else "x" for sign in text).strip())
LOTS = st.builds(
    Lot,
    id=st.just("new"),
    crop=st.sampled_from(list(CATALOGUE.crops)),
    variety=NAMES | st.sampled_from(["=1+1", "'tis", "'=x", "''", "-", '"', ";", "@x", "% "[:1]]),
    seeds=st.none() | st.integers(0, 100_000_000),
    grams=st.none() | st.floats(0, 1_000_000),
    packed=st.none() | st.integers(1800, 2400),
    germination=st.none() | st.floats(0, 1),
    counted=st.none() | st.dates(),
    ordered=st.booleans(),
    notes=TEXTS | st.sampled_from(["=cmd()", "\t=x", " =x", "'", "a\nb", "a\rb", "  spaces  "]),
)


@given(st.lists(LOTS, max_size=5))
def test_what_is_written_reads_back_the_same(lots):
    text = stock_csv(lots, CATALOGUE)
    found = preview(text.encode(), CATALOGUE)
    assert [row.error for row in found.rows] == [""] * len(lots)
    assert [row.lot for row in found.rows] == lots


@given(st.lists(LOTS, max_size=5))
def test_no_cell_is_computed_by_a_spreadsheet(lots):
    for cells in csv.reader(io.StringIO(stock_csv(lots, CATALOGUE), newline="")):
        assert not any(might_be_computed(cell) for cell in cells)


def test_written_stock_is_rfc_4180():
    text = stock_csv([Lot(id="l1", crop="carrot", variety='N, "x"', grams=2.5, germination=0.57)], CATALOGUE)
    assert text == (
        'crop,variety,seeds,grams,packed,germination %,counted,ordered,notes\r\ncarrot,"N, ""x""",,2.5,,57,,,\r\n'
    )
    assert stock_csv((), CATALOGUE).count("\r\n") == 1


def test_the_shipped_crops_read_back_by_name(catalogue):
    lots = [Lot(id="new", crop=key) for key in catalogue.crops]
    found = preview(stock_csv(lots, catalogue).encode(), catalogue, Garden())
    assert [row.lot for row in found.rows] == lots
