"""The shopping page, and the tables of what can be bought and of planting stock."""

from __future__ import annotations

import datetime as dt

import pytest
from openpyxl import load_workbook
from PySide6.QtCore import Qt

from planner import resources
from planner.amounts.shopping import shopping
from planner.desk.pages.opening_table import Row
from planner.garden import Garden
from planner.garden import edits as e
from planner.storage import load

pytestmark = pytest.mark.one_window


@pytest.fixture
def sample(open_hand):
    return open_hand(load(resources.sample_folder() / "hollow_lane.bedwright")).window


@pytest.fixture
def page(sample):
    sample.document.show_year(2026)
    sample.pages.bring(sample.pages.shopping)
    return sample.pages.shopping


def row_of(page, begins: str) -> Row:
    return next(row for row in page.table.rows if row.cells[0].startswith(begins))


def choose(page, *begins: str) -> None:
    """Select lines by the beginning of what they are of."""
    model, selection = page.table.model(), page.table.selectionModel()
    selection.clear()
    for number in range(model.rowCount()):
        index = model.index(number, 0)
        if index.data().startswith(begins):
            selection.select(index, selection.SelectionFlag.Select | selection.SelectionFlag.Rows)


def test_the_list_is_that_of_the_plan_and_every_line_opens_to_what_it_is_for(page):
    found = shopping(page.document.plan)
    assert [row.key for row in page.table.rows] == [one.key for one in found.items if one.status != "on hand"]
    page.choice.setCurrentIndex(page.choice.findData("all"))
    page.refresh()
    assert [row.key for row in page.table.rows] == [one.key for one in found.items]
    for row, item in zip(page.table.rows, found.items, strict=True):
        assert [part.shows for part in row.parts] == [served.key for served in item.serves]


def test_selected_lines_are_ordered_and_then_arrive_each_in_one_step(page):
    document, before = page.document, page.document.garden
    wanted = next(one for one in shopping(document.plan).to_buy if one.group == "seed" and one.purchases)
    name = row_of(page, next(row.cells[0] for row in page.table.rows if row.key == wanted.key)).cells[0]
    steps = document.undo_stack.count()
    choose(page, name)
    page.order.click()
    assert document.undo_stack.count() == steps + 1
    assert len(document.garden.stock) > len(before.stock)
    line = next(one for one in shopping(document.plan).items if one.key == wanted.key)
    assert not line.to_buy
    choose(page, name)
    page.arrive.click()
    assert document.undo_stack.count() == steps + 2
    new = [lot for lot in document.garden.stock if lot.id not in {old.id for old in before.stock}]
    assert [lot.ordered for lot in new] == [False] * len(new)
    document.undo_stack.undo()
    document.undo_stack.undo()
    assert document.garden is before


def test_nothing_selected_is_said_and_changes_nothing(page):
    told, before = [], page.document.garden
    page.wrong.connect(told.append)
    page.table.selectionModel().clear()
    page.order.click()
    page.arrive.click()
    assert len(told) == 2
    assert page.document.garden is before


def test_the_currency_is_that_of_all_prices(page):
    page.currency.setText("Kr")
    page.currency.editingFinished.emit()
    assert page.document.garden.site.currency == "Kr"
    priced = [row.cells[4] for row in page.table.rows if row.cells[4] not in ("", "-")]
    assert priced
    assert all(cell.startswith("Kr\u00a0") for cell in priced)
    assert "Kr" in page.sum.text()


def test_an_empty_garden_says_that_nothing_is_needed(open_hand):
    window = open_hand(Garden()).window
    window.pages.bring(window.pages.shopping)
    assert window.pages.shopping.sum.text() == f"Nothing is needed in {window.document.year}."
    assert window.pages.shopping.table.rows == ()


def test_the_list_is_written_as_a_workbook(sample, tmp_path):
    sample.document.show_year(2026)
    sample.prompts.answers["save"] = str(tmp_path / "list")
    sample.pages.bring(sample.pages.shopping)
    sample.pages.shopping.table_wanted.emit()
    sheet = load_workbook(tmp_path / "list.xlsx").active
    assert sheet.max_row == len(shopping(sample.document.plan).items) + 1
    sample.pages.shopping.save_wanted.emit()
    assert (tmp_path / "list.pdf").read_bytes().startswith(b"%PDF")


def test_lines_of_offers_are_added_changed_and_removed_each_in_one_step(sample):
    view, document = sample.pages.offers, sample.document
    sample.pages.bring(view)
    before, steps = len(document.garden.offers), document.undo_stack.count()
    view.kind.setCurrentIndex(view.kinds.index("tubers"))
    view.crop.setCurrentIndex(view.crop.findData("potato"))
    view._add()
    row = view.model.rowCount() - 1
    cells = {view.model.heads[n]: view.model.index(row, n) for n in range(len(view.model.heads))}
    for head, text in (
        ("Price of one", "€ 3,20"),
        ("Pieces in a pack", "25"),
        ("Where", "market"),
        ("Kind", "plants"),
    ):
        assert view.model.setData(cells[head], text)
    offer = document.garden.offers[-1]
    assert (offer.crop, offer.price, offer.shop, offer.kind, offer.pieces) == (
        "potato",
        3.2,
        "market",
        "plants",
        10,
    )
    assert document.undo_stack.count() == steps + 5
    view.table.selectRow(row)
    view.remove.click()
    assert len(document.garden.offers) == before


@pytest.mark.parametrize(
    ("head", "text", "said"),
    [
        ("Pieces in a pack", "many", "'many' is no whole number"),
        ("Price of one", "dear", "'dear' is no number"),
        ("Crop", "leek", "the crop of a line stays"),
        ("Pieces in a pack", "", "needs its pieces"),
    ],
)
def test_what_cannot_be_is_refused_in_one_line(sample, head, text, said):
    document, view = sample.document, sample.pages.offers
    told: list[str] = []
    view.wrong.connect(told.append)
    document.edit_refused.connect(told.append)
    document.edit("Add", lambda g: e.put_offer(g, crop="potato", kind="tubers", pieces=20)[0])
    sample.pages.bring(view)
    before = document.garden
    row = view.model.rowCount() - 1
    assert not view.model.setData(view.model.index(row, view.model.heads.index(head)), text)
    assert document.garden is before
    assert len(told) == 1
    assert said in told[0]


def test_planting_stock_counts_at_once(sample):
    document, view = sample.document, sample.pages.planting_stock
    document.show_year(2026)
    sample.pages.bring(view)
    needed = next(one for one in shopping(document.plan).items if one.kind == "cloves")
    view.kind.setCurrentIndex(view.kinds.index("cloves"))
    view.crop.setCurrentIndex(view.crop.findData(needed.crop))
    view._add()
    row = view.model.rowCount() - 1
    assert view.model.setData(view.model.index(row, 3), "500")
    assert document.garden.planting_stock[-1].number == 500
    now = next(one for one in shopping(document.plan).items if one.kind == "cloves")
    assert now.status == "on hand"
    assert view.model.flags(view.model.index(row, 3)) & Qt.ItemFlag.ItemIsEditable
    assert document.garden.planting_stock[-1].year == 2026


def test_models_are_sound(sample, qtmodeltester):
    sample.pages.bring(sample.pages.shopping)
    qtmodeltester.check(sample.pages.shopping.table.model())
    sample.pages.bring(sample.pages.offers)
    qtmodeltester.check(sample.pages.offers.model)


def test_today_is_the_day_of_arrival(page):
    shed = [one for one in page.document.garden.shed if one.ordered]
    assert shed, "the sample has something on its way"
    page.choice.setCurrentIndex(page.choice.findData("ordered"))
    page.refresh()
    page.table.selectAll()
    page.arrive.click()
    now = {one.id: one for one in page.document.garden.shed}
    for one in shed:
        assert not now[one.id].ordered
        assert now[one.id].since == dt.date.today()
