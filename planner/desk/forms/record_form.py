"""A record as a form: a new one that is being written, or one that was chosen; each kind shows its own fields."""

from __future__ import annotations

import datetime as dt
from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QWidget

from planner.amounts.yields import missing_of_loss
from planner.crops.families import family_title
from planner.desk.forms import fields
from planner.desk.forms.day_field import DayField
from planner.desk.forms.form import Form
from planner.desk.forms.share_choice import ShareChoice
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.crop_names import crop_title, crops_by_name
from planner.desk.model.document import Document
from planner.desk.model.phrases import with_variety
from planner.errors import BedwrightError
from planner.garden import Planting, edits
from planner.garden.harm_words import ENDED_BY, HARM_WORDS, WHY_WORDS
from planner.garden.planting import COVER_WORK
from planner.garden.records import Amount, RecordBase
from planner.garden.units import month_first
from planner.garden.weight_words import weight_words
from planner.importing.record_measures import read_amount
from planner.listings.record_words import DONE_TASKS, KIND_WORDS, PICKED_FOR_WORDS, amount_words, done_words
from planner.words import capital, full_day_words, key_words, later, say
from planner.words.recent_days import recent_day_as_typed
from planner.words.typed_days import date_as_typed

#: Fields of each kind besides those that all records have.
_FIELDS: dict[str, tuple[str, ...]] = {
    "done": ("task", "cover", "amount"),
    "seen": ("harm", "lost", "share", "cause", "response", "look_again"),
    "came up": ("share", "count", "sown"),
    "picked": ("amount", "picked_for"),
    "ended": ("why",),
    "measured": ("measure", "value", "unit"),
    "lesson": ("crop", "family"),
}
#: What a new record of a kind has at first.
_AT_FIRST: dict[str, dict[str, Any]] = {
    "seen": {"harm": "pest"},
    "picked": {"picked_for": "kept"},
    "ended": {"why": "harvested"},
}
#: What the share is of, of harm and of what came up.
_DAMAGED = later("What of it is damaged, and grows on")
_CAME_UP = later("What of it came up")
_STAGES = ("flowering", "ripe", "first picking", "last picking")
#: Plantings of so many growing years before and after that of the record are offered.
_YEARS = 1


def _end_of_what_is_lost(seen: dict[str, Any]) -> list[dict[str, Any]]:
    """The end of a planting of which all was lost: its work and its picking are over."""
    if seen["kind"] != "seen" or seen.get("lost") != 1.0 or "planting" not in seen:
        return []
    return [
        {"kind": "ended", "day": seen["day"], "planting": seen["planting"], "why": ENDED_BY[seen["harm"]]}
    ]


class RecordForm(Form):
    """A record that was chosen, each field one step; without one, a new record, which is one step when it is written down.

    Attributes
    ----------
    draft : dict
        Fields of the new record.

    Signals
    -------
    added : str
        A new record was written down; its id.
    """

    added = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.draft: dict[str, Any] = {"kind": "done", "day": dt.date.today()}
        self._rows_of: dict[str, tuple[QWidget, QWidget]] = {}
        self._places_of: object = None
        self.section("")
        self.kind = fields.ChoiceField(
            say("Kind of record"), [(kind, capital(say(KIND_WORDS[kind]))) for kind in KIND_WORDS]
        )
        self.row(say("What"), self.kind)
        self.kind.chosen.connect(self._choose_kind)
        self.day = DayField(say("Day of the record"), dt.date.today(), self._read_day)
        self.row(say("Day"), self.day)
        self.day.typed.connect(lambda day: self._set(day=day))
        self.bed = fields.ChoiceField(say("Bed of the record"), ((None, ""),))
        self.row(say("Bed"), self.bed)
        self.bed.chosen.connect(lambda key: self._set(bed=key, planting=None))
        self.planting = fields.ChoiceField(
            say("Planting of the record"), ((None, say("none of its plantings")),)
        )
        self.row(say("Planting"), self.planting)
        self.planting.chosen.connect(self._choose_planting)
        self._make_measures()
        self.words_field = fields.NotesField(say("In words"))
        self.widget(self.words_field)
        self.words_field.typed.connect(lambda text: self._set(words=text))
        self.section("")
        self.by = fields.text_field(say("Who wrote it down"), may_be_empty=True)
        self.row(say("By"), self.by)
        self.by.typed.connect(lambda text: self._set(by=text or ""))
        self.effect = self.words()
        self.problem = self.words()
        self.problem.setProperty("warn", True)
        self.write_button = WrappedButton(say("Write it down"))
        self.widget(self.write_button)
        self.write_button.clicked.connect(self.write)
        self.new_button = WrappedButton(say("New record"))
        self.widget(self.new_button)
        self.new_button.clicked.connect(lambda: self.show_thing(""))
        self.finish()

    # -- fields -----------------------------------------------------------------------------

    def _make_measures(self) -> None:
        tasks = [
            (None, say("other work, in words")),
            *((key, done_words(key)) for key in DONE_TASKS),
        ]
        covers = [
            (None, say("all of them")),
            *((kind, key_words(kind)) for kind in ("fleece", "netting", "film", "cloche", "low tunnel")),
        ]
        self._choice("task", say("Work"), tasks)
        self._choice("cover", say("Cover"), covers)
        self._choice("harm", say("Harm"), [(key, say(HARM_WORDS[key])) for key in HARM_WORDS])
        self._typed(
            "lost",
            say("What of it was lost"),
            ShareChoice(say("Share of what was there of the planting on that day that has died or is gone")),
        )
        self._typed("share", say(_DAMAGED), ShareChoice(say("Share that is damaged, or that came up")))
        self._typed(
            "cause",
            say("What it was, perhaps"),
            fields.text_field(say("What caused it, perhaps"), may_be_empty=True),
        )
        self._typed(
            "response",
            say("What you did about it"),
            fields.text_field(say("What was done about it"), may_be_empty=True),
        )
        self._typed("look_again", say("Have a look again on"), self.coming_day(say("Day to look again")))
        self._typed(
            "count", say("Seedlings"), fields.whole_field(say("Seedlings counted"), may_be_empty=True)
        )
        self._typed(
            "sown",
            say("Of seeds"),
            fields.whole_field(say("Seeds sown where they were counted"), may_be_empty=True),
        )
        self._typed(
            "amount",
            say("How much"),
            fields.TypedField(say("Amount"), read_amount, self._show_amount, may_be_empty=True),
        )
        self._choice(
            "picked_for", say("It was"), [(key, say(PICKED_FOR_WORDS[key])) for key in PICKED_FOR_WORDS]
        )
        self._choice("why", say("Why"), [(key, say(WHY_WORDS[key])) for key in WHY_WORDS])
        self._typed("measure", say("Measured"), fields.text_field(say("What was measured")))
        self._typed("value", say("Number"), fields.number_field(say("Number measured")))
        self._typed("unit", say("Unit"), fields.text_field(say("Unit of the number"), may_be_empty=True))
        self._choice(
            "crop",
            say("Crop"),
            [
                ("", say("none")),
                *((crop.key, crop_title(crop)) for crop in crops_by_name(self.document.catalogue)),
            ],
        )
        families = sorted(
            {crop.family for crop in self.document.catalogue.crops.values()} - {""}, key=family_title
        )
        self._choice(
            "family", say("Family"), [("", say("none")), *((name, family_title(name)) for name in families)]
        )

    def _choice(self, name: str, words: str, choices: list[tuple[Any, str]]) -> None:
        field = fields.ChoiceField(words, choices)
        self._rows_of[name] = self.row(words, field), field
        field.chosen.connect(lambda value: self._set(**{name: value}))

    def _typed(self, name: str, words: str, field: fields.TypedField) -> None:
        self._rows_of[name] = self.row(words, field), field
        empty = "" if name in ("cause", "response", "unit") else None
        field.typed.connect(lambda value: self._set(**{name: empty if value is None else value}))

    def coming_day(self, name: str) -> fields.TypedField:
        """A field for a day from that of the record on."""

        def read(text: str) -> dt.date:
            return date_as_typed(text, self._shown("day"), month_first=month_first(self.units))

        return fields.date_field(name, read)

    def _read_day(self, text: str) -> dt.date:
        return recent_day_as_typed(text, dt.date.today(), month_first=month_first(self.units))

    def _show_amount(self, amount: Any) -> str:
        made = amount if isinstance(amount, Amount) else Amount.model_validate(amount)
        return amount_words(made, self.units)

    # -- edits ------------------------------------------------------------------------------

    @property
    def record(self) -> RecordBase | None:
        """The record shown; None of a new one."""
        return self.document.garden.records_by_id.get(self.key)

    def _shown(self, name: str) -> Any:
        record = self.record
        return getattr(record, name, None) if record is not None else self.draft.get(name)

    def _set(self, **changes: Any) -> None:
        if self.record is not None:
            self.edit(say("Change a record"), edits.change_record, **changes)
        else:
            self.draft |= changes
            self.refresh()

    def _choose_kind(self, kind: object) -> None:
        if self.record is not None:
            self._set(kind=kind)
            return
        kept: dict[str, Any] = {
            name: self.draft[name] for name in ("day", "bed", "planting", "words", "by") if name in self.draft
        }
        self.draft = {"kind": kind, **_AT_FIRST.get(str(kind), {}), **kept}
        self.refresh()

    def _choose_planting(self, key: object) -> None:
        bed = None
        if key is None:
            planting = self.document.garden.plantings_by_id.get(self._shown("planting") or "")
            bed = planting.bed if planting is not None else self._shown("bed")
        self._set(planting=key, bed=bed)

    def begin(self, **draft: Any) -> None:
        """Begin a new record with some fields."""
        self.draft = {"kind": "done", "day": dt.date.today(), **draft}
        self.key = ""
        self.refresh()

    def write(self) -> None:
        """Write the new record down, as one step."""
        names = ("kind", "day", "bed", "planting", "words", "by", *_FIELDS.get(self.draft["kind"], ()))
        wanted = {name: self.draft[name] for name in names if self.draft.get(name) not in (None, "")}
        made: list[str] = []

        def add(garden: Any) -> Any:
            new, ids = edits.add_records(garden, [wanted, *_end_of_what_is_lost(wanted)])
            made.extend(ids)
            return new

        refused: list[str] = []
        connection = self.document.edit_refused.connect(refused.append)
        done = self.document.edit(say("Write down a record"), add)
        self.document.edit_refused.disconnect(connection)
        self.problem.setText(refused[0] if refused else "")
        if done:
            self.draft = {
                name: self.draft[name] for name in ("kind", "day", "bed", "by") if name in self.draft
            }
            self.draft |= _AT_FIRST.get(self.draft["kind"], {})
            self.refresh()
            self.added.emit(made[-1])

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the record as it is now."""
        record = self.record
        if record is None:
            self.key = ""
        kind = self._shown("kind")
        self.heading.setText(say("New record") if record is None else capital(say(KIND_WORDS[kind])))
        self.under.setText("" if record is None else full_day_words(record.day))
        self.under.setVisible(record is not None)
        self._offer_kinds(record)
        self.kind.show_value(kind)
        self.day.show_day(self._shown("day") or dt.date.today())
        self._offer_places()
        shown = set(_FIELDS.get(kind, ()))
        if "cover" in shown and self._shown("task") not in COVER_WORK:
            shown.discard("cover")
        if "amount" in shown and kind == "done" and self._shown("task") is not None:
            shown.discard("amount")
        for name, (label, field) in self._rows_of.items():
            label.setVisible(name in shown)
            field.setVisible(name in shown)
            if name in shown and isinstance(field, fields.ChoiceField | fields.TypedField):
                field.show_value(self._shown(name))
        label = self._rows_of["share"][0]
        if isinstance(label, QLabel):
            label.setText(say(_CAME_UP) if kind == "came up" else say(_DAMAGED))
        self._show_effect()
        self.words_field.show_value(self._shown("words") or "")
        self.by.show_value(self._shown("by") or None)
        self.write_button.setVisible(record is None)
        self.new_button.setVisible(record is not None)
        if record is not None:
            self.problem.setText("")
        self.problem.setVisible(bool(self.problem.text()))

    def _show_effect(self) -> None:
        """Say what a loss does to the harvest, before it is written down."""
        words = self._effect() if self.record is None and self._shown("kind") == "seen" else ""
        self.effect.setText(words)
        self.effect.setVisible(bool(words))

    def _effect(self) -> str:
        draft, garden = self.draft, self.document.garden
        lost, damaged = draft.get("lost"), draft.get("share")
        planting = garden.plantings_by_id.get(draft.get("planting") or "")
        if not lost:
            return (
                say("What is only damaged is written down; it does not lessen the harvest.")
                if damaged
                else ""
            )
        if planting is None:
            return say("Choose the planting: what is lost is lost of one planting.")
        names = ("kind", "day", "planting", "harm", "lost")
        wanted: dict[str, Any] = {name: draft[name] for name in names if name in draft}
        plan = self.document.plan
        try:
            after = plan.what_if(edits.add_records(garden, [wanted])[0])
            before, then = missing_of_loss(plan, planting), missing_of_loss(after, planting)
        except BedwrightError:
            return ""  # why it is refused is said when it is written
        if before is None or then is None:
            return say("How much less is harvested is not known: no yield of it is.")
        left, all_of = after.survival(planting).plants, after.survival(planting).planned
        return say(
            "{left} of {planned} plants are left then; {weight} less is picked.",
            left=left,
            planned=all_of,
            weight=weight_words(max(then - before, 0), self.units),
        )

    def _offer_kinds(self, record: RecordBase | None) -> None:
        kinds = (
            list(KIND_WORDS) if record is None else list(_STAGES) if record.kind in _STAGES else [record.kind]
        )
        if list(self.kind.values) != kinds:
            self.kind.offer([(kind, capital(say(KIND_WORDS[kind]))) for kind in kinds])
        self.kind.setEnabled(len(kinds) > 1)

    def _offer_places(self) -> None:
        garden = self.document.garden
        planting = garden.plantings_by_id.get(self._shown("planting") or "")
        bed = planting.bed if planting is not None else self._shown("bed")
        if self._places_of is not garden.beds:
            self._places_of = garden.beds
            self.bed.offer([(None, say("the garden")), *((one.id, one.name) for one in garden.beds)])
        self.bed.show_value(bed)
        year = (self._shown("day") or dt.date.today()).year
        there = [
            one
            for one in self.document.plan.garden_in_bed(bed or "")
            if abs(one.year - year) <= _YEARS or one is planting
        ]
        there.sort(key=lambda one: (-one.year, self._title(one)))
        choices: list[tuple[object, str]] = [(None, say("none of its plantings"))]
        choices += [(one.id, self._title(one)) for one in there]
        if self.planting.values != tuple(key for key, _words in choices):
            self.planting.offer(choices)
        self.planting.show_value(planting.id if planting is not None else None)
        self.planting.setEnabled(bool(bed))

    def _title(self, planting: Planting) -> str:
        name = with_variety(capital(self.document.catalogue.name_of(planting.crop)), planting.variety)
        return say("{planting}, {year}", planting=name, year=planting.year)
