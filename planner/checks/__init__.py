"""What a plan gives to think about: findings, each with its numbers, its rule and what would mend it."""

from planner.checks.finding import SEVERITIES, Finding, Mend, Severity
from planner.checks.registry import CHECKS, check_all, check_only

__all__ = ["CHECKS", "SEVERITIES", "Finding", "Mend", "Severity", "check_all", "check_only"]
