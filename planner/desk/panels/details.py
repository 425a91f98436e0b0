"""The details at the right: the form of what is selected."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QScrollArea, QStackedWidget, QWidget
from typing_extensions import override

from planner.desk.forms.form import Form
from planner.desk.forms.garden_form import GardenForm
from planner.desk.model.document import PLOT_EDGE, Document
from planner.words import say

if TYPE_CHECKING:
    from planner.desk.forms.bed_form import BedForm
    from planner.desk.forms.climate_form import ClimateForm
    from planner.desk.forms.planting_form import PlantingForm
    from planner.desk.forms.plantings_form import PlantingsForm
    from planner.desk.forms.plot_form import PlotForm
    from planner.desk.forms.several_form import SeveralForm
    from planner.desk.forms.structure_form import StructureForm
    from planner.desk.forms.underlay_form import UnderlayForm

#: The forms wrap their rows down to this width. [pixels]
LEAST_WIDTH = 236
F = TypeVar("F", bound=Form)


class _Stack(QStackedWidget):
    """Pages of which only the one shown takes room."""

    @override
    def heightForWidth(self, width: int) -> int:
        page = self.currentWidget()
        return page.heightForWidth(width) if page is not None else super().heightForWidth(width)


class Details(QScrollArea):
    """Shows the form of the selected bed, planting or structure; the garden's with nothing selected.

    All forms but the garden's are made, and their modules read, when they are first wanted.

    Attributes
    ----------
    garden, climate, bed, planting, structure, plantings, many
        The forms; the last two are of several plantings, and of several things.

    Signals
    -------
    wrong : str
        Something typed into a form is not possible; one line says why.
    righted
        It has been put right or taken back.
    form_made : str
        Name of the attribute that is the form.
    """

    wrong = Signal(str)
    righted = Signal()
    form_made = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self._climate = self._underlay = False
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setMinimumWidth(LEAST_WIDTH)
        self.setAccessibleName(say("Details"))
        self.stack = _Stack()
        self.setWidget(self.stack)
        self._forms: list[Form] = []
        self.garden = self._put("garden", GardenForm(document))
        self.garden.climate_button.clicked.connect(lambda: self.show_climate(True))
        document.selection_changed.connect(self.follow)
        document.garden_settled.connect(self._refresh)
        document.year_changed.connect(self._refresh)
        self.follow()

    @cached_property
    def climate(self) -> ClimateForm:
        from planner.desk.forms.climate_form import ClimateForm

        form = self._put("climate", ClimateForm(self.document))
        form.back.clicked.connect(lambda: self.show_climate(False))
        return form

    @cached_property
    def underlay(self) -> UnderlayForm:
        from planner.desk.forms.underlay_form import UnderlayForm

        form = self._put("underlay", UnderlayForm(self.document))
        form.back.clicked.connect(lambda: self.show_underlay(False))
        return form

    @cached_property
    def bed(self) -> BedForm:
        from planner.desk.forms.bed_form import BedForm

        return self._put("bed", BedForm(self.document))

    @cached_property
    def planting(self) -> PlantingForm:
        from planner.desk.forms.planting_form import PlantingForm

        return self._put("planting", PlantingForm(self.document))

    @cached_property
    def structure(self) -> StructureForm:
        from planner.desk.forms.structure_form import StructureForm

        return self._put("structure", StructureForm(self.document))

    @cached_property
    def plot(self) -> PlotForm:
        from planner.desk.forms.plot_form import PlotForm

        return self._put("plot", PlotForm(self.document))

    @cached_property
    def plantings(self) -> PlantingsForm:
        from planner.desk.forms.plantings_form import PlantingsForm

        return self._put("plantings", PlantingsForm(self.document))

    @cached_property
    def many(self) -> SeveralForm:
        from planner.desk.forms.several_form import SeveralForm

        return self._put("many", SeveralForm(self.document))

    def _put(self, name: str, form: F) -> F:
        """Add a form to the stack; one that is not shown takes no room."""
        form.wrong.connect(self.wrong)
        form.righted.connect(self.righted)
        policy = form.sizePolicy()
        policy.setVerticalPolicy(policy.Policy.Ignored)
        form.setSizePolicy(policy)
        self._forms.append(form)
        self.stack.addWidget(form)
        self.__dict__[name] = form  # whoever follows the signal asks for it
        self.form_made.emit(name)
        return form

    def follow(self) -> None:
        """Show the form of what is selected now."""
        if self.document.selection:
            self._climate = self._underlay = False  # the garden comes first again when nothing is selected
        form, key = self._form()
        changed = self.stack.currentWidget() is not form or form.key != key
        self.stack.setCurrentWidget(form)
        for page in self._forms:  # only the form shown takes room
            policy = page.sizePolicy()
            policy.setVerticalPolicy(policy.Policy.Preferred if page is form else policy.Policy.Ignored)
            page.setSizePolicy(policy)
        form.show_thing(key)
        if changed:
            self.verticalScrollBar().setValue(0)

    def show_climate(self, shown: bool) -> None:
        """Show the climate, or the garden, while nothing is selected."""
        self._climate, self._underlay = shown, False
        if self.document.selection:
            self.document.select(())
        self.follow()

    def show_underlay(self, shown: bool) -> None:
        """Show the underlay, or the garden, while nothing is selected."""
        self._climate, self._underlay = False, shown
        if self.document.selection:
            self.document.select(())
            self._underlay = shown
        self.follow()

    def _form(self) -> tuple[Form, str]:
        selection, garden = self.document.selection, self.document.garden
        if len(selection) > 1:
            if all(key in garden.plantings_by_id for key in selection):
                return self.plantings, " ".join(selection)
            return self.many, " ".join(selection)
        if not selection:
            if self._underlay:
                return self.underlay, ""
            return (self.climate if self._climate else self.garden), ""
        (key,) = selection
        if key in garden.beds_by_id:
            return self.bed, key
        if key in garden.plantings_by_id:
            return self.planting, key
        if key in garden.structures_by_id:
            return self.structure, key
        if key == PLOT_EDGE:
            return self.plot, key
        return self.garden, ""

    def _refresh(self) -> None:
        self._shown().refresh()

    def _shown(self) -> Form:
        return self._forms[self.stack.currentIndex()]

    def focus_first(self) -> None:
        """Put the focus into the form's first field, with the form's top in view."""
        self.verticalScrollBar().setValue(0)
        for field in self._shown().findChildren(QWidget):
            if field.focusPolicy() & Qt.FocusPolicy.TabFocus and field.isVisible() and field.isEnabled():
                field.setFocus(Qt.FocusReason.TabFocusReason)
                return
