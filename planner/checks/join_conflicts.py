"""Conflicts: what two joined gardens say in different ways, until one of the two is taken."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from planner.checks.frame.context import CheckContext
from planner.checks.frame.finding import Finding, Fix, key_of
from planner.checks.frame.planting_view import NOWHERE
from planner.garden import Bed, Conflict, Garden, Planting
from planner.garden import edits as e
from planner.garden.conflict_words import conflict_words
from planner.garden.edits.conflicts import thing_of
from planner.plan import Plan
from planner.words import capital, later, say

CHECK = "join"

_RULE = later("What two people changed in different ways is settled by one of them")


def check(context: CheckContext) -> Iterator[Finding]:
    """Report what differs between two gardens that were joined, and has not been settled."""
    garden = context.plan.garden
    ids = set(garden.ids()) if garden.conflicts else set()
    for conflict in garden.conflicts:
        thing = thing_of(garden, conflict)
        if thing is None or _is_settled(garden, conflict):
            continue
        planting = thing if isinstance(thing, Planting) else None
        bed = planting.bed if planting is not None else conflict.key if conflict.part == "beds" else ""
        beds = (bed,) if bed else ()
        words = conflict_words(garden, conflict, context.plan.catalogue.name_of)
        yield Finding(
            check=CHECK,
            severity="mind",
            key=key_of(CHECK, [conflict.key] if conflict.key in ids else [], [conflict.other]),
            plantings=(planting.id,) if planting is not None else (),
            beds=beds,
            structures=(conflict.key,) if conflict.part == "structures" else (),
            place=context.outline(garden.beds_by_id[bed]) if bed else NOWHERE,
            span=context.plan.span,
            text=words if isinstance(thing, Bed) else capital(words),
            rule=say(_RULE),
            source="practice",
            topic=conflict.part,
            candidates=partial(_settle, conflict=conflict),
        )


def _is_settled(garden: Garden, conflict: Conflict) -> bool:
    """Whether the garden has been given the other version's values by hand."""
    thing = thing_of(garden, conflict)
    here = thing.model_dump(mode="json") if thing is not None else {}
    return not conflict.removed and all(here.get(field) == value for field, value in conflict.values.items())


def _settle(plan: Plan, conflict: Conflict) -> Iterator[Fix]:
    yield Fix(
        say("Keep it as it is here"),
        say("it is settled"),
        lambda garden: e.settle(garden, conflict, take_other=False),
    )
    yield Fix(
        say("Remove it, as in the other garden")
        if conflict.removed
        else say("Take it from the other garden"),
        say("it is settled"),
        lambda garden: e.settle(garden, conflict, take_other=True),
    )
