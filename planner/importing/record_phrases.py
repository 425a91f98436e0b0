"""Phrases in which records are typed, and what each means.

They are in the tables of a language (:data:`VOCABULARIES`); besides them, whatever the program itself says of a record is
understood, in the language it speaks.
"""

from __future__ import annotations

import functools
import re
import unicodedata
from collections.abc import Iterator
from typing import Any, NamedTuple

from planner.garden.harm_words import HARM_WORDS, WHY_WORDS
from planner.garden.planting import COVER_WORK
from planner.importing.record_english import ENGLISH
from planner.importing.record_german import GERMAN
from planner.importing.record_vocabulary import Verb, Vocabulary
from planner.listings.record_words import DONE_TASKS, KIND_WORDS, PICKED_FOR_WORDS, done_words
from planner.words import say

#: A name or phrase as the reader compares it.
Signs = tuple[str, ...]

_TOKEN = re.compile(r"\d+(?:[.,]\d+)?|[^\W\d_]+(?:['’][^\W\d_]+)*|\S")


class Token(NamedTuple):
    """A word, a number or a sign of a line.

    Attributes
    ----------
    text : str
    sign : str
        As it is compared: in lower case, apostrophes straight.
    start, end : int
        Where it stands in the line.
    """

    text: str
    sign: str
    start: int
    end: int

    @property
    def is_number(self) -> bool:
        """Whether it is a number."""
        return self.sign[:1].isascii() and self.sign[:1].isdigit()


def tokens_of(line: str) -> list[Token]:
    """The tokens of a line, which is in Unicode's composed form (NFC)."""
    return [
        Token(found[0], found[0].replace("’", "'").casefold(), found.start(), found.end())
        for found in _TOKEN.finditer(line)
    ]


def signs_of(name: str) -> Signs:
    """A name as the reader compares it."""
    return tuple(token.sign for token in tokens_of(unicodedata.normalize("NFC", name)))


class Item(NamedTuple):
    """A piece of a line and its meaning.

    Attributes
    ----------
    sort : str
        What it is: a verb, a bed, a number ...; ``unknown`` where nobody knows.
    value : object
    start, end : int
        Where it stands in the line.
    """

    sort: str
    value: Any
    start: int
    end: int


#: The languages in which records are typed.  Of a phrase that two have, that of the first is meant.
VOCABULARIES = (ENGLISH, GERMAN)
_ENGLISH_MONTHS = "january february march april may june july august september october november december"
_SHORT_MONTHS = "jan feb mar apr jun jul aug sep sept oct nov dec"
_GERMAN_MONTHS = "januar februar märz april mai juni juli august september oktober november dezember"
#: Names of months and days that are everyday words where they are not written with a capital.
EVERYDAY = ("may", "march", "mar", "sat", "sun")


def phrases() -> Iterator[tuple[Signs, str, Any]]:
    """All phrases: as they are compared, the sort of their item, and its value."""
    for word, verb in _verbs_said():
        yield signs_of(word), "verb", verb
    yield from _of_vocabularies()
    for value in PICKED_FOR_WORDS:
        yield signs_of(say(PICKED_FOR_WORDS[value])), "for", value


@functools.cache  # they are the same for every line
def _of_vocabularies() -> tuple[tuple[Signs, str, Any], ...]:
    """Phrases of the tables, in the order in which they go before each other."""
    found: list[tuple[Signs, str, Any]] = []
    for one in VOCABULARIES:
        gathering = set(one.gathering)
        found += (
            (signs_of(word), "verb", verb._replace(gathers=word in gathering))
            for word, verb in _verbs_of(one)
        )
    for one in VOCABULARIES:
        for sort, table in (
            ("for", one.picked_for.items()),
            ("share", _more_shares(one)),
            ("number", ((word, (float(number), word)) for word, number in one.numbers.items())),
            ("unit", one.units.items()),
            ("cover", one.covers.items()),
            ("measure", one.measures.items()),
            ("measured", ((word, word) for word in one.measured)),
            ("ordinal", one.ordinals.items()),
            ("vague day", ((word, word) for word in _vague_days(one))),
        ):
            found += ((signs_of(words), sort, value) for words, value in table)
        found += ((signs_of(words), sort, words) for words, sort in one.small.items())
    return tuple(found)


def _more_shares(words: Vocabulary) -> Iterator[tuple[str, float]]:
    for phrase, share in words.shares.items():
        yield phrase, share
        if "all" not in phrase:
            yield f"{phrase} of it", share
            yield f"{phrase} of them", share


def _vague_days(words: Vocabulary) -> Iterator[str]:
    yield from words.vague_days
    yield from words.coming
    for month in " ".join((_ENGLISH_MONTHS, _SHORT_MONTHS, _GERMAN_MONTHS)).split():
        yield month
        yield from (f"{part} {month}" for part in words.parts_of_month)


def _verbs_said() -> Iterator[tuple[str, Verb]]:
    """What the program itself says of records."""
    yield from ((say(KIND_WORDS[kind]), Verb(kind)) for kind in KIND_WORDS)
    yield from ((done_words(task), Verb("done", (task,))) for task in DONE_TASKS)
    yield from ((say(HARM_WORDS[harm]), Verb("seen", harm=harm)) for harm in HARM_WORDS)
    for why in WHY_WORDS:
        if why != "harvested":  # a picking, where it is English
            yield say(WHY_WORDS[why]), Verb("ended", why=why)


def _verbs_of(words: Vocabulary) -> Iterator[tuple[str, Verb]]:
    yield from ((word, Verb("done", tasks)) for word, tasks in words.tasks.items())
    yield from ((word, Verb("done", free=True)) for word in words.free)
    yield from ((word, Verb("seen", harm=harm)) for word, harm in words.harms.items())
    yield from ((word, Verb("seen", harm=harm, cause=word)) for word, harm in words.causes.items())
    yield from ((word, Verb("ended", why=why)) for word, why in words.ends.items())
    yield from ((word, Verb("ended", why=why, told=True)) for word, why in words.losses.items())
    yield from ((word, Verb("picked", told=True, picked_for=where)) for word, where in words.giving.items())
    yield from ((word, Verb("ended", why="failed", told=True, missing=True)) for word in words.missing)
    yield from ((word, Verb(kind)) for word, kind in words.stages.items())
    yield from ((word, Verb(kind)) for word, kind in words.heads.items())
    for word, cover in words.covers.items():
        on, off = Verb("done", ("cover on",), cover=cover), Verb("done", ("cover off",), cover=cover)
        yield from ((f"{word} {behind}", on) for behind in words.cover_on)
        yield from ((f"{word} {behind}", off) for behind in words.cover_off)


def crop_names() -> Iterator[tuple[str, str]]:
    """Names of crops besides those of the catalogue, each with the crop's key."""
    for one in VOCABULARIES:
        yield from one.crops.items()


def crop_kinds() -> Iterator[str]:
    """Words that stand for any crop whose name ends with them, in small letters."""
    for one in VOCABULARIES:
        yield from one.kinds


#: Nouns before which a single small ``a`` is an article.
ARTICLED = frozenset(word for one in VOCABULARIES for word in one.articled)
#: Words that end a planting where all of it is said to be so: ``all potatoes dug``.
ALL_GATHERED = frozenset(word for one in VOCABULARIES for word in one.all_gathered)
#: Words for what animals do that leaves nothing of what they had.
TAKING = frozenset(word.casefold() for one in VOCABULARIES for word in one.taking)
#: Words of a part of a planting, of pieces that are no plants, of a number that adds to one before, and of what may still come.
PART_WORDS = frozenset(word.casefold() for one in VOCABULARIES for word in one.part_words)
PIECE_WORDS = frozenset(word.casefold() for one in VOCABULARIES for word in one.piece_words)
MORE_WORDS = frozenset(word.casefold() for one in VOCABULARIES for word in one.more_words)
ADJECTIVES = frozenset(word.casefold() for one in VOCABULARIES for word in one.adjectives)
WAITING = frozenset(word.casefold() for one in VOCABULARIES for word in one.waiting)
#: Free work that is done to what was picked; amounts that nobody knows; words of a resolution.
FINISHING = frozenset(word.casefold() for one in VOCABULARIES for word in one.finishing)
LOOSE_UNITS = {word.casefold(): weight for one in VOCABULARIES for word, weight in one.loose_units.items()}
CARRIED = frozenset(word.casefold() for one in VOCABULARIES for word in one.carried)
OTHER_YEARS = frozenset(word.casefold() for one in VOCABULARIES for word in one.other_years)
#: Words that may stand apart from the first word of their phrase: ``set 40 leeks out``.
_APART = ("out", "off")
#: Work of two words that may stand apart.
SPLIT_WORK = {
    signs: verb
    for one in VOCABULARIES
    for word, verb in _verbs_of(one)
    if len(signs := signs_of(word)) == 2 and signs[1] in _APART and verb.kind == "done"
}
#: Signs of shares and numbers in words of somebody's own, and what stands behind a number of a whole.
SHARE_SIGNS = frozenset(
    {"%"} | {signs_of(word)[-1] for one in VOCABULARIES for word in one.shares if "all" not in word} | {"but"}
)
NUMBER_SIGNS = frozenset(signs_of(word)[-1] for one in VOCABULARIES for word in one.numbers)
OF_SIGNS = tuple(
    word for one in VOCABULARIES for word, sort in one.small.items() if sort == "of" and " " not in word
)
#: Words for a time to come.
COMING = frozenset(word for one in VOCABULARIES for word in one.coming)
#: What is measured, by the words that stand behind its unit; stages of picking, by the words that make one of a picking.
MEASURES = {word: name for one in VOCABULARIES for word, name in one.measures.items()}
ORDINALS = {word: stage for one in VOCABULARIES for word, stage in one.ordinals.items()}
_UNITS = {word.casefold(): unit for one in VOCABULARIES for word, unit in one.units.items()}


def unit_of(word: str) -> str:
    """The unit that a word in lower case means; empty for none."""
    return _UNITS.get(word, "")


#: Work that names a cover.
COVERING = tuple(COVER_WORK)
