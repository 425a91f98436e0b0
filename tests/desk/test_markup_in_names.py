"""Names that look like markup are shown as they are, on every page and in every tool tip."""

from __future__ import annotations

import pytest
from hand import LIMIT
from making import bed, garden, planting, rectangle
from PySide6.QtCore import QAbstractListModel, Qt
from PySide6.QtWidgets import QAbstractItemView, QLabel, QWidget

from planner.desk.theme.plain_tips import plain_tip
from planner.garden import Lot, Site, Structure, Variety

NAME = "<b>Bold</b> & <i>x"


@pytest.fixture
def window(reopen, qtbot):
    """A window on a garden in which everything that a person names looks like markup."""
    made = garden(
        bed("b1", rectangle(), name=NAME),
        bed("b2", rectangle(center=(0, 4)), name=NAME, notes=NAME),
        planting("p1", "b1", crop="carrot", variety=NAME, tended_by=NAME, notes=NAME, first="2026-05-01"),
        planting("p2", "b2", crop=NAME, variety=NAME, first="2026-05-01"),
        planting("p3", "b2", crop="leek", first="2026-05-02"),
        structures=(Structure(id="s1", kind="shed", name=NAME, outline=rectangle(center=(9, 9)), height=2),),
        varieties=(Variety(id="v1", crop="carrot", name=NAME, notes=NAME),),
        stock=(Lot(id="l1", crop="carrot", variety=NAME, seeds=3, notes=NAME),),
        site=Site(name=NAME, latitude=56.0),
    )
    found = reopen(made).window
    qtbot.waitUntil(lambda: bool(found.findings.all), timeout=LIMIT)
    return found


def wrong(window: QWidget) -> list[str]:
    """Labels and tool tips that Qt would read as markup, though a person's name is in them."""
    labels = [
        label.text()
        for label in window.findChildren(QLabel)
        if NAME in label.text() and label.textFormat() != Qt.TextFormat.PlainText
    ]
    tips = [one.toolTip() for one in window.findChildren(QWidget) if NAME in one.toolTip()]
    for view in window.findChildren(QAbstractItemView):
        model = view.model()
        for row in range(model.rowCount() if model is not None else 0):
            # The count of columns of a list is nobody's to ask.
            for column in range(1 if isinstance(model, QAbstractListModel) else model.columnCount()):
                index = model.index(row, column)
                below = [model.index(inner, 0, index) for inner in range(model.rowCount(index))]
                for each in (index, *below):
                    tip = each.data(Qt.ItemDataRole.ToolTipRole)
                    if isinstance(tip, str) and NAME in tip:
                        tips.append(tip)
    return labels + tips


@pytest.mark.parametrize("page", range(6))
@pytest.mark.parametrize("selected", [(), ("b1",), ("p1",), ("p2",), ("s1",)])
def test_nothing_on_a_page_is_taken_for_markup(window, qapp, page, selected):
    window.pages.setCurrentIndex(page)
    window.pages.crop.show_crop(window.document.catalogue.get("carrot"))
    window.pages.setCurrentIndex(page)
    window.document.select(selected)
    for docks in (window.docks.left, window.docks.right):
        for tab in range(docks.count()):
            docks.setCurrentIndex(tab)
            qapp.processEvents()
            assert wrong(window) == []


def test_what_the_status_line_says_is_plain(window):
    window.status.say(f"{NAME} was moved")
    assert window.status.message.textFormat() == Qt.TextFormat.PlainText
    assert wrong(window) == []


def test_a_tip_is_left_alone_unless_it_looks_like_markup():
    assert plain_tip("peas & beans\n3") == "peas & beans\n3"
    assert plain_tip("a <b>b</b>\nc") == "<span>a &lt;b&gt;b&lt;/b&gt;<br>c</span>"
