"""Who eats from the garden, how much of each crop, and where a harvest is kept."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QSplitter, QVBoxLayout, QWidget

from planner.desk.forms import fields
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.eaten_model import EatenModel
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.place_model import KindDelegate, PlaceModel
from planner.desk.pages.tables import plain_table, set_widths
from planner.garden import Garden, edits
from planner.garden.edits.common import fresh_name
from planner.words import later, say

#: Widths of the columns but the last. [pixels]
_EATEN_WIDTHS = (190, 100, 170, 100, 100)
_PLACE_WIDTHS = (120, 130, 130, 110, 170)
#: The field of the persons is no wider. [pixels]
_FIELD_WIDTH = 110
#: Heights of both tables at first. [pixels]
_EATEN_HEIGHT, _PLACE_HEIGHT = 360, 200
_HINT = later(
    "A published amount is what one person eats in a year; an own one, in a year or in a week, takes its place, and an "
    "emptied cell gives it back. Crops that are eaten in each other's place share one amount."
)


class HouseholdPage(QWidget):
    """The household of the garden and its store places.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Household"))
        self.persons = fields.number_field(say("Persons who eat from the garden"), may_be_empty=True)
        self.persons.setMaximumWidth(_FIELD_WIDTH)
        self.persons.typed.connect(self._change_persons)
        self.persons.wrong.connect(self.wrong)
        self.eaten = EatenModel(document)
        self.eaten.wrong.connect(self.wrong)
        self.eaten_table = plain_table(self.eaten, say("What is eaten of each crop"))
        set_widths(self.eaten_table, _EATEN_WIDTHS)
        self.places = PlaceModel(document)
        self.places.wrong.connect(self.wrong)
        self.place_table = plain_table(self.places, say("Places where a harvest is kept"))
        set_widths(self.place_table, _PLACE_WIDTHS)
        self._kinds = KindDelegate(self.place_table)
        self.place_table.setItemDelegateForColumn(1, self._kinds)
        self.no_places = wrapped_label(second=True)
        self._lay_out()
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)

    def _lay_out(self) -> None:
        head, commands = FlowLayout(), FlowLayout()
        head.add_group(QLabel(say("Persons")), self.persons)
        head.addWidget(QLabel(say("(a child may count half)")))
        self.hint = wrapped_label(second=True)
        add, remove = QPushButton(say("New place")), QPushButton(say("Remove place"))
        add.clicked.connect(self._add)
        remove.clicked.connect(self._remove)
        self.place_table.delete_pressed.connect(self._remove)
        commands.addWidget(add)
        commands.addWidget(remove)
        below = QWidget()
        lower = QVBoxLayout(below)
        lower.setContentsMargins(0, 6, 0, 0)
        lower.addLayout(commands)
        lower.addWidget(self.no_places)
        lower.addWidget(self.place_table, 1)
        split = QSplitter(Qt.Orientation.Vertical)
        split.addWidget(self.eaten_table)
        split.addWidget(below)
        split.setSizes([_EATEN_HEIGHT, _PLACE_HEIGHT])
        split.setChildrenCollapsible(False)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.hint)
        column.addWidget(split, 1)

    def refresh(self) -> None:
        """Show the household as it is now."""
        garden = self.document.garden
        self.persons.show_value(garden.household.persons or None, say("not known"))
        self.eaten.refresh()
        nothing = say("Nothing is grown in {year} of which something is eaten.", year=self.document.year)
        self.hint.setText(say(_HINT) if self.eaten.rows else nothing)
        self.places.refresh()
        self.no_places.setVisible(not garden.store_places)
        self.no_places.setText(
            say(
                "No places yet: each crop is taken to keep as its figures want it. A cellar, a shed or a fridge is added here."
            )
        )

    # -- edits ------------------------------------------------------------------------------

    def _change_persons(self, value: object) -> None:
        number = float(value) if isinstance(value, (int, float)) else 0.0
        text = self.persons.text()
        words = say("Change the number of persons")
        refused: list[str] = []
        slot = refused.append
        self.document.edit_refused.connect(slot)
        self.document.edit(words, lambda garden: edits.change_household(garden, persons=number))
        self.document.edit_refused.disconnect(slot)
        if refused:
            self.persons.refuse(text, refused[0])

    def _add(self) -> None:
        names = [place.name for place in self.document.garden.store_places]
        name = fresh_name(names, say("Cellar"))
        if self.document.edit(say("Add a store place"), lambda g: edits.put_store_place(g, name=name)[0]):
            row = self.places.rowCount() - 1
            self.place_table.selectRow(row)
            self.place_table.edit(self.places.index(row, 0))

    def _remove(self) -> None:
        keys = [self.places.places[i.row()].id for i in self.place_table.selectionModel().selectedRows()]

        def change(garden: Garden) -> Garden:
            for key in keys:
                garden = edits.remove_store_place(garden, key)
            return garden

        if keys:
            self.document.edit(say("Remove a store place"), change)
