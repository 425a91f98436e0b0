"""The report of a proposed layout."""

from __future__ import annotations

import datetime as dt
from typing import Any

from pydantic import Field

from planner.garden import Planting
from planner.garden.wishes import Wish
from planner.listings.filling import bare_lines_of_year
from planner.listings.proposal import rest_why_lines, unmet_why_lines, why_lines
from planner.listings.reports.base import GardenReport, GrowingYear, OfCrop, Record
from planner.plan import Plan
from planner.proposal.in_part import parts_met
from planner.proposal.open_wishes import open_wishes
from planner.proposal.propose import Proposal
from planner.proposal.reasons import Placement, Reasons


class OtherBedsRecord(Record):
    """Other beds that are kept from a wish by one thing."""

    what: str = Field(
        description="rotation, light, depth, stands, built, short, full, objected, apart or dearer."
    )
    number: int = Field(description="Of beds.")


class PlacedRecord(OfCrop):
    """A planting that is proposed."""

    wish_id: str
    planting_id: str = Field(description="As it is in the garden that is written.")
    bed: str = Field(description="Its name.")
    bed_id: str
    start_m: float | None = Field(description="Along the bed; null over the whole bed. [m]")
    end_m: float | None
    plants: int
    first: dt.date = Field(description="First day on its ground.")
    last: dt.date
    other_beds: tuple[OtherBedsRecord, ...] = Field(description="Empty where no reasons are asked for.")
    next_best_bed: str | None
    next_best_points: int | None = Field(description="What it would cost more there.")
    why: tuple[str, ...]


class UnmetRecord(OfCrop):
    """A wish that is not met."""

    wish_id: str
    importance: str
    why: tuple[str, ...]


class InPartRecord(UnmetRecord):
    """A wish that is met in part."""

    share: float = Field(description="Of it that is met.")


class ProposalReport(GardenReport):
    """A proposed layout."""

    report: str = "propose"
    wishes_total: int
    wishes_met_before: int = Field(description="Wishes that are met by what stays.")
    cost: int = Field(description="In points: the less the better.")
    bound: int | None = Field(description="No layout costs less; null where nothing is proven.")
    rounds: int = Field(description="Of search.")
    judged: bool = Field(description="The checks were asked, and have nothing grave against it.")
    placed: tuple[PlacedRecord, ...]
    in_part: tuple[InPartRecord, ...] = Field(
        description="Wishes of which there is room for less than is wished."
    )
    unmet: tuple[UnmetRecord, ...]
    bare: tuple[str, ...] = Field(
        description="What lies bare in summer and in winter, and what could go in; empty where no reasons are asked for."
    )


def proposal_report(proposal: Proposal, reasons: Reasons | None = None) -> ProposalReport:
    """Make the report.

    Parameters
    ----------
    proposal : Proposal
    reasons : Reasons, optional
    """
    of, garden = proposal.of, proposal.garden
    plan = of.plan.what_if(garden)
    placements = {one.wish.id: one for one in reasons.placements()} if reasons is not None else {}
    new = garden.plantings[len(of.plan.garden.plantings) :]
    return ProposalReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        wishes_total=len(of.wishes) + len(of.met),
        wishes_met_before=len(of.met),
        cost=proposal.cost,
        bound=proposal.bound,
        rounds=proposal.round,
        judged=proposal.judged,
        placed=tuple(_placed(plan, proposal, one, placements.get(one.wish or "")) for one in new),
        in_part=tuple(
            InPartRecord(
                **_whose(plan, of.wishes[number]),
                share=round(met.share, 4),
                why=tuple(rest_why_lines(proposal, reasons, of.wishes[number])),
            )
            for number, met in parts_met(of, proposal.layout).items()
        ),
        unmet=tuple(_unmet(plan, proposal, reasons, one) for one in proposal.unmet),
        bare=tuple(bare_lines_of_year(plan, [strip.bed for strip in of.strips], open_wishes(proposal)))
        if reasons is not None
        else (),
    )


def _placed(plan: Plan, proposal: Proposal, one: Planting, why: Placement | None) -> PlacedRecord:
    bed, span, plot = plan.bed_of(one), plan.span_of(one), one.plot
    best = why.next_best if why is not None else None
    return PlacedRecord(
        crop=one.crop,
        crop_name=plan.catalogue.name_of(one.crop),
        variety=one.variety,
        wish_id=one.wish or "",
        planting_id=one.id,
        bed=bed.name,
        bed_id=bed.id,
        start_m=round(plot.start, 4) if plot.kind == "stretch" else None,
        end_m=round(plot.end, 4) if plot.kind == "stretch" else None,
        plants=plan.placed(one).plants,
        first=span.first,
        last=span.last,
        other_beds=tuple(
            OtherBedsRecord(what=what, number=count)
            for what, count in sorted(why.counts().items() if why is not None else ())
        ),
        next_best_bed=proposal.of.strips[best.bed].bed.name if best is not None else None,
        next_best_points=best.dearer if best is not None else None,
        why=tuple(why_lines(proposal.of, why)) if why is not None else (),
    )


def _unmet(plan: Plan, proposal: Proposal, reasons: Reasons | None, wish: Wish) -> UnmetRecord:
    return UnmetRecord(**_whose(plan, wish), why=tuple(unmet_why_lines(proposal, reasons, wish)))


def _whose(plan: Plan, wish: Wish) -> dict[str, Any]:
    return {
        "crop": wish.crop,
        "crop_name": plan.catalogue.name_of(wish.crop),
        "variety": wish.variety,
        "wish_id": wish.id,
        "importance": wish.importance,
    }
