"""A garden's growing year as a puzzle: what its options plant, and which rules keep ground from them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from planner.garden import Planting
from planner.garden.wishes import Wish
from planner.plan import Plan
from planner.proposal.puzzle import Option, Puzzle, Shut
from planner.proposal.strips import Strip
from planner.proposal.waived_rotation import WaivedGround
from planner.proposal.ways import Wanted, Way


class Rule(NamedTuple):
    """A rule that keeps ground from a planting.

    Attributes
    ----------
    kind : str
        ``built``, ``stands``, ``rotation``, ``light``, ``depth``.
    key : str
        The planting that stands there, or the family.
    value : float
        Years after which the family would come back; hours of sun that are missing; depth that is there. [a, h, m]
    """

    kind: str
    key: str = ""
    value: float = 0.0


@dataclass(frozen=True, eq=False)
class Offer:
    """What an option of the puzzle plants.

    Attributes
    ----------
    wish : Wish
    way : Way
        Its draft is planted.
    strip : Strip
    parts : int
        Over how many beds the wish is divided.
    part : Wanted
        How much of it is wanted in this bed.
    share : float
        Of the wish, that all its parts give together.
    as_it_was : bool
        Whether the draft stands on its own plot: a drawn region, or single places.
    """

    wish: Wish
    way: Way
    strip: Strip
    parts: int
    part: Wanted
    share: float = 1.0
    as_it_was: bool = False


@dataclass(frozen=True, eq=False)
class GardenPuzzle:
    """A growing year of a garden as a puzzle.

    Attributes
    ----------
    plan : Plan
        Of the garden with all that stays, and nothing that is free to move.
    puzzle : Puzzle
    wishes : tuple of Wish
    strips : tuple of Strip
    offers : tuple of Offer
        For each option.
    rules : tuple of Rule
        For each rule of the puzzle.
    impossible : dict of int to str
        Wishes that no bed can have whole, and why, a sentence without a full stop.
    met : tuple of str
        Ids of wishes that are met by what stays.
    too_short : dict of int to list of (Option, Offer)
        For each wish that may be met in part what would plant it whole in beds that are too short, longer than the bed: options
        without costs, not of the puzzle.
    waived : tuple of WaivedGround
        Where crops may come back sooner, since the gardener waived it.
    freed : tuple of Planting
        What was there and is free to move.
    """

    plan: Plan
    puzzle: Puzzle
    wishes: tuple[Wish, ...]
    strips: tuple[Strip, ...]
    offers: tuple[Offer, ...]
    rules: tuple[Rule, ...]
    impossible: dict[int, str]
    met: tuple[str, ...]
    too_short: dict[int, list[tuple[Option, Offer]]]
    waived: tuple[WaivedGround, ...] = ()
    freed: tuple[Planting, ...] = ()


def left_of(start: int, end: int, without: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """What is left of a stretch without others."""
    for first, last in sorted(without):
        if first > start:
            yield start, min(first, end)
        start = max(start, last)
        if start >= end:
            return
    yield start, end


def all_but(length: int, start: int, part: int) -> tuple[Shut, ...]:
    """All steps of a bed but a stretch, shut for good."""
    found = (Shut(0, start, 0), Shut(start + part, length, 0))
    return tuple(one for one in found if one.start < one.end)
