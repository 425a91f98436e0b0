"""Edits of findings that are waved aside."""

from __future__ import annotations

from planner.garden.edits.common import checked, put
from planner.garden.garden import Garden, Waiver


def waive(garden: Garden, finding: str, reason: str) -> Garden:
    """Wave a finding aside with a reason; a second time changes the reason.

    Parameters
    ----------
    garden : Garden
    finding : str
        The finding's key.  It comes back by itself once the facts are others.
    reason : str
        Not empty.
    """
    waiver = checked(lambda: Waiver(finding=finding, reason=reason.strip()), "finding")
    if waiver in garden.waived:
        return garden
    rest = tuple(other for other in garden.waived if other.finding != finding)
    return put(garden, waived=(*rest, waiver))


def unwaive(garden: Garden, finding: str) -> Garden:
    """Take a finding up again; the same garden where it was not waved aside."""
    rest = tuple(other for other in garden.waived if other.finding != finding)
    return garden if len(rest) == len(garden.waived) else put(garden, waived=rest)
