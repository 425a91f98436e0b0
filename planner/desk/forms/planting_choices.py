"""What can be chosen in the form of a planting, with words."""

from __future__ import annotations

from typing import get_args

from planner.garden.planting import SupportKind
from planner.listings.phrases import PURPOSE_WORDS
from planner.words import key_words, later, say

ARRANGEMENTS = {
    "rows": later("rows"),
    "staggered": later("staggered rows"),
    "scatter": later("scattered"),
    "places": later("single places"),
}
STARTS = {
    None: later("the usual way"),
    "sown": later("sown in place"),
    "raised": later("raised and set out"),
    "bought": later("bought in"),
    "sets": later("sets"),
    "tubers": later("tubers"),
    "cloves": later("cloves"),
    "crowns": later("crowns"),
    "standing": later("already growing"),
}
#: States in which tubers and bought plants are planted, by the start that they belong to.
STATES: dict[str, dict[str | None, str]] = {
    "tubers": {None: later("sprouted"), "unsprouted": later("not sprouted")},
    "bought": {
        None: later("usual size"),
        "plugs": later("plugs"),
        "large plants": later("large plants"),
        "cuttings": later("cuttings"),
    },
    "crowns": {
        None: later("usual size"),
        "large plants": later("large"),
        "cuttings": later("root cuttings"),
    },
}
TIMINGS = {
    None: later("the crop's usual"),
    "spring": later("spring"),
    "autumn": later("autumn"),
    "count back": later("counted back from frost"),
}
SIDES = {1: later("one side of it"), 2: later("both sides"), 0: later("no line: in rows")}


def purposes() -> list[tuple[str, str]]:
    """What a planting can be grown for, with words."""
    return [(key, say(PURPOSE_WORDS[key])) for key in PURPOSE_WORDS]


def supports() -> list[tuple[SupportKind | None, str]]:
    """Kinds of support with words; none first."""
    return [(None, say("none")), *((kind, key_words(kind)) for kind in get_args(SupportKind))]


def starts() -> list[tuple[str | None, str]]:
    """How a planting can start, with words."""
    return [(key, say(STARTS[key])) for key in STARTS]


def timings() -> list[tuple[str | None, str]]:
    """Seasons in which a planting can start, with words."""
    return [(key, say(TIMINGS[key])) for key in TIMINGS]
