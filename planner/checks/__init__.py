"""What a plan gives to think about: findings, each with its numbers, its rule and what would mend it."""

from planner.checks.frame.finding import SEVERITIES, Finding, Fix, Severity
from planner.checks.registry import (
    CHECKS,
    LIGHT,
    check_all,
    check_light,
    check_only,
    in_order,
    light_steps,
    listed,
)
from planner.checks.run import Run

__all__ = [
    "CHECKS",
    "LIGHT",
    "SEVERITIES",
    "Finding",
    "Fix",
    "Run",
    "Severity",
    "check_all",
    "check_light",
    "check_only",
    "in_order",
    "light_steps",
    "listed",
]
