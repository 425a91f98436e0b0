"""Findings of the checks, as lines."""

from __future__ import annotations

from collections.abc import Sequence

from planner.checks import SEVERITIES, Finding
from planner.checks.grouping import FindingGroup, group_mends, grouped
from planner.plan import Plan
from planner.words import capital, check_words, join_list, later, say

#: Said of a finding that nothing mends.
NO_MEND = later("No edit that was tried mends this.")
#: Heading of each group of findings, by severity.
HEADS = {
    "stop": later("stop: it fails as it stands"),
    "mind": later("warning"),
    "note": later("worth knowing"),
}


def findings_lines(plan: Plan, findings: Sequence[Finding], each: bool = False) -> list[str]:
    """Print findings as lines, the gravest first, waived ones last; those of one kind together.

    Parameters
    ----------
    plan : Plan
    findings : sequence of Finding
    each : bool
        Print every finding by itself.
    """
    lines = [say("{garden}, growing year {year}", garden=plan.garden.site.name, year=plan.year)]
    left = [one for one in findings if not one.waived]
    for severity in SEVERITIES:
        of_severity = [one for one in left if one.severity == severity]
        if not of_severity:
            continue
        lines += ["", say("{heading} ({number})", heading=say(HEADS[severity]), number=len(of_severity))]
        groups = (
            [FindingGroup((one,), one.text) for one in of_severity] if each else grouped(plan, of_severity)
        )
        for group in groups:
            lines.append(
                "  " + say("{check}: {finding}.", check=check_words(group.check), finding=group.text)
            )
            lines += _single_lines(group.findings[0]) if group.single else _group_lines(plan, group)
    waived = [one for one in findings if one.waived]
    if waived:
        lines += ["", say("accepted ({number})", number=len(waived))]
        lines += [
            "  "
            + say(
                "{check}: {finding}. Reason: {reason}",
                check=check_words(one.check),
                finding=one.text,
                reason=one.waived,
            )
            for one in waived
        ]
    if not left:
        lines += ["", say("Nothing to say.") if not waived else say("Nothing else to say.")]
    return lines


def _single_lines(finding: Finding) -> list[str]:
    """The best mend of a finding, and why nothing else would do; or that nothing mends it."""
    if not finding.fixes:
        return ["    " + say(NO_MEND)]
    best = finding.fixes[0]
    lines = [f"    {best.text}{f' ({best.gain})' if best.gain else ''}."]
    if best.why:
        lines.append("    " + say("Nothing else that was tried would do: {reason}.", reason=best.why))
    return lines


def _group_lines(plan: Plan, group: FindingGroup) -> list[str]:
    """The beds or sorts of seed that a group is about, and what mends several of its findings at once."""
    lines = [f"    {capital(join_list(group.about))}."] if group.about else []
    mends = group_mends(plan, group.findings)
    if mends:
        return [*lines, f"    {mends[0].text}."]
    return [*lines, "    " + say("No one edit mends several of them; --each lists them one by one.")]
