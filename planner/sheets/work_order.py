"""The order in which the work of one day in a bed is done: the same on bed sheets and week sheets."""

from __future__ import annotations

#: The ground is cleared and dressed before film, supports and plants; posts go through film that lies, and plants are
#: covered last.  What is not named here comes after the clearing.
_ORDER: tuple[str, ...] = (
    "vent", "cover off", "pick", "lift and cure", "lift and store", "cut back", "prune", "divide", "renew", "clear",
    "film up", "", "spread", "film down", "support up", "chit", "sow", "prick out", "pot on", "harden off", "set out",
    "thin", "mulch", "earth up", "earth up again", "tie in", "pinch out", "stop", "feed", "cover on",
)  # fmt: skip


def place_in_day(kind: str) -> int:
    """Place of a kind of work among others of its day.

    Parameters
    ----------
    kind : str
        One of :data:`planner.garden.planting.Work`.
    """
    return _ORDER.index(kind) if kind in _ORDER else _ORDER.index("")
