"""Notes of the pocket page: what becomes of each, nothing twice, nothing overwritten; hostile files."""

from __future__ import annotations

import datetime as dt
import json
import random

import pytest
from making import bed, garden, planting, ticked
from pocket_files import note, note_id, notes_content, notes_data
from random_records import record_fields
from random_values import Draw

from planner.garden import Dressing, Garden, Site
from planner.garden import edits as e
from planner.garden.join import join
from planner.garden.pocket_notes import MOST_REMOVED_NOTES
from planner.garden.records import EndedRecord, StageRecord
from planner.importing.notes import NotesPreview, preview, take
from planner.importing.notes_file import MOST_BYTES, MOST_NOTES, NotesError, read_notes

D = dt.date


def plot(**fields) -> Garden:
    """Two beds with carrots and leeks, and compost to spread."""
    return garden(
        bed("b1", name="North"),
        bed("b2", name="South"),
        planting("p1", first=D(2026, 4, 1), start="sown"),
        planting("p2", bed="b2", crop="leek", first=D(2026, 5, 1), start="raised"),
        site=Site(name="Plot"),
        dressings=(Dressing(id="d1", bed="b1", kind="compost", day=D(2026, 3, 1), depth=0.02),),
        **fields,
    )


def looked_at(document: Garden, *notes, **fields) -> NotesPreview:
    """The preview of notes in one file."""
    return preview(document, [read_notes(notes_data(document, *notes, **fields))])


def statuses(document: Garden, *notes) -> list[str]:
    return [row.status for row in looked_at(document, *notes).rows]


ALL_KINDS = (
    note(1, "note", "2026-05-03", words="Slow.\n<b>Cold</b> spring – 寒い"),
    note(2, "note", "2026-05-03", bed="b1", words="Weeded", by="Mara"),
    note(
        3, "picked", "2026-07-03", planting="p1", amount={"value": 1200, "unit": "g"}, picked_for="given away"
    ),
    note(4, "done", "2026-04-02", planting="p1", task="sow", was={"crop": "carrot"}),
    note(5, "done", "2026-05-09", bed="b2", words="Hoed"),
    note(6, "seen", "2026-06-01", planting="p2", harm="slugs", share=0.25, lost=0.1, cause="rain"),
    note(7, "came up", "2026-04-20", planting="p1", count=30, sown=40),
    note(8, "first picking", "2026-07-01", planting="p1"),
    note(9, "ended", "2026-11-01", planting="p2", why="frozen"),
    note(10, "measured", "2026-06-01", bed="b1", measure="pH", value=6.5, unit=""),
    note(11, "lesson", "2026-11-01", planting="p1", crop="carrot", words="Sow later"),
    note(12, "done", "2026-03-02", dressing="d1", task="spread"),
)


def test_every_kind_of_note_becomes_its_record_with_its_own_id():
    document = plot()
    found = looked_at(document, *ALL_KINDS)
    assert [row.status for row in found.rows] == ["new"] * 12
    after = take(document, found)
    assert [one.id for one in after.records] == [note_id(number) for number in range(1, 12)]
    assert after.records[0].words == "Slow.\n<b>Cold</b> spring – 寒い"
    assert after.records[2].amount.value == 1200
    assert after.dressings[0].done == D(2026, 3, 2)
    assert after.done(after.plantings[0])[0].date == D(2026, 4, 2)
    assert after.beds == document.beds
    assert after.plantings == document.plantings


def test_taken_again_nothing_is_added():
    document = plot()
    after = take(document, looked_at(document, *ALL_KINDS))
    again = looked_at(after, *ALL_KINDS)
    assert [row.status for row in again.rows] == ["there"] * 12
    assert take(after, again) is after


def test_a_file_that_holds_the_same_notes_and_more_adds_the_rest():
    document = plot()
    after = take(document, looked_at(document, *ALL_KINDS[:4]))
    assert statuses(after, *ALL_KINDS) == ["there"] * 4 + ["new"] * 8


def test_the_same_file_twice_in_one_go_is_taken_once():
    document = plot()
    file = read_notes(notes_data(document, *ALL_KINDS))
    found = preview(document, [file, file])
    assert len(found.new) == len(found.of_status("there")) == 12


def test_two_pickings_of_one_day_are_two_where_they_are_two_notes():
    pick = {"planting": "p1", "amount": {"value": 500, "unit": "g"}}
    assert statuses(
        plot(), note(1, "picked", "2026-07-03", **pick), note(2, "picked", "2026-07-03", **pick)
    ) == [
        "new",
        "new",
    ]


CONFLICTS = {
    "planting gone": (note(1, "note", "2026-05-03", planting="p9", words="x"), "its planting is no longer"),
    "bed gone": (note(1, "note", "2026-05-03", bed="b9", words="x"), "its bed is no longer"),
    "dressing gone": (note(1, "done", "2026-05-03", dressing="d9", task="spread"), "no longer planned"),
    "dressing on another day": (
        note(1, "done", "2026-05-03", dressing="d1", task="spread"),
        "the garden has it on 1 Mar 2026",
    ),
    "another crop": (
        note(1, "note", "2026-05-03", planting="p1", words="x", was={"crop": "beetroot"}),
        "was beetroot on the page and is carrot",
    ),
    "another year": (
        note(1, "note", "2026-05-03", planting="p1", words="x", was={"crop": "carrot", "year": 2025}),
        "was of 2025 on the page and is of 2026",
    ),
    "ticked for another day": (
        note(1, "done", "2026-05-03", planting="p1", task="sow"),
        "the garden has it on 3 Apr 2026",
    ),
    "ticked, with more words": (
        note(1, "done", "2026-04-03", planting="p1", task="sow", words="late"),
        "already, without these words",
    ),
    "before what comes before": (
        note(1, "done", "2026-03-03", planting="p1", task="thin"),
        "'thin' on 2026-03-03 is before 'sow'",
    ),
    "seen on another day": (
        note(1, "flowering", "2026-08-03", planting="p1"),
        "the garden has it on 1 Aug 2026",
    ),
    "ended otherwise": (note(1, "ended", "2026-11-01", planting="p1", why="frozen"), "another reason"),
    "changed since": (
        note(77, "note", "2026-11-02", words="b"),
        "taken before, and one of the two was changed",
    ),
}


@pytest.mark.parametrize("case", CONFLICTS)
def test_a_conflict_is_said_and_nothing_is_overwritten(case):
    given, why = CONFLICTS[case]
    document = plot()
    known = (
        ticked("p1", "sow", D(2026, 4, 3)),
        StageRecord(id="r2", kind="flowering", planting="p1", day=D(2026, 8, 1)),
        EndedRecord(id="r3", kind="ended", planting="p1", day=D(2026, 11, 1), why="harvested"),
    )
    document = document.with_(records=known, dressings=(document.dressings[0].with_(done=D(2026, 3, 1)),))
    document = take(document, looked_at(document, note(77, "note", "2026-11-02", words="a")))
    found = looked_at(document, given)
    assert [row.status for row in found.rows] == ["conflict"]
    assert why in found.rows[0].why
    assert take(document, found) is document


def test_notes_are_held_against_those_before_them():
    document = plot()
    sown, sown_later = (note(n, "done", f"2026-04-0{n}", planting="p1", task="sow") for n in (3, 5))
    thinned = note(6, "done", "2026-04-01", planting="p1", task="thin")
    files = [read_notes(notes_data(document, *of)) for of in ((sown,), (sown_later, thinned))]
    found = preview(document, files)
    assert [(row.file, row.number, row.status) for row in found.rows] == [
        (0, 1, "new"),
        (1, 1, "conflict"),
        (1, 2, "conflict"),
    ]


def test_yearly_work_and_stages_of_another_year_are_no_conflict():
    document = garden(bed(), planting(crop="asparagus"), site=Site(name="Plot"))
    notes = [
        note(n, kind, f"202{n}-05-03", planting="p1", **more)
        for n, kind, more in (
            (6, "done", {"task": "pick"}),
            (7, "done", {"task": "pick"}),
            (8, "flowering", {}),
            (9, "flowering", {}),
        )
    ]
    assert statuses(document, *notes) == ["new"] * 4


def test_a_file_of_another_garden_is_told_from_one_of_this():
    document, other = plot(), plot().with_(site=Site(name="Elsewhere"))
    found = preview(document, [read_notes(notes_data(other, ALL_KINDS[0]))])
    assert found.other_gardens == ((0, "Elsewhere"),)
    assert looked_at(document, ALL_KINDS[0]).other_gardens == ()
    renamed = document.with_(beds=(document.beds[0].with_(name="First"), document.beds[1]))
    assert preview(renamed, [read_notes(notes_data(document, ALL_KINDS[0]))]).other_gardens == ()


# -- what is no file of notes -------------------------------------------------------------------------

HUGE = b'{"a":' * 100_000
FILES = {
    "nothing": (b"", "damaged in line 1"),
    "half": (notes_data(plot(), *ALL_KINDS)[:300], "damaged"),
    "no text": (b"\xff\xfe\x00PK\x03", "no text"),
    "a page": (b"<!doctype html><script>alert(1)</script>", "damaged in line 1"),
    "a list": (b"[]", "holds no notes"),
    "another format": (b'{"format":"x"}', "holds no notes"),
    "a garden": (b'{"schema": 12, "beds": []}', "holds no notes"),
    "newer": (notes_data(plot(), version=99), "from a newer"),
    "no version": (notes_data(plot(), version=True), "in which version"),
    "no garden": (notes_data(plot(), garden=7), "for which garden"),
    "notes that are none": (notes_data(plot(), notes={"a": 1}), "no list of notes"),
    "a key twice": (b'{"format":"bedwright-notes","format":"x"}', "twice"),
    "no number": (b'{"format":"bedwright-notes","version":NaN}', "NaN"),
    "deep": (HUGE, "nested too deeply"),
    "a number without end": (b'{"version":' + b"9" * 5000 + b"}", "too long"),
    "too many notes": (notes_data(plot(), *[0] * (MOST_NOTES + 1)), "is the most"),
    "too large": (b" " * (MOST_BYTES + 1), "larger than 2 MB"),
}


@pytest.mark.parametrize("case", FILES)
def test_a_broken_file_is_refused_in_one_line(case):
    data, words = FILES[case]
    with pytest.raises(NotesError) as refused:
        read_notes(data)
    assert words in str(refused.value)
    assert "\n" not in str(refused.value)
    assert len(str(refused.value)) < 300


BROKEN = {
    "no table": 7,
    "no id": {"kind": "note", "day": "2026-05-03", "words": "x"},
    "id of a bed": {"id": "b1", "kind": "note", "day": "2026-05-03", "words": "x"},
    "id with more": {**note(1, "note", "2026-05-03", words="x"), "id": note_id(1) + "\n"},
    "no kind": note(1, "tower", "2026-05-03"),
    "kind of another type": {**note(1, "note", "2026-05-03", words="x"), "kind": ["note"]},
    "no day": {**note(1, "note", "2026-05-03", words="x"), "day": "soon"},
    "a number as day": {**note(1, "note", "2026-05-03", words="x"), "day": 20260503},
    "no words": note(1, "note", "2026-05-03", words="  "),
    "words that are none": note(1, "note", "2026-05-03", words=["x"]),
    "words without end": note(1, "note", "2026-05-03", words="x" * 2001),
    "half a character": note(1, "note", "2026-05-03", words="\ud800"),
    "infinitely much": note(1, "picked", "2026-05-03", planting="p1", amount={"value": 1e400, "unit": "g"}),
    "less than nothing": note(1, "picked", "2026-05-03", planting="p1", amount={"value": -1, "unit": "g"}),
    "text as number": note(1, "picked", "2026-05-03", planting="p1", amount={"value": "1", "unit": "g"}),
    "two places": note(1, "note", "2026-05-03", planting="p1", bed="b1", words="x"),
    "id that is none": note(1, "note", "2026-05-03", planting="../p1", words="x"),
    "a file beside the garden": note(1, "note", "2026-05-03", words="x", photographs=[]),
    "a field of no record": note(1, "note", "2026-05-03", words="x", colour="red"),
    "a crop that is none": note(1, "note", "2026-05-03", words="x", was={"crop": 7}),
    "a year that is none": note(1, "note", "2026-05-03", words="x", was={"crop": "carrot", "year": True}),
    "spread in another way": note(1, "done", "2026-05-03", dressing="d1", task="spread", words="x"),
    "spread on no day": note(1, "done", "never", dressing="d1", task="spread"),
    "nested": note(1, "note", "2026-05-03", words="x", was=[[[[]]]]),
}


@pytest.mark.parametrize("case", BROKEN)
def test_a_broken_note_does_not_lose_the_others(case):
    document = plot()
    data = json.dumps(notes_content(document, BROKEN[case], ALL_KINDS[1])).encode()
    if case == "infinitely much":
        data = data.replace(b"Infinity", b"1e400")
    found = preview(document, [read_notes(data)])
    assert [row.status for row in found.rows] == ["broken", "new"]
    assert found.rows[0].why
    assert "\n" not in found.rows[0].why
    assert len(found.rows[0].why) < 300
    assert len(take(document, found).records) == 1


@pytest.mark.parametrize("seed", range(30))
def test_random_notes_taken_twice_change_nothing_and_leave_a_valid_garden(seed):
    rng = random.Random(seed)
    document = plot()
    draw = Draw(rng, document)
    notes = []
    for _ in range(40):
        fields = {**record_fields(draw), "id": note_id(rng.randrange(30))}
        fields = {name: value for name, value in fields.items() if name not in ("place", "lot")}
        notes.append({**fields, "day": str(fields["day"])})
    if rng.random() < 0.5:
        document = take(document, looked_at(document, *notes[:15]))
    before = document
    found = looked_at(document, *notes)
    after = take(document, found)
    assert len(after.records) == len(before.records) + len(found.new)
    assert after.records[: len(before.records)] == before.records
    assert Garden.model_validate(after.model_dump()) == after
    assert take(after, looked_at(after, *notes)) is after
    ids = [one.id for one in after.records]
    assert e.remove_records(after, ids[len(before.records) :]).records == before.records


@pytest.mark.parametrize("seed", range(10))
def test_a_file_damaged_anywhere_is_refused_or_read_and_never_more(seed):
    rng = random.Random(seed)
    document = plot()
    whole = notes_data(document, *ALL_KINDS)
    for _ in range(30):
        data = bytearray(whole)
        for _ in range(rng.randint(1, 6)):
            at = rng.randrange(len(data))
            kind = rng.randrange(3)
            if kind == 0:
                data[at] = rng.randrange(256)
            elif kind == 1:
                del data[at : at + rng.randint(1, 20)]
            else:
                data[at:at] = rng.choice(
                    (b'"', b"{", b"]", b",", b"\\u0000", b"<", b"9" * 20, b"null", b"\xff")
                )
        said, found = "", None
        try:
            found = preview(document, [read_notes(bytes(data))])
        except NotesError as refused:
            said = str(refused)
        assert "\n" not in said
        assert len(said) < 300
        if found is not None:
            after = take(document, found)
            assert Garden.model_validate(after.model_dump()) == after
            assert len(after.records) <= len(ALL_KINDS)


def test_a_record_removed_here_does_not_come_back_with_the_same_notes() -> None:
    notes = (
        note(1, "note", "2026-05-03", bed="b1", words="Weeded"),
        note(2, "note", "2026-05-04", words="Wet"),
    )
    taken = take(plot(), looked_at(plot(), *notes))
    removed = e.remove_records(taken, [note_id(1)])
    assert removed.removed_notes == (note_id(1),)
    found = looked_at(removed, *notes)
    assert [row.status for row in found.rows] == ["removed", "there"]
    assert take(removed, found) is removed
    again = preview(removed, [read_notes(notes_data(removed, *notes))], again=True)
    assert [row.status for row in again.rows] == ["new", "there"]
    back = take(removed, again)
    assert back.removed_notes == ()
    assert {one.id for one in back.records} == {note_id(1), note_id(2)}


def test_a_tick_taken_back_does_not_come_back_with_the_same_notes() -> None:
    sown = note(4, "done", "2026-04-02", planting="p1", task="sow", was={"crop": "carrot"})
    taken = take(plot(), looked_at(plot(), sown))
    assert statuses(e.untick(taken, "p1", "sow"), sown) == ["removed"]


def test_only_the_latest_removed_notes_are_remembered() -> None:
    old = tuple(note_id(number) for number in range(10, 10 + MOST_REMOVED_NOTES))
    taken = take(plot(), looked_at(plot(), note(1, "note", "2026-05-03", words="Wet"))).with_(
        removed_notes=old
    )
    removed = e.remove_records(taken, [note_id(1)])
    assert removed.removed_notes == (*old[1:], note_id(1))


def test_of_joined_gardens_each_remembers_what_it_removed() -> None:
    notes = tuple(note(number, "note", "2026-05-03", words=f"Wet {number}") for number in (1, 2))
    base = take(plot(), looked_at(plot(), *notes))
    mine, theirs = (e.remove_records(base, [note_id(number)]) for number in (1, 2))
    joined = join(base, mine, theirs).garden
    assert joined.records == ()
    assert set(joined.removed_notes) == {note_id(1), note_id(2)}
