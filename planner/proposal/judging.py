"""A layout as the ordinary checks see it: what they say against it shuts choices, until they have nothing to say."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from planner.checks import depth, light, overlap, perennial_ground, purity, rotation
from planner.checks.frame.finding import Finding
from planner.checks.registry import check_all
from planner.garden import Garden
from planner.plan import Plan
from planner.proposal.layouts import garden_with, plantings_of
from planner.proposal.offers import GardenPuzzle, all_but
from planner.proposal.puzzle import Choice, Layout, Never
from planner.proposal.waived_rotation import waived_for
from planner.proposal.ways import STANDING_SUPPORTS, shortest

#: Checks whose findings shut a choice although they are not grave.
_SHUTS = {
    overlap.CHECK: ("stop", "mind"),
    perennial_ground.CHECK: ("stop", "mind"),
    depth.CHECK: ("stop", "mind"),
    purity.CHECK: ("stop", "mind"),
    light.CHECK: ("stop", "mind"),
    rotation.CHECK: ("stop", "mind", "note"),
}
#: So many plantings that a finding names are shut as a whole; of more the first alone is.
MOST_TOGETHER = 3


@dataclass(frozen=True)
class Objection:
    """What a check says against a layout.

    Attributes
    ----------
    finding : Finding
    choices : tuple of Choice
        Those that it is about.
    """

    finding: Finding
    choices: tuple[Choice, ...]


#: What a finding is about, whatever its numbers are.
Case = tuple[str, str, str, tuple[str, ...]]


def cases_of(plan: Plan) -> frozenset[Case]:
    """What the ordinary checks say of a garden, for :func:`objections` to leave out.

    Parameters
    ----------
    plan : Plan
    """
    return frozenset(_case(one) for one in check_all(plan))


def objections(of: GardenPuzzle, layout: Layout, before: frozenset[Case]) -> tuple[Objection, ...]:
    """What the ordinary checks say against a layout that they do not say without it.

    All that is grave, any rotation that a wish does not allow, and what is against ground: on one another, on perennials, too
    dark, too shallow, seed that crosses.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    before : frozenset
        What they say without it (:func:`cases_of`).
    """
    garden = garden_with(of, layout)
    new = garden.plantings[len(of.plan.garden.plantings) :]
    choice_of = {one.id: choice for one, choice in zip(new, layout, strict=True)}
    found = []
    for finding in check_all(of.plan.after(garden)):
        mine = tuple(choice_of[key] for key in finding.plantings if key in choice_of)
        if (
            mine
            and _shuts(of, finding, mine)
            and not _is_waived(of, finding, garden)
            and _case(finding) not in before
        ):
            found.append(Objection(finding, mine))
    return tuple(found)


def _case(finding: Finding) -> Case:
    return finding.check, finding.severity, finding.topic, finding.plantings


def _shuts(of: GardenPuzzle, finding: Finding, mine: Sequence[Choice]) -> bool:
    if finding.check == rotation.CHECK:
        return (
            of.offers[mine[0].option].wish.back_after is None
        )  # else its ground is shut for so long already
    return finding.severity == "stop" or finding.severity in _SHUTS.get(finding.check, ())


def _is_waived(of: GardenPuzzle, finding: Finding, garden: Garden) -> bool:
    """Whether the gardener waived the rotation of this crop on this ground before."""
    if finding.check != rotation.CHECK or not of.waived:
        return False
    return waived_for(of.plan, garden.plantings_by_id[finding.plantings[0]], of.waived) is not None


def shut_by(of: GardenPuzzle, against: Iterable[Objection]) -> tuple[Never, ...]:
    """Choices that may not be made, or not together, after what the checks said.

    Parameters
    ----------
    of : GardenPuzzle
    against : iterable of Objection
    """
    found: dict[Never, None] = {}
    for one in against:
        options = [of.puzzle.options[choice.option] for choice in one.choices]
        if len(options) > MOST_TOGETHER:
            options = options[:1]
        found[frozenset((option.wish, option.bed, option.way) for option in options)] = None
    return tuple(found)


def with_nevers(of: GardenPuzzle, nevers: Iterable[Never]) -> GardenPuzzle:
    """The puzzle with more choices that may not be made.

    Parameters
    ----------
    of : GardenPuzzle
    nevers : iterable of frozenset
    """
    known = tuple(dict.fromkeys((*of.puzzle.nevers, *nevers)))
    return replace(of, puzzle=of.puzzle._replace(nevers=known))


def with_real_lengths(of: GardenPuzzle, layout: Layout) -> GardenPuzzle:
    """The puzzle with the lengths that plantings of uneven beds really take where they lie in a layout.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    options = list(of.puzzle.options)
    changed = False
    for choice, planting in zip(layout, plantings_of(of, layout), strict=True):
        option, offer = options[choice.option], of.offers[choice.option]
        support = offer.way.draft.support
        if offer.strip.even or offer.as_it_was or (support is not None and support.kind in STANDING_SUPPORTS):
            continue
        length = shortest(of.plan, planting, offer.strip, offer.part, choice.start)
        if length == option.length:
            continue
        fixed = [one for one in option.shut if one.rule]
        whole = offer.strip.length
        keeps = all_but(whole, choice.start, length or 0)
        options[choice.option] = option._replace(length=length or option.length, shut=(*fixed, *keeps))
        changed = True
    return replace(of, puzzle=of.puzzle._replace(options=tuple(options))) if changed else of
