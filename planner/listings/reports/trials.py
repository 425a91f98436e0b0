"""The report of what trials show."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field

from planner.amounts.trials import Comparison, TrialResult, trial_results
from planner.listings.reports.base import Record, Report
from planner.listings.trials import conclusions, lost_lines
from planner.plan import Plan

Rounded = Annotated[float, AfterValidator(lambda value: round(value, 4) + 0.0)]


class TreatmentRecord(Record):
    """One treatment, in the unit of the trial."""

    treatment: str
    numbers: tuple[Rounded, ...] = Field(description="Of its plantings.")
    mean: Rounded
    spread: Rounded | None = Field(description="Standard deviation; null of one planting.")


class ComparisonRecord(Record):
    """Two treatments compared, the one with the larger mean first."""

    treatment: str
    compared_with: str
    difference: Rounded
    difference_low: Rounded | None = Field(description="Lower end of its interval of 95 %.")
    difference_high: Rounded | None = Field(description="Upper end of its interval of 95 %.")
    method: str = Field(description="blocks, welch, or one each, of which nothing can be told.")
    chance: Rounded | None = Field(description="Of a difference as large by chance alone.")
    chance_by_t: Rounded | None = Field(
        description="The same by Student's t: 0.05 or less where the interval leaves out 0."
    )
    verdict: str = Field(
        description="real, no difference, too few (plantings to prove it), or nothing (one planting of a treatment)."
    )
    ways: int = Field(description="Ways of laying out that were counted; 0 where they were not.")


class TrialRecord(Record):
    """One trial."""

    trial_id: str
    question: str
    measure: str = Field(description="Empty where it is what was picked.")
    unit: str = Field(description="Of all its numbers.")
    blocks: int = Field(description="Complete blocks; 0 where it has none.")
    treatments: tuple[TreatmentRecord, ...]
    comparisons: tuple[ComparisonRecord, ...]
    unmeasured_ids: tuple[str, ...] = Field(description="Plantings of which nothing is recorded.")
    lost_ids: tuple[str, ...] = Field(description="Plantings that were lost before anything was picked.")
    lost_counts: bool = Field(description="Whether they count as nothing picked; else they are left out.")
    notes: tuple[str, ...] = Field(description="What it shows and does not show.")


class TrialsReport(Report):
    """What the trials of a garden show."""

    report: Literal["trials"] = "trials"
    garden: str = Field(description="Its name.")
    trials: tuple[TrialRecord, ...]


def trials_report(plan: Plan) -> TrialsReport:
    """Report what the trials of a plan's garden show."""
    units = plan.garden.site.units
    return TrialsReport(
        garden=plan.garden.site.name,
        trials=tuple(
            TrialRecord(
                trial_id=one.trial.id,
                question=one.trial.question,
                measure=one.trial.measure,
                unit=one.unit,
                blocks=one.blocks,
                treatments=_treatments(one),
                comparisons=tuple(_comparison(pair) for pair in one.comparisons),
                unmeasured_ids=one.unmeasured,
                lost_ids=tuple(each.planting for each in one.lost),
                lost_counts=one.trial.lost_counts,
                notes=(*conclusions(one, units), *lost_lines(plan, one)),
            )
            for one in trial_results(plan)
        ),
    )


def _treatments(one: TrialResult) -> tuple[TreatmentRecord, ...]:
    return tuple(
        TreatmentRecord(treatment=each.name, numbers=each.values, mean=each.mean, spread=each.deviation)
        for each in one.treatments
    )


def _comparison(pair: Comparison) -> ComparisonRecord:
    return ComparisonRecord(
        treatment=pair.first,
        compared_with=pair.second,
        difference=pair.difference,
        difference_low=pair.low,
        difference_high=pair.high,
        method=pair.method,
        chance=pair.chance,
        chance_by_t=pair.by_t,
        ways=pair.ways,
        verdict=pair.verdict,
    )


TRIAL_COLUMNS = (
    "trial_id", "question", "measure", "unit", "blocks", "treatment", "mean", "compared_with", "compared_mean", "difference",
    "difference_low", "difference_high", "method", "chance", "chance_by_t", "ways", "verdict",
)  # fmt: skip


def trial_rows(plan: Plan) -> list[dict[str, Any]]:
    """The comparisons as a table, a row for each two treatments."""
    rows = []
    for one in trials_report(plan).trials:
        means = {each.treatment: each.mean for each in one.treatments}
        head = {name: getattr(one, name) for name in TRIAL_COLUMNS[:5]}
        rows += [
            {
                **head,
                **pair.table_row(),
                "mean": means[pair.treatment],
                "compared_mean": means[pair.compared_with],
            }
            for pair in one.comparisons
        ]
    return rows
