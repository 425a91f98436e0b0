"""bedwright join: two gardens that began as the same one."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from plot_garden import GARDEN

from planner.garden import Garden
from planner.garden import edits as e
from planner.storage import load, save

FIRST = GARDEN.plantings[0].id


@pytest.fixture
def three(tmp_path):
    """Writes base, mine and theirs under names without the usual ending."""

    def write(mine: Garden, theirs: Garden) -> list[str]:
        paths = [tmp_path / name for name in ("base_1", "mine_2", "theirs_3")]
        for path, one in zip(paths, (GARDEN, mine, theirs), strict=True):
            save(one, path)
        return [str(path) for path in paths]

    return write


MINE = e.change_planting(GARDEN, FIRST, notes="mine")
THEIRS = e.change_planting(GARDEN, FIRST, tended_by="Ann")
THEIR_NOTES = e.change_planting(GARDEN, FIRST, notes="theirs")


def test_join_writes_a_new_file_with_what_both_changed(bedwright, three, tmp_path):
    files, new = three(MINE, THEIRS), tmp_path / "new.bedwright"
    code, out, _ = bedwright("join", *files, "-o", str(new))
    assert (code, out) == (0, f"{new}: joined\n")
    joined = load(new).plantings_by_id[FIRST]
    assert (joined.notes, joined.tended_by) == ("mine", "Ann")
    assert [load(path) for path in files] == [GARDEN, MINE, THEIRS]


def test_join_never_overwrites(refused, three):
    files = three(MINE, THEIRS)
    assert "is not overwritten" in refused("join", *files, "-o", files[0])
    assert load(files[0]) == GARDEN


def test_what_both_changed_is_listed_and_kept(bedwright, three):
    files = three(MINE, THEIR_NOTES)
    code, out, _ = bedwright("join", "--merge", *files)
    assert code == 1
    assert "notes is “mine” in this garden, “theirs” in the other" in out
    kept = load(files[1])
    assert kept.plantings_by_id[FIRST].notes == "mine"
    assert kept.conflicts[0].values == {"notes": "theirs"}
    code, out, _ = bedwright("check", files[1], "--no-light")
    assert "“theirs” in the other" in out


def test_merge_replaces_mine(bedwright, three):
    files = three(MINE, THEIRS)
    assert bedwright("join", "--merge", *files)[0] == 0
    assert load(files[1]).plantings_by_id[FIRST].tended_by == "Ann"
    assert load(files[2]) == THEIRS


def test_an_empty_base_is_no_common_beginning(bedwright, three):
    files = three(MINE, THEIR_NOTES)
    Path(files[0]).write_bytes(b"")
    assert bedwright("join", "--merge", *files)[0] == 1
    assert load(files[1]).plantings_by_id[FIRST].notes == "mine"


@pytest.mark.parametrize("which", [0, 1, 2])
def test_a_broken_file_is_told_and_mine_stays(refused, three, which):
    files = three(MINE, THEIRS)
    Path(files[which]).write_text("{")
    before = Path(files[1]).read_bytes()
    assert files[which] in refused("join", "--merge", *files)
    assert Path(files[1]).read_bytes() == before


def test_where_it_goes_must_be_said(refused, three):
    assert "--merge" in refused("join", *three(MINE, THEIRS))


def test_git_joins_two_branches_with_it(tmp_path, monkeypatch):
    """As git's own manual says of merge drivers (gitattributes, "Defining a custom merge driver")."""
    monkeypatch.chdir(tmp_path)
    driver = f'"{sys.executable}" -m planner join --merge %O %A %B'
    for name in ("GIT_AUTHOR", "GIT_COMMITTER"):
        monkeypatch.setenv(f"{name}_NAME", "Ann")
        monkeypatch.setenv(f"{name}_EMAIL", "ann@example.org")
    monkeypatch.setenv("PYTHONPATH", str(Path(__file__).parents[2]))

    def git(*arguments: str) -> int:
        return subprocess.run(["git", *arguments], capture_output=True, check=False).returncode

    def commit(one: Garden, branch: str) -> None:
        assert git("checkout", "-q", "-b", branch, *(["main"] if branch != "main" else [])) == 0
        save(one, "plot.bedwright")
        assert git("add", ".") == 0
        assert git("commit", "-q", "-m", branch) == 0

    assert git("init", "-q", "-b", "start") == 0
    assert git("config", "merge.garden.driver", driver) == 0
    Path(".gitattributes").write_text("*.bedwright merge=garden\n")
    commit(GARDEN, "main")
    commit(MINE, "mine")
    commit(THEIRS, "theirs")
    commit(THEIR_NOTES, "notes")
    assert git("checkout", "-q", "mine") == 0
    assert git("merge", "-q", "--no-edit", "theirs") == 0
    joined = load("plot.bedwright").plantings_by_id[FIRST]
    assert (joined.notes, joined.tended_by) == ("mine", "Ann")
    assert git("merge", "-q", "--no-edit", "notes") == 1  # a conflict: git asks for a look
    assert load("plot.bedwright").conflicts[0].values == {"notes": "theirs"}
