"""What is left of a planting after what came up of it and what was lost.

Records tell it by day.  A count of seedlings is what stands on that day, whatever was told before.  A share that came up holds for
all that was planned, the last that was told.  A share that was lost is of what was there on that day, so that losses multiply: half
and then a third of the rest leave a third.  What is sown or set out again later (gaps filled) brings back the plants it names,
or all of them where it names none; to set out for the first time what was raised fills no gap.  Harm that only damages is no loss.

More seed is sown than there will be plants.  Of a drill, of seed that is broadcast and of raised plants nothing is missing as
long as as many came up as there are plants; of stations a share that came up is that of the stations.
"""

from __future__ import annotations

import datetime as dt
import math
from typing import NamedTuple

from planner.garden import Planting
from planner.garden.planting_figures import PlantingFigures
from planner.garden.records import CameUpRecord, Harm, RecordBase, SeenRecord, WorkRecord
from planner.ground.place import Placed
from planner.plan.cache import fact
from planner.season.practice import sowing_of, start_of

#: Work that puts plants into the ground.
_STARTS = ("sow", "set out")


class Step(NamedTuple):
    """What is left from a day on.

    Attributes
    ----------
    day : date
    left : float
        Share of what was planned. [0 to 1]
    record : str
        Id of the record that tells it.
    harm : str or None
        What took it; None where it did not come up, or was counted or filled up.
    cause : str
        In the gardener's words; may be empty.
    """

    day: dt.date
    left: float
    record: str
    harm: Harm | None = None
    cause: str = ""


class Survival(NamedTuple):
    """What is left of a planting.

    Attributes
    ----------
    planned : int
        Plants that it was planned with.
    steps : tuple of Step
        By day; empty where nothing is told.
    """

    planned: int = 0
    steps: tuple[Step, ...] = ()

    @property
    def left(self) -> float:
        """Share of what was planned that is left in the end. [0 to 1]"""
        return self.steps[-1].left if self.steps else 1.0

    @property
    def plants(self) -> int:
        """Plants that are left in the end."""
        return round(self.planned * self.left)

    def left_on(self, day: dt.date) -> float:
        """Share of what was planned that is left on a day. [0 to 1]"""
        return next((step.left for step in reversed(self.steps) if step.day <= day), 1.0)


WHOLE = Survival()


class SurvivalInputs(NamedTuple):
    """What is left of a planting depends on these.

    Attributes
    ----------
    planting : Planting
    figures : PlantingFigures
        Those that are published.
    placed : Placed
    records : tuple of RecordBase
        Of the planting, those that tell of it.
    """

    planting: Planting
    figures: PlantingFigures
    placed: Placed
    records: tuple[RecordBase, ...]


def telling_losses(records: tuple[RecordBase, ...]) -> tuple[RecordBase, ...]:
    """The records of a planting from which follows what is left of it; empty where none was lost."""
    told = tuple(one for one in records if _tells(one))
    return told if any(not isinstance(one, WorkRecord) for one in told) else ()


def _tells(record: RecordBase) -> bool:
    if isinstance(record, CameUpRecord):
        return record.share is not None or record.count is not None
    if isinstance(record, WorkRecord):
        return record.task in _STARTS
    return isinstance(record, SeenRecord) and record.lost is not None


@fact("survival")
def survival_of_planting(inputs: SurvivalInputs) -> Survival:
    """What is left of a planting, by the records that tell of it."""
    planned = inputs.placed.plants
    if not planned:
        return WHOLE
    came_up = standing = 1.0
    raised, moved = start_of(inputs.planting, inputs.figures) == "raised", False
    steps: list[Step] = []
    for record in sorted(inputs.records, key=lambda one: one.day):
        harm: Harm | None = None
        cause = ""
        before = came_up * standing
        if isinstance(record, CameUpRecord):
            if record.count is not None and record.sown is None:
                came_up, standing = min(1.0, record.count / planned), 1.0
            elif record.emergence is not None:
                came_up = _of_plants(inputs, record)
        elif isinstance(record, SeenRecord):
            standing *= 1.0 - (record.lost or 0.0)
            harm, cause = record.harm, record.cause
        elif isinstance(record, WorkRecord):
            first, moved = (
                not moved and record.task == "set out" and raised,
                moved or record.task == "set out",
            )
            if before == 1.0 or (first and record.amount is None):
                continue  # what was raised is set out: no gap is filled
            came_up, standing = _filled(record, 0.0 if first else before, planned), 1.0
        left = came_up * standing
        if left != before:
            steps.append(Step(record.day, left, record.id, harm, cause))
    return Survival(planned, tuple(steps))


def _filled(record: WorkRecord, left: float, planned: int) -> float:
    """What is left after gaps were filled: the plants that were put in more, or all of them."""
    if record.amount is None or record.amount.unit != "plants":
        return 1.0
    return min(1.0, left + record.amount.value / planned)


def _of_plants(inputs: SurvivalInputs, record: CameUpRecord) -> float:
    """Share of the plants of a planting for which a seedling came up."""
    share, figures = record.emergence or 0.0, inputs.figures
    planned, layout = inputs.placed.plants, inputs.placed.layout
    raised = start_of(inputs.planting, figures) == "raised"
    sowing = "" if raised else sowing_of(inputs.planting, figures)
    if sowing == "drill" and layout.table is not None:
        apart = figures.number("sowing_spacing") or layout.in_row_spacing
        seeds = math.ceil(layout.row_length / apart - 1e-6) if apart else planned
        return min(1.0, seeds * share / planned)
    expected = figures.number("germination")
    if (raised or sowing == "broadcast") and expected:
        return min(1.0, share / expected)
    return share
