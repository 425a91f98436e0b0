"""A layout of a puzzle as plantings of the garden."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from planner.garden import Garden, Planting
from planner.garden.edits.common import EditError, fresh_id, put
from planner.plan import Plan
from planner.proposal.offers import GardenPuzzle
from planner.proposal.puzzle import Choice, Layout
from planner.proposal.waived_rotation import waived_grounds, with_waivers
from planner.words import capital, say

#: Plots that share less ground than this lie side by side. [m2]
SHARED = 1e-4


def plantings_of(of: GardenPuzzle, layout: Iterable[Choice]) -> tuple[Planting, ...]:
    """The plantings of some choices; each has as its id that of its wish and the number of its option.

    Parameters
    ----------
    of : GardenPuzzle
    layout : iterable of Choice
    """
    found = []
    for choice in layout:
        offer = of.offers[choice.option]
        length = of.puzzle.options[choice.option].length
        plot = offer.way.draft.plot if offer.as_it_was else offer.strip.plot(choice.start, length)
        found.append(
            offer.way.draft.with_(id=f"{offer.wish.id}-{choice.option}", bed=offer.strip.bed.id, plot=plot)
        )
    return tuple(found)


def garden_with(of: GardenPuzzle, layout: Layout) -> Garden:
    """The garden with all that stays, and with the plantings of a layout; where a wish was met before its
    plantings keep their ids.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    garden = of.plan.garden
    old: dict[str | None, list[str]] = {}
    for one in of.freed:
        old.setdefault(one.wish, []).append(one.id)
    number = int(fresh_id(put(garden, plantings=(*garden.plantings, *of.freed)), "p")[1:])
    new = []
    for one in plantings_of(of, layout):
        known = old.get(one.wish)
        if known:
            key = known.pop(0)
        else:
            key, number = f"p{number}", number + 1
        new.append(one.with_(id=key))
    return put(garden, plantings=(*garden.plantings, *new))


def planted(of: GardenPuzzle, layout: Layout) -> Garden:
    """The garden with a layout, as it is written: rotation is waived of what stands where it was waived before.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    garden = garden_with(of, layout)
    new = [one.id for one in garden.plantings[len(of.plan.garden.plantings) :]]
    return with_waivers(of.plan.what_if(garden), new, of.waived) if of.waived else garden


def accepted(
    plan: Plan,
    proposed: Iterable[Planting],
    freed: Collection[str],
    wishes: Collection[str] | None = None,
    *,
    pinned: bool = False,
) -> Garden:
    """The garden with the plantings of a layout, or with those of some wishes only; those of all others stay as they were.

    Parameters
    ----------
    plan : Plan
        Of the garden and year for which the layout is proposed.
    proposed : iterable of Planting
    freed : collection of str
        Ids of the plantings that were free to move.
    wishes : collection of str, optional
        Ids of the wishes whose plantings are wanted; all by default.
    pinned : bool
        Whether a later proposal leaves them where they are.

    Raises
    ------
    EditError
        Where one of them would stand on what stays as it was.
    """
    new = [one for one in proposed if wishes is None or one.wish in wishes]
    if pinned:
        new = [one.with_(pinned=True) for one in new]
    gone = {
        one.id for one in plan.garden.plantings if one.id in freed and (wishes is None or one.wish in wishes)
    }
    kept = [one for one in plan.garden.plantings if one.id not in gone]
    back = [one for one in kept if one.id in freed]
    ids = {one.id for one in kept}
    number = max([int(fresh_id(plan.garden, "p")[1:]), *(int(one.id[1:]) + 1 for one in new)])
    for place, one in enumerate(new):
        if one.id in ids:  # something of another layout was planted meanwhile
            new[place], number = one.with_(id=f"p{number}"), number + 1
    garden = put(plan.garden, plantings=(*kept, *new))
    there = plan.what_if(garden)
    for one in new:
        for other in back:
            if one.bed == other.bed and _share_ground(there, one, other):
                raise EditError(
                    say(
                        "{crop} would stand in {bed} on the ground of {other}, which stays",
                        crop=capital(plan.catalogue.name_of(one.crop)),
                        bed=plan.bed_of(one).name,
                        other=plan.catalogue.name_of(other.crop),
                    ),
                    fix=say("Tick both, or neither"),
                )
    if any(one.finding.startswith("rotation/") for one in garden.waived):
        return with_waivers(there, [one.id for one in new], waived_grounds(plan))
    return garden


def _share_ground(plan: Plan, one: Planting, other: Planting) -> bool:
    if not plan.span_of(one).meets(plan.span_of(other)):
        return False
    shared = plan.plot_on_plan(one).intersection(plan.plot_on_plan(other))
    return bool(shared.area > SHARED)
