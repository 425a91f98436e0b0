"""The desktop entry: what is written below a folder of its own, taken in by the desktop's tools, and removed again."""

from __future__ import annotations

import configparser
import io
import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import resvg_py
from PIL import Image, ImageChops, ImageStat

from planner import resources
from planner.cli import desktop_files

FOUND = {tool: shutil.which(tool) for tool in ("desktop-file-validate", "update-mime-database", "xdg-mime")}


def needs(tool: str) -> pytest.MarkDecorator:
    return pytest.mark.skipif(FOUND[tool] is None, reason=f"{tool} is not installed")


@pytest.fixture
def folder(tmp_path, monkeypatch) -> Path:
    """The folder of data of a user whose home is empty."""
    for name in list(os.environ):
        if name.startswith("XDG_"):
            monkeypatch.delenv(name)
    monkeypatch.setenv("HOME", str(tmp_path))
    return tmp_path / ".local" / "share"


@pytest.fixture
def installed(folder, bedwright) -> Path:
    code, out, err = bedwright("desktop", "--install")
    assert (code, err) == (0, "")
    assert "files are written" in out
    return folder


def files(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*bedwright*") if path.is_file())


def test_what_is_installed_is_removed_again(installed, bedwright):
    assert len(files(installed)) >= 11
    mine = installed / "applications" / "other.desktop"
    mine.write_text("another program's")
    code, out, _ = bedwright("desktop", "--remove")
    assert (code, "files are removed" in out) == (0, True)
    assert [path for path in files(installed) if "x-bedwright" not in path.name] == []
    assert mine.is_file()
    assert bedwright("desktop", "--remove")[1].startswith("0 files")


def test_the_entry_starts_this_program_with_the_file(installed, file):
    entry = configparser.ConfigParser(interpolation=None)
    entry.read(installed / "applications" / "bedwright.desktop", encoding="utf-8")
    exec_line = entry["Desktop Entry"]["Exec"]
    assert exec_line.endswith(" open %f")
    words = shlex.split(exec_line.removesuffix(" open %f"))
    done = subprocess.run([*words, "amounts", file, "--json"], capture_output=True, text=True, check=True)
    assert '"report"' in done.stdout
    assert entry["Desktop Entry"]["MimeType"] == f"{desktop_files.MIME_TYPE};"


@needs("desktop-file-validate")
@pytest.mark.parametrize(
    "words", [("/usr/bin/bedwright",), ('/home/a b/50% $x`"\\/bedwright',)], ids=["plain", "strange"]
)
def test_the_entry_keeps_to_the_standard(tmp_path, words):
    desktop_files.install(tmp_path, words)
    entry = tmp_path / "applications" / "bedwright.desktop"
    done = subprocess.run([FOUND["desktop-file-validate"], str(entry)], capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


@needs("update-mime-database")
@needs("xdg-mime")
def test_the_desktop_knows_a_garden_file_by_its_name(installed, file):
    environment = {**os.environ, "XDG_DATA_HOME": str(installed), "XDG_CURRENT_DESKTOP": "GNOME"}
    assert f"{desktop_files.MIME_TYPE}:*.bedwright" in (installed / "mime" / "globs").read_text()
    asked = [FOUND["xdg-mime"], "query", "default", desktop_files.MIME_TYPE]
    done = subprocess.run(asked, capture_output=True, text=True, env=environment)
    assert done.stdout.strip() == "bedwright.desktop"


def test_a_missing_tool_is_told(folder, bedwright, monkeypatch):
    monkeypatch.setenv("PATH", "")
    code, out, _ = bedwright("desktop", "--install")
    assert code == 0
    assert "update-mime-database is not installed" in out


def test_a_folder_that_cannot_be_written_is_told(tmp_path, refused, monkeypatch):
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "file"))
    assert str(tmp_path / "file") in refused("desktop", "--install")


@pytest.mark.parametrize("platform", ["win32", "darwin"])
def test_other_systems_are_told_so(refused, monkeypatch, platform):
    monkeypatch.setattr(sys, "platform", platform)
    assert "Linux" in refused("desktop", "--install")


def test_a_relative_folder_of_data_counts_as_none():
    told = desktop_files.data_folder({"XDG_DATA_HOME": "here", "HOME": "/home/ada"})
    assert told == Path("/home/ada/.local/share")


@pytest.mark.parametrize("size", desktop_files.ICON_SIZES)
def test_icons_are_the_drawing(size):
    path = resources.resource("icons", "bedwright.svg")
    drawn = Image.open(io.BytesIO(bytes(resvg_py.svg_to_bytes(svg_path=str(path), width=size, height=size))))
    with Image.open(resources.resource("icons", f"bedwright-{size}.png")) as kept:
        assert kept.size == (size, size)
        apart = ImageChops.difference(drawn.convert("RGBA"), kept.convert("RGBA"))
    assert max(ImageStat.Stat(apart).mean) < 2
