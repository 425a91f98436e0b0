"""Photographs of records by bed and day, and those of the same week in other years."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import NamedTuple

from planner.garden.records import Photograph, RecordBase
from planner.plan.cache import fact
from planner.plan.plan import Plan
from planner.plan.recorded import RecordsInputs, newest_first, records_of_bed

#: Days before and after a day that belong to the same week of another year. [days]
WEEK_AROUND = 3


class Shot(NamedTuple):
    """A photograph of a record.

    Attributes
    ----------
    record : RecordBase
    photograph : Photograph
    """

    record: RecordBase
    photograph: Photograph

    @property
    def day(self) -> dt.date:
        """The day it was taken, or that of its record where the camera does not say."""
        return self.photograph.taken.date() if self.photograph.taken is not None else self.record.day


@fact("records with photographs")
def with_photographs(inputs: RecordsInputs) -> tuple[RecordBase, ...]:
    """The records that have photographs, the newest first."""
    return newest_first(tuple(record for record in inputs.records if record.photographs))


def shots_of(plan: Plan, bed: str | None) -> tuple[Shot, ...]:
    """All photographs of a bed and of the plantings in it, by day; of the whole garden where it names no bed.

    Parameters
    ----------
    plan : Plan
    bed : str or None
        Id of the bed.
    """
    if bed is None:
        records: Iterable[RecordBase] = plan.cached(with_photographs, "", RecordsInputs(plan.garden.records))
    else:
        records = (record for record in records_of_bed(plan, bed) if record.photographs)
    shots = [Shot(record, one) for record in records for one in record.photographs]
    return tuple(sorted(shots, key=lambda shot: (shot.day, shot.photograph.path)))


def of_day(shots: Iterable[Shot], day: dt.date) -> tuple[Shot, ...]:
    """The photographs of a day."""
    return tuple(shot for shot in shots if shot.day == day)


def same_week_of_other_years(shots: Iterable[Shot], day: dt.date) -> tuple[Shot, ...]:
    """The photographs of other years at most some days from the same day of the year; the year nearest first.

    Parameters
    ----------
    shots : iterable of Shot
    day : date
    """
    found = [shot for shot in shots if _years_apart(shot.day, day) is not None]
    return tuple(
        sorted(found, key=lambda shot: (abs(_years_apart(shot.day, day) or 0), -shot.day.toordinal()))
    )


def _years_apart(one: dt.date, day: dt.date) -> int | None:
    """Years from a day to the same week of another year; None where it is of none, or of the same one."""
    for years in range(one.year - day.year - 1, one.year - day.year + 2):
        try:
            same = day.replace(year=day.year + years)
        except ValueError:  # 29 February, or no year at all
            if not dt.MINYEAR <= day.year + years <= dt.MAXYEAR:
                continue
            same = dt.date(day.year + years, 3, 1)
        if years and abs((one - same).days) <= WEEK_AROUND:
            return years
    return None
