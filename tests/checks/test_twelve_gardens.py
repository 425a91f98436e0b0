"""The checks on twelve gardens, beside the verdicts of an experienced grower of each place."""

from __future__ import annotations

import pytest
from checks.twelve_gardens import BY_DATES, ORDINARY, PLACES, YEAR, Line, Place

from planner.checks import Finding, check_all
from planner.plan import Plan

#: What is told, but less gravely than the grower wrote down, by place, crop and first day, with the gravity it is told with.
#: Sweet corn's published sum is over 6 °C, so cool autumn days count for more and 89 % of the heat is found.
TOO_MILD = {("Bavaria", "sweet_corn", "07-10"): "mind"}


def found(place: Place) -> dict[str, list[Finding]]:
    """Findings by dates and weather, by the plantings they are about."""
    by_planting: dict[str, list[Finding]] = {}
    for one in check_all(Plan(place.garden(), YEAR), light=False):
        if one.check in BY_DATES:
            for key in one.plantings:
                by_planting.setdefault(key, []).append(one)
    return by_planting


def _agrees(line: Line, one: Finding) -> bool:
    named = one.check in line.says or f"{one.check}/{one.topic}" in line.says
    return named and (not line.gravity or one.severity in line.gravity)


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place.name)
def test_faults_are_told_as_gravely_as_a_grower_would(place: Place) -> None:
    said = found(place)
    missed = [
        (line.crop, line.first, [one.text for one in said.get(f"p{k}", [])])
        for k, line in enumerate(place.lines)
        if line.says and not any(_agrees(line, one) for one in said.get(f"p{k}", []))
    ]
    milder = [key[1:] for key in TOO_MILD if key[0] == place.name]
    assert [one for one in missed if one[:2] not in milder] == []
    assert [one[:2] for one in missed if one[:2] in milder] == milder, (
        "no longer too mild: take it off the list"
    )


def test_what_is_told_too_mildly_is_told() -> None:
    for (name, crop, first), gravity in TOO_MILD.items():
        place = next(one for one in PLACES if one.name == name)
        said = found(place)
        (k,) = [k for k, line in enumerate(place.lines) if (line.crop, line.first) == (crop, first)]
        assert gravity in {one.severity for one in said[f"p{k}"] if one.check in place.lines[k].says}


@pytest.mark.parametrize("place", [*PLACES, *ORDINARY], ids=lambda place: place.name)
def test_near_misses_are_not_told(place: Place) -> None:
    said = found(place)
    wrong = [
        (line.crop, line.first, [one.text for one in said[f"p{k}"]])
        for k, line in enumerate(place.lines)
        if not line.says and f"p{k}" in said
    ]
    assert wrong == []


@pytest.mark.parametrize("place", [*PLACES, *ORDINARY], ids=lambda place: place.name)
def test_near_misses_have_no_doubts_about_their_window(place: Place) -> None:
    plan = Plan(place.garden(), YEAR)
    doubts = [
        (line.crop, line.first, plan.dates(plan.garden.plantings_by_id[f"p{k}"]).doubts)
        for k, line in enumerate(place.lines)
        if not line.says
    ]
    assert [one for one in doubts if one[2]] == []


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place.name)
def test_a_start_that_is_offered_satisfies_all_checks_of_the_planting(place: Place) -> None:
    garden = place.garden()
    plan = Plan(garden, YEAR)
    for one in check_all(plan, light=False):
        if one.check not in BY_DATES:
            continue
        starts = [fix for fix in one.fixes if fix.text.startswith(("Sow ", "Set out ", "Plant "))]
        assert len({fix.text for fix in starts}) == len(starts) <= 1, one.text
        for fix in starts:
            after = check_all(Plan(fix.apply(garden), YEAR), light=False)
            left = [
                other.text
                for other in after
                if other.plantings[:1] == one.plantings[:1] and other.check in BY_DATES
            ]
            assert left == [], (one.text, fix.text)
