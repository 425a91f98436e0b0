"""Saving: at every moment either the whole old file or the whole new one is there."""

from __future__ import annotations

import errno
import os
import stat

import pytest

from planner.garden import Bed, Garden, Rectangle
from planner.storage import FileError, dump, load, save

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
