"""Neighbours: both sides of each threshold."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from checks.faults import WARM, beans, day, made, places, plot, rows
from checks.thresholds import Threshold
from making import bed, planting, rectangle

from planner.checks import check_all, neighbours
from planner.checks.neighbours_grades import severity
from planner.checks.neighbours_trees import reach_of
from planner.crops import Catalogue, Crop, load_catalogue
from planner.crops.neighbours import GRADES, Between, Grade, rules, rules_between
from planner.garden import Circle, Garden, Structure
from planner.plan import Plan


def corn_and_beans(last: dt.date) -> Garden:
    corn = planting(
        "p1",
        crop="sweet_corn",
        start="raised",
        first=day(6, 1),
        arrangement=rows(0.3, 0.4),
        plot=plot(0, 2.4),
    )
    return made(bed(outline=rectangle(8.0)), corn, beans("p2", plot=plot(2.4, 8.0), last=last), climate=WARM)


def two_rows_of_corn(apart: float) -> Garden:
    lines = {"kind": "rows", "in_row_spacing": 0.3, "row_spacing": apart, "rows": 2}
    corn = planting(crop="sweet_corn", start="raised", first=day(6, 1), arrangement=lines)
    return made(bed(), corn, climate=WARM)


def corn_in_two_beds(apart: float) -> Garden:
    """A row of corn in each of two beds 0.4 m wide."""
    lines = {"kind": "rows", "in_row_spacing": 0.3, "rows": 1}
    beds = (bed("b1", rectangle(4.8, 0.4)), bed("b2", rectangle(4.8, 0.4, center=(0.0, 0.4 + apart))))
    corn = (
        planting(f"p{i}", bed=f"b{i}", crop="sweet_corn", start="raised", first=day(6, 1), arrangement=lines)
        for i in (1, 2)
    )
    return made(*beds, *corn, climate=WARM)


def potato_and_tomato(apart: float) -> Garden:
    """A row of each in two beds; blight reaches 5 m within a bed, and plots up to 1.25 m apart are looked at."""
    potato = planting(
        "p1", bed="b1", crop="potato", start="tubers", first=day(5, 1), arrangement=rows(0.35, 0.7, rows=1)
    )
    tomatoes = planting(
        "p2",
        bed="b2",
        crop="tomato",
        start="raised",
        first=day(6, 5),
        support={"kind": "stake", "height": 1.8},
        arrangement=rows(0.6, 0.6, rows=1),
    )
    return made(bed("b1"), bed("b2", rectangle(center=(0.0, apart))), potato, tomatoes)


def tomatoes_by_a_walnut(x: float, height: float, crown: float = 1.0) -> Garden:
    """The nearest plant is 2 m nearer than the middle of the bed."""
    outline = Circle(radius=crown, center=(x, 0.0))
    tree = Structure(id="s1", kind="tree", name="black walnut", outline=outline, height=height, stem=1)
    return made(
        bed(),
        planting(
            crop="tomato",
            start="raised",
            first=day(5, 10),
            support={"kind": "stake"},
            arrangement=rows(0.5, 0.6),
        ),
        structures=(tree,),
    )


def corn_and_bean_over_an_edge(from_edge: float) -> Garden:
    """A plant of corn 5 cm from the edge of its bed, and beans so far beyond it; they do harm within 50 cm."""
    corn = planting(
        "p1", bed="b1", crop="sweet_corn", start="raised", first=day(6, 1), arrangement=places((0.0, 0.55))
    )
    bean = beans("p2", bed="b2", arrangement=places((0.0, from_edge - 0.6)))
    return made(bed("b1"), bed("b2", rectangle(center=(0.0, 1.2))), corn, bean, climate=WARM)


def potato_and_tomato_until(last: dt.date, planted: dt.date, set_out: dt.date) -> Garden:
    """Potatoes from one day to another, and tomatoes near them."""
    potato = planting(
        "p1",
        crop="potato",
        start="tubers",
        first=planted,
        last=last,
        pinned_dates={"first_harvest": last, "last_harvest": last},
        arrangement=rows(0.35, 0.7),
    )
    tomatoes = planting(
        "p2",
        bed="b2",
        crop="tomato",
        start="raised",
        first=set_out,
        support={"kind": "stake", "height": 1.8},
        arrangement=rows(0.6, 0.6),
    )
    return made(bed("b1"), bed("b2", rectangle(center=(0.0, 1.8))), potato, tomatoes, climate=WARM)


BAD = [("mind", "bad")]

THRESHOLDS = [
    Threshold("13 or 14 days side by side", "neighbours", corn_and_beans, day(6, 13), [], day(6, 14), BAD),
    Threshold(
        "two rows 26 or 25 cm apart", "neighbours", two_rows_of_corn, 0.26, [], 0.25, [("note", "block")]
    ),
    Threshold(
        "two beds of corn 1.5 m apart", "neighbours", corn_in_two_beds, 1.5, [], 1.51, [("note", "block")] * 2
    ),
    Threshold("plots 1.25 m apart", "neighbours", potato_and_tomato, 2.46, [], 2.45, [("note", "bad")]),
    Threshold(
        "within 18 m of a grown walnut",
        "neighbours",
        lambda x: tomatoes_by_a_walnut(x, height=25),
        20.0,
        [],
        19.9,
        [("note", "s1")],
    ),
    Threshold(
        "within its height of a young walnut",
        "neighbours",
        lambda x: tomatoes_by_a_walnut(x, height=3),
        5.0,
        [],
        4.9,
        [("note", "s1")],
    ),
    Threshold(
        "under the crown of a low walnut",
        "neighbours",
        lambda x: tomatoes_by_a_walnut(x, height=3, crown=5),
        7.0,
        [],
        6.9,
        [("note", "s1")],
    ),
    Threshold(
        "half of the reach over a path",
        "neighbours",
        corn_and_bean_over_an_edge,
        0.203,
        [("note", "block")],
        0.2,
        [*BAD, ("note", "block")],
    ),
    Threshold(
        "blight until a week before the longest day",
        "neighbours",
        lambda last: potato_and_tomato_until(last, day(3, 20), day(5, 15)),
        day(6, 13),
        [],
        day(6, 14),
        [("note", "bad")],
    ),
    Threshold(
        "together from 150 days before the longest day on",
        "neighbours",
        lambda first: potato_and_tomato_until(day(6, 5), day(1, 2), first),
        day(1, 23),
        [],
        day(1, 22),
        [("note", "bad")],
    ),
]


@pytest.mark.parametrize("threshold", THRESHOLDS, ids=str)
def test_rule_changes_its_mind_at_its_threshold(threshold: Threshold) -> None:
    threshold.assert_found()


# -- evidence -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("grade", "severity_of_it", "words"),
    [
        ("trial", "mind", "known from a trial"),
        ("advice", "note", "known from advice"),
        ("laboratory", "note", "known from the laboratory, not shown in a bed"),
    ],
)
def test_a_finding_is_as_strong_as_its_evidence(
    grade: Grade, severity_of_it: str, words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    def graded(catalogue: Catalogue, first: Crop, second: Crop, _grades: object) -> tuple[Between, ...]:
        found = rules_between(catalogue, first, second, GRADES[:1])
        return tuple(
            replace(one, rule=one.rule.model_copy(update={"grade": grade}))
            for one in found
            if one.rule.effect == "bad" and one.rule.a.latin == "Zea mays"
        )

    monkeypatch.setattr(neighbours, "rules_between", graded)
    (found,) = (one for one in check_all(Plan(corn_and_beans(day(7, 20)), 2026)) if one.topic == "bad")
    assert found.severity == severity_of_it
    assert words in found.text


def tomato_in_the_ground_of(crop: str) -> Garden:
    """A shallot or a basil meant to stand among tomatoes."""
    tomato = planting(
        "p1",
        crop="tomato",
        start="raised",
        first=day(5, 20),
        support={"kind": "stake"},
        arrangement=rows(0.5, 0.6),
    )
    start = "sets" if crop == "shallot" else "raised"
    guest = planting(
        "p2", crop=crop, start=start, first=day(5, 25), shares_ground=True, arrangement=places((0.0, 0.0))
    )
    return made(bed(), tomato, guest)


@pytest.mark.parametrize(("crop", "helped"), [("basil", True), ("shallot", False)])
def test_only_what_helps_in_a_bed_excuses_harm(
    crop: str, helped: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Basil helps tomatoes in the field, shallots in the laboratory; harm of the same pair is made up."""

    def with_harm(catalogue: Catalogue, first: Crop, second: Crop, grades: Any) -> tuple[Between, ...]:
        found = rules_between(catalogue, first, second, grades)
        harm = (
            replace(one, rule=one.rule.model_copy(update={"effect": "bad", "grade": "trial"}))
            for one in found
        )
        return (*found, *harm)

    monkeypatch.setattr(neighbours, "rules_between", with_harm)
    found = [one for one in check_all(Plan(tomato_in_the_ground_of(crop), 2026)) if one.topic == "bad"]
    assert bool(found) is not helped


def test_only_harm_known_from_a_trial_is_more_than_a_note() -> None:
    rule = rules(load_catalogue())[0]
    graded = {grade: severity(rule.model_copy(update={"effect": "bad", "grade": grade})) for grade in GRADES}
    assert graded == {"trial": "mind", "advice": "note", "laboratory": "note", "lore": "note"}
    assert severity(rule.model_copy(update={"effect": "good", "grade": "trial"})) == "note"


def test_a_walnut_reaches_farther_as_it_grows_up_to_what_is_printed() -> None:
    (rule, *_) = (one for one in rules(load_catalogue()) if one.a.latin == "Juglans nigra")
    outline = Circle(radius=1.0, center=(0.0, 0.0))

    def reach(height: float) -> float:
        return reach_of(Structure(id="s1", kind="tree", name="walnut", outline=outline, height=height), rule)

    heights = (1, 2, 5, 10, 17, 18, 20, 30)
    assert [reach(height) for height in heights] == [1, 2, 5, 10, 17, 18, 18, 18]


def test_the_doubt_about_walnuts_is_told_with_the_finding() -> None:
    garden = tomatoes_by_a_walnut(10.0, height=20)
    (found,) = (one for one in check_all(Plan(garden, 2026)) if one.check == "neighbours")
    assert "known from advice" in found.text
    assert "Doubted" in found.rule
