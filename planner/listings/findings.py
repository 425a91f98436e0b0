"""Findings as records and as lines."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from planner.checks import SEVERITIES, Finding
from planner.plan import Plan
from planner.season.spans import OPEN_END

HEADS = {"stop": "stop: it fails as it stands", "mind": "mind: it will suffer", "note": "worth knowing"}


def finding_rows(plan: Plan, findings: Sequence[Finding]) -> list[dict[str, Any]]:
    """One record a finding; ``until`` is null of what has no end."""
    return [
        {
            "check": one.check,
            "severity": one.severity,
            "beds": [plan.garden.beds_by_id[key].name for key in one.beds],
            "plantings": list(one.plantings),
            "structures": [plan.garden.structures_by_id[key].name or key for key in one.structures],
            "from": one.span.first.isoformat(),
            "until": one.span.last.isoformat() if one.span.last < OPEN_END else None,
            "text": one.text,
            "rule": one.rule,
            "source": one.source,
            "cited": plan.catalogue.source_line(one.source) if one.source in plan.catalogue.sources else "",
            "mends": [mend.text for mend in one.fixes],
            "waived": one.waived or None,
            "key": one.key,
        }
        for one in findings
    ]


def findings_text(plan: Plan, findings: Sequence[Finding]) -> list[str]:
    """Lines: the gravest first, what was waved aside last."""
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
    aside = [one for one in findings if one.waived]
    if aside:
        lines += ["", f"waved aside ({len(aside)})"]
        lines += [f"  {one.check}: {one.text}. Reason: {one.waived}" for one in aside]
    if not left:
        lines += ["", "Nothing to say." if not aside else "Nothing else to say."]
    return lines
