"""A garden as the text of its file.

A garden file is JSON in UTF-8: ``"format": "bedwright garden"``, the schema's number, and the
fields of :class:`planner.garden.Garden`; what is left at its default is left out.
"""

from __future__ import annotations

import json
from typing import Any

from pydantic import ValidationError

from planner.errors import BedwrightError
from planner.garden import Garden
from planner.storage.text import readable

FORMAT = "bedwright garden"
SCHEMA = 1
#: Most faults named in one message.
MOST_FAULTS = 5
#: Longest description of one fault, and of one place. [characters]
LONGEST_FAULT = 300

_AS_IT_IS = "the file is left as it is"
_PLAIN_WORDS = {
    "extra_forbidden": "is not a field of a garden file",
    "json_invalid": "is nested too deeply",  # what json has read and pydantic has not
    "missing": "is missing",
    "union_tag_not_found": "needs its 'shape' or 'kind'",
}


class FileError(BedwrightError):
    """A garden file that cannot be read or written."""


def parse(data: bytes | str, where: str = "garden") -> Garden:
    """The garden of a file's content.

    Raises
    ------
    FileError
        Names the place of every fault, up to a few.
    """
    document = _json(data, where)
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise FileError("is not a garden file", where, f'A garden file has "format": "{FORMAT}" in it')
    number = document.get("schema")
    if not isinstance(number, int) or isinstance(number, bool) or number < 1:
        raise FileError("has no schema number", where, f'Write "schema": {SCHEMA}')
    if number > SCHEMA:
        raise FileError(
            f"was written by a newer Bedwright (schema {_cut(str(number))}; this one reads up to {SCHEMA})",
            where,
            "Open it with that version, or update this one",
        )
    fields = {key: value for key, value in document.items() if key not in ("format", "schema", "$schema")}
    try:
        return Garden.model_validate_json(json.dumps(fields, ensure_ascii=False).encode(), strict=True)
    except UnicodeEncodeError:
        found = place(_half_character(fields) or (), fields)
        raise FileError(
            f"{found}: holds half of a character (a lone surrogate)", where, f"Type it anew; {_AS_IT_IS}"
        ) from None
    except ValidationError as error:
        raise FileError(_faults(error, fields), where, f"Mend it in a text editor; {_AS_IT_IS}") from None
    except RecursionError:
        raise FileError("is nested too deeply", where, "Use an undamaged copy") from None


def _json(data: bytes | str, where: str) -> Any:
    try:
        text = data.decode("utf-8-sig") if isinstance(data, bytes) else data
        if not text.strip():
            raise FileError("is empty", where, "Use another copy")
        return json.loads(text, parse_constant=_no_constant, object_pairs_hook=_each_once)
    except UnicodeDecodeError as error:
        raise FileError(f"is not UTF-8 text (byte {error.start})", where, "Use an undamaged copy") from None
    except json.JSONDecodeError as error:
        raise FileError(
            f"is damaged at line {error.lineno}, column {error.colno}: {error.msg}",
            where,
            f"Use an undamaged copy; {_AS_IT_IS}",
        ) from None
    except _NotMeantError as error:
        raise FileError(str(error), where, f"Mend it in a text editor; {_AS_IT_IS}") from None
    except ValueError:  # whole numbers of more than a few thousand digits
        raise FileError("holds a number that is too long", where, "Use an undamaged copy") from None
    except RecursionError:
        raise FileError("is nested too deeply", where, "Use an undamaged copy") from None


class _NotMeantError(ValueError):
    """JSON that Python reads and a garden file may not hold."""


def _no_constant(name: str) -> float:
    raise _NotMeantError(f"holds {name}, which is no number")


def _each_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    table = dict(pairs)
    if len(table) != len(pairs):
        keys = [key for key, _ in pairs]
        twice = next(key for key in keys if keys.count(key) > 1)
        raise _NotMeantError(f'gives "{_cut(twice)}" twice in one thing, and only one can be meant')
    return table


def _half_character(value: Any, here: tuple[int | str, ...] = ()) -> tuple[int | str, ...] | None:
    """Where a text stands that is no Unicode."""
    if isinstance(value, str):
        return here if _is_half(value) else None
    if isinstance(value, dict):
        key = next((key for key in value if _is_half(key)), None)
        if key is not None:
            return here
    parts = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    found = (_half_character(part, (*here, key)) for key, part in parts)
    return next((spot for spot in found if spot is not None), None)


def _is_half(text: str) -> bool:
    return any("\ud800" <= sign <= "\udfff" for sign in text)


def _faults(error: ValidationError, fields: dict[str, Any]) -> str:
    faults = error.errors(include_url=False, include_context=False)
    lines = []
    for fault in faults[:MOST_FAULTS]:
        words = _PLAIN_WORDS.get(fault["type"], fault["msg"].removeprefix("Value error, "))
        spot = f"{place(fault['loc'], fields)}: " if fault["loc"] else ""
        lines.append(spot + _cut(words))
    more = f"; and {len(faults) - MOST_FAULTS} more" if len(faults) > MOST_FAULTS else ""
    return "; ".join(lines) + more


def place(location: tuple[int | str, ...], fields: Any = None) -> str:
    """A fault's place as it reads in the file: ``beds[3] "North" outline.length``.

    Parameters
    ----------
    location : tuple
        Keys and list positions from the top.  Words that stand for a choice of shape and not for a
        key of the file are left out where ``fields`` is given.
    fields : dict, optional
        The file's content.
    """
    text, here = "", fields
    for index, part in enumerate(location):
        if isinstance(part, int):
            text += f"[{part}]"
            here = here[part] if isinstance(here, list) and part < len(here) else None
            name = here.get("name") if len(location) > index + 1 and isinstance(here, dict) else None
            if isinstance(name, str) and name:
                text += f' "{_cut(name, 60)}" '
            continue
        is_tag = isinstance(here, dict) and part not in here and part in (here.get("shape"), here.get("kind"))
        if is_tag:
            continue
        text += f".{part}" if text and not text.endswith(" ") else part
        here = here.get(part) if isinstance(here, dict) else None
    return _cut(text) or "the garden"


def _cut(text: str, longest: int = LONGEST_FAULT) -> str:
    """A text from the file that any message can hold: not too long, no half characters."""
    text = text.encode("utf-8", "replace").decode("utf-8")
    return text if len(text) <= longest else text[: longest - 1] + "…"


def dump(garden: Garden) -> str:
    """The text of a garden's file."""
    fields = garden.model_dump(mode="json", exclude_defaults=True)
    _keep_tags(garden, fields)
    return readable({"format": FORMAT, "schema": SCHEMA, **fields})


def _keep_tags(garden: Garden, fields: dict[str, Any]) -> None:
    """Put back the words that tell one shape from another, which are defaults of their models."""
    if garden.site.outline is not None:
        fields["site"]["outline"]["shape"] = garden.site.outline.shape
    for name in ("beds", "structures"):
        for thing, table in zip(getattr(garden, name), fields.get(name, ()), strict=True):
            table["outline"]["shape"] = thing.outline.shape
    for planting, table in zip(garden.plantings, fields.get("plantings", ()), strict=True):
        for name in ("plot", "arrangement"):
            if name in table:
                table[name]["kind"] = getattr(planting, name).kind


def garden_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of a garden file."""
    schema = Garden.model_json_schema()
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = "Bedwright garden file"
    schema["properties"] = {
        "$schema": {"type": "string"},
        "format": {"const": FORMAT},
        "schema": {"type": "integer", "minimum": 1, "maximum": SCHEMA},
        **schema["properties"],
    }
    schema["required"] = ["format", "schema"]
    for model in schema["$defs"].values():  # the word that tells one shape from another must be there
        tags = [name for name, field in model.get("properties", {}).items() if "const" in field]
        model["required"] = sorted({*model.get("required", ()), *tags})
    return schema
