"""Edits of waivers: findings that are waived with a reason."""

from __future__ import annotations

from planner.garden.edits.common import checked, put
from planner.garden.garden import Garden, Waiver


def waive(garden: Garden, finding: str, reason: str) -> Garden:
    """Waive a finding; a second time changes the reason.

    Parameters
    ----------
    garden : Garden
    finding : str
        Key of the finding.  It changes with the facts of the finding, which then is reported again.
    reason : str
        Must not be empty.
    """
    waiver = checked(lambda: Waiver(finding=finding, reason=reason.strip()), "finding")
    if waiver in garden.waived:
        return garden
    rest = tuple(other for other in garden.waived if other.finding != finding)
    return put(garden, waived=(*rest, waiver))


def unwaive(garden: Garden, finding: str) -> Garden:
    """Remove the waiver of a finding; the same garden if there is none.

    Parameters
    ----------
    garden : Garden
    finding : str
        Key of the finding.
    """
    rest = tuple(other for other in garden.waived if other.finding != finding)
    return garden if len(rest) == len(garden.waived) else put(garden, waived=rest)
