"""What harm, and the end of a planting, is called."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planner.garden.records import EndedWhy, Harm, RecordBase, SeenRecord
from planner.words import join_list, later, say

HARM_WORDS: Mapping[str, str] = {
    "pest": later("a pest"),
    "disease": later("a disease"),
    "birds": later("birds"),
    "slugs": later("slugs"),
    "voles": later("voles"),
    "frost": later("frost"),
    "hail": later("hail"),
    "wind": later("wind"),
    "drought": later("drought"),
    "something else": later("something else"),
}
#: How a planting ended.
WHY_WORDS: Mapping[str, str] = {
    "harvested": later("harvested"),
    "failed": later("failed"),
    "eaten": later("eaten by animals"),
    "frozen": later("killed by frost"),
    "resown": later("sown anew"),
    "bolted": later("ran to seed"),
    "made room": later("cleared to make room"),
}


#: Why a planting ended that was lost altogether, by what took it.
ENDED_BY: Mapping[str, EndedWhy] = {
    "frost": "frozen",
    "pest": "eaten",
    "birds": "eaten",
    "slugs": "eaten",
    "voles": "eaten",
    "something else": "eaten",
    "disease": "failed",
    "hail": "failed",
    "wind": "failed",
    "drought": "failed",
}


def loss_words(records: Iterable[RecordBase], why: str = "") -> str:
    """What took a planting, in the gardener's words where there are any: all that took some of it, else the harm that was last seen
    on it, else why it ended."""
    seen = sorted((one for one in records if isinstance(one, SeenRecord)), key=lambda one: one.day)
    took = [one for one in seen if one.lost]
    if seen:
        return causes_in_words((one.harm, one.cause) for one in took or seen[-1:])
    return say(WHY_WORDS[why]) if why else ""


def causes_in_words(causes: Iterable[tuple[Harm, str]]) -> str:
    """Kinds of harm as one list, each once.

    Parameters
    ----------
    causes : iterable of (Harm, str)
        Each with its name in the gardener's words, which may be empty.
    """
    return join_list(list(dict.fromkeys(cause or say(HARM_WORDS[harm]) for harm, cause in causes)))
