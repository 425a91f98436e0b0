"""How complete the catalogue is, as lines."""

from __future__ import annotations

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
from planner.words import say

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
_HEADS = (*PROVENANCES, "printed or chosen", "published")
_RIGHT = range(1, 3 + len(PROVENANCES))


def coverage_lines(coverage: Coverage, room: int | None = None) -> list[str]:
    """Print coverage as lines: figures by field, crops by fields with a sign each, and the totals."""
    driving = [field for field in coverage.fields if field in DRIVING_FIELDS]
    fields = [
        _row(f"{'*' if field in driving else ' '} {field}", coverage.counts([field]))
        for field in coverage.fields
    ]
    totals = [
        _row("  all fields", coverage.counts()),
        _row("* driving fields", coverage.counts(driving)),
    ]
    lines = [f"{len(coverage.crops)} crops, {len(coverage.fields)} fields", "", "Figures by field"]
    lines += aligned((say("  field"), *_HEADS), [*fields, *totals], right=_RIGHT, room=room)
    names = ", ".join(f"{mark} {word}" for word, mark in MARKS.items())
    lines += ["", f"Crops by fields ({names}; fields in the order above)"]
    rows = [
        (
            crop.key,
            *(str(number) for number in coverage.counts(crops=[crop]).values()),
            "".join(MARKS[coverage.table[crop.key, field]] for field in coverage.fields),
        )
        for crop in coverage.crops
    ]
    lines += aligned(
        (say("crop"), *PROVENANCES, say("fields")), rows, right=range(1, 1 + len(PROVENANCES)), room=room
    )
    counts = coverage.counts(driving)
    lines += [
        "",
        "Printed: the source prints the value. Chosen: it lies inside a printed range. Derived: worked out from print, the",
        "note says how. Practice: common practice without a source. Estimate: our own, or from memory.",
        "Driving fields (*) are those from which counts, dates and light follow. A share is of all figures there",
        "should be, missing ones included.",
        f"Driving figures printed or chosen: {_percent(share_of(counts, IN_PRINT))} (aim {_percent(AIM_IN_PRINT)}); "
        f"with a publication behind them: {_percent(share_of(counts))} (aim {_percent(AIM)}).",
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
    return "" if share is None else f"{100 * share:.1f} %"
