"""Adding a whole range of beds: rows and columns of one size, with paths between."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count

from planner.garden.beds import Bed
from planner.garden.edits.common import checked, fresh_id, fresh_name, put
from planner.garden.garden import Garden
from planner.garden.model import Point
from planner.garden.outlines import Rectangle


@dataclass(frozen=True)
class BedRange:
    """Rectangular beds of one size, side by side and one below the other.

    Attributes
    ----------
    name : str
        The name of a single bed; several get it with a number. Without a name they are ``Bed`` with
        the next numbers.
    length, width : float
        Of each bed, across and up the plan. [m]
    across, up : int
        Number of beds side by side, and one below the other.
    path_across, path_up : float
        Width of the paths between beds side by side, and between beds one below the other. [m]
    """

    name: str
    length: float
    width: float
    across: int = 1
    up: int = 1
    path_across: float = 0.6
    path_up: float = 0.6

    @property
    def number(self) -> int:
        """How many beds it has."""
        return self.across * self.up

    def centers(self, left: float, top: float) -> Iterator[Point]:
        """Centres of the beds row by row from the top, for the upper left corner of the range. [m]"""
        for j in range(self.up):
            for i in range(self.across):
                yield (
                    round(left + self.length / 2 + i * (self.length + self.path_across), 6),
                    round(top - self.width / 2 - j * (self.width + self.path_up), 6),
                )


def add_bed_range(garden: Garden, beds: BedRange, left: float, top: float) -> tuple[Garden, tuple[str, ...]]:
    """Add a range of beds, with fresh ids and names that no other bed has.

    Parameters
    ----------
    garden : Garden
    beds : BedRange
    left, top : float
        Upper left corner of the range on the plan. [m]

    Returns
    -------
    garden, ids of the beds

    Raises
    ------
    EditError
        Where a bed of this size or name is not possible.
    """
    names = _names(garden, beds)
    keys = count(int(fresh_id(garden, "b")[1:]))
    made = [_bed(f"b{next(keys)}", next(names), center, beds) for center in beds.centers(left, top)]
    return put(garden, beds=(*garden.beds, *made)), tuple(bed.id for bed in made)


def _names(garden: Garden, beds: BedRange) -> Iterator[str]:
    """Names for the beds of a range that no bed of the garden has."""
    used = {bed.name.casefold() for bed in garden.beds}
    if beds.name and beds.number == 1:
        yield fresh_name(used, beds.name)
        return
    for number in count(1 if beds.name else len(garden.beds) + 1):
        name = f"{beds.name or 'Bed'} {number}"
        if name.casefold() not in used:
            yield name


def _bed(key: str, name: str, center: Point, beds: BedRange) -> Bed:
    outline = checked(
        lambda: Rectangle(center=center, length=beds.length, width=beds.width), beds.name or "bed"
    )
    return checked(lambda: Bed(id=key, name=name, outline=outline), name)
