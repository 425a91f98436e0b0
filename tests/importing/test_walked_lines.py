"""Lines typed on a walk whose obvious meaning was once missed: an article taken for a letter, words behind a colon, days, wrong plantings."""

from __future__ import annotations

import datetime as dt
from typing import Any

import grower_lines_corpus as corpus
import pytest
from grower_lines_corpus import TODAY

from planner.crops import load_catalogue
from planner.errors import BedwrightError
from planner.garden.edits import add_records
from planner.importing.typed_records import TypedRecords, read_typed_records, typed_warnings
from planner.plan import Plan

PLAN = Plan(corpus.holding(), 2026, load_catalogue())
#: As plantings are called on the walk at East 4 and in the Tunnel.
CALLED = {"A": "cha", "B": "bee"}
D = dt.date


def read(line: str, about: tuple[str, ...] = (), today: dt.date = TODAY, **called: str) -> TypedRecords:
    return read_typed_records(PLAN, line, today, about, called)


def about(line: str, *beds: str, today: dt.date = TODAY) -> list[tuple[str, dict[str, Any]]]:
    typed = read(line, beds, today, **CALLED)
    return [(str(one.get("planting") or one.get("bed")), one) for one in typed.fields]


# -- an article, and a letter ------------------------------------------------------------------------


@pytest.mark.parametrize(
    "line",
    ["a frost took half the beetroot", "a late frost took half of the beetroot", "a deer ate half the beetroot",
     "a hard frost killed half of the beetroot last night"],
)  # fmt: skip
def test_a_small_a_before_a_noun_is_an_article(line: str):
    ((planting, fields),) = about(line, "e4")
    assert (planting, fields["lost"]) == ("bee", 0.5)


@pytest.mark.parametrize("line", ["a deer ate half", "a frost took a third", "a storm: half gone"])
def test_of_which_planting_is_asked_where_only_an_article_stands_there(line: str):
    with pytest.raises(BedwrightError, match="chard"):
        read(line, ("e4",), **CALLED)


@pytest.mark.parametrize(
    "line",
    [
        "a picked 300 g",
        "a slugs",
        "a: slugs",
        "A mildew",
        "a mildew",
        "a bolted",
        "a up",
        "a 2 bunches picked",
    ],
)
def test_a_letter_is_still_one(line: str):
    ((planting, _),) = about(line, "e4")
    assert planting == "cha"


# -- what is gone ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "planting", "lost"),
    [
        ("half the beetroot taken by hail on 20 Aug", "bee", 0.5),
        ("a third of the leeks taken by rust", "lee", 1 / 3),
        ("hail wiped out half of the lettuce in South", "le2", 0.5),
        ("half of the cabbages devoured by caterpillars", "cab", 0.5),
        ("pigeons stripped a quarter of the cabbages bare", "cab", None),
        ("hail 14 Aug: half of the tomatoes gone", "tom", 0.5),
        ("frost on Monday: a third of the courgettes lost", "cou", 1 / 3),
        ("hail took half of East 3 tomatoes", "tom", 0.5),
    ],
)
def test_a_part_that_was_taken_is_lost(line: str, planting: str, lost: float | None):
    ((there, fields),) = about(line)
    assert (there, fields["kind"], fields.get("lost")) == (planting, "seen", lost)


def test_weather_with_words_behind_its_day_is_still_of_the_garden():
    ((_, fields),) = about("frost on Monday: first of the autumn")
    assert (fields["kind"], fields["harm"], fields["day"]) == ("seen", "frost", D(2026, 9, 14))
    assert "first of the autumn" in fields["words"]
    assert "bed" not in fields


def test_a_loss_in_a_bed_of_one_crop_needs_no_crop():
    ((planting, fields),) = about("hail took half", "w3")
    assert (planting, fields["lost"]) == ("pot", 0.5)


# -- behind a colon ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "line",
    [
        "leek planted out: May on 5 June",
        "leek set out: bed May, 5 June",
        "leek: planted out on 5 June in May",
    ],
)
def test_beds_and_days_behind_a_colon_are_no_words_of_ones_own(line: str):
    ((planting, fields),) = about(line, "e4")
    assert (planting, fields["day"], fields.get("words")) == ("lee", D(2026, 6, 5), None)


def test_beds_of_which_none_has_it_are_asked_back():
    with pytest.raises(BedwrightError, match="West"):
        read("leek sown: West 1 to 3 on Tuesday", ("my",))


def test_a_part_of_a_plant_behind_a_colon_is_no_other_crop():
    ((planting, fields),) = about("strawberries: runners cut")
    assert (planting, fields["words"]) == ("str", "runners cut")


# -- which planting ----------------------------------------------------------------------------------


def test_what_is_not_there_yet_has_not_bolted():
    """Beans are sown on 15 May: on 1 May nothing can have happened to them but their sowing."""
    for line in ("runner beans bolted", "picked 200 g runner beans", "runner beans flowering"):
        with pytest.raises(BedwrightError, match=r"not in East 1|nowhere"):
            read(line, ("e1",), D(2026, 5, 1))
    assert about("runner beans sown", "e1", today=D(2026, 5, 1))[0][0] == "run"
    assert about("runner beans up", "e1", today=D(2026, 5, 6))[0][0] == "run"


def test_of_what_stands_and_what_was_to_be_cleared_it_is_asked():
    """The radishes were to be cleared on 20 June; chard and beetroot stand."""
    with pytest.raises(BedwrightError, match="radish") as fault:
        read("cleared", ("e4",), D(2026, 6, 25))
    assert "chard" in str(fault.value)


def test_a_bed_is_mulched_whole():
    found = about("mulched West 1 with straw")
    assert [place for place, _ in found] == ["w1"]
    assert about("compost spread on West 2 yesterday")[0][0] == "w2"


def test_lettuce_is_no_lambs_lettuce_where_both_are_planted():
    """In November only corn salad stands in the bed, which is called lamb's lettuce too."""
    lettuce = PLAN.garden.plantings_by_id["le2"]
    others = [one for one in PLAN.garden.plantings if one is not lettuce]
    salad = lettuce.with_(id="cs", crop="corn_salad", first=D(2026, 8, 20))
    both = PLAN.garden.with_(plantings=(*others, lettuce.with_(last=D(2026, 7, 20)), salad))
    plan = Plan(both, 2026, PLAN.catalogue)
    with pytest.raises(BedwrightError, match="lettuce"):
        read_typed_records(plan, "half of the lettuce in South lost to slugs", D(2026, 11, 10))
    (fields,) = read_typed_records(
        plan, "half of the lamb's lettuce in South lost to slugs", D(2026, 11, 10)
    ).fields
    assert fields["planting"] == "cs"


# -- slips of the pen --------------------------------------------------------------------------------


def test_a_start_months_off_the_plan_is_asked_about():
    off = read("runner beans in East 1 sown on 14 Aug")
    (words,) = typed_warnings(PLAN, off)
    assert "15 May" in words
    assert typed_warnings(PLAN, read("runner beans in East 1 sown on 20 May")) == ()
    began = add_records(
        PLAN.garden, [{"kind": "done", "task": "sow", "planting": "run", "day": D(2026, 5, 16)}]
    )
    again = read_typed_records(
        Plan(began[0], 2026, PLAN.catalogue), "runner beans in East 1 sown on 14 Aug", TODAY
    )
    assert typed_warnings(Plan(began[0], 2026, PLAN.catalogue), again)


@pytest.mark.parametrize(
    ("today", "words", "day"),
    [
        (D(2026, 11, 30), "1 March", D(2026, 3, 1)),
        (D(2026, 11, 30), "2 Jan", D(2026, 1, 2)),
        (D(2026, 11, 30), "20 Oct", D(2026, 10, 20)),
        (D(2026, 1, 5), "20 Dec", D(2025, 12, 20)),
    ],
)
def test_a_day_without_a_year_is_the_last_one_up_to_today(today: dt.date, words: str, day: dt.date):
    assert about(f"East 1 weeded on {words}", today=today)[0][1]["day"] == day


def test_a_day_that_is_nearly_there_is_asked_about():
    with pytest.raises(BedwrightError, match="still to come"):
        read("East 1 weeded on 12 Dec", today=D(2026, 11, 30))


def test_a_loss_long_after_the_end_is_asked_about():
    (words,) = typed_warnings(PLAN, read("half of the garlic lost to rust on 10 Sept"))
    assert "25 Jul" in words
    assert typed_warnings(PLAN, read("half of the garlic lost to rust on 20 July")) == ()


def test_a_part_of_a_picking_that_was_given_is_asked_about():
    with pytest.raises(BedwrightError, match="given away"):
        read("picked 3 kg of tomatoes, gave half to the neighbour")


# -- German ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "planting", "fields"),
    [
        ("Bohnen 1,5 kg geerntet", "run", {"amount": {"value": 1500.0, "unit": "g"}}),
        ("Schnecken haben den halben Salat in North gefressen", "le1", {"lost": 0.5}),
        ("6 von 24 Lauch eingegangen", "lee", {"lost": 0.25}),
        ("2 kg von den Tomaten geerntet", "tom", {"amount": {"value": 2000.0, "unit": "g"}}),
    ],
)
def test_german_lines(line: str, planting: str, fields: dict[str, Any]):
    ((there, found),) = about(line)
    assert there == planting
    assert {key: found.get(key) for key in fields} == pytest.approx(fields) if "lost" in fields else True
    assert all(found.get(key) == value for key, value in fields.items() if key != "lost")


def test_to_look_again_in_german():
    ((_, found),) = about("Mehltau an Tomaten, wieder nachsehen am 15. Oktober")
    assert found["look_again"] == D(2026, 10, 15)
