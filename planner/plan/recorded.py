"""Records by what they are about, and the lessons that are shown when it is planned again."""

from __future__ import annotations

from typing import NamedTuple

from planner.crops import Catalogue
from planner.garden import Garden
from planner.garden.records import LessonRecord, Record, RecordBase
from planner.plan.cache import fact
from planner.plan.plan import Plan


class RecordsInputs(NamedTuple):
    """The records of a garden."""

    records: tuple[Record, ...]


def records_of_planting(plan: Plan, planting: str) -> tuple[RecordBase, ...]:
    """The records of a planting, the newest first."""
    return newest_first(plan.garden.records_of(planting))


def records_of_bed(plan: Plan, bed: str) -> tuple[RecordBase, ...]:
    """The records of a bed and of the plantings in it, of all years, the newest first."""
    found = list(plan.garden.records_of_bed_itself(bed))
    for planting in plan.garden_in_bed(bed):
        found += plan.garden.records_of(planting.id)
    return newest_first(tuple(found))


def newest_first(records: tuple[RecordBase, ...]) -> tuple[RecordBase, ...]:
    """Records by day, the newest first; of one day the one that was written down last."""
    numbered = sorted(enumerate(records), key=lambda pair: (pair[1].day, pair[0]), reverse=True)
    return tuple(record for _number, record in numbered)


@fact("lessons")
def lessons_of(inputs: RecordsInputs) -> tuple[LessonRecord, ...]:
    """The lessons among the records, the newest first."""
    found = tuple(record for record in inputs.records if isinstance(record, LessonRecord))
    return tuple(record for record in newest_first(found) if isinstance(record, LessonRecord))


def lessons_for(
    garden: Garden,
    catalogue: Catalogue,
    crop: str = "",
    bed: str = "",
    lessons: tuple[LessonRecord, ...] | None = None,
) -> tuple[LessonRecord, ...]:
    """Lessons that concern a crop in a bed: pinned to the crop, to its family or to the bed; the newest first.

    A lesson that names a bed and a crop or family concerns that crop in that bed only.  Without a crop and a bed, those of
    the garden: they name nothing.

    Parameters
    ----------
    garden : Garden
    catalogue : Catalogue
    crop : str
        Key of the crop; empty for none.
    bed : str
        Id of the bed; empty for none.
    lessons : tuple of LessonRecord, optional
        All lessons of the garden, the newest first, where they are known.
    """
    if lessons is None:
        lessons = lessons_of(RecordsInputs(garden.records))
    known = catalogue.get(crop)
    family = known.family if known is not None else ""
    return tuple(one for one in lessons if _concerns(garden, one, crop, family, bed))


def lessons_in_plan(plan: Plan, crop: str = "", bed: str = "") -> tuple[LessonRecord, ...]:
    """The same as :func:`lessons_for`, of a plan, which looks for lessons among the records once."""
    lessons = plan.cached(lessons_of, "", RecordsInputs(plan.garden.records))
    return lessons_for(plan.garden, plan.catalogue, crop, bed, lessons)


def _concerns(garden: Garden, lesson: LessonRecord, crop: str, family: str, bed: str) -> bool:
    of_crop, of_bed = lesson.crop, lesson.bed
    if lesson.planting is not None and not of_crop and not lesson.family:
        of_crop = garden.plantings_by_id[lesson.planting].crop
    if not (of_crop or lesson.family or of_bed):
        return not crop and not bed
    if not crop and not bed:
        return False
    plant_fits = not (of_crop or lesson.family) or bool(
        crop and (of_crop == crop or (lesson.family and lesson.family == family))
    )
    return plant_fits and (of_bed is None or of_bed == bed)
