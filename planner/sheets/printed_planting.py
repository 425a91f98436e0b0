"""A planting as its bed's sheet prints it: everything worked out that the sheet says of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from planner.amounts import Amount, amount
from planner.amounts.bed_tasks import DoneOtherwise
from planner.garden import Planting
from planner.ground.bed_frame import BedFrame
from planner.plan import Plan
from planner.plan.drawing_groups import LabelledPlanting
from planner.season.planting_dates import Dates
from planner.season.practice import is_thinned
from planner.sheets.bed_drawing import sort_name
from planner.sheets.material_words import already_lies
from planner.sheets.sheet_year import SheetYear
from planner.sheets.steps import Step, steps
from planner.sheets.tape import Tape, tapes
from planner.sheets.tape_measure import TapeMeasure
from planner.words import say


@dataclass(frozen=True)
class PrintedPlanting:
    """One planting on a bed's sheet.

    Attributes
    ----------
    year : SheetYear
    frame : BedFrame
        Frame of its bed.
    labelled : LabelledPlanting
        The planting with its letter.
    """

    year: SheetYear
    frame: BedFrame
    labelled: LabelledPlanting

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.year.plan

    @property
    def planting(self) -> Planting:
        """The planting."""
        return self.labelled.planting

    @property
    def letter(self) -> str:
        """Letter of its plot on the sheet."""
        return self.labelled.letter

    @property
    def name(self) -> str:
        """Crop and variety."""
        return sort_name(self.plan, self.planting)

    @cached_property
    def measure(self) -> TapeMeasure:
        """The garden's way of printing lengths."""
        return TapeMeasure(self.plan.garden.site.units)

    @cached_property
    def amount(self) -> Amount:
        """Its plants, rows and seed."""
        return amount(self.plan, self.planting)

    @cached_property
    def dates(self) -> Dates:
        """Its dates."""
        return self.plan.dates(self.planting)

    @cached_property
    def tapes(self) -> tuple[Tape, ...]:
        """Its rows by their tape marks."""
        return tapes(self.frame, self.plan.placed(self.planting).layout)

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """Its work from the growing year's first day on, with the days planned for it."""
        figures = self.plan.figures_of(self.planting)
        thinned = is_thinned(self.planting, figures) or (self.amount.seeds_per_station or 1) > 1
        otherwise = DoneOtherwise(self.plan, self.planting)
        care = tuple(
            one
            for one in self.dates.aftercare
            if one.on.origin == "done" or not otherwise(one.kind, one.on.day)
        )
        found = steps(self.planting, replace(self.dates, aftercare=care), thinned, self.plan.span)
        first = self.plan.span.first
        if otherwise("support up", first):
            found = tuple(step for step in found if step.word != "support up")
        if any(
            already_lies(cover, self.planting, self.plan)
            for cover in self.year.covers.get(self.planting.id, ())
        ):
            holes = say("cut holes in the film")
            found = tuple(replace(step, shown=holes) if step.word == "film down" else step for step in found)
        if self.begun_before:
            found = tuple(step for step in found if step.word not in ("get", "inspect"))
        return tuple(step for step in found if step.at is None or step.at.day >= first)

    @property
    def begun_before(self) -> bool:
        """Whether it stands on its plot since before the growing year."""
        return self.plan.span_of(self.planting).first < self.plan.span.first
