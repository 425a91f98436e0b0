"""All checks, and what they say of a plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial

from planner.checks import (
    cover,
    crowding,
    frost,
    ground,
    light,
    neighbours,
    outside,
    overlap,
    purity,
    rotation,
    season,
    standing,
    stores,
    support,
)
from planner.checks.asked import Asked
from planner.checks.finding import SEVERITIES, Finding, Mend
from planner.errors import BedwrightError
from planner.plan import Plan

Check = Callable[[Asked], Iterator[Finding]]

#: Every check but light, in the order in which their findings are listed.
CHECKS: dict[str, Check] = {
    outside.CHECK: outside.check,
    overlap.CHECK: overlap.check,
    standing.CHECK: standing.check,
    crowding.CHECK: crowding.check,
    frost.CHECK: frost.check,
    season.CHECK: season.check,
    season.SOIL: season.check_soil,
    rotation.CHECK: rotation.check,
    neighbours.CHECK: neighbours.check,
    support.CHECK: support.check,
    cover.CHECK: cover.check,
    purity.CHECK: purity.check,
    ground.REACH: ground.check_reach,
    ground.PATH: ground.check_path,
    stores.STOCK: stores.check_stock,
    stores.STORE: stores.check_store,
}
LIGHT: dict[str, Check] = {light.CHECK: light.check}
_ORDER = {name: place for place, name in enumerate((*CHECKS, *LIGHT))}

#: No more mends than this are offered.
MOST_MENDS = 4


def check_all(plan: Plan, lore: bool = False, light: bool = False) -> tuple[Finding, ...]:
    """What all checks say of a plan, the gravest first.

    What an edit did not touch is kept from the plan before (:meth:`Plan.after`).

    Parameters
    ----------
    plan : Plan
    lore : bool
        Whether rules of neighbours that are only handed down count, and good pairs are told.
    light : bool
        Whether hours of direct sun are checked too, which takes seconds in a large garden.
    """
    asked = Asked(plan, lore)
    found = _ordered(_run(asked, {**CHECKS, **LIGHT} if light else CHECKS))
    reasons = {waiver.finding: waiver.reason for waiver in plan.garden.waived}
    return tuple(
        replace(one, waived=reasons.get(one.key, ""), mending=partial(_mends, plan, one)) for one in found
    )


def check_only(plan: Plan, names: Iterable[str], lore: bool = False) -> tuple[Finding, ...]:
    """What some checks say of a plan: for a ghost that is being dragged.

    Parameters
    ----------
    plan : Plan
    names : iterable of str
        Keys of :data:`CHECKS`.
    lore : bool
    """
    return _ordered(_run(Asked(plan, lore), {name: CHECKS[name] for name in names}))


def _run(asked: Asked, checks: dict[str, Check]) -> list[Finding]:
    return [finding for check in checks.values() for finding in check(asked)]


def _ordered(found: list[Finding]) -> tuple[Finding, ...]:
    return tuple(
        sorted(
            found,
            key=lambda one: (
                SEVERITIES.index(one.severity),
                _ORDER[one.check],
                one.span.first,
                one.plantings,
                one.beds,
                one.key,
            ),
        )
    )


def _mends(plan: Plan, finding: Finding) -> tuple[Mend, ...]:
    """The candidates that help: the finding is gone, and nothing as grave or graver comes instead."""
    checks = {**CHECKS, **LIGHT} if finding.check in LIGHT else CHECKS
    before: set[object] | None = None
    grave = SEVERITIES[: max(2, SEVERITIES.index(finding.severity) + 1)]
    kept: list[Mend] = []
    for mend in finding.candidates(plan):
        try:
            garden = mend.apply(plan.garden)
        except BedwrightError:
            continue
        if garden is plan.garden or any(mend.text == other.text for other in kept):
            continue
        if before is None:
            before = {one.case for one in _run(Asked(plan), checks)}
        after = _run(Asked(plan.after(garden)), checks)
        if any(one.case == finding.case or one.key == finding.key for one in after):
            continue
        if any(one.case not in before and one.severity in grave for one in after):
            continue
        kept.append(mend)
        if len(kept) >= MOST_MENDS:
            break
    return tuple(kept)
