"""Findings of one kind in one line, and mends for several of them in one step."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.faults import CASES, YEAR, beans, bed, made
from making import planting, rectangle
from sample_reading import FOLDER

from planner.checks import Fix, check_all
from planner.checks.group_subject import Subject
from planner.checks.group_words import ANY_CROP, PHRASES
from planner.checks.grouping import FindingGroup, group_mends, grouped
from planner.garden import Cover, Garden, Lot
from planner.garden import edits as e
from planner.plan import Plan
from planner.storage import load

SAMPLES = sorted(path.stem for path in FOLDER.glob("*.bedwright"))


def carrots(count: int, **fields) -> Garden:
    beds = [bed(f"b{i}", rectangle(center=(0.0, 3.0 * i))) for i in range(count)]
    days = {"crop": "carrot", "first": f"{YEAR}-04-20", "last": f"{YEAR}-09-20"}
    return made(*beds, *[planting(f"p{i}", f"b{i}", **days, **fields) for i in range(count)])


def groups_of(garden: Garden, check: str) -> list[FindingGroup]:
    plan = Plan(garden, YEAR)
    return [one for one in grouped(plan, check_all(plan, light=False)) if one.check == check]


def test_carrots_in_six_beds_are_one_line_with_one_mend():
    garden = carrots(6)
    (group,) = groups_of(garden, "cover")
    assert group.text == "Carrot in 6 beds is never covered against carrot fly"
    assert len({one.key for one in group.findings}) == len(group.findings) == 6
    (mend,) = group_mends(Plan(garden, YEAR), group.findings)
    assert mend.text == "Cover it with netting: all 6"
    after = mend.apply(garden)
    assert groups_of(after, "cover") == []
    assert all(one.covers[0].kind == "netting" for one in after.plantings)


def test_some_of_them_are_mended_and_the_others_left():
    garden = carrots(6)
    (group,) = groups_of(garden, "cover")
    (mend,) = group_mends(Plan(garden, YEAR), group.findings[:2])
    (left,) = groups_of(mend.apply(garden), "cover")
    assert [one.key for one in left.findings] == [one.key for one in group.findings[2:]]
    assert left.text == "Carrot in 4 beds is never covered against carrot fly"


def test_several_plantings_of_one_bed_count_as_one_bed():
    garden = carrots(2)
    more = garden.plantings[1].with_(id="p9", bed="b0", variety="Early")
    halves = [{"kind": "stretch", "start": a, "end": a + 2.0} for a in (0.0, 2.5)]
    first = garden.plantings[0].with_(plot=halves[0])
    garden = garden.with_(plantings=(first, garden.plantings[1], more.with_(plot=halves[1])))
    (group,) = groups_of(garden, "cover")
    assert len(group.findings) == 3
    assert group.text == "Carrot in 2 beds is never covered against carrot fly"


def test_other_crops_causes_and_waived_ones_stay_apart():
    garden = carrots(4)
    cabbage = planting("c", "b3", crop="cabbage", first=f"{YEAR}-05-01", last=f"{YEAR}-09-20")
    partly = garden.plantings[2].with_(
        covers=(Cover(kind="fleece", first=f"{YEAR}-04-20", last=f"{YEAR}-05-01"),)
    )
    garden = garden.with_(plantings=(*garden.plantings[:2], partly, cabbage))
    texts = [(len(one.findings), one.single) for one in groups_of(garden, "cover")]
    assert sorted(texts) == [(1, True), (1, True), (2, False)]
    pair = next(one for one in groups_of(garden, "cover") if not one.single)
    waived = e.waive(garden, pair.findings[0].key, "no fly here")
    assert all(one.single for one in groups_of(waived, "cover"))


def test_seed_that_is_short_is_one_line_whatever_the_crop():
    beds = [bed("b1"), bed("b2", rectangle(center=(0.0, 3.0)))]
    stock = (
        Lot(id="l1", crop="dwarf_bean", seeds=20, packed=2025),
        Lot(id="l2", crop="lettuce", seeds=2, packed=2025),
    )
    lettuce = planting("p2", "b2", crop="lettuce", first=f"{YEAR}-05-20")
    garden = made(*beds, beans("p1"), lettuce, stock=stock)
    (group,) = groups_of(garden, "stock")
    assert group.text == "Of 2 sorts seed is short"
    (mend,) = group_mends(Plan(garden, YEAR), group.findings)
    assert mend.text == "Note what is short as ordered: all 2"
    after = mend.apply(garden)
    assert [lot.ordered for lot in after.stock] == [False, False, True, True]
    assert groups_of(after, "stock") == []


def test_a_mend_that_brings_something_as_grave_is_not_offered():
    garden = carrots(3)
    (group,) = groups_of(garden, "cover")

    def spoils(garden: Garden) -> Garden:
        return e.change_planting(garden, "p0", bed="b1")

    def both(one, fix):
        return lambda garden: spoils(fix.apply(garden))

    bad = []
    for one in group.findings:
        (fix,) = one.candidates(Plan(garden, YEAR))
        bad.append(replace(one, candidates=lambda plan, o=one, f=fix: (Fix(f.text, f.gain, both(o, f)),)))
    worse = check_all(Plan(spoils(garden), YEAR), light=False)
    assert any(one.severity != "note" for one in worse)
    assert group_mends(Plan(garden, YEAR), bad) == ()


@pytest.mark.parametrize("name", SAMPLES)
def test_groups_hold_every_finding_once_in_their_order(name):
    plan = Plan(load(FOLDER / f"{name}.bedwright"), YEAR)
    found = check_all(plan, light=False)
    groups = grouped(plan, found)
    assert sorted(one.key for group in groups for one in group.findings) == sorted(one.key for one in found)
    firsts = [found.index(group.findings[0]) for group in groups]
    assert firsts == sorted(firsts)
    for group in groups:
        assert len({one.severity for one in group.findings}) == 1
        assert [found.index(one) for one in group.findings] == sorted(
            found.index(one) for one in group.findings
        )


@pytest.mark.parametrize("name", SAMPLES)
def test_group_mends_of_the_samples_do_what_they_say(name):
    garden = load(FOLDER / f"{name}.bedwright")
    plan = Plan(garden, YEAR)
    for group in grouped(plan, check_all(plan, light=False)):
        for mend in group_mends(plan, group.findings):
            after = {one.case for one in check_all(Plan(mend.apply(garden), YEAR), light=False)}
            assert not {one.case for one in mend.findings} & after, mend.text


def test_every_kind_of_finding_that_is_about_a_crop_has_a_common_sentence():
    alone = {("join", "plantings"), ("support", "outside"), ("standing", "dug")}
    for case in CASES:
        for one in check_all(Plan(case.faulty(), YEAR)):
            kind = (one.check, one.kind or one.topic)
            if not one.structures:
                assert (kind in PHRASES) != (kind in alone), kind


@pytest.mark.parametrize("kind", sorted(PHRASES))
def test_sentences_name_crop_and_number(kind):
    several = PHRASES[kind](Subject("carrot", "onion", "carrot fly", 6))
    assert "6" in several
    assert ("carrot" in several) == (kind not in ANY_CROP)
    assert "{" not in several
    assert "1" in PHRASES[kind](Subject("carrot", "onion", "carrot fly", 1))
