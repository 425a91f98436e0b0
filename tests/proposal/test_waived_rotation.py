"""Rotation that the gardener waived of a crop on some ground: a wish for it there inherits the waiver."""

from __future__ import annotations

from typing import Any

import pytest
from making import bed, garden, planting, rectangle

from planner.checks import Finding, check_all
from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Site, Structure, Wish, edits
from planner.garden.edits.common import put
from planner.listings.proposal import proposal_lines
from planner.plan import Plan
from planner.proposal.layouts import accepted
from planner.proposal.propose import Proposal, propose
from planner.proposal.reasons import Reasons

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
WHY = "Compost every spring"
FOOT = {"kind": "stretch", "start": 0.0, "end": 1.0}


def wish(crop: str = "pea", **fields: Any) -> Wish:
    return Wish.model_validate(
        {"id": "w1", "year": 2027, "crop": crop, "amount": 1.2, "unit": "m2", **fields}
    )


def rotation_of(there: Garden, year: int) -> list[Finding]:
    return [one for one in check_all(Plan(there, year, CATALOGUE)) if one.check == "rotation"]


def made(*wishes: Wish, waived: bool = True, crop: str = "pea") -> Garden:
    """Peas in two years on the first metre of the one bed there is, and the finding of the second year waived."""
    there = garden(
        bed("b1", rectangle(3.0, 1.2), name="Long"),
        planting("p1", "b1", crop=crop, year=2025, plot={"kind": "whole"}),
        planting("p2", "b1", crop=crop, year=2026, plot=FOOT),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        wishes=wishes,
    )
    (found,) = rotation_of(there, 2026)
    return edits.waive(there, found.key, WHY) if waived else there


def laid_out(there: Garden, year: int = 2027) -> Proposal:
    *_, last = propose(Plan(there, year, CATALOGUE), rounds=1)
    assert last.judged
    return last


def test_a_wish_for_the_crop_stands_where_its_rotation_was_waived() -> None:
    found = laid_out(made(wish()))
    assert not found.unmet
    new = found.garden.plantings[-1]
    assert (new.plot.kind, new.plot.start, new.plot.end) == ("stretch", 0.0, 1.0)
    words = "\n".join(proposal_lines(found, Reasons(found.of, found.layout)))
    assert f"Its family may come back there sooner, as you said: {WHY}" in words


def test_the_check_does_not_object_to_what_is_taken_over() -> None:
    there = made(wish())
    found = laid_out(there)
    plan = Plan(there, 2027, CATALOGUE)
    new = found.garden.plantings[len(there.plantings) :]
    for after in (found.garden, accepted(plan, new, ())):
        (finding,) = rotation_of(after, 2027)
        assert finding.plantings[0] == new[0].id
        assert finding.waived == WHY


def test_without_a_waiver_that_holds_it_is_not_met() -> None:
    assert laid_out(made(wish(), waived=False)).unmet
    stale = edits.waive(made(wish(), waived=False), "rotation/p2/000000000000", WHY)
    assert laid_out(stale).unmet


def test_another_crop_of_the_family_and_other_ground_inherit_nothing() -> None:
    assert laid_out(made(wish("broad_bean"))).unmet
    assert laid_out(made(wish(amount=2.4, in_part=False))).unmet  # more than the ground that was waived


def test_of_more_than_fits_there_as_much_is_planted_as_does() -> None:
    found = laid_out(made(wish(amount=2.4)))
    assert [one.id for one in found.in_part] == ["w1"]
    assert found.garden.plantings[-1].plot.end == 1.0


def test_it_is_inherited_year_after_year() -> None:
    there = laid_out(made(wish())).garden
    there = put(there, wishes=(*there.wishes, wish(id="w2", year=2028)))
    found = laid_out(there, 2028)
    assert not found.unmet
    assert [one.waived for one in rotation_of(found.garden, 2028)] == [WHY]


# -- at an arch ----------------------------------------------------------------------------------------


@pytest.fixture
def arch() -> Garden:
    """Two beds with an arch between them, beans at both its feet for two years; waived at the foot in the first."""
    beds = [bed(f"b{n}", rectangle(3.0, 1.2, center=(0.0, 2.0 * n)), name=f"Row {n}") for n in range(2)]
    stands = Structure(
        id="s1",
        kind="arch",
        name="bean arch",
        height=2.3,
        outline=rectangle(0.8, 0.8, center=(-1.1, 1.0)),
    )
    foot = {"kind": "stretch", "start": 0.1, "end": 0.7}
    rows = {"kind": "rows", "spacing_for": "field rows", "in_row_spacing": 0.2, "rows": 1, "turn": 90.0}
    old = [
        planting(
            f"p{year}{n}",
            f"b{n}",
            crop="climbing_bean",
            year=year,
            plot=foot,
            arrangement=rows,
            support={"kind": "arch", "height": 2.3},
        )
        for year in (2025, 2026)
        for n in range(2)
    ]
    there = garden(
        *beds,
        *old,
        structures=(stands,),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
    )
    findings = {one.plantings[0]: one for one in rotation_of(there, 2026)}
    return edits.waive(there, findings["p20260"].key, WHY)


def test_beans_stay_at_the_foot_where_it_was_waived(arch: Garden) -> None:
    plants = Plan(arch, 2026, CATALOGUE).placed(arch.plantings_by_id["p20260"]).plants
    wished = wish("climbing_bean", amount=plants, unit="plants", like="p20261")
    found = laid_out(put(arch, wishes=(wished,)))
    assert not found.unmet
    assert found.garden.plantings[-1].bed == "b0"
    twice = wished.with_(amount=2 * plants, parts=2)
    found = laid_out(put(arch, wishes=(twice,)))
    assert [one.id for one in found.in_part] == ["w1"]
    words = "\n".join(proposal_lines(found, Reasons(found.of, found.layout)))
    assert f"{plants} of {2 * plants} plants" in words
    assert "All of it would fit in Row 0 from 0.10 m on and Row 1 from 0.10 m on, if the pea family" in words
