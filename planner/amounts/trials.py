"""What a trial shows: means of its treatments, their differences with an interval, and what chance alone would give.

Plantings of one block stand under like conditions, so they are compared within it: the residuals of a two-way table without
interaction, which for two treatments is the paired test of Student (1908, The probable error of a mean, Biometrika 6:1-25) and for more
the randomised blocks of Fisher (1935, The Design of Experiments, chapter IV).  Without blocks two treatments are
compared by the test of Welch (1947, Biometrika 34:28-35), which needs no equal scatter.  Of few plantings all ways are counted
in which chance could have laid the treatments out (the same book of Fisher, section 21).  Where more than two are compared,
the intervals and the chances by Student's t hold together (Bonferroni), so that an interval leaves out 0 where, and only where, that
chance is 5 % or less; chances that are counted are those of Holm (1979, Scandinavian Journal of Statistics 6:65-70).

A difference is taken for real where both say so: the interval leaves out 0, and no more than 5 % of the ways that are counted
give as much.
"""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

import numpy as np

from planner.garden import Garden
from planner.garden.records import MeasuredRecord, PickedRecord, SeenRecord
from planner.garden.trials import Trial
from planner.plan import Plan
from planner.season.student_t import both_tails, for_both_tails

#: Chance that an interval does not hold the difference.
MISSED = 0.05
#: Most ways of laying out that are counted one by one.
MOST_WAYS = 70_000
#: How two treatments are compared: within blocks, without blocks, or not at all since there is one planting of each.
Method = Literal["blocks", "welch", "one each"]
#: What a comparison shows: a difference that is most likely real; none; one that so few plantings cannot prove; nothing at all.
Verdict = Literal["real", "no difference", "too few", "nothing"]


class Treatment(NamedTuple):
    """One treatment of a trial.

    Attributes
    ----------
    name : str
    values : tuple of float
        Of its plantings, in the trial's order.
    mean : float
    deviation : float or None
        Standard deviation of the plantings; None of one.
    """

    name: str
    values: tuple[float, ...]
    mean: float
    deviation: float | None


class Comparison(NamedTuple):
    """Two treatments compared: the one that has more of what is compared first, in blocks or of all plantings.

    Attributes
    ----------
    first, second : str
    difference : float
        Of the means, first less second.
    low, high : float or None
        With 95 % it lies between them; None of one planting each.
    method : str
    chance : float or None
        With which chance alone gives a difference as large to either side: by counting ways where they are few, else by
        Student's t.
    by_t : float or None
        The same by Student's t alone, that of the interval.
    ways : int
        Ways that were counted; 0 where they were not.
    least : float or None
        The least chance that so few plantings can give.

    :attr:`verdict` says what follows.
    """

    first: str
    second: str
    difference: float
    low: float | None
    high: float | None
    method: Method
    chance: float | None
    by_t: float | None
    ways: int
    least: float | None

    @property
    def verdict(self) -> Verdict:
        """What follows of the interval and the ways that were counted."""
        if self.low is None or self.high is None or self.chance is None:
            return "nothing"
        if self.low <= 0.0 <= self.high:
            return "no difference"
        return "real" if self.chance <= MISSED else "too few"


class LostPlot(NamedTuple):
    """A planting of a trial that was lost.

    Attributes
    ----------
    planting : str
    cause : str
        A word of :data:`planner.garden.records.Harm` or :data:`planner.garden.records.EndedWhy`, or the gardener's words.
    day : date
    """

    planting: str
    cause: str
    day: dt.date


class TrialResult(NamedTuple):
    """What a trial shows.

    Attributes
    ----------
    trial : Trial
    unit : str
        Of the values: as measured, or ``g/m2`` of what was picked.
    treatments : tuple of Treatment
        The largest mean first.
    comparisons : tuple of Comparison
        Of each two.
    blocks : int
        Complete ones; 0 where the trial has none.
    unmeasured : tuple of str
        Ids of plantings of which nothing is recorded.
    units_differ : tuple of str
        Units in which it was measured, where those are several: then nothing is compared.
    lost : tuple of LostPlot
        Plantings of which nothing was picked since they were lost: left out, or counted as nothing where the trial says so.
    incomplete : tuple of str
        Blocks that lack a treatment: their plantings count in the means, and are not compared within blocks.
    """

    trial: Trial
    unit: str
    treatments: tuple[Treatment, ...]
    comparisons: tuple[Comparison, ...]
    blocks: int
    unmeasured: tuple[str, ...]
    units_differ: tuple[str, ...] = ()
    lost: tuple[LostPlot, ...] = ()
    incomplete: tuple[str, ...] = ()


def trial_results(plan: Plan) -> tuple[TrialResult, ...]:
    """What the trials of a plan's garden show, in the document's order.

    Parameters
    ----------
    plan : Plan
        Of any growing year.
    """
    return tuple(trial_result(plan, one) for one in plan.garden.trials)


def trial_result(plan: Plan, trial: Trial) -> TrialResult:
    """What a trial shows.

    Parameters
    ----------
    plan : Plan
    trial : Trial
        Of its garden.
    """
    if trial.measure:
        values, units = _measured(plan.garden, trial)
    else:
        values, units = _picked(plan, trial), {"g/m2"}
    lost = tuple(_lost(plan.garden, trial, values))
    if trial.lost_counts and not trial.measure:
        values |= {one.planting: 0.0 for one in lost}
    gone = {one.planting for one in lost}
    unmeasured = tuple(
        entry.planting
        for entry in trial.entries
        if entry.planting not in values and entry.planting not in gone
    )
    if len(units) > 1:
        return TrialResult(trial, "", (), (), 0, unmeasured, tuple(sorted(units)), lost)
    found = [
        (entry.treatment, entry.block, values[entry.planting])
        for entry in trial.entries
        if entry.planting in values
    ]
    treatments, comparisons, blocks = compare(found)
    unit = next(iter(units), "")
    incomplete = _incomplete_blocks(found, [one.name for one in treatments]) if blocks else ()
    return TrialResult(trial, unit, treatments, comparisons, blocks, unmeasured, (), lost, incomplete)


def _measured(garden: Garden, trial: Trial) -> tuple[dict[str, float], set[str]]:
    """Mean of what was measured of each planting, and its units."""
    wanted = {entry.planting for entry in trial.entries}
    values: dict[str, list[float]] = {}
    units = set()
    for one in garden.records:
        if (
            isinstance(one, MeasuredRecord)
            and one.planting in wanted
            and one.measure.casefold() == trial.measure.casefold()
        ):
            values.setdefault(one.planting or "", []).append(one.value)
            units.add(one.unit)
    return {key: math.fsum(of) / len(of) for key, of in values.items()}, units


def _picked(plan: Plan, trial: Trial) -> dict[str, float]:
    """Mass picked of each planting over its ground. [g/m2]"""
    grams: dict[str, float] = {}
    for entry in trial.entries:
        for one in plan.garden.records_of(entry.planting):
            if isinstance(one, PickedRecord) and one.amount.unit == "g":
                grams[entry.planting] = grams.get(entry.planting, 0.0) + one.amount.value
    areas = {key: plan.placed(plan.garden.plantings_by_id[key]).area for key in grams}
    return {key: mass / areas[key] for key, mass in grams.items() if areas[key] > 0}


def _lost(garden: Garden, trial: Trial, values: Mapping[str, float]) -> Iterator[LostPlot]:
    """Plantings that were lost before anything of them was picked or measured."""
    for entry in trial.entries:
        outcome = garden.outcome(garden.plantings_by_id[entry.planting])
        if entry.planting in values or outcome is None or not outcome.lost:
            continue
        harms = [one for one in garden.records_of(entry.planting) if isinstance(one, SeenRecord)]
        cause = (harms[-1].cause or harms[-1].harm) if harms else outcome.why
        yield LostPlot(entry.planting, cause, outcome.day)


# -- comparing ------------------------------------------------------------------------------------


def compare(
    found: Sequence[tuple[str, str, float]],
) -> tuple[tuple[Treatment, ...], tuple[Comparison, ...], int]:
    """Compare treatments.

    Parameters
    ----------
    found : sequence of (str, str, float)
        Treatment, block (empty for none) and value of each planting.

    Returns
    -------
    treatments, comparisons, number of complete blocks
    """
    by_name: dict[str, list[float]] = {}
    for name, _block, value in found:
        by_name.setdefault(name, []).append(value)
    treatments = sorted((_treatment(name, values) for name, values in by_name.items()), key=lambda t: -t.mean)
    table = _complete_blocks(found, [one.name for one in treatments])
    blocked = len(table) >= 2
    pairs = list(itertools.combinations(range(len(treatments)), 2))
    comparisons = []
    for i, j in pairs:
        one, other = treatments[i], treatments[j]
        if blocked:
            comparisons.append(_in_blocks(one.name, other.name, np.array(table), i, j, len(pairs)))
        elif len(one.values) < 2 or len(other.values) < 2:
            difference = one.mean - other.mean
            comparisons.append(
                Comparison(one.name, other.name, difference, None, None, "one each", None, None, 0, None)
            )
        else:
            comparisons.append(_without_blocks(one, other, len(pairs)))
    return tuple(treatments), tuple(_holm(comparisons)), len(table) if blocked else 0


def _treatment(name: str, values: Sequence[float]) -> Treatment:
    mean = math.fsum(values) / len(values)
    deviation = float(np.std(values, ddof=1)) if len(values) > 1 else None
    return Treatment(name, tuple(values), mean, deviation)


def _complete_blocks(found: Iterable[tuple[str, str, float]], names: Sequence[str]) -> list[list[float]]:
    """Mean of each treatment in each block that has all of them."""
    blocks: dict[str, dict[str, list[float]]] = {}
    for name, block, value in found:
        if block:
            blocks.setdefault(block, {}).setdefault(name, []).append(value)
    return [
        [math.fsum(of[name]) / len(of[name]) for name in names]
        for of in blocks.values()
        if all(name in of for name in names) and len(names) > 1
    ]


def _incomplete_blocks(found: Iterable[tuple[str, str, float]], names: Sequence[str]) -> tuple[str, ...]:
    """Blocks of which some plantings are told, and not all treatments; in their order."""
    there: dict[str, set[str]] = {}
    for name, block, _value in found:
        if block:
            there.setdefault(block, set()).add(name)
    return tuple(block for block, of in there.items() if len(of) < len(names))


def _in_blocks(one: str, other: str, table: np.ndarray, i: int, j: int, pairs: int) -> Comparison:
    """Two treatments within blocks, by what the two-way table leaves unexplained."""
    blocks, treatments = table.shape
    differences = table[:, i] - table[:, j]
    mean = float(differences.mean())
    rest = table - table.mean(axis=0) - table.mean(axis=1)[:, None] + table.mean()
    if mean < 0:  # the means of all plantings tell another order
        return _in_blocks(other, one, table, j, i, pairs)
    freedom = (blocks - 1) * (treatments - 1)
    error = math.sqrt(2 * float((rest**2).sum()) / freedom / blocks)
    chance, ways = _of_signs(differences)
    return _comparison(one, other, mean, error, freedom, "blocks", chance, ways, 2.0**-blocks * 2, pairs)


def _without_blocks(one: Treatment, other: Treatment, pairs: int) -> Comparison:
    """Two treatments by the test of Welch."""
    a, b = len(one.values), len(other.values)
    of_one, of_other = (one.deviation or 0.0) ** 2 / a, (other.deviation or 0.0) ** 2 / b
    error = math.sqrt(of_one + of_other)
    below = of_one**2 / (a - 1) + of_other**2 / (b - 1)
    freedom = (of_one + of_other) ** 2 / below if below > 0 else float(a + b - 2)
    chance, ways = _of_splits(one.values, other.values)
    least = (2.0 if a == b else 1.0) / math.comb(a + b, a)
    difference = one.mean - other.mean
    return _comparison(one.name, other.name, difference, error, freedom, "welch", chance, ways, least, pairs)


def _comparison(
    one: str,
    other: str,
    difference: float,
    error: float,
    freedom: float,
    method: Method,
    chance: float | None,
    ways: int,
    least: float,
    pairs: int,
) -> Comparison:
    reach = for_both_tails(MISSED / pairs, freedom) * error
    by_t = both_tails(difference / error, freedom) if error > 0 else (0.0 if difference else 1.0)
    together = min(1.0, by_t * pairs)  # at most MISSED where, and only where, the interval leaves out 0
    return Comparison(
        one,
        other,
        difference,
        difference - reach,
        difference + reach,
        method,
        chance if chance is not None else by_t,
        together,
        ways,
        least if chance is not None else None,
    )


def _of_signs(differences: np.ndarray) -> tuple[float | None, int]:
    """Share of all ways of laying two treatments out in blocks that give a difference as large; and their number."""
    ways = 2 ** len(differences)
    if ways > MOST_WAYS:
        return None, 0
    sums = np.zeros(1)
    for one in np.abs(differences):
        sums = np.concatenate([sums + one, sums - one])
    return _share_as_large(sums, float(differences.sum())), ways


def _of_splits(one: Sequence[float], other: Sequence[float]) -> tuple[float | None, int]:
    """Share of all ways of giving plantings to two treatments that give a difference as large; and their number."""
    every = np.array([*one, *other])
    ways = math.comb(len(every), len(one))
    if ways > MOST_WAYS:
        return None, 0
    chosen = np.array(list(itertools.combinations(range(len(every)), len(one))))
    firsts = every[chosen].mean(axis=1)
    seconds = (every.sum() - firsts * len(one)) / len(other)
    return _share_as_large(firsts - seconds, float(np.mean(one) - np.mean(other))), ways


def _share_as_large(all_ways: np.ndarray, seen: float) -> float:
    edge = abs(seen) - 1e-9 * max(1.0, float(np.abs(all_ways).max(initial=0.0)))
    return float((np.abs(all_ways) >= edge).mean())


def _holm(comparisons: Sequence[Comparison]) -> list[Comparison]:
    """The chances of several comparisons together, after Holm."""
    told = [number for number, one in enumerate(comparisons) if one.chance is not None]
    worst, adjusted = 0.0, dict[int, float]()
    for rank, number in enumerate(sorted(told, key=lambda n: comparisons[n].chance or 0.0)):
        worst = max(worst, min(1.0, (comparisons[number].chance or 0.0) * (len(told) - rank)))
        adjusted[number] = worst
    return [
        one._replace(chance=adjusted[number]) if number in adjusted else one
        for number, one in enumerate(comparisons)
    ]
