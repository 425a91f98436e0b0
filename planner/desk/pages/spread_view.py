"""What is spread on the beds: totals that open to beds, and the dressings themselves, to be added, changed and removed."""

from __future__ import annotations

import datetime as dt
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QSplitter, QVBoxLayout, QWidget

from planner.amounts.spread import USUAL_DEPTH
from planner.desk.forms.dressing_days import usual_day
from planner.desk.forms.fields import ChoiceField, TypedField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.dressing_words import unknown_rate
from planner.desk.pages.choice_cells import ChoiceCells
from planner.desk.pages.dressing_model import (
    SPREAD_KINDS,
    DressingModel,
    places,
)
from planner.desk.pages.material_rows import SPREAD_HEADS, spread_rows
from planner.desk.pages.opening_table import OpeningTable
from planner.desk.pages.tables import plain_table, set_widths
from planner.desk.theme.palette import letters
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.garden.materials import BY_MASS, SpreadKind
from planner.garden.typed_amounts import parse_measure, show_measure
from planner.garden.units import show_spacing
from planner.words import key_words, say, say_count

#: Widths of the columns but the last. [pixels]
_WIDTHS = (210, 110, 104, 90, 104)


class SpreadView(QWidget):
    """Totals above, dressings below.

    Signals
    -------
    wrong : str
        Something is not possible; one line says why.
    shown : str
        Id of a bed or planting to show on the sheet.
    """

    wrong = Signal(str)
    shown = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.totals = OpeningTable(
            [say(SPREAD_HEADS[n]) for n in range(len(SPREAD_HEADS))],
            say("What is spread in all"),
            range(1, 8),
        )
        self.totals.sort_rows()
        self.totals.shown.connect(self.shown)
        self.model = DressingModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = plain_table(self.model, say("Dressings"))
        set_widths(self.table, _WIDTHS)
        where = ChoiceCells(self.table, lambda: [place.words for place in places(document.plan)])
        self.table.setItemDelegateForColumn(self.model.column_of("bed"), where)
        what = ChoiceCells(self.table, tuple(key_words(kind) for kind in SPREAD_KINDS))
        self.table.setItemDelegateForColumn(self.model.column_of("kind"), what)
        below = QWidget()
        column = QVBoxLayout(below)
        column.setContentsMargins(0, 6, 0, 0)
        title = QLabel(say("Dressings: what you spread yourself"))
        title.setFont(letters(10, bold=True))
        column.addWidget(title)
        column.addLayout(self._make_head())
        column.addWidget(self.table, 1)
        split = QSplitter(Qt.Orientation.Vertical)
        split.addWidget(self.totals)
        split.addWidget(below)
        split.setChildrenCollapsible(False)
        split.setSizes([240, 320])
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 6, 0, 0)
        whole.addWidget(split)

    def _make_head(self) -> FlowLayout:
        """Bed, kind and amount of a new dressing."""
        self.bed = ChoiceField(say("Bed to spread it on"), [])
        self.kind = ChoiceField(say("What is spread"), [(kind, key_words(kind)) for kind in SPREAD_KINDS])
        self.kind.currentIndexChanged.connect(lambda _index: self._hint())
        self.measure = TypedField(
            say("How much of it"),
            lambda text: text,
            str,
            may_be_empty=True,
        )
        self.measure.setMinimumWidth(130)
        self.measure.setMaximumWidth(220)
        self.add = QPushButton(say("Add a dressing"))
        self.remove = QPushButton(say("Remove"))
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self.table.delete_pressed.connect(self._remove)
        head = FlowLayout()
        head.add_group(self.add, self.bed)
        head.addWidget(self.kind)
        head.addWidget(self.measure)
        head.addWidget(self.remove)
        return head

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show what is spread as it is now."""
        plan = self.document.plan
        self.totals.show_rows(spread_rows(plan))
        self.model.refresh()
        beds = [(bed.id, bed.name) for bed in plan.garden.beds]
        if beds != self._offered():
            now = self.bed.currentIndex()
            self.bed.offer(beds)
            self.bed.setCurrentIndex(min(max(now, 0), len(beds) - 1))
        self.add.setEnabled(bool(beds))
        self._hint()

    def _offered(self) -> list[tuple[object, str]]:
        return [(value, self.bed.itemText(n)) for n, value in enumerate(self.bed.values)]

    def _hint(self) -> None:
        kind, units = self._kind(), self.document.garden.site.units
        if kind in BY_MASS:
            self.measure.setPlaceholderText(say("as a soil test says"))
        else:
            self.measure.setPlaceholderText(say("{depth} deep", depth=show_spacing(USUAL_DEPTH[kind], units)))

    def _kind(self) -> SpreadKind:
        return SPREAD_KINDS[max(self.kind.currentIndex(), 0)]

    # -- dressings --------------------------------------------------------------------------

    def _add(self) -> None:
        kind, plan = self._kind(), self.document.plan
        bed = plan.garden.beds[self.bed.currentIndex()]
        text = self.measure.text().strip()
        try:
            if not text and kind in BY_MASS:
                raise unknown_rate(kind)
            shown = show_measure(USUAL_DEPTH.get(kind), None, plan.garden.site.units)
            measure = parse_measure(text or shown, plan.garden.site.units, by_mass=kind in BY_MASS)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            self.measure.setFocus()
            return
        day = usual_day(plan, bed)
        if self._put(bed.id, kind, day, measure):
            self.measure.accept()
            self.measure.show_value(None)
            self.measure.clear()
            self.refresh()
            self.table.selectRow(self.model.rowCount() - 1)

    def _put(self, bed: str, kind: SpreadKind, day: dt.date, measure: dict[str, Any]) -> bool:
        words = say("Spread {kind}", kind=kind)
        return self.document.edit(
            words, lambda g: edits.put_dressing(g, bed=bed, kind=kind, day=day, **measure)[0]
        )

    def _remove(self) -> None:
        rows = self.table.selectionModel().selectedRows()
        keys = [self.model.dressings[index.row()].id for index in rows]

        def change(garden: Garden) -> Garden:
            for key in keys:
                garden = edits.remove_material(garden, key)
            return garden

        if keys:
            words = say_count("Remove {count} dressing", "Remove {count} dressings", len(keys))
            self.document.edit(words, change)
