"""Words in which records are typed, and what each means.

Besides the English words here, whatever the program itself says of a record is understood, in the language it speaks.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from planner.garden.harm_words import HARM_WORDS
from planner.garden.planting import COVER_WORK
from planner.listings.record_words import (
    KIND_WORDS,
    PICKED_FOR_WORDS,
    TASK_DONE,
    WHY_WORDS,
)
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


class Verb(NamedTuple):
    """What happened.

    Attributes
    ----------
    kind : str
        Kind of the record.
    tasks : tuple of str
        Of work on a planting: the tasks that it may mean; the first that the planting has.
    harm, cause, why : str
        Of harm that was seen, and of an end; empty where they are still to be said.
    free : bool
        Free work, which the word itself names.
    """

    kind: str
    tasks: tuple[str, ...] = ()
    harm: str = ""
    cause: str = ""
    why: str = ""
    free: bool = False

    @property
    def is_open(self) -> bool:
        """Whether it is only the head of a kind: ``done``, ``seen``, ``ended``."""
        return self in (Verb("done"), Verb("seen"), Verb("ended"))


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


#: Tasks by words besides those that the program says.
_TASKS: dict[str, tuple[str, ...]] = {
    "sown": ("sow",), "sowed": ("sow",), "sow": ("sow",), "planted": ("set out", "sow"), "planted out": ("set out",),
    "set out": ("set out",), "transplanted": ("set out",), "pricked out": ("prick out",), "potted on": ("pot on",),
    "potted up": ("pot on",), "hardened off": ("harden off",), "thinned": ("thin",), "mulched": ("mulch",),
    "earthed up": ("earth up",), "hilled": ("earth up",), "hilled up": ("earth up",), "earthed up again": ("earth up again",),
    "tied in": ("tie in",), "tied up": ("tie in",), "pinched out": ("pinch out",), "fed": ("feed",), "staked": ("support up",),
    "supported": ("support up",), "covered": ("cover on",), "uncovered": ("cover off",), "cover off": ("cover off",),
    "vented": ("vent",), "opened": ("vent",), "pruned": ("prune",), "cut back": ("cut back",), "divided": ("divide",),
    "cleared": ("clear",), "lifted": ("lift and store", "lift and cure"), "chitted": ("chit",),
}  # fmt: skip
#: Free work that one word names.
_FREE = [
    "watered",
    "weeded",
    "hoed",
    "dug",
    "forked",
    "raked",
    "mowed",
    "composted",
    "netted",
    "limed",
    "edged",
    "swept",
    "cleaned",
    "repaired",
    "aired",
    "turned",
    "sprayed",
    "dusted",
    "inspected",
]
#: Harm by words besides those that the program says; a word that is not its own name is the cause.
_HARMS: dict[str, str] = {
    "pest": "pest", "pests": "pest", "disease": "disease", "diseases": "disease", "birds": "birds", "bird": "birds",
    "slugs": "slugs", "slug": "slugs", "voles": "voles", "vole": "voles", "frost": "frost", "frosted": "frost", "hail": "hail",
    "wind": "wind", "gale": "wind", "storm": "wind", "drought": "drought", "something else": "something else",
}  # fmt: skip
_CAUSES: dict[str, str] = {
    **dict.fromkeys(
        ["aphids", "aphid", "greenfly", "blackfly", "whitefly", "caterpillars", "caterpillar", "beetles", "mites", "thrips", "wireworm", "leatherjackets", "earwigs", "woodlice"], "pest"),
    **dict.fromkeys(("flea beetle", "flea beetles", "carrot fly", "carrot root fly", "cabbage root fly", "onion fly",
                     "cabbage white", "cabbage whites", "leek moth", "red spider mite", "pea moth", "asparagus beetle",
                     "potato beetle", "cutworm", "cutworms"), "pest"),
    **dict.fromkeys(["blight", "mildew", "rust", "mould", "mold", "botrytis", "clubroot", "canker", "scab", "wilt", "virus"], "disease"),
    **dict.fromkeys(("blossom end rot", "damping off", "white rot", "leaf spot", "powdery mildew", "downy mildew",
                     "black leg", "blackleg"), "disease"),
    **dict.fromkeys(["pigeons", "pigeon", "sparrows", "crows", "blackbirds", "pheasants"], "birds"),
    **dict.fromkeys(["snails", "snail"], "slugs"),
    **dict.fromkeys(["mice", "mouse", "gophers"], "voles"),
    **dict.fromkeys(["deer", "rabbits", "rabbit", "badgers", "badger", "moles", "mole", "rats", "cat", "cats", "dog", "fox", "squirrels", "hare", "hares"],
                    "something else"),
}  # fmt: skip
_ENDS: dict[str, str] = {
    "failed": "failed", "died": "failed", "dead": "failed", "eaten": "eaten", "frozen": "frozen", "killed by frost": "frozen",
    "resown": "resown", "sown anew": "resown", "bolted": "bolted", "ran to seed": "bolted", "made room": "made room",
    "cleared to make room": "made room", "to make room": "made room",
}  # fmt: skip
_STAGES: dict[str, str] = {
    "came up": "came up", "come up": "came up", "coming up": "came up", "up": "came up", "emerged": "came up",
    "germinated": "came up", "in flower": "flowering", "flowering": "flowering", "flowers": "flowering", "ripe": "ripe",
    "first picking": "first picking", "last picking": "last picking", "last picked": "last picking",
}  # fmt: skip
_HEADS: dict[str, str] = {
    "done": "done", "did": "done", "work": "done", "seen": "seen", "saw": "seen", "harm": "seen", "harm seen": "seen",
    "picked": "picked", "pick": "picked", "harvested": "picked", "ended": "ended", "measured": "measured",
    "counted": "measured", "note": "note", "noted": "note", "lesson": "lesson", "learned": "lesson", "learnt": "lesson",
}  # fmt: skip
_PICKED_FOR: dict[str, str] = {
    "kept": "kept", "given away": "given away", "gave away": "given away", "bottled": "bottled", "preserved": "bottled",
    "fed to animals": "fed to animals", "for the hens": "fed to animals", "to the hens": "fed to animals",
}  # fmt: skip
_SHARES: dict[str, float] = {
    "half": 0.5, "a half": 0.5, "one half": 0.5, "a third": 1 / 3, "one third": 1 / 3, "two thirds": 2 / 3, "a quarter": 0.25,
    "one quarter": 0.25, "three quarters": 0.75, "all of it": 1.0, "all of them": 1.0,
}  # fmt: skip
#: Units by their words; of masses, volumes and lengths as ``garden.typed_amounts`` and ``garden.units`` read them.
_UNITS: dict[str, str] = {
    **{word: f"mass {word}" for word in ["g", "gram", "grams", "kg", "t", "oz", "ounce", "ounces", "lb", "lbs", "pound", "pounds"]},
    "kilo": "mass kg", "kilos": "mass kg", "kilogram": "mass kg", "kilograms": "mass kg",
    **{word: f"volume {word}" for word in ["l", "litre", "litres", "liter", "liters"]},
    **{word: f"length {word}" for word in ["m", "cm", "mm", "ft", "foot", "feet", "inch", "inches"]},
    "\"": "length in", "'": "length ft", "″": "length in", "′": "length ft",
    **dict.fromkeys(["piece", "pieces", "fruit", "fruits", "head", "heads", "root", "roots", "bulbs", "tubers", "cobs", "ears", "pods"], "pieces"),
    **dict.fromkeys(("bunch", "bunches"), "bunches"), **dict.fromkeys(("seed", "seeds"), "seeds"),
    **dict.fromkeys(["plant", "plants", "seedling", "seedlings"], "plants"),
}  # fmt: skip
_COVERS: dict[str, str] = {
    "fleece": "fleece", "netting": "netting", "net": "netting", "film": "film", "cloche": "cloche", "cloches": "cloche",
    "low tunnel": "low tunnel", "brushwood": "brushwood", "collars": "collar", "slug rings": "slug ring",
}  # fmt: skip
_SMALL: dict[str, str] = {
    "bed": "bed word", "beds": "bed word", "to": "to", "until": "to", "through": "to", "-": "to", "–": "to", "—": "to",
    "and": "and", "und": "and", "bis": "to", "alle": "all", "je": "each", "Beet": "bed word", "Beete": "bed word", "Beeten": "bed word", "&": "and", "+": "and", ",": "and", ";": "and", "all": "all", "every": "all", "everything": "all",
    "each": "each", "by": "by", "of": "of", "look again": "look again", "lost": "lost", "lost to": "lost", "killed by": "lost", "%": "percent", "percent": "percent",
    "garden": "garden", "everywhere": "garden", "whole garden": "garden", "all beds": "garden", "family": "family word",
    **dict.fromkeys(["in", "at"], "in"),
    **dict.fromkeys(
        ("on", "the", "a", "an", "it", "its", "them", "they", "there", "was", "were", "is", "are", "been", "has", "have", "had",
         "we", "i", "our", "my", "some", "about", "from", "for", "with", "this", ".", "!", "°",
         "am", "im", "auf", "von", "der", "die", "das", "den", "dem"), "filler"),
}  # fmt: skip


def phrases() -> Iterator[tuple[Signs, str, Any]]:
    """All phrases: as they are compared, the sort of their item, and its value."""
    for sort, table in (
        ("verb", _verbs()),
        ("for", _PICKED_FOR.items()),
        ("share", _more_shares()),
        ("unit", _UNITS.items()),
        ("cover", _COVERS.items()),
    ):
        for words, value in table:
            yield signs_of(words), sort, value
    for words, sort in _SMALL.items():
        yield signs_of(words), sort, words
    for value in PICKED_FOR_WORDS:
        yield signs_of(say(PICKED_FOR_WORDS[value])), "for", value


def _more_shares() -> Iterator[tuple[str, float]]:
    for words, share in _SHARES.items():
        yield words, share
        if "all" not in words:
            yield f"{words} of it", share
            yield f"{words} of them", share


def _verbs() -> Iterable[tuple[str, Verb]]:
    yield from ((say(KIND_WORDS[kind]), Verb(kind)) for kind in KIND_WORDS)
    yield from ((say(TASK_DONE[task]), Verb("done", (task,))) for task in TASK_DONE)
    yield from ((say(HARM_WORDS[harm]), Verb("seen", harm=harm)) for harm in HARM_WORDS)
    for why in WHY_WORDS:
        if why != "harvested":  # a picking, where it is English
            yield say(WHY_WORDS[why]), Verb("ended", why=why)
    yield from ((word, Verb("done", tasks)) for word, tasks in _TASKS.items())
    yield from ((word, Verb("done", free=True)) for word in _FREE)
    yield from ((word, Verb("seen", harm=harm)) for word, harm in _HARMS.items())
    yield from ((word, Verb("seen", harm=harm, cause=word)) for word, harm in _CAUSES.items())
    yield from ((word, Verb("ended", why=why)) for word, why in _ENDS.items())
    yield from ((word, Verb(kind)) for word, kind in _STAGES.items())
    yield from ((word, Verb(kind)) for word, kind in _HEADS.items())
    yield "ended: harvested", Verb("ended", why="harvested")
    yield "all harvested", Verb("ended", why="harvested")


def unit_of(word: str) -> str:
    """The unit that a word in lower case means; empty for none."""
    return _UNITS.get(word, "")


#: Work that names a cover.
COVERING = tuple(COVER_WORK)
