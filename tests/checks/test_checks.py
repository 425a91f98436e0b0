"""Each check on a garden with just its fault, and on one that just has not; every mend mends."""

from __future__ import annotations

import pytest
from checks.faults import CASES, YEAR, Case

from planner.checks import CHECKS, Finding, check_all
from planner.garden import Garden
from planner.plan import Plan

BY_NAME = [pytest.param(case, id=case.name) for case in CASES]


def found(garden: Garden) -> tuple[Finding, ...]:
    """Findings of the year."""
    return check_all(Plan(garden, YEAR))


def test_every_check_has_a_fault() -> None:
    assert {case.check for case in CASES} == set(CHECKS)


@pytest.mark.parametrize("case", BY_NAME)
def test_garden_with_just_this_fault_says_just_this(case: Case) -> None:
    findings = found(case.faulty())
    assert [(one.check, one.topic) for one in findings] == [(case.check, case.topic)], [
        f.text for f in findings
    ]
    assert findings[0].severity == case.severity


@pytest.mark.parametrize("case", BY_NAME)
def test_garden_just_without_it_says_nothing(case: Case) -> None:
    assert [one.text for one in found(case.sound())] == []


@pytest.mark.parametrize("case", BY_NAME)
def test_finding_tells_whom_where_when_and_by_what_rule(case: Case) -> None:
    garden = case.faulty()
    (one,) = check_all(Plan(garden, YEAR))
    sources = {*Plan(garden, YEAR).catalogue.sources, "practice", "geometry"}
    assert one.beds
    assert set(one.beds) <= set(garden.beds_by_id)
    assert set(one.plantings) <= set(garden.plantings_by_id)
    assert any(sign.isdigit() for sign in one.text) or case.topic in ("film", "kind", "none"), one.text
    assert (
        one.text[0].isupper()
        or one.text[0].isdigit()
        or one.text.startswith(tuple(bed.name for bed in garden.beds))
    )
    assert not one.text.endswith(".")
    assert one.rule
    assert one.source in sources
    assert one.span.first <= one.span.last


@pytest.mark.parametrize("case", BY_NAME)
def test_after_each_of_its_mends_the_finding_is_gone(case: Case) -> None:
    garden = case.faulty()
    plan = Plan(garden, YEAR)
    (one,) = check_all(plan)
    assert one.fixes
    for mend in one.fixes:
        after = check_all(Plan(mend.apply(garden), YEAR))
        grave = [other for other in after if other.severity != "note"]
        assert one.case not in [other.case for other in after], mend.text
        assert grave == [], (mend.text, [other.text for other in grave])


@pytest.mark.parametrize("case", BY_NAME)
def test_plan_after_an_edit_finds_the_same_as_a_new_one(case: Case) -> None:
    sound, faulty = case.sound(), case.faulty()
    plan = Plan(sound, YEAR)
    check_all(plan)
    kept, new = check_all(plan.after(faulty)), found(faulty)
    assert [(one.key, one.text) for one in kept] == [(one.key, one.text) for one in new]
