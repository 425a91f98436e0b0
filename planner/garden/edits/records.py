"""Edits of records: what happened is added, corrected and taken back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from planner.garden.edits.common import EditError, changed, checked, fresh_id, put, replaced, without_records
from planner.garden.edits.ticks import refuse_wrong_order
from planner.garden.garden import Garden
from planner.garden.records import RECORD_MODELS, RecordBase
from planner.words import say


def add_records(garden: Garden, new: Iterable[Mapping[str, Any]]) -> tuple[Garden, tuple[str, ...]]:
    """Add records; one step for any number.

    Parameters
    ----------
    garden : Garden
    new : iterable of mapping
        The fields of each record, ``kind`` and ``day`` among them, without an id.

    Returns
    -------
    garden, ids of the records

    Raises
    ------
    EditError
        Where a record is not possible; then none is added.
    """
    number = int(fresh_id(garden, "r")[1:])
    made = [_made({"id": f"r{number + index}", **fields}) for index, fields in enumerate(new)]
    for record in made:
        refuse_unknown(garden, record)
    if not made:
        return garden, ()
    refuse_wrong_order(garden, made)
    return put(garden, records=(*garden.records, *made)), tuple(one.id for one in made)


def change_record(garden: Garden, key: str, **fields: Any) -> Garden:
    """Change fields of a record; the same garden if nothing changes.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the record.
    **fields
        New values.

    Raises
    ------
    EditError
        Where there is no such record, or a value is not possible; another kind of measure is another record.
    """
    old = _record(garden, key)
    if "kind" in fields and _model_of(fields["kind"]) is not type(old):
        raise EditError(
            say("a record of '{kind}' cannot become one of '{fields}'", kind=old.kind, fields=fields["kind"]),
            str(old.day),
            say("Take it back and write a new one"),
        )
    new = changed(old, str(old.day), fields)
    if new is old:
        return garden
    refuse_unknown(garden, new)
    without = put(garden, records=tuple(one for one in garden.records if one is not old))
    refuse_wrong_order(without, [new])
    return replaced(garden, "records", {key: new})


def remove_records(garden: Garden, keys: Iterable[str]) -> Garden:
    """Remove records; of those made of notes from outside the ids are kept, so that the same notes do not bring them back.

    Parameters
    ----------
    garden : Garden
    keys : iterable of str
        Their ids.
    """
    gone = {_record(garden, key).id for key in keys}
    if not gone:
        return garden
    return without_records(garden, gone)


def refuse_unknown(garden: Garden, record: RecordBase) -> None:
    """Refuse a record of a bed or planting that the garden does not have.

    Raises
    ------
    EditError
    """
    if record.planting is not None and record.planting not in garden.plantings_by_id:
        raise EditError(say("there is no planting '{planting}'", planting=record.planting), str(record.day))
    if record.bed is not None and record.bed not in garden.beds_by_id:
        raise EditError(say("there is no bed '{bed}'", bed=record.bed), str(record.day))


def _model_of(kind: object) -> type[RecordBase]:
    model = RECORD_MODELS.get(str(kind))
    if model is None:
        raise EditError(
            say("there is no kind of record '{kind}'", kind=kind),
            fix=say("Possible are {names}", names=", ".join(RECORD_MODELS)),
        )
    return model


def _made(fields: Mapping[str, Any]) -> RecordBase:
    model = _model_of(fields.get("kind"))
    return checked(lambda: model.model_validate(fields), str(fields.get("day", fields.get("kind"))))


def _record(garden: Garden, key: str) -> RecordBase:
    found = garden.records_by_id.get(key)
    if found is None:
        raise EditError(say("there is no record '{key}'", key=key))
    return found
