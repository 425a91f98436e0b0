"""Records by place, lessons when something is planned again, photographs by bed and week."""

from __future__ import annotations

import datetime as dt
import random
from typing import Any

import typed_records_corpus as corpus
from making import bed, garden, planting

from planner.crops import load_catalogue
from planner.garden import Garden, edits
from planner.garden.record_index import Told, index_of
from planner.plan import Plan
from planner.plan.pictures import of_day, same_week_of_other_years, shots_of
from planner.plan.recorded import lessons_for, lessons_in_plan, records_of_bed, records_of_planting

CATALOGUE = load_catalogue()


def with_records(*records: dict[str, Any]) -> Garden:
    return edits.add_records(corpus.plot(), records)[0]


def lesson(words: str, day: int = 1, **place: Any) -> dict[str, Any]:
    return {"kind": "lesson", "day": corpus.june(day), "words": words, **place}


GARDEN = with_records(
    lesson("crop", crop="carrot"),
    lesson("family", 2, family="Apiaceae"),
    lesson("bed", 3, bed="b4"),
    lesson("crop in bed", 4, crop="carrot", bed="b4"),
    lesson("family in bed", 5, family="Apiaceae", bed="b5"),
    lesson("garden", 6),
    lesson("planting", 7, planting="car"),
    {"kind": "note", "day": corpus.june(8), "bed": "b4", "words": "no lesson"},
)


def told(crop: str = "", bed: str = "") -> list[str]:
    found = lessons_for(GARDEN, CATALOGUE, crop, bed)
    assert found == lessons_in_plan(Plan(GARDEN, 2026, CATALOGUE), crop, bed)
    return [one.words for one in found]


def test_lessons_are_told_of_their_crop_family_and_bed_the_newest_first() -> None:
    assert told("carrot", "b4") == ["planting", "crop in bed", "bed", "family", "crop"]
    assert told("carrot", "north") == ["planting", "family", "crop"]
    assert told("parsnip", "b5") == ["family in bed", "family"]
    assert told("tomato", "b4") == ["bed"]
    assert told("tomato", "north") == []
    assert told(bed="b4") == ["bed"]
    assert told(crop="carrot") == ["planting", "family", "crop"]


def test_lessons_of_the_garden_are_told_once_and_not_with_each_crop() -> None:
    assert told() == ["garden"]
    assert told("no such crop", "no such bed") == []


def test_records_of_a_bed_are_those_of_its_plantings_too() -> None:
    plan = Plan(GARDEN, 2026, CATALOGUE)
    assert [one.words for one in records_of_bed(plan, "b4")] == [
        "no lesson",
        "planting",
        "crop in bed",
        "bed",
    ]
    assert [one.words for one in records_of_planting(plan, "car")] == ["planting"]
    assert records_of_bed(plan, "herb") == ()


def _note(day: dt.date, *names: str, taken: dt.datetime | None = None, **place: Any) -> dict[str, Any]:
    photographs = [{"path": name, "sha256": f"{ord(name[0]):064x}", "taken": taken} for name in names]
    return {"kind": "note", "day": day, "photographs": photographs, **place}


def test_photographs_by_bed_day_and_week() -> None:
    garden = with_records(
        _note(dt.date(2026, 6, 9), "a.jpg", "b.jpg", bed="b4"),
        _note(dt.date(2026, 6, 10), "c.jpg", planting="car", taken=dt.datetime(2026, 6, 9, 23, 59)),
        _note(dt.date(2025, 6, 6), "d.jpg", bed="b4"),
        _note(dt.date(2024, 6, 12), "e.jpg", bed="b4"),
        _note(dt.date(2024, 6, 13), "f.jpg", bed="b4"),
        _note(dt.date(2027, 6, 9), "g.jpg", bed="north"),
    )
    plan, day = Plan(garden, 2026, CATALOGUE), dt.date(2026, 6, 9)
    shots = shots_of(plan, "b4")
    assert [shot.photograph.path[0] for shot in of_day(shots, day)] == ["a", "b", "c"]
    assert [shot.photograph.path[0] for shot in same_week_of_other_years(shots, day)] == ["d", "e"]
    whole = same_week_of_other_years(shots_of(plan, None), day)
    assert [shot.photograph.path[0] for shot in whole] == ["g", "d", "e"]


def test_the_same_week_goes_over_the_new_year_and_leap_days() -> None:
    garden = with_records(
        _note(dt.date(2025, 12, 30), "a.jpg"),
        _note(dt.date(2024, 2, 29), "b.jpg"),
        _note(dt.date(2026, 1, 2), "c.jpg"),
    )
    shots = shots_of(Plan(garden, 2026, CATALOGUE), None)

    def of(day: dt.date) -> list[str]:
        return [shot.photograph.path[0] for shot in same_week_of_other_years(shots, day)]

    assert of(dt.date(2027, 1, 1)) == ["c", "a"]
    assert of(dt.date(2025, 12, 31)) == []
    assert of(dt.date(2028, 2, 29)) == ["b"]
    assert of(dt.date(2025, 2, 27)) == ["b"]


def test_what_was_told_before_an_edit_is_told_again_only_where_records_are_the_same() -> None:
    """Each step against what the records of each planting tell by themselves."""
    rng = random.Random(4)
    of = garden(bed(), *(planting(f"p{n}", crop="carrot") for n in range(4)))
    for step in range(25):
        new = {"planting": f"p{rng.randrange(4)}", "day": dt.date(2026, 7, 1) + dt.timedelta(step)}
        kind = rng.choice(["came up", "ripe", "first picking", "note"])
        if rng.random() < 0.3 and of.records:
            of = edits.remove_records(of, [rng.choice(of.records).id])
        else:
            of, _ = edits.add_records(
                of, [{**new, "kind": kind, **({"words": "x"} if kind == "note" else {})}]
            )
        found = index_of(of.records)
        telling = {one.id: tuple(r for r in of.records_of(one.id) if r.tells_dates) for one in of.plantings}
        assert found.told == {key: Told.of(records) for key, records in telling.items() if records}
