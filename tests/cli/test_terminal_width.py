"""Output on a terminal fits its width; what is piped is whole."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest
from sample_reading import FOLDER

from planner.cli import output
from planner.listings.widths import width

COMMANDS = {
    "amounts": ["amounts", str(FOLDER / "red_mesa.bedwright")],
    "raising": ["amounts", str(FOLDER / "hollow_lane.bedwright"), "--what", "raising"],
    "covers": ["amounts", str(FOLDER / "hollow_lane.bedwright"), "--what", "covers"],
    "supports": ["amounts", str(FOLDER / "hollow_lane.bedwright"), "--what", "supports"],
    "ground": ["amounts", str(FOLDER / "hollow_lane.bedwright"), "--what", "ground"],
    "shopping": ["amounts", str(FOLDER / "hollow_lane.bedwright"), "--what", "shopping"],
    "harvest": ["amounts", str(FOLDER / "hollow_lane.bedwright"), "--what", "harvest"],
    "store": ["amounts", str(FOLDER / "hollow_lane.bedwright"), "--what", "store"],
    "enough": ["enough", "potato", str(FOLDER / "hollow_lane.bedwright"), "--for", "2", "--until", "31 Mar"],
    "tasks": ["tasks", str(FOLDER / "hollow_lane.bedwright")],
    "check": ["check", str(FOLDER / "wattle_bank.bedwright"), "--no-light"],
    "sun": ["sun", str(FOLDER / "hollow_lane.bedwright"), "--date", "2026-06-21"],
    "records": ["records", str(FOLDER / "hollow_lane.bedwright")],
    "crop": ["crops", "carrot"],
    "crops": ["crops"],
    "coverage": ["crops", "--coverage"],
}


@pytest.mark.parametrize("name", COMMANDS)
def test_lines_fit_and_hold_all_that_is_piped(bedwright, monkeypatch, name):
    whole = bedwright(*COMMANDS[name])[1]
    monkeypatch.setattr(output, "terminal_room", lambda: 80)
    for module in ("amounts", "tasks", "crops", "weather"):
        monkeypatch.setattr(f"planner.cli.{module}.terminal_room", lambda: 80)
    narrow = bedwright(*COMMANDS[name])[1]
    assert max(map(width, narrow.splitlines())) <= 80
    assert sorted("".join(narrow.split())) == sorted("".join(whole.split())), "nothing is cut"


def test_json_and_csv_are_never_broken(bedwright, monkeypatch):
    arguments = (*COMMANDS["amounts"], "--csv", "-")
    whole = bedwright(*arguments)[1]
    monkeypatch.setattr(output, "terminal_room", lambda: 80)
    assert bedwright(*arguments)[1] == whole
    assert max(map(len, whole.splitlines())) > 80


def test_output_that_is_no_terminal_has_no_width(capsys):
    assert output.terminal_room() is None


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
@pytest.mark.parametrize("columns", [60, 100])
def test_a_real_terminal_is_asked_for_its_width(columns):
    import fcntl
    import pty
    import struct
    import termios

    ours, theirs = pty.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    surroundings = {key: value for key, value in os.environ.items() if key not in ("COLUMNS", "LINES")}
    command = [sys.executable, "-m", "planner", "tasks", str(FOLDER / "wattle_bank.bedwright")]
    with subprocess.Popen(command, stdout=theirs, env=surroundings, cwd=FOLDER.parent) as process:
        os.close(theirs)
        text = b""
        while True:
            try:
                part = os.read(ours, 65536)
            except OSError:  # the other end is closed
                break
            if not part:
                break
            text += part
    os.close(ours)
    assert process.returncode == 0
    lines = text.decode().replace("\r\n", "\n").splitlines()
    assert len(lines) > 100
    assert columns - 12 < max(map(width, lines)) <= columns
