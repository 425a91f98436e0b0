"""One sentence for several findings of one kind, by check and kind.

Each sentence names the crop, in how many beds it is so, and what is behind it where that tells the findings of
one kind apart.
"""

from __future__ import annotations

from planner.checks.group_subject import Phrases
from planner.checks.group_words_care import CARE
from planner.checks.group_words_ground import GROUND
from planner.checks.group_words_season import SEASON

#: Kinds of findings that are about the garden, its beds or its seed, whatever the crop.
ANY_CROP: frozenset[tuple[str, str]] = frozenset(
    {
        ("outside", "site"),
        ("overlap", "beds"),
        ("reach", ""),
        ("path", ""),
        ("acidity", "acid"),
        ("acidity", "lime"),
        ("stock", "short"),
        ("stock", "old"),
        ("stock", "none"),
        ("stock", "unknown"),
        ("bench", "full"),
        ("water", "unlike"),
    }
)
#: The sentences, by check and kind; a kind without one is listed finding by finding.
PHRASES: Phrases = {**GROUND, **SEASON, **CARE}
