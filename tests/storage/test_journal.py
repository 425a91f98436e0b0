"""Unsaved work is kept beside the file and found again."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from planner import storage
from planner.garden import Bed, Garden, Rectangle
from planner.storage import journal


@pytest.fixture
def garden() -> Garden:
    return Garden(beds=(Bed(id="b1", name="One", outline=Rectangle(length=2, width=1)),))


def test_work_kept_beside_a_file_is_found_and_the_same(tmp_path, garden):
    file = tmp_path / "plot.bedwright"
    storage.save(Garden(), file)
    assert journal.unsaved_beside(file) is None
    assert journal.write(garden, journal.beside(file))
    left = journal.unsaved_beside(file)
    assert left is not None
    assert journal.recover(left) == garden
    assert storage.load(file) == Garden()


def test_a_file_newer_than_its_journal_has_nothing_left(tmp_path, garden):
    file = tmp_path / "plot.bedwright"
    journal.write(garden, journal.beside(file))
    storage.save(garden, file)
    os.utime(journal.beside(file), (1, 1))
    assert journal.unsaved_beside(file) is None


def test_a_file_saved_in_the_same_moment_may_lack_something(tmp_path, garden):
    file = tmp_path / "plot.bedwright"
    storage.save(Garden(), file)
    journal.write(garden, journal.beside(file))
    for path in (file, journal.beside(file)):
        os.utime(path, (1000, 1000))
    left = journal.unsaved_beside(file)
    assert left is not None
    assert left.written == 1000


def test_a_discarded_journal_is_gone(tmp_path, garden):
    file = tmp_path / "plot.bedwright"
    journal.write(garden, journal.beside(file))
    journal.discard(journal.beside(file))
    journal.discard(journal.beside(file))
    assert journal.unsaved_beside(file) is None


@pytest.mark.skipif(os.name != "posix", reason="asks the system for a process the way posix does")
def test_untitled_work_is_offered_only_of_a_process_that_is_gone(tmp_path, garden):
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    journal.write(garden, journal.untitled(tmp_path))
    journal.write(garden, tmp_path / f"untitled-{gone.pid}{journal.UNSAVED}")
    (found,) = journal.unsaved_untitled(tmp_path)
    assert found.journal.name == f"untitled-{gone.pid}{journal.UNSAVED}"
    assert journal.recover(found) == garden


@pytest.mark.skipif(os.name != "posix", reason="asks the system for a process the way posix does")
def test_untitled_work_is_offered_the_newest_first(tmp_path, garden):
    journals = []
    for written in (2000, 3000, 1000):
        ended = subprocess.Popen([sys.executable, "-c", ""])
        ended.wait()
        path = tmp_path / f"untitled-{ended.pid}{journal.UNSAVED}"
        journal.write(garden, path)
        os.utime(path, (written, written))
        journals.append(path)
    found = journal.unsaved_untitled(tmp_path)
    assert [left.journal for left in found] == [journals[1], journals[0], journals[2]]


def test_where_nothing_can_be_written_the_work_goes_on(tmp_path, garden, monkeypatch):
    def full(*_args: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    assert not journal.write(garden, tmp_path / "x.unsaved")


def test_a_damaged_journal_is_an_error_of_one_line_and_stays(tmp_path):
    file = tmp_path / "plot.bedwright"
    journal.beside(file).write_text("{ not json")
    left = journal.unsaved_beside(file)
    assert left is not None
    with pytest.raises(storage.FileError, match="line 1"):
        journal.recover(left)
    assert journal.beside(file).exists()
