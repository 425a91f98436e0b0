"""Faults of a garden file in words: where each is, and what is wrong."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from planner.words import later, say

#: Most faults named in one message.
MOST_FAULTS = 5
#: Longest description of one fault, and of one place. [characters]
LONGEST_FAULT = 300
#: Longest name in the place of a fault. [characters]
LONGEST_NAME = 60

#: Plain words for kinds of faults that the models find.
_PLAIN_WORDS = {
    "extra_forbidden": later("is not a field of a garden file"),
    "json_invalid": later("is nested too deeply"),  # what json has read and pydantic has not
    "missing": later("is missing"),
    "union_tag_not_found": later("needs its 'shape' or 'kind'"),
}


def half_character(value: Any, here: tuple[int | str, ...] = ()) -> tuple[int | str, ...] | None:
    """Return the place of the first text that is no Unicode; None where all texts are.

    Parameters
    ----------
    value
        What JSON holds.
    here : tuple
        Its place: keys and list positions from the top.
    """
    if isinstance(value, str):
        return here if _is_half(value) else None
    if isinstance(value, dict):
        key = next((key for key in value if _is_half(key)), None)
        if key is not None:
            return here
    parts = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    found = (half_character(part, (*here, key)) for key, part in parts)
    return next((spot for spot in found if spot is not None), None)


def _is_half(text: str) -> bool:
    return any("\ud800" <= sign <= "\udfff" for sign in text)


class Fault(NamedTuple):
    """A value that is not allowed.

    Attributes
    ----------
    where : tuple
        Keys and list positions from the top.
    kind : str
        Kind of the fault, in the words of the models.
    what : str
        What is wrong, in a sentence without a full stop.
    """

    where: tuple[int | str, ...]
    kind: str
    what: str

    def below(self, part: str, first: int) -> Fault:
        """The fault of a list of things, seen from the top: the list is ``part``, from position ``first`` on."""
        position = self.where[0] if self.where else 0
        return self._replace(where=(part, first + int(position), *self.where[1:]))


def fault_words(faults: Sequence[Fault], fields: dict[str, Any], more: bool = False) -> str:
    """Put faults into words, the first few of them.

    Parameters
    ----------
    faults : sequence of Fault
    fields : dict
        The file's content, for the names of things.
    more : bool
        Whether there may be more.
    """
    lines = []
    for fault in faults[:MOST_FAULTS]:
        words = say(_PLAIN_WORDS[fault.kind]) if fault.kind in _PLAIN_WORDS else fault.what
        spot = f"{place(fault.where, fields)}: " if fault.where else ""
        lines.append(spot + cut(words))
    left = len(faults) - MOST_FAULTS
    if left > 0:
        lines.append(
            say("and at least {number} more", number=left) if more else say("and {number} more", number=left)
        )
    return "; ".join(lines)


def place(location: tuple[int | str, ...], fields: Any = None) -> str:
    """Put a fault's place as it reads in the file: ``beds[3] "North" outline.length``.

    Parameters
    ----------
    location : tuple
        Keys and list positions from the top.  Words that mean a choice of shape and no key of the
        file are left out where ``fields`` is given.
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
                text += f' "{cut(name, LONGEST_NAME)}" '
            continue
        is_tag = isinstance(here, dict) and part not in here and part in (here.get("shape"), here.get("kind"))
        if is_tag:
            continue
        text += f".{part}" if text and not text.endswith(" ") else part
        here = here.get(part) if isinstance(here, dict) else None
    return cut(text) or say("the garden")


def cut(text: str, longest: int = LONGEST_FAULT) -> str:
    """Shorten a text from the file, and take out half characters, so that any message can hold it.

    Parameters
    ----------
    text : str
    longest : int
        [characters]
    """
    text = text.encode("utf-8", "replace").decode("utf-8")
    return text if len(text) <= longest else text[: longest - 1] + "…"
