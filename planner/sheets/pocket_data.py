"""What the pocket page knows: the growing year's work week by week, the beds and what grows in them on each day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from typing import Any

from planner.amounts.work import work_between
from planner.crops.cautions import Caution
from planner.garden import Bed, Planting
from planner.garden.pocket_notes import LONGEST_WORDS, NOTE_ID, NOTES_FORMAT, NOTES_VERSION, garden_key
from planner.ground.bed_frame import BedFrame
from planner.listings.phrases import season
from planner.listings.weeks import Week, weeks
from planner.plan import Plan
from planner.plan.drawing_groups import LabelledPlanting
from planner.plan.walking import beds_in_walking_order
from planner.season.spans import growing_year
from planner.season.tasks import Task
from planner.sheets.bed_drawing import sort_name
from planner.sheets.cautions import bed_cautions, by_importance, work_cautions
from planner.sheets.entry_details import details
from planner.sheets.pocket_map import PocketMap
from planner.sheets.pocket_words import page_choices, page_words
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.sheet_year import SheetYear
from planner.sheets.sowing_words import depth_words, plants_words
from planner.sheets.tape_measure import TapeMeasure
from planner.sheets.week_work import PersonWork, WeekLine, WeekWork, heading_words, spacing_words, tasks_of
from planner.words import capital, say, table_words


def pocket_data(plan: Plan, made: dt.date, day: dt.date | None = None) -> dict[str, Any]:
    """Everything that the pocket page shows, ready for JSON.

    Parameters
    ----------
    plan : Plan
    made : date
        The day on which the page is made.
    day : date, optional
        The day that the page shows first; that of the phone's clock by default.
    """
    return _PocketData(plan).data(made, day)


class _PocketData:
    """Collects the data; cautions and lines of work are listed once and named by their number."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._year = SheetYear(plan)
        self._map = PocketMap(plan)
        self._measure = TapeMeasure(plan.garden.site.units)
        self._cautions: dict[str, int] = {}
        self._caution_texts: list[str] = []
        self._sources: dict[str, None] = {}
        self._lines: list[dict[str, Any]] = []
        self._line_numbers: dict[tuple[str, dt.date, str], int] = {}

    def data(self, made: dt.date, day: dt.date | None) -> dict[str, Any]:
        """Everything."""
        plan, site = self._plan, self._plan.garden.site
        beds = beds_in_walking_order(plan)
        of_weeks = self._weeks()
        of_beds = [self._bed(bed) for bed in beds]
        of_plantings = {
            planting.id: self._planting(bed, labelled.planting, labelled)
            for bed in beds
            for group in self._year.groups(bed)
            for labelled in group
            for planting in [labelled.planting]
        }
        known = {bed.id for bed in beds}
        for line in self._lines:
            if line["planting"] and line["planting"] not in of_plantings:
                of_plantings[line["planting"]] = self._planting_elsewhere(line["planting"])
        worked = {planting["bed"] for planting in of_plantings.values()}
        worked.update(of["bed"] for week in of_weeks for person in week["people"] for of in person["beds"])
        return {
            "format": NOTES_FORMAT,
            "version": NOTES_VERSION,
            "note_id": NOTE_ID.pattern,
            "longest": LONGEST_WORDS,
            "garden": {"key": garden_key(site), "name": site.name},
            "year": season(site, plan.year),
            "made": made.isoformat(),
            "first": plan.span.first.isoformat(),
            "last": plan.span.last.isoformat(),
            "day": day.isoformat() if day is not None else "",
            "at_home": [
                *(one.id for one in plan.garden.records if NOTE_ID.fullmatch(one.id)),
                *plan.garden.removed_notes,
            ],
            "words": page_words(),
            "choices": page_choices(site.units),
            "map": self._map.data(),
            "beds": of_beds,
            "other_beds": {bed.id: bed.name for bed in plan.garden.beds if bed.id in worked - known},
            "plantings": of_plantings,
            "lines": self._lines,
            "weeks": of_weeks,
            "cautions": self._caution_texts,
            "sources": list(self._sources),
        }

    # -- beds and plantings ---------------------------------------------------------------------------

    def _bed(self, bed: Bed) -> dict[str, Any]:
        cautions = by_importance(bed_cautions(self._plan, bed))
        return {
            "id": bed.id,
            "name": bed.name,
            "notes": bed.notes.strip(),
            "care": self._numbers(cautions),
            **self._map.bed(bed),
        }

    def _planting(self, bed: Bed, planting: Planting, labelled: LabelledPlanting) -> dict[str, Any]:
        plan = self._plan
        printed = PrintedPlanting(self._year, BedFrame(bed), labelled)
        span = plan.span_of(planting)
        depth = depth_words(plan.figures_of(planting), printed.amount.start, self._measure)
        facts = [
            (say("Plants"), plants_words(printed.amount)),
            (say("Depth"), depth),
            (say("Spacing"), spacing_words(plan, planting, self._measure)),
            *details(printed),
            (say("Notes"), planting.notes.strip()),
        ]
        dated = [step for step in printed.steps if step.at is not None]
        return {
            "bed": bed.id,
            "name": sort_name(plan, planting),
            "crop": planting.crop,
            "year": planting.year,
            "first": span.first.isoformat(),
            "last": span.last.isoformat(),
            "facts": [(label, capital(text)) for label, text in facts if text],
            "days": [(step.at.day.isoformat(), capital(step.words)) for step in dated if step.at is not None],
            **self._map.plot(planting.id),
        }

    def _planting_elsewhere(self, key: str) -> dict[str, Any]:
        """A planting that is on its plot in another year only, and has work in this one."""
        planting = self._plan.garden.plantings_by_id[key]
        span = self._plan.span_of(planting)
        return {
            "bed": planting.bed,
            "name": sort_name(self._plan, planting),
            "crop": planting.crop,
            "year": planting.year,
            "first": span.first.isoformat(),
            "last": span.last.isoformat(),
            "facts": [],
            "days": [],
            "path": "",
        }

    # -- work -----------------------------------------------------------------------------------------

    def _weeks(self) -> list[dict[str, Any]]:
        plan = self._plan
        first, last = plan.span.first, plan.span.last
        work = WeekWork(plan)
        found = weeks(work_between(plan, first, last), first, last, going_on_too=True)
        return [self._week(week, work.of_week(week, self._year_of(week))) for week in found]

    def _year_of(self, week: Week) -> int:
        return growing_year(self._plan.garden.site, max(week.monday, self._plan.span.first))

    def _week(self, week: Week, people: Iterable[PersonWork]) -> dict[str, Any]:
        people = tuple(
            person for person in people if any(line.task for of in person.beds for line in of.lines)
        )
        return {
            "monday": week.monday.isoformat(),
            "title": week.title,
            "people": [
                {
                    "name": heading_words(person.person) if len(people) > 1 or person.person else "",
                    "beds": list(self._beds_of(person)),
                }
                for person in people
            ],
            "care": self._numbers(work_cautions(self._plan, tasks_of(people))),
        }

    def _beds_of(self, person: PersonWork) -> Iterator[dict[str, Any]]:
        """The work of a person by beds; what is done indoors comes first, under no bed.  Moves of trays are not ticked off."""
        for of_bed in person.beds:
            lines = [
                [self._line(line, line.task), line.days] for line in of_bed.lines if line.task is not None
            ]
            if lines:
                yield {"bed": of_bed.bed_id, "lines": lines}

    def _line(self, line: WeekLine, task: Task) -> int:
        """Number of a line of work; the same one in every week in which it goes on."""
        key = (task.key, task.date, line.details)
        number = self._line_numbers.get(key)
        if number is None:
            number = self._line_numbers[key] = len(self._lines)
            self._lines.append(_line_data(line, task))
        return number

    def _numbers(self, found: Iterable[Caution]) -> list[int]:
        """Numbers of cautions."""
        numbers = []
        for caution in found:
            if caution.key not in self._cautions:
                self._cautions[caution.key] = len(self._caution_texts)
                self._caution_texts.append(table_words(caution.text))
                if caution.source in self._plan.catalogue.sources:
                    self._sources[self._plan.catalogue.source_line(caution.source)] = None
            numbers.append(self._cautions[caution.key])
        return numbers


def _line_data(line: WeekLine, task: Task) -> dict[str, Any]:
    return {
        "key": task.key,
        "task": task.kind,
        "planting": task.planting,
        "dressing": task.dressing,
        "cover": task.cover or "",
        "work": line.work,
        "details": capital(line.details),
        "told": line.told,
        "done": task.done.isoformat() if task.done is not None else "",
        "done_before": task.done_before,
        "every": task.every,
    }
