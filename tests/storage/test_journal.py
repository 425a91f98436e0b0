"""The journal of a window, the lock that tells whether it is open, and what earlier windows left."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from planner import storage
from planner.garden import Bed, Garden, Rectangle
from planner.storage import unsaved
from planner.storage.file_state import FileState
from planner.storage.journal import UNSAVED, Journal, beside
from planner.storage.unsaved import THROWN_AWAY, taken_up, throw_away, unsaved_of, unsaved_untitled
from planner.storage.window_lock import WindowLock, is_open

WORK = Garden(beds=(Bed(id="b1", name="One", outline=Rectangle(length=2, width=1)),))


@pytest.fixture
def own(tmp_path) -> Path:
    """The program's own folder."""
    return tmp_path / "own"


@pytest.fixture
def file(tmp_path) -> Path:
    path = tmp_path / "plot.bedwright"
    storage.save(Garden(), path)
    return path


@pytest.fixture
def window(own):
    """Makes the journals of windows that are open until the test ends."""
    made = []

    def make() -> Journal:
        made.append(Journal(own))
        return made[-1]

    yield make
    for journal in made:
        journal.close()


def left_by_a_window(own: Path, file: Path | None, garden: Garden = WORK, base: str = "") -> Path:
    """A journal of a window that has ended."""
    journal = Journal(own)
    assert journal.write(garden, file, base)
    journal.close()
    return journal.written


def found(file: Path, own: Path):
    return unsaved_of(file, storage.load(file), FileState.of(file.read_bytes()).digest.hex(), own)


def test_a_journal_is_a_garden_file(own, file):
    journal = left_by_a_window(own, file)
    assert storage.load(journal) == WORK
    assert json.loads(journal.read_text())["unsaved"]["of"] == str(file)


def test_work_of_a_window_that_ended_is_found(own, file):
    left_by_a_window(own, file)
    (work,) = found(file, own)
    assert work.garden == WORK
    assert not work.other_version


def test_work_of_a_window_that_is_open_is_left_alone(own, file, window):
    journal = window()
    journal.write(WORK, file)
    assert found(file, own) == ()
    journal.close()
    assert len(found(file, own)) == 1


def test_each_window_has_a_journal_of_its_own(file, window):
    one, other = window(), window()
    one.write(WORK, file)
    other.write(Garden(), file)
    assert storage.load(one.written) == WORK
    other.discard()
    assert storage.load(one.written) == WORK


@pytest.mark.skipif(os.name != "posix", reason="kills as POSIX does")
def test_a_killed_process_leaves_its_work(own, file):
    program = (
        "import sys, time; from pathlib import Path; from planner.storage import load; "
        "from planner.storage.journal import Journal; j = Journal(Path(sys.argv[1])); "
        "j.write(load(sys.argv[3]), Path(sys.argv[2])); print('there', flush=True); time.sleep(60)"
    )
    work = file.with_name("work")
    storage.save(WORK, work)
    command = [sys.executable, "-c", program, str(own), str(file), str(work)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout.readline() == "there\n"
        assert found(file, own) == ()  # it is open
        process.send_signal(signal.SIGKILL)
    assert [one.garden for one in found(file, own)] == [WORK]


def test_a_lock_that_is_gone_is_of_a_window_that_is_gone(own):
    assert not is_open("0badcafe", own)
    lock = WindowLock(own)
    assert lock.held
    assert is_open(lock.token, own)
    lock.release()
    assert not is_open(lock.token, own)


def test_the_newest_comes_first(own, file):
    journals = [left_by_a_window(own, file, WORK.with_(beds=(WORK.beds[0].with_(name=n),))) for n in "abc"]
    for journal, when in zip(journals, (2000, 3000, 1000), strict=True):
        document = json.loads(journal.read_text())
        document["unsaved"]["written"] = when
        journal.write_text(json.dumps(document))
    assert [one.garden.beds[0].name for one in found(file, own)] == ["b", "a", "c"]


def test_a_journal_of_an_older_program_is_found_too(own, file):
    old = file.with_name(f".{file.name}{UNSAVED}")
    storage.save(WORK, old)
    assert [one.journal for one in found(file, own)] == [old]


def test_journals_of_other_files_are_not(own, file):
    longer = file.with_name("plot.bedwright.b.bedwright")
    for other in (longer, file.with_name("plot"), file.with_name("a.plot.bedwright")):
        storage.save(Garden(), other)
        left_by_a_window(own, other)
    assert found(file, own) == ()
    assert len(found(longer, own)) == 1


def test_what_the_file_holds_already_is_removed(own, file):
    journal = left_by_a_window(own, file, Garden())
    assert found(file, own) == ()
    assert not journal.exists()


def test_work_on_another_version_of_the_file_is_marked(own, file):
    left_by_a_window(own, file, base="0" * 64)
    (work,) = found(file, own)
    assert work.other_version


def test_a_damaged_journal_is_found_and_stays(own, file):
    journal = left_by_a_window(own, file)
    journal.write_text("{ not json")
    (work,) = found(file, own)
    assert work.garden is None
    assert "line 1" in work.fault
    assert journal.exists()


@pytest.mark.parametrize("head", [3, [], {"window": 3}, {"of": None}])
def test_a_strange_head_is_no_head(own, file, head):
    journal = left_by_a_window(own, file)
    document = json.loads(journal.read_text())
    journal.write_text(json.dumps({**document, "unsaved": head}))
    assert [one.garden for one in found(file, own)] == [WORK]


def test_thrown_away_work_is_not_found_again_but_there(own, file):
    journal = left_by_a_window(own, file)
    throw_away(*found(file, own), own)
    assert found(file, own) == ()
    assert [storage.load(path) for path in file.parent.glob(f"{journal.name}*")] == [WORK]


def thrown_away(own: Path, file: Path | None, count: int, days_ago: float = 0.0) -> list[Path]:
    """Journals that were thrown away, one a minute, so many days ago."""
    paths = []
    for _ in range(count):
        journal = left_by_a_window(own, file)
        (work,) = found(file, own) if file is not None else unsaved_untitled(own)
        throw_away(work, own)
        paths.append(journal.with_name(journal.name + THROWN_AWAY))
    for number, path in enumerate(paths):
        when = time.time() - days_ago * 86_400 - 60 * (count - number)
        if path.exists():
            os.utime(path, (when, when))
    return paths


@pytest.mark.parametrize("titled", [True, False])
def test_the_last_ten_and_a_month_of_thrown_away_work_stay(own, file, titled):
    place = file if titled else None
    old = thrown_away(own, place, 12, days_ago=40)
    assert [path.exists() for path in old] == [True] * 12, "each was new when it was thrown away"
    other = file.with_name(f".other.bedwright.12345678{UNSAVED}{THROWN_AWAY}")
    other.write_text("of another garden")
    os.utime(other, (0, 0))
    new = thrown_away(own, place, 3, days_ago=1)
    assert [path.exists() for path in old] == [False] * 5 + [True] * 7
    assert all(path.exists() for path in new)
    young = thrown_away(own, place, 12, days_ago=20)
    assert all(path.exists() for path in (*new, *young))
    assert not any(path.exists() for path in old)
    assert other.exists()


def test_thrown_away_work_takes_no_more_than_a_set_size(own, file, monkeypatch):
    size = thrown_away(own, file, 1)[0].stat().st_size
    # Journals differ by some bytes, as their times of writing have more or fewer digits.
    monkeypatch.setattr(unsaved, "MOST_THROWN_AWAY", 3 * size + size // 2)
    paths = thrown_away(own, file, 5)
    assert [path.exists() for path in paths] == [False, False, True, True, True]
    monkeypatch.setattr(unsaved, "MOST_THROWN_AWAY", 1)
    (newest,) = thrown_away(own, file, 1)
    assert newest.exists()
    assert len(list(file.parent.glob(f"*{THROWN_AWAY}"))) == 1


def test_taken_up_work_is_removed_but_not_that_of_another_computer(own, file):
    journal = left_by_a_window(own, file)
    (work,) = found(file, own)
    document = json.loads(journal.read_text())
    document["unsaved"]["host"] = "elsewhere"
    journal.write_text(json.dumps(document))
    (elsewhere,) = found(file, own)
    taken_up(elsewhere)
    assert journal.exists()
    taken_up(work)
    assert not journal.exists()


def test_beside_or_else_in_the_own_folder(own, file, tmp_path):
    long_name = tmp_path / ("x" * 240 + ".bed")
    storage.save(Garden(), long_name)
    assert beside(file, "00000000").parent == file.parent
    assert left_by_a_window(own, file).parent == file.parent
    assert left_by_a_window(own, long_name).parent == own
    assert [one.garden for one in found(long_name, own)] == [WORK]


def test_a_journal_that_moves_is_in_one_place(file, window):
    journal = window()
    journal.write(WORK)
    first = journal.written
    journal.write(WORK, file)
    assert not first.exists()
    assert journal.written.exists()
    journal.discard()
    journal.discard()
    assert journal.written is None


def test_where_nothing_can_be_written_the_work_goes_on(file, window, monkeypatch):
    journal = window()

    def full(*_args: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    assert not journal.write(WORK, file)
    assert journal.trouble == "No space left on device"


def test_work_without_a_file_is_found_and_that_of_a_file_that_is_gone(own, file, tmp_path):
    left_by_a_window(own, None)
    lost = tmp_path / ("x" * 240 + ".bed")
    left_by_a_window(own, lost, Garden())
    left_by_a_window(own, file)
    assert {one.head.of for one in unsaved_untitled(own)} == {"", str(lost)}


def test_left_over_temporary_files_go_by_age_at_the_next_save(file):
    old, young = (file.with_name(f".bedwright-{name}.part") for name in ("old", "young"))
    for path in (old, young):
        path.write_bytes(b"half")
    os.utime(old, (time.time() - 7200,) * 2)
    storage.save(WORK, file)
    assert not old.exists()
    assert young.exists()


@pytest.mark.skipif(not hasattr(os, "link"), reason="no hard links here")
def test_a_file_with_a_second_name_says_so(file):
    assert not storage.save(WORK, file).other_names
    os.link(file, file.with_name("second.bedwright"))
    assert storage.save(Garden(), file).other_names
    assert storage.load(file.with_name("second.bedwright")) == WORK
