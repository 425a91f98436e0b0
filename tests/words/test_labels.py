"""Labels are plain words of the trade, the same in the window, in listings and on sheets."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache

import pytest
from words.extract import TOP

#: Words a grower had to guess, as whole labels or inside sentences.
_GUESSED = (
    r"wav(e|ed) .*aside|take it up again\b.*finding|by gravity|standing from before|look(ed)? over\b|[Ll]east path",
    r"by the hemisphere|of the hour|year at once|to a station|\{count\} stations?\b|[Ll]eft standing|let stand",
    r"(?<![a-z])pinned\)|, pinned|\bPin the\b|[Rr]ows turned|\bUp is at\b|^Ways$|^Stand(ing)?$|^To (raise|get)$|^Broadcast$",
    r"[Ii]n the drill, |^(Outline|Paper|Sheet|Amounts|Mind)$|it will suffer|\b(only|by|the|from) lore\b|for the kitchen",
)


@cache
def _shown() -> tuple[tuple[str, str], ...]:
    """All texts in the code, with their places; not what is documentation of the code."""
    return tuple(_texts())


def _texts() -> Iterator[tuple[str, str]]:
    for path in sorted((TOP / "planner").rglob("*.py")):
        tree = ast.parse(path.read_text("utf-8"))
        documentation = {
            id(node.value)
            for node in ast.walk(tree)
            if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        }
        exported = {
            id(part)
            for node in ast.walk(tree)
            if isinstance(node, ast.Assign)
            and isinstance(node.targets[0], ast.Name)
            and node.targets[0].id == "__all__"
            for part in ast.walk(node.value)
        }
        for node in ast.walk(tree):
            if (
                isinstance(node, ast.Constant)
                and isinstance(node.value, str)
                and id(node) not in documentation
                and id(node) not in exported
            ):
                yield f"{path.relative_to(TOP).as_posix()}:{node.lineno}", node.value


@pytest.mark.parametrize("guessed", _GUESSED)
def test_no_label_has_to_be_guessed(guessed: str) -> None:
    found = [f"{place}: {text}" for place, text in _shown() if re.search(guessed, text)]
    assert not found, "\n".join(found)
