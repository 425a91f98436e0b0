"""What harm is called."""

from __future__ import annotations

from collections.abc import Mapping

from planner.words import later

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
