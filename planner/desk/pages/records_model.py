"""Records as a table model: the newest first, filtered; day, words and name are edited in place."""

from __future__ import annotations

import datetime as dt
from typing import Any

from typing_extensions import override

from planner.desk.model.document import Document
from planner.desk.pages.record_model import RecordColumn, RecordModel, plain_text
from planner.garden import edits
from planner.garden.records import RecordBase
from planner.garden.units import month_first
from planner.listings.record_texts import RecordChoice, RecordTexts, record_amount, record_what
from planner.words import full_day_words, say
from planner.words.recent_days import recent_day_as_typed

#: Columns that are edited in place.
_DAY, _WORDS, _BY = 0, 4, 5


class RecordsModel(RecordModel):
    """The records that a filter lets through.

    Attributes
    ----------
    wanted : RecordChoice
    texts : RecordTexts
    """

    def __init__(self, document: Document) -> None:
        self._with_plan = document
        self.wanted = RecordChoice()
        self.texts = RecordTexts()
        self._rows: dict[str, int] | None = None
        columns = (
            RecordColumn(say("Day"), lambda one: full_day_words(one.day), self._read_day),
            RecordColumn(say("Where"), self._place, _nothing),
            RecordColumn(say("What"), record_what, _nothing),
            RecordColumn(
                say("How much"),
                lambda one: record_amount(one, document.garden.site.units),
                _nothing,
                right=True,
            ),
            plain_text(say("Words"), "words"),
            plain_text(say("By"), "by"),
            RecordColumn(say("Photos"), lambda one: f"{len(one.photographs) or ''}", _nothing, right=True),
        )
        super().__init__(
            document,
            columns,
            lambda _garden: self.texts.found(document.plan, self.wanted),
            lambda garden, key, fields: edits.change_record(garden, key, **fields),
            say("Change a record"),
        )

    def _place(self, record: RecordBase) -> str:
        self.texts.follow(self._with_plan.plan)
        return self.texts.place(self._with_plan.plan, record)

    def _read_day(self, text: str, _record: RecordBase) -> dict[str, Any]:
        first = month_first(self.document.garden.site.units)
        return {"day": recent_day_as_typed(text, dt.date.today(), month_first=first)}

    @override
    def is_editable(self, column: int) -> bool:
        return column in (_DAY, _WORDS, _BY)

    def row_of(self, key: str) -> int:
        """The row of a record by its id; -1 where it is not shown."""
        if self._rows is None:
            self._rows = {one.id: row for row, one in enumerate(self.records)}
        return self._rows.get(key, -1)

    def show(self, wanted: RecordChoice) -> None:
        """Show the records that another filter lets through."""
        if wanted != self.wanted:
            self.wanted = wanted
            self.refresh()

    @override
    def refresh(self) -> None:
        new = tuple(self._records_of(self.document.garden))
        old, self._rows = self.records, None
        if len(new) == len(old) and all(a is b or a.id == b.id for a, b in zip(new, old, strict=True)):
            self.records = new
            if new:
                self.dataChanged.emit(self.index(0, 0), self.index(len(new) - 1, len(self.columns) - 1))
            return
        self.beginResetModel()
        self.records = new
        self.endResetModel()


def _nothing(_text: str, _record: object) -> dict[str, Any]:
    return {}
