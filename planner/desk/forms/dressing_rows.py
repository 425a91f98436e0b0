"""What is spread on a bed, or on several at once, as rows of a form: a list of which one at a time is shown."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from typing import Any, NamedTuple, get_args

from PySide6.QtWidgets import QWidget

from planner.amounts.spread import USUAL_DEPTH, dressings_of_year, spread_of
from planner.desk.forms import fields
from planner.desk.forms.dressing_days import usual_day
from planner.desk.forms.form import Form
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.dressing_words import unknown_rate
from planner.garden import Bed, Dressing, Garden, edits
from planner.garden.edits.common import EditError
from planner.garden.materials import BY_MASS, SpreadKind
from planner.garden.typed_amounts import parse_measure, show_measure
from planner.listings.materials import crop_words
from planner.listings.spread import total_words
from planner.words import day_words, key_words, say, say_in_context


def _kinds() -> list[tuple[SpreadKind | None, str]]:
    return [(None, say("nothing")), *((kind, key_words(kind)) for kind in get_args(SpreadKind))]


class _Group(NamedTuple):
    """Dressings that are alike, at most one on each of the beds shown."""

    dressings: tuple[Dressing, ...]

    @property
    def first(self) -> Dressing:
        return self.dressings[0]


class DressingRows:
    """Rows for one dressing, and a choice among all of the growing year.

    Of several beds, dressings of one kind, day and measure are shown as one; what is changed is changed on all of them.

    Parameters
    ----------
    form : Form
        Gets the rows.
    beds : callable
        The beds shown.
    """

    def __init__(self, form: Form, beds: Callable[[], tuple[Bed, ...]]) -> None:
        self._form, self._beds = form, beds
        self._index, self._key = 0, ""
        self._chosen: str | None = None
        self._wanted: SpreadKind | None = None  # chosen, but how much of it is not said yet
        self.title = form.section(say("What is spread"))
        self.which = fields.ChoiceField(say("Which of the dressings"), [])
        self._which_label = form.row(say("Which"), self.which)
        self.which.chosen.connect(self._choose)
        self.kind = fields.ChoiceField(say("What is spread"), _kinds())
        self._kind_label = form.row(say_in_context("what is spread", "Spread"), self.kind)
        self.kind.chosen.connect(self._change_kind)
        self.measure = fields.TypedField(say("How much is spread"), self._read_measure, self._show_measure)
        self._measure_label = form.row(say("How much"), self.measure)
        self.measure.typed.connect(self._change_measure)
        self.day = form.date_field(say("Day on which it is spread"))
        self._day_label = form.row(say("On"), self.day)
        self.day.typed.connect(self._change_day)
        self.over = fields.ChoiceField(say("Over the whole bed, or over one planting"), ((None, ""),))
        self._over_label = form.row(say_in_context("on which ground", "Over"), self.over)
        self.over.chosen.connect(lambda key: self._change(planting=key))
        self.done = form.date_field(say("Day on which it was spread"))
        self._done_label = form.row(say("Done on"), self.done)
        self.done.typed.connect(lambda day: self._change(done=day))
        self.notes = fields.text_field(say("Notes on what is spread"), may_be_empty=True)
        self._notes_label = form.row(say("Notes"), self.notes)
        self.notes.typed.connect(lambda text: self._change(notes=text or ""))
        self.words = form.words()
        self.words.setProperty("second", True)
        self.add = WrappedButton(say("Spread something else"))
        form.widget(self.add)
        self.add.clicked.connect(self._add)

    # -- values -----------------------------------------------------------------------------

    def _groups(self) -> list[_Group]:
        """Dressings of the growing year on the beds shown; of several beds those alike together."""
        plan, ids = self._form.document.plan, {bed.id for bed in self._beds()}
        found: dict[object, list[Dressing]] = {}
        for one in dressings_of_year(plan):
            bed = plan.garden.plantings_by_id[one.planting].bed if one.planting is not None else one.bed
            if bed not in ids:
                continue
            alone = len(ids) == 1 or one.planting is not None
            key = one.id if alone else (one.kind, one.day, one.depth, one.rate, one.done, one.notes)
            found.setdefault(key, []).append(one)
        return [_Group(tuple(group)) for group in found.values()]

    def _group(self) -> _Group | None:
        groups = self._groups()
        return groups[self._index] if self._index < len(groups) else None

    def _read_measure(self, text: str) -> dict[str, float | None]:
        group = self._group()
        kind = self._wanted or (group.first.kind if group is not None else None)
        return parse_measure(text, self._form.units, by_mass=kind in BY_MASS)

    def _show_measure(self, value: dict[str, float | None]) -> str:
        return show_measure(value["depth"], value["rate"], self._form.units)

    # -- edits ------------------------------------------------------------------------------

    def _change(self, **changes: Any) -> None:
        """Change the dressing shown, on all beds that have it."""
        group = self._group()
        if group is None:
            return
        keys = [one.id for one in group.dressings]

        def edit(garden: Garden, _key: str) -> Garden:
            for key in keys:
                garden, _ = edits.put_dressing(garden, key, **changes)
            return garden

        self._chosen = keys[0]
        self._form.edit(say("Change what is spread"), edit)

    def _change_day(self, day: dt.date | None) -> None:
        if day is None:
            self._form.refuse(
                str(EditError(say("what is spread needs a day"), fix=say("Type one, or choose nothing")))
            )
        else:
            self._change(day=day)

    def _change_measure(self, measure: dict[str, float | None]) -> None:
        if self._wanted is not None:
            self._make(self._wanted, measure)
        else:
            self._change(**measure)

    def _change_kind(self, kind: SpreadKind | None) -> None:
        group = self._group()
        self._wanted = None
        if kind is None:
            if group is not None:
                self._remove(group)
            else:
                self.show()
        elif group is not None and (kind not in BY_MASS or group.first.rate is not None):
            self._change(kind=kind)
        elif group is not None:
            self._form.refuse(str(unknown_rate(kind)))
        elif kind in BY_MASS:
            self._wanted = kind  # a soil test, or its packet, says how much
            self.show()
            self.measure.setFocus()
        else:
            self._make(kind, {"depth": USUAL_DEPTH[kind], "rate": None})

    def _make(self, kind: SpreadKind, measure: dict[str, Any]) -> None:
        """Spread something on every bed shown, each on its usual day."""
        plan = self._form.document.plan
        days = {bed.id: usual_day(plan, bed) for bed in self._beds()}
        if len(days) > 1:
            days = dict.fromkeys(days, min(days.values()))  # alike on all of them

        def edit(garden: Garden, _key: str) -> Garden:
            for bed, day in days.items():
                garden, key = edits.put_dressing(garden, bed=bed, kind=kind, day=day, **measure)
                self._chosen = key
            return garden

        self._wanted = None
        self._form.edit(say("Spread {kind}", kind=kind), edit)

    def _remove(self, group: _Group) -> None:
        def edit(garden: Garden, _key: str) -> Garden:
            for one in group.dressings:
                garden = edits.remove_material(garden, one.id)
            return garden

        self._form.edit(say("Remove what is spread"), edit)

    def _add(self) -> None:
        self._index, self._wanted = len(self._groups()), None
        self.show()
        self.kind.setFocus()
        self.kind.showPopup()

    def _choose(self, index: int) -> None:
        self._index, self._wanted = index, None
        self.show()

    # -- showing ----------------------------------------------------------------------------

    def show(self) -> None:
        """Show what is spread as it is now; nothing without a bed."""
        beds, groups = self._beds(), self._groups()
        if self._form.key != self._key:
            self._key, self._index, self._wanted = self._form.key, 0, None
        if self._chosen is not None:  # where an edit has put it
            at = (n for n, group in enumerate(groups) if self._chosen in [one.id for one in group.dressings])
            self._index, self._chosen = next(at, self._index), None
        self._index = min(self._index, len(groups))
        group = groups[self._index] if self._index < len(groups) else None
        _show((self.title, self._kind_label, self.kind), bool(beds))
        new = group is None and bool(groups)
        _show((self._which_label, self.which), len(groups) > 1 or new)
        titles = [self._title(one) for one in groups] + ([say("new")] if new else [])
        if titles != [self.which.itemText(n) for n in range(self.which.count())]:
            self.which.offer(list(enumerate(titles)))
        self.which.setCurrentIndex(self._index)
        self.kind.show_value(group.first.kind if group is not None else self._wanted)
        _show((self._measure_label, self.measure), group is not None or self._wanted is not None)
        _show((self._day_label, self.day, self._done_label, self.done), group is not None)
        _show((self._notes_label, self.notes), group is not None)
        _show((self._over_label, self.over), group is not None and len(beds) == 1)
        self.add.setVisible(group is not None)
        self._show_fields(group, beds)

    def _show_fields(self, group: _Group | None, beds: Sequence[Bed]) -> None:
        if group is None:
            hint = say("as a soil test says") if self._wanted is not None else ""
            self.measure.show_value(None, hint)
            self.words.setText(unknown_rate(self._wanted).fix if self._wanted is not None else "")
            self.words.setVisible(self._wanted is not None)
            return
        plan, one = self._form.document.plan, group.first
        self.measure.show_value({"depth": one.depth, "rate": one.rate})
        self.day.show_value(one.day)
        self.done.show_value(one.done, say("not yet"))
        self.notes.show_value(one.notes or None)
        if len(beds) == 1:
            plantings = [
                (each.id, crop_words(plan, each.crop, each.variety, [beds[0].name]))
                for each in plan.in_bed(beds[0])
            ]
            self.over.offer([(None, say("the whole bed")), *plantings])
            self.over.show_value(one.planting)
        self.words.setText(total_words(plan, [spread_of(plan, each) for each in group.dressings]))
        self.words.show()

    def _title(self, group: _Group) -> str:
        one = group.first
        measure = show_measure(one.depth, one.rate, self._form.units)
        return say("{kind}, {measure}, {day}", kind=one.kind, measure=measure, day=day_words(one.day))


def _show(widgets: Sequence[QWidget], shown: bool) -> None:
    for widget in widgets:
        widget.setVisible(shown)
