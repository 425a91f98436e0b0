"""Signs of a garden's names and notes that no font has: said before sheets are printed, not found on them."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from pydantic import BaseModel

from planner.plan import Plan
from planner.sheets.text_pieces import missing_signs
from planner.words import join_list, say, say_count

#: Names told of one script, signs told of one name, and letters of a name.
_NAMES, _SIGNS, _LETTERS = 3, 3, 40


class Missing(NamedTuple):
    """A name or note of which no font has all signs."""

    text: str
    signs: str


def missing_in(plan: Plan) -> tuple[Missing, ...]:
    """The texts of a plan that cannot be printed whole, each once, as they stand in the garden.

    Parameters
    ----------
    plan : Plan
    """
    garden = plan.garden
    looked: list[Any] = [garden.site, plan.beds, garden.structures, plan.plantings, garden.crops]
    looked += [
        garden.varieties,
        garden.stock,
        garden.planting_stock,
        garden.offers,
        garden.shed,
        garden.benches,
    ]
    looked += [garden.dressings, garden.sources, garden.waived]
    found = ((text, missing_signs(text)) for text in dict.fromkeys(_texts(looked)))
    return tuple(Missing(text, signs) for text, signs in found if signs)


def _texts(thing: Any) -> Iterator[str]:
    """All texts of some values that are not of plain Latin letters only."""
    if isinstance(thing, str):
        if not thing.isascii():
            yield thing
    elif isinstance(thing, BaseModel):
        yield from _texts(thing.__dict__.values())
    elif isinstance(thing, dict):
        yield from _texts(thing.values())
    elif isinstance(thing, Iterable):
        for one in thing:
            yield from _texts(one)


def missing_words(found: Iterable[Missing]) -> list[str]:
    """Sentences that say what cannot be printed and how to mend it, one for each script.

    Parameters
    ----------
    found : iterable of Missing
    """
    by_script: dict[str, list[Missing]] = {}
    for one in found:
        by_script.setdefault(_script(one.signs[0]), []).append(one)
    return [_sentence(script, some) for script, some in by_script.items()]


def _sentence(script: str, some: list[Missing]) -> str:
    names = [
        say("“{name}” ({signs})", name=_cut(one.text, _LETTERS), signs=_codes(one.signs)) for one in some
    ]
    left = len(names) - _NAMES
    if left > 0:
        names = [*names[:_NAMES], say_count("{count} other", "{count} others", left)]
    listed = join_list(names)
    if not script:
        return say(
            "No font has all signs of {names}; they are printed as {sign}. Install a TrueType font (.ttf) that has them.",
            names=listed,
            sign="\ufffd",
        )
    return say(
        "No font has all signs of {names}; they are printed as {sign}. Install a TrueType font (.ttf) for {script}.",
        names=listed,
        sign="\ufffd",
        script=script,
    )


def _script(sign: str) -> str:
    """Name of a sign's script: ``Hangul``; empty for what is no letter."""
    if not unicodedata.category(sign).startswith(("L", "M")):
        return ""
    return unicodedata.name(sign, "").partition(" ")[0].capitalize()


def _codes(signs: str) -> str:
    """Signs with their codes, by which they can be looked up where no font shows them."""
    each = [f"{sign} U+{ord(sign):04X}" for sign in signs[:_SIGNS]]
    return ", ".join([*each, "…"] if len(signs) > _SIGNS else each)


def _cut(text: str, most: int) -> str:
    line = " ".join(text.split())
    return line if len(line) <= most else line[: most - 1] + "…"
