"""How complete the catalogue is, as lines."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping

from planner.crops.coverage import (
    AIM,
    AIM_IN_PRINT,
    DRIVING_FIELDS,
    IN_PRINT,
    PROVENANCES,
    Coverage,
    share_of,
)
from planner.crops.figures import Provenance
from planner.listings.tables import aligned
from planner.words import key_words, number_words, say

#: A sign for each provenance, in the table of crops by fields.
MARKS: dict[Provenance, str] = {
    "printed": "P",
    "chosen": "C",
    "derived": "D",
    "practice": "c",
    "estimate": "e",
    "missing": ".",
    "does not apply": "-",
}
#: Longest line of a sentence. [signs]
_WIDEST = 117
_RIGHT = range(1, 3 + len(PROVENANCES))


def coverage_lines(coverage: Coverage, room: int | None = None) -> list[str]:
    """Print coverage as lines: figures by field, crops by fields with a sign each, and the totals."""
    driving = [field for field in coverage.fields if field in DRIVING_FIELDS]
    fields = [
        _row(f"{'*' if field in driving else ' '} {field}", coverage.counts([field]))
        for field in coverage.fields
    ]
    totals = [
        _row(say("  all fields"), coverage.counts()),
        _row(say("* driving fields"), coverage.counts(driving)),
    ]
    lines = [
        say("{crops} crops, {fields} fields", crops=len(coverage.crops), fields=len(coverage.fields)),
        "",
        say("Figures by field"),
    ]
    lines += aligned(
        (say("  field"), *map(key_words, PROVENANCES), say("printed or chosen"), say("published")),
        [*fields, *totals],
        right=_RIGHT,
        room=room,
    )
    names = ", ".join(f"{mark} {key_words(word)}" for word, mark in MARKS.items())
    lines += ["", say("Crops by fields ({names}; fields in the order above)", names=names)]
    rows = [
        (
            crop.key,
            *(str(number) for number in coverage.counts(crops=[crop]).values()),
            "".join(MARKS[coverage.table[crop.key, field]] for field in coverage.fields),
        )
        for crop in coverage.crops
    ]
    lines += aligned(
        (say("crop"), *map(key_words, PROVENANCES), say("fields")),
        rows,
        right=range(1, 1 + len(PROVENANCES)),
        room=room,
    )
    counts = coverage.counts(driving)
    lines += [
        "",
        *textwrap.wrap(
            say(
                "Printed: the source prints the value. Chosen: it lies inside a printed range. Derived: worked out from print, the note "
                "says how. Practice: common practice without a source. Estimate: our own, or from memory."
            ),
            _WIDEST,
        ),
        *textwrap.wrap(
            say(
                "Driving fields (*) are those from which counts, dates and light follow. A share is of all figures there should be, "
                "missing ones included."
            ),
            _WIDEST,
        ),
        say(
            "Driving figures printed or chosen: {in_print} (aim {aim_in_print}); with a publication behind them: {published} (aim {aim}).",
            in_print=_percent(share_of(counts, IN_PRINT)),
            aim_in_print=_percent(AIM_IN_PRINT),
            published=_percent(share_of(counts)),
            aim=_percent(AIM),
        ),
    ]
    return lines


def _row(name: str, counts: Mapping[Provenance, int]) -> tuple[str, ...]:
    return (
        name,
        *(str(number) for number in counts.values()),
        _percent(share_of(counts, IN_PRINT)),
        _percent(share_of(counts)),
    )


def _percent(share: float | None) -> str:
    return "" if share is None else say("{number} %", number=number_words(100 * share, 1))
