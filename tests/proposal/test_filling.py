"""What could still go in: each offer is really planted, and judged by the ordinary checks."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting, rectangle
from test_proposals import CATALOGUE, CLIMATE

from planner.checks import check_all
from planner.garden import Garden, Site, Stretch, Wish
from planner.garden.edits.common import put
from planner.plan import Plan
from planner.proposal.bare import bare_in_winter
from planner.proposal.filling import fillings

D = dt.date
BEDS = [bed(f"b{n}", rectangle(4.0, 1.2, center=(0.0, 2.0 * n)), name=f"Bed {n}") for n in range(3)]


def there(**fields: object) -> Garden:
    return garden(
        *BEDS,
        planting("p1", "b0", crop="pea", year=2026, plot=Stretch(start=0, end=2.5), last=D(2026, 7, 15)),
        planting("p2", "b0", crop="kale", year=2026, plot=Stretch(start=2.5, end=4)),
        planting("p3", "b1", crop="lettuce", year=2026, last=D(2026, 6, 30)),
        planting("p4", "b1", crop="garlic", year=2026, timing="autumn"),
        planting("p5", "b2", crop="potato", year=2026),
        planting("p6", "b2", crop="spinach", year=2025),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
        **fields,
    )


@pytest.mark.parametrize("day", [D(2026, 3, 25), D(2026, 5, 20), D(2026, 7, 20), D(2026, 9, 5)])
def test_each_offer_can_really_be_planted(day: dt.date):
    one = there()
    plan = Plan(one, 2026, CATALOGUE)
    before = {found.key for found in check_all(plan)}
    offered = [(ground, offer) for ground in plan.beds for offer in fillings(plan, ground, day)]
    for ground, offer in offered:
        assert day <= offer.span.first
        new = offer.planting.with_(id="p99")
        after = Plan(put(one, plantings=(*one.plantings, new)), 2026, CATALOGUE)
        assert after.placed(new).plants == offer.plants
        against = [
            found.text
            for found in check_all(after)
            if "p99" in found.plantings
            and found.key not in before
            and (found.severity == "stop" or found.check in ("overlap", "rotation", "standing"))
        ]
        assert not against, (ground.name, offer.crop.key)
    if day == D(2026, 7, 20):
        assert {ground.id for ground, _ in offered} >= {"b0", "b1"}


def test_cabbages_do_not_follow_or_precede_a_short_crop_of_their_family_but_corn_salad_follows_corn_salad():
    one = garden(
        *BEDS[:2],
        planting("p1", "b0", crop="radish", year=2026, first=D(2026, 4, 20), last=D(2026, 5, 30)),
        planting("p2", "b1", crop="corn_salad", year=2026, first=D(2026, 3, 25), last=D(2026, 6, 5)),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=CLIMATE,
    )
    plan = Plan(one, 2026, CATALOGUE)

    def offered(number: int, day: dt.date, last: dt.date | None = None) -> set[str]:
        return {offer.crop.key for offer in fillings(plan, plan.beds[number], day, last)}

    cabbages = {key for key, crop in CATALOGUE.crops.items() if crop.family == "Brassicaceae"}
    assert offered(1, D(2026, 7, 10)) & cabbages  # there is one that would come in time elsewhere
    assert not offered(0, D(2026, 7, 10)) & cabbages
    assert "corn_salad" in offered(1, D(2026, 8, 10))
    behind = put(one, plantings=(one.plantings[0].with_(first=D(2026, 8, 10), last=D(2026, 9, 20)),))
    before = fillings(Plan(behind, 2026, CATALOGUE), BEDS[0], D(2026, 4, 20), D(2026, 7, 31))
    assert before
    assert not {offer.crop.key for offer in before} & cabbages


def test_nothing_is_offered_where_all_is_taken():
    full = there().with_(plantings=(planting("p1", "b0", crop="kale", year=2026),))
    plan = Plan(full, 2026, CATALOGUE)
    assert fillings(plan, BEDS[0], D(2026, 7, 1)) == ()
    assert fillings(plan, BEDS[1], D(2026, 7, 1))


def test_unmet_wishes_come_first_and_then_what_was_grown_here():
    one = there(wishes=(Wish(id="w1", year=2026, crop="radish", amount=40),))
    found = fillings(Plan(one, 2026, CATALOGUE), BEDS[1], D(2026, 7, 5))
    assert found[0].crop.key == "radish"
    assert found[0].wish is not None
    known = [
        offer.grown_before
        for offer in found
        if offer.wish is None and offer.planting.purpose != "green manure"
    ]
    assert known == sorted(known, reverse=True)


def test_a_tender_green_manure_is_not_sown_into_frost_nor_any_when_winter_is_there():
    plan = Plan(garden(*BEDS, site=Site(latitude=54.0, longitude=-2.0), climate=CLIMATE), 2026, CATALOGUE)

    def manures(day: dt.date) -> set[str]:
        return {
            offer.crop.key
            for offer in fillings(plan, BEDS[0], day)
            if offer.planting.purpose == "green manure"
        }

    assert "buckwheat" not in manures(D(2026, 4, 1))
    assert "buckwheat" in manures(D(2026, 6, 10))
    assert manures(D(2026, 10, 5)) <= {"winter_rye", "winter_vetch", "red_clover", "white_clover", "lucerne"}
    assert "winter_rye" in manures(D(2026, 10, 5))
    assert manures(D(2026, 12, 1)) == set()


def test_bare_ground_is_bare_in_winter():
    plan = Plan(there(), 2026, CATALOGUE)
    found = {one.bed.id: one for one in bare_in_winter(plan)}
    assert "b1" not in found  # garlic takes all of it
    assert found["b2"].since > D(2026, 6, 1)
    for one in found.values():
        for other in plan.garden_in_bed(one.bed.id):
            span = plan.span_of(other)
            if span.first <= D(2026, 11, 21) <= span.last:
                plot = other.plot
                start, end = (plot.start, plot.end) if isinstance(plot, Stretch) else (0.0, 4.0)
                assert end <= one.start + 0.11 or one.end <= start + 0.11
        if one.manure is not None:
            assert one.manure.span.first > one.since
