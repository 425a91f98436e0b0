"""A garden as the text of its file.

A garden file is JSON in UTF-8: ``"format": "bedwright garden"``, the schema's number, and the
fields of :class:`planner.garden.Garden`; what is left at its default is left out.
"""

from __future__ import annotations

import json
from typing import Any

from planner.garden import Bed, Garden, Planting, Structure
from planner.garden.model import Model
from planner.storage.bounds import refuse_too_many, refuse_too_many_things
from planner.storage.faults import cut, fault_words, half_character, place
from planner.storage.file_error import FileError
from planner.storage.from_json import FaultsError, make_garden
from planner.storage.older_files import as_of_today
from planner.storage.readable_json import Written, readable, written
from planner.storage.strict_json import StrictReader, first_forbidden
from planner.words import say

#: What a garden file calls itself.
FORMAT = "bedwright garden"
#: Number of the present schema.
SCHEMA = 2

#: Keys of a file that are no fields of the garden; ``unsaved`` is the head of a journal.
_NOT_OF_THE_GARDEN = ("format", "schema", "$schema", "unsaved")


def parse(data: bytes | str, where: str = "garden") -> Garden:
    """Read the garden of a file's content.

    Parameters
    ----------
    data : bytes or str
        Content of the file.
    where : str
        Name of the file, for errors.

    Raises
    ------
    FileError
        Names the place of every fault, up to a few.
    """
    document = _json(data, where)
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise FileError(
            say("is not a garden file"),
            where,
            say('A garden file has "format": "{format}" in it', format=FORMAT),
        )
    number = document.get("schema")
    if not isinstance(number, int) or isinstance(number, bool) or number < 1:
        raise FileError(say("has no schema number"), where, say('Write "schema": {schema}', schema=SCHEMA))
    if number > SCHEMA:
        raise FileError(
            say(
                "was written by a newer Bedwright (schema {found}; this one reads up to {schema})",
                found=cut(str(number)),
                schema=SCHEMA,
            ),
            where,
            say("Open it with that version, or update this one"),
        )
    fields = {key: value for key, value in document.items() if key not in _NOT_OF_THE_GARDEN}
    refuse_too_many_things(fields, where)
    try:
        return make_garden(as_of_today(fields))
    except UnicodeEncodeError:
        found = place(half_character(fields) or (), fields)
        raise FileError(
            say("{found}: holds half of a character (a lone surrogate)", found=found),
            where,
            say("Type it anew; the file is left as it is"),
        ) from None
    except FaultsError as error:
        words = fault_words(error.faults, fields, error.more)
        raise FileError(words, where, say("Mend it in a text editor; the file is left as it is")) from None
    except RecursionError:
        raise FileError(say("is nested too deeply"), where, say("Use an undamaged copy")) from None


def _json(data: bytes | str, where: str) -> Any:
    refuse_too_many(data, where)
    try:
        text = data.decode("utf-8-sig") if isinstance(data, bytes) else data
        if not text.strip():
            raise FileError(say("is empty"), where, say("Use another copy"))
        reader = StrictReader()
        found = reader.read(text)
    except UnicodeDecodeError as error:
        raise FileError(
            say("is not UTF-8 text (byte {start})", start=error.start), where, say("Use an undamaged copy")
        ) from None
    except json.JSONDecodeError as error:
        if not text.lstrip().startswith("{"):
            line = text[: len(text) - len(text.lstrip())].count("\n") + 1
            raise FileError(
                say("is no garden file: line {line} is not what such a file begins with", line=line),
                where,
                say("Choose a file whose name ends in .bedwright"),
            ) from None
        raise FileError(
            say(
                "is damaged at line {line}, column {column}: what stands there has no place in a garden file",
                line=error.lineno,
                column=error.colno,
            ),
            where,
            say("Use an undamaged copy; the file is left as it is"),
        ) from None
    except RecursionError:
        raise FileError(say("is nested too deeply"), where, say("Use an undamaged copy")) from None
    if reader.forbidden:
        spot, words = first_forbidden(found)
        named = f"{place(spot, found)}: {words}" if spot else words
        raise FileError(named, where, say("Mend it in a text editor; the file is left as it is"))
    return found


def dump(garden: Garden, more: dict[str, Any] | None = None) -> str:
    """Write the text of a garden's file.

    Parameters
    ----------
    garden : Garden
    more : dict, optional
        Further keys, which are no fields of the garden.
    """
    return GardenWriter().dump(garden, more)


class GardenWriter:
    """Writes the text of a garden's file again and again; what is the same as before is written once.

    It keeps the text of each bed, structure, planting ... of the garden that it wrote last.  Two threads may not use one.
    """

    def __init__(self) -> None:
        self._texts: dict[int, tuple[Model, Written]] = {}

    def dump(self, garden: Garden, more: dict[str, Any] | None = None) -> str:
        """Write the text; see :func:`dump`."""
        lists: dict[str, tuple[Model, ...]] = {
            name: value
            for name in Garden.model_fields
            if (value := getattr(garden, name)) and isinstance(value, tuple) and isinstance(value[0], Model)
        }
        fields = garden.model_dump(mode="json", exclude_defaults=True, exclude=set(lists))
        if garden.site.outline is not None:
            fields["site"]["outline"]["shape"] = garden.site.outline.shape
        before, self._texts = self._texts, {}
        for name, things in lists.items():
            fields[name] = [self._text_of(thing, before) for thing in things]
        return readable({"format": FORMAT, "schema": SCHEMA, **fields, **(more or {})})

    def _text_of(self, thing: Model, before: dict[int, tuple[Model, Written]]) -> Written:
        """The text of one thing in a list of the garden."""
        kept = before.get(id(thing))
        if kept is None or kept[0] is not thing:
            fields = thing.model_dump(mode="json", exclude_defaults=True)
            _add_tags(thing, fields)
            kept = thing, written(fields, 2)
        self._texts[id(thing)] = kept
        return kept[1]


def _add_tags(thing: Model, fields: dict[str, Any]) -> None:
    """Add the words that tell one shape from another, which are left out as defaults of their models."""
    if isinstance(thing, (Bed, Structure)):
        fields["outline"]["shape"] = thing.outline.shape
    if isinstance(thing, Planting):
        for name in ("plot", "arrangement"):
            if name in fields:
                fields[name]["kind"] = getattr(thing, name).kind


def garden_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a garden file."""
    schema = Garden.model_json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "Bedwright garden file"
    schema["properties"] = {
        "$schema": {"type": "string"},
        "format": {"const": FORMAT},
        "schema": {"type": "integer", "minimum": 1, "maximum": SCHEMA},
        "unsaved": {"type": "object", "description": "Head of a journal of unsaved work."},
        **schema["properties"],
    }
    schema["required"] = ["format", "schema"]
    for model in schema["$defs"].values():  # the word that tells one shape from another is required
        tags = [name for name, field in model.get("properties", {}).items() if "const" in field]
        model["required"] = sorted({*model.get("required", ()), *tags})
    return schema
