"""``bedwright manual``: the manual as a page or PDF."""

from __future__ import annotations

from typing import NamedTuple

import pytest

from planner.cli import manual


class _Screen(NamedTuple):
    """What a window would give, without opening one: ``tests/desk`` holds that it does."""

    generators = {name: lambda _words, name: f"**{name}**" for name in ("action", "key")}
    pictures = {"sheet": b"\x89PNG"}


@pytest.fixture
def opened(monkeypatch):
    """Whether a window was opened for each call."""
    calls: list[bool] = []
    monkeypatch.setattr(manual, "_screen", lambda with_pictures: calls.append(with_pictures) or _Screen())
    return calls


def test_what_is_to_be_written_must_be_said_and_end_as_a_page_or_pdf(bedwright, tmp_path, opened):
    assert bedwright("manual")[0] == 2
    code, _, error = bedwright("manual", "-o", str(tmp_path / "manual.txt"))
    assert code == 2
    assert ".html or .pdf" in error
    assert opened == []


def test_a_page_is_written_and_replaces_no_other(bedwright, tmp_path, opened):
    target = tmp_path / "manual.html"
    code, out, _ = bedwright("manual", "-o", str(target), "--language", "de", "--no-pictures")
    assert (code, "22" in out) == (0, True)
    text = target.read_text("utf-8")
    assert "Das erste Blatt in fünf Minuten" in text
    assert "<strong>bed sheets</strong>" in text
    assert 'id="command.propose"' in text
    assert bedwright("manual", "-o", str(target))[0] == 0  # an older manual is replaced
    assert "The first sheet in five minutes" in target.read_text("utf-8")
    target.write_text("<html>mine</html>")
    assert bedwright("manual", "-o", str(target))[0] == 2
    assert target.read_text() == "<html>mine</html>"
    assert opened == [False, True]


def test_pictures_are_written_into_a_folder(bedwright, tmp_path, opened):
    assert bedwright("manual", "--pictures", str(tmp_path / "pictures"))[0] == 0
    assert (tmp_path / "pictures" / "sheet.png").read_bytes() == b"\x89PNG"
    (tmp_path / "file").touch()
    code, _, error = bedwright("manual", "--pictures", str(tmp_path / "file"))
    assert code == 2
    assert "cannot be written" in error
