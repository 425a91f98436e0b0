"""Saving: at every moment either the whole old file or the whole new one is there."""

from __future__ import annotations

import errno
import os
import stat

import pytest

from planner.garden import Bed, Garden, Rectangle
from planner.storage import FileError, dump, load, read, save

OLD = Garden()
NEW = Garden(beds=(Bed(id="b1", name="North", outline=Rectangle(length=3, width=1.2)),))


@pytest.fixture
def file(tmp_path):
    save(OLD, tmp_path / "plot.bedwright")
    return tmp_path / "plot.bedwright"


def test_new_file_takes_the_usual_permissions(tmp_path):
    before = os.umask(0o027)
    try:
        save(NEW, tmp_path / "plot.bedwright")
    finally:
        os.umask(before)
    assert load(tmp_path / "plot.bedwright") == NEW
    if os.name == "posix":
        assert stat.S_IMODE((tmp_path / "plot.bedwright").stat().st_mode) == 0o640


def test_same_garden_gives_the_same_bytes(file):
    save(NEW, file)
    first = file.read_bytes()
    save(load(file), file)
    assert file.read_bytes() == first == dump(NEW).encode()
    assert b"\r" not in first


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_full_disk_leaves_the_old_file(file, monkeypatch, call):
    old = file.read_bytes()

    def fails(*args, **more):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, call, fails)
    with pytest.raises(FileError, match=r"could not be saved: No space left.*Save it under another name"):
        save(NEW, file)
    monkeypatch.undo()
    assert file.read_bytes() == old
    assert os.listdir(file.parent) == [file.name]


def test_stopped_while_saving_leaves_the_old_file(file, monkeypatch):
    def stops(*args, **more):
        raise KeyboardInterrupt

    monkeypatch.setattr(os, "replace", stops)
    with pytest.raises(KeyboardInterrupt):
        save(NEW, file)
    monkeypatch.undo()
    assert load(file) == OLD
    assert os.listdir(file.parent) == [file.name]


def test_disk_that_cannot_sync_a_folder(file, monkeypatch):
    """The new file is in place by then, so the save has not failed."""
    real = os.fsync

    def only_files(handle):
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, os.strerror(errno.EINVAL))
        real(handle)

    monkeypatch.setattr(os, "fsync", only_files)
    save(NEW, file)
    assert load(file) == NEW


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may write everywhere")
def test_folder_that_may_not_be_written(file):
    file.parent.chmod(0o555)
    try:
        with pytest.raises(FileError, match="could not be saved: Permission denied"):
            save(NEW, file)
        assert load(file) == OLD
    finally:
        file.parent.chmod(0o755)


@pytest.mark.skipif(os.name == "posix" and os.geteuid() == 0, reason="root may write everything")
def test_file_that_may_not_be_written(file):
    file.chmod(0o444)
    with pytest.raises(FileError, match="is write-protected"):
        save(NEW, file)
    assert load(file) == OLD


def test_folder_that_is_not_there(tmp_path):
    with pytest.raises(FileError, match="its folder is not there"):
        save(NEW, tmp_path / "no" / "plot.bedwright")


def test_folder_in_place_of_the_file(tmp_path):
    with pytest.raises(FileError, match="is a folder"):
        save(NEW, tmp_path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_something_that_is_no_plain_file_is_not_replaced(tmp_path):
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(FileError, match="is not a plain file"):
        save(NEW, tmp_path / "pipe")
    assert stat.S_ISFIFO((tmp_path / "pipe").stat().st_mode)


@pytest.mark.skipif(os.name != "posix", reason="permissions of this kind are POSIX")
@pytest.mark.parametrize("mode", [0o600, 0o644, 0o664])
def test_permissions_are_kept(file, mode):
    file.chmod(mode)
    save(NEW, file)
    assert stat.S_IMODE(file.stat().st_mode) == mode


@pytest.mark.skipif(os.name != "posix", reason="links need rights on Windows")
def test_link_stays_a_link(file, tmp_path):
    (tmp_path / "other").mkdir()
    link = tmp_path / "other" / "link.bedwright"
    link.symlink_to(file)
    save(NEW, link)
    assert link.is_symlink()
    assert load(file) == NEW


@pytest.mark.skipif(os.name != "posix", reason="links need rights on Windows")
def test_link_to_nothing_makes_what_it_points_to(tmp_path):
    link = tmp_path / "link.bedwright"
    link.symlink_to(tmp_path / "plot.bedwright")
    save(NEW, link)
    assert link.is_symlink()
    assert load(tmp_path / "plot.bedwright") == NEW


@pytest.mark.skipif(os.name != "posix", reason="links need rights on Windows")
def test_link_to_itself_gives_one_line(tmp_path):
    link = tmp_path / "loop.bedwright"
    link.symlink_to(link)
    with pytest.raises(FileError) as caught:
        save(NEW, link)
    assert "\n" not in str(caught.value)
    with pytest.raises(FileError):
        load(link)


def test_longest_name_a_disk_takes(tmp_path):
    name = "🥕" * 61 + ".bedwright"
    save(NEW, tmp_path / name)
    assert load(tmp_path / name) == NEW


OTHER = Garden(beds=(Bed(id="b2", name="South", outline=Rectangle(length=2, width=1.2)),))


def test_a_file_changed_by_another_program_is_not_replaced(file):
    known = read(file)
    save(OTHER, file)
    theirs = file.read_bytes()
    with pytest.raises(FileError) as caught:
        save(NEW, file, known)
    assert str(caught.value).startswith(f"{file}: was changed by another program since it was read here (on ")
    assert "under another name" in str(caught.value)
    assert file.read_bytes() == theirs
    assert [path.name for path in file.parent.iterdir()] == [file.name]


def test_a_change_of_the_same_size_and_time_is_noticed(file):
    save(NEW, file)
    known, was = read(file), file.stat()
    file.write_bytes(file.read_bytes().replace(b"North", b"South"))
    os.utime(file, ns=(was.st_atime_ns, was.st_mtime_ns))
    assert file.stat().st_size == was.st_size
    with pytest.raises(FileError, match="changed by another program"):
        save(OLD, file, known)


def test_a_change_while_it_is_being_written_is_noticed(file, monkeypatch):
    known = read(file)
    theirs = dump(OTHER).encode()
    sync = os.fsync

    def other_program_saves(handle):
        sync(handle)
        file.write_bytes(theirs)

    monkeypatch.setattr(os, "fsync", other_program_saves)
    with pytest.raises(FileError, match="changed by another program"):
        save(NEW, file, known)
    assert file.read_bytes() == theirs


def test_a_file_that_was_only_touched_is_replaced(file):
    known = read(file)
    os.utime(file, (1.0, 1.0))
    save(NEW, file, known)
    assert load(file) == NEW


def test_what_was_saved_is_what_is_known_next(file):
    known = save(NEW, file, read(file))
    assert known == read(file)
    save(OTHER, file, known)
    assert load(file) == OTHER


def test_a_file_that_is_gone_is_written_anew(file):
    known = read(file)
    file.unlink()
    save(NEW, file, known)
    assert load(file) == NEW


def test_a_folder_in_the_place_of_the_file_is_told(file):
    known = read(file)
    file.unlink()
    file.mkdir()
    with pytest.raises(FileError, match="is a folder"):
        save(NEW, file, known)


@pytest.mark.skipif(os.name != "posix", reason="links")
def test_a_file_is_known_by_its_links_too(file):
    known = read(file)
    symbolic, hard = file.with_name("symbolic"), file.with_name("hard")
    symbolic.symlink_to(file)
    os.link(file, hard)
    assert known.is_at(symbolic)
    assert known.is_at(hard)
    assert not known.is_at(file.with_name("other"))
    save(OTHER, file)
    with pytest.raises(FileError, match="changed by another program"):
        save(NEW, symbolic, known)
