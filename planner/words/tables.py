"""Sentences of the tables shipped with the program, in its language.

The tables in ``resources`` are English.  Those of their texts that a user reads are in the catalogue of sentences like those of the
code; each is said where it is shown.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from planner.words.catalogue import in_language

#: Fields that hold texts for the reader, by the file in ``resources``.
TEXTS: dict[str, tuple[str, ...]] = {
    "cautions.toml": ("text",),
    "neighbours.toml": ("mechanism", "note"),
    "structures.toml": ("name",),
    "cover_effects.toml": ("name",),
    "growing_places.toml": ("name",),
}
#: A note that stands at so many figures of crops is in the catalogue of sentences; others stay in English.
OFTEN = 10
#: Tables within such a table whose texts are for those who keep the figures.
OWN_NOTES = ("opacity",)


def table_words(text: str) -> str:
    """A text of a shipped table in the program's language; an own text of the garden stays as it is.

    Parameters
    ----------
    text : str
        From a field of :data:`TEXTS`.
    """
    return in_language(text) if text else text


def shared_notes(tables: Iterable[object]) -> list[str]:
    """The notes of crops' figures that stand at many of them, in the order of the tables.

    Parameters
    ----------
    tables : iterable of object
        What the TOML files of crops hold.
    """
    counted = Counter(note for table in tables for note in texts_of(table, ("note",)))
    return [note for note, times in counted.items() if times >= OFTEN]


def texts_of(table: object, fields: Iterable[str]) -> list[str]:
    """The texts for the reader in a parsed table, in its order.

    Parameters
    ----------
    table : object
        What a TOML file holds, or a part of it.
    fields : iterable of str
        Names of the fields.
    """
    if isinstance(table, list):
        return [text for part in table for text in texts_of(part, fields)]
    found: list[str] = []
    if isinstance(table, dict):
        for key, value in table.items():
            if isinstance(value, str):
                if key in fields and value:
                    found.append(value)
            elif key not in OWN_NOTES:
                found += texts_of(value, fields)
    return found
