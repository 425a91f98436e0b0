"""Findings as rows and as lines."""

from __future__ import annotations

import datetime as dt

import shapely
from making import bed, catalogue_of, garden, planting, rectangle

from planner.checks import Finding, check_all
from planner.checks.frame.finding import Fix
from planner.listings.findings import findings_lines
from planner.listings.reports.check import check_report, finding_record
from planner.plan import Plan
from planner.season.spans import OPEN_END, Span

D = dt.date
PLAN = Plan(garden(bed(name="North")), 2026, catalogue_of())


def finding(severity="mind", last: dt.date | None = None, **fields) -> Finding:
    """A finding of May and, by default, the first of June."""
    days = Span(D(2026, 5, 1), last or D(2026, 6, 1))
    place = shapely.Point()
    return Finding("cover", severity, "cover/b1/1", (), ("b1",), place, days, "It is so", "r", "s", **fields)


def fixes() -> tuple[Fix, ...]:
    return (Fix("Move it", "one less", lambda garden: garden), Fix("Leave it", "", lambda garden: garden))


def test_a_finding_without_an_end_has_none_in_its_row():
    rows = [finding_record(PLAN, one).row() for one in (finding(), finding(last=OPEN_END))]
    assert [(row["first"], row["last"]) for row in rows] == [
        ("2026-05-01", "2026-06-01"),
        ("2026-05-01", None),
    ]
    assert {(row["beds"][0], row["citation"], row["accepted"]) for row in rows} == {("North", "", None)}


def test_a_row_has_all_fixes_and_a_line_the_first():
    one = finding(find_fixes=fixes)
    assert finding_record(PLAN, one).mends == ("Move it", "Leave it")
    assert findings_lines(PLAN, [one])[-2:] == ["  cover: It is so.", "    Move it (one less)."]


def test_the_gravest_come_first_and_waived_ones_last():
    found = [finding("note"), finding("mind", waived="on purpose"), finding("stop"), finding("note")]
    assert findings_lines(PLAN, found) == [
        "Garden, growing year 2026",
        "",
        "stop: it fails as it stands (1)",
        "  cover: It is so.",
        "    No edit that was tried mends this.",
        "",
        "worth knowing (2)",
        "  cover: It is so.",
        "    No edit that was tried mends this.",
        "  cover: It is so.",
        "    No edit that was tried mends this.",
        "",
        "accepted (1)",
        "  cover: It is so. Reason: on purpose",
    ]


def test_nothing_to_say():
    assert findings_lines(PLAN, [])[-1] == "Nothing to say."
    assert findings_lines(PLAN, [finding(waived="on purpose")])[-1] == "Nothing else to say."


def test_findings_of_one_kind_are_one_line_with_their_beds_and_mend():
    beds = [bed(f"b{i}", rectangle(center=(0.0, 3.0 * i)), name=f"Bed {i}") for i in range(3)]
    days = {"crop": "carrot", "first": "2026-04-20", "last": "2026-09-20"}
    plan = Plan(garden(*beds, *[planting(f"p{i}", f"b{i}", **days) for i in range(3)]), 2026)
    found = check_all(plan, light=False)
    assert findings_lines(plan, found) == [
        "Garden, growing year 2026",
        "",
        "worth knowing (3)",
        "  cover: Carrot in 3 beds is never covered against carrot fly.",
        "    Bed 0, Bed 1 and Bed 2.",
        "    Cover it with netting: all 3.",
    ]
    one_by_one = findings_lines(plan, found, each=True)
    assert [line[:22] for line in one_by_one if line.startswith("  cover")] == [
        f"  cover: Carrot in Bed {i}"[:22] for i in range(3)
    ]
    assert len(check_report(plan, found, hearsay=False, light=False).findings) == 3
