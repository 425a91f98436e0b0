"""Supports of a year by length and number."""

from __future__ import annotations

import datetime as dt
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from making import bed, garden, planting, rectangle

from planner import resources
from planner.amounts.sharing import most_at_once
from planner.amounts.sold_sizes import cut_length
from planner.amounts.supports import Piece, PutUp, supports
from planner.garden import Garden, ShedItem, Site
from planner.garden.units import FOOT, INCH
from planner.ground.support_materials import DRIVEN, RAIL_POST_SPACING, STRING_KNOTS, WIRE_FIXING
from planner.plan import Plan
from planner.storage import load

SAMPLES = sorted(path.stem for path in resources.sample_folder().glob("*.bedwright"))


def put_up(
    kind: str, crop: str = "pea", shed: tuple[ShedItem, ...] = (), **fields: object
) -> tuple[Plan, PutUp]:
    days = {"first": dt.date(2026, 4, 10), "last": dt.date(2026, 8, 10)}
    one = planting("p1", crop=crop, support={"kind": kind, "height": 1.5, **fields}, **days)
    plan = Plan(garden(bed("b1", rectangle(6.0, 1.2)), one, site=Site(latitude=52.0), shed=shed), 2026)
    return plan, supports(plan).put_up[0]


def by_kind(one: PutUp) -> dict[str, list[Piece]]:
    found: dict[str, list[Piece]] = {}
    for piece in one.pieces:
        found.setdefault(piece.kind, []).append(piece)
    return found


def test_a_net_hangs_between_posts():
    _, one = put_up("net", lines=1, spacing=1.8)
    pieces = by_kind(one)
    assert pieces["climbing net"] == [Piece("climbing net", 1, 6.0, 1.5)]
    assert pieces["post"] == [Piece("post", math.ceil(6.0 / 1.8) + 1, 1.5 + DRIVEN)]
    assert one.string == pytest.approx(12.0)


def test_a_stake_of_six_feet_stands_five_high():
    # University of Minnesota Extension, Trellises and cages: driven 1 ft.
    _, one = put_up("stake", crop="tomato", height=5 * FOOT)
    stakes = by_kind(one)["stake"]
    assert stakes[0].length == pytest.approx(6 * FOOT, abs=0.05)
    assert stakes[0].number == 1 * sum(piece.number for piece in stakes)


def test_wires_run_one_above_another():
    _, one = put_up("wire", crop="raspberry", lines=1)
    assert by_kind(one)["wire"] == [Piece("wire", 2, 6.0 + WIRE_FIXING)]


def test_a_net_over_flowers_is_one_piece_that_lies_level():
    _, one = put_up("net", crop="snapdragon", height=0.4)
    pieces = by_kind(one)
    assert pieces["climbing net"] == [Piece("climbing net", 1, 6.0, 1.2)]
    assert pieces["post"] == [Piece("post", 10, 0.7)]


@pytest.mark.parametrize(("kind", "height", "size"), [("stake", 5, 6), ("sticks", 3, 4), ("net", 5, 6)])
def test_in_feet_what_is_six_feet_long_is_cut_from_six_feet(kind, height, size):
    crop = "tomato" if kind == "stake" else "pea"
    days = {"first": dt.date(2026, 4, 10), "last": dt.date(2026, 8, 10)}
    one = planting("p1", crop=crop, support={"kind": kind, "height": height * FOOT}, **days)
    site = Site(latitude=40.0, units="feet_inches")
    found = supports(Plan(garden(bed("b1", rectangle(10 * FOOT, 4 * FOOT)), one, site=site), 2026))
    bar = next(m for m in found.materials if m.kind in ("stake", "stick", "post"))
    (pile,) = bar.piles
    assert pile.size[0] == pytest.approx(size * FOOT, abs=1e-6)
    (cutting,) = bar.cuttings
    assert cutting.cuts.waste == 0


@settings(max_examples=30, deadline=None)
@given(st.floats(0.3, 4.0))
def test_lengths_are_cut_to_whole_inches_or_steps_and_never_short(length):
    for units, step in (("metric", 0.05), ("feet_inches", INCH)):
        cut = cut_length(length, units)
        assert length - 3e-6 <= cut <= length + step + 1e-4
        assert cut / step == pytest.approx(round(cut / step), abs=2e-3)


def test_strings_hang_from_a_rail_one_to_a_plant():
    plan, one = put_up("strings", crop="tomato", lines=1)
    pieces = by_kind(one)
    plants = plan.placed(one.planting).plants
    assert pieces["rail"] == [Piece("rail", 1, 6.0)]
    assert pieces["post"][0].number == math.ceil(6.0 / RAIL_POST_SPACING) + 1
    assert one.string == pytest.approx(plants * (1.5 + STRING_KNOTS))


def test_panels_stand_side_by_side():
    _, one = put_up("panel", lines=1)
    pieces = by_kind(one)
    assert pieces["panel"][0].number == 4
    assert pieces["post"][0].number == 5


def test_the_net_of_arches_is_as_long_as_their_hoops():
    _, one = put_up("arch", height=2.3, line=((-1.0, 0.0), (1.0, 0.0)))
    hoop = by_kind(one)["hoop"][0]
    net = by_kind(one)["climbing net"][0]
    assert net.number == 1
    assert net.length == pytest.approx(hoop.length - 2 * DRIVEN, abs=0.06)
    assert net.width == pytest.approx(1.0)


def test_ties_are_of_string():
    plan, one = put_up("stake", crop="tomato")
    plants = plan.placed(one.planting).plants
    assert by_kind(one)["tie"][0].number == 5 * plants
    assert one.string == pytest.approx(5 * plants * 0.4)
    assert "tie" not in {material.kind for material in supports(plan).materials}


def test_posts_in_the_shed_are_taken_first_and_long_ones_cut():
    shed = (
        ShedItem(id="m1", kind="post", length=2.0, number=2),
        ShedItem(id="m2", kind="post", length=4.0, number=1),
        ShedItem(id="m3", kind="string", length=10.0),
    )
    plan, _ = put_up("net", lines=1, spacing=1.8, shed=shed)
    found = supports(plan)
    post = next(one for one in found.materials if one.kind == "post")
    assert {pile.key: pile.number for pile in post.piles if pile.origin == "shed"} == {"m1": 2}
    assert post.number("new") == 3
    cuts = post.cuttings[0].cuts
    assert cuts.bars(on_hand=True) == {4000: 1}
    assert sum(cuts.bars(on_hand=False).values()) == 1
    assert (found.string, found.string_to_buy) == pytest.approx((12.0, 2.0))


def test_posts_are_free_again_when_a_support_is_cleared():
    early = planting(
        "p1",
        crop="pea",
        support={"kind": "net", "lines": 1},
        first=dt.date(2026, 3, 10),
        last=dt.date(2026, 6, 30),
    )
    late = planting(
        "p2",
        crop="pea",
        support={"kind": "net", "lines": 1},
        first=dt.date(2026, 8, 1),
        last=dt.date(2026, 11, 1),
    )
    plan = Plan(garden(bed(), early, late, site=Site(latitude=52.0)), 2026)
    found = supports(plan)
    assert len(found.put_up) == 2
    for material in found.materials:
        assert material.number("new") == sum(
            piece.number for piece in found.put_up[0].pieces if piece.kind == material.kind
        )


@pytest.mark.parametrize("name", SAMPLES)
def test_supports_of_the_samples(name):
    document: Garden = load(resources.sample_folder() / f"{name}.bedwright")
    for year in document.years():
        plan = Plan(document, year)
        found = supports(plan)
        assert {one.planting.id for one in found.put_up} <= {p.id for p in plan.plantings if p.support}
        wanted: dict[str, int] = {}
        for one in found.put_up:
            for piece in one.pieces:
                wanted[piece.kind] = wanted.get(piece.kind, 0) + piece.number
        for material in found.materials:
            used = sum(use.number for pile in material.piles for use in pile.uses)
            assert used == wanted[material.kind]
            for pile in material.piles:
                assert most_at_once(use.job._replace(number=use.number) for use in pile.uses) <= pile.number
