"""The report of the turn of a growing year."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from planner.garden import Planting
from planner.listings.reports.base import GardenReport, Grams, GrowingYear, OfCrop, Record
from planner.listings.reports.tasks import TaskRecord, task_record
from planner.plan import Plan
from planner.proposal.repeat import Repeated
from planner.proposal.turn import Aged, Turn
from planner.proposal.turn_seed import LotUsed


class StandingRecord(OfCrop):
    """A planting that stands in the new year."""

    planting_id: str
    bed: str = Field(description="Its name.")
    bed_id: str


class SeedUsedRecord(OfCrop):
    """A packet of which something was sown; null is what was not counted."""

    lot_id: str
    seeds_before: int | None
    seeds_after: int | None
    seed_before_g: Grams | None
    seed_after_g: Grams | None
    seeds_sown_beyond: int = Field(description="Seeds that were sown beyond what was in stock.")


class NotConfirmedRecord(OfCrop):
    """A sowing for which there is seed, and of which nothing was taken off."""

    planting_id: str
    bed: str = Field(description="Its name.")
    bed_id: str
    seeds: int = Field(description="That it would have taken, or took.")
    no_packet: bool = Field(
        description="It was sown and names no variety, and each packet is of a planting that does; else nothing says it was begun."
    )


class AgedRecord(StandingRecord):
    """A planting that stays for years and is at the end of them."""

    planted_year: int = Field(description="Growing year in which it was planted, or found grown.")
    usual_years: int | None = Field(
        description="Years for which such plants usually bear; null where they are not over."
    )
    planned_last: dt.date | None = Field(
        description="Its planned last day; null where that is after the growing year that begins."
    )


class SeedSavedRecord(OfCrop):
    """A packet of own seed; null where it is not known how much there is."""

    lot_id: str
    planting_id: str = Field(description="The planting it was saved from.")
    seed_saved_g: Grams | None


class RepeatedRecord(OfCrop):
    """A planting that was to be repeated; null where no ground is fit for it."""

    planting_id: str = Field(description="Of the year that ended.")
    bed: str = Field(description="Where it stood.")
    bed_id: str
    repeated_id: str | None = Field(description="Id of the new planting.")
    repeated_bed: str | None = Field(description="Where it stands now.")
    moved: bool = Field(description="It stands on other ground.")
    why: str = Field(description="What was against its old ground; empty where nothing was.")
    best_place: str = Field(
        description="Where it is not repeated: the place that is best for it, and what is against that."
    )
    already_there: bool = Field(description="It was repeated before; nothing was changed.")
    accepted_against: str = Field(
        description="What is against its ground and was accepted; empty where nothing is."
    )


class WishRecord(OfCrop):
    """A wish for the new year."""

    wish_id: str
    wished: float | None = Field(description="How much; null for as much as there was of what it is like.")
    wished_unit: str
    purpose: str
    why: str


class LessonOfReport(Record):
    """A lesson of any year."""

    date: dt.date
    text: str


class TurnReport(GardenReport):
    """What the turn of a growing year found and wrote down; the growing year is the one that begins."""

    report: Literal["turn"] = "turn"
    stays: tuple[StandingRecord, ...]
    goes_over: tuple[StandingRecord, ...]
    not_ticked_off: tuple[TaskRecord, ...]
    at_end_of_years: tuple[AgedRecord, ...]
    seed_used: tuple[SeedUsedRecord, ...]
    seed_not_confirmed: tuple[NotConfirmedRecord, ...]
    seed_saved: tuple[SeedSavedRecord, ...]
    repeated: tuple[RepeatedRecord, ...]
    wishes: tuple[WishRecord, ...]
    lessons: tuple[LessonOfReport, ...]


def turn_report(before: Plan, plan: Plan, turn: Turn) -> TurnReport:
    """Report a turn.

    Parameters
    ----------
    before, plan : Plan
        Of the growing year that ends and of the one that begins.
    turn : Turn
    """
    return TurnReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        stays=tuple(_standing(plan, one) for one in turn.staying),
        goes_over=tuple(_standing(plan, one) for one in turn.going_over),
        not_ticked_off=tuple(task_record(before, one) for one in turn.unfinished),
        at_end_of_years=tuple(_aged(plan, one) for one in turn.aged),
        seed_used=tuple(_used(plan, one) for one in turn.used),
        seed_not_confirmed=tuple(
            NotConfirmedRecord(
                **_standing(plan, one.planting).model_dump(), seeds=one.seeds, no_packet=one.no_packet
            )
            for one in turn.not_confirmed
        ),
        seed_saved=tuple(
            SeedSavedRecord(
                **_crop(plan, one.crop, one.variety),
                lot_id=one.id,
                planting_id=one.saved_from or "",
                seed_saved_g=one.grams,
            )
            for one in turn.saved
        ),
        repeated=tuple(_repeated(plan, one) for one in turn.repeated),
        wishes=tuple(
            WishRecord(
                **_crop(plan, one.crop, one.variety),
                wish_id=one.id,
                wished=one.amount,
                wished_unit=one.unit,
                purpose=one.purpose,
                why=one.reason,
            )
            for one in turn.wishes
        ),
        lessons=tuple(LessonOfReport(date=one.day, text=one.words) for one in turn.lessons),
    )


def _crop(plan: Plan, crop: str, variety: str) -> dict[str, str]:
    return {"crop": crop, "crop_name": plan.catalogue.name_of(crop), "variety": variety}


def _standing(plan: Plan, one: Planting) -> StandingRecord:
    return StandingRecord(
        **_crop(plan, one.crop, one.variety),
        planting_id=one.id,
        bed=plan.garden.beds_by_id[one.bed].name,
        bed_id=one.bed,
    )


def _used(plan: Plan, used: LotUsed) -> SeedUsedRecord:
    return SeedUsedRecord(
        **_crop(plan, used.before.crop, used.before.variety),
        lot_id=used.before.id,
        seeds_before=used.before.seeds,
        seeds_after=used.after.seeds,
        seed_before_g=used.before.grams,
        seed_after_g=used.after.grams,
        seeds_sown_beyond=used.over,
    )


def _aged(plan: Plan, aged: Aged) -> AgedRecord:
    return AgedRecord(
        **_standing(plan, aged.planting).model_dump(),
        planted_year=aged.since,
        usual_years=aged.bears,
        planned_last=aged.last,
    )


def _repeated(plan: Plan, one: Repeated) -> RepeatedRecord:
    beds, new = plan.garden.beds_by_id, one.new
    return RepeatedRecord(
        **_crop(plan, one.old.crop, one.old.variety),
        planting_id=one.old.id,
        bed=beds[one.old.bed].name,
        bed_id=one.old.bed,
        repeated_id=new.id if new is not None else None,
        repeated_bed=beds[new.bed].name if new is not None else None,
        moved=one.moved,
        why=one.why,
        best_place=one.best,
        already_there=one.already,
        accepted_against=one.accepted,
    )
