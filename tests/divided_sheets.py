"""Brute force over all ways to lay sheets of parts and to cut these from rolls, for the tests."""

from __future__ import annotations

import itertools
import math
from functools import cache


@cache
def divided(length: int, overlap: int, most: int) -> tuple[tuple[int, ...], ...]:
    """All parts of which a sheet can be laid, none longer than a roll."""
    found = [(length,)] if length <= most else []
    for part in range(overlap + 1, min(most, length - 1) + 1):
        found += [
            (part, *rest) for rest in divided(length - part + overlap, overlap, most) if part >= rest[0]
        ]
    return tuple(found)


def fits(parts: tuple[int, ...], rolls: tuple[int, ...]) -> bool:
    """Whether pieces can be cut from rolls, tried one way after another."""
    if not parts:
        return True
    first, rest = parts[0], parts[1:]
    tried = set()
    for at, room in enumerate(rolls):
        if room >= first and room not in tried:
            tried.add(room)
            if fits(rest, tuple(sorted((*rolls[:at], room - first, *rolls[at + 1 :])))):
                return True
    return False


def brute_force(sheets: list[int], sold: list[int], there: list[int], overlap: int) -> int:
    """The least length to buy, over all divisions of the sheets and all numbers of rolls. [mm]"""
    most = max([*sold, *there])
    ways = [
        tuple(sorted(itertools.chain(*way), reverse=True))
        for way in itertools.product(*(divided(sheet, overlap, most) for sheet in sheets))
    ]
    ways = sorted(set(ways), key=len)
    cost = 0
    while True:
        for numbers in itertools.product(*(range(cost // one + 1) for one in sold)):
            if sum(a * b for a, b in zip(numbers, sold, strict=True)) == cost:
                rolls = (
                    *there,
                    *(one for one, number in zip(sold, numbers, strict=True) for _ in range(number)),
                )
                room = sum(rolls)
                if any(sum(way) <= room and fits(way, tuple(sorted(rolls))) for way in ways):
                    return cost
        cost += math.gcd(*sold)


def held_by(sheets: list[int], there: list[int], overlap: int) -> bool:
    """Whether sheets can be cut and joined from what is there."""
    ways = itertools.product(*(divided(sheet, overlap, max(there)) for sheet in sheets)) if there else ()
    rolls = tuple(sorted(there))
    return any(
        fits(tuple(sorted(itertools.chain(*way), reverse=True)), rolls)
        for way in ways
        if sum(map(sum, way)) <= sum(rolls)
    )
