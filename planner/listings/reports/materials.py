"""Covers, supports and what is spread on beds, as reports."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from planner.amounts.covers import LaidCover, covers
from planner.amounts.materials import Material, Sort
from planner.amounts.sharing import most_in_use
from planner.amounts.spread import Spread, spread_totals, spreads
from planner.amounts.supports import PutUp, supports
from planner.listings.reports.base import (
    GardenReport,
    Grams,
    GrowingYear,
    OfCrop,
    Record,
    SquareMetres,
)
from planner.plan import Plan

Metres = Annotated[
    float,
    AfterValidator(lambda value: round(value, 3) + 0.0),
    Field(ge=0, description="Millimetres. [m]"),
]
Litres = Annotated[
    float,
    AfterValidator(lambda value: round(value, 1) + 0.0),
    Field(ge=0, description="Tenths. [l]"),
]
GramsPerArea = Annotated[
    float, AfterValidator(lambda value: round(value, 2) + 0.0), Field(description="[g/m2]")
]


class CoverRecord(Record):
    """A cover over one planting, or one sheet over several in line."""

    cover: str = Field(description="Its kind, a word of the garden file.")
    held: str = Field(description="On hoops, flat, on the ground (film), or it stands (cloches).")
    beds: tuple[str, ...] = Field(description="Their names.")
    bed_ids: tuple[str, ...]
    planting_ids: tuple[str, ...]
    first: dt.date = Field(description="Day on which it is laid.")
    last: dt.date = Field(description="Last day on which it lies.")
    ground_length_m: Metres = Field(description="Of the ground under it. [m]")
    ground_width_m: Metres
    height_m: Metres = Field(description="Of its hoops, or of the plants where it lies flat. [m]")
    sheet_length_m: Metres = Field(description="0 of cloches. [m]")
    sheet_width_m: Metres
    fleece_g_per_m2: GramsPerArea | None = Field(description="Weight of fleece, where given. [g/m2]")
    mesh_m: Metres | None = Field(description="Of netting, where given. [m]")
    plants_height_m: Metres | None = Field(
        description="Of the highest under it while it lies; null where a crop's is not known. [m]"
    )
    too_wide: bool = Field(description="Its ground is too wide for hoops.")
    hoops: int
    hoop_length_m: Metres = Field(description="With both feet. [m]")
    pegs: int = Field(description="Pegs or bags along its edges.")
    holes: int = Field(description="In film, for plants.")
    cloches: int
    guards: int = Field(description="One a plant; bundles of brushwood.")


class PileRecord(Record):
    """Pieces of one material and size: from the shed, lying already, or to be got."""

    material: str = Field(description="A word of the garden file's shed.")
    length_m: Metres | None = Field(description="Null of what is only counted. [m]")
    width_m: Metres | None = Field(description="Of sheets. [m]")
    fleece_g_per_m2: GramsPerArea | None
    mesh_m: Metres | None
    number: int = Field(description="In use at once.")
    cut_from_shed: int = Field(description="So many of those to be got are cut from what is in the shed.")
    cut_from_order: int = Field(description="So many of them are cut from what is ordered.")
    supply: Literal["shed", "ordered", "lying", "new"] = Field(
        description="In the shed, ordered for it, in use since before the year, or to be got."
    )
    shed_id: str = Field(description="Id of the item of the shed; else empty.")
    planting_ids: tuple[str, ...] = Field(description="That they serve, in the order of days.")


class PieceRecord(Record):
    """Pieces of one length."""

    length_m: Metres
    number: int


class PartRecord(PieceRecord):
    """Pieces that are parts of something longer."""

    whole_m: Metres = Field(description="Length of that. [m]")


class JoinedRecord(Record):
    """What is longer than one piece: it is joined of several, each overlapping the one before."""

    whole_m: Metres
    number: int
    parts_m: tuple[Metres, ...]


class CutRecord(Record):
    """Bars, poles or rolls that are cut alike."""

    length_m: Metres = Field(description="Of each. [m]")
    supply: Literal["shed", "new"] = Field(description="In the shed or ordered for it, or to be bought.")
    number: int
    width_m: Metres | None = Field(
        description="Of a piece in the shed from which a strip is cut; else null. [m]"
    )
    pieces: tuple[PieceRecord, ...] = Field(description="Cut from each.")
    parts: tuple[PartRecord, ...] = Field(
        description="Those of the pieces that are parts of something longer."
    )
    left_m: Metres = Field(description="Of each. [m]")


class CutListRecord(Record):
    """How one material is cut."""

    material: str
    width_m: Metres | None = Field(description="Of the rolls; null of bars and poles. [m]")
    fleece_g_per_m2: GramsPerArea | None
    mesh_m: Metres | None
    cuts: tuple[CutRecord, ...]
    bought_m: Metres = Field(description="Length to be bought. [m]")
    bought_least_m: Metres = Field(description="No cut list buys less. [m]")
    too_long: tuple[PieceRecord, ...] = Field(description="Pieces longer than any that is sold.")
    joined: tuple[JoinedRecord, ...] = Field(description="What is joined of several pieces.")


class CoversReport(GardenReport):
    """Covers of a growing year and what they take."""

    report: Literal["covers"] = "covers"
    covers: tuple[CoverRecord, ...]
    materials: tuple[PileRecord, ...]
    cut_lists: tuple[CutListRecord, ...]


class SupportRecord(OfCrop):
    """Pieces of one size of a planting's support."""

    bed: str = Field(description="Its name.")
    bed_id: str
    planting_id: str
    support: str = Field(description="Its kind, a word of the garden file.")
    height_m: Metres
    first: dt.date = Field(description="Day on which it is put up.")
    last: dt.date = Field(description="Last day on which it stands.")
    material: str
    number: int
    length_m: Metres | None = Field(description="Null of what is only counted; of string in all. [m]")
    width_m: Metres | None = Field(description="Of nets: their height as they hang. [m]")


class SupportsReport(GardenReport):
    """Supports of a growing year and what they take."""

    report: Literal["supports"] = "supports"
    supports: tuple[SupportRecord, ...] = Field(
        description="A record for each size of each support's pieces."
    )
    materials: tuple[PileRecord, ...]
    cut_lists: tuple[CutListRecord, ...]
    string_m: Metres = Field(description="Used up in the year. [m]")
    string_to_buy_m: Metres


class SpreadRecord(Record):
    """Something that is spread on a bed, or about a planting."""

    bed: str = Field(description="Its name.")
    bed_id: str
    planting_id: str = Field(description="Whose mulch it is; empty of a dressing of the bed.")
    crop_name: str = Field(description="Empty of a dressing of the bed.")
    material: str
    first: dt.date
    last: dt.date
    area_m2: SquareMetres = Field(description="Without what structures take. [m2]")
    depth_m: Metres | None
    rate_g_per_m2: GramsPerArea | None
    volume_l: Litres | None
    load_g: Grams | None
    source: str = Field(description="A dressing of the garden, or where the crop's mulch comes from.")


class SpreadTotalRecord(Record):
    """All that is spread of one kind."""

    material: str
    volume_l: Litres
    volume_in_shed_l: Litres = Field(description="There, or ordered. [l]")
    volume_to_buy_l: Litres
    barrows: int
    bag_l: Litres = Field(description="Size of the bags. [l]")
    bags: int = Field(description="To be bought.")
    load_g: Grams
    load_in_shed_g: Grams = Field(description="There, or ordered. [g]")
    load_to_buy_g: Grams


class GroundReport(GardenReport):
    """What is spread on beds in a growing year."""

    report: Literal["ground"] = "ground"
    spread: tuple[SpreadRecord, ...]
    totals: tuple[SpreadTotalRecord, ...]


COVER_COLUMNS = tuple(CoverRecord.model_fields)
SUPPORT_COLUMNS = tuple(SupportRecord.model_fields)
SPREAD_COLUMNS = tuple(SpreadRecord.model_fields)


def cover_rows(plan: Plan) -> list[dict[str, object]]:
    """Covers as rows for a table, with the columns :data:`COVER_COLUMNS`."""
    return [_cover(one).table_row() for one in covers(plan).laid]


def support_rows(plan: Plan) -> list[dict[str, object]]:
    """Pieces of supports as rows for a table, with the columns :data:`SUPPORT_COLUMNS`."""
    return [record.table_row() for one in supports(plan).put_up for record in _support(plan, one)]


def spread_rows(plan: Plan) -> list[dict[str, object]]:
    """What is spread as rows for a table, with the columns :data:`SPREAD_COLUMNS`."""
    return [_spread(plan, one).table_row() for one in spreads(plan)]


def covers_report(plan: Plan) -> CoversReport:
    """Report covers."""
    found = covers(plan)
    plantings = {one.key: tuple(part.planting.id for part in one.parts) for one in found.laid}
    return CoversReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        covers=tuple(map(_cover, found.laid)),
        materials=_piles(plan, found.materials, plantings),
        cut_lists=_cut_lists(found.materials),
    )


def _cover(one: LaidCover) -> CoverRecord:
    size = one.size
    return CoverRecord(
        cover=one.kind,
        held=one.held,
        beds=tuple(dict.fromkeys(part.bed.name for part in one.parts)),
        bed_ids=tuple(dict.fromkeys(part.bed.id for part in one.parts)),
        planting_ids=tuple(part.planting.id for part in one.parts),
        first=one.first,
        last=one.last,
        ground_length_m=one.length,
        ground_width_m=one.width,
        height_m=one.height,
        sheet_length_m=size.length,
        sheet_width_m=size.width,
        fleece_g_per_m2=one.sort.weight,
        mesh_m=one.sort.mesh,
        plants_height_m=one.plants if one.height_known else None,
        too_wide=one.too_wide,
        hoops=size.hoops,
        hoop_length_m=size.hoop_length,
        pegs=size.weights,
        holes=one.holes,
        cloches=one.cloches,
        guards=one.guards,
    )


def _piles(
    plan: Plan, materials: Iterable[Material], plantings: dict[str, tuple[str, ...]]
) -> tuple[PileRecord, ...]:
    ordered = {item.id for item in plan.garden.shed if item.ordered}
    found = []
    for one in materials:
        for pile in one.piles:
            sort = pile.sort if isinstance(pile.sort, Sort) else Sort()
            served = [key for use in pile.uses for key in plantings[use.job.key]]
            found.append(
                PileRecord(
                    material=one.kind,
                    length_m=pile.size[0] if pile.size else None,
                    width_m=pile.size[1] if len(pile.size) > 1 else None,
                    fleece_g_per_m2=sort.weight,
                    mesh_m=sort.mesh,
                    number=most_in_use(pile),
                    cut_from_shed=pile.cut,
                    cut_from_order=pile.cut_of_order,
                    supply="ordered" if pile.key in ordered else pile.origin,
                    shed_id=pile.key,
                    planting_ids=tuple(dict.fromkeys(served)),
                )
            )
    return tuple(found)


def _cut_lists(materials: Iterable[Material]) -> tuple[CutListRecord, ...]:
    return tuple(
        CutListRecord(
            material=one.kind,
            width_m=cutting.width or None,
            fleece_g_per_m2=cutting.sort.weight,
            mesh_m=cutting.sort.mesh,
            cuts=tuple(
                CutRecord(
                    length_m=cut.bar / 1000,
                    supply="shed" if cut.on_hand else "new",
                    number=cut.times,
                    width_m=cut.width / 1000 or None,
                    pieces=_pieces(cut.pieces),
                    parts=tuple(
                        PartRecord(length_m=length / 1000, whole_m=whole / 1000, number=number)
                        for length, whole, number in cut.of
                    ),
                    left_m=cut.rest / 1000,
                )
                for cut in cutting.cuts.cuts
            ),
            bought_m=cutting.cuts.bought / 1000,
            bought_least_m=cutting.cuts.bound / 1000,
            too_long=_pieces(cutting.cuts.too_long),
            joined=tuple(
                JoinedRecord(
                    whole_m=one.length / 1000,
                    number=one.times,
                    parts_m=tuple(part / 1000 for part in one.parts),
                )
                for one in cutting.cuts.joined
            ),
        )
        for one in materials
        for cutting in one.cuttings
    )


def _pieces(pieces: Iterable[tuple[int, int]]) -> tuple[PieceRecord, ...]:
    return tuple(PieceRecord(length_m=length / 1000, number=number) for length, number in pieces)


def supports_report(plan: Plan) -> SupportsReport:
    """Report supports."""
    found = supports(plan)
    return SupportsReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        supports=tuple(record for one in found.put_up for record in _support(plan, one)),
        materials=_piles(plan, found.materials, {one.key: (one.planting.id,) for one in found.put_up}),
        cut_lists=_cut_lists(found.materials),
        string_m=found.string,
        string_to_buy_m=found.string_to_buy,
    )


def _support(plan: Plan, one: PutUp) -> list[SupportRecord]:
    crop = plan.figures_of(one.planting).crop
    pieces: list[tuple[str, int, float, float]] = [*one.pieces]
    if one.string:
        pieces.append(("string", 1, one.string, 0.0))
    return [
        SupportRecord(
            crop=one.planting.crop,
            crop_name=crop.name if crop is not None else one.planting.crop,
            variety=one.planting.variety,
            bed=one.bed.name,
            bed_id=one.bed.id,
            planting_id=one.planting.id,
            support=one.built.kind,
            height_m=one.built.height,
            first=one.first,
            last=one.last,
            material=kind,
            number=number,
            length_m=length or None,
            width_m=width or None,
        )
        for kind, number, length, width in pieces
    ]


def ground_report(plan: Plan) -> GroundReport:
    """Report what is spread on beds."""
    parts = spreads(plan)
    return GroundReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        spread=tuple(_spread(plan, one) for one in parts),
        totals=tuple(
            SpreadTotalRecord(
                material=one.kind,
                volume_l=one.litres,
                volume_in_shed_l=one.litres_in_shed,
                volume_to_buy_l=one.litres_to_buy,
                barrows=one.barrows,
                bag_l=one.bag,
                bags=one.bags,
                load_g=one.grams,
                load_in_shed_g=one.grams_in_shed,
                load_to_buy_g=one.grams_to_buy,
            )
            for one in spread_totals(plan, parts)
        ),
    )


def _spread(plan: Plan, one: Spread) -> SpreadRecord:
    crop = plan.figures_of(one.planting).crop if one.planting is not None else None
    return SpreadRecord(
        bed=one.bed.name,
        bed_id=one.bed.id,
        planting_id=one.planting.id if one.planting is not None else "",
        crop_name=crop.name if crop is not None else one.planting.crop if one.planting is not None else "",
        material=one.kind,
        first=one.day,
        last=one.until,
        area_m2=one.area,
        depth_m=one.depth,
        rate_g_per_m2=one.rate,
        volume_l=one.litres,
        load_g=one.grams,
        source=one.source,
    )
