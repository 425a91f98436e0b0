"""The bootstrap: what it says and does, without installing anything."""

from __future__ import annotations

import ast
import importlib.metadata
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from planner import bootstrap

ROOT = Path(bootstrap.checkout())
SOURCE = Path(bootstrap.__file__).read_text(encoding="utf-8")


@pytest.fixture
def root(tmp_path):
    """A checkout with what a fingerprint is taken of."""
    folder = tmp_path / "a plot"
    (folder / ".ci").mkdir(parents=True)
    (folder / "pyproject.toml").write_text("[project]\n")
    (folder / ".ci" / "constraints.txt").write_text("x==1\n")
    return str(folder)


@pytest.fixture
def no_apt(monkeypatch):
    monkeypatch.setattr(bootstrap, "may_apt", lambda: False)


# -- the file itself ---------------------------------------------------------------------------


def test_old_pythons_can_read_it():
    ast.parse(SOURCE, feature_version=(3, 6))


def test_it_imports_the_standard_library_only():
    for node in ast.walk(ast.parse(SOURCE)):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            names = [node.module or "."]
        else:
            continue
        assert all(name.split(".")[0] in sys.stdlib_module_names for name in names)


def test_nothing_beside_it_hides_the_standard_library():
    """Started as a script, its own folder is the first that modules are looked for in."""
    beside = {path.stem for path in Path(bootstrap.__file__).parent.iterdir()}
    assert beside.isdisjoint(sys.stdlib_module_names)


def test_a_pin_for_every_package_the_project_asks_for():
    pins = {}
    for line in (ROOT / ".ci" / "constraints.txt").read_text().splitlines():
        if line and not line.startswith("#"):
            name, version = line.split("==")
            pins[normal(name)] = version
    wanted = set()
    for requirement in importlib.metadata.requires("bedwright") or ():
        name = requirement.split(";")[0]
        for sign in "<>=!~ [(":
            name = name.split(sign)[0]
        wanted.add(normal(name))
    assert wanted <= set(pins)


def normal(name: str) -> str:
    return name.lower().replace("_", "-").replace(".", "-")


# -- what it refuses ---------------------------------------------------------------------------


def test_python_that_is_new_enough():
    bootstrap.check_python((3, 11, 0))
    bootstrap.check_python((4, 0, 0))


def test_python_that_is_too_old(monkeypatch):
    monkeypatch.setattr(bootstrap, "quiet", lambda command, env=None: (127, ""))
    with pytest.raises(
        bootstrap.Trouble, match=r"needs Python 3\.11 or newer, and this is 3\.9\. Install a newer"
    ):
        bootstrap.check_python((3, 9, 2))


def test_python_that_is_too_old_beside_a_newer_one(monkeypatch):
    monkeypatch.setattr(
        bootstrap, "quiet", lambda command, env=None: (0 if command[0] == "python3.12" else 127, "")
    )
    with pytest.raises(bootstrap.Trouble, match=r"Start it with python3\.12\."):
        bootstrap.check_python((3, 9, 2))


def test_checkout_that_cannot_be_written(monkeypatch, tmp_path):
    def refuses(**where):
        raise OSError(30, "Read-only file system")

    monkeypatch.setattr(bootstrap.tempfile, "TemporaryFile", refuses)
    with pytest.raises(
        bootstrap.Trouble, match=r"cannot write into .* \(Read-only file system\)\. Copy the folder"
    ):
        bootstrap.check_writable(str(tmp_path))


def test_checkout_that_can_be_written(tmp_path):
    bootstrap.check_writable(str(tmp_path))
    assert os.listdir(tmp_path) == []


def test_folder_in_the_way_is_not_deleted(root):
    os.mkdir(bootstrap.venv_folder(root))
    kept = Path(bootstrap.venv_folder(root), "mine.txt")
    kept.write_text("mine")
    with pytest.raises(bootstrap.Trouble, match="is in the way and no Python environment"):
        bootstrap.ensure_venv(root)
    assert kept.read_text() == "mine"


def test_python_without_venv_names_the_package(root, monkeypatch, no_apt):
    monkeypatch.setattr(bootstrap, "quiet", lambda command, env=None: (1, "No module named ensurepip"))
    package = f"python3.{sys.version_info[1]}-venv"
    with pytest.raises(bootstrap.Trouble, match=f"no venv module.*apt-get install {package}"):
        bootstrap.ensure_venv(root)


def test_incomplete_checkout(root):
    os.unlink(os.path.join(root, "pyproject.toml"))
    with pytest.raises(bootstrap.Trouble, match=r"cannot read .*pyproject\.toml"):
        bootstrap.fingerprint(root, "3.11")


def test_trouble_is_one_line_and_code_2(monkeypatch, capsys):
    def troubled(root):
        raise bootstrap.Trouble("pip could not install the packages.")

    monkeypatch.setattr(bootstrap, "run", troubled)
    assert bootstrap.main(["run"]) == 2
    assert capsys.readouterr().err == "bedwright: pip could not install the packages.\n"


@pytest.mark.parametrize(
    ("error", "code", "line"),
    [
        (KeyboardInterrupt(), 130, "bedwright: stopped\n"),
        (OSError(28, "No space left on device", "x"), 2, "bedwright: No space left on device: x.\n"),
    ],
)
def test_other_ends(monkeypatch, capsys, error, code, line):
    def ends(root):
        raise error

    monkeypatch.setattr(bootstrap, "test", ends)
    assert bootstrap.main(["test"]) == code
    assert capsys.readouterr().err == line


# -- installing --------------------------------------------------------------------------------


@pytest.fixture
def pip(root, monkeypatch):
    """Takes the place of pip, and of a working environment; keeps the command lines."""
    calls: list[list[str]] = []
    answer = {"code": 0}

    def follow(command, shown=(), cwd=None, env=None):
        calls.append(command)
        return answer["code"], ["ERROR: no matching distribution"]

    os.mkdir(bootstrap.venv_folder(root))
    monkeypatch.setattr(bootstrap, "follow", follow)
    monkeypatch.setattr(bootstrap, "venv_version", lambda root: "3.11.7 (main)")
    return calls, answer


def test_first_run_installs_with_the_pins(root, pip):
    calls, _ = pip
    assert bootstrap.install(root, ["test"])
    assert calls[-1][-2:] == ["-e", f"{root}[test]"]
    for call in calls:
        assert call[call.index("-c") + 1] == os.path.join(root, ".ci", "constraints.txt")


def test_second_run_installs_nothing(root, pip):
    calls, _ = pip
    bootstrap.install(root, [])
    count = len(calls)
    assert not bootstrap.install(root, [])
    assert len(calls) == count


def test_test_extra_comes_on_top_and_holds_for_run(root, pip):
    assert bootstrap.install(root, [])
    assert bootstrap.install(root, ["test"])
    assert not bootstrap.install(root, [])


@pytest.mark.parametrize("name", ["pyproject.toml", ".ci/constraints.txt"])
def test_changed_needs_install_again(root, pip, name):
    bootstrap.install(root, [])
    Path(root, name).write_text("changed")
    assert bootstrap.install(root, [])


def test_other_python_installs_again(root, pip, monkeypatch):
    bootstrap.install(root, [])
    monkeypatch.setattr(bootstrap, "venv_version", lambda root: "3.12.1 (main)")
    assert bootstrap.install(root, [])


def test_moved_checkout_installs_again(root, pip, tmp_path):
    bootstrap.install(root, [])
    shutil.copytree(root, tmp_path / "moved")
    assert bootstrap.install(str(tmp_path / "moved"), [])


@pytest.mark.parametrize("stamp", ["", "{", "[]", '{"made_from": 3}', "\udc00"])
def test_damaged_stamp_installs_again(root, pip, stamp):
    bootstrap.install(root, [])
    Path(bootstrap.venv_folder(root), bootstrap.STAMP).write_bytes(stamp.encode("utf-8", "surrogatepass"))
    assert bootstrap.install(root, [])


def test_failed_install_shows_pip_and_leaves_no_stamp(root, pip, capsys):
    _, answer = pip
    answer["code"] = 1
    with pytest.raises(bootstrap.Trouble, match="pip could not install the packages"):
        bootstrap.install(root, [])
    assert "  | ERROR: no matching distribution" in capsys.readouterr().out
    assert bootstrap.read_stamp(root) == {}


def test_environment_without_pip_does_not_count(root):
    assert bootstrap.venv_version(root) == ""


def test_programs_of_each_system(monkeypatch):
    monkeypatch.setattr(bootstrap, "on_windows", lambda: True)
    assert bootstrap.venv_program("c", "python") == os.path.join("c", ".venv", "Scripts", "python.exe")
    monkeypatch.setattr(bootstrap, "on_windows", lambda: False)
    assert bootstrap.venv_program("c", "python") == os.path.join("c", ".venv", "bin", "python")


def test_follow_keeps_the_last_lines(capsys):
    code = "print('Collecting x'); [print(i) for i in range(99)]; raise SystemExit(3)"
    ended, lines = bootstrap.follow([sys.executable, "-c", code], shown=("Collecting",))
    assert ended == 3
    assert lines == [str(i) for i in range(99 - bootstrap.TAIL, 99)]
    assert capsys.readouterr().out == "  Collecting x\n"


# -- Qt ----------------------------------------------------------------------------------------


@pytest.fixture
def linux(monkeypatch):
    monkeypatch.setattr(bootstrap, "on_linux", lambda: True)
    monkeypatch.setattr(bootstrap.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(bootstrap, "apt_names", lambda groups: [group[-1] for group in groups])


def test_missing_libraries_give_the_one_command(linux, no_apt, monkeypatch):
    monkeypatch.setattr(bootstrap, "qt_imports", lambda root: "libEGL.so.1: cannot open shared object file")
    monkeypatch.setattr(bootstrap, "missing_libraries", lambda root, plugin: ["libEGL.so.1"])
    with pytest.raises(
        bootstrap.Trouble, match=r"libEGL\.so\.1\. Run: sudo apt-get install .*libegl1 .*libxcb-cursor0"
    ):
        bootstrap.ensure_qt("", window=False)


def test_libraries_for_windows_alone_do_not_stop_drawing_in_memory(linux, no_apt, monkeypatch, capsys):
    lacking = {"libqxcb.so": ["libxcb-cursor.so.0"], "libqoffscreen.so": []}
    monkeypatch.setattr(bootstrap, "qt_imports", lambda root: "")
    monkeypatch.setattr(bootstrap, "missing_libraries", lambda root, plugin: lacking[plugin])
    bootstrap.ensure_qt("", window=False)
    assert "libxcb-cursor.so.0" in capsys.readouterr().out
    with pytest.raises(bootstrap.Trouble):
        bootstrap.ensure_qt("", window=True)


def test_root_installs_what_is_missing(linux, monkeypatch):
    there: list[str] = []
    monkeypatch.setattr(bootstrap, "may_apt", lambda: True)
    monkeypatch.setattr(bootstrap, "apt_install", lambda groups, what: there.append(what))
    monkeypatch.setattr(bootstrap, "qt_imports", lambda root: "" if there else "libGL.so.1")
    monkeypatch.setattr(bootstrap, "missing_libraries", lambda root, plugin: [] if there else ["libGL.so.1"])
    bootstrap.ensure_qt("", window=True)
    assert len(there) == 1


def test_names_of_newer_releases_are_tried_first(monkeypatch):
    monkeypatch.setattr(bootstrap, "quiet", lambda command, env=None: (0 if command[2] == "new" else 1, ""))
    assert bootstrap.apt_names((("new", "old"), ("newer", "older"))) == ["new", "older"]


@pytest.mark.parametrize("code", [0, 100])
def test_apt_is_asked_after_its_lists_are_fresh(linux, monkeypatch, code):
    asked: list[str] = []

    def quiet(command, env=None):
        asked.append(" ".join(command))
        return 100, "no network"  # stale lists may still do

    def follow(command, shown=(), cwd=None, env=None):
        asked.append(" ".join(command))
        assert env["DEBIAN_FRONTEND"] == "noninteractive"
        return code, ["E: Unable to locate package xauth"]

    monkeypatch.setattr(bootstrap, "quiet", quiet)
    monkeypatch.setattr(bootstrap, "follow", follow)
    if code:
        with pytest.raises(bootstrap.Trouble, match="apt could not install a display"):
            bootstrap.apt_install(bootstrap.XVFB, "a display")
    else:
        bootstrap.apt_install(bootstrap.XVFB, "a display")
    assert asked == ["apt-get update", "apt-get install -y --no-install-recommends xvfb xauth"]


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="ldd is Linux's")
def test_ldd_is_read(monkeypatch, tmp_path):
    plugins = tmp_path / "Qt" / "plugins" / "platforms"
    plugins.mkdir(parents=True)
    (plugins / "libqxcb.so").write_text("")
    listing = "\tlibEGL.so.1 => not found\n\tlibc.so.6 => /lib/libc.so.6 (0x1)\n\tlibA.so => not found\n\tlibA.so => not found\n"
    monkeypatch.setattr(bootstrap.shutil, "which", lambda name: name)
    monkeypatch.setattr(
        bootstrap, "quiet", lambda command, env=None: (0, listing if command[0] == "ldd" else f"{tmp_path}\n")
    )
    assert bootstrap.missing_libraries("", "libqxcb.so") == ["libA.so", "libEGL.so.1"]
    assert bootstrap.missing_libraries("", "libother.so") == []


def test_xvfb_that_must_be_there(linux, no_apt, monkeypatch, capsys):
    monkeypatch.setattr(bootstrap.shutil, "which", lambda name: None)
    monkeypatch.delenv("BEDWRIGHT_NEED_XVFB", raising=False)
    bootstrap.ensure_xvfb()
    assert "is skipped" in capsys.readouterr().out
    monkeypatch.setenv("BEDWRIGHT_NEED_XVFB", "1")
    with pytest.raises(bootstrap.Trouble, match="no Xvfb"):
        bootstrap.ensure_xvfb()


# -- run and test ------------------------------------------------------------------------------


@pytest.fixture
def calls(monkeypatch, root):
    """Takes the place of what is started, with a sample garden and everything installed."""
    started: list[list[str]] = []

    def call(command, cwd=None, env=None):
        started.append([os.path.basename(part) if i == 0 else part for i, part in enumerate(command)])
        return 1 if "mypy" in command else 0

    samples = Path(root, "sample_gardens")
    samples.mkdir()
    for name in ("alder.bedwright", "hollow_lane.bedwright", "notes.txt"):
        (samples / name).write_text("")
    monkeypatch.setattr(bootstrap.subprocess, "call", call)
    monkeypatch.setattr(bootstrap, "install", lambda root, extras: False)
    monkeypatch.setattr(bootstrap, "ensure_qt", lambda root, window: None)
    monkeypatch.setattr(bootstrap, "ensure_xvfb", lambda: None)
    return started


def test_run_opens_a_copy_of_the_sample(calls, root, monkeypatch):
    monkeypatch.setattr(bootstrap, "has_display", lambda: True)
    assert bootstrap.run(root) == 0
    assert [call[1:] for call in calls] == [["-P", "-m", "planner", "open", "--sample", "hollow_lane"]]


def test_run_without_a_display_writes_the_sheets_here(calls, root, monkeypatch, tmp_path, capsys):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(bootstrap, "has_display", lambda: False)
    assert bootstrap.run(root) == 0
    sheets = str(tmp_path / "hollow_lane_bed_sheets.pdf")
    garden = os.path.join(root, "sample_gardens", "hollow_lane.bedwright")
    assert [call[4:] for call in calls] == [["sheets", garden, "-o", sheets]]
    out = capsys.readouterr().out
    assert "There is no display" in out
    assert out.endswith(f"Bed sheets: {sheets}\n")


def test_run_without_a_display_needs_no_qt(calls, root, monkeypatch, tmp_path):
    def lacks(root, window):
        raise bootstrap.Trouble("Qt lacks libraries")

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(bootstrap, "ensure_qt", lacks)
    monkeypatch.setattr(bootstrap, "has_display", lambda: False)
    assert bootstrap.run(root) == 0
    monkeypatch.setattr(bootstrap, "has_display", lambda: True)
    with pytest.raises(bootstrap.Trouble):
        bootstrap.run(root)


def test_sample_that_stands_in(calls, root):
    os.unlink(os.path.join(root, "sample_gardens", "hollow_lane.bedwright"))
    assert bootstrap.sample_name(root) == "alder"
    shutil.rmtree(os.path.join(root, "sample_gardens"))
    assert bootstrap.sample_name(root) == ""


@pytest.mark.parametrize(("name", "shown"), [("DISPLAY", True), ("WAYLAND_DISPLAY", True), ("OTHER", False)])
def test_display(monkeypatch, name, shown):
    monkeypatch.setattr(bootstrap, "on_linux", lambda: True)
    for variable in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(variable, raising=False)
    monkeypatch.setenv(name, ":1")
    assert bootstrap.has_display() is shown


def test_test_runs_everything_and_fails_with_any(calls, root, capsys):
    assert bootstrap.test(root) == 1
    words = [" ".join(call) for call in calls]
    for part in ("pytest -q -n 2", "ruff check", "ruff format --check", "mypy", "lint-imports"):
        assert any(part in line for line in words)
    assert capsys.readouterr().out.endswith("Failed: types\n")


# -- as it is started --------------------------------------------------------------------------


def test_help_from_another_folder(tmp_path):
    command = [sys.executable, bootstrap.__file__, "--help"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=True, timeout=60)
    assert "{run,test}" in done.stdout


@pytest.mark.parametrize("arguments", [[], ["walk"]])
def test_other_words(arguments):
    command = [sys.executable, bootstrap.__file__, *arguments]
    assert subprocess.run(command, capture_output=True, check=False, timeout=60).returncode == 2
