"""What the readers of the shelf's TOML files share: parsing, and faults in words.

``rtoml`` reads the shelf in a tenth of the time of the standard library's ``tomllib``, which says better
what is wrong with a broken file and is asked then.  Nothing is kept on disk between two starts, so there is nothing to go stale.
"""

from __future__ import annotations

import gc
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import rtoml
from pydantic import ValidationError

from planner.errors import BedwrightError


class CatalogueError(BedwrightError):
    """The catalogue's files are not right; lists every fault found."""


def read_toml(path: Path, faults: list[str]) -> dict[str, Any]:
    """The tables of a file; an empty mapping, and a fault in words, where it cannot be read."""
    try:
        text = path.read_bytes().decode("utf-8")
        try:
            tables: dict[str, Any] = rtoml.loads(text)
            return tables
        except rtoml.TomlParsingError:
            return tomllib.loads(text)
    except FileNotFoundError:
        faults.append(f"{path.name}: is missing")
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError) as error:
        faults.append(f"{path.name}: is not TOML: {error}")
    except OSError as error:
        faults.append(f"{path.name}: cannot be read: {error.strerror or error}")
    return {}


def fault_lines(file: str, key: str, error: ValidationError, whole: str) -> list[str]:
    """A line for each fault of a table: file, key, field, what is wrong.

    Parameters
    ----------
    file, key : str
    error : ValidationError
    whole : str
        What stands for the field where the fault is in none: ``the crop``.
    """
    lines = []
    for fault in error.errors(include_url=False, include_context=False, include_input=False):
        place = ".".join(str(part) for part in fault["loc"]) or whole
        lines.append(f"{file}, {key}, {place}: {fault['msg'].removeprefix('Value error, ')}")
    return lines


def refuse(faults: list[str], folder: Path) -> None:
    """Raise all faults of a folder as one error; nothing where there are none."""
    if faults:
        raise CatalogueError("; ".join(faults), folder.name, "Mend the files named")


@contextmanager
def many_values() -> Iterator[None]:
    """Make very many lasting values without the collector looking at all of them over and over."""
    ran = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if ran:
            gc.enable()
