"""What a garden learned from its records, kept from one edit to the next.

Times and yields of each planting are held against its published figures (:mod:`planner.plan.observations`); of all of them
follow the own figures of the garden (:mod:`planner.plan.own_years`).  The next plan takes over what was seen of plantings that
are the same, so an edit looks at those that it changed.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any, NamedTuple, Protocol, TypeVar

from planner.crops import Catalogue
from planner.garden import Bed, Garden, Planting, RecordBase
from planner.garden.learned import LearnedFigures, Learning
from planner.garden.planting_figures import PlantingFigures, figures_of
from planner.garden.records import (
    CameUpRecord,
    EndedRecord,
    PickedRecord,
    SeenRecord,
    StageRecord,
    WorkRecord,
)
from planner.ground.place import Placed
from planner.plan.cache import Fact, Subject, fact, unchanged
from planner.plan.differing import differing
from planner.plan.observations import Seen, SeenInputs, may_be_weighed, seen_of_planting
from planner.plan.own_years import (
    NOTHING,
    GroupKey,
    Learned,
    LearnedInputs,
    group_key,
    learned_of_garden,
)
from planner.season.date_inputs import DateInputs
from planner.season.frosts import Frosts
from planner.season.practice import stays_for_years
from planner.season.work_out_dates import work_out

I = TypeVar("I", bound=tuple[Any, ...])  # noqa: E741  # inputs
T = TypeVar("T")

#: Growing years that are looked back from the latest planting with a record: seed, soil and gardener change. [years]
MOST_YEARS = 12


class RecordedPlan(Protocol):
    """What of a plan is asked here (a :class:`planner.plan.plan.Plan`)."""

    @property
    def garden(self) -> Garden:
        """The garden."""

    @property
    def catalogue(self) -> Catalogue:
        """With the garden's own crops."""

    def cached(self, kind: Fact[I, T], subject: Subject, inputs: I) -> T:
        """The fact that follows from some inputs."""

    def frosts(self, year: int | None = None) -> Frosts:
        """Frost dates of a growing year."""

    def shelter_in(self, bed: Bed, year: int) -> tuple[str, ...]:
        """Kinds of shelter of a bed in a growing year."""

    def placed_as_published(self, planting: Planting, figures: PlantingFigures) -> Placed:
        """Plot, rows and stations that a planting has in its own growing year."""


class RecordsInputs(NamedTuple):
    """All records of a garden."""

    records: tuple[RecordBase, ...]
    year_begins: int


class Recorded(NamedTuple):
    """Records by planting, each with its growing year, and the last growing year and day of which there is one."""

    by_planting: tuple[tuple[str, tuple[RecordBase, ...], tuple[int, ...]], ...]
    latest: int
    last_day: dt.date


#: What was not picked for so long after its planned end, while other things were written down, is over (practice). [days]
WRITTEN_ON = 28
_TELLING = (WorkRecord, CameUpRecord, StageRecord, PickedRecord, EndedRecord, SeenRecord)


@fact("records by planting")
def records_by_planting(inputs: RecordsInputs) -> Recorded:
    """The records of each planting that tell something of its crop."""
    found: dict[str, tuple[list[RecordBase], list[int]]] = {}
    latest, last_day = 0, dt.date.min
    for one in inputs.records:
        year = one.day.year - (one.day.month < inputs.year_begins)
        latest, last_day = max(latest, year), max(last_day, one.day)
        if one.planting is not None and isinstance(one, _TELLING):
            records, years = found.setdefault(one.planting, ([], []))
            records.append(one)
            years.append(year)
    return Recorded(tuple((key, tuple(a), tuple(b)) for key, (a, b) in found.items()), latest, last_day)


class _Entry(NamedTuple):
    """What was seen of a planting, and from what."""

    planting: Planting
    bed: Bed
    records: tuple[RecordBase, ...]
    over_before: tuple[int, bool]
    figures: PlantingFigures
    seen: Seen
    planned_end: dt.date | None

    def holds(
        self, planting: Planting, bed: Bed, records: tuple[RecordBase, ...], recorded: Recorded
    ) -> bool:
        """Whether the same would be seen again."""
        return (
            self.planting is planting
            and self.bed is bed
            and (self.records is records or unchanged(self.records, records))
            and self.over_before == _over_before(self.figures, planting, recorded, self.planned_end)
        )


class Book:
    """What a garden learned, with what it rests on: the next plan takes over what is the same."""

    __slots__ = ("_entries", "_garden", "_rests_on", "by_key", "learned", "learning")

    def __init__(
        self,
        learned: Learned,
        entries: Mapping[str, _Entry],
        rests_on: tuple[object, ...] | None,
        learning: Learning | None,
        garden: Garden | None = None,
    ) -> None:
        self.learned, self.learning = learned, learning
        self._entries, self._garden = entries, garden
        self._rests_on = rests_on
        self.by_key: Mapping[GroupKey, LearnedFigures] = dict(learned.used)

    def of(self, planting: Planting, figures: PlantingFigures) -> LearnedFigures | None:
        """What a planting uses, by its published figures; None where that is nothing."""
        return self.by_key.get(group_key(planting, figures)) if self.by_key else None

    def entries_for(self, rests_on: tuple[object, ...]) -> Mapping[str, _Entry]:
        """What was seen, where all that it shares is still the same."""
        return self._entries if unchanged(self._rests_on, rests_on) else {}

    def still_holds(self, garden: Garden, rests_on: tuple[object, ...]) -> bool:
        """Whether nothing that it rests on differs in an edited garden; of one of many records this is asked at each edit."""
        old = self._garden
        if old is None or old.records is not garden.records or self.learning != garden.site.learned:
            return False
        if not unchanged(self._rests_on, rests_on):
            return False
        if self._entries.keys() & differing(old.plantings, garden.plantings).keys():
            return False
        beds = differing(old.beds, garden.beds)
        return not beds or not any(one.planting.bed in beds for one in self._entries.values())


EMPTY = Book(NOTHING, {}, None, None)


def learn(plan: RecordedPlan, before: Book) -> Book:
    """What the records of a plan's garden tell.

    Parameters
    ----------
    plan : RecordedPlan
    before : Book
        Of the plan before; :data:`EMPTY` where there is none.
    """
    garden = plan.garden
    if not garden.records:
        return EMPTY
    site = garden.site
    rests_on = (
        (site.latitude, site.year_begins, site.bearing_up),
        garden.climate,
        garden.varieties,
        garden.structures,
        plan.catalogue,
    )
    if before.still_holds(garden, rests_on):
        return before
    inputs = RecordsInputs(garden.records, site.year_begins)
    recorded = plan.cached(records_by_planting, "", inputs)
    known, same = before.entries_for(rests_on), True
    entries: dict[str, _Entry] = {}
    oldest = (
        max((garden.plantings_by_id[key].year for key, _, _ in recorded.by_planting), default=0) - MOST_YEARS
    )
    for key, records, years in recorded.by_planting:
        planting = garden.plantings_by_id[key]
        if planting.year <= oldest and max(years) <= oldest:
            continue
        bed = garden.beds_by_id[planting.bed]
        entry = known.get(key)
        if entry is None or not entry.holds(planting, bed, records, recorded):
            same, entry = False, _entry(plan, planting, bed, records, years, recorded)
        entries[key] = entry
    if same and len(known) == len(entries) and before.learning == site.learned:
        return Book(before.learned, entries, rests_on, site.learned, garden)
    inputs_of_figures = LearnedInputs(
        tuple((one.planting, one.figures, one.seen) for one in entries.values()), site.learned
    )
    learned = plan.cached(learned_of_garden, "", inputs_of_figures)
    return Book(learned, entries, rests_on, site.learned, garden)


def _over_before(
    figures: PlantingFigures, planting: Planting, recorded: Recorded, planned_end: dt.date | None
) -> tuple[int, bool]:
    """Growing years before this one are over, and whether the last of them is so only since its planned end is past.

    Of what stands one year, a year after it is as good as any later one.  What nothing more is written of, though the gardener went
    on writing for some weeks after its planned end, is over as well.
    """
    if stays_for_years(figures.crop):
        return recorded.latest, False
    over = min(recorded.latest, planting.year + 1)
    past = planned_end is not None and recorded.last_day >= planned_end + dt.timedelta(days=WRITTEN_ON)
    return (planting.year + 1, True) if past and over <= planting.year else (over, False)


def _planned_end(dates: DateInputs) -> dt.date | None:
    """The last day on which a planting was to be picked, by the published figures and without what was seen."""
    found = work_out(dates._replace(observed=(), outcome=None, done=()))
    days = [one.day for one in (found.last_harvest, found.clear) if one is not None]
    return min(days) if days else None


def _entry(
    plan: RecordedPlan,
    planting: Planting,
    bed: Bed,
    records: tuple[RecordBase, ...],
    years: tuple[int, ...],
    recorded: Recorded,
) -> _Entry:
    garden = plan.garden
    figures = figures_of(garden, plan.catalogue, planting)
    placed = plan.placed_as_published(planting, figures) if may_be_weighed(planting, records) else None
    dates = DateInputs(
        planting=planting,
        figures=figures,
        climate=garden.climate,
        frosts=plan.frosts(planting.year),
        harvest_frosts=plan.frosts(planting.year),
        southern=garden.site.southern,
        done=garden.done(planting),
        observed=garden.observed(planting),
        outcome=garden.outcome(planting),
        shelter=plan.shelter_in(bed, planting.year),
        kept_above=bed.kept_above,
        latitude=garden.site.latitude,
    )
    ended = any(
        isinstance(one, EndedRecord)
        or one.kind == "last picking"
        or (isinstance(one, WorkRecord) and one.task in ("clear", "lift and cure"))
        for one in records
    )
    picked = any(isinstance(one, PickedRecord) for one in records)
    planned_end = _planned_end(dates) if picked and not ended and not stays_for_years(figures.crop) else None
    over_before = _over_before(figures, planting, recorded, planned_end)
    before, as_over = over_before
    inputs = SeenInputs(dates, records, years, before, ended, placed, as_over)
    seen = plan.cached(seen_of_planting, planting.id, inputs)
    return _Entry(planting, bed, records, over_before, figures, seen, planned_end)
