"""The order in which the work of one day in a bed is done: the same on bed sheets and week sheets."""

from __future__ import annotations

#: The ground is cleared and dressed before film, supports and plants; posts go through film that lies, and plants are
#: covered last.  What is not named here comes after the clearing.
_ORDER: tuple[str, ...] = (
    "vent", "pick", "lift and cure", "lift and store", "cut back", "prune", "divide", "renew", "cover off", "clear",
    "film up", "", "spread", "film down", "support up", "chit", "sow", "prick out", "pot on", "harden off", "set out",
    "thin", "mulch", "earth up", "earth up again", "tie in", "pinch out", "stop", "feed", "cover on",
)  # fmt: skip


def place_in_day(kind: str, *, begins: bool = False) -> int:
    """Place of a kind of work among others of its day.

    Parameters
    ----------
    kind : str
        One of :data:`planner.garden.planting.Work`.
    begins : bool
        Its plants are sown or set out on that day: nothing is picked of them before.
    """
    if begins and kind in ("pick", "cut back"):
        kind = "thin"
    return _ORDER.index(kind) if kind in _ORDER else _ORDER.index("")
