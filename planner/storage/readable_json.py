"""JSON that people can read, and whose versions differ line by line."""

from __future__ import annotations

import json
from typing import Any

#: Lists of plain values up to this length are written on one line. [characters]
LONGEST_LINE = 100


def readable(value: Any) -> str:
    """Write JSON text: sorted keys, two spaces, short lists of plain values on one line."""
    return _write(value, "") + "\n"


def _write(value: Any, indent: str) -> str:
    if isinstance(value, dict) and value:
        inner = indent + "  "
        lines = [f"{inner}{_plain(key)}: {_write(value[key], inner)}" for key in sorted(value)]
        return "{\n" + ",\n".join(lines) + f"\n{indent}}}"
    if isinstance(value, list) and value:
        if not any(isinstance(part, (list, dict)) for part in value):
            line = "[" + ", ".join(_plain(part) for part in value) + "]"
            if len(line) <= LONGEST_LINE:
                return line
        inner = indent + "  "
        return "[\n" + ",\n".join(inner + _write(part, inner) for part in value) + f"\n{indent}]"
    return _plain(value)


def _plain(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False)
