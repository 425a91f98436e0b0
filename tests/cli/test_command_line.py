"""The command line as a whole: help, what is refused, faults, and its behaviour as a process."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from typing import Any

import pytest
from plot_garden import BED

from planner.cli.parser import COMMANDS, make_parser
from planner.garden import Bed, Garden, Planting
from planner.storage import save


def test_help_and_version(bedwright):
    assert "COMMAND" in bedwright("--help")[1]
    assert "--year" in bedwright("amounts", "--help")[1]
    assert bedwright("--version")[1].startswith("Bedwright ")


def test_commands_of_the_parser_are_the_commands():
    text = make_parser().format_help()
    assert all(f"\n    {command.NAME} " in text for command in COMMANDS)


def test_file_that_is_not_there(refused, tmp_path):
    assert "there is no such file" in refused("amounts", str(tmp_path / "gone.bedwright"))


def test_damaged_file(refused, tmp_path):
    (tmp_path / "bad.bedwright").write_text('{"format": ')
    assert "is damaged at line 1" in refused("amounts", str(tmp_path / "bad.bedwright"))


def test_half_a_character_in_the_file(refused, tmp_path):
    fields = {"format": "bedwright garden", "schema": 1, "\ud83d": 1}
    (tmp_path / "bad.bedwright").write_text(json.dumps(fields))
    assert "half of a character" in refused("amounts", str(tmp_path / "bad.bedwright"))


def test_control_characters_do_not_reach_the_terminal(refused, tmp_path):
    fields = {"format": "bedwright garden", "schema": 1, "\x1b[31m\u202e": 1}
    (tmp_path / "bad.bedwright").write_text(json.dumps(fields))
    assert "\x1b" not in refused("amounts", str(tmp_path / "bad.bedwright"))


@pytest.mark.parametrize("year", ["soon", "1700", "2401", "-5", "２０２５", "2025.0"])
def test_year_that_is_none(refused, file, year):
    assert "--year" in refused("amounts", file, f"--year={year}")


def test_word_that_is_no_command(refused):
    assert refused("amonts") == "bedwright: there is no command and no file 'amonts'. Did you mean amounts?\n"


@pytest.mark.parametrize(
    "words", [["amounts"], ["amounts", "a", "b"], ["sheets", "a"], ["new", "a"], ["crops", "--x"]]
)
def test_command_that_is_not_whole(refused, words):
    assert "Help: bedwright " in refused(*words)


def test_fault_in_the_program_gives_one_line(refused, file, monkeypatch):
    def breaks(*args):
        raise ZeroDivisionError("first\nsecond")

    monkeypatch.delenv("BEDWRIGHT_TRACEBACK", raising=False)
    monkeypatch.setattr("planner.cli.amounts.plan_of", breaks)
    assert "a fault in the program itself: ZeroDivisionError: first second" in refused("amounts", file)


def test_stopping_gives_one_line(bedwright, file, monkeypatch):
    def stops(*args):
        raise KeyboardInterrupt

    monkeypatch.setattr("planner.cli.amounts.plan_of", stops)
    assert bedwright("amounts", file) == (130, "", "bedwright: stopped.\n")


def process(*arguments: str, **more: Any) -> subprocess.CompletedProcess[bytes]:
    command = [sys.executable, "-m", "planner", *arguments]
    return subprocess.run(command, capture_output=True, check=False, timeout=60, **more)


@pytest.mark.skipif(os.name != "posix", reason="pipes break otherwise elsewhere")
def test_reader_that_has_seen_enough():
    read, write = os.pipe()
    os.close(read)
    command = [sys.executable, "-m", "planner", "crops"]
    done = subprocess.run(command, stdout=write, stderr=subprocess.PIPE, check=False, timeout=60)
    os.close(write)
    assert done.returncode == 141
    assert done.stderr == b""


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="no full device here")
def test_output_on_a_full_disk():
    with open("/dev/full", "wb") as full:
        command = [sys.executable, "-m", "planner", "schema"]
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, check=False, timeout=60)
    assert done.returncode == 2
    assert done.stderr == b"bedwright: standard output cannot be written: No space left on device.\n"


def test_terminal_that_cannot_print_a_name(tmp_path):
    bed = Bed(id="b1", name="Ätna 🥕", outline=BED)
    kale = Planting(id="p1", bed="b1", crop="kale", year=2025)
    save(Garden(beds=(bed,), plantings=(kale,)), tmp_path / "g.bedwright")
    environment = {**os.environ, "PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}
    done = process("amounts", str(tmp_path / "g.bedwright"), env=environment)
    assert done.returncode == 0
    assert b"?tna ? (5.76 m?)" in done.stdout


def test_help_imports_nothing_heavy():
    code = "import sys; from planner.cli import main; main(['--help']); print(sorted(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    modules = done.stdout.splitlines()[-1]
    for heavy in ("PySide6", "shapely", "numpy", "reportlab", "pydantic"):
        assert f"'{heavy}'" not in modules
