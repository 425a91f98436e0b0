"""All checks, and the findings they make about a plan."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import partial

from pydantic import ValidationError

from planner.checks import (
    access,
    acidity,
    bench,
    bolting,
    cover,
    crowding,
    depth,
    frost,
    join_conflicts,
    light,
    losses,
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
    water,
)
from planner.checks.frame.context import CheckContext
from planner.checks.frame.failed import candidates_of
from planner.checks.frame.finding import SEVERITIES, Finding, Fix
from planner.checks.light_known import KnownLight
from planner.checks.odds_gained import with_better_odds
from planner.checks.other_start import alternatives
from planner.checks.run import Change, Check, Run, run_checks
from planner.checks.why_left_out import Tried, other_places_and_times, removed_planting, why_left_out
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.light import PlaceError
from planner.plan import Plan
from planner.words import say, say_count

#: All checks but the slow one of light, in the order in which their findings are listed.
CHECKS: dict[str, Check] = {
    outside.CHECK: outside.check,
    overlap.CHECK: overlap.check,
    perennial_ground.CHECK: perennial_ground.check,
    crowding.CHECK: crowding.check,
    depth.CHECK: depth.check,
    acidity.CHECK: acidity.check,
    frost.CHECK: frost.check,
    season.CHECK: season.check,
    losses.CHECK: losses.check,
    soil.CHECK: soil.check,
    bolting.CHECK: bolting.check,
    rotation.CHECK: rotation.check,
    neighbours.CHECK: neighbours.check,
    support.CHECK: support.check,
    cover.CHECK: cover.check,
    purity.CHECK: purity.check,
    access.REACH: access.check_reach,
    access.PATH: access.check_path,
    stock.CHECK: stock.check,
    store.CHECK: store.check,
    bench.CHECK: bench.check,
    water.CHECK: water.check,
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
    return listed(Run.over(plan, lore, {**CHECKS, **LIGHT} if light else CHECKS, locate=True))


def check_light(plan: Plan) -> tuple[Finding, ...]:
    """Run only the light check (slow; run it in the background)."""
    return listed(Run.over(plan, False, LIGHT, locate=True))


def light_steps(plan: Plan) -> Iterator[float | Run]:
    """Run only the light check, some hundred plantings a step.

    Parameters
    ----------
    plan : Plan

    Yields
    ------
    float or Run
        The share that is done; last the run.
    """
    kept: dict[str, object] = {}
    try:
        for known in KnownLight.steps(plan):
            if isinstance(known, KnownLight):
                kept[light.CHECK] = known
            else:
                yield known
    except PlaceError:
        pass  # nothing is known of the light, and nothing reported
    except Exception:
        kept.clear()  # the run finds it again, and says where it fails
    yield Run.over(plan, False, LIGHT, True, kept)


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
    return in_order(run_checks(CheckContext(plan, lore), {name: CHECKS[name] for name in names}))


def listed(run: Run) -> tuple[Finding, ...]:
    """Findings of a run as they are listed, with the reasons of those that are waived, and a way to find their fixes.

    Parameters
    ----------
    run : Run
    """
    plan = run.plan
    reasons = {waiver.finding: waiver.reason for waiver in plan.garden.waived}
    return tuple(
        one.listed(reasons.get(one.key, ""), partial(helpful_fixes, plan, one, run))
        for one in in_order(run.findings)
    )


def in_order(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings as they are listed, the gravest first."""
    return tuple(sorted(found, key=_place_in_list))


def _place_in_list(one: Finding) -> tuple[object, ...]:
    # Kept with the finding, which stays from run to run: thousands are put in order after each edit.
    place: tuple[object, ...] | None = one.__dict__.get("_place_in_list")
    if place is None:
        gravity = SEVERITIES.index(one.severity)
        place = gravity, _ORDER[one.check], one.span.first, one.plantings, one.beds, one.key
        one.__dict__["_place_in_list"] = place
    return place


def helpful_fixes(plan: Plan, finding: Finding, run: Run | None = None) -> tuple[Fix, ...]:
    """The candidates of a finding that help: it is gone, and nothing as grave or graver comes instead.

    Those that end other findings too come first, and say so; otherwise they keep their check's order.

    Parameters
    ----------
    plan : Plan
        In which it was found.
    finding : Finding
    run : Run, optional
        That found it.
    """
    slow = finding.check in LIGHT
    if slow and run is not None and run.checks.keys() == LIGHT.keys():
        run = run.beside(Run.over(plan, False, CHECKS))
    elif not slow and run is not None and run.checks.keys() > CHECKS.keys():
        failed = any(one.topic == "failed" for one in run.findings)  # told otherwise where it is located
        run = None if failed else run.narrowed(CHECKS)
    trials = Trials(plan, {**CHECKS, **LIGHT} if slow else CHECKS, run)
    tried: list[Tried] = []
    gardens: list[Garden] = [plan.garden]
    for candidate in candidates_of(plan, finding):
        for fix in alternatives(plan, finding, candidate):
            try:
                garden = fix.apply(plan.garden)
            except (BedwrightError, ValidationError):
                continue
            if garden in gardens:  # the same by other words: two that change places, offered for either
                continue
            gardens.append(garden)
            tried.append(Tried(fix, garden, trials.against(garden, finding)))
            if tried[-1].against is None:
                break
        if sum(one.against is None for one in tried) >= 2 * MOST_FIXES:
            break
    helpful = [one for one in tried if one.against is None]
    if helpful and all(_removes_plantings(plan, one.garden) for one in helpful):
        helpful = _or_elsewhere(plan, finding, trials, tried, helpful)
    ranked = [
        (0 if _removes_plantings(plan, one.garden) else -trials.ended(one.garden, finding), number, one)
        for number, one in enumerate(helpful)
    ]
    best = [one for *_, one in sorted(ranked, key=lambda item: item[:2])[:MOST_FIXES]]
    return tuple(
        _with_ended(with_better_odds(plan, one.garden, finding, one.fix), trials.ended(one.garden, finding))
        for one in best
    )


def _or_elsewhere(
    plan: Plan, finding: Finding, trials: Trials, tried: list[Tried], helpful: list[Tried]
) -> list[Tried]:
    """Where plantings can only be left out: other places and times that help after all, else the reason why none does."""
    gone = removed_planting(plan.garden, helpful[0].garden)
    if gone is None:
        return helpful
    judge = partial(trials.against, finding=finding)
    more = other_places_and_times(plan, gone, tried, judge, slow=finding.check in LIGHT)
    found = [one for one in more if one.against is None]
    if found:
        return [*found, *helpful]
    why = why_left_out(plan, gone, (*tried, *more), finding)
    return [replace(one, fix=replace(one.fix, why=why)) for one in helpful]


class Trials:
    """Edits that are tried on a plan, with what each changes in the findings.

    Parameters
    ----------
    plan : Plan
    checks : dict
        Those that are run.
    run : Run, optional
        Their findings in the plan, where they are known.
    """

    def __init__(self, plan: Plan, checks: dict[str, Check], run: Run | None = None) -> None:
        self.plan, self.checks = plan, checks
        known = run is not None and not run.lore and run.checks.keys() == checks.keys()
        self._run = run if known else None
        self._waived = {waiver.finding for waiver in plan.garden.waived}
        self._changes: dict[int, tuple[Garden, Change]] = {}

    @property
    def before(self) -> Run:
        """The findings without an edit."""
        if self._run is None:
            self._run = Run.over(self.plan, False, self.checks)
        return self._run

    def change(self, garden: Garden) -> Change:
        """What an edited garden changes in the findings."""
        seen = self._changes.get(id(garden))
        if seen is None:
            seen = self._changes[id(garden)] = garden, self.before.change(self.plan.what_if(garden))
        return seen[1]

    def stays(self, garden: Garden, finding: Finding) -> Finding | None:
        """A finding as it is in an edited garden; None where it is gone."""
        change = self.change(garden)
        before = self.before
        known = before.by_case.get(finding.case, []), before.by_key.get(finding.key, [])
        there = (one for one in (*change.come, *itertools.chain(*known)) if one not in change.gone)
        return next((one for one in there if one.case == finding.case or one.key == finding.key), None)

    def brings(self, garden: Garden, finding: Finding) -> Finding | None:
        """What an edit brings that is as grave as a finding or graver, or of its check; None where nothing such comes."""
        grave = SEVERITIES[: max(2, SEVERITIES.index(finding.severity) + 1)]
        new = (one for one in self.change(garden).come if one.case not in self.before.by_case)
        return next((one for one in new if one.severity in grave or one.check == finding.check), None)

    def against(self, garden: Garden, finding: Finding) -> Finding | None:
        """What speaks against an edit for the sake of a finding: that it stays, or what comes instead."""
        return self.stays(garden, finding) or self.brings(garden, finding)

    def ended(self, garden: Garden, finding: Finding) -> int:
        """How many other findings are gone in an edited garden; those that are waived do not count."""
        change, before = self.change(garden), self.before.by_case
        gone = set(map(id, change.gone))
        left = {one.case for one in change.come} | {finding.case}
        ended = {one.case for one in change.gone} - left
        ended = {case for case in ended if all(id(one) in gone for one in before[case])}
        return sum(before[case][-1].key not in self._waived for case in ended)


def _removes_plantings(plan: Plan, garden: Garden) -> bool:
    """Whether an edited garden has fewer plantings: findings about those end in any case."""
    return len(garden.plantings) < len(plan.garden.plantings)


def _with_ended(fix: Fix, ended: int) -> Fix:
    """A fix that says how many other findings it ends."""
    if not ended:
        return fix
    also = say_count("ends {count} other finding too", "ends {count} other findings too", ended)
    return replace(fix, gain=say("{gain}; {more}", gain=fix.gain, more=also) if fix.gain else also)
