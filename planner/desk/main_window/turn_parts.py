"""What the parts of the turn's dialog are made of: tables, and pages with a hint above and commands over a table."""

from __future__ import annotations

from PySide6.QtWidgets import QHeaderView, QTableView, QVBoxLayout, QWidget

from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.tables import PlainTable, plain_table, set_widths
from planner.desk.pages.turn_tables import RepeatModel, SeedModel, WorkModel


def turn_table(
    model: WorkModel | SeedModel | RepeatModel, name: str, widths: tuple[int, ...], widest: int = 0
) -> PlainTable:
    """A table whose column ``widest`` takes the room that the others leave."""
    table = plain_table(model, name)
    table.setWordWrap(False)
    head = table.horizontalHeader()
    head.setStretchLastSection(False)
    head.setHighlightSections(False)
    head.setSectionResizeMode(widest, QHeaderView.ResizeMode.Stretch)
    set_widths(table, widths)
    return table


def chosen_rows(table: QTableView) -> list[int]:
    """Rows of a table that are selected."""
    return sorted(index.row() for index in table.selectionModel().selectedRows())


def turn_page(hint: str, commands: tuple[QWidget, ...], body: QWidget, *below: QWidget) -> QWidget:
    """A part of the turn: what it is about, its commands, the table, and what is below it."""
    page, words, row = QWidget(), wrapped_label(second=True), FlowLayout()
    words.setText(hint)
    for command in commands:
        row.addWidget(command)
    column = QVBoxLayout(page)
    column.addWidget(words)
    column.addLayout(row)
    column.addWidget(body, 1)
    for widget in below:
        column.addWidget(widget)
    return page
