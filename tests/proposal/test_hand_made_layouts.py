"""The gardens whose layouts were made by hand: files as they are told, and layouts that their maker can defend.

Yardsticks beside the checks: overlaps, rotation and what a wish asks are looked up here once more, plainly, pair by pair.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from typing import NamedTuple

import pytest
from proposal.hand_made.make import FOLDER, HEADINGS, SCENES, files_of, table_row
from proposal.hand_made.scene import Scene, met_by

from planner import storage
from planner.checks import Finding, check_all
from planner.garden import Garden, Planting, Wish
from planner.plan import Plan

#: Share of a plot below which old ground is an edge (the same as of the check).
EDGE = 0.10
#: Ground of two plots that only touch. [m2]
TOUCH = 1e-3


class ByHand(NamedTuple):
    """A scene with its layout as it is on file, worked out."""

    scene: Scene
    wishes: Garden
    garden: Garden
    plan: Plan
    findings: tuple[Finding, ...]

    def placed(self) -> Iterator[tuple[Planting, Wish]]:
        """Plantings of the layout, each with its wish."""
        wishes = {one.id: one for one in self.garden.wishes}
        before = self.wishes.plantings_by_id
        yield from ((one, wishes[one.wish or ""]) for one in self.garden.plantings if one.id not in before)

    def family(self, planting: Planting) -> str:
        """Botanical family of a planting."""
        return self.plan.catalogue.crops[planting.crop].family


@pytest.fixture(scope="module")
def gardens() -> dict[str, ByHand]:
    """All scenes from their files, by name."""
    found = {}
    for make in SCENES:
        scene = make()
        wishes = storage.load(FOLDER / f"{scene.name}.bedwright")
        garden = storage.load(FOLDER / f"{scene.name}.by_hand.bedwright")
        plan = Plan(garden, scene.year)
        found[scene.name] = ByHand(scene, wishes, garden, plan, check_all(plan))
    return found


NAMES = [make.__name__ for make in SCENES]


@pytest.fixture(params=NAMES)
def one(request: pytest.FixtureRequest, gardens: dict[str, ByHand]) -> ByHand:
    """Each scene in turn."""
    return gardens[request.param]


def test_there_are_twelve_gardens_of_six_to_forty_wishes(gardens: dict[str, ByHand]) -> None:
    assert len(gardens) == 12
    assert all(6 <= len(one.garden.wishes) <= 40 for one in gardens.values())
    assert {wish.unit for one in gardens.values() for wish in one.garden.wishes} == {
        "plants",
        "m",
        "m2",
        "g",
        "people",
    }


def test_files_are_as_the_scenes_tell(one: ByHand) -> None:
    for name, text in files_of(one.scene).items():
        assert (FOLDER / name).read_text(encoding="utf-8") == text, f"run make.py: {name} is another"


def test_the_table_is_of_these_layouts(gardens: dict[str, ByHand]) -> None:
    rows = [table_row(one.scene, one.garden) for one in gardens.values()]
    lines = [",".join(str(cell) for cell in row) for row in [HEADINGS, *rows]]
    assert (FOLDER / "hand_made.csv").read_text(encoding="utf-8").splitlines() == lines


def test_only_plantings_are_put_to_the_garden(one: ByHand) -> None:
    before = len(one.wishes.plantings)
    assert one.garden.with_(plantings=one.garden.plantings[:before]) == one.wishes
    assert len(one.garden.plantings) > before


def test_each_planting_meets_a_wish_for_its_crop(one: ByHand) -> None:
    wrong = [
        planting.id
        for planting, wish in one.placed()
        if (planting.crop, planting.variety, planting.purpose, planting.year)
        != (wish.crop, wish.variety, wish.purpose, wish.year)
    ]
    assert wrong == []


def test_nothing_will_fail_and_rotation_is_kept(one: ByHand) -> None:
    bad = [found.text for found in one.findings if found.severity == "stop" or found.check == "rotation"]
    assert bad == []


def test_no_two_plantings_are_on_the_same_ground_at_once(one: ByHand) -> None:
    plan = one.plan
    wrong = []
    for first, second in itertools.combinations(one.plan.plantings, 2):
        spans = plan.span_of(first), plan.span_of(second)
        if first.bed == second.bed and spans[0].first <= spans[1].last and spans[1].first <= spans[0].last:
            shared = plan.plot_on_plan(first).intersection(plan.plot_on_plan(second)).area
            if shared > TOUCH:
                wrong.append((first.crop, second.crop, round(shared, 3)))
    assert wrong == []


def test_families_return_no_sooner_than_crop_and_wish_want(one: ByHand) -> None:
    plan, wrong = one.plan, []
    for planting, wish in one.placed():
        figure = plan.catalogue.crops[planting.crop].rotation_years
        years = wish.back_after if wish.back_after is not None else (figure.value or 0) if figure else 0
        if plan.bed_of(planting).kind == "container":
            continue  # filled anew
        ground = plan.plot_on_plan(planting)
        for other in one.garden.plantings:
            # Plantings of the same year are short ones, or do not share ground.
            if other.year < planting.year and one.family(other) == one.family(planting):
                cleared = plan.span_of(other).last
                last = cleared.year - (cleared.month < one.garden.site.year_begins)
                shared = ground.intersection(plan.plot_on_plan(other)).area
                if planting.year - last < years and shared > EDGE * ground.area:
                    wrong.append((planting.crop, plan.bed_of(planting).name, other.year))
    assert wrong == []


def test_the_layout_keeps_to_what_a_wish_asks(one: ByHand) -> None:
    plan, wrong = one.plan, []
    beds: dict[str, set[str]] = {}
    for planting, wish in one.placed():
        bed = plan.bed_of(planting)
        beds.setdefault(wish.id, set()).add(bed.id)
        with_it = {other.crop for other in plan.in_bed(bed)}
        harvest = plan.dates(planting).first_harvest
        kinds = {
            "open": ("open", "raised"),
            "under glass": ("under glass",),
            "container": ("container",),
            None: (bed.kind,),
        }
        if wish.beds and bed.id not in wish.beds:
            wrong.append((wish.crop, "beds"))
        if bed.kind not in kinds[wish.ground]:
            wrong.append((wish.crop, "ground"))
        if with_it & set(wish.apart):
            wrong.append((wish.crop, "apart"))
        if not set(wish.beside) <= with_it:
            wrong.append((wish.crop, "beside"))
        like = one.garden.plantings_by_id.get(wish.like or "")
        if like and (like.arrangement, like.support) != (planting.arrangement, planting.support):
            wrong.append((wish.crop, "like"))
        if wish.start and planting.start != wish.start:
            wrong.append((wish.crop, "start"))
        for day, late in ((wish.latest, True), (wish.earliest, False)):
            if day and (harvest is None or (harvest.day > day if late else harvest.day < day)):
                wrong.append((wish.crop, f"{harvest and harvest.day} and {day}"))
    wrong += [(wish.crop, "parts") for wish in one.garden.wishes if len(beds.get(wish.id, ())) > wish.parts]
    assert wrong == []


def test_what_must_or_should_be_is_met_and_only_a_could_is_left_out(one: ByHand) -> None:
    assert {
        (met.wish.crop, met.verdict)
        for met in met_by(one.garden, one.scene.year)
        if met.wish.importance != "could" and met.verdict != "met"
    } == set()
