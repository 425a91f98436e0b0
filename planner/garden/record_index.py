"""What is looked up in the records of a garden, found once for as long as they are the same."""

from __future__ import annotations

import operator
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from planner.garden.records import (
    CameUpRecord,
    Done,
    EndedRecord,
    Observed,
    Outcome,
    RecordBase,
    stages_observed,
    work_done,
    work_ticked,
)

#: Most tuples of records that are remembered: those of the last edits, and of what is tried.
_MOST = 16


class Told(NamedTuple):
    """What the records of one planting tell of its dates."""

    done: tuple[Done, ...] = ()
    ticked: tuple[Done, ...] = ()
    observed: tuple[Observed, ...] = ()
    outcome: Outcome | None = None

    @staticmethod
    def of(records: tuple[RecordBase, ...]) -> Told:
        """What some records of one planting tell."""
        ends = [one for one in records if isinstance(one, EndedRecord)]
        outcome = Outcome(ends[-1].why, ends[-1].day) if ends else None
        return Told(work_done(records), work_ticked(records), stages_observed(records), outcome)


@dataclass(frozen=True, eq=False)
class RecordIndex:
    """Look-ups of one tuple of records."""

    records: tuple[RecordBase, ...]

    @cached_property
    def by_id(self) -> dict[str, RecordBase]:
        """Records by id."""
        return {one.id: one for one in self.records}

    @cached_property
    def twice(self) -> str:
        """An id that two records have; empty where each has its own."""
        if len(self.by_id) == len(self.records):
            return ""
        return Counter(one.id for one in self.records).most_common(1)[0][0]

    @cached_property
    def of_planting(self) -> dict[str, tuple[RecordBase, ...]]:
        """Records of each planting that they name, in the order they were written down."""
        return _grouped((one.planting, one) for one in self.records)

    @cached_property
    def of_bed(self) -> dict[str, tuple[RecordBase, ...]]:
        """Records of each bed that they name themselves, in the order they were written down."""
        return _grouped((one.bed, one) for one in self.records)

    @cached_property
    def lots(self) -> frozenset[str]:
        """Ids of packets of seed that records name."""
        return frozenset(
            one.lot for one in self.records if isinstance(one, CameUpRecord) and one.lot is not None
        )

    @cached_property
    def telling(self) -> tuple[RecordBase, ...]:
        """Records from which dates of plantings follow."""
        return tuple(one for one in self.records if one.tells_dates)

    @cached_property
    def telling_of_planting(self) -> dict[str, tuple[RecordBase, ...]]:
        """Of each planting the records from which its dates follow."""
        return _grouped((one.planting, one) for one in self.telling)

    @cached_property
    def told(self) -> dict[str, Told]:
        """What the records of each planting tell, by its id; of those whose records are the same, what was told before."""
        before = next((one for one in reversed(list(_KNOWN.values())) if "told" in one.__dict__), None)
        if before is None:
            return {key: Told.of(records) for key, records in self.telling_of_planting.items()}
        old, told = before.telling_of_planting, before.told
        return {
            key: told[key] if _same(old.get(key), records) else Told.of(records)
            for key, records in self.telling_of_planting.items()
        }


def _same(old: tuple[RecordBase, ...] | None, new: tuple[RecordBase, ...]) -> bool:
    """Whether two tuples hold one and the same records."""
    return old is not None and len(old) == len(new) and all(map(operator.is_, old, new))


def _grouped(pairs: Iterable[tuple[str | None, RecordBase]]) -> dict[str, tuple[RecordBase, ...]]:
    """Records by the id that each is paired with; those without one are left out."""
    found: dict[str, list[RecordBase]] = {}
    for key, record in pairs:
        if key is not None:
            found.setdefault(key, []).append(record)
    return {key: tuple(records) for key, records in found.items()}


_KNOWN: dict[int, RecordIndex] = {}


def index_of(records: tuple[RecordBase, ...]) -> RecordIndex:
    """The look-ups of a tuple of records: one and the same for as long as the tuple is.

    An edit of something else keeps the tuple, so a garden of many records is looked through once.
    """
    known = _KNOWN.get(id(records))
    if known is not None and known.records is records:
        return known
    if len(_KNOWN) >= _MOST:
        for key in list(_KNOWN)[: _MOST // 2]:
            _KNOWN.pop(key, None)
    made = _KNOWN[id(records)] = RecordIndex(records)
    return made
