"""Records: what each kind holds, what is refused, and what becomes of them when their place goes."""

from __future__ import annotations

import datetime as dt
import json
from typing import Any

import pytest
from making import bed, garden, planting, rectangle, ticked
from pydantic import ValidationError

from planner.garden import Garden, Lot, Photograph, TrialEntry
from planner.garden import edits as e
from planner.garden.edits import EditError
from planner.garden.join import join
from planner.garden.records import RECORD_MODELS, Done, work_done
from planner.storage import dump, parse

D = dt.date
DAY = D(2026, 5, 20)
PLAIN = garden(
    bed("b1", name="North"),
    bed("b2", rectangle(center=(0.0, 4.0)), name="South"),
    planting("p1", "b1"),
    planting("p2", "b2", crop="pea"),
    stock=(Lot(id="l1", crop="carrot", seeds=500),),
)
#: The least that each kind of record needs.
LEAST: dict[str, dict[str, Any]] = {
    "done": {"words": "watered"},
    "seen": {"harm": "slugs"},
    "came up": {"planting": "p1"},
    "flowering": {"planting": "p1"},
    "ripe": {"planting": "p1"},
    "first picking": {"planting": "p1"},
    "last picking": {"planting": "p1"},
    "picked": {"planting": "p1", "amount": {"value": 300, "unit": "g"}},
    "ended": {"planting": "p1", "why": "eaten"},
    "measured": {"measure": "height", "value": 0.3, "unit": "m"},
    "note": {"words": "rain"},
    "lesson": {"words": "net at once"},
}


def with_records(*records: dict[str, Any], base: Garden = PLAIN) -> Garden:
    return e.add_records(base, [{"day": DAY, **one} for one in records])[0]


def test_every_kind_has_a_least_record():
    assert set(LEAST) == set(RECORD_MODELS)


@pytest.mark.parametrize("kind", LEAST)
def test_each_kind_is_written_and_read_as_it_was(kind):
    made = with_records({"kind": kind, **LEAST[kind]})
    (record,) = made.records
    assert (record.id, record.kind, record.day) == ("r1", kind, DAY)
    assert parse(dump(made)) == made
    assert Garden.model_validate_json(made.model_dump_json()) == made


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"kind": "done"}, "what was done is missing"),
        ({"kind": "done", "task": "sow"}, "name the planting"),
        ({"kind": "done", "task": "dance", "planting": "p1"}, "task 'dance'"),
        ({"kind": "seen", "harm": "goblins"}, "harm 'goblins'"),
        ({"kind": "seen", "harm": "slugs", "share": 1.2}, "at most 1 is possible"),
        ({"kind": "seen", "harm": "slugs", "look_again": D(2026, 5, 1)}, "before the day it was seen"),
        ({"kind": "came up"}, "name the planting"),
        ({"kind": "picked", "planting": "p1"}, "amount"),
        ({"kind": "picked", "planting": "p1", "amount": {"value": 3, "unit": "seeds"}}, "not in seeds"),
        ({"kind": "picked", "planting": "p1", "amount": {"value": 0, "unit": "g"}}, "more than 0"),
        ({"kind": "ended", "planting": "p1", "why": "stolen"}, "why 'stolen'"),
        ({"kind": "measured", "measure": "", "value": 1}, "measure"),
        ({"kind": "note"}, "a note needs words or a photograph"),
        ({"kind": "lesson"}, "a lesson needs words"),
        ({"kind": "lesson", "words": "x", "crop": "pea", "family": "Fabaceae"}, "to a crop or to a family"),
        ({"kind": "note", "words": "x", "bed": "b1", "planting": "p1"}, "a bed or a planting, not both"),
        ({"kind": "note", "words": "x", "planting": "p9"}, "there is no planting 'p9'"),
        ({"kind": "note", "words": "x", "bed": "b9"}, "there is no bed 'b9'"),
        ({"kind": "dance"}, "no kind of record 'dance'"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_cannot_be_is_refused_in_one_line_and_changes_nothing(fields, words):
    with pytest.raises(EditError) as caught:
        with_records({"kind": "note", "words": "before"}, fields)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_lot_that_is_not_there_is_refused():
    with pytest.raises(EditError, match="seed 'l9'"):
        with_records({"kind": "came up", "planting": "p1", "lot": "l9"})


def test_records_out_of_order_are_refused():
    sown = e.tick(PLAIN, "p1", "sow", DAY)
    with pytest.raises(EditError, match="before 'sow'"):
        e.add_records(sown, [{"kind": "first picking", "planting": "p1", "day": D(2026, 5, 1)}])
    made, (key,) = e.add_records(sown, [{"kind": "first picking", "planting": "p1", "day": D(2026, 8, 1)}])
    with pytest.raises(EditError, match="before 'sow'"):
        e.change_record(made, key, day=D(2026, 5, 1))


def test_a_record_is_changed_and_keeps_its_kind():
    made = with_records({"kind": "picked", **LEAST["picked"]}, {"kind": "ripe", "planting": "p2"})
    changed = e.change_record(made, "r1", amount={"value": 450, "unit": "g"}, by="Ann")
    assert (changed.records[0].amount.value, changed.records[0].by) == (450, "Ann")
    assert e.change_record(made, "r1", by="") is made
    assert e.change_record(made, "r2", kind="flowering").records[1].kind == "flowering"
    with pytest.raises(EditError, match="cannot become one of 'ended'"):
        e.change_record(made, "r1", kind="ended")
    with pytest.raises(EditError, match="no record 'r9'"):
        e.remove_records(made, ["r9"])
    assert e.remove_records(made, ["r1", "r2"]).records == ()


@pytest.mark.parametrize("path", ["/x.jpg", "C:\\x.jpg", "https://x/y.jpg", "a//b.jpg", "./x.jpg", ""])
def test_a_photograph_lies_beside_the_garden_file(path):
    with pytest.raises(ValidationError):
        Photograph(path=path, sha256="0" * 64)


def test_a_photograph_keeps_the_camera_s_time():
    taken = dt.datetime(2026, 5, 20, 7, 30)
    assert Photograph(path="photographs/bean.jpg", sha256="0" * 64, taken=taken).taken == taken
    with pytest.raises(ValidationError):
        Photograph(path="x.jpg", sha256="0" * 64, taken=taken.replace(tzinfo=dt.UTC))


# -- what goes with what ------------------------------------------------------------------------------


def test_records_trials_and_replacements_go_with_their_planting():
    made = with_records(
        {"kind": "note", "words": "a", "planting": "p1"},
        {"kind": "note", "words": "b", "bed": "b1"},
        {"kind": "note", "words": "c"},
    )
    made, _ = e.put_trial(
        made, question="Which?", entries=[TrialEntry(planting=key, treatment=key) for key in ("p1", "p2")]
    )
    made = e.change_planting(made, "p2", replaces="p1")
    left = e.remove(made, ["p1"])
    assert [one.words for one in left.records] == ["b", "c"]
    assert [one.planting for one in left.trials[0].entries] == ["p2"]
    assert left.plantings_by_id["p2"].replaces is None
    assert [one.words for one in e.remove(made, ["b1"]).records] == ["c"]


def test_what_came_up_forgets_a_packet_that_goes():
    made = with_records({"kind": "came up", "planting": "p1", "lot": "l1", "share": 0.8})
    assert e.remove_part(made, "l1").records[0].lot is None


def test_a_copied_bed_has_no_records_and_its_plantings_replace_none():
    made = with_records({"kind": "note", "words": "a", "planting": "p2"})
    made = e.change_planting(made, "p2", replaces="p1")
    copied, _ = e.duplicate(made, ["b2"], 5, 5)
    assert len(copied.records) == 1
    assert copied.plantings[-1].replaces is None


# -- files of before, and two people --------------------------------------------------------------------


def test_ticks_of_older_files_become_records_of_work_done():
    older = json.loads(dump(PLAIN))
    older["schema"] = 1
    older["plantings"][0]["id"] = "r1"  # an id that a record might have got
    older["records"] = [
        {"planting": "r1", "kind": "sow", "date": "2026-04-20"},
        {"planting": "p2", "kind": "cover on", "date": "2026-04-21", "cover": "fleece"},
    ]
    made = parse(json.dumps(older))
    assert made.records == (
        ticked("r1", "sow", D(2026, 4, 20), id="r2"),
        ticked("p2", "cover on", D(2026, 4, 21), "fleece", id="r3"),
    )
    assert made.done(made.plantings_by_id["r1"]) == (Done("r1", "sow", D(2026, 4, 20)),)
    assert parse(dump(made)) == made


def test_the_same_record_of_two_people_is_one():
    mine = with_records({"kind": "note", "words": "rain"}, {"kind": "note", "words": "mine"})
    theirs = with_records({"kind": "note", "words": "theirs"}, {"kind": "note", "words": "rain"})
    joined = join(PLAIN, mine, theirs)
    assert joined.conflicts == ()
    assert sorted(one.words for one in joined.garden.records) == ["mine", "rain", "theirs"]


def test_both_may_tick_the_same_work_on_two_days():
    joined = join(PLAIN, e.tick(PLAIN, "p1", "sow", DAY), e.tick(PLAIN, "p1", "sow", D(2026, 5, 22)))
    assert sorted(one.day for one in joined.garden.records) == [DAY, D(2026, 5, 22)]


def test_a_record_brings_back_what_the_other_removed():
    joined = join(
        PLAIN, e.remove(PLAIN, ["b1"]), with_records({"kind": "note", "words": "up", "planting": "p1"})
    )
    assert "p1" in joined.garden.plantings_by_id
    assert "b1" in joined.garden.beds_by_id
    assert {(one.part, one.key) for one in joined.conflicts} == {("plantings", "p1"), ("beds", "b1")}


def test_work_that_records_tell_of():
    made = with_records(
        {"kind": "picked", "planting": "p1", "day": D(2026, 8, 9), "amount": {"value": 90, "unit": "g"}},
        {"kind": "picked", "planting": "p1", "day": D(2026, 8, 2), "amount": {"value": 90, "unit": "g"}},
        {"kind": "ended", "planting": "p1", "day": D(2026, 9, 1), "why": "frozen"},
        {"kind": "seen", "planting": "p1", "harm": "hail"},
    )
    assert work_done(made.telling_records) == (
        Done("p1", "pick", D(2026, 8, 2)),
        Done("p1", "clear", D(2026, 9, 1)),
    )
    outcome = made.outcome(made.plantings_by_id["p1"])
    assert outcome is not None
    assert (outcome.why, outcome.lost) == ("frozen", True)
    assert made.outcome(made.plantings_by_id["p2"]) is None
