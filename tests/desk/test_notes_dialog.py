"""Notes from outside in the window: shown first, taken as one step, refused in one line."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting
from pocket_files import note, notes_data
from PySide6.QtCore import Qt

from planner.desk.main_window.notes_dialog import NotesDialog
from planner.garden import Garden, Site, edits

pytestmark = pytest.mark.one_window

NAMES = "<b>North</b>"


@pytest.fixture
def document() -> Garden:
    return garden(bed(name=NAMES), planting(first=dt.date(2026, 4, 1)), site=Site(name="Plot"))


@pytest.fixture
def path(document, tmp_path):
    found = tmp_path / "notes.json"
    found.write_bytes(
        notes_data(
            document,
            note(1, "note", "2026-05-03", bed="b1", words="Weeded"),
            note(2, "note", "2026-05-04", planting="p9", words="Lost"),
        )
    )
    return found


def shown(dialog):
    return "\n".join(dialog.lines.topLevelItem(n).text(0) for n in range(dialog.lines.topLevelItemCount()))


def opened(open_hand, document, path):
    hand = open_hand(document)
    hand.window.prompts.answers["notes"] = str(path)
    hand.do("take notes")
    return hand


def test_notes_are_shown_and_taken_as_one_step(open_hand, document, path):
    hand = opened(open_hand, document, path)
    (dialog,) = hand.window.findChildren(NotesDialog)
    assert dialog.words.text() == "notes.json: 1 new note and 1 in conflict"
    assert f"3 May 2026, {NAMES}: Note: Weeded" in shown(dialog)
    assert "its planting is no longer in the garden" in shown(dialog)
    assert hand.garden == document
    dialog.take.click()
    assert [one.words for one in hand.garden.records] == ["Weeded"]
    assert hand.steps == 1
    hand.document.undo_stack.undo()
    assert hand.garden == document


def test_a_note_that_is_not_ticked_is_left_out_and_is_new_the_next_time(open_hand, document, path):
    notes = (note(n, "note", f"2026-05-0{n}", bed="b1", words=words) for n, words in ((1, "One"), (2, "Two")))
    path.write_bytes(notes_data(document, *notes))
    hand = opened(open_hand, document, path)
    (dialog,) = hand.window.findChildren(NotesDialog)
    dialog.lines.topLevelItem(0).setCheckState(0, Qt.CheckState.Unchecked)
    assert dialog.take.text() == "Take 1 of 2"
    dialog.take.click()
    assert [one.words for one in hand.garden.records] == ["Two"]
    hand.do("take notes")
    dialog = hand.window.findChildren(NotesDialog)[-1]
    assert dialog.words.text() == "notes.json: 1 new note and 1 there already"
    dialog.lines.topLevelItem(0).setCheckState(0, Qt.CheckState.Unchecked)
    assert not dialog.take.isEnabled()
    dialog.reject()


def test_taken_again_there_is_nothing_to_take(open_hand, document, path):
    hand = opened(open_hand, document, path)
    hand.window.findChildren(NotesDialog)[0].take.click()
    hand.do("take notes")
    dialog = hand.window.findChildren(NotesDialog)[-1]
    assert dialog.words.text() == "notes.json: 0 new notes, 1 there already and 1 in conflict"
    assert not dialog.take.isEnabled()
    dialog.reject()
    assert hand.steps == 1


def test_a_record_removed_since_is_left_out_unless_it_is_ticked(open_hand, document, path):
    hand = opened(open_hand, document, path)
    first = hand.window.findChildren(NotesDialog)[0]
    assert not first.again.isVisibleTo(first)
    first.take.click()
    (record,) = hand.garden.records
    hand.document.edit("Remove a record", lambda garden: edits.remove_records(garden, [record.id]))
    hand.do("take notes")
    dialog = hand.window.findChildren(NotesDialog)[-1]
    assert dialog.words.text() == "notes.json: 0 new notes, 1 removed here since and 1 in conflict"
    assert not dialog.take.isEnabled()
    assert dialog.again.isVisibleTo(dialog)
    dialog.again.setChecked(True)
    dialog.take.click()
    assert hand.garden.records == (record,)


def test_notes_of_another_garden_are_told(open_hand, document, path):
    hand = opened(open_hand, document.with_(site=Site(name="Elsewhere")), path)
    (dialog,) = hand.window.findChildren(NotesDialog)
    assert "notes.json was written for the garden “Plot”" in shown(dialog)
    dialog.reject()


def test_a_broken_file_is_one_line(open_hand, document, path):
    path.write_text("{")
    hand = opened(open_hand, document, path)
    (told,) = hand.window.prompts.errors
    assert "notes.json: is damaged in line 1." in told
    assert not hand.window.findChildren(NotesDialog)
