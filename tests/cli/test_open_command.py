"""bedwright open, and bedwright without a command."""

from __future__ import annotations

import sys
import types

import pytest

from planner.cli.samples import samples


@pytest.fixture
def opened(monkeypatch):
    """Takes the place of the desk and records what it is to open."""
    calls: list[tuple[str | None, bool]] = []

    def run(path: str | None, sample: bool, _commands: object) -> int:
        calls.append((path, sample))
        return 0

    module = types.ModuleType("planner.desk.app")
    module.run = run  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "planner.desk.app", module)
    monkeypatch.setattr("planner.desk.app", module, raising=False)
    monkeypatch.setenv("DISPLAY", ":0")
    return calls


def test_the_desk_opens(bedwright, file, opened, monkeypatch, tmp_path):
    name = next(iter(samples()))
    monkeypatch.chdir(tmp_path)
    for words in ([], ["open"], [file], ["open", file], ["plot.bedwright"], ["--sample", name]):
        assert bedwright(*words)[0] == 0
    assert opened == [(None, False)] * 2 + [(file, False)] * 2 + [("plot.bedwright", False), (name, True)]


def test_the_desk_is_not_opened_for_nothing(refused, file, opened, tmp_path):
    assert "there is no such file" in refused("open", str(tmp_path / "gone.bedwright"))
    assert "is a folder" in refused(str(tmp_path))
    assert "there is no sample 'zz'" in refused("open", "--sample", "zz")
    assert "cannot both be opened" in refused("open", file, "--sample", next(iter(samples())))
    assert opened == []


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere there is always a display")
def test_the_desk_without_a_display(refused, opened, monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    assert "there is no display" in refused()
    assert opened == []
