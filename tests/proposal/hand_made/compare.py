"""Wishes met in each garden by the first answer, by the proposal and by hand.

Run as ``PYTHONPATH=.:tests .venv/bin/python tests/proposal/hand_made/compare.py [NAME ...]``; the table stands in DEVELOPERS.
"""

from __future__ import annotations

import sys
import time
from pathlib import Path
from typing import NamedTuple

from planner.checks import check_all
from planner.crops import load_catalogue
from planner.garden import Garden
from planner.plan import Plan
from planner.proposal.garden_puzzle import garden_puzzle
from planner.proposal.greedy import greedy
from planner.proposal.in_part import parts_met
from planner.proposal.propose import Proposal, propose
from planner.storage import load

FOLDER = Path(__file__).parent
CATALOGUE = load_catalogue()
ROUNDS = 16


class Compared(NamedTuple):
    """Wishes of a garden, those that the first answer, the proposal and the hand-made layout meet whole, and seconds. [s]"""

    wishes: int
    first: int
    proposed: int
    by_hand: int
    seconds: float
    proposal: Proposal


def names() -> list[str]:
    """Names of the gardens."""
    return sorted(
        path.name.removesuffix(".bedwright")
        for path in FOLDER.glob("*.bedwright")
        if ".by_hand" not in path.name
    )


def garden_of(name: str) -> Garden:
    """A garden with its wishes, or with ``.by_hand`` behind its name with the layout that was made by hand."""
    return load(FOLDER / f"{name}.bedwright")


def plan_of(garden: Garden) -> Plan:
    """Its plan of the year that is wished for."""
    return Plan(garden, max(one.year for one in garden.wishes), CATALOGUE)


def compared(name: str, rounds: int = ROUNDS) -> Compared:
    """Lay a garden out."""
    plan = plan_of(garden_of(name))
    hand = garden_of(f"{name}.by_hand")
    wishes = [one for one in plan.garden.wishes if one.year == plan.year]
    by_hand = len({one.wish for one in hand.plantings if one.year == plan.year and one.wish})
    begun = time.perf_counter()
    of = garden_puzzle(plan)
    first = len({of.puzzle.options[one.option].wish for one in greedy(of.puzzle)})
    *_, found = propose(plan, rounds=rounds)
    return Compared(
        len(wishes),
        first,
        len(found.of.wishes) - len(found.unmet) - len(found.in_part),
        by_hand,
        time.perf_counter() - begun,
        found,
    )


def main() -> None:
    for name in sys.argv[1:] or names():
        one = compared(name)
        judged = Plan(one.proposal.garden, one.proposal.of.plan.year, CATALOGUE)
        grave = [f for f in check_all(judged) if f.severity == "stop" or f.check == "rotation"]
        print(
            f"{name:16} wishes {one.wishes:2} first {one.first:2} proposed {one.proposed:2} by hand {one.by_hand:2} "
            f"{one.seconds:5.1f} s, grave {len(grave)}, objected {len(one.proposal.objected)}"
        )
        for number, met in parts_met(one.proposal.of, one.proposal.layout).items():
            wish = one.proposal.of.wishes[number]
            print(
                "     in part",
                wish.id,
                wish.crop,
                wish.importance,
                f"{met.there:g} of {met.wanted:g}",
                wish.unit,
            )
        for wish in one.proposal.unmet:
            number = one.proposal.of.wishes.index(wish)
            print(
                "     unmet",
                wish.id,
                wish.crop,
                wish.amount,
                wish.unit,
                wish.importance,
                one.proposal.of.impossible.get(number, ""),
            )
        for finding in grave:
            print("     !", finding.severity, finding.check, finding.text[:150])


if __name__ == "__main__":
    main()
