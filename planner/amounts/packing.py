"""How many trays stand on a bench."""

from __future__ import annotations

from functools import lru_cache

#: Sides are reckoned in whole parts of this; a tray may hang over by as much. [m]
GRAIN = 0.001
#: Up to so many trays by area they are also set in four blocks round a middle one.
MOST_IN_BLOCKS = 20
#: Up to so many the bench is cut straight through again and again, beyond that into columns alone.
MOST_CUT = 60


def most_trays(length: float, width: float, tray_length: float, tray_width: float) -> int:
    """Trays that stand on a bench beside each other, along it or across; 0 where none fits.

    A small bench is cut straight through in two, or into five blocks about a middle one, and each part again; tests hold that
    against all packings of small boards.  A larger one is only cut in two, the largest are filled in whole columns: there a
    tray or two may be missed.

    Parameters
    ----------
    length, width : float
        Of the bench. [m]
    tray_length, tray_width : float
        [m]
    """
    long, wide, one, other = (round(side / GRAIN) for side in (length, width, tray_length, tray_width))
    limit = long * wide // (one * other)
    if limit > MOST_CUT:
        return max(_in_columns(*sides, one, other) for sides in ((long, wide), (wide, long)))
    return _packed(long, wide, one, other, limit <= MOST_IN_BLOCKS)


def _in_columns(long: int, wide: int, one: int, other: int) -> int:
    """Trays in columns across a bench, each of trays of one direction."""
    along, across = wide // other, wide // one
    turned = range(long // one + 1)
    return max(first * along + (long - first * one) // other * across for first in turned)


@lru_cache(maxsize=4096)
def _steps(side: int, one: int, other: int) -> tuple[int, ...]:
    """Lengths up to a side that whole trays take together, from 0 on."""
    sums = {i * one + j * other for i in range(side // one + 1) for j in range((side - i * one) // other + 1)}
    return tuple(sorted(sums))


@lru_cache(maxsize=65536)
def _packed(long: int, wide: int, one: int, other: int, blocks: bool) -> int:
    """Most trays on a rectangle, by cutting it in two, or into five blocks too."""
    x_steps, y_steps = _steps(long, one, other), _steps(wide, one, other)
    long, wide = x_steps[-1], y_steps[-1]
    best = max((long // one) * (wide // other), (long // other) * (wide // one))
    limit = long * wide // (one * other)
    if best == limit:
        return best
    for cut in x_steps[1:]:
        if 2 * cut <= long:
            best = max(
                best, _packed(cut, wide, one, other, blocks) + _packed(long - cut, wide, one, other, blocks)
            )
    for cut in y_steps[1:]:
        if 2 * cut <= wide:
            best = max(
                best, _packed(long, cut, one, other, blocks) + _packed(long, wide - cut, one, other, blocks)
            )
    if best == limit or not blocks:
        return best
    return max(best, _about_a_middle(long, wide, one, other, limit))


def _about_a_middle(long: int, wide: int, one: int, other: int, limit: int) -> int:
    """Most trays on a rectangle cut into four blocks round a middle one; stops at a limit."""
    x_steps, y_steps = _steps(long, one, other)[1:], _steps(wide, one, other)[1:]
    best = 0
    for i, x1 in enumerate(x_steps):
        for x2 in x_steps[i:]:
            for j, y1 in enumerate(y_steps):
                for y2 in y_steps[j:]:
                    if x2 >= long or y2 >= wide:
                        continue
                    parts = (
                        (x1, y2),
                        (long - x1, y1),
                        (long - x2, wide - y1),
                        (x2, wide - y2),
                        (x2 - x1, y2 - y1),
                    )
                    found = sum(_packed(a, b, one, other, True) for a, b in parts)
                    if found > best:
                        best = found
                        if best >= limit:
                            return best
    return best
