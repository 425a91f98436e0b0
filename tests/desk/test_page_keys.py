"""Keys on the pages beside the plan: they act on what has the focus, and on nothing of the plan behind it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from planner import resources
from planner.storage import load

pytestmark = pytest.mark.one_window

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def window(open_hand):
    window = open_hand(load(resources.sample_folder() / "hollow_lane.bedwright")).window
    window.document.show_year(2026)
    window.activateWindow()
    return window


def tables(pages):
    return {
        "stock": (pages.stock, pages.stock.table),
        "offers": (pages.offers, pages.offers.table),
        "planting stock": (pages.planting_stock, pages.planting_stock.table),
        "places": (pages.household, pages.household.place_table),
    }


@pytest.mark.parametrize("name", ["stock", "offers", "planting stock", "places"])
def test_delete_in_a_table_removes_its_row_and_nothing_of_the_plan(window, name):
    page, table = tables(window.pages)[name]
    window.document.select([window.document.plan.plantings[0].id])
    window.pages.bring(page)
    table.setFocus()
    table.selectRow(0)
    before, plantings, rows = (
        window.document.garden,
        window.document.garden.plantings,
        table.model().rowCount(),
    )
    QTest.keyClick(table, Qt.Key.Key_Delete)
    assert window.document.garden.plantings == plantings
    assert window.document.garden.beds == before.beds
    assert table.model().rowCount() == rows - 1
    window.document.undo_stack.undo()
    assert window.document.garden is before


@pytest.mark.parametrize("name", ["stock", "offers"])
def test_select_all_in_a_table_selects_its_rows(window, name):
    page, table = tables(window.pages)[name]
    window.document.select([])
    window.pages.bring(page)
    table.setFocus()
    QTest.keyClick(table, Qt.Key.Key_A, CTRL)
    assert len(table.selectionModel().selectedRows()) == table.model().rowCount()
    assert not window.document.selection


def test_delete_on_a_list_of_totals_or_a_picture_does_nothing(window):
    window.document.select([window.document.plan.plantings[0].id])
    garden = window.document.garden
    for page, widget in (
        (window.pages.shopping, window.pages.shopping.table),
        (window.pages.amounts, window.pages.amounts.table),
        (window.pages.harvest, window.pages.harvest.picture),
        (window.pages.paper, window.pages.paper.kinds),
    ):
        window.pages.bring(page)
        widget.setFocus()
        for key, modifier in (
            (Qt.Key.Key_Delete, Qt.KeyboardModifier.NoModifier),
            (Qt.Key.Key_X, CTRL),
            (Qt.Key.Key_V, CTRL),
        ):
            QTest.keyClick(widget, key, modifier)
    assert window.document.garden is garden


def test_delete_on_the_plan_still_deletes(window):
    window.pages.show_sheet()
    window.view.setFocus()
    planting = window.document.plan.plantings[0].id
    window.document.select([planting])
    QTest.keyClick(window.view, Qt.Key.Key_Delete)
    assert planting not in window.document.garden.plantings_by_id


def test_tab_goes_on_from_the_cell_that_a_new_line_opens_in(window):
    view = window.pages.offers
    window.pages.bring(view)
    view._add()
    assert view.table.currentIndex().column() == 3
