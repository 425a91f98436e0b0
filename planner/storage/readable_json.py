"""JSON that people can read, and whose versions differ line by line."""

from __future__ import annotations

import json
from json.encoder import encode_basestring
from typing import Any

#: Lists of plain values up to this length are written on one line. [characters]
LONGEST_LINE = 100


#: Made once: ``json.dumps`` makes one for every value.
_ENCODER = json.JSONEncoder(ensure_ascii=False, allow_nan=False)
#: Indentation of one level.
STEP = "  "


class Written(str):
    """A part that is JSON text already, at the indentation of its place."""

    __slots__ = ()


def readable(value: Any) -> str:
    """Write JSON text: sorted keys, two spaces, short lists of plain values on one line.

    Parameters
    ----------
    value : object
        May hold parts that were written before (:func:`written`).
    """
    return _write(value, "") + "\n"


def written(value: Any, depth: int) -> Written:
    """Text of a part that stands at a depth of lists and tables."""
    return Written(_write(value, depth * STEP))


def _write(value: Any, indent: str) -> str:
    if isinstance(value, dict) and value:
        inner = indent + STEP
        lines = [f"{inner}{_plain(key)}: {_write(value[key], inner)}" for key in sorted(value)]
        return "{\n" + ",\n".join(lines) + f"\n{indent}}}"
    if isinstance(value, list) and value:
        if not any(isinstance(part, (list, dict, Written)) for part in value):
            line = "[" + ", ".join(_plain(part) for part in value) + "]"
            if len(line) <= LONGEST_LINE:
                return line
        inner = indent + STEP
        return "[\n" + ",\n".join(inner + _write(part, inner) for part in value) + f"\n{indent}]"
    return _plain(value)


def _plain(value: Any) -> str:
    if type(value) is str:
        return encode_basestring(value)
    if isinstance(value, Written):
        return value
    return _ENCODER.encode(value)
