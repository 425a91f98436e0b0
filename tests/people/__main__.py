"""``python -m tests.people [NAME] [-o FOLDER]``: people's tasks by mouse and keys in the real window, with pictures."""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from importlib import import_module
from pathlib import Path

from .screen import missing

NAMES = ("newcomer", "keyboard")


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.people", description=__doc__)
    parser.add_argument("name", nargs="?", choices=NAMES, help="one person; none: all of them")
    parser.add_argument("-o", "--output", type=Path, metavar="FOLDER", help="where the pictures go")
    given = parser.parse_args()
    if lacking := missing():
        print(f"Not installed: {', '.join(lacking)}")
        return 2
    folder: Path = given.output or Path(tempfile.mkdtemp(prefix="people-"))
    failed = False
    for name in (given.name,) if given.name else NAMES:
        begun = time.monotonic()
        try:
            import_module(f".{name}", __package__).run(folder / name)
            said = "done"
        except AssertionError as error:
            failed, said = True, f"FAILED: {error}"
        print(f"{name}: {said}, {time.monotonic() - begun:.0f} s, pictures in {folder / name}")
    return int(failed)


if __name__ == "__main__":
    sys.exit(main())
