"""What harm, and the end of a planting, is called."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planner.garden.records import RecordBase, SeenRecord
from planner.words import later, say

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


def loss_words(records: Iterable[RecordBase], why: str = "") -> str:
    """What took a planting: the harm that was last seen on it, in the gardener's words where there are any, else why it ended."""
    seen = sorted((one for one in records if isinstance(one, SeenRecord)), key=lambda one: one.day)
    if seen:
        return seen[-1].cause or say(HARM_WORDS[seen[-1].harm])
    return say(WHY_WORDS[why]) if why else ""
