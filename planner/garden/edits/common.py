"""Helpers of all edits: the error, validated changes, new ids and names."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable
from typing import Any, TypeVar

from pydantic import ValidationError

from planner.errors import BedwrightError
from planner.garden.edits.references import with_references_mended
from planner.garden.garden import Garden
from planner.garden.model import LONGEST_NAME, PLAN_LIMIT, Model
from planner.garden.pocket_notes import MOST_REMOVED_NOTES, NOTE_ID
from planner.words import key_words, later, say, short_number, uncapital

M = TypeVar("M", bound=Model)

#: Names of fields in messages, where the field's own name reads badly.
_FIELD_NAMES = {
    "in_row_spacing": later("in-row spacing"),
    "row_spacing": later("row spacing"),
    "line_spacing": later("distance between the lines"),
    "first_year": later("first year"),
    "last_year": later("last year"),
    "path_width": later("path width"),
    "planting_stock": later("planting stock"),
    "rate": later("grams a square metre"),
}


#: Fields that hold places.
_PLACES = ("points", "line", "center")


class EditError(BedwrightError):
    """An edit that is not possible."""


def checked(make: Callable[[], M], where: str) -> M:
    """Make a value, turning a refusal of the model into an error of one line.

    Parameters
    ----------
    make : callable
        Returns the new model.
    where : str
        Place named in the error.

    Raises
    ------
    EditError
        Names the first invalid field.
    """
    try:
        return make()
    except ValidationError as error:
        fault = error.errors(include_url=False)[0]
        words = [str(part) for part in fault["loc"] if isinstance(part, str)]
        name = words[-1] if words else ""
        message = _fault_words(fault)
        if name in _PLACES and fault["type"] in ("less_than_equal", "greater_than_equal"):
            raise EditError(
                say(
                    "a place would lie more than {number} km off, farther than a garden reaches",
                    number=f"{PLAN_LIMIT / 1000:g}",
                ),
                where,
                say("Keep everything nearer to the rest"),
            ) from None
        raise EditError(_of_field(name, fault.get("input"), message) if name else message, where) from None


def _fault_words(fault: Any) -> str:
    """What is wrong with a value; what pydantic says of it where there are no words of ours."""
    context: dict[str, Any] = {
        name: short_number(value) if isinstance(value, (int, float)) else value
        for name, value in fault.get("ctx", {}).items()
    }
    match fault["type"]:
        case "greater_than_equal":
            return say("at least {least} is possible", least=context["ge"])
        case "greater_than":
            return say("more than {least} is possible", least=context["gt"])
        case "less_than_equal":
            return say("at most {most} is possible", most=context["le"])
        case "less_than":
            return say("less than {most} is possible", most=context["lt"])
        case "string_too_long":
            return say("it may have at most {most} characters", most=context["max_length"])
        case "literal_error":
            return say("possible is {expected}", expected=context["expected"])
        case _:
            return str(fault["msg"]).removeprefix("Value error, ")


def _of_field(field: str, given: Any, message: str) -> str:
    """A fault of a field, with what was given for it."""
    name = say(_FIELD_NAMES[field]) if field in _FIELD_NAMES else field.replace("_", " ")
    fault = uncapital(message)
    if not isinstance(given, (int, float, str)):
        return say("{field}: {fault}", field=name, fault=fault)
    return say("{field} {given}: {fault}", field=name, given=repr(given), fault=fault)


def changed(model: M, where: str, changes: dict[str, Any]) -> M:
    """Return a model with some fields changed; the same object if nothing changes.

    Parameters
    ----------
    model : Model
    where : str
        Place named in the error.
    changes : dict
        New values by field.

    Raises
    ------
    EditError
        If a new value is not allowed.
    """
    fields = type(model).model_fields
    new = {
        name: value for name, value in changes.items() if name not in fields or getattr(model, name) != value
    }
    return checked(lambda: model.with_(**new), where) if new else model


def without_records(garden: Garden, gone: Collection[str]) -> Garden:
    """The garden without some records; the ids of those made of notes from outside are kept, the latest last.

    So the same notes do not bring them back.

    Parameters
    ----------
    garden : Garden
    gone : collection of str
        Their ids.
    """
    if not gone:
        return garden
    notes = [key for key in garden.removed_notes if key not in gone]
    notes += [one.id for one in garden.records if one.id in gone and NOTE_ID.fullmatch(one.id)]
    left = tuple(one for one in garden.records if one.id not in gone)
    return put(garden, records=left, removed_notes=tuple(notes[-MOST_REMOVED_NOTES:]))


def replaced(garden: Garden, part: str, new: dict[str, Model]) -> Garden:
    """Return a garden with some things of one part replaced; the same object if nothing changes.

    Parameters
    ----------
    garden : Garden
    part : str
        Field of the garden, as ``beds``.
    new : dict of str to Model
        Replacements by id.
    """
    things = getattr(garden, part)
    positions = garden.positions.get(part)
    if positions is None:
        after = [new.get(thing.id, thing) for thing in things]
    else:
        after = list(things)
        for key in new.keys() & positions.keys():
            after[positions[key]] = new[key]
    if all(a is b for a, b in zip(things, after, strict=True)):
        return garden
    return put(garden, **{part: tuple(after)})


def put_thing(
    garden: Garden,
    part: str,
    kind: type[Model],
    key: str | None,
    fields: dict[str, Any],
    *,
    letter: str,
    named_by: str,
) -> tuple[Garden, str]:
    """Change a thing of one part, or add one behind the others.

    Parameters
    ----------
    garden : Garden
    part : str
        Field of the garden, as ``offers``.
    kind : type of Model
        What the part holds; its name in words is that of errors.
    key : str or None
        Id of the thing; None adds a new one.
    fields : dict
        New values of its fields.
    letter : str
        First letter of new ids.
    named_by : str
        Field that names the thing in errors.

    Returns
    -------
    garden, id

    Raises
    ------
    EditError
        Where there is no such thing, or a value is not allowed.
    """
    what = _words_of(kind)
    if key is None:
        key = fresh_id(garden, letter)
        new = checked(lambda: kind(**{"id": key, **fields}), str(fields.get(named_by, what)))
        return put(garden, **{part: (*getattr(garden, part), new)}), key
    old = next((one for one in getattr(garden, part) if one.id == key), None)
    if old is None:
        raise EditError(say("there is no {what} '{key}'", what=key_words(what), key=key))
    return replaced(garden, part, {key: changed(old, getattr(old, named_by), fields)}), key


def remove_things(garden: Garden, part: str, kind: type[Model], keys: Iterable[str]) -> Garden:
    """Remove things of one part; the same garden where none is named.

    Parameters
    ----------
    garden : Garden
    part : str
        Field of the garden, as ``trials``.
    kind : type of Model
        What the part holds; its name in words is that of errors.
    keys : iterable of str
        Their ids.

    Raises
    ------
    EditError
        Where there is no thing of an id.
    """
    gone = set(keys)
    if unknown := gone - {one.id for one in getattr(garden, part)}:
        raise EditError(say("there is no {what} '{key}'", what=key_words(_words_of(kind)), key=min(unknown)))
    return (
        put(garden, **{part: tuple(one for one in getattr(garden, part) if one.id not in gone)})
        if gone
        else garden
    )


def _words_of(kind: type[Model]) -> str:
    """The name of a kind of thing in words: ``planting stock``."""
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", kind.__name__).lower()


def put(garden: Garden, **parts: Any) -> Garden:
    """Return a garden with some parts replaced; what names a removed thing goes with it, see
    :func:`planner.garden.edits.references.with_references_mended`.

    Parameters
    ----------
    garden : Garden
    **parts
        New values by field of the garden.

    Raises
    ------
    EditError
        If the document does not allow them.
    """
    parts = with_references_mended(garden, parts)
    return checked(lambda: garden.with_(**parts), "garden")


def fresh_id(garden: Garden, letter: str) -> str:
    """Return an unused id: a letter and the next number.

    Parameters
    ----------
    garden : Garden
    letter : str
        First letter of the id, one for each part of the garden: b for beds, p for plantings ...
    """
    return f"{letter}{garden.highest_numbers.get(letter, 0) + 1}"


def fresh_name(used: Iterable[str], wish: str) -> str:
    """Return the wished name if it is free, else the next one with a number: ``Bed 3`` after ``Bed 2``.

    Parameters
    ----------
    used : iterable of str
        Names in use.
    wish : str
    """
    names = {name.casefold() for name in used}
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
    """Return the number if it is finite.

    Parameters
    ----------
    value : float
    what : str
        Name of the number in the error.

    Raises
    ------
    EditError
        If it is not finite.
    """
    if value != value or abs(value) == float("inf"):
        raise EditError(say("{what} is no finite number", what=what), fix=say("Type a plain number"))
    return value
