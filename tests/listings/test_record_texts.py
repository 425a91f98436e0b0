"""Records as rows of a table, and finding them; searching is held against looking at each record by itself."""

from __future__ import annotations

import random

import typed_records_corpus as corpus

from planner.crops import load_catalogue
from planner.garden import edits
from planner.importing.typed_records import add_typed_records, read_typed_records
from planner.listings.record_texts import RecordChoice, RecordTexts, record_amount, record_what
from planner.listings.records import chosen_records
from planner.plan import Plan
from planner.season.spans import Span

CATALOGUE = load_catalogue()


def _plan(*lines: str) -> Plan:
    garden = corpus.plot()
    for line in lines:
        plan = Plan(garden, 2026, CATALOGUE)
        garden = add_typed_records(garden, read_typed_records(plan, line, corpus.TODAY))
    return Plan(garden, 2026, CATALOGUE)


def test_what_and_how_much_are_told_apart() -> None:
    plan = _plan(
        "picked 1.2 kg tomato in North, given away",
        "aphids on dwarf bean in Bed 3, half",
        "carrot up in Bed 4, 43 of 60",
        "measured height 43 cm of tomato in North",
        "lettuce in Bed 2 bolted",
        "thinned carrot in Bed 4",
        "note North: dry",
    )
    rows = [(record_what(one), record_amount(one, "metric")) for one in plan.garden.records]
    assert rows == [
        ("picked, given away", "1.20 kg"),
        ("a pest, perhaps aphids", "50 %"),
        ("came up", "43 of 60"),
        ("measured: height", "43 cm"),
        ("ended: ran to seed", ""),
        ("thinned", ""),
        ("note", ""),
    ]
    assert record_amount(plan.garden.records[0], "feet_inches").endswith("oz")


def test_a_search_finds_what_looking_at_each_finds_and_follows_edits() -> None:
    rng, texts = random.Random(5), RecordTexts()
    words = ["dry", "wet", "Slugs", "north wind", "frost", "Грядка"]
    new = [
        {"kind": "note", "day": corpus.june(rng.randint(1, 9)), "words": " ".join(rng.sample(words, 3))}
        | ({"bed": rng.choice(["b1", "north"])} if rng.random() < 0.5 else {})
        for _ in range(60)
    ]
    plan = Plan(edits.add_records(corpus.plot(), new)[0], 2026, CATALOGUE)
    for _ in range(20):
        garden = plan.garden
        for wanted in ("DRY", "slugs NORTH", "грядка", "june", "2026-06-03", "bed 1 wind"):
            found = texts.found(plan, RecordChoice(words=wanted.split()))
            each = [
                one
                for one in garden.records
                if all(w.casefold() in texts.text(plan, one) for w in wanted.split())
            ]
            assert sorted(one.id for one in found) == sorted(one.id for one in each)
            assert [one.day for one in found] == sorted((one.day for one in found), reverse=True)
        key = rng.choice(garden.records).id
        plan = plan.after(edits.change_record(garden, key, words=rng.choice(words)))
    renamed = plan.after(edits.change_bed(plan.garden, "b1", name="Xanadu"))
    assert (
        len(texts.found(renamed, RecordChoice(words=["xanadu"])))
        == sum(one.bed == "b1" for one in plan.garden.records)
        > 0
    )


def test_texts_are_prepared_a_few_at_a_time() -> None:
    new = [{"kind": "note", "day": corpus.TODAY, "words": f"{n}"} for n in range(500)]
    plan, texts = Plan(edits.add_records(corpus.plot(), new)[0], 2026, CATALOGUE), RecordTexts()
    rounds = 1
    while not texts.prepare(plan, 0.0):
        rounds += 1
    assert 1 < rounds <= 12


def test_the_page_and_the_command_find_the_same_records() -> None:
    """One function finds them; against a plain look at each record and each choice."""
    rng, texts = random.Random(7), RecordTexts()
    new = [
        {
            "kind": "note",
            "day": corpus.june(rng.randint(1, 9)),
            "words": rng.choice(["dry", "wet"]),
            "bed": key,
        }
        for key in ("b1", "north")
        for _ in range(6)
    ]
    new += [
        {"kind": "lesson", "day": corpus.june(3), "words": "dry again", "crop": "carrot"},
        {"kind": "lesson", "day": corpus.june(4), "words": "wet", "crop": "pea"},
    ]
    plan = Plan(edits.add_records(corpus.plot(), new)[0], 2026, CATALOGUE)
    for _ in range(60):
        choice = RecordChoice(
            beds=rng.choice([None, ("b1",), ("b1", "north"), ()]),
            crops=rng.choice([None, None, ("carrot",)]),
            kinds=rng.choice([None, ("note",), ("lesson", "note")]),
            days=rng.choice([None, Span(corpus.june(2), corpus.june(5))]),
            words=rng.choice([(), ("DRY",), ("lesson",)]),
        )
        plain = [
            one
            for one in plan.garden.records
            if (choice.beds is None or one.bed in choice.beds)
            and (choice.crops is None or getattr(one, "crop", None) in choice.crops)
            and (choice.kinds is None or one.kind in choice.kinds)
            and (choice.days is None or choice.days.first <= one.day <= choice.days.last)
            and all(word.casefold() in (one.words + " " + one.kind) for word in choice.words)
        ]
        chosen = chosen_records(plan, choice)
        assert list(chosen) == sorted(plain, key=lambda one: one.day)
        assert list(chosen) == texts.found(plan, choice)[::-1]
