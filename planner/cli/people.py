"""The people that a command line names."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from planner.cli.errors import UsageError
from planner.cli.suggestions import either, near_names
from planner.words import say

if TYPE_CHECKING:
    from planner.plan import Plan


def people_named(plan: Plan, names: Iterable[str]) -> set[str]:
    """Return those who tend plantings under these names, as entered in the garden.

    Parameters
    ----------
    plan : Plan
    names : iterable of str
        Capitals aside.

    Raises
    ------
    UsageError
        For the first name under which nobody tends a planting of the garden.
    """
    entered = {planting.tended_by for planting in plan.garden.plantings if planting.tended_by}
    by_plain_name: dict[str, set[str]] = {}
    for name in entered:
        by_plain_name.setdefault(name.casefold(), set()).add(name)
    found: set[str] = set()
    for name in names:
        meant = by_plain_name.get(name.strip().casefold())
        if meant is None:
            raise UsageError(
                say("nobody called '{name}' tends a planting", name=name),
                plan.garden.site.name,
                _mend(name, entered),
            )
        found |= meant
    return found


def _mend(name: str, entered: set[str]) -> str:
    close = near_names(name, sorted(entered), most=3, likeness=0.65)
    if close:
        return say("Did you mean {names}?", names=either(close))
    if entered:
        return say("Plantings are tended by {names}", names=", ".join(sorted(entered)[:10]))
    return say("Enter who tends a planting in its details")
