"""The report of a garden's own figures."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field

from planner.listings.learned import crop_name
from planner.listings.reports.base import OfCrop, Record, Report, Share
from planner.plan import Plan
from planner.plan.own_years import OwnYears

Rounded = Annotated[float, AfterValidator(lambda value: round(value, 3) + 0.0)]


class LearnedYearRecord(Record):
    """One growing year."""

    year: int
    plantings: int
    own: Rounded = Field(description="In days, as a share, or grams of a plant or metre of row.")
    published: Rounded | None = Field(description="The same by the published figures, of the same plantings.")
    factor: Rounded | None = Field(description="Own over published; null where nothing is learned of it.")


class OwnFigureRecord(OfCrop):
    """A figure of this garden's own years; null is what is not known."""

    start: str = Field(description="How it starts, a word of the garden file.")
    figure: str = Field(description="A word of the garden file.")
    field: str = Field(description="Of the crop; empty where it has none.")
    years: tuple[LearnedYearRecord, ...]
    own: Rounded = Field(description="Mean of the years.")
    spread: Rounded | None = Field(description="Standard deviation of the years.")
    published: Rounded | None
    factor: Rounded | None = Field(description="Over the published figure, drawn towards it by the weights.")
    factor_low: Rounded | None = Field(description="Lower end of its interval of 95 %.")
    factor_high: Rounded | None = Field(description="Upper end of its interval of 95 %.")
    weight: Share | None = Field(description="Of the own years; the published figure has the rest.")
    value: Rounded | None = Field(description="The figure that follows, in the unit of the field.")
    by_plant_g: Rounded | None = Field(description="Yield of a plant. [g]")
    by_metre_g: Rounded | None = Field(description="Yield of a metre of row. [g]")
    used: bool
    choice: bool | None = Field(description="What the gardener says; null where nothing.")


class LotSeenRecord(OfCrop):
    """What came up of a packet of seed."""

    lot_id: str
    sowings: int
    came_up: Share


class LeftOutRecord(OfCrop):
    """Something that was seen and is not learned from."""

    start: str = Field(description="How it starts, a word of the garden file.")
    figure: str = Field(description="A word of the garden file; yield of what was lost.")
    year: int
    reason: str = Field(
        description="slip, pieces, not over, unweighed, wanted (it waited in the ground), lifted (at once, after it died back), not by warmth, or lost."
    )
    cause: str = Field(description="What took what was lost.")


class LearnedReport(Report):
    """What the own years of a garden tell."""

    report: Literal["learned"] = "learned"
    garden: str = Field(description="Its name.")
    learned_use: str = Field(description="When figures are used: a word of the garden file.")
    own_figures: tuple[OwnFigureRecord, ...]
    lots_seen: tuple[LotSeenRecord, ...]
    left_out: tuple[LeftOutRecord, ...] = Field(
        description="Years that are not learned from, and what was lost."
    )


def learned_report(plan: Plan) -> LearnedReport:
    """Report what the own years of a plan's garden tell."""
    lots = {lot.id: lot for lot in plan.garden.stock}
    return LearnedReport(
        garden=plan.garden.site.name,
        learned_use=plan.garden.site.learned.use,
        own_figures=tuple(_record(plan, one) for one in plan.learned.own),
        lots_seen=tuple(
            LotSeenRecord(
                crop=lots[one.lot].crop,
                crop_name=crop_name(plan, lots[one.lot].crop),
                variety=lots[one.lot].variety,
                lot_id=one.lot,
                sowings=one.sowings,
                came_up=one.share,
            )
            for one in plan.learned.lots
        ),
        left_out=tuple(
            LeftOutRecord(
                crop=group.key.crop,
                crop_name=crop_name(plan, group.key.crop),
                variety=group.name,
                start=group.key.start,
                figure=one.kind,
                year=one.year,
                reason=one.why,
                cause=one.cause,
            )
            for group in plan.learned.left_out
            for one in group.what
        ),
    )


def _record(plan: Plan, one: OwnYears) -> OwnFigureRecord:
    times = one.shrunk if one.published is not None else None
    return OwnFigureRecord(
        crop=one.key.crop,
        crop_name=crop_name(plan, one.key.crop),
        variety=one.name,
        start=one.key.start,
        figure=one.kind,
        field=one.field,
        years=tuple(
            LearnedYearRecord(
                year=year.year,
                plantings=year.plantings,
                own=year.seen,
                published=year.expected,
                factor=year.factor,
            )
            for year in one.years
        ),
        own=one.own,
        spread=one.spread,
        published=one.published,
        factor=times.value if times is not None else None,
        factor_low=times.low if times is not None else None,
        factor_high=times.high if times is not None else None,
        weight=one.shrunk.weight if one.shrunk is not None else None,
        value=one.learned.value if one.learned is not None else None,
        by_plant_g=one.by_plant,
        by_metre_g=one.by_metre,
        used=one.used,
        choice=one.chosen,
    )


LEARNED_COLUMNS = (
    "crop", "crop_name", "variety", "start", "figure", "field", "years", "own", "spread", "published", "factor", "factor_low", "factor_high",
    "weight", "value", "by_plant_g", "by_metre_g", "used", "choice",
)  # fmt: skip


def learned_rows(plan: Plan) -> list[dict[str, Any]]:
    """The same as a table: the years are their numbers."""
    return [
        {**one.table_row(), "years": [year.year for year in one.years]}
        for one in learned_report(plan).own_figures
    ]
