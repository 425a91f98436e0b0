"""What of the wishes a proposed layout leaves open, one for each crop."""

from __future__ import annotations

from planner.garden.wishes import Wish
from planner.proposal.filling import most_wished
from planner.proposal.in_part import Met, parts_met
from planner.proposal.propose import Proposal


def open_wishes(proposal: Proposal) -> dict[str, Wish]:
    """What is still wished of each crop: wishes that are not met, then what lacks of those that are met in part.

    Parameters
    ----------
    proposal : Proposal

    Returns
    -------
    dict of str to Wish
        By the crops' keys, each with the amount that lacks.
    """
    wishes = proposal.of.wishes
    parts = parts_met(proposal.of, proposal.layout)
    rests = [_rest(wishes[number], met) for number, met in parts.items() if met.share < 1 - 1e-9]
    return most_wished((*proposal.unmet, *rests))


def _rest(wish: Wish, met: Met) -> Wish:
    if wish.unit == "plants" or wish.amount is None:
        return wish.with_(amount=max(round(met.wanted - met.there), 1), unit="plants")
    return wish.with_(amount=wish.amount * (1 - met.share))
