"""JSON read strictly: what Python accepts and a garden file may not hold is found, with its place."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from planner.storage.faults import cut
from planner.words import say

#: Most digits of a whole number.
MOST_DIGITS = 300


@dataclass(frozen=True)
class Forbidden:
    """Stands where something was that a garden file may not hold.

    Attributes
    ----------
    words : str
        What is wrong with it.
    """

    words: str


class StrictReader:
    """Reads JSON, and notes what is forbidden instead of stopping at it.

    Attributes
    ----------
    forbidden : bool
        Whether there is a :class:`Forbidden` in what was read.
    """

    def __init__(self) -> None:
        self.forbidden = False

    def read(self, text: str) -> Any:
        """Read a text.

        Raises
        ------
        json.JSONDecodeError, RecursionError
        """
        return json.loads(
            text, parse_constant=self._constant, object_pairs_hook=self._table, parse_int=self._whole_number
        )

    def _forbid(self, words: str) -> Forbidden:
        self.forbidden = True
        return Forbidden(words)

    def _constant(self, name: str) -> Forbidden:
        return self._forbid(say("holds {name}, which is no number", name=name))

    def _whole_number(self, digits: str) -> int | Forbidden:
        if len(digits) > MOST_DIGITS:
            return self._forbid(say("holds a number that is too long"))
        return int(digits)

    def _table(self, pairs: list[tuple[str, Any]]) -> dict[str, Any] | Forbidden:
        table = dict(pairs)
        if len(table) == len(pairs):
            return table
        seen = set[str]()
        for key, _ in pairs:
            if key in seen:
                break
            seen.add(key)
        return self._forbid(
            say('gives "{found}" twice in one thing, and only one can be meant', found=cut(key))
        )


def first_forbidden(value: Any) -> tuple[tuple[int | str, ...], str]:
    """Return the place of the first :class:`Forbidden` and what is wrong; the place is keys and list positions.

    Parameters
    ----------
    value
        That holds one.
    """
    left: list[tuple[tuple[int | str, ...], Any]] = [((), value)]
    while left:
        here, part = left.pop()
        if isinstance(part, Forbidden):
            return here, part.words
        inner = part.items() if isinstance(part, dict) else enumerate(part) if isinstance(part, list) else ()
        left.extend(reversed([((*here, key), below) for key, below in inner]))
    raise ValueError("nothing forbidden")
