"""The beds that a command line names."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from planner.cli.errors import UsageError
from planner.cli.suggestions import either, near_names
from planner.words import say

if TYPE_CHECKING:
    from planner.garden import Bed
    from planner.plan import Plan


def beds_named(plan: Plan, names: Iterable[str]) -> list[Bed]:
    """Return the beds in use of these names or ids, each once, in the garden's order.

    Parameters
    ----------
    plan : Plan
    names : iterable of str
        Names, capitals aside, or ids; of a name that several beds have all are meant.

    Raises
    ------
    UsageError
        For the first name that no bed in use has.
    """
    from planner.garden.named_beds import beds_called

    wanted: set[str] = set()
    for name in names:
        found = beds_called(plan.beds, name)
        if not found:
            raise _no_bed(plan, name)
        wanted.update(bed.id for bed in found)
    return [bed for bed in plan.beds if bed.id in wanted]


def _no_bed(plan: Plan, name: str) -> UsageError:
    from planner.garden.named_beds import beds_called

    if beds_called(plan.garden.beds, name):
        return UsageError(
            say("bed '{name}' is not in use in {year}", name=name, year=plan.year),
            fix=say("Give another --year"),
        )
    by_plain_name = {bed.name.casefold(): bed.name for bed in plan.beds}
    close = near_names(name.casefold(), by_plain_name, most=3, likeness=0.65)
    if close:
        mend = say("Did you mean {names}?", names=either([by_plain_name[plain] for plain in close]))
    else:
        some = [bed.name for bed in plan.beds[:10]]
        mend = ""
        if some:
            mend = (
                say("Beds are: {names} and more", names=", ".join(some))
                if len(plan.beds) > 10
                else say("Beds are: {names}", names=", ".join(some))
            )
    return UsageError(say("there is no bed '{name}'", name=name), plan.garden.site.name, mend)
