"""The Amounts and Seed pages show what is begun in the growing year, as the command line and the findings do."""

from __future__ import annotations

import datetime as dt

import pytest
from begun_garden import BEGUN, YEAR, begun_garden, garden_of_all_stock, keys
from sample_reading import FOLDER

from planner.amounts import amounts, needs, shortages, totals
from planner.checks import check_all
from planner.listings.stock import short_words
from planner.storage import load

pytestmark = pytest.mark.one_window

SAMPLES = sorted(path.stem for path in FOLDER.glob("*.bedwright"))


def _show(window, title: str):
    index = next(i for i in range(window.pages.count()) if window.pages.tabText(i) == title)
    window.pages.setCurrentIndex(index)
    return window.pages.currentWidget()


OWN = {"all cases": begun_garden, "all cases of stock": garden_of_all_stock}


@pytest.mark.parametrize("name", [*SAMPLES, *OWN])
def test_pages_show_what_is_begun(open_hand, name):
    document = OWN[name]() if name in OWN else load(FOLDER / f"{name}.bedwright")
    window = open_hand(document).window
    window.document.show_year(YEAR)
    plan = window.document.plan
    page = window.pages.amounts
    window.pages.bring(page)
    page.choice.setCurrentIndex(1)
    page.refresh()
    assert [row.shows for row in page.table.rows] == [p.planting.id for p in amounts(plan)]
    page.choice.setCurrentIndex(0)
    page.refresh()
    assert [row.cells[:2] for row in page.table.rows] == [(t.crop, t.variety) for t in totals(amounts(plan))]
    opened = [part.shows for row in page.table.rows for part in row.parts]
    assert sorted(opened) == sorted(p.planting.id for p in amounts(plan))
    if name == "all cases":
        assert {part.planting.id for part in amounts(plan)} == keys(BEGUN)
        assert "5 plantings are begun in 2026" in page.sum.text()
        assert "6 were begun before and are not counted" in page.sum.text()
    _show(window, "Seed")
    short = shortages(plan) if document.stock else ()
    told = window.pages.stock.short.text()
    assert bool(told) == bool(document.stock)
    for need in short[:12]:
        assert short_words(need) in told
    assert ("more" in told) == (len(short) > 12)
    assert len(short) == sum(one.check == "stock" for one in check_all(plan, light=False))


def test_an_ordered_lot_is_typed_shown_and_counts(open_hand):
    window = open_hand(begun_garden()).window
    window.document.show_year(YEAR)
    _show(window, "Seed")
    page, stock = window.pages.stock, window.document.garden.stock
    row = next(row for row, lot in enumerate(stock) if lot.crop == "carrot")
    columns = {head: number for number, head in enumerate(page.model.heads)}
    assert page.model.setData(page.model.index(row, columns["Ordered"]), "yes")
    assert page.model.setData(page.model.index(row, columns["Counted"]), "2026-02-01")
    lot = window.document.garden.stock[row]
    assert (lot.ordered, lot.counted) == (True, dt.date(2026, 2, 1))
    assert page.model.setData(page.model.index(row, columns["Counted"]), "2 Feb")
    assert window.document.garden.stock[row].counted == dt.date(YEAR, 2, 2)
    need = next(need for need in needs(window.document.plan) if need.crop == "carrot")
    assert (need.on_hand, need.ordered) == (0, 50)
    assert "50 ordered" in page.short.text()
    told: list[str] = []
    page.wrong.connect(told.append)
    assert not page.model.setData(page.model.index(row, columns["Ordered"]), "perhaps")
    assert not page.model.setData(page.model.index(row, columns["Counted"]), "in spring")
    assert len(told) == 2
    assert page.model.setData(page.model.index(row, columns["Ordered"]), "")
    assert not window.document.garden.stock[row].ordered
