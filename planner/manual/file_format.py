"""The garden file in words, from its JSON Schema."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from planner.garden.conflict_words import FIELD_NAMES
from planner.manual.words import ManualWords
from planner.storage import garden_schema
from planner.words import later

_FIELD, _KIND, _WHAT = later("field"), later("kind"), later("what it is")
_NEEDED = later("must be there")
_LIST = later("list of {what}")
_TYPES = {
    "string": later("text"),
    "integer": later("whole number"),
    "number": later("number"),
    "boolean": later("yes or no"),
    "object": later("object"),
    "array": later("list"),
    "date": later("day"),
    "date-time": later("moment"),
}
#: The whole file, and what is listed after it.
_TOP = "Garden"


def format_text(words: ManualWords, _: str = "") -> str:
    """A table for the file, and one for each kind of thing in it."""
    schema = garden_schema()
    models: dict[str, Mapping[str, Any]] = {_TOP: schema, **schema["$defs"]}
    return "\n\n".join(_model(words, name, model) for name, model in models.items())


def _model(words: ManualWords, name: str, model: Mapping[str, Any]) -> str:
    lines = [
        f"### {name} {{#format.{name}}}",
        "",
        f"| {words.say(_FIELD)} | {words.say(_KIND)} | {words.say(_WHAT)} |",
        "| --- | --- | --- |",
    ]
    required = model.get("required", ())
    for field, value in model.get("properties", {}).items():
        what = words.say(FIELD_NAMES[field]) if field in FIELD_NAMES and name != _TOP else ""
        if field in required:
            what = f"{what}, {words.say(_NEEDED)}" if what else words.say(_NEEDED)
        lines.append(f"| `{field}` | {_kind(words, value)} | {what} |")
    return "\n".join(lines)


def _kind(words: ManualWords, value: Mapping[str, Any]) -> str:
    return " / ".join(dict.fromkeys(_kinds(words, value))) or "…"


def _kinds(words: ManualWords, value: Mapping[str, Any]) -> Iterator[str]:
    if "$ref" in value:
        name = value["$ref"].rpartition("/")[2]
        yield f"[{name}](#format.{name})"
    elif "const" in value:
        yield f"`{value['const']}`"
    elif "enum" in value:
        yield ", ".join(f"`{one}`" for one in value["enum"])
    elif value.get("type") == "array":
        items = value.get("items", {})
        yield words.say(_LIST, what=_kind(words, items)) if items else words.say(_TYPES["array"])
    elif "anyOf" in value or "oneOf" in value:
        for one in value.get("anyOf", value.get("oneOf", ())):
            yield from _kinds(words, one)
    elif value.get("type") == "null":
        yield "`null`"
    elif "type" in value:
        yield words.say(_TYPES.get(value.get("format", ""), _TYPES[value["type"]]))
