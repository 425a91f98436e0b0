"""Neighbours: how strongly a finding may speak, by the evidence of its rule."""

from __future__ import annotations

from planner.checks.frame.finding import Severity
from planner.crops.neighbours import Rule
from planner.words import say


def severity(rule: Rule) -> Severity:
    """Severity of a finding from this rule alone: only harm known from a trial is more than a note."""
    return "mind" if rule.effect == "bad" and rule.grade == "trial" else "note"


def known_from(rule: Rule, effect: str) -> str:
    """Words for an effect with the evidence of its rule."""
    match rule.grade:
        case "trial":
            return say("{effect} (known from a trial)", effect=effect)
        case "advice":
            return say("{effect} (known from advice)", effect=effect)
        case "laboratory":
            return say("{effect} (known from the laboratory, not shown in a bed)", effect=effect)
    return say("{effect} (folklore: handed down and not tried)", effect=effect)
