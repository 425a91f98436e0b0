"""Exports and new gardens onto what is no place for them, and gardens and tables read from what is no file."""

from __future__ import annotations

import contextlib
import gzip
import io
import os
import tempfile
import time
from pathlib import Path
from random import Random

from making import bed, garden, planting

from planner.cli import main
from planner.storage import save

#: Longest that any refusal may take. [s]
LONGEST = 5.0
_TABLE = b"date,tmin,tmax\n" + b"".join(b"2020-01-%02d,%d,9\n" % (day, day % 7) for day in range(1, 29))


def _targets(folder: Path, suffix: str) -> dict[str, Path]:
    """Places that must stay as they are, by what they are."""
    places = {
        what: folder / f"{what}{suffix}"
        for what in (
            "garden",
            "diary",
            "folder",
            "pipe",
            "link",
            "circle",
            "link to a folder",
            "link to a pipe",
        )
    }
    save(garden(bed()), places["garden"])
    places["diary"].write_text("bed,notes\nWest,sunny\n")
    places["folder"].mkdir()
    os.mkfifo(places["pipe"])
    places["link"].symlink_to(places["garden"])
    places["circle"].symlink_to(places["circle"])
    places["link to a folder"].symlink_to(places["folder"])
    places["link to a pipe"].symlink_to(places["pipe"])
    places["device"] = Path(os.devnull)
    places["no folder"] = folder / "none" / f"x{suffix}"
    places["in a file"] = places["diary"] / f"x{suffix}"
    places["long name"] = folder / ("n" * 300 + suffix)
    places["empty name"] = Path("")
    return places


def _state(folder: Path) -> dict[str, tuple[int, bytes]]:
    """What is in a folder: the kind of each, and what plain files hold."""
    return {
        str(path): (path.lstat().st_mode, path.read_bytes() if path.is_file() else b"")
        for path in sorted(folder.rglob("*"))
    }


def _refused(arguments: list[str]) -> str:
    errors, begun = io.StringIO(), time.monotonic()
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(errors):
        code = main(arguments)
    said, took = errors.getvalue(), time.monotonic() - begun
    if code != 2:
        return f"{arguments} ended with {code}: {said}"
    if said.count("\n") != 1 or "a fault in the program" in said or not said.rstrip().endswith("."):
        return f"{arguments} said {said!r}"
    return "" if took < LONGEST else f"{arguments} took {took:.1f} s"


def writing(rng: Random) -> str:
    """An export, or a new garden, is refused in one line where something else is, and all stays as it was."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source = folder / "plot.bedwright"
        save(garden(bed(), planting()), source)
        table = folder / "weather.csv"
        table.write_bytes(_TABLE)
        command = rng.choice(("sheets", "weeks", "amounts", "tasks", "new", "join", "weather"))
        suffix = {"amounts": ".csv", "tasks": ".ics", "sheets": ".pdf", "weeks": ".pdf"}.get(
            command, ".bedwright"
        )
        what, target = rng.choice(list(_targets(folder, suffix).items()))
        file, out = str(source), os.fspath(target) if what != "empty name" else ""
        before = _state(folder)
        wrong = _refused(
            {
                "sheets": ["sheets", file, "-o", out],
                "weeks": ["sheets", file, "--weeks", "-o", out],
                "amounts": ["amounts", file, "--csv", out],
                "tasks": ["tasks", file, "--ics", out],
                "new": ["new", out, "--sample", "balcony_boxes"],
                "join": ["join", file, file, file, "-o", out],
                "weather": ["weather", str(table), "--into", file, "-o", out],
            }[command]
        )
        if wrong:
            return f"{what}: {wrong}"
        return "" if _state(folder) == before else f"{command} onto {what} changed something"


def reading(rng: Random) -> str:
    """A garden or table that is a pipe, a device, a folder, or packed and damaged, is refused at once in one line."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        places = _targets(folder, ".bedwright")
        garden_file = folder / "plot.bedwright"
        save(garden(bed()), garden_file)
        odd = [places[what] for what in ("folder", "pipe", "circle", "link to a pipe", "device", "no folder")]
        packed = bytearray(gzip.compress(_TABLE * 20))
        for _ in range(rng.choice((1, 3, 20))):
            packed[rng.randrange(10, len(packed))] ^= 1 << rng.randrange(8)
        broken = folder / "weather.csv.gz"
        broken.write_bytes(packed[: rng.choice((len(packed), len(packed) // 2))])
        file, path = str(garden_file), str(rng.choice(odd))
        return _refused(
            rng.choice(
                (
                    ["check", path, "--no-light"],
                    ["amounts", path],
                    ["sheets", path, "-o", "-"],
                    ["join", file, path, file, "-o", str(folder / "new.bedwright")],
                    ["join", "--merge", file, file, path],
                    ["weather", path],
                    ["weather", str(broken)],
                    ["weather", str(broken), "--date", "date", "--min", "tmin"],
                )
            )
        )


ATTACKS = (
    {"hostile places to write": writing, "hostile places to read": reading} if os.name == "posix" else {}
)
