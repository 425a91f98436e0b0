"""Sheets and rolls in groups: the sheets of a group and an overlap for each roll but one are no longer than its rolls."""

from __future__ import annotations

from collections.abc import Sequence

#: Places of sheets, and places of the rolls from which they are cut.
Group = tuple[tuple[int, ...], tuple[int, ...]]


def groups_of(sheets: Sequence[int], rolls: Sequence[int], overlap: int) -> list[Group] | None:
    """Sheets and rolls in groups whose sheets fit their rolls, as many as can be; None where there are none."""
    seen: dict[tuple[int, int], list[Group] | None] = {}
    of_sheets, of_rolls = _sums(sheets), _sums(rolls)

    def split(wanted: int, free: int) -> list[Group] | None:
        if not wanted:
            return []
        key = wanted, free
        if key not in seen:
            seen[key] = search(wanted, free) if of_sheets[wanted] <= of_rolls[free] else None
        return seen[key]

    def search(wanted: int, free: int) -> list[Group] | None:
        first = wanted & -wanted
        others, chosen = wanted ^ first, free
        best: list[Group] | None = None
        while chosen:
            room = of_rolls[chosen] - overlap * (chosen.bit_count() - 1) - of_sheets[first]
            more = others
            while room >= 0:
                if of_sheets[more] <= room:
                    rest = split(others & ~more, free & ~chosen)
                    if rest is not None and (best is None or len(rest) + 1 > len(best)):
                        best = [(_places(first | more), _places(chosen)), *rest]
                if not more:
                    break
                more = (more - 1) & others
            chosen = (chosen - 1) & free
        return best

    return split(len(of_sheets) - 1, len(of_rolls) - 1)


def _sums(lengths: Sequence[int]) -> list[int]:
    """The sum of each set of lengths, by the set's mask."""
    found = [0]
    for length in lengths:
        found += [one + length for one in found]
    return found


def _places(mask: int) -> tuple[int, ...]:
    return tuple(place for place in range(mask.bit_length()) if mask >> place & 1)
