"""A check that fails, as a finding: what it would have found is not known, and that is said."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator

from planner.checks.frame.context import CheckContext
from planner.checks.frame.finding import Candidate, Finding, key_of
from planner.checks.frame.planting_view import NOWHERE
from planner.plan import Plan
from planner.words import join_list, later, say

#: Most beds that are tried alone to find out where a check fails.
MOST_TRIED = 100
#: Most beds named.
MOST_NAMED = 5

_RULE = later("A check that fails is said to fail, so that its silence is not taken for praise")


def failed_check(
    context: CheckContext,
    name: str,
    check: Callable[[CheckContext], Iterator[Finding]],
    fault: Exception,
    locate: bool,
) -> Finding:
    """Make a finding of a fault of the program itself in a check.

    Parameters
    ----------
    context : CheckContext
        In which it failed.
    name : str
        Of the check.
    check : callable
    fault : Exception
    locate : bool
        Whether the fault is reported as any other of the program, and the beds are looked for on which it comes.
    """
    if locate:
        sys.excepthook(type(fault), fault, fault.__traceback__)
    beds = _where(context, check) if locate else ()
    names = join_list([context.plan.garden.beds_by_id[key].name for key in beds[:MOST_NAMED]])
    what = type(fault).__name__
    return Finding(
        check=name,
        severity="mind",
        key=key_of(name, beds[:1], ["failed", what]),
        plantings=(),
        beds=beds,
        place=NOWHERE,
        span=context.plan.span,
        text=say(
            "This check failed on {beds}; the others hold ({check}, {fault})",
            beds=names,
            check=name,
            fault=what,
        )
        if names
        else say("This check failed; the others hold ({check}, {fault})", check=name, fault=what),
        rule=say(_RULE),
        source="practice",
        topic="failed",
    )


def candidates_of(plan: Plan, finding: Finding) -> Iterator[Candidate]:
    """The candidates of a finding; a fault of the program itself in them ends them, and is reported as any other."""
    try:
        yield from finding.candidates(plan)
    except Exception as fault:
        sys.excepthook(type(fault), fault, fault.__traceback__)


def _where(context: CheckContext, check: Callable[[CheckContext], Iterator[Finding]]) -> tuple[str, ...]:
    """Beds on which the check fails when nothing grows in any other."""
    garden = context.plan.garden
    found = []
    for bed in context.beds[:MOST_TRIED]:
        alone = garden.with_(plantings=garden.in_bed(bed.id), records=())
        try:
            list(check(CheckContext(context.plan.what_if(alone), context.lore)))
        except Exception:
            found.append(bed.id)
    return tuple(found) if len(found) < len(context.beds) or len(found) == 1 else ()
