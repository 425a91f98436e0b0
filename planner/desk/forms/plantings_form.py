"""Several plantings as one form: what is changed in it is changed for all of them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping
from typing import Any

from planner.desk.forms import fields
from planner.desk.forms.cover_rows import CoverRows
from planner.desk.forms.form import Form
from planner.desk.forms.planting_choices import purposes, starts, timings
from planner.desk.forms.raising_rows import RaisingRows
from planner.desk.forms.shared_values import show_typed
from planner.desk.model.document import Document
from planner.desk.model.phrases import plants_words
from planner.desk.model.thing_words import name_of
from planner.garden import Garden, Planting, edits
from planner.garden.arrangements import Rows, StaggeredRows
from planner.garden.raising import Raising
from planner.words import capital, join_list, say


class PlantingsForm(Form):
    """Purpose, start, spacing, days, cover, who tends them and notes of all plantings that are selected.

    A field in which they differ says so, and changes nothing until something is typed into it.
    """

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.counts = self.words()
        self.section(say("All of them"))
        self.purpose = fields.ChoiceField(say("Purpose of all"), purposes())
        self.row(say("For"), self.purpose)
        self.purpose.chosen.connect(lambda word: self._change_all(say("the purpose"), purpose=word))
        self.start = fields.ChoiceField(say("How all start"), starts())
        self.row(say("Start"), self.start)
        self.start.chosen.connect(
            lambda word: self._change_all(say("how they start"), start=word, state=None)
        )
        self.timing = fields.ChoiceField(say("Season of all"), timings())
        self.row(say("Season"), self.timing)
        self.timing.chosen.connect(lambda word: self._change_all(say("the season"), timing=word))
        self.in_row = self._spacing_field(say("Spacing in the row of all"))
        self.between = self._spacing_field(say("Spacing between rows of all"))
        self._in_row_label = self.row(say("In the row"), self.in_row)
        self._between_label = self.row(say("Between rows"), self.between)
        self.in_row.typed.connect(lambda value: self._space(in_row_spacing=value))
        self.between.typed.connect(lambda value: self._space(row_spacing=value))
        self.first = self.date_field(say("First day of all"))
        self.last = self.date_field(say("Last day of all"), self._first_day)
        self.row(say("First, last day"), self.first, self.last)
        self.first.typed.connect(lambda day: self._change_all(say("the first day"), first=day))
        self.last.typed.connect(lambda day: self._change_all(say("the last day"), last=day))
        self.picked = self.date_field(say("First picking day of all"), self._first_day)
        self.row(say("Pick from"), self.picked)
        self.picked.typed.connect(self._pin_harvest)
        self.covers = CoverRows(
            self, lambda: self.plantings, lambda: name_of(self.document.plan, self.key.split())
        )
        self.raising = RaisingRows(self, self._change_raising)
        self.tended = fields.text_field(say("All tended by"), may_be_empty=True)
        self.row(say("Tended by"), self.tended)
        self.tended.typed.connect(lambda text: self._change_all(say("who tends them"), tended_by=text or ""))
        self.notes = fields.NotesField(say("Notes on all"))
        self.widget(self.notes)
        self.notes.typed.connect(self._change_notes)
        self.finish()

    @property
    def plantings(self) -> tuple[Planting, ...]:
        """The plantings shown: the key holds their ids."""
        plantings = self.document.garden.plantings_by_id
        return tuple(plantings[key] for key in self.key.split() if key in plantings)

    def _first_day(self) -> dt.date:
        """The latest of their first days."""
        plan = self.document.plan
        return max((plan.span_of(planting).first for planting in self.plantings), default=plan.span.first)

    # -- edits ------------------------------------------------------------------------------

    def _change_all(self, what: str, **changes: Any) -> None:
        self._change_each(what, lambda _planting: changes)

    def _change_each(self, what: str, changes: Callable[[Planting], dict[str, Any]]) -> None:
        """Change every planting, as one step, or none where one of them refuses it.

        Parameters
        ----------
        what : str
            What is changed, in words.
        changes : callable
            From a planting to its changed fields.
        """
        ids = tuple(planting.id for planting in self.plantings)

        def change(garden: Garden, _key: str) -> Garden:
            for key in ids:
                garden = edits.change_planting(garden, key, **changes(garden.plantings_by_id[key]))
            return garden

        of = name_of(self.document.plan, ids)
        self.edit(say("Change {what} of {plantings}", what=what, plantings=of), change)

    def _spacing_field(self, name: str) -> fields.TypedField:
        return fields.length_field(name, lambda: self.units, small=True, may_be_empty=True)

    def _space(self, **spacing: float | None) -> None:
        """Space all that stand in rows; what is scattered or stands in single places stays."""

        def changes(planting: Planting) -> dict[str, Any]:
            arrangement = planting.arrangement
            if not isinstance(arrangement, (Rows, StaggeredRows)):
                return {}
            now = {name: getattr(arrangement, name) for name in type(arrangement).model_fields}
            return {"arrangement": {**now, **spacing}}

        self._change_each(say("the spacing"), changes)

    def _pin_harvest(self, day: dt.date | None) -> None:
        self._change_each(
            say("the first harvest"),
            lambda planting: {"pinned_dates": {**planting.pinned_dates.model_dump(), "first_harvest": day}},
        )

    def _change_raising(self, changes: Mapping[str, Raising | None]) -> None:
        self._change_each(say("the way of raising"), lambda planting: {"raising": changes[planting.id]})

    def _change_notes(self, text: str) -> None:
        """Give all the same note; where theirs differ, it is added to each, and nothing is lost."""
        differ = len({planting.notes for planting in self.plantings}) > 1
        if not differ:
            self._change_all(say("the notes"), notes=text)
        elif text.strip():
            self._change_each(
                say("the notes"),
                lambda planting: {"notes": f"{planting.notes}\n{text}" if planting.notes else text},
            )

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show what the plantings have in common."""
        plantings, plan = self.plantings, self.document.plan
        if not plantings:
            return
        self.heading.setText(capital(name_of(plan, [planting.id for planting in plantings])))
        beds = dict.fromkeys(plan.bed_of(planting).name for planting in plantings)
        self.under.setText(say("in {beds}; drag one of them to move them all", beds=join_list(list(beds))))
        crops = dict.fromkeys(name_of(plan, [planting.id]) for planting in plantings)
        plants = sum(plan.placed(planting).plants for planting in plantings)
        self.counts.setText(f"{capital(join_list(list(crops)))}\n{plants_words(plants)}")
        self.purpose.show_common([planting.purpose for planting in plantings])
        self.start.show_common([planting.start for planting in plantings])
        self.timing.show_common([planting.timing for planting in plantings])
        rows = [p.arrangement for p in plantings if isinstance(p.arrangement, (Rows, StaggeredRows))]
        for field, label in ((self.in_row, self._in_row_label), (self.between, self._between_label)):
            for widget in (field, label):
                widget.setVisible(bool(rows))
        if rows:
            usual_spacing = say("as published")
            show_typed(self.in_row, [each.in_row_spacing for each in rows], usual_spacing)
            show_typed(self.between, [each.row_spacing for each in rows], usual_spacing)
        self.covers.show()
        self.raising.show(plan, plantings)
        usual = say("worked out")
        show_typed(self.first, [planting.first for planting in plantings], usual)
        show_typed(self.last, [planting.last for planting in plantings], usual)
        show_typed(self.picked, [each.pinned_dates.first_harvest for each in plantings], usual)
        show_typed(self.tended, [planting.tended_by or None for planting in plantings])
        notes = {planting.notes for planting in plantings}
        self.notes.setPlaceholderText(
            say("Their notes differ; what is written here is added to each") if len(notes) > 1 else ""
        )
        self.notes.show_value(notes.pop() if len(notes) == 1 else "")
