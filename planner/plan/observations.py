"""What the records of one planting tell of its crop: its times, its yield, and what came up."""

from __future__ import annotations

from typing import NamedTuple

from planner.garden import Planting, RecordBase
from planner.garden.records import CameUpRecord, PickedRecord
from planner.ground.place import Placed
from planner.plan.cache import fact
from planner.plan.survival import SurvivalInputs, survival_of_planting, telling_losses
from planner.plan.yields import NOT_EATEN, YieldInputs, counted, yield_field, yield_of_planting
from planner.season.date_inputs import DateInputs
from planner.season.practice import stays_for_years
from planner.season.seen_times import MOST_FACTOR, Observation, observed_times


class YieldSeen(NamedTuple):
    """What was picked of one planting in one growing year.

    Attributes
    ----------
    year : int
        Growing year.
    grams : float
        All that was picked and weighed. [g]
    expected : float or None
        What the published figures say of it; None where there are none. [g]
    plants : int
    metres : float
        Of row. [m]
    units : float
        Plants or metres that the published figure counts; plants where there is none.
    weighed : bool
        False of one that was lost and of which nothing was weighed.
    """

    year: int
    grams: float
    expected: float | None
    plants: int
    metres: float
    units: float
    weighed: bool


class LotSeen(NamedTuple):
    """What came up of a packet of seed."""

    lot: str
    year: int
    share: float


class Seen(NamedTuple):
    """What the records of one planting tell of its crop."""

    times: tuple[Observation, ...] = ()
    yields: tuple[YieldSeen, ...] = ()
    lots: tuple[LotSeen, ...] = ()


class SeenInputs(NamedTuple):
    """What follows from the records of a planting depends on these.

    Attributes
    ----------
    dates : DateInputs
        With the published figures.
    records : tuple of RecordBase
        Of the planting.
    years : tuple of int
        Growing year of each record.
    over_before : int
        Growing years before this one are over: something was recorded later.
    ended : bool
        Whether its records say that it ended, or was picked for the last time.
    placed : Placed or None
        Where it stands; None where nothing was weighed of it.
    """

    dates: DateInputs
    records: tuple[RecordBase, ...]
    years: tuple[int, ...]
    over_before: int
    ended: bool
    placed: Placed | None


@fact("seen of planting")
def seen_of_planting(inputs: SeenInputs) -> Seen:
    """What the records of a planting tell of its crop."""
    planting = inputs.dates.planting
    picked = tuple(sorted({one.day for one in inputs.records if isinstance(one, PickedRecord)}))
    over = inputs.ended or planting.year < inputs.over_before
    _, times = observed_times(inputs.dates, picked, over=over)
    came_up, lots = _came_up(inputs)
    return Seen((*times, *came_up), _yields(inputs), lots)


def _came_up(inputs: SeenInputs) -> tuple[tuple[Observation, ...], tuple[LotSeen, ...]]:
    """The share of the seed that came up: the last count of the planting, since seedlings are counted as they come."""
    counts = [
        (one, one.emergence)
        for one in inputs.records
        if isinstance(one, CameUpRecord) and one.emergence is not None
    ]
    if not counts:
        return (), ()
    last, share = max(counts, key=lambda pair: pair[0].day)
    expected = inputs.dates.figures.number("germination")
    factor = share / expected if expected else None
    year = inputs.dates.planting.year
    lots = (LotSeen(last.lot, year, share),) if last.lot is not None else ()
    return (Observation("emergence", year, share, expected, factor),), lots


def _yields(inputs: SeenInputs) -> tuple[YieldSeen, ...]:
    """What was picked by growing year; of a year that is not over nothing, and where a part was not weighed."""
    planting, placed, figures = inputs.dates.planting, inputs.placed, inputs.dates.figures
    if placed is None or planting.purpose in NOT_EATEN or not placed.plants:
        return ()
    yearly = stays_for_years(figures.crop)
    sums: dict[int, float] = {}
    unweighed: set[int] = set()
    for record, year in zip(inputs.records, inputs.years, strict=True):
        if isinstance(record, PickedRecord):
            at = year if yearly else planting.year
            sums[at] = sums.get(at, 0.0) + record.amount.value
            if record.amount.unit != "g":
                unweighed.add(at)
    outcome = inputs.dates.outcome
    lost = (
        outcome is not None and outcome.lost and outcome.why != "resown"
    )  # its ground was sown again: it counts once
    if not sums and lost:
        sums = {planting.year: 0.0}
    left = 1.0 if yearly else _left_at_first(inputs, placed)
    expected = yield_of_planting(YieldInputs(planting, figures, placed, left)).grams
    units = counted(yield_field(figures), figures, placed) * left
    weighed = any(isinstance(one, PickedRecord) for one in inputs.records)
    return tuple(
        YieldSeen(
            year,
            grams,
            expected or None,
            round(placed.plants * left),
            placed.layout.row_length * left,
            units,
            weighed,
        )
        for year, grams in sorted(sums.items())
        if year not in unweighed
        and (inputs.ended or year < inputs.over_before)
        and (not expected or grams <= MOST_FACTOR * expected)
    )


def _left_at_first(inputs: SeenInputs, placed: Placed) -> float:
    """Share of the planting that was left when it was first picked: what was picked is that of these plants."""
    told = telling_losses(inputs.records)
    days = [one.day for one in inputs.records if isinstance(one, PickedRecord)]
    if not told or not days:
        return 1.0
    lives = survival_of_planting.work(
        SurvivalInputs(inputs.dates.planting, inputs.dates.figures, placed, told)
    )
    return lives.left_on(min(days))


def may_be_weighed(planting: Planting, records: tuple[RecordBase, ...]) -> bool:
    """Whether what was picked of a planting can be held against a yield, so that its plants must be counted."""
    return planting.purpose not in NOT_EATEN and any(one.kind in ("picked", "ended") for one in records)
