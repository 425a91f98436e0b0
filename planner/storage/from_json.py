"""A garden made of what JSON holds, so that the faults of a large file do not fill the memory."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, get_args, get_origin

from pydantic import TypeAdapter, ValidationError

from planner.garden import Garden
from planner.storage.faults import Fault

#: Things that are made at a time: after a fault among them the rest of their part is not looked at.
AT_A_TIME = 1_000


class FaultsError(Exception):
    """Faults that the models found.

    Attributes
    ----------
    faults : list of Fault
    more : bool
        Whether there may be more, in things that were not looked at.
    """

    def __init__(self, faults: list[Fault], more: bool = False) -> None:
        super().__init__(len(faults))
        self.faults, self.more = faults, more


def make_garden(fields: Mapping[str, Any]) -> Garden:
    """Make a garden.

    Parameters
    ----------
    fields : mapping
        The fields of the file that are the garden's.

    Raises
    ------
    FaultsError
        Where a value is not allowed.
    UnicodeEncodeError
        Where a text holds half of a character.
    RecursionError
        Where it is nested too deeply.
    """
    rest, parts = dict(fields), dict[str, Any]()
    faults: list[Fault] = []
    more = False
    for part, adapter in _lists_of_things().items():
        things = rest.get(part)
        if isinstance(things, list):
            del rest[part]
            try:
                parts[part] = tuple(_made(part, adapter, things))
            except FaultsError as error:
                faults += error.faults
                more = more or error.more
    garden = Garden()
    try:
        garden = Garden.model_validate_json(_as_json(rest), strict=True)
    except ValidationError as error:
        faults += _faults(error)
    if faults:
        raise FaultsError(faults, more)
    try:
        return garden.with_(**parts) if parts else garden
    except ValidationError as error:  # what the things are to each other
        raise FaultsError(_faults(error)) from None


def _made(part: str, adapter: TypeAdapter[list[Any]], things: list[Any]) -> Iterator[Any]:
    for first in range(0, len(things), AT_A_TIME):
        some = things[first : first + AT_A_TIME]
        try:
            yield from adapter.validate_json(_as_json(some), strict=True)
        except ValidationError as error:
            found = [fault.below(part, first) for fault in _faults(error)]
            raise FaultsError(found, first + AT_A_TIME < len(things)) from None


@cache
def _lists_of_things() -> dict[str, TypeAdapter[list[Any]]]:
    """Adapters for the parts of a garden that are lists of things."""
    return {
        name: TypeAdapter(list[get_args(field.annotation)[0]])  # type: ignore[misc, arg-type]  # known only when run
        for name, field in Garden.model_fields.items()
        if get_origin(field.annotation) is tuple
    }


def _faults(error: ValidationError) -> list[Fault]:
    return [
        Fault(fault["loc"], fault["type"], fault["msg"].removeprefix("Value error, "))
        for fault in error.errors(include_url=False, include_context=False, include_input=False)
    ]


def _as_json(value: Any) -> bytes:
    return json.dumps(value, ensure_ascii=False).encode()
