"""Shares of a planting that can be chosen, in words."""

from __future__ import annotations

from planner.words import later, percent, say

#: Shares that are chosen most.
SHARES = {
    0.25: later("a quarter"),
    1 / 3: later("a third"),
    0.5: later("half"),
    0.75: later("three quarters"),
    1.0: later("all"),
}
#: A share this near to one that can be chosen is shown as that one.
_NEAR = 0.004


def chosen_share_words(share: float) -> str:
    """A share as it is chosen, else in percent.

    Parameters
    ----------
    share : float
        From 0 to 1.
    """
    for known in SHARES:
        if abs(share - known) < _NEAR:
            return say(SHARES[known])
    return percent(share)
