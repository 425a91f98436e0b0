"""Covers of a year: what lies under one sheet, what it takes, and that nothing is wanted twice at a time."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from making import bed, garden, planting, rectangle

from planner import resources
from planner.amounts.covers import GAP, covers
from planner.amounts.sharing import most_at_once
from planner.garden import Bed, Climate, FrostDates, Garden, Places, Planting, ShedItem, Site, Stretch
from planner.ground.covers import LEAST_HOOP, TALLEST_HOOP, laid_flat, on_hoops
from planner.listings.covers import height_remarks
from planner.plan import Plan
from planner.storage import load

CLIMATE = Climate(last_frost=FrostDates(risk_50="05-06"), first_frost=FrostDates(risk_50="10-17"))
SAMPLES = sorted(path.stem for path in resources.sample_folder().glob("*.bedwright"))


def day(month: int, of: int = 1) -> dt.date:
    return dt.date(2026, month, of)


MAY, AUGUST = day(5), day(8)


def cover(kind: str = "netting", first: dt.date = MAY, last: dt.date = AUGUST, **fields: object) -> dict:
    return {"kind": kind, "first": first, "last": last, **fields}


def carrots(
    key: str, bed_id: str, *its: dict, start: float | None = None, end: float = 0.0, **fields
) -> Planting:
    if start is not None:
        fields["plot"] = Stretch(start=start, end=end)
    return planting(key, bed_id, covers=its, first=day(4), last=day(11), **fields)


def plan_of(*things: Bed | Planting, **fields: object) -> Plan:
    return Plan(garden(*things, site=Site(latitude=52.0), climate=CLIMATE, **fields), 2026)


def test_two_plots_of_a_bed_lie_under_one_sheet():
    plan = plan_of(
        bed(), carrots("p1", "b1", cover(), start=0, end=2), carrots("p2", "b1", cover(), start=2, end=4.8)
    )
    (one,) = covers(plan).laid
    assert [part.planting.id for part in one.parts] == ["p1", "p2"]
    assert (one.length, one.width) == pytest.approx((4.8, 1.2))
    assert one.size == on_hoops(one.length, one.width, one.height)


@pytest.mark.parametrize(
    ("other", "together"),
    [
        (cover(), True),
        (cover(first=day(6)), True),
        (cover(first=day(8), last=day(10)), False),  # at another time
        (cover("fleece"), False),
        (cover(held="flat"), False),
        (cover(mesh=0.0008), False),
    ],
)
def test_only_covers_that_are_alike_at_the_same_time_are_one(other, together):
    plan = plan_of(
        bed(), carrots("p1", "b1", cover(), start=0, end=2), carrots("p2", "b1", other, start=2, end=4.8)
    )
    assert (len(covers(plan).laid) == 1) is together


@pytest.mark.parametrize(
    ("place", "turn", "together"),
    [
        ((4.8 + GAP - 0.01, 0.0), 0.0, True),
        ((4.8 + GAP - 0.01, 0.0), 180.0, True),
        ((4.8 + GAP + 0.1, 0.0), 0.0, False),  # too far
        ((5.0, 0.5), 0.0, False),  # not in line
        ((3.3, 0.0), 90.0, False),  # across
    ],
)
@pytest.mark.parametrize("about", [0.0, 33.0])
def test_beds_in_line_lie_under_one_sheet_however_the_plan_is_turned(place, turn, together, about):
    import math

    angle = math.radians(about)
    x, y = place
    center = (x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle))
    plan = plan_of(
        bed("b1", rectangle(turn=about)),
        bed("b2", rectangle(center=center, turn=about + turn)),
        carrots("p1", "b1", cover()),
        carrots("p2", "b2", cover()),
    )
    found = covers(plan).laid
    assert (len(found) == 1) is together
    if together:
        assert found[0].length == pytest.approx(2 * 4.8 + GAP - 0.01, abs=0.03)


def test_older_files_mean_hoops_for_nets_and_none_for_fleece():
    plan = plan_of(
        bed(),
        bed("b2", rectangle(center=(0, 9))),
        carrots("p1", "b1", cover()),
        carrots("p2", "b2", cover("fleece")),
    )
    net, fleece = sorted(covers(plan).laid, key=lambda one: one.kind, reverse=True)
    assert (net.held, fleece.held) == ("hoops", "flat")
    assert net.size.hoops == 5
    assert fleece.size == laid_flat(fleece.length, fleece.width, fleece.height)


def test_hoops_are_as_high_as_they_are_given():
    plan = plan_of(bed(), carrots("p1", "b1", cover(height=0.75)))
    assert covers(plan).laid[0].size == on_hoops(4.8, 1.2, 0.75)


def test_film_has_a_hole_for_each_plant_and_no_pegs():
    plan = plan_of(bed(), carrots("p1", "b1", cover("film")))
    (one,) = covers(plan).laid
    assert one.holes == plan.placed(plan.plantings[0]).plants > 0
    assert (one.size.weights, one.size.hoops) == (0, 0)


def test_single_plants_are_covered_and_not_their_bed():
    places = Places(points=((-1.0, 0.0), (1.0, 0.0)))
    plan = plan_of(bed(), carrots("p1", "b1", cover("cloche"), arrangement=places))
    (one,) = covers(plan).laid
    assert (one.length, one.width) == pytest.approx((2.5, 0.5))
    assert one.cloches == 2


def test_cloches_stand_over_the_plants_of_a_row():
    one = planting("p1", "b1", crop="courgette", start="bought", first=day(5, 20), last=day(9),
                   covers=(cover("cloche"),), arrangement={"kind": "rows", "in_row_spacing": 0.9, "rows": 1})  # fmt: skip
    plan = plan_of(bed(), one)
    (laid,) = covers(plan).laid
    assert laid.cloches == plan.placed(plan.plantings[0]).plants == 5


def tomatoes(last: dt.date, **fields: object) -> Planting:
    support = {"kind": "stake", "height": 1.8}
    its = (cover("low tunnel", day(6), last, **fields),)
    return planting(
        "p1", "b1", crop="tomato", start="bought", first=day(6), last=day(10), support=support, covers=its
    )


def test_hoops_are_as_high_as_what_grows_under_them_as_far_as_hoops_can_be():
    low = covers(plan_of(bed(), tomatoes(day(6, 12)))).laid[0]
    high = covers(plan_of(bed(), tomatoes(day(9)))).laid[0]
    assert low.height <= 0.6
    assert not low.too_low
    assert (high.height, high.plants, high.too_low) == (TALLEST_HOOP, 1.8, True)
    given = covers(plan_of(bed(), tomatoes(day(9), height=0.9))).laid[0]
    assert (given.height, given.too_low) == (0.9, True)


def test_a_height_that_is_not_known_is_said_and_not_taken_for_a_fact():
    one = planting("p1", "b1", crop="own_root", first=day(5), last=day(10), covers=(cover(),))
    plan = plan_of(bed(), one)
    (laid,) = covers(plan).laid
    assert not laid.height_known
    assert laid.height == LEAST_HOOP
    assert any("not known" in line for line in height_remarks(plan, laid))


def test_a_bed_too_wide_for_hoops_has_none_and_says_so():
    plan = plan_of(bed("b1", rectangle(20.0, 12.0)), carrots("p1", "b1", cover()))
    found = covers(plan)
    assert (found.laid[0].too_wide, found.laid[0].size.hoops) == (True, 0)
    assert "hoop" not in {one.kind for one in found.materials}
    assert any("too wide" in line for line in height_remarks(plan, found.laid[0]))


def test_a_net_lifted_in_june_serves_again_in_july():
    plan = plan_of(
        bed("b1"),
        bed("b2", rectangle(center=(0, 5))),
        carrots("p1", "b1", cover(last=day(6))),
        carrots("p2", "b2", cover(first=day(7))),
    )
    net = next(one for one in covers(plan).materials if one.kind == "netting")
    assert [(pile.number, len(pile.uses)) for pile in net.piles] == [(1, 2)]


def test_what_is_in_the_shed_is_taken_and_not_bought():
    shed = (
        ShedItem(id="m1", kind="netting", length=6.0, width=2.0),
        ShedItem(id="m2", kind="netting", length=9.0, width=9.0, sold=True),
        ShedItem(id="m3", kind="hoop", length=2.0, number=3),
        ShedItem(id="m4", kind="peg", number=100),
    )
    found = {
        one.kind: one for one in covers(plan_of(bed(), carrots("p1", "b1", cover()), shed=shed)).materials
    }
    assert [(pile.key, pile.origin) for pile in found["netting"].piles] == [("m1", "shed")]
    assert found["hoop"].number("new") == 2
    assert found["peg"].number("new") == 0
    assert not found["netting"].cuttings


def test_fleece_of_another_weight_does_not_serve():
    shed = (ShedItem(id="m1", kind="fleece", length=9.0, width=3.0, weight=17.0),)
    for weight, origin in ((17.0, "shed"), (None, "shed"), (30.0, "new")):
        plan = plan_of(bed(), carrots("p1", "b1", cover("fleece", weight=weight)), shed=shed)
        fleece = next(one for one in covers(plan).materials if one.kind == "fleece")
        assert [pile.origin for pile in fleece.piles] == [origin]


def test_rolls_that_the_garden_names_are_cut():
    shed = (ShedItem(id="m1", kind="netting", length=30.0, width=2.5, sold=True),)
    plan = plan_of(bed(), carrots("p1", "b1", cover()), shed=shed)
    (cutting,) = next(one for one in covers(plan).materials if one.kind == "netting").cuttings
    assert (cutting.width, cutting.cuts.bars(on_hand=False)) == (2.5, {30_000: 1})


def test_a_cover_wider_and_longer_than_any_roll_is_made_of_strips():
    shed = (ShedItem(id="m1", kind="netting", length=10.0, width=2.0, sold=True),)
    plan = plan_of(bed("b1", rectangle(18.0, 2.4)), carrots("p1", "b1", cover()), shed=shed)
    (one,) = covers(plan).laid
    (cutting,) = next(one for one in covers(plan).materials if one.kind == "netting").cuttings
    area = (
        sum(length * number * cut.times for cut in cutting.cuts.cuts for length, number in cut.pieces)
        * 2
        / 1000
    )
    assert not cutting.cuts.too_long
    assert area >= one.size.length * one.size.width


def test_what_lies_since_last_year_is_in_use_already():
    early = cover("fleece", first=dt.date(2025, 11, 1), last=day(3))
    plan = plan_of(bed(), planting("p1", covers=(early,), year=2025, first=dt.date(2025, 10, 1), last=day(6)))
    fleece = next(one for one in covers(plan).materials if one.kind == "fleece")
    assert [pile.origin for pile in fleece.piles] == ["lying"]


def hold(plan: Plan) -> None:
    """Each cover has its sheet, and no sheet or hoop is in two places on a day."""
    found = covers(plan)
    assert {part.planting.id for one in found.laid for part in one.parts} <= {p.id for p in plan.plantings}
    for material in found.materials:
        for pile in material.piles:
            jobs = [use.job._replace(number=use.number) for use in pile.uses]
            assert most_at_once(jobs) <= pile.number
            assert all(a >= b - 1e-6 for job in jobs for a, b in zip(pile.size, job.size, strict=True))
        sheets = sum(one.size.length > 0 for one in found.laid)
        if material.kind == "hoop":
            assert sum(use.number for pile in material.piles for use in pile.uses) == sum(
                one.size.hoops for one in found.laid
            )
    sheets = sum(not one.cloches for one in found.laid)
    kinds = ("fleece", "netting", "mulch film", "tunnel film")
    used = [use for m in found.materials if m.kind in kinds for pile in m.piles for use in pile.uses]
    assert len(used) == sheets


@pytest.mark.parametrize("name", SAMPLES)
def test_covers_of_the_samples(name):
    document: Garden = load(resources.sample_folder() / f"{name}.bedwright")
    for year in document.years():
        plan = Plan(document, year)
        hold(plan)
        wanted = {(p.id, one.kind) for p in plan.plantings for one in plan.dates(p).covers}
        laid = {(part.planting.id, one.kind) for one in covers(plan).laid for part in one.parts}
        assert laid <= wanted


@settings(max_examples=30, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.integers(0, 7),
            st.integers(4, 9),
            st.integers(0, 3),
            st.sampled_from(["fleece", "netting", "film", "low tunnel"]),
        ),
        min_size=1,
        max_size=8,
    ),
    st.lists(st.tuples(st.sampled_from(["fleece", "netting", "hoop"]), st.integers(1, 6)), max_size=3),
)
def test_nothing_is_wanted_twice_and_nothing_on_hand_is_bought(plots, there):
    beds = [bed(f"b{row}", rectangle(4.8, 1.2, center=(0, 2 * row))) for row in range(4)]
    its = [
        carrots(
            f"p{i}",
            f"b{at // 2}",
            cover(kind, day(first), day(min(12, first + long), 20)),
            start=2.4 * (at % 2),
            end=2.4 * (at % 2) + 2.4,
        )
        for i, (at, first, long, kind) in enumerate(plots)
    ]
    shed = tuple(
        ShedItem(id=f"m{i}", kind=kind, number=n, length=7.0, width=3.0) for i, (kind, n) in enumerate(there)
    )
    plan = plan_of(*beds, *its, shed=shed)
    hold(plan)
    for material in covers(plan).materials:
        for pile in material.piles:
            if pile.origin != "new" or len(pile.size) != 2:
                continue
            for use in pile.uses:
                for item in shed:
                    if item.kind == material.kind:
                        shared = [other for one in material.piles if one.key == item.id for other in one.uses]
                        at_once = most_at_once(
                            other.job
                            for other in shared
                            if other.job.first <= use.job.last and other.job.last >= use.job.first
                        )
                        assert at_once == item.number, "a sheet is bought that lies in the shed"


def test_film_has_a_hole_for_all_that_is_set_through_it_and_is_laid_for_the_first():
    film = [cover("film", first=day(5, 12))]
    later = [cover("film", first=day(5, 25))]
    plan = plan_of(
        bed(),
        carrots("p1", "b1", *later, start=0, end=1.8),
        carrots("p2", "b1", *film, start=1.8, end=4.8),
        planting(
            "p3", "b1", arrangement=Places(points=((-2.0, 0.4), (1.0, 0.4))), first=day(5, 28), last=day(9)
        ),
        planting(
            "p4", "b1", arrangement=Places(points=((0.5, 0.4),)), first=day(3), last=day(4)
        ),  # gone before
    )
    (one,) = covers(plan).laid
    own = sum(part.plants for part in one.parts)
    assert one.holes == own + 2
    assert one.through == (("p3", 2),)
    assert one.begins.planting.id == "p2"


def test_posts_go_through_the_film_that_is_laid_first():
    film = [cover("film", first=day(5, 24))]
    plan = plan_of(
        bed(), carrots("p1", "b1", *film, support={"kind": "net", "lines": 1, "height": 1.8, "spacing": 2.5})
    )
    (one,) = covers(plan).laid
    assert one.posts == 3  # along 4.8 m, one every 2.5 m
    assert one.holes == one.parts[0].plants + 3
