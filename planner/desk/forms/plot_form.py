"""The edge of the plot as a form: its measures, which can be typed where it is a rectangle or a circle."""

from __future__ import annotations

from typing import Any

from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.desk.forms.outline_sizes import OutlineSizes
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.garden import Outline, edits
from planner.garden.edits.common import EditError, checked
from planner.garden.units import show_area, show_length
from planner.ground.shapes import outline_area, plan_polygon
from planner.words import say


class PlotForm(Form):
    """Shown while the edge of the plot is selected."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.section(say("Shape"))
        self.sizes = OutlineSizes(self, self._resize)
        self.turn = fields.number_field(say("Turn"), after="°")
        self.row(say("Turn"), self.turn)
        self.turn.typed.connect(lambda value: self._resize(turn=value))
        self.measures = self.words()
        self.gone = WrappedButton(say("Remove the edge of the plot"))
        self.gone.clicked.connect(self._remove)
        self.widget(self.gone)
        self.finish()

    @property
    def outline(self) -> Outline | None:
        """The edge as it is now."""
        return self.document.garden.site.outline

    def _resize(self, **changes: Any) -> None:
        outline = self.outline
        if outline is None:
            return
        try:
            new = checked(lambda: outline.with_(**changes), say("edge of the plot"))
        except EditError as error:
            self.refuse(str(error))
            return
        self.edit(
            say("Resize the edge of the plot"), lambda garden, _key: edits.change_site(garden, outline=new)
        )

    def _remove(self) -> None:
        self.edit(
            say("Remove the edge of the plot"), lambda garden, _key: edits.change_site(garden, outline=None)
        )

    def refresh(self) -> None:
        """Show the edge as it is now."""
        outline = self.outline
        if outline is None:
            return
        self.heading.setText(say("Edge of the plot"))
        self.under.setText(say("what lies outside is reported; paths end at it"))
        self.sizes.show(outline)
        self.turn.show_value(outline.turn)
        round_it = float(plan_polygon(outline).exterior.length)
        self.measures.setText(
            say(
                "{area}, {length} around. Corners and sides are dragged by their handles, all of it by its line.",
                area=show_area(outline_area(outline), self.units),
                length=show_length(round_it, self.units),
            )
        )
