"""The covers of a planting, or of several at once, as rows of a form: a list of which one at a time is shown."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, get_args

from PySide6.QtWidgets import QWidget

from planner.amounts.covers import held_by, laid_covers
from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.desk.forms.shared_values import show_typed
from planner.desk.forms.wrapped import WrappedButton
from planner.garden import Cover, Garden, Planting, edits
from planner.garden.edits.common import checked
from planner.garden.planting import CoverKind
from planner.garden.typed_amounts import parse_mesh, parse_rate, show_mesh, show_rate
from planner.listings.covers import laid_words
from planner.season.planting_dates import CoverDays
from planner.words import full_day_words, key_words, later, say

#: Kinds that lie over plants as a sheet.
SHEETS: tuple[CoverKind, ...] = ("fleece", "netting", "low tunnel")
_HELD = {None: later("as usual"), "hoops": later("on hoops"), "flat": later("flat on the plants")}
#: What a kind has no use for.
_SHEET_ONLY = {"held": None, "height": None}


def cover_choices() -> list[tuple[CoverKind | None, str]]:
    """All kinds of cover, and none, with their words."""
    return [(None, say("none")), *((kind, key_words(kind)) for kind in get_args(CoverKind))]


class CoverRows:
    """Rows for the kind, the days and the make of one cover, and a choice among all of them.

    Parameters
    ----------
    form : Form
        Gets the rows.
    plantings : callable
        The plantings shown.
    name : callable
        What they are called in the name of a step.
    """

    def __init__(
        self, form: Form, plantings: Callable[[], tuple[Planting, ...]], name: Callable[[], str]
    ) -> None:
        self._form, self._plantings, self._name = form, plantings, name
        self._index, self._key = 0, ""
        self.which = fields.ChoiceField(say("Which of the covers"), [])
        self._which_label = form.row(say("Which"), self.which)
        self.which.chosen.connect(self._choose)
        self.kind = fields.ChoiceField(say("Kind of cover"), cover_choices())
        form.row(say("Cover"), self.kind)
        self.kind.chosen.connect(self._change_kind)
        self.first = form.date_field(say("Day on which it is laid"))
        self.last = form.date_field(say("Day on which it comes off"))
        self._days_label = form.row(say("On, off"), self.first, self.last)
        self.first.typed.connect(lambda day: self._change(first=day))
        self.last.typed.connect(lambda day: self._change(last=day))
        self.held = fields.ChoiceField(say("How it is held"), [(held, say(_HELD[held])) for held in _HELD])
        self._held_label = form.row(say("Held"), self.held)
        self.held.chosen.connect(lambda word: self._change(held=word))
        self.height = fields.length_field(say("Height of the hoops"), lambda: form.units, may_be_empty=True)
        self._height_label = form.row(say("Hoops"), self.height)
        self.height.typed.connect(lambda value: self._change(height=value))
        self.weight = fields.TypedField(
            say("Weight of the fleece"),
            lambda text: parse_rate(text, form.units),
            lambda value: show_rate(float(value), form.units),
            may_be_empty=True,
        )
        self._weight_label = form.row(say("Weight"), self.weight)
        self.weight.typed.connect(lambda value: self._change(weight=value))
        self.mesh = fields.TypedField(
            say("Mesh of the net"),
            lambda text: parse_mesh(text, form.units),
            lambda value: show_mesh(float(value), form.units),
            may_be_empty=True,
        )
        self._mesh_label = form.row(say("Mesh"), self.mesh)
        self.mesh.typed.connect(lambda value: self._change(mesh=value))
        self.words = form.words()
        self.words.setProperty("second", True)
        self.add = WrappedButton(say("Add a cover"))
        form.widget(self.add)
        self.add.clicked.connect(self._add)

    # -- edits ------------------------------------------------------------------------------

    def _put(self, change: Callable[[Planting], tuple[Cover, ...]]) -> None:
        """Change the covers of every planting shown, as one step."""
        ids = [planting.id for planting in self._plantings()]

        def edit(garden: Garden, _key: str) -> Garden:
            for key in ids:
                planting = garden.plantings_by_id[key]
                covers = checked(lambda: planting.with_(covers=change(planting)), planting.crop).covers  # noqa: B023
                garden = edits.change_planting(garden, key, covers=covers)
            return garden

        self._form.edit(say("Change the cover of {plantings}", plantings=self._name()), edit)

    def _change(self, **changes: Any) -> None:
        """Change the cover shown, on every planting that has it."""
        at = self._index

        def change(planting: Planting) -> tuple[Cover, ...]:
            covers = list(planting.covers)
            if at < len(covers):
                covers[at] = covers[at].with_(**changes)
            return tuple(covers)

        self._put(change)

    def _change_kind(self, kind: CoverKind | None) -> None:
        """Cover all with one kind, each on the days of the cover it has; without a kind that cover goes."""
        at = self._index

        def change(planting: Planting) -> tuple[Cover, ...]:
            covers = planting.covers
            if kind is None:
                return (*covers[:at], *covers[at + 1 :])
            if at >= len(covers):
                return (*covers, Cover(kind=kind))
            return (*covers[:at], _of_kind(covers[at], kind), *covers[at + 1 :])

        self._put(change)

    def _add(self) -> None:
        """Show an empty line after the last cover: its kind makes a cover of it."""
        self._index = self._most()
        self.show()
        self.kind.setFocus()
        self.kind.showPopup()

    def _choose(self, index: int) -> None:
        self._index = index
        self.show()

    # -- showing ----------------------------------------------------------------------------

    def _most(self) -> int:
        return max((len(planting.covers) for planting in self._plantings()), default=0)

    def show(self) -> None:
        """Show the covers as they are now."""
        plantings, most = self._plantings(), self._most()
        if self._form.key != self._key:
            self._key, self._index = self._form.key, 0
        self._index = min(self._index, most)
        at = self._index
        self._show_which(most)
        self.kind.show_common([one.covers[at].kind if at < len(one.covers) else None for one in plantings])
        with_it = [(one, one.covers[at]) for one in plantings if at < len(one.covers)]
        covers = [cover for _, cover in with_it]
        for widgets, shown in (
            ((self._days_label, self.first, self.last), bool(covers)),
            ((self._held_label, self.held), any(cover.kind in SHEETS for cover in covers)),
            ((self._height_label, self.height), any(_on_hoops(cover) for cover in covers)),
            ((self._weight_label, self.weight), any(cover.kind == "fleece" for cover in covers)),
            ((self._mesh_label, self.mesh), any(cover.kind == "netting" for cover in covers)),
        ):
            _show(widgets, shown)
        self.add.setVisible(most > 0 and at < most)
        self._show_fields(with_it)
        self._show_words(plantings)

    def _show_which(self, most: int) -> None:
        _show((self._which_label, self.which), most > 1 or (most == 1 and self._index == 1))
        choices = [(n, self._title(n)) for n in range(max(most, self._index + 1))]
        if [(n, self.which.itemText(n)) for n in range(self.which.count())] != choices:
            self.which.offer(choices)
        self.which.setCurrentIndex(self._index)

    def _title(self, at: int) -> str:
        """What a cover of the list is called: its number and its kinds."""
        kinds = [one.covers[at].kind for one in self._plantings() if at < len(one.covers)]
        if not kinds:
            return say("{number}: new", number=at + 1)
        if len(set(kinds)) > 1:
            return say("{number}: mixed", number=at + 1)
        return say("{number}: {cover}", number=at + 1, cover=kinds[0])

    def _show_fields(self, with_it: Sequence[tuple[Planting, Cover]]) -> None:
        if not with_it:
            return
        covers = [cover for _, cover in with_it]
        days = [self._days(planting, cover) for planting, cover in with_it]
        laid = {full_day_words(one.on.day) for one in days if one is not None}
        off = {full_day_words(one.off.day) for one in days if one is not None and one.off is not None}
        usual = say("worked out")
        show_typed(self.first, [one.first for one in covers], laid.pop() if len(laid) == 1 else usual)
        show_typed(self.last, [one.last for one in covers], off.pop() if len(off) == 1 else usual)
        self.held.show_common([one.held for one in covers])
        show_typed(self.height, [one.height for one in covers], say("as the plants"))
        show_typed(self.weight, [one.weight for one in covers], say("any"))
        show_typed(self.mesh, [one.mesh for one in covers], say("any"))

    def _days(self, planting: Planting, cover: Cover) -> CoverDays | None:
        dates = self._form.document.plan.dates(planting)
        return next((days for days in dates.covers if days.cover is cover), None)

    def _show_words(self, plantings: Sequence[Planting]) -> None:
        """What the covers of one planting take."""
        lines: list[str] = []
        if len(plantings) == 1 and plantings[0].covers:
            plan = self._form.document.plan
            lines = [
                laid_words(plan, one)
                for one in laid_covers(plan)
                if any(part.planting is plantings[0] for part in one.parts)
            ]
        self.words.setText("\n".join(lines))
        self.words.setVisible(bool(lines))


def _on_hoops(cover: Cover) -> bool:
    return cover.kind in SHEETS and held_by(cover) == "hoops"


def _of_kind(cover: Cover, kind: CoverKind) -> Cover:
    """The cover as another kind, on the same days; what that has no use for goes."""
    drop: dict[str, Any] = {} if kind in SHEETS else dict(_SHEET_ONLY)
    if kind != "fleece":
        drop["weight"] = None
    if kind != "netting":
        drop["mesh"] = None
    return cover.with_(kind=kind, **drop)


def _show(widgets: Sequence[QWidget], shown: bool) -> None:
    for widget in widgets:
        widget.setVisible(shown)
