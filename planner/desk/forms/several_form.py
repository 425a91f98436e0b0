"""Several things at once as a form: how many of each, what they hold, and what is spread on the beds among them."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from planner.desk.forms.dressing_rows import DressingRows
from planner.desk.forms.form import Form
from planner.desk.model.document import Document
from planner.desk.model.phrases import beds_words, plantings_words, structures_words
from planner.garden import Bed
from planner.garden.units import show_area
from planner.words import say, say_count


class SeveralForm(Form):
    """Several things at once."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.lines = QLabel()
        self.lines.setTextFormat(Qt.TextFormat.PlainText)
        self.lines.setWordWrap(True)
        self.widget(self.lines)
        self.dressings = DressingRows(self, self._beds)
        self.finish()

    def _beds(self) -> tuple[Bed, ...]:
        """The beds that are selected."""
        beds = self.document.garden.beds_by_id
        return tuple(beds[key] for key in self.document.selected_beds if key in beds)

    def refresh(self) -> None:
        """Count what is selected."""
        garden, plan = self.document.garden, self.document.plan
        beds = [garden.beds_by_id[k] for k in self.document.selected_beds]
        plantings = [garden.plantings_by_id[k] for k in self.document.selected_plantings]
        plants = sum(plan.placed(p).plants for bed in beds for p in plan.in_bed(bed))
        plants += sum(plan.placed(p).plants for p in plantings if p.bed not in self.document.selected_beds)
        area = sum(plan.area(bed) for bed in beds)
        self.heading.setText(
            say_count("{count} thing selected", "{count} things selected", len(self.document.selection))
        )
        self.under.setText(say("Move, turn, copy, align or delete them together."))
        rest = len(self.document.selection) - len(beds) - len(plantings)
        words = [
            f"{beds_words(len(beds))}, {show_area(area, self.units)}" if beds else "",
            plantings_words(len(plantings)) if plantings else "",
            structures_words(rest) if rest else "",
            say_count(
                "{count} plant in them in {year}", "{count} plants in them in {year}", plants, year=plan.year
            )
            if beds or plantings
            else "",
        ]
        self.lines.setText("\n".join(word for word in words if word))
        self.dressings.show()
