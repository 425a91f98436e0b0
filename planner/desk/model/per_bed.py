"""Values by bed that follow an edit: only those of the beds that it concerns are worked out again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

from planner.garden import Bed
from planner.plan import Plan
from planner.plan.changes import changed_beds

T = TypeVar("T")


class PerBed(Generic[T]):
    """A value of each bed in use.

    Parameters
    ----------
    work : callable
        Works out the value of one bed from what is in the garden about it: the bed, its plantings, site and structures.
    """

    def __init__(self, work: Callable[[Plan, Bed], T]) -> None:
        self._work = work
        self._plan: Plan | None = None
        self._values: dict[str, T] = {}

    def of(self, plan: Plan) -> dict[str, T]:
        """The values of a plan, by the ids of its beds in the document's order."""
        if plan is self._plan:
            return self._values
        changed = changed_beds(self._plan, plan) if self._plan is not None else None
        kept = self._values if changed is not None else {}
        gone = changed or ()
        self._plan, self._values = (
            plan,
            {
                bed.id: kept[bed.id] if bed.id in kept and bed.id not in gone else self._work(plan, bed)
                for bed in plan.beds
            },
        )
        return self._values
