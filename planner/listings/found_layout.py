"""A proposed layout as rows that are shown, with why each is there, and what is needed to plant it: plain values for another process."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import shapely

from planner.garden import Planting
from planner.ground import plan_polygon
from planner.listings.filling import bare_summer_lines
from planner.listings.proposal import head_lines, planting_cells, rest_why_lines, unmet_why_lines, why_lines
from planner.listings.turn import crop_and_variety, wish_amount
from planner.listings.wishes_in_part import met_words
from planner.plan import Plan
from planner.proposal.bare_summer import bare_in_summer
from planner.proposal.compared_layouts import Merits, merits_of
from planner.proposal.in_part import parts_met
from planner.proposal.layouts import garden_with
from planner.proposal.open_wishes import open_wishes
from planner.proposal.propose import Proposal
from planner.proposal.reasons import Reasons
from planner.season.spans import Span
from planner.words import capital, say

_NOWHERE = shapely.Polygon()


@dataclass(frozen=True)
class LayoutRow:
    """A planting that is proposed or stays, or a wish that is not met.

    Attributes
    ----------
    wish : str
        Id of its wish.
    cells : tuple of str
        Crop, bed, from and to along it, how many, days.
    planting : Planting or None
        None of a wish that is not met, or of what lacks of one.
    stays : bool
        Whether it is there already, and no proposal moves it.
    ground : shapely.Geometry
        On the plan. [m]
    family : str
        Sets its ink.
    span : Span or None
        Days on which it takes its ground.
    why : tuple of str
        Why it is there; of what is not met it is told later, see :func:`unmet_whys`.
    in_part : bool
        Whether some of the wish is met.
    name : str
        Of the crop alone, for a drawing.
    """

    wish: str
    cells: tuple[str, ...]
    planting: Planting | None = None
    stays: bool = False
    ground: shapely.Geometry = _NOWHERE
    family: str = ""
    span: Span | None = None
    why: tuple[str, ...] = ()
    in_part: bool = False
    name: str = ""

    @property
    def is_proposed(self) -> bool:
        """Whether it can be taken over."""
        return self.planting is not None and not self.stays


@dataclass(frozen=True)
class FoundLayout:
    """A proposal as it is shown.

    Attributes
    ----------
    year : Span
        Days of the growing year.
    rows : tuple of LayoutRow
        What is not met, what is met in part, then what is proposed by bed and day, then what stays for a wish.
    standing : tuple of LayoutRow
        What is planted whatever is proposed, and meets no wish.
    beds : tuple of shapely.Geometry
        All beds of the year on the plan. [m]
    freed : tuple of str
        Ids of the plantings that were there and are free to move.
    lines : tuple of str
        How many wishes are met, how good it is.
    round : int
        Rounds of search that went before.
    judged, solver : bool
        Whether the checks were asked, and whether better layouts can be searched for.
    merits : Merits
        By which it is compared with another one (:func:`planner.listings.compared_layouts.comparison_words`).
    """

    year: Span
    rows: tuple[LayoutRow, ...]
    standing: tuple[LayoutRow, ...]
    beds: tuple[shapely.Geometry, ...]
    freed: tuple[str, ...]
    lines: tuple[str, ...]
    round: int
    judged: bool
    solver: bool
    merits: Merits

    @property
    def plantings(self) -> tuple[Planting, ...]:
        """What is proposed."""
        return tuple(one.planting for one in self.rows if one.planting is not None and not one.stays)


def found_layout(proposal: Proposal) -> FoundLayout:
    """What is shown of a proposal.

    Parameters
    ----------
    proposal : Proposal
    """
    of = proposal.of
    garden = garden_with(of, proposal.layout)
    plan = of.plan.what_if(garden)
    order = {strip.bed.id: at for at, strip in enumerate(of.strips)}
    new = sorted(
        garden.plantings[len(of.plan.garden.plantings) :],
        key=lambda one: (order.get(one.bed, 0), plan.span_of(one).first, one.id),
    )
    placements = Reasons(of, proposal.layout).placements()
    whys = {one.wish.id: tuple(why_lines(of, one)) for one in placements}
    stays: list[LayoutRow] = []
    standing: list[LayoutRow] = []
    for one in of.plan.plantings:
        meets = one.wish in of.met and one.year == plan.year
        (stays if meets else standing).append(_row(plan, one, _stays_words(one), stays=True))
    return FoundLayout(
        plan.span,
        (
            *_unmet_rows(proposal),
            *(_row(plan, one, whys.get(one.wish or "", ())) for one in new),
            *stays,
        ),
        tuple(standing),
        tuple(plan_polygon(bed.outline) for bed in plan.beds),
        tuple(one.id for one in of.freed),
        tuple(head_lines(proposal)),
        proposal.round,
        proposal.judged,
        proposal.solver,
        merits_of(proposal),
    )


def _row(plan: Plan, one: Planting, why: tuple[str, ...], *, stays: bool = False) -> LayoutRow:
    crop = plan.catalogue.get(one.crop)
    return LayoutRow(
        one.wish or "",
        planting_cells(plan, one),
        one,
        stays,
        plan.plot_on_plan(one),
        crop.family if crop is not None else "",
        plan.span_of(one),
        why,
        name=capital(plan.catalogue.name_of(one.crop)),
    )


def _stays_words(one: Planting) -> tuple[str, ...]:
    return (say("It is pinned there"),) if one.pinned else (say("It is there already and stays"),)


def _unmet_rows(proposal: Proposal) -> Iterator[LayoutRow]:
    plan = proposal.of.plan
    for wish in proposal.unmet:
        name = capital(crop_and_variety(plan, wish.crop, wish.variety))
        amount = wish_amount(wish, plan.garden.site.units)
        yield LayoutRow(wish.id, (name, "", "", amount, ""))
    for number, met in parts_met(proposal.of, proposal.layout).items():
        wish = proposal.of.wishes[number]
        name = capital(crop_and_variety(plan, wish.crop, wish.variety))
        amount = met_words(wish, met, plan.garden.site.units)
        yield LayoutRow(wish.id, (name, "", "", amount, ""), in_part=True)


def unmet_whys(proposal: Proposal) -> dict[str, tuple[str, ...]]:
    """Why each wish is not met, or in part only, and what would help, by its id; this takes longer than the rows.

    Parameters
    ----------
    proposal : Proposal
    """
    reasons = Reasons(proposal.of, proposal.layout)
    found = {wish.id: tuple(unmet_why_lines(proposal, reasons, wish)) for wish in proposal.unmet}
    for wish in proposal.in_part:
        found[wish.id] = tuple(rest_why_lines(proposal, reasons, wish))
    return found


def bare_remarks(proposal: Proposal) -> tuple[str, ...]:
    """What the layout leaves bare in summer, and what could go in; this takes longer than the rows.

    Parameters
    ----------
    proposal : Proposal
    """
    plan = proposal.of.plan.what_if(garden_with(proposal.of, proposal.layout))
    beds = [strip.bed for strip in proposal.of.strips]
    return tuple(bare_summer_lines(plan, bare_in_summer(plan, beds, open_wishes(proposal))))
