"""The reports of what is known of crops, and of how complete it is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, Literal

from pydantic import Field

from planner.crops import Catalogue, Crop, Figure
from planner.crops.aftercare import Care
from planner.crops.coverage import AIM, AIM_IN_PRINT, DRIVING_FIELDS, IN_PRINT, Coverage, share_of
from planner.crops.crop import ENTRY_FIELDS
from planner.crops.field_units import UNITS
from planner.crops.figures import Origin, Provenance
from planner.listings.crops import care_words
from planner.listings.reports.base import Record, Report, Share

_PROVENANCE = (
    "How it came about: printed in its source, chosen inside a printed range, derived from print as the note says, practice, "
    "estimate."
)


class ReadingRecord(Record):
    """What another publication prints."""

    value: float | None = None
    low: float | None = None
    high: float | None = None
    source: str
    citation: str
    recalled: bool = False
    note: str | None = None


class FigureRecord(Record):
    """A figure, word or list of words with its source; figures are in the unit given, always the same of a field."""

    value: float | bool | str | tuple[str, ...] | None = None
    values: tuple[float, ...] | None = Field(default=None, description="Of a figure of several numbers.")
    at: tuple[tuple[float, float], ...] | None = Field(
        default=None, description="Temperature in degrees Celsius and value, of a figure that depends on it."
    )
    none_at: tuple[float, ...] | None = Field(
        default=None, description="Temperatures in degrees Celsius at which the source found nothing."
    )
    low: float | None = None
    high: float | None = None
    unit: str
    applies: bool = True
    provenance: Provenance = Field(description=_PROVENANCE)
    source: str | None = Field(default=None, description="Key of the publication, practice or estimate.")
    citation: str
    recalled: bool = Field(default=False, description="From memory, not looked up in the source.")
    note: str | None = None
    other: tuple[ReadingRecord, ...] = ()


class CareRecord(Record):
    """A piece of work that the crop needs between its start and its end."""

    work: str = Field(description="Its kind, a word of the garden file.")
    task: str = Field(description="What is done.")
    when: str = Field(
        description="When it is due, how often, and of which plantings; months are those of the north."
    )
    provenance: Provenance = Field(description=_PROVENANCE)
    source: str = Field(description="Key of the publication, practice or estimate.")
    citation: str
    recalled: bool
    note: str | None


class ProductRecord(Record):
    """What else is harvested from a crop; figures that it does not have are the crop's own."""

    product: str
    note: str
    figures: dict[str, FigureRecord]


class ToxicRecord(Record):
    """A part of the plant that poisons or hurts."""

    part: str
    harms: tuple[str, ...] = Field(description="Whom.")
    provenance: Provenance = Field(description=_PROVENANCE)
    source: str
    citation: str
    recalled: bool
    note: str | None


class CropRecord(Record):
    """A crop with all its figures."""

    crop: str = Field(description="Its key, as in garden files.")
    crop_name: str = Field(description="In British English.")
    also: tuple[str, ...]
    american: str | None = Field(description="In American English, where it has another name there.")
    latin: str
    family: str
    life_cycle: str
    growth_form: str
    cautions: tuple[str, ...]
    figures: dict[str, FigureRecord]
    further_products: tuple[ProductRecord, ...]
    toxic: tuple[ToxicRecord, ...]
    not_known: tuple[str, ...]
    aftercare: tuple[CareRecord, ...]


class CropsReport(Report):
    """What is known of crops, every figure with its source in full."""

    report: Literal["crops"] = "crops"
    crops: tuple[CropRecord, ...]


class CountsRecord(Record):
    """Figures by where they come from."""

    printed: int
    chosen: int
    derived: int
    practice: int
    estimate: int
    missing: int
    does_not_apply: int
    printed_or_chosen_share: Share | None
    published_share: Share | None = Field(description="Printed, chosen or derived.")


class CropCoverageRecord(CountsRecord):
    """The same of a crop, and field by field."""

    provenance: dict[str, Provenance]


class CoverageReport(Report):
    """How many figures are printed, chosen, derived, practice, estimate or missing."""

    report: Literal["coverage"] = "coverage"
    crops: int
    fields: tuple[str, ...]
    driving_fields: tuple[str, ...] = Field(description="From which counts, dates and light follow.")
    aim: Share = Field(description="Of published driving figures.")
    aim_printed_or_chosen: Share = Field(description="Of driving figures that are printed or chosen.")
    total: CountsRecord
    driving: CountsRecord
    by_field: dict[str, CountsRecord]
    by_crop: dict[str, CropCoverageRecord]


def crop_record(catalogue: Catalogue, crop: Crop) -> CropRecord:
    """Everything known of a crop.

    Parameters
    ----------
    catalogue : Catalogue
        For the sources.
    crop : Crop
    """
    return CropRecord(
        crop=crop.key,
        crop_name=crop.name,
        also=crop.also,
        american=crop.american.value if crop.american else None,
        latin=crop.latin,
        family=crop.family,
        life_cycle=crop.life_cycle,
        growth_form=crop.growth_form,
        cautions=crop.cautions,
        figures={name: _figure_record(catalogue, name, entry) for name, entry in crop.entries()},
        further_products=tuple(
            ProductRecord(
                product=one.product,
                note=one.note,
                figures={name: _figure_record(catalogue, name, entry) for name, entry in one.entries()},
            )
            for one in crop.further_products
        ),
        toxic=tuple(
            ToxicRecord(
                part=one.part,
                harms=one.harms,
                provenance=one.provenance,
                source=one.source or "",
                citation=catalogue.source_line(one.source) if one.source else "",
                recalled=one.recalled,
                note=one.note,
            )
            for one in crop.toxic
        ),
        not_known=tuple(name for name in ENTRY_FIELDS if getattr(crop, name) is None),
        aftercare=tuple(_care_record(catalogue, care) for care in crop.aftercare),
    )


def _care_record(catalogue: Catalogue, care: Care) -> CareRecord:
    return CareRecord(
        work=care.kind,
        task=care.task,
        when=care_words(care),
        provenance=care.provenance,
        source=care.source or "",
        citation=catalogue.source_line(care.source) if care.source else "",
        recalled=care.recalled,
        note=care.note,
    )


def _figure_record(catalogue: Catalogue, name: str, entry: Origin) -> FigureRecord:
    fields: dict[str, Any] = entry.model_dump(exclude={"other", "basis"})
    others = entry.other if isinstance(entry, Figure) else ()
    return FigureRecord(
        **fields,
        unit=UNITS.get(name, ""),
        provenance=entry.provenance,
        citation=catalogue.source_line(entry.source) if entry.source else "",
        other=tuple(
            ReadingRecord(**other.model_dump(), citation=catalogue.source_line(other.source))
            for other in others
        ),
    )


def crops_report(catalogue: Catalogue, crops: Iterable[Crop]) -> CropsReport:
    """Report crops.

    Parameters
    ----------
    catalogue : Catalogue
        For the sources.
    crops : iterable of Crop
    """
    return CropsReport(crops=tuple(crop_record(catalogue, crop) for crop in crops))


#: Columns of a table of figures: one a line.
FIGURE_COLUMNS = (
    "crop",
    "crop_name",
    "field",
    *(name for name in FigureRecord.model_fields if name != "other"),
)
#: Columns of a table of how figures came about.
COVERAGE_COLUMNS = ("field", "crop", "provenance")


def figure_rows(catalogue: Catalogue, crops: Iterable[Crop]) -> list[dict[str, object]]:
    """Figures as rows for a table, with the columns :data:`FIGURE_COLUMNS`."""
    rows: list[dict[str, object]] = []
    for crop in crops:
        for name, entry in crop.entries():
            figure = _figure_record(catalogue, name, entry).row()
            pairs = [f"{at:g}: {value:g}" for at, value in figure["at"] or ()]
            rows.append(
                {"crop": crop.key, "crop_name": crop.name, "field": name, **figure, "at": pairs or None}
            )
    return rows


def coverage_rows(coverage: Coverage) -> list[dict[str, object]]:
    """How each figure came about as rows for a table, with the columns :data:`COVERAGE_COLUMNS`."""
    return [
        {"field": field, "crop": crop.key, "provenance": coverage.table[crop.key, field]}
        for crop in coverage.crops
        for field in coverage.fields
    ]


def coverage_report(coverage: Coverage) -> CoverageReport:
    """Report coverage: counts by field and crop, totals, and the provenance of every single figure."""
    driving = tuple(field for field in coverage.fields if field in DRIVING_FIELDS)
    return CoverageReport(
        crops=len(coverage.crops),
        fields=tuple(coverage.fields),
        driving_fields=driving,
        aim=AIM,
        aim_printed_or_chosen=AIM_IN_PRINT,
        total=CountsRecord(**_counts(coverage.counts())),
        driving=CountsRecord(**_counts(coverage.counts(driving))),
        by_field={field: CountsRecord(**_counts(coverage.counts([field]))) for field in coverage.fields},
        by_crop={
            crop.key: CropCoverageRecord(
                **_counts(coverage.counts(crops=[crop])),
                provenance={field: coverage.table[crop.key, field] for field in coverage.fields},
            )
            for crop in coverage.crops
        },
    )


def _counts(counts: Mapping[Provenance, int]) -> dict[str, Any]:
    return {
        **{word.replace(" ", "_"): number for word, number in counts.items()},
        "printed_or_chosen_share": share_of(counts, IN_PRINT),
        "published_share": share_of(counts),
    }
