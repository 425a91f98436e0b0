"""What the records of one planting tell of its crop: its times, its yield, and what came up."""

from __future__ import annotations

from typing import NamedTuple

from planner.garden import Planting, RecordBase
from planner.garden.records import CameUpRecord, PickedRecord, SeenRecord
from planner.ground.place import Placed
from planner.plan.cache import fact
from planner.plan.survival import SurvivalInputs, survival_of_planting, telling_losses
from planner.plan.yields import NOT_EATEN, YieldInputs, counted, yield_field, yield_of_planting
from planner.season.date_inputs import DateInputs
from planner.season.practice import stays_for_years
from planner.season.seen_times import LEAST_FACTOR, MOST_FACTOR, LeftOut, Observation, observed_times


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
    """

    year: int
    grams: float
    expected: float | None
    plants: int
    metres: float
    units: float


class LotSeen(NamedTuple):
    """What came up of a packet of seed."""

    lot: str
    year: int
    share: float


class LostSeen(NamedTuple):
    """What was lost of a planting.

    Attributes
    ----------
    year : int
        Growing year.
    share : float
        Of its plants; 1 where the planting was lost. [0 to 1]
    cause : str
        What took it: a harm, why it ended, or the gardener's words.
    """

    year: int
    share: float
    cause: str


class Seen(NamedTuple):
    """What the records of one planting tell of its crop.

    Attributes
    ----------
    times : tuple of Observation
    yields : tuple of YieldSeen
    lots : tuple of LotSeen
    left_out : tuple of LeftOut
        What teaches nothing, and why; a planting that was lost among it.
    over : tuple of int
        Growing years of it that are over.
    losses : tuple of LostSeen
    taken_as_over : bool
        No end of it is written down, and its planned end is past.
    """

    times: tuple[Observation, ...] = ()
    yields: tuple[YieldSeen, ...] = ()
    lots: tuple[LotSeen, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    over: tuple[int, ...] = ()
    losses: tuple[LostSeen, ...] = ()
    taken_as_over: bool = False


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
    taken_as_over : bool
        Whether the last of them counts as over only since its planned end is past.
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
    taken_as_over: bool = False


@fact("seen of planting")
def seen_of_planting(inputs: SeenInputs) -> Seen:
    """What the records of a planting tell of its crop."""
    planting = inputs.dates.planting
    picked = tuple(sorted({one.day for one in inputs.records if isinstance(one, PickedRecord)}))
    over = inputs.ended or planting.year < inputs.over_before
    _, times, left_out = observed_times(inputs.dates, picked, over=over)
    came_up, lots = _came_up(inputs)
    yields, no_yields = _yields(inputs)
    years = {planting.year, *inputs.years} if stays_for_years(inputs.dates.figures.crop) else {planting.year}
    done = tuple(sorted(year for year in years if inputs.ended or year < inputs.over_before))
    as_over = inputs.taken_as_over and not inputs.ended and bool(yields)
    return Seen(
        (*times, *came_up), yields, lots, (*left_out, *no_yields), done, _losses(inputs, no_yields), as_over
    )


def _losses(inputs: SeenInputs, no_yields: tuple[LeftOut, ...]) -> tuple[LostSeen, ...]:
    """What was lost of it: all of it, else the shares that were seen to be lost, with the last cause."""
    year, whole = inputs.dates.planting.year, next((one for one in no_yields if one.why == "lost"), None)
    if whole is not None:
        return (LostSeen(year, 1.0, whole.cause),)
    told = telling_losses(inputs.records)
    if inputs.placed is None or not told:
        return ()
    lives = survival_of_planting.work(
        SurvivalInputs(inputs.dates.planting, inputs.dates.figures, inputs.placed, told)
    )
    steps = [one for one in lives.steps if one.harm is not None]
    if not steps or lives.left >= 1.0:
        return ()
    return (LostSeen(year, 1.0 - lives.left, steps[-1].cause or steps[-1].harm or ""),)


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


def _yields(inputs: SeenInputs) -> tuple[tuple[YieldSeen, ...], tuple[LeftOut, ...]]:
    """What was picked by growing year, and of which years that tells no yield.

    A planting that was lost before a fifth of what was expected was picked counts as lost, not as a yield of nothing; one that
    was resown is told by what replaced it.
    """
    planting, placed, figures = inputs.dates.planting, inputs.placed, inputs.dates.figures
    if placed is None or planting.purpose in NOT_EATEN or not placed.plants:
        return (), ()
    yearly = stays_for_years(figures.crop)
    sums: dict[int, float] = {}
    unweighed: set[int] = set()
    for record, year in zip(inputs.records, inputs.years, strict=True):
        if isinstance(record, PickedRecord):
            at = year if yearly else planting.year
            weighed = record.amount.unit == "g"
            sums[at] = sums.get(at, 0.0) + (record.amount.value if weighed else 0.0)
            if not weighed:
                unweighed.add(at)
    left = 1.0 if yearly else _left_at_first(inputs, placed)
    expected = yield_of_planting(YieldInputs(planting, figures, placed, left)).grams
    whole = yield_of_planting(YieldInputs(planting, figures, placed)).grams or 0
    units = counted(yield_field(figures), figures, placed) * left
    cause = _taken_by(inputs)
    if cause and planting.year not in unweighed and sums.get(planting.year, 0.0) <= LEAST_FACTOR * whole:
        return (), (LeftOut("yield", planting.year, "lost", cause=cause),)
    if not sums and inputs.ended:
        return (), (LeftOut("yield", planting.year, "unweighed"),)
    found: list[YieldSeen] = []
    left_out: list[LeftOut] = []
    for year, grams in sorted(sums.items()):
        if year in unweighed:
            left_out.append(LeftOut("yield", year, "pieces"))
        elif not inputs.ended and year >= inputs.over_before:
            left_out.append(LeftOut("yield", year, "not over"))
        elif expected and grams > MOST_FACTOR * expected:
            left_out.append(LeftOut("yield", year, "slip", grams, expected))
        else:
            plants, metres = round(placed.plants * left), placed.layout.row_length * left
            found.append(YieldSeen(year, grams, expected or None, plants, metres, units))
    return tuple(found), tuple(left_out)


def _taken_by(inputs: SeenInputs) -> str:
    """What took a planting that was lost, in the gardener's words where there are any; empty where it was not lost."""
    outcome = inputs.dates.outcome
    harms = sorted((one for one in inputs.records if isinstance(one, SeenRecord)), key=lambda one: one.day)
    if outcome is None:
        gone = next((one for one in reversed(harms) if one.lost == 1.0), None)
        return (gone.cause or gone.harm) if gone is not None else ""
    if not outcome.lost or outcome.why == "resown":
        return ""
    return (harms[-1].cause or harms[-1].harm) if harms else outcome.why


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
    return planting.purpose not in NOT_EATEN and any(
        one.kind in ("picked", "ended") or (isinstance(one, SeenRecord) and one.lost is not None)
        for one in records
    )
