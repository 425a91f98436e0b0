"""Ground that is proposed for a crop is such that the checks have nothing grave against it."""

from __future__ import annotations

import pytest
from making import bed, garden, planting, rectangle
from sample_reading import FOLDER

from planner.amounts.closing import closings
from planner.amounts.enough import find_room, planting_edit
from planner.amounts.supply_year import crop_years
from planner.checks import check_all
from planner.checks.unfit_ground import unfit_ground
from planner.garden import Structure
from planner.plan import Plan
from planner.storage import load

HOLLOW = load(FOLDER / "hollow_lane.bedwright")
SPARSE = HOLLOW.with_(
    plantings=tuple(one for number, one in enumerate(HOLLOW.plantings) if one.year != 2026 or number % 3)
)


def room(document, crop: str, *, asked: bool):
    plan = Plan(document, 2026)
    found = plan.catalogue.crops[crop]
    return find_room(
        plan, found, "", plan.usual_dates(found), 400, refusal=unfit_ground(plan) if asked else None
    )


def two_beds(**fields):
    beds = (bed("b1", rectangle(3, 1.2)), bed("b2", rectangle(2, 1.2, center=(6, 0))))
    return garden(*beds, site=HOLLOW.site, climate=HOLLOW.climate, **fields)


def test_ground_of_the_family_is_passed_over_for_other_ground():
    document = two_beds()
    old = planting("p1", bed="b2", crop="carrot", year=2025)
    document = document.with_(plantings=(old,))
    assert [spot.bed.id for spot in room(document, "carrot", asked=False).spots] == ["b2"]
    found = room(document, "carrot", asked=True)
    assert [spot.bed.id for spot in found.spots] == ["b1"]
    assert [key.id for key, _ in found.refused] == ["b2"]
    assert "1 year ago" in found.refused[0][1]


def test_ground_in_the_shade_is_passed_over():
    wall = Structure(
        id="s1", name="Wall", kind="wall", height=6.0, outline=rectangle(8, 0.4, center=(6, -1.0))
    )
    document = two_beds().with_(structures=(wall,))
    found = room(document, "tomato", asked=True)
    assert "b2" not in [spot.bed.id for spot in found.spots]
    assert [key.id for key, _ in found.refused] == ["b2"]
    assert "sun" in found.refused[0][1]


@pytest.mark.parametrize("document", [SPARSE])
def test_what_closes_a_gap_brings_no_grave_finding_of_rotation_and_light(document):
    plan = Plan(document, 2026)
    why, tried = unfit_ground(plan), 0
    before = {one.key for one in check_all(plan)}
    for year in crop_years(plan):
        for _, closing in closings(plan, year, why):
            if closing is None or not closing.spots or tried == 4:
                continue
            tried += 1
            edited = planting_edit(closing.spots)(document)
            new = {one.id for one in edited.plantings} - {one.id for one in document.plantings}
            come = [one for one in check_all(Plan(edited, 2026)) if one.key not in before]
            grave = [
                one
                for one in come
                if one.check in ("rotation", "light")
                and one.severity != "note"
                and one.plantings
                and one.plantings[0] in new
            ]
            assert grave == []
    assert tried == 4
