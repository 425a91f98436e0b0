"""All checks, and the findings they make about a plan."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from functools import partial

from planner.checks import (
    access,
    cover,
    crowding,
    frost,
    join_conflicts,
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
from planner.words import say, say_count

Check = Callable[[CheckContext], Iterator[Finding]]

#: All checks but the slow one of light, in the order in which their findings are listed.
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
    join_conflicts.CHECK: join_conflicts.check,
}
#: The light check, which is run in the background.
LIGHT: dict[str, Check] = {light.CHECK: light.check}
_ORDER = {name: place for place, name in enumerate((*CHECKS, *LIGHT))}

#: Most fixes that are offered for a finding.
MOST_FIXES = 4


def check_all(plan: Plan, lore: bool = False, light: bool = True) -> tuple[Finding, ...]:
    """Run all checks; the gravest findings first.

    Parameters
    ----------
    plan : Plan
    lore : bool
        Whether neighbour rules that are only handed down count, and good pairs are reported.
    light : bool
        Whether the light check is run too, which is slow in a large garden.
    """
    return with_waivers(plan, _run(CheckContext(plan, lore), {**CHECKS, **LIGHT} if light else CHECKS))


def check_light(plan: Plan) -> tuple[Finding, ...]:
    """Run only the light check (slow; run it in the background)."""
    return with_waivers(plan, _run(CheckContext(plan), LIGHT))


def check_only(plan: Plan, names: Iterable[str], lore: bool = False) -> tuple[Finding, ...]:
    """Run some checks, without waivers and fixes: for a ghost that is being dragged.

    Parameters
    ----------
    plan : Plan
    names : iterable of str
        Keys of :data:`CHECKS`.
    lore : bool
        Whether neighbour rules that are only handed down count.
    """
    return in_order(_run(CheckContext(plan, lore), {name: CHECKS[name] for name in names}))


def with_waivers(plan: Plan, found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings as they are listed, with the reasons of those that are waived, and a way to find their fixes.

    Parameters
    ----------
    plan : Plan
        In which they were found.
    found : iterable of Finding
    """
    reasons = {waiver.finding: waiver.reason for waiver in plan.garden.waived}
    return tuple(
        replace(one, waived=reasons.get(one.key, ""), find_fixes=partial(helpful_fixes, plan, one))
        for one in in_order(found)
    )


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


def helpful_fixes(plan: Plan, finding: Finding) -> tuple[Fix, ...]:
    """The candidates of a finding that help: it is gone, and nothing as grave or graver comes instead.

    Those that end other findings too come first, and say so; otherwise they keep their check's order.

    Parameters
    ----------
    plan : Plan
        In which it was found.
    finding : Finding
    """
    checks = {**CHECKS, **LIGHT} if finding.check in LIGHT else CHECKS
    waived = {waiver.finding for waiver in plan.garden.waived}
    before: dict[object, Finding] = {}
    helpful: list[tuple[int, int, Fix]] = []
    gardens: list[Garden] = [plan.garden]
    for fix in finding.candidates(plan):
        try:
            garden = fix.apply(plan.garden)
        except BedwrightError:
            continue
        if garden in gardens:  # the same by other words: two that change places, offered for either
            continue
        gardens.append(garden)
        if not before:
            before = {one.case: one for one in _run(CheckContext(plan), checks)}
        after = _run(CheckContext(plan.what_if(garden)), checks)
        if not _helps(finding, before, after):
            continue
        cases = {one.case for one in after}
        ended = [one for case, one in before.items() if case not in cases and case != finding.case]
        count = sum(one.key not in waived for one in ended)
        ranked = 0 if _removes_plantings(plan, garden) else count
        helpful.append((-ranked, len(helpful), _with_ended(fix, count)))
        if len(helpful) >= 2 * MOST_FIXES:
            break
    return tuple(fix for *_, fix in sorted(helpful, key=lambda item: item[:2])[:MOST_FIXES])


def _helps(finding: Finding, before: dict[object, Finding], after: list[Finding]) -> bool:
    """Whether a finding is gone, and nothing as grave or graver, or of its check, has come instead.

    Parameters
    ----------
    finding : Finding
    before : dict
        Findings without the fix, by what they are about.
    after : list of Finding
        Findings with it.
    """
    grave = SEVERITIES[: max(2, SEVERITIES.index(finding.severity) + 1)]
    if any(one.case == finding.case or one.key == finding.key for one in after):
        return False
    new = (one for one in after if one.case not in before)
    return not any(one.severity in grave or one.check == finding.check for one in new)


def _removes_plantings(plan: Plan, garden: Garden) -> bool:
    """Whether an edited garden has fewer plantings: findings about those end in any case."""
    return len(garden.plantings) < len(plan.garden.plantings)


def _with_ended(fix: Fix, ended: int) -> Fix:
    """A fix that says how many other findings it ends."""
    if not ended:
        return fix
    also = say_count("ends {count} other finding too", "ends {count} other findings too", ended)
    return replace(fix, gain=say("{gain}; {more}", gain=fix.gain, more=also) if fix.gain else also)
