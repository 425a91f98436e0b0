"""Records: what really happened in the garden, each with its day and place."""

from __future__ import annotations

import datetime as dt
import re
from typing import Annotated, Literal, NamedTuple, Self, get_args

from pydantic import AfterValidator, Field, model_validator

from planner.garden.model import Id, Label, Model, Name, Notes, Point
from planner.garden.planting import CoverKind, Work, work_on
from planner.lazy import lazy_property
from planner.words import say

#: Units of a recorded amount.
AmountUnit = Literal["g", "pieces", "bunches", "seeds", "plants", "l", "m", "m2"]
#: What harm was seen.
Harm = Literal[
    "pest",
    "disease",
    "birds",
    "slugs",
    "voles",
    "frost",
    "hail",
    "wind",
    "drought",
    "something else",
]
HARMS: tuple[Harm, ...] = get_args(Harm)
#: Stages of a planting that are seen on a day.
Stage = Literal["flowering", "ripe", "first picking", "last picking"]
STAGES: tuple[Stage, ...] = get_args(Stage)
#: Where what was picked went.
PickedFor = Literal["kept", "given away", "bottled", "fed to animals"]
#: Why a planting ended.
EndedWhy = Literal["harvested", "failed", "eaten", "frozen", "resown", "bolted", "made room"]
ENDED_WHY: tuple[EndedWhy, ...] = get_args(EndedWhy)
#: Ends in which nothing that was hoped for is cut short by hand: the planting was lost.
LOST: tuple[EndedWhy, ...] = ("failed", "eaten", "frozen", "resown", "bolted")

Share = Annotated[float, Field(ge=0, le=1)]
MOST_PHOTOGRAPHS = 100

_DRIVE_OR_SCHEME = re.compile(r"^[A-Za-z][A-Za-z0-9+.\-]*:")


def relative_path(path: str) -> str:
    """A path from the garden file's folder; ValueError where it is none."""
    parts = path.split("/")
    if path.startswith("/") or "\\" in path or _DRIVE_OR_SCHEME.match(path) or "" in parts or "." in parts:
        raise ValueError(
            say(
                "a photograph's path is relative to the garden file, with / between its folders: photographs/bean.jpg"
            )
        )
    return path


class Photograph(Model):
    """A photograph kept beside the garden file; it is never copied or changed.

    ``sha256`` is of the whole file, so that one that was moved or renamed is found again.
    """

    path: Annotated[
        str,
        Field(min_length=1, max_length=1_000, pattern=r"^[^\x00-\x1f\x7f]+$"),
        AfterValidator(relative_path),
    ]
    sha256: Annotated[str, Field(pattern=r"^[0-9a-f]{64}$")]
    taken: dt.datetime | None = Field(
        default=None, description="As its camera wrote it: by the camera's clock, without a time zone."
    )

    @model_validator(mode="after")
    def _camera_time(self) -> Self:
        if self.taken is not None and self.taken.tzinfo is not None:
            raise ValueError(
                say("the time of a photograph is that of the camera's clock, without a time zone")
            )
        return self


class Amount(Model):
    """An amount with its unit; of mass grams, of volume litres, of length metres."""

    value: float = Field(gt=0, le=1e9)
    unit: AmountUnit


class RecordBase(Model):
    """What all records have.

    It is about the garden where it names neither a bed nor a planting.  ``place`` is a place in the bed's coordinates,
    of a planting one of its plants; without a bed or planting it is a place on the plan. [m]
    """

    id: Id
    kind: str
    day: dt.date
    bed: Id | None = None
    planting: Id | None = None
    place: Point | None = Field(
        default=None,
        description="In the coordinates of the bed, or on the plan where it names neither a bed nor a planting. [m]",
    )
    words: Notes = ""
    photographs: tuple[Photograph, ...] = Field(default=(), max_length=MOST_PHOTOGRAPHS)
    by: Label = Field(default="", description="Who wrote it down.")

    @model_validator(mode="after")
    def _one_place(self) -> Self:
        if self.bed is not None and self.planting is not None:
            raise ValueError(
                say("a record names a bed or a planting, not both: a planting stands in its bed")
            )
        return self

    @property
    def tells_dates(self) -> bool:
        """Whether dates of its planting follow from it, or how much of it is left."""
        return False


class WorkRecord(RecordBase):
    """Work that was done: a task of a planting, or free work that its words name."""

    kind: Literal["done"]
    task: Work | None = Field(default=None, description="The task it answers; free work where not given.")
    cover: CoverKind | None = Field(
        default=None, description="Of work on covers: on which kind; on all of the planting's if not given."
    )
    amount: Amount | None = None

    @model_validator(mode="after")
    def _a_task_or_words(self) -> Self:
        if self.task is not None and self.planting is None:
            raise ValueError(say("'{task}' is work on a planting; name the planting", task=self.task))
        if self.task is None and not self.words.strip():
            raise ValueError(say("what was done is missing: name the task, or say it in words"))
        return self

    @property
    def tells_dates(self) -> bool:
        """Whether the dates of its planting follow from it."""
        return self.task is not None


class SeenRecord(RecordBase):
    """Harm that was seen: by pests, diseases, animals or weather."""

    kind: Literal["seen"]
    harm: Harm
    share: Share | None = Field(
        default=None, description="Of the planting, the bed or the garden that is harmed."
    )
    lost: Share | None = Field(
        default=None,
        description="Of what was there of the planting on this day, that has died of it or is gone; losses multiply.",
    )
    cause: Label = Field(default="", description="What it might be, in the gardener's words.")
    response: Label = Field(default="", description="What was done about it.")
    look_again: dt.date | None = Field(default=None, description="The day on which to look again.")

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.look_again is not None and self.look_again < self.day:
            raise ValueError(
                say(
                    "the day to look again {look_again} is before the day it was seen {day}",
                    look_again=self.look_again,
                    day=self.day,
                )
            )
        return self

    @model_validator(mode="after")
    def _lost_of_a_planting(self) -> Self:
        if self.lost is not None and self.planting is None:
            raise ValueError(say("what was lost is of a planting; name the planting"))
        return self

    @property
    def tells_dates(self) -> bool:
        """Whether dates of its planting follow from it, or how much of it is left."""
        return self.lost is not None


class CameUpRecord(RecordBase):
    """Seedlings that came up: the field emergence of what was sown."""

    kind: Literal["came up"]
    share: Share | None = Field(default=None, description="Of the seeds or stations sown.")
    count: int | None = Field(default=None, ge=0, le=100_000_000, description="Seedlings counted.")
    sown: int | None = Field(
        default=None, ge=1, le=100_000_000, description="Seeds sown where they were counted."
    )
    lot: Id | None = Field(default=None, description="The packet of seed it was sown from.")

    @model_validator(mode="after")
    def _of_a_planting(self) -> Self:
        if self.planting is None:
            raise ValueError(say("what came up is of a planting; name the planting"))
        return self

    @property
    def tells_dates(self) -> bool:
        """Whether the dates of its planting follow from it."""
        return True

    @lazy_property
    def emergence(self) -> float | None:
        """Share of the seeds that came up; None where it cannot be told."""
        if self.share is not None:
            return self.share
        return min(self.count / self.sown, 1.0) if self.count is not None and self.sown is not None else None


class StageRecord(RecordBase):
    """A stage that a planting was seen to reach."""

    kind: Stage

    @model_validator(mode="after")
    def _of_a_planting(self) -> Self:
        if self.planting is None:
            raise ValueError(say("'{kind}' is of a planting; name the planting", kind=self.kind))
        return self

    @property
    def tells_dates(self) -> bool:
        """Whether the dates of its planting follow from it."""
        return True


class PickedRecord(RecordBase):
    """What was picked on a day."""

    kind: Literal["picked"]
    amount: Amount
    picked_for: PickedFor = "kept"

    @model_validator(mode="after")
    def _of_a_planting(self) -> Self:
        if self.planting is None:
            raise ValueError(say("what was picked is of a planting; name the planting"))
        if self.amount.unit not in ("g", "pieces", "bunches", "l"):
            raise ValueError(
                say("a picking is in g, l, pieces or bunches, not in {unit}", unit=self.amount.unit)
            )
        return self

    @property
    def tells_dates(self) -> bool:
        """Whether the dates of its planting follow from it."""
        return True


class EndedRecord(RecordBase):
    """The end of a planting, and why it ended."""

    kind: Literal["ended"]
    why: EndedWhy

    @model_validator(mode="after")
    def _of_a_planting(self) -> Self:
        if self.planting is None:
            raise ValueError(say("an end is of a planting; name the planting"))
        return self

    @property
    def tells_dates(self) -> bool:
        """Whether the dates of its planting follow from it."""
        return True


class MeasuredRecord(RecordBase):
    """Anything that was measured or counted."""

    kind: Literal["measured"]
    measure: Name = Field(description="What was measured: height, fruit, tasters who liked it.")
    value: float = Field(ge=-1e12, le=1e12)
    unit: Label = ""


class NoteRecord(RecordBase):
    """Words alone, or photographs alone."""

    kind: Literal["note"]

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if not self.words.strip() and not self.photographs:
            raise ValueError(say("a note needs words or a photograph"))
        return self


class LessonRecord(RecordBase):
    """What was learned, shown when its crop, family or bed is planned again; of all the garden where it names none."""

    kind: Literal["lesson"]
    crop: Label = Field(default="", description="Key of the crop it is about.")
    family: Label = Field(default="", description="Name of the botanical family it is about.")

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if not self.words.strip():
            raise ValueError(say("a lesson needs words"))
        if self.crop and self.family:
            raise ValueError(say("a lesson is pinned to a crop or to a family, not to both"))
        return self


Record = Annotated[
    WorkRecord
    | SeenRecord
    | CameUpRecord
    | StageRecord
    | PickedRecord
    | EndedRecord
    | MeasuredRecord
    | NoteRecord
    | LessonRecord,
    Field(discriminator="kind"),
]
#: The models of all kinds of records, by kind.
RECORD_MODELS: dict[str, type[RecordBase]] = {
    "done": WorkRecord,
    "seen": SeenRecord,
    "came up": CameUpRecord,
    **dict.fromkeys(STAGES, StageRecord),
    "picked": PickedRecord,
    "ended": EndedRecord,
    "measured": MeasuredRecord,
    "note": NoteRecord,
    "lesson": LessonRecord,
}


class Done(NamedTuple):
    """Work on a planting that is known to be done, with its day."""

    planting: str
    kind: Work
    date: dt.date
    cover: CoverKind | None = None

    @property
    def work(self) -> str:
        """Its kind, with the cover where it names one; as :func:`planner.garden.planting.work_on` writes it."""
        return work_on(self.kind, self.cover)


class Observed(NamedTuple):
    """A stage of a planting that was seen, with its day: ``came up`` or one of :data:`STAGES`."""

    stage: str
    date: dt.date


class Outcome(NamedTuple):
    """How a planting ended.

    Attributes
    ----------
    why : str
        One of :data:`ENDED_WHY`.
    day : date
    """

    why: EndedWhy
    day: dt.date

    @property
    def lost(self) -> bool:
        """Whether it was lost: nobody cleared it by choice."""
        return self.why in LOST


#: Pickings farther apart than this belong to the harvests of two years. [days]
_ONE_HARVEST = 183


def work_done(records: tuple[RecordBase, ...]) -> tuple[Done, ...]:
    """The work that the records of one planting tell of.

    A task that was ticked off comes before what other records say of the same work.  Picking begins with the first
    picking, else with the first amount picked, else when it is ripe; an end is clearing.

    Parameters
    ----------
    records : tuple of RecordBase
        Of one planting.
    """
    found = [
        Done(one.planting or "", one.task, one.day, one.cover)
        for one in records
        if isinstance(one, WorkRecord) and one.task is not None
    ]
    ticked = {one.kind for one in found}
    if not ticked & {"pick", "lift and cure"}:
        found += [Done(records[0].planting or "", "pick", day) for day in _first_pickings(records)]
    if "clear" not in ticked:
        ends = [one for one in records if isinstance(one, EndedRecord)]
        found += [Done(one.planting or "", "clear", one.day) for one in ends[-1:]]
    return tuple(found)


def work_ticked(records: tuple[RecordBase, ...]) -> tuple[Done, ...]:
    """The work that the records of one planting say is finished: what was ticked off, and what an end finishes.

    A first picking begins the picking, which goes on until the last one or the end.

    Parameters
    ----------
    records : tuple of RecordBase
        Of one planting.
    """
    done = work_done(records)
    over = any(isinstance(one, EndedRecord) or one.kind == "last picking" for one in records)
    ticked = {one.task for one in records if isinstance(one, WorkRecord)}
    return tuple(one for one in done if over or one.kind != "pick" or "pick" in ticked)


def _first_pickings(records: tuple[RecordBase, ...]) -> list[dt.date]:
    """The first day of each harvest, one a year of what stays for years."""
    stages = {
        name: sorted(one.day for one in records if isinstance(one, StageRecord) and one.kind == name)
        for name in ("first picking", "ripe")
    }
    amounts = sorted(one.day for one in records if isinstance(one, PickedRecord))
    days: list[dt.date] = []
    for of_kind in (stages["first picking"], amounts, stages["ripe"]):
        for day in of_kind:
            if all(abs((day - other).days) > _ONE_HARVEST for other in days):
                days.append(day)
    return sorted(days)


def stages_observed(records: tuple[RecordBase, ...]) -> tuple[Observed, ...]:
    """The stages that the records of one planting tell of, by day.

    Parameters
    ----------
    records : tuple of RecordBase
        Of one planting.
    """
    found = [Observed(one.kind, one.day) for one in records if isinstance(one, (CameUpRecord, StageRecord))]
    return tuple(sorted(found, key=lambda one: one.date))
