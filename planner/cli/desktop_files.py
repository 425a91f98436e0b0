"""The files by which a desktop of Linux knows the program: its entry, its icons and the kind of its files.

By the standards of freedesktop.org: desktop entries 1.0, shared MIME information 0.21, icon themes 0.13, base directories 0.8.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from xml.sax.saxutils import escape

from planner import resources
from planner.atomic_write import write_whole
from planner.words import say

#: Of a garden file, which is JSON.
MIME_TYPE = "application/x-bedwright"
#: Sides of the icons that are drawn beforehand. [pixels]
ICON_SIZES = (16, 24, 32, 48, 64, 128, 256, 512)
#: Most time for a tool of the desktop to take in what is new. [s]
_PATIENCE = 60

_ENTRY = """[Desktop Entry]
Type=Application
Version=1.0
Name=Bedwright
GenericName=Vegetable bed planner
GenericName[de]=Planer für Gemüsebeete
Comment=Plan what grows in which bed, how much of it, and when
Comment[de]=Planen, was in welchem Beet wächst, wie viel davon und wann
Exec={command} open %f
Icon=bedwright
Terminal=false
Categories=Education;
Keywords=garden;vegetable;bed;sowing;planting;
Keywords[de]=Garten;Gemüse;Beet;Aussaat;Pflanzung;
MimeType={mime};
StartupWMClass=bedwright
"""

_KIND = """<?xml version="1.0" encoding="UTF-8"?>
<mime-info xmlns="http://www.freedesktop.org/standards/shared-mime-info">
  <mime-type type="{mime}">
    <sub-class-of type="application/json"/>
    <comment>Plan of a garden</comment>
    <comment xml:lang="de">Plan eines Gartens</comment>
    <icon name="bedwright"/>
    <glob pattern="*.bedwright"/>
  </mime-type>
</mime-info>
"""


def data_folder(environment: Mapping[str, str]) -> Path:
    """The user's folder of data: ``XDG_DATA_HOME`` where that is absolute, as the standard wants it, else below the home."""
    told = environment.get("XDG_DATA_HOME", "")
    return (
        Path(told)
        if Path(told).is_absolute()
        else Path(environment.get("HOME") or Path.home(), ".local/share")
    )


def launcher() -> tuple[str, ...]:
    """The words that start this very program."""
    if getattr(sys, "frozen", False):  # a bundle
        return (sys.executable,)
    beside = Path(sys.executable).parent / "bedwright"
    return (str(beside),) if beside.is_file() else (sys.executable, "-m", "planner")


def command_line(words: Sequence[str]) -> str:
    r"""Words as the key ``Exec`` wants them.

    Examples
    --------
    >>> print(command_line(("/opt/my garden/bedwright", "50%")))
    "/opt/my garden/bedwright" 50%%
    >>> print(command_line(('a"b',)))
    "a\\"b"
    """
    return " ".join(map(_quoted, words))


def _quoted(word: str) -> str:
    word = word.replace("%", "%%")
    if not any(sign in word for sign in " \t\n\"'\\><~|&;$*?#()`"):
        return word
    for sign in '\\"`$':
        word = word.replace(sign, f"\\{sign}")
    # The backslashes are those of a string of the file as well.
    return '"{}"'.format(word.replace("\\", "\\\\"))


def desktop_files(words: Sequence[str]) -> Iterator[tuple[str, bytes]]:
    """Files with their content, each by its path below the folder of data.

    Parameters
    ----------
    words : sequence of str
        That start the program.
    """
    yield (
        "applications/bedwright.desktop",
        _ENTRY.format(command=command_line(words), mime=MIME_TYPE).encode(),
    )
    yield "mime/packages/bedwright.xml", _KIND.format(mime=escape(MIME_TYPE)).encode()
    yield (
        "icons/hicolor/scalable/apps/bedwright.svg",
        resources.resource("icons", "bedwright.svg").read_bytes(),
    )
    for size in ICON_SIZES:
        picture = resources.resource("icons", f"bedwright-{size}.png").read_bytes()
        yield f"icons/hicolor/{size}x{size}/apps/bedwright.png", picture


def install(folder: Path, words: Sequence[str]) -> list[Path]:
    """Write all files below a folder of data; returns their paths."""
    written = []
    for name, content in desktop_files(words):
        target = folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        write_whole(target, content)
        written.append(target)
    return written


def remove(folder: Path) -> list[Path]:
    """Remove the files below a folder of data; returns the paths of those that were there."""
    removed = []
    for name, _ in desktop_files(()):
        target = folder / name
        if target.is_file() or target.is_symlink():
            target.unlink()
            removed.append(target)
    return removed


def update_desktop(folder: Path) -> Iterator[str]:
    """Let the tools of the desktop take in what is new or gone; gives a sentence for each that did not."""
    with contextlib.suppress(OSError):  # caches of icons older than their folder are read anew
        os.utime(folder / "icons" / "hicolor")
    for tool, arguments in (
        ("update-mime-database", [str(folder / "mime")]),
        ("update-desktop-database", [str(folder / "applications")]),
    ):
        if not Path(arguments[0]).is_dir():
            continue
        found = shutil.which(tool)
        if found is None:
            yield say(
                "{tool} is not installed: until it has run, garden files may not open by a double click",
                tool=tool,
            )
            continue
        try:
            done = subprocess.run(
                [found, *arguments], capture_output=True, text=True, timeout=_PATIENCE, check=False
            )
            wrong = done.stderr.strip().split("\n")[-1] if done.returncode else ""
        except (OSError, subprocess.TimeoutExpired) as error:
            wrong = str(error)
        if wrong:
            yield say("{tool} did not end well: {reason}", tool=tool, reason=wrong)
