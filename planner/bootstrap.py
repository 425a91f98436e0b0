"""Makes the program's own environment in the checkout, then starts the program or its checks.

    python3 planner/bootstrap.py run     opens the desk with a sample garden
    python3 planner/bootstrap.py test    runs everything that is checked

Standard library only, and readable by Pythons that are too old for the program, so that they can
be told so.  Everything it makes lies in ``.venv``; deleting that folder undoes it.
"""

import argparse
import collections
import hashlib
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from typing import NoReturn

LEAST = (3, 11)
STAMP = "bedwright.json"
SAMPLE = "hollow_lane"
#: Last lines of a failed command that are shown.
TAIL = 12

#: What Qt needs of Debian and its kin to draw at all, and to open windows under X.  Alternatives are
#: tried in order: newer releases have renamed some.
OFFSCREEN = (
    ("libglib2.0-0t64", "libglib2.0-0"),
    ("libegl1",),
    ("libgl1",),
    ("libdbus-1-3",),
    ("libfontconfig1",),
    ("libxkbcommon0",),
)
WINDOWS = (
    ("libxcb-cursor0",),
    ("libxcb-icccm4",),
    ("libxcb-keysyms1",),
    ("libxcb-shape0",),
    ("libxcb-xkb1",),
    ("libxkbcommon-x11-0",),
)
XVFB = (("xvfb",), ("xauth",))


class Trouble(Exception):  # noqa: N818  # it is shown to a user, never handled as an error of the code
    """Something that ends the work; its text is one line."""


def say(text: str) -> None:
    """Tell what is being done, at once."""
    print(text, flush=True)


# -- the surroundings --------------------------------------------------------------------------


def checkout() -> str:
    """The folder that holds ``planner/``."""
    return os.path.dirname(os.path.dirname(os.path.abspath(__file__)))


def on_windows() -> bool:
    """Whether this is Windows."""
    return os.name == "nt"


def on_linux() -> bool:
    """Whether this is Linux, the one system whose Qt leans on packages of the system."""
    return sys.platform.startswith("linux")


def has_display() -> bool:
    """Whether a window can be opened, as far as the environment tells."""
    return not on_linux() or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def may_apt() -> bool:
    """Whether system packages can be installed right here."""
    return on_linux() and os.geteuid() == 0 and shutil.which("apt-get") is not None


def venv_folder(root: str) -> str:
    """The environment's folder."""
    return os.path.join(root, ".venv")


def venv_program(root: str, name: str) -> str:
    """Path of a program in the environment."""
    folder, suffix = ("Scripts", ".exe") if on_windows() else ("bin", "")
    return os.path.join(venv_folder(root), folder, name + suffix)


def check_python(version: "tuple[int, ...]") -> None:
    """Refuse a Python that is too old, naming a newer one where there is one."""
    if tuple(version[:2]) >= LEAST:
        return
    names = [f"python3.{minor}" for minor in range(14, LEAST[1] - 1, -1)]
    newer = next((name for name in names if quiet([name, "-c", ""])[0] == 0), None)
    mend = f"Start it with {newer}" if newer else "Install a newer one from your system or python.org"
    wanted, found = (".".join(str(part) for part in numbers[:2]) for numbers in (LEAST, version))
    raise Trouble(f"needs Python {wanted} or newer, and this is {found}. {mend}.")


def check_writable(root: str) -> None:
    """Refuse a folder in which nothing can be made."""
    try:
        with tempfile.TemporaryFile(dir=root):
            pass
    except OSError as error:
        raise Trouble(
            f"cannot write into {root} ({error.strerror}). Copy the folder to a place of your own and start there."
        ) from None


# -- commands ----------------------------------------------------------------------------------


def follow(
    command: "list[str]",
    shown: "tuple[str, ...]" = (),
    cwd: "str | None" = None,
    env: "dict[str, str] | None" = None,
) -> "tuple[int, list[str]]":
    """Run a command; show the lines that begin with certain words as they come.

    Returns its exit code and its last lines.
    """
    last: collections.deque[str] = collections.deque(maxlen=TAIL)
    with subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
        cwd=cwd,
        env=env,
    ) as process:
        try:
            for line in process.stdout or ():
                if line.strip():
                    last.append(line.rstrip())
                if shown and line.lstrip().startswith(shown):
                    say("  " + line.strip()[:110])
        except BaseException:
            process.kill()
            raise
    return process.returncode, list(last)


def fail_with(lines: "list[str]", text: str) -> NoReturn:
    """Show a failed command's last lines, then end."""
    for line in lines:
        say("  | " + line)
    raise Trouble(text)


def quiet(command: "list[str]", env: "dict[str, str] | None" = None) -> "tuple[int, str]":
    """Run a command; its exit code and everything it said."""
    try:
        done = subprocess.run(
            command,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            encoding="utf-8",
            errors="replace",
            check=False,
            env=env,
        )
    except OSError as error:
        return 127, str(error)
    return done.returncode, done.stdout


def apt_names(groups: "tuple[tuple[str, ...], ...]") -> "list[str]":
    """The name each package has on this system."""
    return [
        next((name for name in group if quiet(["apt-cache", "show", name])[0] == 0), group[-1])
        for group in groups
    ]


def apt_install(groups: "tuple[tuple[str, ...], ...]", what: str) -> None:
    """Install system packages."""
    environment = dict(os.environ, DEBIAN_FRONTEND="noninteractive")
    quiet(["apt-get", "update"], env=environment)  # where it fails, what is known already may do
    names = apt_names(groups)
    say(f"Installing {what} with apt: {' '.join(names)}")
    command = ["apt-get", "install", "-y", "--no-install-recommends", *names]
    code, lines = follow(command, shown=("Setting up",), env=environment)
    if code:
        fail_with(lines, f"apt could not install {what}. See the lines above; then: {' '.join(command)}")


def apt_command(groups: "tuple[tuple[str, ...], ...]") -> str:
    """The one command that installs some packages by hand."""
    return "sudo apt-get install -y --no-install-recommends " + " ".join(apt_names(groups))


# -- the environment ---------------------------------------------------------------------------


def fingerprint(root: str, version: str) -> str:
    """What an installation was made from."""
    digest = hashlib.sha256(f"{version}\n{root}\n".encode("utf-8", "surrogateescape"))
    for name in ("pyproject.toml", os.path.join(".ci", "constraints.txt")):
        path = os.path.join(root, name)
        try:
            with open(path, "rb") as stream:
                digest.update(stream.read())
        except OSError as error:
            raise Trouble(
                f"cannot read {path} ({error.strerror}). Get a whole copy of the program."
            ) from None
    return digest.hexdigest()


def read_stamp(root: str) -> "dict[str, object]":
    """What the last installation left behind; empty where there was none."""
    try:
        with open(os.path.join(venv_folder(root), STAMP), encoding="utf-8") as stream:
            stamp = json.load(stream)
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) else {}


def write_stamp(root: str, made_from: str, extras: "list[str]") -> None:
    """Remember what was installed."""
    with open(os.path.join(venv_folder(root), STAMP), "w", encoding="utf-8") as stream:
        json.dump({"made_from": made_from, "extras": extras}, stream)


def venv_version(root: str) -> str:
    """Version of the environment's Python; empty where it has none that works, or no pip."""
    code, text = quiet([venv_program(root, "python"), "-I", "-c", "import sys, pip; print(sys.version)"])
    return " ".join(text.split()) if code == 0 else ""


def ensure_venv(root: str) -> str:
    """Make ``.venv`` where there is none that works; the version of its Python."""
    folder = venv_folder(root)
    version = venv_version(root)
    if version and tuple(int(part) for part in version.split(".")[:2]) >= LEAST:
        return version
    if (
        os.path.isdir(folder)
        and os.listdir(folder)
        and not os.path.exists(os.path.join(folder, "pyvenv.cfg"))
    ):
        raise Trouble(f"{folder} is in the way and no Python environment. Move it away and start again.")
    again = " anew, for the old one does not work" if os.path.isdir(folder) else ""
    say(f"Making the environment {folder}{again}")
    package = f"python3.{sys.version_info[1]}-venv"
    if quiet([sys.executable, "-I", "-c", "import venv, ensurepip"])[0] and may_apt():
        apt_install(((package, "python3-venv"),), "Python's venv module")
    if quiet([sys.executable, "-I", "-c", "import venv, ensurepip"])[0]:
        raise Trouble(
            f"this Python has no venv module. Install it (Debian, Ubuntu: sudo apt-get install {package}) and start again."
        )
    code, lines = follow([sys.executable, "-m", "venv", "--clear", folder])
    version = venv_version(root)
    if code or not version:
        fail_with(lines, f"could not make {folder}. See the lines above.")
    return version


def install(root: str, extras: "list[str]") -> bool:
    """Install the program, editable, with the pinned versions; whether anything had to be done."""
    version = ensure_venv(root)
    made_from, stamp = fingerprint(root, version), read_stamp(root)
    had = stamp.get("extras")
    if stamp.get("made_from") == made_from and isinstance(had, list) and set(extras) <= set(had):
        return False
    say("Installing the packages (once; it takes some minutes and up to 700 MB on the disk)")
    pip = [venv_program(root, "python"), "-m", "pip", "install", "--disable-pip-version-check", "--no-input"]
    pip += ["-c", os.path.join(root, ".ci", "constraints.txt")]
    target = root + (f"[{','.join(extras)}]" if extras else "")
    for what in (["hatchling", "editables"], ["--no-build-isolation", "-e", target]):
        code, lines = follow(
            [*pip, *what], shown=("Collecting", "Downloading", "Installing collected"), cwd=root
        )
        if code:
            fail_with(
                lines,
                "pip could not install the packages. See its lines above; check the network and start again.",
            )
    write_stamp(root, made_from, extras)
    return True


# -- Qt ----------------------------------------------------------------------------------------


def qt_imports(root: str) -> str:
    """Empty where Qt's widgets load; else why they do not, on one line."""
    environment = dict(os.environ, QT_QPA_PLATFORM="offscreen")
    code, text = quiet(
        [venv_program(root, "python"), "-I", "-c", "import PySide6.QtWidgets"], env=environment
    )
    return "" if code == 0 else (text.strip().splitlines() or [f"exit code {code}"])[-1]


def missing_libraries(root: str, plugin: str) -> "list[str]":
    """Libraries a Qt platform plugin asks for and the system has not."""
    find = "import os, PySide6; print(os.path.dirname(PySide6.__file__))"
    code, text = quiet([venv_program(root, "python"), "-I", "-c", find])
    path = os.path.join(text.strip(), "Qt", "plugins", "platforms", plugin)
    if code or not shutil.which("ldd") or not os.path.exists(path):
        return []
    lines = quiet(["ldd", path])[1].splitlines()
    return sorted({line.split("=>")[0].strip() for line in lines if "not found" in line and "=>" in line})


def ensure_qt(root: str, window: bool) -> None:
    """See whether Qt loads, and install what is missing where that can be done here.

    Parameters
    ----------
    root : str
    window : bool
        Whether a window shall be opened, not only drawn in memory.
    """
    if not on_linux():
        why = qt_imports(root)
        if why:
            raise Trouble(f"Qt does not load ({why}). Delete {venv_folder(root)} and start again.")
        return
    for attempt in (1, 2):
        broken = qt_imports(root)
        lacking = missing_libraries(root, "libqoffscreen.so")
        lacking_windows = missing_libraries(root, "libqxcb.so")
        if not broken and not lacking and not lacking_windows:
            return
        if attempt == 1 and may_apt():
            apt_install(OFFSCREEN + WINDOWS, "the system libraries Qt needs")
    names = ", ".join(dict.fromkeys(lacking + lacking_windows)) or broken
    mend = f"Run: {apt_command(OFFSCREEN + WINDOWS)}" if shutil.which("apt-get") else "Install them"
    if broken or lacking or window:
        raise Trouble(f"Qt lacks libraries of the system: {names}. {mend}")
    say(f"Qt lacks libraries for windows: {names}. {mend}")


def ensure_xvfb() -> None:
    """Get a display in memory, so that the one test with a real mouse runs."""
    if not on_linux() or (shutil.which("Xvfb") and shutil.which("xauth")):
        return
    if may_apt():
        apt_install(XVFB, "a display in memory (Xvfb)")
    elif os.environ.get("BEDWRIGHT_NEED_XVFB"):
        raise Trouble(f"there is no Xvfb for the test with a real mouse. Run: {apt_command(XVFB)}")
    else:
        say("Without Xvfb and xauth the test with a real mouse is skipped")


# -- the two commands --------------------------------------------------------------------------


def sample_name(root: str) -> str:
    """The sample garden to show; empty where there is none."""
    folder = os.path.join(root, "sample_gardens")
    found = sorted(os.listdir(folder)) if os.path.isdir(folder) else []
    names = [name[: -len(".bedwright")] for name in found if name.endswith(".bedwright")]
    return SAMPLE if SAMPLE in names else (names[0] if names else "")


def run(root: str) -> int:
    """Open the desk with a sample garden; without a display, write its bed sheets."""
    install(root, [])
    display = has_display()
    try:
        ensure_qt(root, window=display)
    except Trouble as trouble:
        if display:
            raise
        say(str(trouble))  # the sheets need no Qt
    # -P: a folder named planner where this was started from is not taken for the program
    program = [venv_program(root, "python"), "-P", "-m", "planner"]
    sample = sample_name(root)
    if display:
        say(f"Opening the desk{f' with the sample garden {sample}' if sample else ''}")
        return subprocess.call(program + ["open"] + (["--sample", sample] if sample else []))
    if not sample:
        raise Trouble("there is no display to open a window on, and no sample garden. Start it on a desktop.")
    sheets = os.path.join(os.getcwd(), f"{sample}_bed_sheets.pdf")
    say("There is no display (DISPLAY and WAYLAND_DISPLAY are not set), so no window can be opened.")
    say(f"Writing the bed sheets of the sample garden {sample} instead")
    garden = os.path.join(root, "sample_gardens", f"{sample}.bedwright")
    code = subprocess.call([*program, "sheets", garden, "-o", sheets])
    if code == 0:
        say(f"Bed sheets: {sheets}")
    return code


def test(root: str) -> int:
    """Run tests, lint, format, types and import contracts; 1 where any of them fails."""
    install(root, ["test"])
    ensure_qt(root, window=bool(os.environ.get("BEDWRIGHT_NEED_XVFB")))
    ensure_xvfb()
    python = venv_program(root, "python")
    checks = (
        ("tests", [python, "-m", "pytest", "-q", "-n", "2", "--dist", "worksteal"]),
        ("lint", [python, "-m", "ruff", "check", "."]),
        ("format", [python, "-m", "ruff", "format", "--check", "."]),
        ("types", [python, "-m", "mypy"]),
        ("import contracts", [venv_program(root, "lint-imports")]),
    )
    environment = dict(os.environ, QT_QPA_PLATFORM="offscreen")
    # The tests start many programs: without files compiled by the first, each would compile all modules anew.
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    failed = []
    for name, command in checks:
        say(f"== {name}: {' '.join(os.path.basename(part) for part in command)}")
        began = time.monotonic()
        code = subprocess.call(command, cwd=root, env=environment)
        if code:
            failed.append(name)
        say(
            f"== {name}: {f'FAILED, exit code {code}' if code else 'passed'} ({time.monotonic() - began:.0f} s)"
        )
    say(f"Failed: {', '.join(failed)}" if failed else "Everything passed")
    return 1 if failed else 0


def main(arguments: "list[str] | None" = None) -> int:
    """Read the command and do it; the exit code."""
    parser = argparse.ArgumentParser(
        prog="bootstrap.py", description="Installs Bedwright into .venv, then starts it or its checks."
    )
    parser.add_argument("command", choices=["run", "test"], help="open a sample garden, or run all checks")
    command = parser.parse_args(arguments).command
    try:
        check_python(tuple(sys.version_info[:3]))
        root = checkout()
        check_writable(root)
        return run(root) if command == "run" else test(root)
    except Trouble as trouble:
        print(f"bedwright: {trouble}", file=sys.stderr)
    except KeyboardInterrupt:
        print("bedwright: stopped", file=sys.stderr)
        return 130
    except OSError as error:  # a full disk, a program that cannot be started
        where = f": {error.filename}" if error.filename else ""
        print(f"bedwright: {error.strerror or error}{where}.", file=sys.stderr)
    return 2


if __name__ == "__main__":
    sys.exit(main())
