"""Findings of one kind put together: one line for many beds, and mends for all of them at once.

Findings are of one kind where check, kind, gravity, crop and cause are the same.  Their keys stay, so each may
still be accepted, mended or shown by itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from planner.checks.frame.failed import candidates_of
from planner.checks.frame.finding import SEVERITIES, Finding, Fix, Severity
from planner.checks.group_subject import Subject
from planner.checks.group_words import ANY_CROP, PHRASES
from planner.checks.other_start import with_other_starts
from planner.checks.registry import CHECKS, LIGHT, Trials
from planner.checks.run import Run
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.plan import Plan
from planner.words import capital, say, say_count

#: Most mends that are offered for several findings at once.
MOST_MENDS = 4

#: What findings have in common that are put together.
GroupKey = tuple[str, str, str, str, str, str]


@dataclass(frozen=True)
class FindingGroup:
    """Findings of one kind.

    Attributes
    ----------
    findings : tuple of Finding
        In the order in which they are listed; at least one.
    text : str
        That of the finding, where it is one; else a sentence about all.
    about : tuple of str
        Names of the sorts of seed or of the beds that they are about.
    """

    findings: tuple[Finding, ...]
    text: str
    about: tuple[str, ...] = ()

    @property
    def severity(self) -> Severity:
        """The gravity of all of them."""
        return self.findings[0].severity

    @property
    def check(self) -> str:
        """Name of their check."""
        return self.findings[0].check

    @property
    def single(self) -> bool:
        """Whether it is one finding."""
        return len(self.findings) == 1


@dataclass(frozen=True)
class GroupMend:
    """An edit after which several findings are gone.

    Attributes
    ----------
    text : str
        What it does, and for how many.
    findings : tuple of Finding
        Those that are gone.
    apply : callable
        The edit, from garden to garden.
    """

    text: str
    findings: tuple[Finding, ...]
    apply: Callable[[Garden], Garden]


def grouped(plan: Plan, findings: Iterable[Finding]) -> tuple[FindingGroup, ...]:
    """Put findings of one kind together, each group in the place of its first finding.

    Those that are accepted, and kinds without a common sentence, stay by themselves.

    Parameters
    ----------
    plan : Plan
        For the names of crops.
    findings : iterable of Finding
    """
    groups: dict[GroupKey | int, list[Finding]] = {}
    for number, one in enumerate(findings):
        groups.setdefault(_group_key(plan, one) or number, []).append(one)
    return tuple(
        FindingGroup(tuple(group), _text(plan, group), _about(plan, group)) for group in groups.values()
    )


def _kind(finding: Finding) -> tuple[str, str]:
    return finding.check, finding.kind or finding.topic


def _group_key(plan: Plan, finding: Finding) -> GroupKey | None:
    """What a finding shares with others of its kind; None where it stays by itself."""
    kind = _kind(finding)
    if finding.waived or kind not in PHRASES:
        return None
    # Kept with the finding as long as it stays from run to run, in which its plantings are the same.
    kept = finding.origin.__dict__
    key: GroupKey | None = kept.get("_group_key")
    if key is None:
        crop, other = ("", "") if kind in ANY_CROP else _crops(plan, finding)
        key = kept["_group_key"] = (*kind, finding.severity, crop, other, finding.cause)
    return key


def _crops(plan: Plan, finding: Finding) -> tuple[str, str]:
    """Names of the crop that a finding is about and, in pairs, of the other."""
    names = []
    for key in finding.plantings:
        planting = plan.garden.plantings_by_id[key]
        crop = plan.figures_of(planting).crop
        names.append(crop.name if crop is not None else planting.crop)
    first = names[0] if names else ""
    paired = finding.check in ("overlap", "standing", "neighbours", "seed purity") or (
        finding.topic in ("between", "hanging")
    )
    return first, names[1] if paired and len(names) > 1 else ""


def _text(plan: Plan, group: Sequence[Finding]) -> str:
    first = group[0]
    if len(group) == 1:
        return first.text
    kind = _kind(first)
    if kind in ANY_CROP:
        return PHRASES[kind](Subject("", "", first.cause, len(group)))
    crop, other = _crops(plan, first)
    beds = {one.beds[0] for one in group if one.beds}
    return capital(PHRASES[kind](Subject(crop, other, first.cause, len(beds))))


def _about(plan: Plan, group: Sequence[Finding]) -> tuple[str, ...]:
    """What findings are about, by name, each once: sorts of seed, else beds."""
    beds = plan.garden.beds_by_id
    names = (one.about or beds[one.beds[0]].name for one in group if one.about or one.beds)
    return tuple(dict.fromkeys(names))


# -- mends ----------------------------------------------------------------------------------------


def group_mends(plan: Plan, findings: Sequence[Finding], run: Run | None = None) -> tuple[GroupMend, ...]:
    """Edits that mend several findings in one step, those that mend the most first.

    An edit is offered where the same one, by its words, is a candidate of at least two of the findings; where
    those findings are gone after it; and where nothing as grave has come instead.

    Parameters
    ----------
    plan : Plan
        In which they were found.
    findings : sequence of Finding
        Of one kind.
    run : Run, optional
        That found them.
    """
    if len(findings) < 2:
        return ()
    by_words: dict[str, list[tuple[Finding, Fix]]] = {}
    for finding in findings:
        own: set[str] = set()
        for fix in _candidates(plan, finding):
            words = fix.together or fix.text
            if words not in own:
                own.add(words)
                by_words.setdefault(words, []).append((finding, fix))
    trials = Trials(plan, {**CHECKS, **LIGHT} if findings[0].check in LIGHT else CHECKS, run)
    found: list[GroupMend] = []
    for words, pairs in sorted(by_words.items(), key=lambda item: -len(item[1])):
        if len(pairs) < 2 or len(found) >= MOST_MENDS:
            continue
        mend = _mend(plan, trials, words, pairs, len(findings))
        if mend is not None:
            found.append(mend)
    return tuple(sorted(found, key=lambda mend: -len(mend.findings)))


def _candidates(plan: Plan, finding: Finding) -> Iterable[Fix]:
    """Edits to try for a finding; of light only those that are known to help, since finding them is slow."""
    if finding.fixes_cached:
        return finding.fixes
    if finding.check in LIGHT:
        return ()
    return with_other_starts(plan, finding, candidates_of(plan, finding))


def _mend(
    plan: Plan, trials: Trials, words: str, pairs: Sequence[tuple[Finding, Fix]], count: int
) -> GroupMend | None:
    """The edit of some words for as many findings as it helps; None where it helps fewer than two."""
    garden = _applied(plan.garden, [fix for _, fix in pairs])
    gone = [(one, fix) for one, fix in pairs if not trials.stays(garden, one)]
    if len(gone) < len(pairs):
        garden = _applied(plan.garden, [fix for _, fix in gone])
        gone = [(one, fix) for one, fix in gone if not trials.stays(garden, one)]
    if len(gone) < 2 or len(garden.plantings) < len(plan.garden.plantings):
        return None
    if trials.brings(garden, gone[0][0]) is not None:
        return None
    done = tuple(one for one, _ in gone)
    fixes = [fix for _, fix in gone]
    if len(done) == count:
        text = say_count("{mend}: all {count}", "{mend}: all {count}", count, mend=words)
    else:
        text = say("{mend}: {some} of {count}", mend=words, some=len(done), count=count)
    return GroupMend(text, done, lambda garden: _applied(garden, fixes))


def _applied(garden: Garden, fixes: Iterable[Fix]) -> Garden:
    """A garden after several edits; those that cannot be done are left out."""
    for fix in fixes:
        try:
            garden = fix.apply(garden)
        except BedwrightError:
            continue
    return garden


def gravest_first(groups: Iterable[FindingGroup]) -> dict[Severity, list[FindingGroup]]:
    """Groups by their gravity, the gravest first; each gravity is there."""
    found: dict[Severity, list[FindingGroup]] = {severity: [] for severity in SEVERITIES}
    for group in groups:
        found[group.severity].append(group)
    return found
