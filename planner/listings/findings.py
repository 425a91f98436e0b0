"""Findings of the checks, as lines."""

from __future__ import annotations

from collections.abc import Sequence

from planner.checks import SEVERITIES, Finding
from planner.plan import Plan
from planner.words import later, say

#: Said of a finding that nothing mends.
NO_MEND = later("No edit that was tried mends this.")
#: Heading of each group of findings, by severity.
HEADS = {"stop": "stop: it fails as it stands", "mind": "warning", "note": "worth knowing"}


def findings_lines(plan: Plan, findings: Sequence[Finding]) -> list[str]:
    """Print findings as lines, the gravest first, waived ones last.

    Parameters
    ----------
    plan : Plan
    findings : sequence of Finding
    """
    lines = [f"{plan.garden.site.name}, growing year {plan.year}"]
    left = [one for one in findings if not one.waived]
    for severity in SEVERITIES:
        group = [one for one in left if one.severity == severity]
        if not group:
            continue
        lines += ["", f"{HEADS[severity]} ({len(group)})"]
        for one in group:
            lines.append(f"  {one.check}: {one.text}.")
            if one.fixes:
                best = one.fixes[0]
                lines.append(f"    {best.text}{f' ({best.gain})' if best.gain else ''}.")
                if best.why:
                    lines.append("    " + say("Nothing else would do: {reason}.", reason=best.why))
            else:
                lines.append("    " + say(NO_MEND))
    waived = [one for one in findings if one.waived]
    if waived:
        lines += ["", f"accepted ({len(waived)})"]
        lines += [f"  {one.check}: {one.text}. Reason: {one.waived}" for one in waived]
    if not left:
        lines += ["", "Nothing to say." if not waived else "Nothing else to say."]
    return lines
