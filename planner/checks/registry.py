"""All checks, and what they say of a plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial

from planner.checks import (
    access,
    cover,
    crowding,
    frost,
    light,
    neighbours,
    outside,
    overlap,
    perennial_ground,
    purity,
    rotation,
    season,
    soil,
    stock,
    store,
    support,
)
from planner.checks.frame.context import CheckContext
from planner.checks.frame.finding import SEVERITIES, Finding, Fix
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.plan import Plan

Check = Callable[[CheckContext], Iterator[Finding]]

#: Every check but that of light, which has a pace of its own, in the order in which their findings are listed.
CHECKS: dict[str, Check] = {
    outside.CHECK: outside.check,
    overlap.CHECK: overlap.check,
    perennial_ground.CHECK: perennial_ground.check,
    crowding.CHECK: crowding.check,
    frost.CHECK: frost.check,
    season.CHECK: season.check,
    soil.CHECK: soil.check,
    rotation.CHECK: rotation.check,
    neighbours.CHECK: neighbours.check,
    support.CHECK: support.check,
    cover.CHECK: cover.check,
    purity.CHECK: purity.check,
    access.REACH: access.check_reach,
    access.PATH: access.check_path,
    stock.CHECK: stock.check,
    store.CHECK: store.check,
}
LIGHT: dict[str, Check] = {light.CHECK: light.check}
_ORDER = {name: place for place, name in enumerate((*CHECKS, *LIGHT))}

#: No more mends than this are offered.
MOST_FIXES = 4


def check_all(plan: Plan, lore: bool = False, light: bool = True) -> tuple[Finding, ...]:
    """What all checks say of a plan, the gravest first.

    What an edit did not touch is kept from the plan before (:meth:`Plan.after`).

    Parameters
    ----------
    plan : Plan
    lore : bool
        Whether rules of neighbours that are only handed down count, and good pairs are told.
    light : bool
        Whether hours of direct sun are checked too, which takes a while in a large garden.
    """
    return _said(plan, _run(CheckContext(plan, lore), {**CHECKS, **LIGHT} if light else CHECKS))


def check_light(plan: Plan) -> tuple[Finding, ...]:
    """What the check of light says of a plan, and it alone: to be asked beside the others."""
    return _said(plan, _run(CheckContext(plan), LIGHT))


def _said(plan: Plan, found: list[Finding]) -> tuple[Finding, ...]:
    reasons = {waiver.finding: waiver.reason for waiver in plan.garden.waived}
    return tuple(
        replace(one, waived=reasons.get(one.key, ""), find_fixes=partial(_fixes, plan, one))
        for one in in_order(found)
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
    return in_order(_run(CheckContext(plan, lore), {name: CHECKS[name] for name in names}))


def _run(context: CheckContext, checks: dict[str, Check]) -> list[Finding]:
    return [finding for check in checks.values() for finding in check(context)]


def in_order(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings as they are listed, the gravest first."""
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


def _fixes(plan: Plan, finding: Finding) -> tuple[Fix, ...]:
    """The candidates that help: the finding is gone, and nothing as grave or graver comes instead.

    Those that end other findings too come first, and say so; else they keep their check's order.
    """
    checks = {**CHECKS, **LIGHT} if finding.check in LIGHT else CHECKS
    grave = SEVERITIES[: max(2, SEVERITIES.index(finding.severity) + 1)]
    waived = {waiver.finding for waiver in plan.garden.waived}
    before: dict[object, Finding] = {}
    kept: list[tuple[int, int, Fix]] = []
    gardens: list[Garden] = [plan.garden]
    for mend in finding.candidates(plan):
        try:
            garden = mend.apply(plan.garden)
        except BedwrightError:
            continue
        if garden in gardens:  # the same by other words: two that change places, told of either
            continue
        gardens.append(garden)
        if not before:
            before = {one.case: one for one in _run(CheckContext(plan), checks)}
        after = _run(CheckContext(plan.what_if(garden)), checks)
        cases = {one.case for one in after}
        if finding.case in cases or any(one.key == finding.key for one in after):
            continue
        new = [one for one in after if one.case not in before]
        if any(one.severity in grave or one.check == finding.check for one in new):
            continue
        ended = [
            one
            for case, one in before.items()
            if case not in cases and case != finding.case and one.key not in waived
        ]
        kept.append((-len(ended) if not _leaves_out(plan, garden) else 0, len(kept), _told_more(mend, ended)))
        if len(kept) >= 2 * MOST_FIXES:
            break
    return tuple(mend for *_, mend in sorted(kept, key=lambda item: item[:2])[:MOST_FIXES])


def _leaves_out(plan: Plan, garden: Garden) -> bool:
    """Whether an edit takes plantings out: of course what they were blamed for ends then."""
    return len(garden.plantings) < len(plan.garden.plantings)


def _told_more(mend: Fix, ended: list[Finding]) -> Fix:
    if not ended:
        return mend
    also = f"ends {len(ended)} other {'finding' if len(ended) == 1 else 'findings'} too"
    return replace(mend, gain=f"{mend.gain}; {also}" if mend.gain else also)
