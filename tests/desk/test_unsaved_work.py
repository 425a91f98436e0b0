"""Unsaved work: in a journal within a second, offered after a crash, never lost by an answer."""

from __future__ import annotations

import os
from functools import partial
from pathlib import Path

import pytest
from hand import LIMIT, Hand

from planner import resources, storage
from planner.desk.main_window.versions_dialog import VersionsDialog
from planner.desk.main_window.window import Window
from planner.desk.model.recovery import DELAY
from planner.garden import edits as e
from planner.storage.unsaved import THROWN_AWAY


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "plot.bedwright"
    storage.save(storage.load(resources.sample_folder() / "balcony_boxes.bedwright"), path)
    return path


def opened(open_hand, file: Path, **answers: str) -> Window:
    window = open_hand().window
    window.prompts.answers.update(answers)
    window.commands.file.open_path(file)
    return window


def with_unsaved_work(open_hand, file: Path) -> Window:
    """A window that has deleted a bed, which is not saved."""
    window = opened(open_hand, file)
    window.document.select((window.document.garden.beds[0].id,))
    window.action("delete").trigger()
    assert window.files.recovery.write()  # as the timer does, a moment later
    return window


def crash(window: Window) -> Path:
    """What the system does when a process dies; the journal."""
    window.files._lock_file.unlock()
    window.files.recovery.journal.close()
    return window.files.recovery.written


def asked(window: Window, what: str) -> list[str]:
    return [text for text in window.prompts.questions if text.startswith(what)]


# -- keeping ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("pause", [20, 60, 110])
def test_steady_work_does_not_put_its_journal_off(hand: Hand, qtbot, pause) -> None:
    """The wait begins with the first edit, and no later one prolongs it: work is at risk for less than a second."""
    recovery = hand.window.files.recovery
    assert DELAY < 1000
    fired: list[bool] = []
    recovery._timer.timeout.connect(lambda: fired.append(True))
    for _round in range(2):  # and so for the edits after the first journal
        before = recovery.written.stat().st_mtime_ns if recovery.written is not None else 0
        left = 2 * DELAY  # timers are coarse
        fired.clear()
        for _ in range(int(DELAY / pause) - 1):
            hand.document.edit("Add", lambda g: e.add_bed(g, _strip(len(g.beds)))[0])
            now = recovery._timer.remainingTime()
            if fired:
                break  # a slow machine: the wait is over
            assert 0 <= now < left, "an edit has put the journal off"
            left = now
            qtbot.wait(pause)
        qtbot.waitUntil(partial(_written_since, recovery, before), timeout=LIMIT)
        assert storage.load(recovery.written).beds


def _written_since(recovery, before: int) -> bool:
    return recovery.written is not None and recovery.written.stat().st_mtime_ns > before


def _strip(number: int):
    from making import rectangle

    return rectangle(1, 0.5, center=(0, number))


def test_saving_takes_the_journal_away(hand: Hand, tmp_path: Path) -> None:
    hand.prompts.answers["save"] = str(tmp_path / "new.bedwright")
    hand.document.edit("Add", lambda g: e.add_bed(g, _strip(0))[0])
    hand.window.files.recovery.write()
    journal = hand.window.files.recovery.written
    assert journal is not None
    assert journal.exists()
    assert hand.window.files.save()
    assert not journal.exists()
    assert hand.window.files.recovery.written is None


def test_where_no_journal_can_be_beside_the_garden_it_is_elsewhere_and_told_once(open_hand, tmp_path) -> None:
    file = tmp_path / ("x" * 245 + ".bed")
    storage.save(storage.load(resources.sample_folder() / "balcony_boxes.bedwright"), file)
    said: list[str] = []
    window = opened(open_hand, file)
    window.files.said.connect(said.append)
    for number in range(3):
        window.document.edit("Add", lambda g, n=number: e.add_bed(g, _strip(n + 50))[0])
        assert window.files.recovery.write()
    assert len(said) == 1
    assert "cannot be kept beside the garden" in said[0]
    journal = crash(window)
    assert storage.load(journal) == window.document.garden
    second = opened(open_hand, file, recover="take")
    assert second.document.garden == window.document.garden


def test_where_no_journal_can_be_at_all_it_is_told(hand: Hand, monkeypatch) -> None:
    def full(*_args: object) -> None:
        raise OSError(28, "No space left on device")

    said: list[str] = []
    hand.window.files.said.connect(said.append)
    monkeypatch.setattr(os, "replace", full)
    hand.document.edit("Add", lambda g: e.add_bed(g, _strip(0))[0])
    assert not hand.window.files.recovery.write()
    assert said == [
        "Unsaved work can be kept nowhere (No space left on device): save often, or make room on the disk."
    ]


# -- offering -----------------------------------------------------------------------------------------


def test_unsaved_work_of_a_window_that_is_gone_is_offered_with_what_differs(open_hand, file) -> None:
    first = with_unsaved_work(open_hand, file)
    journal = crash(first)
    second = opened(open_hand, file, recover="take")
    assert "1 bed removed" in asked(second, "recover")[0]
    assert second.document.garden == first.document.garden
    assert second.document.changed
    assert not journal.exists()
    assert storage.load(second.files.recovery.written) == first.document.garden
    second.document.undo_stack.undo()
    assert len(second.document.garden.beds) == len(first.document.garden.beds) + 1


@pytest.mark.parametrize("then", ["edit", "save"])
def test_work_that_is_left_for_later_outlives_an_edit_and_a_save(open_hand, file, then) -> None:
    first = with_unsaved_work(open_hand, file)
    lost = first.document.garden
    journal = crash(first)
    second = opened(open_hand, file, recover="later")
    second.document.edit("Add", lambda g: e.add_bed(g, _strip(40))[0])
    second.files.recovery.write()
    if then == "save":
        assert second.files.save()
    second.close()
    assert storage.load(journal) == lost
    third = opened(open_hand, file, recover="take")
    assert third.document.garden == lost


def test_a_journal_older_than_the_file_is_offered_if_it_differs(open_hand, file) -> None:
    first = with_unsaved_work(open_hand, file)
    os.utime(crash(first), (1000, 1000))
    assert asked(opened(open_hand, file), "recover")


def test_a_journal_that_holds_what_the_file_holds_is_removed_without_a_question(open_hand, file) -> None:
    first = with_unsaved_work(open_hand, file)
    journal = crash(first)
    storage.save(first.document.garden, file)
    assert not asked(opened(open_hand, file), "recover")
    assert not journal.exists()


def test_thrown_away_work_is_offered_no_more_and_still_there(open_hand, file) -> None:
    first = with_unsaved_work(open_hand, file)
    journal = crash(first)
    second = opened(open_hand, file, recover="drop")
    second.close()
    assert not asked(opened(open_hand, file), "recover")
    assert storage.load(journal.with_name(journal.name + THROWN_AWAY)) == first.document.garden


def test_a_damaged_journal_is_told_and_stays(open_hand, file) -> None:
    journal = crash(with_unsaved_work(open_hand, file))
    journal.write_text("{ not json")
    second = opened(open_hand, file, recover="take")
    assert "it is damaged" in asked(second, "recover")[0]
    assert "line 1" in asked(second, "recover")[0]
    assert journal.exists()


def test_work_on_an_earlier_version_can_be_joined(open_hand, file) -> None:
    first = with_unsaved_work(open_hand, file)
    crash(first)
    changed = e.change_bed(storage.load(file), storage.load(file).beds[1].id, notes="theirs")
    storage.save(changed, file)
    second = opened(open_hand, file, recover="join")
    assert "has been changed since" in asked(second, "recover")[0]
    assert second.document.garden == e.remove(changed, [changed.beds[0].id])


def test_unsaved_work_without_a_file_is_offered(open_hand) -> None:
    first = open_hand().window
    first.document.edit("Add", lambda g: e.add_bed(g, _strip(0))[0])
    first.files.recovery.write()
    journal = first.files.recovery.written
    second = open_hand().window
    second.prompts.answers["recover"] = "take"
    second.files.offer_untitled()
    assert not asked(second, "recover")  # the first window is still open
    first.files.recovery.journal.close()
    second.files.offer_untitled()
    assert second.document.garden == first.document.garden
    assert not journal.exists()


# -- two windows --------------------------------------------------------------------------------------


def test_a_second_window_may_work_on_a_copy(open_hand, file) -> None:
    first = with_unsaved_work(open_hand, file)
    second = opened(open_hand, file, second="copy")
    assert "is open in another window" in asked(second, "second")[0]
    assert not asked(second, "recover")
    assert second.document.path is None
    second.document.edit("Add", lambda g: e.add_bed(g, _strip(40))[0])
    second.files.recovery.write()
    assert second.files.recovery.written != first.files.recovery.written
    assert storage.load(first.files.recovery.written) == first.document.garden


def test_a_second_window_that_only_looks_changes_nothing(open_hand, file, tmp_path) -> None:
    before = file.read_bytes()
    opened(open_hand, file)
    second = opened(open_hand, file, second="look")
    refused: list[str] = []
    second.document.edit_refused.connect(refused.append)
    assert not second.document.edit("Add", lambda g: e.add_bed(g, _strip(40))[0])
    assert "can only be looked at here" in refused[0]
    assert "(only shown)" in second.windowTitle()
    assert second.files.suggestion(".bedwright").endswith("plot (copy).bedwright")
    second.prompts.answers["save"] = str(file)
    assert not second.files.save()
    assert file.read_bytes() == before
    second.prompts.answers["save"] = str(tmp_path / "mine.bedwright")
    assert second.files.save()
    assert second.document.edit("Add", lambda g: e.add_bed(g, _strip(40))[0])
    assert "(only shown)" not in second.windowTitle()


def test_a_second_window_may_be_left_without_opening(open_hand, file) -> None:
    opened(open_hand, file)
    second = opened(open_hand, file, second="stay")
    assert second.document.path is None
    assert second.document.garden.beds == ()


def test_the_first_window_saves_while_the_second_has_a_copy(open_hand, file, tmp_path) -> None:
    first = with_unsaved_work(open_hand, file)
    second = opened(open_hand, file, second="copy")
    second.document.edit("Add", lambda g: e.add_bed(g, _strip(40))[0])
    second.files.recovery.write()
    assert first.files.save()
    assert storage.load(second.files.recovery.written) == second.document.garden


# -- earlier versions ---------------------------------------------------------------------------------


def test_each_save_keeps_what_the_file_held(open_hand, file) -> None:
    window = opened(open_hand, file)
    gardens = [window.document.garden]
    for number in range(3):
        window.document.edit("Add", lambda g, n=number: e.add_bed(g, _strip(40 + n))[0])
        assert window.files.save()
        gardens.append(window.document.garden)
    kept = [version.read() for version in window.files.versions()]
    assert kept == gardens[::-1]


def test_an_earlier_version_is_shown_and_taken_back_as_one_step(open_hand, file) -> None:
    window = opened(open_hand, file)
    first = window.document.garden
    window.document.edit("Add", lambda g: e.add_bed(g, _strip(40))[0])
    assert window.files.save()
    window.action("versions").trigger()
    (dialog,) = window.findChildren(VersionsDialog)
    assert dialog.list.count() == 2
    assert not dialog.take.isEnabled()  # the newest is what is open
    dialog.list.setCurrentRow(1)
    assert "1 bed removed" in dialog.words.text()
    assert len(dialog.picture.sheet.items()) > 0
    dialog.take.click()
    assert window.document.garden == first
    window.document.undo_stack.undo()
    assert len(window.document.garden.beds) == len(first.beds) + 1


def test_a_damaged_version_is_told_and_not_taken(open_hand, file) -> None:
    window = opened(open_hand, file)
    window.document.edit("Add", lambda g: e.add_bed(g, _strip(40))[0])
    window.files.versions()[0].path.write_text("{ half")
    window.action("versions").trigger()
    (dialog,) = window.findChildren(VersionsDialog)
    assert "line 1" in dialog.words.text()
    assert not dialog.take.isEnabled()
    dialog.reject()


def test_without_a_file_there_are_no_versions(hand: Hand) -> None:
    hand.do("versions")
    assert "no earlier versions yet" in hand.window.status.message.text()
