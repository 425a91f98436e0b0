"""Mends change the plan, not a limit or the truth; and say why where nothing but leaving out would do."""

from __future__ import annotations

import datetime as dt
import math

import pytest
import shapely
from checks.faults import CASES, SITE, YEAR, Case, beans, made
from making import bed, planting, rectangle, ticked
from sample_reading import FOLDER

from planner.checks import check_all
from planner.checks.frame.finding import Finding
from planner.checks.frame.planting_view import planting_view
from planner.garden import Circle, Garden, Lot, Planting, Structure, Support, Variety
from planner.ground.reach import STANDING_WIDTH, out_of_reach
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.storage import load

SAMPLES = sorted(path.stem for path in FOLDER.glob("*.bedwright"))


def of(garden: Garden, check: str) -> list[Finding]:
    return [one for one in check_all(Plan(garden, YEAR), light=False) if one.check == check]


def mends(garden: Garden, check: str) -> dict[str, Garden]:
    (one,) = of(garden, check)
    return {mend.text: mend.apply(garden) for mend in one.fixes}


@pytest.mark.parametrize("case", [pytest.param(one, id=one.name) for one in CASES])
def test_no_mend_moves_a_limit_of_the_garden(case: Case) -> None:
    garden = case.faulty()
    for one in check_all(Plan(garden, YEAR)):
        for mend in one.fixes:
            after = mend.apply(garden)
            assert after.site == garden.site, mend.text
            assert after.climate == garden.climate, mend.text
            # to begin anew is the gardener's own end of a planting: it adds that record and changes none
            assert after.records[: len(garden.records)] == garden.records, mend.text
            more = after.records[len(garden.records) :]
            assert all(one.kind == "ended" and case.check == "losses" for one in more), mend.text
            assert set(garden.stock) <= set(after.stock), mend.text


# -- reach ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("turn", [0.0, 30.0, 90.0, 350.0])
@pytest.mark.parametrize(
    "outline",
    [rectangle(4.8, 1.6), rectangle(1.5, 6.0), rectangle(4.8, 3.0), Circle(radius=1.1)],
)
def test_boards_and_a_path_bring_a_bed_into_reach(outline, turn) -> None:
    garden = made(bed(outline=outline.with_(turn=turn, center=(3.0, -2.0))))
    found = mends(garden, "reach")
    laid = {text: after for text, after in found.items() if after.structures}
    assert any(text.startswith("Lay ") for text in laid)
    for text, after in laid.items():
        assert of(after, "reach") == [], text
        for one in after.structures:
            assert one.stood_on
            assert plan_polygon(one.outline).intersects(plan_polygon(garden.beds[0].outline))
            if one.kind == "board":
                assert min(one.outline.length, one.outline.width) == pytest.approx(STANDING_WIDTH)
            else:
                assert one.outline.width == pytest.approx(SITE.path_width)


def test_a_board_takes_ground_from_plants_and_says_how_many() -> None:
    garden = made(bed(outline=rectangle(4.8, 1.6)), planting(crop="carrot", first=f"{YEAR}-04-20"))
    (one,) = of(garden, "reach")
    board = next(mend for mend in one.fixes if mend.text.startswith("Lay a board along"))
    before, after = Plan(garden, YEAR), Plan(board.apply(garden), YEAR)
    fewer = before.placed(garden.plantings[0]).plants - after.placed(garden.plantings[0]).plants
    assert fewer > 0
    assert f"{fewer} plants fewer" in board.gain


@pytest.mark.parametrize("kind", ["board", "path"])
def test_one_may_stand_on_a_board_it_shades_nothing_and_narrows_no_path(kind) -> None:
    lies = Structure(id="s1", kind=kind, height=0.04, outline=rectangle(4.8, 0.25))
    garden = made(bed(outline=rectangle(4.8, 1.5)), structures=(lies,))
    assert check_all(Plan(garden, YEAR)) == ()
    assert Plan(garden, YEAR).casters(Plan(garden, YEAR).span.first) == ()
    beside = lies.with_(outline=rectangle(4.8, 0.25, center=(0.0, 1.06)))  # on the path along the bed
    assert of(made(bed(), structures=(beside,)), "path") == []
    wall = beside.with_(kind="wall")
    assert of(made(bed(), structures=(wall,)), "path")


def test_a_board_counts_only_where_one_comes_to_the_bed() -> None:
    wide = bed(outline=rectangle(4.8, 2.0), access=())
    board = plan_polygon(rectangle(4.8, 0.25))
    assert out_of_reach(wide, 0.6, None, board).area == pytest.approx(4.8 * 2.0)
    open_bed = wide.with_(access=("left", "right"))
    strips = out_of_reach(open_bed, 0.4, None, board)
    # Two strips between what is reached from the sides and from the board.
    assert strips.area == pytest.approx(4.8 * 2 * (1.0 - 0.4 - 0.125 - 0.4), rel=0.01)


def test_standing_at_another_side_is_offered_only_where_there_is_room() -> None:
    garden = made(bed(access=("left",)))
    assert "Stand at its right side too" in mends(garden, "reach")
    wall = Structure(id="s1", kind="wall", height=0.5, outline=rectangle(4.8, 0.2, center=(0.0, -0.9)))
    walled = mends(garden.with_(structures=(wall,)), "reach")
    assert not any("right side" in text for text in walled)
    assert any(text.startswith("Lay ") for text in walled)


def test_a_bed_without_sides_gets_all_that_are_free() -> None:
    after = mends(made(bed(access=())), "reach")["Stand at all its sides with a free path"]
    assert set(after.beds[0].access) == {"start", "end", "left", "right"}


# -- seed -----------------------------------------------------------------------------------------


def test_seed_that_is_short_is_noted_as_ordered() -> None:
    garden = made(bed(), beans(), stock=(Lot(id="l1", crop="dwarf_bean", seeds=20, packed=2025),))
    (one,) = of(garden, "stock")
    (mend,) = one.fixes
    assert mend.text.startswith("Note ")
    assert mend.text.endswith(" as ordered")
    after = mend.apply(garden)
    lot = after.stock[-1]
    assert lot.ordered
    assert after.stock[0] == garden.stock[0]
    assert of(after, "stock") == []
    less = after.with_(stock=(after.stock[0], lot.with_(seeds=lot.seeds - 60)))
    (again,) = of(less, "stock")
    assert f"20 seeds of dwarf bean are on hand and {lot.seeds - 60} are ordered" in again.text


# -- leaving out ----------------------------------------------------------------------------------


@pytest.mark.parametrize("name", SAMPLES)
def test_only_leaving_out_comes_with_a_reason(name: str) -> None:
    garden = load(FOLDER / f"{name}.bedwright")
    plan = Plan(garden, YEAR)
    for one in check_all(plan, light=False):
        removing = [len(mend.apply(garden).plantings) < len(garden.plantings) for mend in one.fixes]
        if removing and all(removing):
            assert all(mend.why for mend in one.fixes), one.text
        else:
            assert not any(mend.why for mend in one.fixes), one.text


def test_the_reason_names_what_another_place_would_bring() -> None:
    follows = {"crop": "carrot", "first": f"{YEAR}-04-20", "last": f"{YEAR}-08-20"}
    before = planting(
        "old",
        "b1",
        **{**follows, "year": YEAR - 1, "first": f"{YEAR - 1}-04-20", "last": f"{YEAR - 1}-08-20"},
    )
    alone = made(bed("b1"), before, planting("new", "b1", **follows))
    (one,) = [one for one in check_all(Plan(alone, YEAR), light=False) if one.check == "rotation"]
    assert [mend.text for mend in one.fixes] == ["Leave out carrot"]
    assert one.fixes[0].why.startswith("there is no other bed; ")
    # With a free second bed the move is offered, and no reason is needed.
    two = made(bed("b1"), bed("b2", rectangle(center=(0.0, 3.0))), before, planting("new", "b1", **follows))
    (one,) = [one for one in check_all(Plan(two, YEAR), light=False) if one.check == "rotation"]
    assert any(mend.text.startswith("Move carrot to b2") for mend in one.fixes)
    assert not any(mend.why for mend in one.fixes)


def tomatoes(tunnel: str, year: int = YEAR, **fields: object) -> Planting:
    days = {"first": f"{year}-05-12", "last": f"{year}-10-05"}
    fields = {"crop": "tomato", "start": "raised", **fields}
    return planting(f"{tunnel}-{year}-{fields['crop']}", tunnel, year=year, **days, **fields)


def rotation_in(garden: Garden, place: str) -> Finding:
    (one,) = [one for one in of(garden, "rotation") if one.beds[0] == place]
    return one


def test_a_bed_of_another_sort_is_offered_where_none_of_its_own_would_do() -> None:
    tunnel = bed("t1", rectangle(4.8, 1.0), kind="under glass")
    far = bed("t2", rectangle(4.8, 1.0, center=(0.0, 3.0)), kind="under glass")
    outside = bed("b1", rectangle(4.8, 1.2, center=(0.0, 6.0)))
    stake = Support(kind="stake", height=1.8)
    plants = [tomatoes("t1", YEAR - 1), tomatoes("t1", support=stake), tomatoes("t2", YEAR - 1)]
    one = rotation_in(made(tunnel, far, outside, *plants), "t1")
    assert one.fixes[0].text == "Move tomato to b1"
    assert one.fixes[0].gain.startswith("in the open, ")
    assert not any(mend.why for mend in one.fixes)
    # Without the bed outdoors: the tunnel that is free had the family too.
    one = rotation_in(made(tunnel, far, *plants), "t1")
    assert [mend.text for mend in one.fixes] == ["Leave out tomato"]
    assert one.fixes[0].why == "t2 carried the family too few years ago too; on other days it is the same"
    # Where the other is full and had another family, the two change places.
    swap = made(tunnel, far, *plants[:2], tomatoes("t2", crop="cucumber", start="raised"))
    assert rotation_in(swap, "t1").fixes[0].text == "Let tomato change places with cucumber in t2"


def test_what_is_begun_is_told_to_go_nowhere() -> None:
    tunnel, outside = bed("t1", kind="under glass"), bed("b1", rectangle(center=(0.0, 6.0)))
    done = (ticked(f"t1-{YEAR}-tomato", "set out", dt.date(YEAR, 5, 12)),)
    garden = made(tunnel, outside, tomatoes("t1", YEAR - 1), tomatoes("t1"), records=done)
    one = rotation_in(garden, "t1")
    assert [mend.text for mend in one.fixes] == ["Leave out tomato"]
    assert one.fixes[0].why == "it is begun already"
    # Sown indoors, the young plants may still go to another bed.
    sown = (ticked(f"t1-{YEAR}-tomato", "sow", dt.date(YEAR, 3, 1)),)
    assert rotation_in(garden.with_(records=sown), "t1").fixes[0].text == "Move tomato to b1"


def test_a_swap_that_changes_nothing_is_neither_offered_nor_named() -> None:
    tunnel, far = bed("t1", kind="under glass"), bed("t2", rectangle(center=(0.0, 3.0)), kind="under glass")
    plants = [tomatoes("t1", YEAR - 1), tomatoes("t1"), tomatoes("t2")]
    one = rotation_in(made(tunnel, far, *plants), "t1")
    assert [mend.text for mend in one.fixes] == ["Leave out tomato"]
    reason = "no other bed has as much ground free on its days; on other days it is the same"
    assert one.fixes[0].why == reason
    # A variety by name is the same crop to the ground; with figures of its own it is another.
    named = [*plants[:2], tomatoes("t2", variety="Round")]
    assert rotation_in(made(tunnel, far, *named), "t1").fixes[0].why == reason
    own = Variety(id="v1", crop="tomato", name="Round", figures=({"field": "rotation_years", "value": 1},))
    other = made(tunnel, far, *named, varieties=(own,))
    assert rotation_in(other, "t1").fixes[0].text == "Let tomato change places with tomato 'Round' in t2"


@pytest.mark.parametrize("name", SAMPLES)
def test_a_reason_names_no_swap_of_a_crop_with_itself(name: str) -> None:
    plan = Plan(load(FOLDER / f"{name}.bedwright"), YEAR)
    for one in check_all(plan, light=False):
        for mend in one.fixes:
            for crop in ("climbing bean", "tomato", "lettuce"):
                assert f"Let {crop} change places with {crop} " not in mend.text + mend.why


def test_boards_cover_the_reach_as_measured_by_distance() -> None:
    garden = made(bed(outline=rectangle(4.8, 2.2)))
    for text, after in mends(garden, "reach").items():
        if not after.structures:
            continue
        ground = plan_polygon(after.beds[0].outline)
        boards = shapely.union_all([plan_polygon(one.outline) for one in after.structures])
        stand = shapely.union_all([ground.exterior, boards])
        left, low, right, high = ground.bounds
        for i in range(25):
            for j in range(12):
                point = shapely.Point(left + (right - left) * i / 24, low + (high - low) * j / 11)
                # A twentieth of the bed may stay out of reach without being reported.
                assert point.distance(stand) <= SITE.reach + math.sqrt(0.05 * ground.area) / 2, text


# -- spacing --------------------------------------------------------------------------------------


def corn(length: float = 6.0, width: float = 1.2, **arrangement: object) -> Garden:
    rows = {"kind": "rows", **arrangement}
    plants = planting(crop="sweet_corn", first=f"{YEAR}-05-25", last=f"{YEAR}-09-20", arrangement=rows)
    return made(bed(outline=rectangle(length, width)), plants)


def spacings_of(garden: Garden) -> tuple[float, float, bool]:
    view = planting_view(plan := Plan(garden, YEAR), plan.plantings[0])
    layout = view.placed.layout
    return layout.in_row_spacing or 0.0, layout.row_spacing or 0.0, view.for_beds


@pytest.mark.parametrize("width", [0.9, 1.2, 1.5, 2.4])
@pytest.mark.parametrize(
    "arrangement", [{}, {"rows": 5, "in_row_spacing": 0.15}, {"in_row_spacing": 0.08, "row_spacing": 0.2}]
)
def test_no_mend_sets_corn_nearer_than_it_is_published(width, arrangement) -> None:
    """Field rows from 15 x 61 cm on; in beds from 30 cm on."""
    garden = corn(width=width, **arrangement)
    seen = 0
    for check in ("neighbours", "crowding"):
        for one in of(garden, check):
            for mend in one.fixes:
                after = mend.apply(garden)
                if not after.plantings:
                    continue
                in_row, between, for_beds = spacings_of(after)
                least = (0.30, 0.25) if for_beds else (0.152, 0.61)
                assert in_row >= least[0] * 0.98, mend.text
                assert between >= least[1] * 0.98, mend.text
                seen += 1
    assert seen or width >= 1.5


def test_a_lone_row_of_corn_becomes_a_block_at_the_spacing_for_beds() -> None:
    (one,) = of(corn(), "neighbours")
    told = {mend.text: mend for mend in one.fixes}
    assert list(told)[:2] == ["Set it in 2 rows", "Set it in 3 rows"]
    assert spacings_of(told["Set it in 2 rows"].apply(corn()))[:2] == pytest.approx((0.203, 0.61))
    assert told["Set it in 3 rows"].gain == "41 plants in a block, 41.9 cm apart as in beds"
    # A field is not planted as a bed is.
    (wide,) = of(corn(width=2.4, rows=1), "neighbours")
    assert not any("as in beds" in mend.gain for mend in wide.fixes)


def test_rows_that_are_too_near_are_set_at_the_published_ones() -> None:
    (one,) = of(corn(rows=5, in_row_spacing=0.15), "crowding")
    assert [mend.text for mend in one.fixes[:2]] == [
        "Set its rows 61 cm apart",
        "Set it at the spacing for beds, 41.9 cm apart",
    ]


# -- seed crops -----------------------------------------------------------------------------------


def leeks(end: float, **fields: object) -> Garden:
    """Leeks for seed over a stretch of a bed of 6 m; at least 40 are wanted."""
    days = {"first": f"{YEAR}-06-20", "last": f"{YEAR + 1}-09-30", "purpose": "seed", "start": "raised"}
    plot = {"kind": "stretch", "start": 0.0, "end": end}
    return made(bed(outline=rectangle(6.0, 1.2)), planting(crop="leek", plot=plot, **{**days, **fields}))


def test_too_few_seed_plants_get_more_beside_them_where_ground_is_free() -> None:
    garden = leeks(0.3)
    (one,) = of(garden, "seed purity")
    first = one.fixes[0]
    assert first.text.endswith(" more plants of leek beside it")
    after = first.apply(garden)
    grown = [Plan(each, YEAR).placed(each.plantings[0]).plants for each in (garden, after)]
    assert grown[1] >= 40 > grown[0]
    assert first.text == f"Grow {grown[1] - grown[0]} more plants of leek beside it"
    plot = after.plantings[0].plot
    assert (plot.kind, plot.start) == ("stretch", 0.0)
    assert of(after, "seed purity") == of(after, "overlap") == []
    # No longer than it must be.
    shorter = garden.plantings[0].with_(plot={"kind": "stretch", "start": 0.0, "end": plot.end - 0.11})
    assert Plan(garden, YEAR).trial(shorter).plants < 40
    # Beside another planting there is no ground.
    days = {"first": f"{YEAR}-06-01", "last": f"{YEAR + 1}-09-30"}
    rest = planting("p9", crop="onion", plot={"kind": "stretch", "start": 0.4, "end": 6.0}, **days)
    full = garden.with_(plantings=(*garden.plantings, rest))
    (one,) = of(full, "seed purity")
    assert not any("beside it" in mend.text for mend in one.fixes)


def test_a_seed_crop_of_a_whole_bed_is_set_nearer_within_its_published_spacing() -> None:
    arrangement = {"kind": "rows", "in_row_spacing": 0.5, "row_spacing": 0.5}
    fields = {"crop": "kale", "purpose": "seed", "start": "raised", "arrangement": arrangement}
    days = {"first": f"{YEAR}-07-01", "last": f"{YEAR + 1}-08-20"}
    garden = made(bed(outline=rectangle(8.0, 1.2)), planting(**fields, **days))
    (one,) = of(garden, "seed purity")
    first = one.fixes[0]
    assert first.text.startswith("Set it ")
    after = first.apply(garden)
    assert Plan(after, YEAR).placed(after.plantings[0]).plants >= 40
    assert of(after, "crowding") == []


def test_seed_crops_that_stand_already_get_no_mend_that_is_past() -> None:
    garden = leeks(0.3)
    (one,) = [one for one in check_all(Plan(garden, YEAR + 1), light=False) if one.check == "seed purity"]
    assert [mend.text for mend in one.fixes] == ["Grow it to use fresh", "Leave out leek"]
    other = garden.plantings[0].with_(id="p9", bed="b2", variety="Other")
    beds = (*garden.beds, bed("b2", rectangle(6.0, 1.2, center=(0.0, 3.0))))
    both = garden.with_(beds=beds, plantings=(*garden.plantings, other))
    for year, offered in ((YEAR, True), (YEAR + 1, False)):
        found = [one for one in check_all(Plan(both, year), light=False) if one.topic == "crossing"]
        told = [mend.text for one in found for mend in one.fixes]
        assert found
        assert any("of the same variety" in text for text in told) == offered
        assert not any(text.startswith("Move ") for text in told) or offered
