"""Two layouts for the same wishes beside one another: which is better, and by what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from planner.garden.wishes import Importance
from planner.proposal.layouts import plantings_of
from planner.proposal.moved_days import TOLD, days_moved
from planner.proposal.propose import Proposal
from planner.proposal.ways import like_of

#: How a layout is beside another one: the very same, another that costs as much, or one that costs less or more.
Verdict = Literal["same", "as good", "better", "worse"]


@dataclass(frozen=True)
class Merits:
    """What of a layout is compared: a plain value for another process.

    Attributes
    ----------
    cost : int
        Points.
    shares : mapping of str to float
        For each wish how much of it is met, 0 to 1.
    grades : mapping of str to str
        How much each wish matters.
    places : frozenset of tuple
        Of each planting its wish, bed, plot and first day.
    moved, shifted, divided : frozenset of str
        Wishes of which something stands in another bed than what they are like, begins more than two weeks from its day,
        or is divided over several beds.
    families : int
        Beds of each family, all families together.
    """

    cost: int
    shares: Mapping[str, float]
    grades: Mapping[str, Importance]
    places: frozenset[tuple[object, ...]]
    moved: frozenset[str] = frozenset()
    shifted: frozenset[str] = frozenset()
    divided: frozenset[str] = frozenset()
    families: int = 0

    def unmet(self, grade: Importance) -> int:
        """Number of wishes of a grade of which nothing is met."""
        return sum(1 for wish, share in self.shares.items() if not share and self.grades[wish] == grade)

    @property
    def whole(self) -> int:
        """Number of wishes that are met whole."""
        return sum(1 for share in self.shares.values() if share >= 1)

    @property
    def in_part(self) -> int:
        """Number of wishes that are met in part."""
        return sum(1 for share in self.shares.values() if 0 < share < 1)


@dataclass(frozen=True)
class Comparison:
    """A layout beside another one; each number is how many more it has than that.

    Attributes
    ----------
    verdict : str
    whole, in_part : int
        Wishes that are met whole, and in part.
    musts : int
        Wishes that must be met of which nothing is.
    moved, shifted, divided : int
        Wishes in other beds than this year's, on other days, divided.
    families : int
        Beds that families take.
    points : int
        What it costs more.
    """

    verdict: Verdict
    whole: int = 0
    in_part: int = 0
    musts: int = 0
    moved: int = 0
    shifted: int = 0
    divided: int = 0
    families: int = 0
    points: int = 0


def merits_of(proposal: Proposal) -> Merits:
    """What of a proposal is compared.

    Parameters
    ----------
    proposal : Proposal
    """
    of, plan = proposal.of, proposal.of.plan
    shares = {wish.id: 0.0 for wish in of.wishes}
    beds: dict[str, set[str]] = {}
    families: set[tuple[str, str]] = set()
    places: set[tuple[object, ...]] = set()
    moved: set[str] = set()
    shifted: set[str] = set()
    for choice, planting in zip(proposal.layout, plantings_of(of, proposal.layout), strict=True):
        offer = of.offers[choice.option]
        wish, first = offer.wish, offer.way.span.first
        shares[wish.id] = offer.share
        beds.setdefault(wish.id, set()).add(planting.bed)
        places.add((wish.id, planting.bed, planting.plot, first))
        if offer.way.view.crop is not None:
            families.add((offer.way.view.crop.family, planting.bed))
        like = like_of(plan, wish)
        if like is not None and like.bed != planting.bed:
            moved.add(wish.id)
        if abs(days_moved(plan, wish, first)) > TOLD:
            shifted.add(wish.id)
    return Merits(
        proposal.cost,
        shares,
        {wish.id: wish.importance for wish in of.wishes},
        frozenset(places),
        frozenset(moved),
        frozenset(shifted),
        frozenset(wish for wish, there in beds.items() if len(there) > 1),
        len(families),
    )


def worse_or_better(new: Merits, shown: Merits) -> Comparison | None:
    """A layout beside the one that is shown; None where they are for other wishes, so that neither is better.

    Parameters
    ----------
    new, shown : Merits
    """
    if new.grades != shown.grades:
        return None
    if new.places == shown.places and new.cost == shown.cost:
        return Comparison("same")
    points = new.cost - shown.cost
    return Comparison(
        "better" if points < 0 else "worse" if points > 0 else "as good",
        new.whole - shown.whole,
        new.in_part - shown.in_part,
        new.unmet("must") - shown.unmet("must"),
        len(new.moved) - len(shown.moved),
        len(new.shifted) - len(shown.shifted),
        len(new.divided) - len(shown.divided),
        new.families - shown.families,
        points,
    )
