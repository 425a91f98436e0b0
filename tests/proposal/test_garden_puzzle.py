"""The puzzle of a garden against the garden itself: real stations, the rotation check and the light check.

Each rule of the puzzle is worked out a second time the slow way: a planting is really put there, laid out, and judged by the
ordinary checks.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from typing import Any

import pytest
from making import bed, garden, planting, rectangle

from planner.checks import light, rotation
from planner.checks.frame.context import CheckContext
from planner.checks.frame.finding import Finding
from planner.checks.run import Check, run_checks
from planner.crops import load_catalogue
from planner.garden import Circle, Climate, FrostDates, Garden, Polygon, Site, Stretch, Structure, Wish
from planner.garden import edits as e
from planner.plan import Plan
from planner.proposal.garden_puzzle import free_to_move, garden_puzzle
from planner.proposal.judging import with_real_lengths
from planner.proposal.layouts import garden_with
from planner.proposal.offers import GardenPuzzle
from planner.proposal.packing import longest_run
from planner.proposal.puzzle import Choice, Option

CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
EVEN = [
    bed(f"b{n}", rectangle(length, 1.2, center=(0.0, 3.0 * n))) for n, length in enumerate((4.8, 3.0, 6.05))
]
L_SHAPE = bed("bl", Polygon(points=((0, 0), (4, 0), (4, 1), (1, 1), (1, 3), (0, 3)), center=(12.0, 0.0)))
ROUND = bed("bo", Circle(radius=0.9, center=(12.0, 8.0)))


def made(*things: Any, wishes: tuple[Wish, ...] = (), **fields: Any) -> Garden:
    more: dict[str, Any] = {"site": Site(latitude=54.0, longitude=-2.0), "climate": CLIMATE, **fields}
    return garden(*things, wishes=wishes, **more)


def wish(key: str = "w1", crop: str = "carrot", amount: float | None = 60, **fields: Any) -> Wish:
    return Wish(id=key, year=2027, crop=crop, amount=amount, **fields)


def plan_of(one: Garden, year: int = 2027) -> Plan:
    return Plan(one, year, CATALOGUE)


def puzzle_of(*things: Any, **fields: Any) -> GardenPuzzle:
    return garden_puzzle(plan_of(made(*things, **fields)))


def starts(of: GardenPuzzle, option: Option) -> Iterator[int]:
    """Steps at which an option may begin, all else gone."""
    ground = of.puzzle.beds[option.bed]
    for start in range(ground.length - option.length + 1):
        end = start + option.length
        if all(end <= one.start or one.end <= start for one in option.shut) and all(
            end <= one.start or one.end <= start or one.last < option.first or option.last < one.first
            for one in ground.blocks
        ):
            yield start


def findings(garden: Garden, name: str, check: Check) -> list[Finding]:
    return run_checks(CheckContext(plan_of(garden)), {name: check})


# -- how much of a bed a wish takes -------------------------------------------------------------------


@pytest.mark.parametrize("crop", ["carrot", "lettuce", "cabbage", "potato", "onion", "courgette"])
@pytest.mark.parametrize(("unit", "amount"), [("plants", 12), ("m", 5.0), ("m2", 2.0), ("g", 3000)])
def test_a_wish_takes_the_shortest_stretch_with_room_for_it(crop: str, unit: Any, amount: float):
    """Beside all stretches of each bed, laid out one after the other."""
    of = puzzle_of(*EVEN, wishes=(wish(crop=crop, amount=amount, unit=unit),))
    plan, tried = of.plan, 0

    def held(choice: Option, draft: Any, length: int) -> float:
        strip = of.strips[choice.bed]
        one = draft.with_(bed=strip.bed.id, plot=strip.plot(0, length))
        placed = plan.trial(one)
        if unit == "g":
            from planner.plan.yields import YieldInputs, yield_of_planting

            return yield_of_planting(YieldInputs(one, plan.figures_of(one), placed)).grams or 0
        return {"plants": placed.plants, "m": placed.layout.row_length, "m2": placed.area}[unit]

    options = {one.bed: (one, offer) for one, offer in zip(of.puzzle.options, of.offers, strict=True)}
    for at, strip in enumerate(of.strips):
        if at not in options:
            draft = of.offers[0].way.draft if of.offers else None
            if draft is not None:
                assert held(of.puzzle.options[0]._replace(bed=at), draft, strip.length) < amount
            continue
        option, offer = options[at]
        enough = [
            length
            for length in range(1, strip.length + 1)
            if held(option, offer.way.draft, length) >= amount - 1e-6
        ]
        assert option.length == max(enough[0], 3)  # less than 0.3 m is no stretch for a bed
        tried += 1
    assert tried or not of.puzzle.options


@pytest.mark.parametrize("ground", [L_SHAPE, ROUND], ids=["L-shaped", "round"])
@pytest.mark.parametrize("crop", ["lettuce", "onion"])
def test_in_an_uneven_bed_the_real_plants_decide(ground: Any, crop: str):
    of = puzzle_of(ground, wishes=(wish(crop=crop, amount=8),))
    assert of.puzzle.options
    for number, option in enumerate(of.puzzle.options):
        for start in starts(of, option):
            choice = Choice(number, start)
            real = with_real_lengths(of, (choice,))
            option_now = real.puzzle.options[number]
            if start not in list(starts(real, option_now)):
                continue  # there is not room for so many from there on
            after = garden_with(real, (choice,))
            assert plan_of(after).placed(after.plantings[-1]).plants >= 8


# -- old ground -------------------------------------------------------------------------------------


@pytest.mark.parametrize("seed", range(6))
def test_ground_is_shut_where_the_rotation_check_speaks(seed: int):
    """Beside the check: the planting is put at each step of each bed, over beds that were others before."""
    rng = random.Random(seed)
    old = [
        bed("o1", rectangle(4.8, 1.2, center=(0.3, 0.4)), last_year=2025),
        bed("o2", rectangle(3.0, 1.5, center=(1.0, 3.2)), last_year=2026),
    ]
    past = [
        planting(
            f"p{n}",
            rng.choice(["o1", "o2", "b0", "b1", "b2"]),
            crop=rng.choice(["parsnip", "carrot", "lettuce", "celeriac", "onion"]),
            year=rng.randint(2022, 2026),
            plot=Stretch(start=(start := rng.randint(0, 20) / 10), end=start + rng.randint(4, 9) / 10),
        )
        for n in range(1, 9)
    ]
    of = puzzle_of(*EVEN, *old, *past, wishes=(wish(crop="carrot", amount=40),))
    assert len(of.puzzle.options) >= 3
    seen = set()
    for number, option in enumerate(of.puzzle.options):
        open_starts = set(starts(of, option))
        for start in range(0, of.puzzle.beds[option.bed].length - option.length + 1, 2):
            one = garden_with(of, (Choice(number, start),))
            found = findings(one, rotation.CHECK, rotation.check)
            mine = [f for f in found if f.plantings[0] == one.plantings[-1].id]
            if start in open_starts:
                assert not mine, (option.bed, start, mine[0].text)
            else:
                shared = [
                    min(start + option.length, shut.end) - max(start, shut.start) for shut in option.shut
                ]
                if max(shared) >= 0.5 * option.length:  # a little old ground is no matter
                    assert mine, (option.bed, start)
            seen.add(bool(mine))
    assert seen


def test_a_wish_may_let_its_family_come_back_sooner():
    past = planting("p1", "b0", crop="parsnip", year=2025)
    shut = puzzle_of(EVEN[0], past, wishes=(wish(crop="carrot", amount=40),))
    open_ = puzzle_of(EVEN[0], past, wishes=(wish(crop="carrot", amount=40, back_after=1),))
    assert all(not list(starts(shut, one)) for one in shut.puzzle.options)
    assert any(list(starts(open_, one)) for one in open_.puzzle.options)


# -- light ------------------------------------------------------------------------------------------


def test_beds_are_dark_where_the_light_check_says_so():
    """Beside the check, with the planting over each whole bed between walls of many heights."""
    walls = [
        Structure(
            id=f"s{n}",
            name=f"Wall {n}",
            kind="wall",
            height=height,
            outline=rectangle(6, 0.3, center=(7.0 * n, -1.2)),
        )
        for n, height in enumerate((0.5, 1.5, 2.5, 4.0))
    ]
    beds = [bed(f"b{n}", rectangle(4.8, 1.2, center=(7.0 * n, 0.0))) for n in range(4)]
    agree = 0
    for crop in ("tomato", "lettuce", "potato", "spinach"):
        of = puzzle_of(*beds, structures=tuple(walls), wishes=(wish(crop=crop, amount=4),))
        for number, option in enumerate(of.puzzle.options):
            if option.way != 1:
                continue
            dark = any(of.rules[one.rule].kind == "light" for one in option.shut)
            one = garden_with(of, (Choice(number, 0),))
            whole = e.change_planting(one, one.plantings[-1].id, plot={"kind": "whole"})
            found = [
                f for f in findings(whole, light.CHECK, light.check) if whole.plantings[-1].id in f.plantings
            ]
            grave = any(f.severity in ("stop", "mind") for f in found)
            assert dark or not grave, (crop, option.bed)  # nothing that the check forbids is offered
            agree += dark == bool(found)
    assert agree >= 13  # of 16: near the need the coarse measure is careful


# -- what is given, and what is free ----------------------------------------------------------------


def test_what_stands_or_is_pinned_stays_and_the_rest_of_the_wishes_is_free():
    wishes = (wish("w1"), wish("w2", "lettuce", 8), wish("w3", "pea", 40))
    one = made(
        *EVEN,
        planting("p1", "b0", year=2027, wish="w1"),
        planting("p2", "b1", crop="lettuce", year=2027, wish="w2", pinned=True),
        planting("p3", "b2", crop="pea", year=2027, wish="w3"),
        planting("p4", "b2", crop="kale", year=2027, plot=Stretch(start=4, end=5)),
        wishes=wishes,
    )
    record = {"kind": "picked", "day": "2027-07-01", "planting": "p3", "amount": {"value": 300, "unit": "g"}}
    picked, _ = e.add_records(one, [record])
    assert [p.id for p in free_to_move(picked, 2027)] == ["p1"]
    assert [p.id for p in free_to_move(picked, 2027, ["b1"])] == []
    of = garden_puzzle(plan_of(picked))
    assert [one.id for one in of.wishes] == ["w1"]
    assert set(of.met) == {"w2", "w3"}
    assert {p.id for p in of.plan.garden.plantings} == {"p2", "p3", "p4"}


def test_a_planting_keeps_its_id_where_its_wish_is_met_again():
    one = made(
        *EVEN, planting("p7", "b0", year=2027, wish="w1"), wishes=(wish("w1"), wish("w2", "lettuce", 8))
    )
    of = garden_puzzle(plan_of(one))
    layout = tuple(
        Choice(
            next(n for n, option in enumerate(of.puzzle.options) if option.wish == w and option.bed == w), 0
        )
        for w in (0, 1)
    )
    after = garden_with(of, layout)
    assert [(p.id, p.wish) for p in after.plantings] == [("p7", "w1"), ("p8", "w2")]


def test_only_the_beds_and_the_kinds_of_ground_that_are_wished():
    pot = bed("pot", rectangle(1.0, 1.0, center=(20, 0)), kind="container")
    glass = bed("glass", rectangle(3.0, 1.2, center=(30, 0)), kind="under glass")
    of = puzzle_of(
        *EVEN,
        pot,
        glass,
        wishes=(
            wish("w1", beds=("b1", "b2")),
            wish("w2", "lettuce", 3, ground="container"),
            wish("w3", "lettuce", 4, ground="under glass"),
            wish("w4", "lettuce", 4),
        ),
    )
    beds = [{of.strips[o.bed].bed.id for o in of.puzzle.options if o.wish == n} for n in range(4)]
    assert beds == [{"b1", "b2"}, {"pot"}, {"glass"}, {"b0", "b1", "b2", "glass"}]


def test_parts_are_even_and_hold_all_of_it():
    of = puzzle_of(*EVEN, wishes=(wish(amount=100, parts=3),))
    for number, option in enumerate(of.puzzle.options):
        one = garden_with(of, (Choice(number, 0),))
        assert plan_of(one).placed(one.plantings[-1]).plants * option.parts >= 100
    assert {one.parts for one in of.puzzle.options} == {1, 2, 3}


def test_a_harvest_by_a_day_is_begun_for_it():
    soon = puzzle_of(EVEN[0], wishes=(wish("w1", "lettuce", 8, latest="2027-07-14"),))
    late = puzzle_of(EVEN[0], wishes=(wish("w1", "lettuce", 8, earliest="2027-08-20"),))
    first = {offer.way.dates.first_harvest.day for offer in soon.offers if offer.way.dates.first_harvest}
    assert first
    assert max(first).isoformat() <= "2027-07-14"
    first = {offer.way.dates.first_harvest.day for offer in late.offers if offer.way.dates.first_harvest}
    assert first
    assert min(first).isoformat() >= "2027-08-20"
    never = puzzle_of(EVEN[0], wishes=(wish("w1", "tomato", 3, latest="2027-05-01"),))
    assert never.impossible[0].startswith(
        "no day to begin it brings the harvest that is wished: begun as usual it is"
    )


def test_what_cannot_be_tried_says_why():
    of = puzzle_of(
        EVEN[1],
        wishes=(
            wish("w1", amount=None),
            wish("w2", "cabbage", 500),
            wish("w3", "lettuce", 3, ground="container"),
        ),
    )
    assert of.impossible == {
        0: "it does not say how much; give it an amount",
        1: "none of these beds has room for all of it: the largest, b1, holds 4 % of it; less than a quarter of a wish is never planted",
        2: "none of these beds is of the kind that is wished",
    }


def test_an_empty_garden_and_one_without_wishes():
    assert puzzle_of().puzzle.beds == ()
    assert puzzle_of(*EVEN).puzzle.options == ()
    nothing = puzzle_of(wishes=(wish(),))
    assert nothing.impossible == {0: "none of these beds is of the kind that is wished"}


def test_in_feet_steps_are_three_inches():
    of = puzzle_of(*EVEN, site=Site(latitude=54.0, longitude=-2.0, units="feet_inches"), wishes=(wish(),))
    assert of.strips[1].length == 39  # 3.0 m in steps of 7.62 cm
    assert all(
        longest_run(of.puzzle.beds[o.bed], o) == of.puzzle.beds[o.bed].length for o in of.puzzle.options
    )
