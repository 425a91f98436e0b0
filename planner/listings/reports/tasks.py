"""The report of the dated work of a span of days."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import Any, Literal

from pydantic import Field

from planner.listings.reports.base import GardenReport, Grams, GrowingYear, OfCrop
from planner.listings.reports.raising import FillRecord, fill_record
from planner.plan import Plan
from planner.season.tasks import Task


class TaskRecord(OfCrop):
    """A piece of work; null is what is not known or does not apply."""

    first: dt.date = Field(description="First day for it.")
    last: dt.date = Field(description="Last day for it.")
    work: str = Field(description="Its kind, a word of the garden file.")
    bed: str = Field(description="Its name.")
    bed_id: str
    planting_id: str = Field(description="Empty of work on a whole bed.")
    dressing_id: str = Field(description="Of what is spread; empty of all other work.")
    tended_by: str = Field(description="Who tends the planting; empty where nobody is named.")
    text: str
    plants: int
    seeds: int | None
    seed_g: Grams | None
    material: str
    fills: tuple[FillRecord, ...] = Field(description="Containers that are filled for it; one at most.")
    why: str = Field(description="Why on that day.")
    source: str = Field(description="Key of the publication of the figure behind it; may be empty.")
    citation: str
    origin: str = Field(description="Where the day comes from: worked out, by hand or done.")
    done: dt.date | None
    done_before: bool = Field(description="No day is known, but later work on the planting is written down.")

    def table_row(self) -> dict[str, Any]:
        """Its fields ready for a table: what is filled for it stands in columns of its own."""
        row = self.model_dump()
        del row["fills"]
        fill = self.fills[0] if self.fills else None
        return row | {name: getattr(fill, name, None) for name in _OF_FILL}


#: What a table says of the containers that are filled for a piece of work.
_OF_FILL = ("container", "per_tray", "number", "mix_l")
#: Columns of a table of work.
TASK_COLUMNS = tuple(
    column for name in TaskRecord.model_fields for column in (_OF_FILL if name == "fills" else (name,))
)


class TasksReport(GardenReport):
    """The work of a span of days, in the order of its dates."""

    report: Literal["tasks"] = "tasks"
    first: dt.date = Field(description="First day asked for.")
    last: dt.date = Field(description="Last day asked for.")
    tasks: tuple[TaskRecord, ...]


def task_record(plan: Plan, task: Task) -> TaskRecord:
    """A piece of work of a plan."""
    planting = plan.garden.plantings_by_id[task.planting] if task.planting else None
    known = task.source in plan.catalogue.sources
    return TaskRecord(
        first=task.date,
        last=task.until,
        work=task.kind,
        bed=task.bed_name,
        bed_id=task.bed,
        planting_id=task.planting,
        dressing_id=task.dressing,
        tended_by=planting.tended_by if planting is not None else "",
        crop=planting.crop if planting is not None else "",
        crop_name=task.crop if planting is not None else "",
        variety=task.variety,
        text=task.text,
        plants=task.stations,
        seeds=task.seeds,
        seed_g=task.grams,
        material=task.material,
        fills=(fill_record(task.fill),) if task.fill is not None else (),
        why=task.why,
        source=task.source,
        citation=plan.catalogue.source_line(task.source) if known else "",
        origin=task.origin,
        done=task.done,
        done_before=task.done_before,
    )


def tasks_report(plan: Plan, tasks: Iterable[Task], first: dt.date, last: dt.date) -> TasksReport:
    """Report work.

    Parameters
    ----------
    plan : Plan
    tasks : iterable of Task
    first, last : date
        The days for which it was asked.
    """
    return TasksReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        first=first,
        last=last,
        tasks=tuple(task_record(plan, task) for task in tasks),
    )
