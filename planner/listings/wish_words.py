"""Words of what a wish says."""

from __future__ import annotations

from planner.garden.wishes import Importance, WishedGround
from planner.words import later

#: How much a wish matters.
IMPORTANCE_WORDS: dict[Importance, str] = {
    "must": later("must be met"),
    "should": later("should be met"),
    "could": later("could be met"),
}
#: Kinds of ground.
GROUND_WORDS: dict[WishedGround, str] = {
    "open": later("beds in the open"),
    "under glass": later("beds under a roof or by a warm wall"),
    "container": later("containers"),
}
