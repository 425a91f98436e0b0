"""How plants are raised, as rows of a form: of one planting, or of several at once."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import partial
from typing import NamedTuple

from PySide6.QtWidgets import QWidget

from planner.amounts.raising import Raised, raised
from planner.crops.containers import number_of, shipped_containers, tray_sizes
from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.desk.forms.planting_words import raising_lines
from planner.garden import Planting
from planner.garden.edits import EditError, checked
from planner.garden.raising import Raising, RaisingWay
from planner.garden.site import UnitSystem
from planner.garden.units import show_spacing
from planner.listings.raising import SHORT_WAYS
from planner.plan import Plan
from planner.season.container_words import container_words
from planner.season.raising import way_of_raising
from planner.words import say

#: Ways whose plants are in a tray of cells, and those with a pot or block of a width.
_IN_CELLS: tuple[RaisingWay, ...] = ("cells", "pricked out")
_OF_A_WIDTH: tuple[RaisingWay, ...] = ("pots", "blocks", "pricked out")


class _Shown(NamedTuple):
    """What the rows show of a planting."""

    planting: str
    raising: Raising | None


class RaisingRows:
    """Rows for the way of raising, the tray and the pots, with what that takes in words; hidden where nothing is raised.

    Parameters
    ----------
    form : Form
        Gets the rows, in the section that it is in.
    put : callable
        Called with the way of raising of each planting as changed, by its id.
    """

    def __init__(self, form: Form, put: Callable[[Mapping[str, Raising | None]], None]) -> None:
        self._form, self._put = form, put
        self._shown: tuple[_Shown, ...] = ()
        self.way = fields.ChoiceField(
            say("Way of raising"), [(None, ""), *((way, say(SHORT_WAYS[way])) for way in SHORT_WAYS)]
        )
        self.cells = fields.ChoiceField(
            say("Tray"),
            [(None, ""), *((cells, say("tray of {cells}", cells=cells)) for cells in tray_sizes())],
        )
        self.width = fields.length_field(
            say("Width of the pots or blocks"), lambda: form.units, small=True, may_be_empty=True
        )
        self._way_label = form.row(say("Raised"), self.way)
        self._cells_label = form.row(say("Tray"), self.cells)
        self._width_label = form.row(say("Pots, blocks"), self.width)
        self.words = form.words()
        self.words.setProperty("second", True)
        self.way.chosen.connect(self._choose_way)
        self.cells.chosen.connect(lambda cells: self._change(cells=cells, width=None))
        self.width.typed.connect(lambda width: self._change(width=width, cells=None))

    # -- edits ------------------------------------------------------------------------------

    def _choose_way(self, way: RaisingWay | None) -> None:
        new = Raising(way=way) if way is not None else None
        self._put(dict.fromkeys((one.planting for one in self._shown), new))

    def _change(self, **changes: object) -> None:
        """Change the size of all that are shown; they are raised in one way then."""
        try:
            changed = {
                one.planting: checked(partial(one.raising.with_, **changes), say("the way of raising"))
                for one in self._shown
                if one.raising is not None
            }
        except EditError as error:
            self._form.refuse(str(error))
            return
        self._put(changed)

    # -- showing ----------------------------------------------------------------------------

    def show(self, plan: Plan, plantings: Sequence[Planting]) -> None:
        """Show how plantings are raised; nothing where one of them is not.

        Parameters
        ----------
        plan : Plan
        plantings : sequence of Planting
        """
        found = [raised(plan, planting) for planting in plantings]
        parts = [part for part in found if part is not None]
        there = bool(parts) and len(parts) == len(found)
        self._shown = tuple(_Shown(one.id, one.raising) for one in plantings) if there else ()
        units = plan.garden.site.units
        for widget in (self._way_label, self.way, self.words):
            widget.setVisible(there)
        ways = {one.raising.way if one.raising is not None else None for one in self._shown}
        way = next(iter(ways)) if len(ways) == 1 else None
        self._show_row(self._cells_label, self.cells, way in _IN_CELLS)
        self._show_row(self._width_label, self.width, way in _OF_A_WIDTH)
        if not there:
            return
        usual = {
            way_of_raising(part.planting.with_(raising=None), plan.figures_of(part.planting)).way
            for part in parts
        }
        self.way.setItemText(0, _usual_words([say(SHORT_WAYS[way]) for way in usual]))
        self.way.show_common(ways)
        given = [one.raising for one in self._shown if one.raising is not None]
        self.cells.setItemText(0, self._usual_cells(plan, parts, given))
        self.cells.show_common({one.cells for one in given})
        self._show_width(given, units)
        self.words.setText("\n".join(raising_lines(parts[0], plan.year, units)) if len(parts) == 1 else "")
        self.words.setVisible(bool(self.words.text()))

    @staticmethod
    def _show_row(label: QWidget, field: QWidget, shown: bool) -> None:
        label.setVisible(shown)
        field.setVisible(shown)

    @staticmethod
    def _usual_cells(plan: Plan, parts: Sequence[Raised], given: Sequence[Raising]) -> str:
        """The first entry of trays: pots where a width is given, else the usual tray."""
        if any(one.width is not None for one in given):
            return say("none: pots")
        names = set()
        for part, one in zip(parts, given, strict=False):
            way = way_of_raising(
                part.planting.with_(raising=Raising(way=one.way)), plan.figures_of(part.planting)
            )
            if way.container is not None:
                names.add(container_words(way.container, plan.garden.site.units))
        return _usual_words(names)

    def _show_width(self, given: Sequence[Raising], units: UnitSystem) -> None:
        widths = {one.width for one in given}
        way = given[0].way if given else None
        found = shipped_containers()
        usual = number_of(found.blocks.usual if way == "blocks" else found.by_seed.pot)
        hint = say("no pots") if way == "pricked out" else show_spacing(usual, units)
        if len(widths) == 1:
            self.width.show_value(widths.pop(), hint)
        else:
            self.width.show_value(None, say("several") if widths else hint)


def _usual_words(names: Collection[str]) -> str:
    """What is usual for all that are shown, or that it differs."""
    return say("usual: {way}", way=next(iter(names))) if len(names) == 1 else say("the usual of each crop")
