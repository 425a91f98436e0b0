"""The report of the findings of the checks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Literal

from pydantic import Field

from planner.checks import Finding
from planner.listings.reports.base import GardenReport, GrowingYear, Record
from planner.plan import Plan
from planner.season.spans import OPEN_END


class FindingRecord(Record):
    """A finding, with the edits that mend it."""

    key: str = Field(description="The same while the finding is the same.")
    check: str
    severity: Literal["stop", "mind", "note"] = Field(
        description="stop: will fail as planned; mind: a warning; note: worth knowing."
    )
    beds: tuple[str, ...] = Field(description="Their names.")
    bed_ids: tuple[str, ...]
    planting_ids: tuple[str, ...]
    structures: tuple[str, ...] = Field(description="Their names, or ids where they have none.")
    structure_ids: tuple[str, ...]
    first: dt.date
    last: dt.date | None = Field(description="Null where it has no end.")
    text: str
    rule: str
    source: str = Field(description="Key of the publication of the rule; may be empty.")
    citation: str
    mends: tuple[str, ...] = Field(description="Edits that mend it, the best first.")
    accepted: str | None = Field(description="The reason for which it is accepted; null while it is open.")


#: Columns of a table of findings.
FINDING_COLUMNS = tuple(FindingRecord.model_fields)


class CheckReport(GardenReport):
    """What a plan gives to think about."""

    report: Literal["check"] = "check"
    hearsay: bool = Field(description="Whether neighbours by hearsay count.")
    light: bool = Field(description="Whether hours of direct sun were checked.")
    findings: tuple[FindingRecord, ...]


def finding_record(plan: Plan, one: Finding) -> FindingRecord:
    """A finding about a plan."""
    garden = plan.garden
    known = one.source in plan.catalogue.sources
    return FindingRecord(
        key=one.key,
        check=one.check,
        severity=one.severity,
        beds=tuple(garden.beds_by_id[key].name for key in one.beds),
        bed_ids=tuple(one.beds),
        planting_ids=tuple(one.plantings),
        structures=tuple(garden.structures_by_id[key].name or key for key in one.structures),
        structure_ids=tuple(one.structures),
        first=one.span.first,
        last=one.span.last if one.span.last < OPEN_END else None,
        text=one.text,
        rule=one.rule,
        source=one.source,
        citation=plan.catalogue.source_line(one.source) if known else "",
        mends=tuple(fix.text for fix in one.fixes),
        accepted=one.waived or None,
    )


def check_report(plan: Plan, findings: Sequence[Finding], *, hearsay: bool, light: bool) -> CheckReport:
    """Report findings.

    Parameters
    ----------
    plan : Plan
    findings : sequence of Finding
    hearsay, light : bool
        What was checked.
    """
    return CheckReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        hearsay=hearsay,
        light=light,
        findings=tuple(finding_record(plan, one) for one in findings),
    )
