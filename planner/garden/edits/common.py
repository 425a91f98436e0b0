"""What all edits share: the error, checked changes, fresh ids and names."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from pydantic import ValidationError

from planner.errors import BedwrightError
from planner.garden.garden import Garden
from planner.garden.model import LONGEST_NAME, Model

M = TypeVar("M", bound=Model)

_KNOWN_AS = {
    "in_row_spacing": "in-row spacing",
    "row_spacing": "row spacing",
    "first_year": "first year",
    "last_year": "last year",
    "path_width": "path width",
}


class EditError(BedwrightError):
    """An edit that is not possible."""


def checked(make: Callable[[], M], where: str) -> M:
    """The made value, or an :class:`EditError` that names the first fault and its place."""
    try:
        return make()
    except ValidationError as error:
        fault = error.errors(include_url=False, include_context=False)[0]
        words = [str(part) for part in fault["loc"] if isinstance(part, str)]
        name = _KNOWN_AS.get(words[-1], words[-1].replace("_", " ")) if words else ""
        given = fault.get("input")
        shown = f" {given!r}" if isinstance(given, (int, float, str)) and name else ""
        message = fault["msg"].removeprefix("Value error, ")
        what = f"{name}{shown}: {message[0].lower()}{message[1:]}" if name else message
        raise EditError(what, where) from None


def changed(model: M, where: str, changes: dict[str, Any]) -> M:
    """A model with some fields changed; the very same one where nothing changes."""
    known = type(model).model_fields
    new = {
        name: value for name, value in changes.items() if name not in known or getattr(model, name) != value
    }
    return checked(lambda: model.with_(**new), where) if new else model


def replaced(garden: Garden, part: str, new: dict[str, Model]) -> Garden:
    """A garden in which the things of these ids are others; the same garden where none differs."""
    things = getattr(garden, part)
    after = tuple(new.get(thing.id, thing) for thing in things)
    if all(a is b for a, b in zip(things, after, strict=True)):
        return garden
    return put(garden, **{part: after})


def put(garden: Garden, **parts: Any) -> Garden:
    """A garden with other parts; an :class:`EditError` where the document does not allow them.

    Records of plantings that are gone go with them.
    """
    if garden.records and "plantings" in parts and "records" not in parts:
        there = {planting.id for planting in parts["plantings"]}
        if any(done.planting not in there for done in garden.records):
            parts["records"] = tuple(done for done in garden.records if done.planting in there)
    return checked(lambda: garden.with_(**parts), "garden")


def fresh_id(garden: Garden, letter: str) -> str:
    """An id no thing of the garden has: a letter and the next number."""
    numbers = [int(key[1:]) for key in garden.ids() if re.fullmatch(rf"{letter}\d+", key)]
    return f"{letter}{max(numbers, default=0) + 1}"


def fresh_name(taken: Iterable[str], wish: str) -> str:
    """The wished name, or the next of its kind: ``Bed 3`` after ``Bed 2``."""
    names = {name.casefold() for name in taken}
    if wish.casefold() not in names:
        return wish
    match = re.fullmatch(r"(.*?)(\d{1,9})", wish)
    stem, number = (match[1], int(match[2])) if match else (f"{wish} ", 1)
    while True:
        name = f"{stem[: LONGEST_NAME - len(str(number))]}{number}"
        if name.casefold() not in names:
            return name
        number += 1


def finite(value: float, what: str) -> float:
    """The number, refused where it is not finite."""
    if value != value or abs(value) == float("inf"):
        raise EditError(f"{what} is no finite number", mend="Type a plain number")
    return value
