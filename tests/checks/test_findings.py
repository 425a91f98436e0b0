"""What holds of all findings: order, movement, names; waiving; keeping what an edit did not touch."""

from __future__ import annotations

import functools
import random
import re
from collections.abc import Iterable
from typing import Any

import pytest
from checks.faults import CASES, CLIMATE, SITE, WARM, YEAR, Case, beans, day, lettuce, made, plot, rows
from checks.shade import shading
from hypothesis import given, settings
from hypothesis import strategies as st
from making import bed, planting, rectangle

from planner import resources
from planner.checks import Finding, check_all, check_only, light_lack, light_measure
from planner.checks.frame.context import CheckContext
from planner.checks.frame.planting_view import planting_view
from planner.checks.light_measure import growing_days
from planner.garden import Circle, FrostDates, Garden, Rectangle, Site, Structure
from planner.garden import edits as e
from planner.garden.units import show_distance, show_length
from planner.ground.shapes import plan_polygon
from planner.light import hours_over, sample_days
from planner.plan import Plan
from planner.plan.light import sun_hours
from planner.season.spans import Span
from planner.storage import dump, load, parse

ALONE = {"light", "support"}


def sample(name: str) -> Garden:
    """A sample garden."""
    return load(resources.sample_folder() / f"{name}.bedwright")


def summaries(garden: Garden, year: int = YEAR) -> list[tuple[str, str, str, tuple[str, ...]]]:
    """What findings are about, names and numbers left out."""
    return [(one.check, one.topic, one.severity, one.plantings) for one in check_all(Plan(garden, year))]


@functools.cache
def gathered() -> Garden:
    """All faulty gardens in one, far from each other; a value, made once."""
    whole = made()
    for number, case in enumerate(CASES):
        part = case.faulty()
        if part.climate != CLIMATE or part.structures:
            continue
        ids = [thing.id for thing in part.beds]
        whole, _ = e.paste(whole, part, ids, (number % 6) * 60.0, number // 6 * 60.0)
    return whole


@functools.cache
def found_in_gathered() -> tuple[Finding, ...]:
    """Findings of all faulty gardens in one, without those of light."""
    return check_all(Plan(gathered(), YEAR), light=False)


def subjects(findings: Iterable[Finding]) -> set[tuple[str, str, tuple[str, ...], tuple[str, ...]]]:
    """What each finding says, and about which planting and bed."""
    return {(one.check, one.topic, one.plantings[:1], one.beds[:1]) for one in findings}


def test_empty_garden_has_no_finding() -> None:
    assert check_all(Plan(Garden(), YEAR), lore=True) == ()


def test_garden_of_bare_beds_has_no_finding() -> None:
    beds = [bed(f"b{i}", rectangle(center=(0.0, 1.7 * i))) for i in range(5)]
    assert summaries(made(*beds)) == []


def test_garden_of_all_faults_has_findings_of_most_checks() -> None:
    assert len({check for check, *_ in summaries(gathered())}) >= 12


@settings(max_examples=20)
@given(st.randoms(use_true_random=False))
def test_order_of_beds_and_plantings_does_not_matter(chance: random.Random) -> None:
    garden = gathered()
    beds, plantings = list(garden.beds), list(garden.plantings)
    chance.shuffle(beds)
    chance.shuffle(plantings)
    mixed = garden.with_(beds=tuple(beds), plantings=tuple(plantings))
    theirs = check_all(Plan(mixed, YEAR), light=False)
    assert [(one.key, one.text) for one in found_in_gathered()] == [(one.key, one.text) for one in theirs]


@pytest.mark.parametrize(("dx", "dy", "turn"), [(13.7, -41.3, 0.0), (0.0, 0.0, 90.0), (5.1, 2.2, 37.0)])
def test_garden_moved_turned_and_renamed_has_the_same_findings(dx: float, dy: float, turn: float) -> None:
    garden = gathered()
    ids = [thing.id for thing in (*garden.beds, *garden.structures)]
    moved = e.turn_things(e.move_things(garden, ids, dx, dy), ids, turn, about=(1.0, 2.0))
    for one in moved.beds:
        moved = e.change_bed(moved, one.id, name=f"Ground {one.id}")
    assert summaries(moved) == summaries(garden)


def test_sample_moved_and_turned_has_the_same_findings() -> None:
    garden = sample("hollow_lane")
    garden = garden.with_(site=garden.site.with_(outline=None))  # the edge of the garden stays where it is
    year = garden.years()[-1]
    ids = [thing.id for thing in (*garden.beds, *garden.structures)]
    moved = e.turn_things(e.move_things(garden, ids, 3.3, 4.4), ids, 61.0, about=(0.0, 0.0))
    assert summaries(moved, year) == summaries(garden, year)


@pytest.mark.parametrize("case", [pytest.param(case, id=case.name) for case in CASES])
def test_removing_any_planting_of_a_fault_adds_no_finding_about_another(case: Case) -> None:
    garden = case.faulty()
    before = subjects(check_all(Plan(garden, YEAR), light=False))
    for gone in garden.plantings:
        after = check_all(Plan(e.remove(garden, [gone.id]), YEAR), light=False)
        added = subjects(one for one in after if one.check not in ALONE) - before
        assert not added, (gone.id, added)


@settings(max_examples=15)
@given(st.data())
def test_removing_a_planting_of_many_adds_no_finding_about_another(data: st.DataObject) -> None:
    garden = gathered()
    before = subjects(found_in_gathered())
    gone = data.draw(st.sampled_from([one.id for one in garden.plantings]))
    for one in check_all(Plan(e.remove(garden, [gone]), YEAR), light=False):
        if one.check not in ALONE:
            assert (one.check, one.topic, one.plantings[:1], one.beds[:1]) in before, one.text


def test_sample_keeps_what_an_edit_did_not_touch_and_finds_as_if_anew() -> None:
    garden = sample("hollow_lane")
    year = garden.years()[-1]
    plan, chance = Plan(garden, year), random.Random(5)
    check_all(plan)
    for step in range(30):
        lit = step in (7, 15, 23)  # one of each kind of edit
        one = chance.choice([p for p in garden.plantings if p.year == year])
        place = chance.choice(garden.beds)
        if step % 3 == 0:
            garden = e.move_things(garden, [place.id], chance.uniform(-0.2, 0.2), 0.05)
        elif step % 3 == 1:
            garden = e.change_planting(
                garden, one.id, crop=chance.choice(["carrot", "leek", "cabbage"]), variety=""
            )
        else:
            garden = e.move_planting(garden, one.id, place.id, one.plot)
        plan = plan.after(garden)
        kept = check_all(plan, light=lit)
        if step % 2:  # each kind of edit, in turn; what was kept wrongly after the others is seen here too
            new = check_all(Plan(garden, year), light=lit)
            assert [(a.key, a.text) for a in kept] == [(b.key, b.text) for b in new]


def test_findings_are_listed_the_gravest_first() -> None:
    order = ["stop", "mind", "note"]
    ranks = [order.index(severity) for _, _, severity, _ in summaries(gathered())]
    assert ranks == sorted(ranks)


def test_only_the_checks_named_are_asked() -> None:
    plan = Plan(gathered(), YEAR)
    some = check_only(plan, ["overlap", "crowding"])
    assert {one.check for one in some} == {"overlap", "crowding"}
    assert [one.key for one in check_all(plan) if one.check in ("overlap", "crowding")] == [
        one.key for one in some
    ]


def test_keys_are_unlike() -> None:
    keys = [one.key for one in check_all(Plan(gathered(), YEAR))]
    assert len(set(keys)) == len(keys)


def test_sentences_are_in_the_units_of_the_garden() -> None:
    garden = gathered()
    feet = e.change_site(garden, units="feet_inches")
    for one in check_all(Plan(feet, YEAR)):
        words = one.text.split()
        assert not {"m", "cm", "m²", "m;", "cm;"} & set(words), one.text


# -- waiving ------------------------------------------------------------------------------------


def _crowded(apart: float) -> Garden:
    cabbage = planting(crop="cabbage", start="raised", first="2026-05-08", covers=[{"kind": "netting"}])
    return made(
        bed(), cabbage.with_(arrangement={"kind": "rows", "in_row_spacing": apart, "row_spacing": 0.4})
    )


def _only(garden: Garden) -> Finding:
    (one,) = check_all(Plan(garden, YEAR))
    return one


def test_waived_finding_is_listed_with_its_reason() -> None:
    garden = _crowded(0.2)
    aside = e.waive(garden, _only(garden).key, "small heads are wanted")
    assert _only(aside).waived == "small heads are wanted"
    assert _only(garden).waived == ""


def test_waived_finding_comes_back_when_the_facts_change() -> None:
    garden = _crowded(0.2)
    aside = e.waive(garden, _only(garden).key, "small heads are wanted")
    closer = aside.with_(plantings=_crowded(0.15).plantings)
    assert _only(closer).waived == ""
    assert _only(closer.with_(plantings=garden.plantings)).waived == "small heads are wanted"


def test_waived_finding_stays_aside_when_something_else_changes() -> None:
    garden = _crowded(0.2)
    aside = e.waive(garden, _only(garden).key, "wanted")
    moved = e.change_bed(e.move_things(aside, ["b1"], 3, 4), "b1", name="Elsewhere")
    assert _only(e.add_bed(moved, rectangle(center=(30, 30)))[0]).waived == "wanted"


def test_finding_is_taken_up_again() -> None:
    garden = _crowded(0.2)
    key = _only(garden).key
    aside = e.waive(garden, key, "wanted")
    assert e.unwaive(aside, key) == garden
    assert e.unwaive(garden, key) is garden
    assert e.waive(aside, key, "wanted") is aside
    assert [waiver.reason for waiver in e.waive(aside, key, "better reason").waived] == ["better reason"]


@pytest.mark.parametrize(("key", "reason"), [("no key", "why"), ("crowding/p1/0123456789ab", "  ")])
def test_waiver_without_key_or_reason_is_refused(key: str, reason: str) -> None:
    with pytest.raises(e.EditError):
        e.waive(Garden(), key, reason)


def test_waiver_is_kept_in_the_file() -> None:
    garden = _crowded(0.2)
    aside = e.waive(garden, _only(garden).key, "wanted")
    assert parse(dump(aside)) == aside


# -- what is meant ------------------------------------------------------------------------------


def test_interplanting_that_leaves_room_is_not_spoken_of() -> None:
    corn = planting(
        "p1",
        crop="sweet_corn",
        start="raised",
        first="2026-06-03",
        arrangement=rows(0.6, 0.6),
        plot=plot(0, 4.8),
    )
    between = lettuce(
        "p2",
        first="2026-05-10",
        last="2026-07-01",
        shares_ground=True,
        arrangement={"kind": "places", "points": [(0.0, 0.0), (1.2, 0.0)]},
    )
    assert [one for one in summaries(made(bed(), corn, between)) if one[0] in ("overlap", "crowding")] == []


def test_mixture_that_is_meant_and_does_good_is_not_called_bad() -> None:
    corn = planting("p1", crop="sweet_corn", start="raised", first="2026-06-03", arrangement=rows(0.6, 0.55))
    climbing = planting(
        "p2",
        crop="climbing_bean",
        start="sown",
        first="2026-06-20",
        shares_ground=True,
        support={"kind": "sticks", "height": 1.6},
        arrangement={"kind": "places", "points": [(0.3, 0.0), (0.9, 0.0)]},
    )
    assert "neighbours" not in {one[0] for one in summaries(made(bed(), corn, climbing))}


def test_good_pairs_and_lore_are_told_on_request() -> None:
    garden = made(
        bed(),
        planting(
            "p1",
            crop="tomato",
            start="raised",
            first="2026-05-20",
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
        ),
        planting(
            "p2",
            crop="basil",
            start="raised",
            first="2026-06-01",
            shares_ground=True,
            arrangement={"kind": "places", "points": [(0.0, 0.0)]},
        ),
    )
    plan = Plan(garden, YEAR)
    assert "neighbours" not in {one.check for one in check_all(plan)}
    good = [one for one in check_all(plan, lore=True) if one.check == "neighbours"]
    assert [one.severity for one in good] == ["note"]


def test_light_names_what_takes_it_and_is_left_out_on_request() -> None:
    south = Rectangle(length=16, width=0.3, center=(0.0, -1.2))
    west = Rectangle(length=16, width=0.3, center=(-3.5, 0.0), turn=90)
    wall = Structure(id="s1", kind="wall", name="high wall", outline=south, height=9)
    barn = Structure(id="s2", kind="shed", name="barn", outline=west, height=9)
    plan = Plan(made(bed(), beans(), structures=(wall, barn)), YEAR)
    assert "light" not in {one.check for one in check_all(plan, light=False)}
    (dark,) = [one for one in check_all(plan) if one.check == "light"]
    assert "high wall" in dark.text
    assert "needs" in dark.text
    open_ground = Plan(made(bed(), beans()), YEAR)
    assert "light" not in {one.check for one in check_all(open_ground)}


def test_light_says_nothing_where_the_place_is_not_known() -> None:
    plan = Plan(made(bed(), beans(), site=Site()), YEAR)
    assert "light" not in {one.check for one in check_all(plan)}


def test_hollow_lane_is_nearly_clean_and_nothing_fails() -> None:
    garden = sample("hollow_lane")
    findings = check_all(Plan(garden, garden.years()[-1]))
    assert 5 <= len(findings) <= 10, [one.text for one in findings]
    assert "stop" not in {one.severity for one in findings}
    assert {"rotation", "stock", "reach"} <= {one.check for one in findings}


# -- what a gardener does rightly -----------------------------------------------------------------


def _spotless(garden: Garden) -> None:
    assert [one.text for one in check_all(Plan(garden, YEAR))] == []


@pytest.mark.parametrize("shelter", [{"kind": "fleece"}, {"kind": "cloche"}])
def test_cover_lets_tender_plants_out_two_weeks_sooner(shelter: dict[str, str]) -> None:
    early = planting(
        crop="tomato",
        start="raised",
        first="2026-04-23",
        support={"kind": "stake"},
        arrangement=rows(0.5, 0.6),
    )
    assert summaries(made(bed(), early))[0][:2] == ("frost", "spring")
    _spotless(made(bed(), early.with_(covers=[shelter])))


def test_bird_netting_over_fruiting_strawberries_is_right() -> None:
    netting = {"kind": "netting", "first": "2026-06-01", "last": "2026-07-20"}
    _spotless(
        made(
            bed(),
            planting(
                crop="strawberry",
                year=2024,
                start="standing",
                first="2024-08-20",
                covers=[netting],
                arrangement=rows(0.45, 0.45),
            ),
        )
    )


def test_netting_over_cabbage_may_stay_on_to_the_end() -> None:
    _spotless(
        made(
            bed(),
            planting(
                crop="cabbage",
                start="raised",
                first="2026-05-08",
                covers=[{"kind": "netting"}],
                arrangement=rows(0.4, 0.4),
            ),
        )
    )


def test_garlic_stands_through_the_winter() -> None:
    _spotless(
        made(
            bed(),
            planting(
                crop="garlic",
                start="cloves",
                first="2026-10-10",
                arrangement=rows(0.15, 0.25),
                purpose="store",
            ),
        )
    )


def test_salads_may_follow_each_other_within_a_year() -> None:
    early, late = lettuce("p1", last="2026-06-20"), lettuce("p2", first="2026-06-25")
    _spotless(made(bed(), early, late))


def test_rhubarb_on_its_old_ground_is_no_matter_of_rotation() -> None:
    _spotless(
        made(
            bed(),
            planting(
                crop="rhubarb", year=2020, start="standing", first="2020-03-20", arrangement=rows(0.95, 0.95)
            ),
        )
    )


def test_climbers_at_a_drawn_arch_need_no_support_of_their_own() -> None:
    arch = Structure(
        id="s1",
        kind="arch",
        outline=Rectangle(length=1.1, width=1.0, center=(0.0, 0.85), turn=90),
        height=2.3,
    )
    view = planting(
        crop="climbing_bean",
        start="raised",
        first="2026-06-01",
        arrangement=rows(0.2, 0.5),
        plot=plot(2.0, 2.8),
    )
    _spotless(made(bed("b1"), bed("b2", rectangle(center=(0.0, 1.7))), view, structures=(arch,)))


def test_an_edge_of_old_ground_is_not_the_place_in_the_rotation() -> None:
    old = planting("p1", crop="pea", year=2025, start="sown", first="2025-04-10", plot=plot(0, 2.4))
    _spotless(made(bed(), old, beans("p2", plot=plot(2.3, 4.8))))


def test_beans_may_climb_the_corn_they_are_sown_among() -> None:
    corn = planting("p1", crop="sweet_corn", start="raised", first="2026-05-20", arrangement=rows(0.6, 0.8))

    def said(first: str) -> set[str]:
        runners = planting(
            "p2",
            crop="climbing_bean",
            start="sown",
            first=first,
            shares_ground=True,
            arrangement={"kind": "places", "points": [[x, 0.0] for x in (-1.8, -0.6, 0.6, 1.8)]},
        )
        return {one.check for one in check_all(Plan(made(bed(), corn, runners, climate=WARM), YEAR))}

    assert "support" not in said("2026-06-08")
    assert "support" in said("2026-05-22"), "before the corn can bear them"


def test_blight_does_not_pass_into_a_house_of_glass() -> None:
    def said(kind: str) -> list[str]:
        potato = planting(
            "p1", crop="potato", start="tubers", first="2026-05-01", arrangement=rows(0.35, 0.7)
        )
        tomato = planting(
            "p2",
            bed="b2",
            crop="tomato",
            start="raised",
            first="2026-06-05",
            support={"kind": "stake", "height": 1.8},
            arrangement=rows(0.6, 0.6),
        )
        beds = bed("b1"), bed("b2", rectangle(center=(0.0, 1.8)), kind=kind)
        return [one.check for one in check_all(Plan(made(*beds, potato, tomato), YEAR))]

    assert "neighbours" in said("open")
    assert "neighbours" not in said("under glass")


def test_single_plants_take_their_own_ground_and_not_all_of_the_bed() -> None:
    one, two = (
        planting(
            key,
            crop=crop,
            start="bought",
            first="2025-05-01",
            year=2025,
            arrangement={"kind": "places", "points": [[x, 0.0]]},
        )
        for key, crop, x in (("p1", "lavender", -1.5), ("p2", "thyme", 1.5))
    )
    _spotless(made(bed(), one, two))
    near = e.change_planting(
        made(bed(), one, two), "p2", arrangement={"kind": "places", "points": [[-1.45, 0.0]]}
    )
    assert {finding.check for finding in check_all(Plan(near, YEAR))} == {"standing"}


def test_a_wall_that_ends_at_a_corner_narrows_no_way() -> None:
    def said(length: float, x: float) -> set[str]:
        wall = Structure(id="s1", kind="wall", height=0.5, outline=rectangle(length, 0.2, center=(x, 1.1)))
        ground = bed(access=("start", "end", "right"))
        found = check_all(Plan(made(ground, structures=(wall,), site=SITE.with_(reach=1.3)), YEAR))
        return {one.check for one in found}

    assert said(4.8, 0.0) == set(), "it runs along the side at which nobody stands"


def test_carrot_fly_is_not_told_where_summers_are_hot() -> None:
    carrots = planting(crop="carrot", start="sown", first="2026-05-10", arrangement=rows(0.05, 0.3))
    hot = WARM.with_(
        monthly_minimum=(0.4, 0.4, 1.5, 3.0, 8.6, 17.0, 19.0, 18.0, 11.3, 7.6, 2.7, 0.6),
        monthly_maximum=(6.5, 7.1, 9.1, 11.8, 22.9, 30.4, 33.1, 32.8, 24.2, 14.6, 9.0, 6.7),
    )
    said = [
        {one.check for one in check_all(Plan(made(bed(), carrots, climate=c), YEAR))} for c in (WARM, hot)
    ]
    assert said == [{"cover"}, set()]


@pytest.mark.parametrize(
    ("latitude", "longitude", "told"), [(-39.0, -72.6, False), (-42.0, 147.0, False), (-41.0, 174.0, True)]
)
def test_carrot_fly_is_told_where_it_may_live(latitude: float, longitude: float, told: bool) -> None:
    carrots = planting(crop="carrot", start="sown", first="2026-11-10", arrangement=rows(0.05, 0.3))
    south = CLIMATE.with_(
        last_frost=FrostDates(risk_10="11-05", risk_50="10-15", risk_90="09-25"),
        first_frost=FrostDates(risk_10="04-02", risk_50="04-25", risk_90="05-18"),
        monthly_minimum=tuple((CLIMATE.monthly_minimum or ())[(month + 6) % 12] for month in range(12)),
        monthly_maximum=tuple((CLIMATE.monthly_maximum or ())[(month + 6) % 12] for month in range(12)),
    )
    site = SITE.with_(latitude=latitude, longitude=longitude)
    found = check_all(Plan(made(bed(), carrots, climate=south, site=site), YEAR))
    assert ("cover" in {one.check for one in found}) == told


@pytest.mark.parametrize(("first", "told"), [("2026-08-26", True), ("2026-04-12", False)])
def test_potatoes_end_with_their_shoots(first: str, told: bool) -> None:
    potatoes = planting(crop="potato", start="tubers", first=first, arrangement=rows(0.35, 0.6))
    found = [
        one for one in check_all(Plan(made(bed(), potatoes, climate=WARM), YEAR)) if one.check == "season"
    ]
    assert bool(found) == told
    assert not any("Clear" in mend.text for one in found for mend in one.fixes), "no later day helps them"


def test_a_bed_may_be_handed_over_within_a_day() -> None:
    _spotless(made(bed(), lettuce("p1", last="2026-06-20"), beans("p2", first="2026-06-20")))
    found = check_all(
        Plan(made(bed(), lettuce("p1", last="2026-06-21"), beans("p2", first="2026-06-20")), YEAR)
    )
    assert {one.check for one in found} == {"overlap"}


def test_blight_is_no_matter_before_summer() -> None:
    def said(last: str) -> set[str]:
        potato = planting(
            "p1",
            crop="potato",
            start="tubers",
            first="2026-03-20",
            last=last,
            pinned_dates={"first_harvest": last, "last_harvest": last},
            arrangement=rows(0.35, 0.7),
        )
        tomato = planting(
            "p2",
            bed="b2",
            crop="tomato",
            start="raised",
            first="2026-05-15",
            support={"kind": "stake", "height": 1.8},
            arrangement=rows(0.6, 0.6),
        )
        beds = bed("b1"), bed("b2", rectangle(center=(0.0, 1.8)))
        return {one.check for one in check_all(Plan(made(*beds, potato, tomato, climate=WARM), YEAR))}

    assert "neighbours" not in said("2026-06-08")
    assert "neighbours" in said("2026-07-20")


def test_strawberries_of_late_summer_bear_in_the_next() -> None:
    def harvest(first: str) -> bool:
        plants = planting(
            crop="strawberry", start="bought", year=2025, first=first, arrangement=rows(0.4, 0.7)
        )
        return Plan(made(bed(), plants), 2026).dates(plants).first_harvest is not None

    assert harvest("2025-08-20")
    assert not harvest("2025-11-15"), "too late to root before the winter"


def test_strawberries_may_be_grown_for_one_crop() -> None:
    plants = planting(
        crop="strawberry",
        start="bought",
        year=2025,
        first="2025-09-10",
        last="2026-08-20",
        arrangement=rows(0.4, 0.7),
    )
    said = {one.check for one in check_all(Plan(made(bed(), plants), YEAR))}
    assert "standing" not in said


#: A coast with mild winters: frost at the end of December at most.
MILD = CLIMATE.with_(
    last_frost=FrostDates(risk_10="02-10", risk_50="01-20", risk_90="01-05"),
    first_frost=FrostDates(risk_10="12-05", risk_50="12-18", risk_90="12-30"),
    monthly_minimum=(6.0, 6.5, 8.0, 10.0, 13.5, 17.5, 20.5, 21.0, 18.0, 14.0, 9.5, 7.0),
    monthly_maximum=(15.0, 16.0, 18.5, 20.5, 24.0, 28.0, 31.0, 31.0, 27.5, 23.0, 18.5, 15.5),
    zone="10a",
)


@pytest.mark.parametrize(
    ("crop", "start", "first", "last", "spacing"),
    [
        ("garlic", "cloves", "2025-11-15", None, rows(0.15, 0.3)),
        ("broad_bean", "sown", "2025-10-25", None, rows(0.2, 0.45)),
        ("potato", "tubers", "2026-02-01", None, rows(0.35, 0.7)),
        ("pea", "sown", "2025-11-20", None, rows(0.06, 0.4)),
        ("lettuce", "raised", "2026-02-05", None, rows(0.25, 0.3)),
        ("spinach", "sown", "2025-11-10", None, rows(0.1, 0.3)),
    ],
)
def test_what_grows_through_a_mild_winter_is_not_called_too_late(
    crop: str, start: str, first: str, last: str | None, spacing: dict[str, Any]
) -> None:
    one = planting(
        crop=crop,
        start=start,
        year=int(first[:4]),
        first=first,
        last=last,
        arrangement=spacing,
        support={"kind": "sticks"} if crop == "pea" else None,
    )
    garden = made(bed(), one, climate=MILD, site=SITE.with_(latitude=39.0))
    for year in (2025, 2026):
        assert [f.text for f in check_all(Plan(garden, year)) if f.check in ("season", "frost")] == []


@pytest.mark.parametrize("first", ["2026-08-20", "2026-08-28", "2026-09-05", "2026-09-12"])
def test_spring_cabbage_stands_the_winter(first: str) -> None:
    cabbage = planting(
        crop="cabbage",
        start="raised",
        first=first,
        last="2027-05-25",
        covers=[{"kind": "netting"}],
        arrangement=rows(0.4, 0.45),
    )
    _spotless(made(bed(), cabbage))


def test_pots_may_stand_close() -> None:
    pots = [
        bed(f"b{i}", rectangle(0.8, 0.3, center=(0.0, 0.5 * i)), kind="container", depth=0.3)
        for i in range(3)
    ]
    _spotless(made(*pots))


def test_place_without_frost_dates_gives_no_wrong_alarm() -> None:
    _spotless(
        made(
            bed(),
            planting(
                crop="tomato",
                start="raised",
                first="2026-03-01",
                support={"kind": "stake"},
                arrangement=rows(0.5, 0.6),
            ),
            climate=CLIMATE.with_(frost_free=True, last_frost=None, first_frost=None, zone=""),
        )
    )


# -- mends --------------------------------------------------------------------------------------


def test_rotation_is_mended_by_free_ground_and_by_changing_places() -> None:
    beds = [bed(f"b{i}", rectangle(center=(0.0, 1.7 * i))) for i in range(3)]
    old = planting("p1", bed="b0", crop="pea", year=2025, start="sown", first="2025-04-10")
    garden = made(*beds, old, beans("p2", bed="b0"), lettuce("p3", bed="b1"))
    (one,) = check_all(Plan(garden, YEAR))
    assert [mend.text for mend in one.fixes[:2]] == [
        "Move dwarf bean to b2",
        "Let dwarf bean change places with butterhead lettuce in b1",
    ]


def test_rotation_is_mended_by_two_beds_that_change_all_they_carry() -> None:
    beds = [bed(f"b{i}", rectangle(center=(0.0, 1.7 * i))) for i in range(2)]
    old = planting("p1", bed="b0", crop="pea", year=2025, start="sown", first="2025-04-10")
    mine = [beans("p2", bed="b0", plot=plot(0.0, 1.6)), lettuce("p3", bed="b0", plot=plot(1.6, 4.8))]
    theirs = [lettuce("p4", bed="b1")]
    garden = made(*beds, old, *mine, *theirs)
    (one,) = check_all(Plan(garden, YEAR))
    mend = next(mend for mend in one.fixes if "change all they carry" in mend.text)
    after = mend.apply(garden)
    assert {p.id: p.bed for p in after.plantings} == {"p1": "b0", "p2": "b1", "p3": "b1", "p4": "b0"}
    assert check_all(Plan(after, YEAR)) == ()


def test_a_move_into_a_bed_of_another_width_keeps_the_area_and_says_the_number() -> None:
    wide = bed("b0")
    narrow = bed("b1", rectangle(9.6, 0.6, center=(0.0, 1.7)))
    old = planting("p1", bed="b0", crop="pea", year=2025, start="sown", first="2025-04-10")
    garden = made(
        wide,
        narrow,
        old,
        beans("p2", bed="b0", plot=plot(0.0, 2.4)),
        lettuce("p3", bed="b0", plot=plot(2.4, 4.8)),
    )
    (one,) = check_all(Plan(garden, YEAR))
    mend = next(mend for mend in one.fixes if mend.text.startswith("Move ") and mend.text.endswith(" to b1"))
    before, after = Plan(garden, YEAR), Plan(mend.apply(garden), YEAR)
    there = after.garden.plantings_by_id["p2"]
    assert after.placed(there).area == pytest.approx(before.placed(garden.plantings_by_id["p2"]).area)
    count, was = after.placed(there).plants, before.placed(garden.plantings_by_id["p2"]).plants
    assert count != was
    assert f"{count} dwarf bean instead of {was}" in mend.gain


def test_places_of_unlike_size_are_changed_with_the_numbers_told() -> None:
    beds = [bed("b0"), bed("b1", rectangle(4.0, 1.2, center=(0.0, 1.7)))]
    old = planting("p1", bed="b0", crop="pea", year=2025, start="sown", first="2025-04-10")
    garden = made(*beds, old, beans("p2", bed="b0"), lettuce("p3", bed="b1"))
    (one,) = check_all(Plan(garden, YEAR))
    mend = next(
        mend for mend in one.fixes if mend.text.endswith("change places with butterhead lettuce in b1")
    )
    assert re.search(r"dwarf bean instead of \d+, \d+ butterhead lettuce instead of \d+", mend.gain)


def test_the_mend_that_ends_more_comes_first_and_says_so() -> None:
    beds = [bed(f"b{i}", rectangle(center=(0.0, 1.7 * i))) for i in range(3)]
    old = [
        planting("p1", bed="b0", crop="pea", year=2025, start="sown", first="2025-04-10"),
        planting("p2", bed="b0", crop="pea", year=2024, start="sown", first="2024-04-10"),
    ]
    crowded = beans("p3", bed="b0", arrangement=rows(0.15, 0.4, edge=0.2))
    near = beans("p4", bed="b0", shares_ground=True, arrangement={"kind": "places", "points": [(0.0, 0.05)]})
    garden = made(*beds, *old, crowded, near)
    turned_over = [one for one in check_all(Plan(garden, YEAR)) if one.check == "rotation"]
    fixes = [mend for one in turned_over for mend in one.fixes]
    assert any("other finding" in mend.gain for mend in fixes), [(m.text, m.gain) for m in fixes]
    for one in turned_over:
        more = ["other finding" in mend.gain and "Leave out" not in mend.text for mend in one.fixes]
        assert more == sorted(more, reverse=True)


def test_mend_that_brings_another_fault_is_not_offered() -> None:
    beds = [bed(f"b{i}", rectangle(center=(0.0, 1.7 * i))) for i in range(2)]
    old = [
        planting(f"p{i}", bed=f"b{i}", crop="pea", year=2025, start="sown", first="2025-04-10")
        for i in range(2)
    ]
    garden = made(*beds, *old, beans("p7", bed="b0"))
    (one,) = check_all(Plan(garden, YEAR))
    assert [mend.text for mend in one.fixes] == ["Leave out dwarf bean"]


def test_place_of_a_finding_lies_where_it_is_on_the_plan() -> None:
    garden = made(
        bed("b1", rectangle(center=(10.0, 20.0), turn=90)),
        beans("p1", plot=plot(0, 2.4)),
        lettuce("p2", first="2026-06-03", plot=plot(2.0, 4.8)),
    )
    (one,) = check_all(Plan(garden, YEAR))
    assert one.place.area == pytest.approx(0.4 * 1.2)
    assert one.place.centroid.coords[0] == pytest.approx((10.0, 19.8))


def test_ground_of_several_old_beds_is_added_up() -> None:
    halves = [
        bed("b1", rectangle(2.4, center=(-1.2, 0.0)), last_year=2025),
        bed("b2", rectangle(2.4, center=(1.2, 0.0)), last_year=2025),
    ]
    old = [
        planting(f"p{i}", bed=f"b{i}", crop="pea", year=2025, start="sown", first="2025-04-10")
        for i in (1, 2)
    ]
    new = bed("b3", rectangle(4.8), name="New bed", first_year=2026)
    (one,) = check_all(Plan(made(*halves, new, *old, beans("p3", bed="b3")), YEAR))
    assert one.check == "rotation"
    assert "all of its plot" in one.text
    assert set(one.plantings) == {"p1", "p2", "p3"}


# -- light --------------------------------------------------------------------------------------


def dark(garden: Garden) -> list[Finding]:
    """What is said of the light."""
    return [one for one in check_all(Plan(garden, YEAR)) if one.check == "light"]


def test_planting_that_takes_what_another_needs_is_told_with_both_and_the_hours() -> None:
    assert dark(shading(0.6)) == []
    (one,) = dark(shading())
    assert one.topic == "takes"
    assert one.plantings == ("p1", "p2")
    assert one.text.startswith("Climbing bean in b1 takes ")
    assert "h of direct sun a day from sweet pepper in b0, which keeps " in one.text
    taken, kept, need = (
        float(number)
        for number in re.findall(r"(\d+(?:\.\d+)?) h", one.text)[:2] + re.findall(r"needs (\d+)", one.text)
    )
    plan = Plan(shading(), YEAR)
    days = sample_days(growing_days(plan, planting_view(plan, plan.garden.plantings_by_id["p2"])), 12)
    with_beans = hours_over(
        [plan.ground_of(plan.garden.plantings_by_id["p2"])], plan.place, days, plan.casters
    )["p2"]
    assert kept == pytest.approx(with_beans.mean, abs=0.3)
    alone = Plan(e.remove(shading(), ["p1"]), YEAR)
    without = hours_over(
        [alone.ground_of(alone.garden.plantings_by_id["p2"])], alone.place, days, alone.casters
    )["p2"]
    assert taken == pytest.approx(without.mean - with_beans.mean, abs=0.3)
    assert kept < need - 0.5
    assert dark(alone.garden) == []


def test_its_mends_give_the_hours_they_say() -> None:
    garden = shading()
    (one,) = dark(garden)
    assert one.fixes
    assert any("climbing bean" in mend.text for mend in one.fixes)
    for mend in one.fixes:
        after = mend.apply(garden)
        assert dark(after) == [], mend.text
        says, before = (float(number) for number in re.findall(r"(\d+\.\d) h", mend.gain)[:2])
        plan = Plan(after, YEAR)
        planting_there = plan.garden.plantings_by_id["p2"]
        days = sample_days(growing_days(plan, planting_view(plan, planting_there)), 12)
        real = hours_over([plan.ground_of(planting_there)], plan.place, days, plan.casters)["p2"].mean
        assert says == pytest.approx(real, abs=0.3)
        assert says > before + 0.5


def test_where_a_wall_takes_more_the_planting_that_lacks_is_told() -> None:
    south = Rectangle(length=20, width=0.3, center=(0.0, -5.0))
    wall = Structure(id="s2", kind="wall", name="yard wall", outline=south, height=8)
    garden = shading(barn=14.0)
    found = dark(garden.with_(structures=(*garden.structures, wall)))
    assert {one.topic for one in found} == {""}
    (one,) = [one for one in found if one.plantings == ("p2",)]
    assert re.search(r"barn \d\.\d h and climbing bean \d\.\d h of it taken", one.text)


def test_companions_on_one_ground_are_not_blamed_for_their_shade() -> None:
    garden = shading()
    together = e.change_planting(garden, "p2", bed="b1")
    assert dark(together) == []
    assert "overlap" in {one.check for one in check_all(Plan(together, YEAR))}, "unmeant it is told as that"
    assert dark(e.change_planting(together, "p2", shares_ground=True)) == []


def test_light_after_an_edit_is_as_if_checked_anew() -> None:
    garden = shading()
    plan = Plan(garden, YEAR)
    check_all(plan)
    for after in (
        e.move_things(garden, ["b0"], 0.0, -2.0),
        e.remove(garden, ["p1"]),
        e.change_planting(garden, "p1", crop="dwarf_bean", support=None),
        e.move_planting(garden, "p1", "b3", garden.plantings_by_id["p1"].plot),
    ):
        kept = check_all(plan.after(after))
        assert [(one.key, one.text) for one in kept] == [
            (one.key, one.text) for one in check_all(Plan(after, YEAR))
        ]


@pytest.mark.parametrize("name", ["hollow_lane", "red_mesa", "wattle_bank", "balcony_boxes"])
def test_first_look_at_the_light_misses_no_planting_that_lacks_it(name: str) -> None:
    """What the first look puts above its need by more than its margin has enough by the full measure."""
    garden = sample(name)
    plan = Plan(garden, garden.years()[-1])
    judged = [
        (s, days)
        for s in CheckContext(plan).views
        if (days := growing_days(plan, s)) and not s.placed.plot.is_empty
    ]
    rough = light_measure.coarsely_measured(plan, judged)
    exact = light_measure.measured(plan, judged)
    assert judged
    for key, mean in exact.items():
        assert rough[key].hours - mean.hours < light_lack.COARSE_ERROR, key


# -- no wrong alarms ----------------------------------------------------------------------------


def test_clover_strewn_under_corn_is_not_crowded() -> None:
    corn = planting("p1", crop="sweet_corn", start="sown", first="2026-05-25", arrangement=rows(0.4, 0.6))
    clover = planting(
        "p2",
        crop="white_clover",
        start="sown",
        first="2026-07-01",
        purpose="green manure",
        shares_ground=True,
        arrangement={"kind": "scatter", "density": 400},
    )
    assert "crowding" not in {one.check for one in check_all(Plan(made(bed(), corn, clover), YEAR))}


def test_radish_may_mark_a_row_of_parsnips_and_stay_too_long_may_not() -> None:
    parsnip = planting("p1", crop="parsnip", start="sown", first="2026-04-20", arrangement=rows(0.15, 0.4))

    def crowded(last: str) -> bool:
        radish = planting(
            "p2",
            crop="radish",
            start="sown",
            first="2026-04-20",
            last=last,
            shares_ground=True,
            arrangement=rows(0.05, 0.4),
        )
        return "crowding" in {one.check for one in check_all(Plan(made(bed(), parsnip, radish), YEAR))}

    assert not crowded("2026-06-10")
    assert crowded("2026-09-10")


def test_tubs_are_filled_anew() -> None:
    def turned(kind: str) -> bool:
        height = {"kind": kind, "height": 0.4} if kind != "open" else {"kind": kind}
        last = planting("p1", crop="pea", year=2025, start="sown", first="2025-04-10")
        garden = made(bed("b1", **height), last, beans("p2"))
        return "rotation" in {one.check for one in check_all(Plan(garden, YEAR))}

    assert turned("open")
    assert turned("raised")
    assert not turned("container")


def test_early_potatoes_may_be_lifted_early() -> None:
    potato = planting(
        crop="early_potato", start="tubers", first="2026-04-25", last="2026-07-25", arrangement=rows(0.3, 0.7)
    )
    garden = made(bed(), potato)
    plan = Plan(garden, YEAR)
    first = plan.dates(potato).first_harvest
    assert first is not None
    assert ", an early sort" in first.why, "it is taken for the sort that fits its days"
    assert "season" not in {one.check for one in check_all(plan)}
    (one,) = [
        one
        for one in check_all(Plan(made(bed(), potato.with_(last=potato.last.replace(month=6))), YEAR))
        if one.check == "season"
    ]
    assert one.topic == "cleared"


def test_cloves_lie_below_the_coldest_night() -> None:
    garlic = planting(
        crop="garlic",
        year=2025,
        start="cloves",
        first="2025-10-10",
        last="2026-07-20",
        arrangement=rows(0.15, 0.3),
    )
    cold = made(bed(), garlic, climate=CLIMATE.with_(zone="4a"))
    assert "frost" not in {one.check for one in check_all(Plan(cold, YEAR))}


@pytest.mark.parametrize(("apart", "said"), [((0.45, 0.6), {"note"}), ((0.6, 1.2), set())])
def test_cucumbers_may_run_on_the_ground(apart: tuple[float, float], said: set[str]) -> None:
    cucumber = planting(crop="cucumber", start="raised", first="2026-06-10", arrangement=rows(*apart))
    found = [one for one in check_all(Plan(made(bed(), cucumber), YEAR)) if one.check == "support"]
    assert {one.severity for one in found} == said


def test_less_than_half_of_the_sun_is_told_of_what_wants_full_sun() -> None:
    def said(opacity: float, crop: str) -> list[str]:
        lime = Structure(
            id="s1",
            kind="tree",
            name="lime",
            outline=Circle(radius=4.0),
            height=9.0,
            stem=2.0,
            opacity=(opacity,),
        )
        low = planting(crop=crop, start="raised", first="2026-05-10", arrangement=rows(0.3, 0.4))
        ground = bed("b1", rectangle(2.4, 1.2))
        return [one.text for one in dark(made(ground, low, structures=(lime,)))]

    (told,) = said(0.85, "beetroot")
    share = re.search(r"(\d+) % of the sun of an open place", told)
    assert share is not None
    assert 20 < int(share[1]) < 50
    assert said(0.3, "beetroot") == []
    assert said(0.85, "lettuce") == []


def test_darkest_weeks_are_told_where_the_mean_hides_them() -> None:
    beet = planting(
        crop="beetroot", start="sown", first="2026-06-01", last="2026-09-25", arrangement=rows(0.1, 0.3)
    )

    def said(y: float) -> list[str]:
        hedge = Structure(
            id="s1", kind="wall", name="hedge", height=2.0, outline=rectangle(30.0, 0.6, center=(0.0, y))
        )
        return [one.text for one in dark(made(bed(), beet, structures=(hedge,)))]

    (told,) = said(-1.6)
    assert "in the darkest weeks" in told
    assert said(-2.2) == [], "farther off the low sun comes over it"
    days = sample_days(Span(day(6, 1), day(9, 22)), 5)
    plan = Plan(made(bed(), beet), YEAR)
    mean = sun_hours(plan, [(plan.ground_of(plan.garden.plantings[0]), days)])["p1"]
    assert mean.darkest(0.4) == pytest.approx(1.0), "nothing shades it"


def test_structure_without_a_name_is_told_by_its_side() -> None:
    north = Structure(
        id="s1", kind="wall", outline=Rectangle(length=16, width=0.3, center=(0.0, -1.2)), height=9
    )
    west = Rectangle(length=16, width=0.3, center=(-3.5, 0.0), turn=90)
    garden = made(bed(), beans(), structures=(north, Structure(id="s2", kind="wall", outline=west, height=9)))
    (one,) = dark(garden)
    assert "wall to the south " in one.text
    assert "wall to the west " in one.text


@pytest.mark.parametrize("turn", [0.0, 30.0])
def test_narrow_path_between_full_rows_of_beds_is_mended_by_a_slimmer_bed(turn: float) -> None:
    ys = (0.0, 1.65, 3.15, 4.8)  # the two in the middle stand close, and no bed can give way
    beds = [bed(f"b{i}", rectangle(4.8, 1.2, center=(0.0, y))) for i, y in enumerate(ys)]
    garden = e.turn_things(made(*beds), [one.id for one in beds], turn, about=(0.0, 0.0))
    (one,) = [one for one in check_all(Plan(garden, YEAR)) if one.check == "path"]
    slimmer = [mend for mend in one.fixes if "wide" in mend.text and mend.text.startswith("Make")]
    assert {mend.text.split()[1] for mend in slimmer} == {"b1", "b2"}
    for mend in slimmer:
        after = mend.apply(garden)
        assert check_all(Plan(after, YEAR)) == ()
        changed = next(b for b in after.beds if b is not garden.beds_by_id[b.id])
        before = plan_polygon(garden.beds_by_id[changed.id].outline)
        assert plan_polygon(changed.outline).within(before.buffer(1e-3))


def test_overlap_is_mended_by_a_shorter_plot_with_its_number() -> None:
    early = beans("p1", plot=plot(0.0, 2.7))
    late = lettuce("p2", plot=plot(2.1, 4.8), first="2026-06-01")
    garden = made(bed(), early, late)
    (one,) = [one for one in check_all(Plan(garden, YEAR)) if one.check == "overlap"]
    shorter = [mend for mend in one.fixes if mend.text.startswith("Shorten")]
    assert shorter
    after = Plan(shorter[0].apply(garden), YEAR)
    assert "overlap" not in {one.check for one in check_all(after)}
    changed = next(p for p in after.plantings if p is not garden.plantings_by_id[p.id])
    assert f"{after.placed(changed).plants} " in shorter[0].gain


def test_distances_over_land_are_said_in_whole_metres_and_feet() -> None:
    assert show_distance(805.0) == "805 m"
    assert show_distance(804.7, "feet_inches") == "0.5 mile"
    assert show_distance(2.4) == show_length(2.4)


def test_a_variety_is_not_offered_in_the_place_of_another_crop() -> None:
    seed = planting("p1", crop="sweet_corn", variety="Own", start="sown", first="2026-05-25", purpose="seed")
    pop = planting("p2", bed="b2", crop="popcorn", start="sown", first="2026-05-25")
    garden = made(bed("b1"), bed("b2", rectangle(center=(0.0, 3.0))), seed, pop, climate=WARM)
    crossing = [one for one in check_all(Plan(garden, YEAR)) if one.topic == "crossing"]
    assert crossing
    assert not any("same variety" in mend.text for one in crossing for mend in one.fixes)
