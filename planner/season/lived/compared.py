"""A planting as another sort, or under other covers or glass, each lived through the recorded years."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from planner.garden import Cover, Variety
from planner.season.date_inputs import DateInputs
from planner.season.lived.lived_plantings import live
from planner.season.lived.odds import Odds, odds_of
from planner.season.lived.planned_sort import held_sort, planned_days, with_days
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.work_out_dates import work_out

#: An early, usual or late sort of the crop as published.
Sort = Literal["early", "usual", "late"]
SORTS: tuple[Sort, ...] = ("early", "usual", "late")
#: The sort that the plan takes a planting for, where it lies between those that are published.
BETWEEN = "between"
#: Figure of a crop for each sort.
_DAYS_OF: dict[Sort, str] = {"early": "days_early", "usual": "days_to_maturity", "late": "days_late"}
#: Shelters that a planting is compared under: nothing, covers that warm, and glass.
SHELTERS = ("open", "fleece", "low tunnel", "tunnel", "glasshouse")
#: Of these, those that stand over a bed rather than lie on a planting.
_ROOFS = ("tunnel", "glasshouse")


class Compared(NamedTuple):
    """One way to grow a planting, and its odds.

    Attributes
    ----------
    way : str
        One of :data:`SORTS`, :data:`BETWEEN` or :data:`SHELTERS`, or the name of an own variety.
    as_planned : bool
        It is grown so by the plan.
    odds : Odds
    """

    way: str
    as_planned: bool
    odds: Odds


def as_sort(inputs: DateInputs, sort: Sort) -> DateInputs | None:
    """The inputs of a planting that is another sort of its crop, by the published days of that; None where none are.

    Parameters
    ----------
    inputs : DateInputs
    sort : str
    """
    crop = inputs.figures.crop
    days = crop.number(_DAYS_OF[sort]) if crop is not None else None
    if crop is None or days is None:
        return None
    return with_days(_replanned(inputs), days)


def as_variety(inputs: DateInputs, variety: Variety) -> DateInputs:
    """The inputs of a planting that is an own variety of its crop."""
    return _replanned(inputs, figures=inputs.figures._replace(variety=variety))


def under_shelter(inputs: DateInputs, shelter: str) -> DateInputs:
    """The inputs of a planting that grows in the open, under a cover as long as it usually lies, or under glass.

    Covers that do not warm, and film on the ground, stay.

    Parameters
    ----------
    inputs : DateInputs
    shelter : str
        One of :data:`SHELTERS`.
    """
    planting = inputs.planting
    covers = tuple(one for one in planting.covers if one.kind not in ("fleece", "low tunnel", "cloche"))
    if shelter in ("fleece", "low tunnel"):
        covers = (*covers, Cover(kind="fleece" if shelter == "fleece" else "low tunnel"))
    walls = tuple(one for one in inputs.shelter if one == "south wall")
    roof = (shelter,) if shelter in _ROOFS else ()
    kept = inputs.kept_above if roof and set(roof) & set(inputs.shelter) else None
    return _replanned(
        inputs,
        planting=planting.with_(covers=covers),
        shelter=roof or walls,
        kept_above=kept,
    )


def compare_sorts(
    inputs: DateInputs, own: Iterable[Variety], weather: RecordedWeather
) -> tuple[Compared, ...]:
    """Early, usual and late sorts and own varieties of a planting's crop, on the days of the plan.

    Parameters
    ----------
    inputs : DateInputs
    own : iterable of Variety
        Of its crop.
    weather : RecordedWeather
        In the open.
    """
    crop, days, mine = inputs.figures.crop, planned_days(inputs), inputs.figures.variety
    if days is None and mine is None:
        return ()  # what stands its winter is picked as large as it is, whatever its days
    taken = {
        sort: days is not None and crop is not None and abs((crop.number(_DAYS_OF[sort]) or 0.0) - days) < 0.5
        for sort in SORTS
    }
    ways: list[tuple[str, DateInputs | None, bool]] = [
        (sort, as_sort(inputs, sort), taken[sort] and mine is None) for sort in SORTS
    ]
    if days is not None and mine is None and not any(taken.values()):
        ways.append((BETWEEN, with_days(_replanned(inputs), days), True))
    ways += [(one.name, as_variety(inputs, one), mine is not None and one.id == mine.id) for one in own]
    return _lived_ways(ways, weather)


def compare_shelters(inputs: DateInputs, weather: RecordedWeather) -> tuple[Compared, ...]:
    """A planting in the open, under covers and under glass, on the days of the plan.

    Parameters
    ----------
    inputs : DateInputs
    weather : RecordedWeather
        In the open.
    """
    now, held = shelter_of(inputs), held_sort(inputs)
    ways = [
        (one, _replanned(held) if one == now else under_shelter(held, one), one == now) for one in SHELTERS
    ]
    return _lived_ways(ways, weather)


def shelter_of(inputs: DateInputs) -> str:
    """Which of :data:`SHELTERS` a planting grows under by the plan: glass before covers."""
    for roof in _ROOFS:
        if roof in inputs.shelter:
            return roof
    kinds = {one.kind for one in inputs.planting.covers}
    return next((one for one in ("low tunnel", "fleece") if one in kinds), "open")


def _replanned(inputs: DateInputs, **changes: object) -> DateInputs:
    """The inputs without what was recorded, with some changed."""
    return inputs._replace(done=(), observed=(), outcome=None)._replace(**changes)  # type: ignore[arg-type]


def _lived_ways(
    ways: Iterable[tuple[str, DateInputs | None, bool]], weather: RecordedWeather
) -> tuple[Compared, ...]:
    found = []
    for way, inputs, as_planned in ways:
        if inputs is None:
            continue
        lived = live(inputs, work_out(inputs), weather)
        if lived is not None:
            found.append(Compared(way, as_planned, odds_of(lived)))
    return tuple(found)
