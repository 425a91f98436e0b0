"""Gardens on both sides of a rule's threshold: the last day, degree or centimetre that is right, and the first that is not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from checks.faults import YEAR

from planner.checks import check_only
from planner.garden import Garden, Variety
from planner.plan import Plan

#: Severity and topic of each finding.
Found = list[tuple[str, str]]


@dataclass(frozen=True)
class Threshold:
    """Two values of a garden between which a check changes its mind."""

    name: str
    check: str
    make: Callable[[Any], Garden]
    one: Any
    found: Found
    other: Any
    found_there: Found

    def __str__(self) -> str:
        return self.name

    def assert_found(self) -> None:
        """Both gardens have just the findings that they should have of the check."""
        assert findings(self.make(self.one), self.check) == self.found
        assert findings(self.make(self.other), self.check) == self.found_there


def findings(garden: Garden, check: str) -> Found:
    """Severity and topic of what a check finds in the year."""
    return [(one.severity, one.topic) for one in check_only(Plan(garden, YEAR), [check])]


def own(crop: str, **figures: float) -> dict[str, Any]:
    """A garden's own variety of a crop, with some figures of its own."""
    given = tuple({"field": field, "value": value} for field, value in figures.items())
    return {"varieties": (Variety(id="v1", crop=crop, name="Own", figures=given),)}
