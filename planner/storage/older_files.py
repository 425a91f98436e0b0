"""Fields that files of earlier versions hold, turned into those of today."""

from __future__ import annotations

import itertools
from typing import Any


def as_of_today(fields: dict[str, Any]) -> dict[str, Any]:
    """The fields of a garden file without those that are no more, and with today's names for others.

    - ``climate.by_heat`` chose whether ripening follows the warmth: it always does.
    - A variety's ``heat`` is its ``heat_to_harvest``.
    - A record was a tick without an id: it is a record of work that was done.

    What is not of the expected shape is left as it is; the models say what is wrong with it.

    Parameters
    ----------
    fields : dict
        Fields of a garden as JSON holds them.
    """
    climate, varieties = fields.get("climate"), fields.get("varieties")
    if isinstance(climate, dict) and "by_heat" in climate:
        fields = {**fields, "climate": {name: value for name, value in climate.items() if name != "by_heat"}}
    if isinstance(varieties, list):
        fields = {**fields, "varieties": [_renamed(variety) for variety in varieties]}
    records = fields.get("records")
    if isinstance(records, list) and any(_is_tick(record) for record in records):
        fields = {**fields, "records": _with_ids(records, _ids_in(fields))}
    return fields


def _is_tick(record: Any) -> bool:
    return isinstance(record, dict) and "date" in record and "id" not in record


def _ids_in(fields: dict[str, Any]) -> set[str]:
    """Ids of the things in all lists of a file."""
    return {
        str(thing["id"])
        for things in fields.values()
        if isinstance(things, list)
        for thing in things
        if isinstance(thing, dict) and "id" in thing
    }


def _with_ids(records: list[Any], used: set[str]) -> list[Any]:
    """Records of today's form: ticks get ids that nothing else has."""
    numbers = (number for number in itertools.count(1) if f"r{number}" not in used)
    names = {"kind": "task", "date": "day"}
    return [
        {
            "id": f"r{next(numbers)}",
            "kind": "done",
            **{names.get(name, name): value for name, value in record.items()},
        }
        if _is_tick(record)
        else record
        for record in records
    ]


def _renamed(variety: Any) -> Any:
    figures = variety.get("figures") if isinstance(variety, dict) else None
    if not isinstance(figures, list):
        return variety
    old = [isinstance(one, dict) and one.get("field") == "heat" for one in figures]
    if not any(old):
        return variety
    new = [
        {**one, "field": "heat_to_harvest"} if is_old else one
        for one, is_old in zip(figures, old, strict=True)
    ]
    return {**variety, "figures": new}
