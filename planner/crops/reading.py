"""Parse the TOML files of the catalogue and describe their faults.

``rtoml`` is ten times as fast as the standard library's ``tomllib``; a file that it refuses is parsed again
with ``tomllib``, whose messages are better.  Nothing is cached on disk between two starts.
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


#: Faults that are named; a broken file of sources makes thousands.
MOST_FAULTS = 20


class CatalogueError(BedwrightError):
    """Faults in the catalogue's files, all in one error."""


def read_toml(path: Path, faults: list[str]) -> dict[str, Any]:
    """Read the tables of a file.

    Parameters
    ----------
    path : Path
    faults : list of str
        Gains a line if the file cannot be read.

    Returns
    -------
    dict
        Empty if the file cannot be read.
    """
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
    """Describe each fault of a table in a line: file, key, field, message.

    Parameters
    ----------
    file : str
        Name of the file.
    key : str
        Key of the table.
    error : ValidationError
    whole : str
        Word used for a fault of the whole table, as ``the crop``.
    """
    lines = []
    for fault in error.errors(include_url=False, include_context=False, include_input=False):
        place = ".".join(str(part) for part in fault["loc"]) or whole
        lines.append(f"{file}, {key}, {place}: {fault['msg'].removeprefix('Value error, ')}")
    return lines


def refuse(faults: list[str], folder: Path) -> None:
    """Raise the faults of a folder as one error.

    Parameters
    ----------
    faults : list of str
    folder : Path

    Raises
    ------
    CatalogueError
        If there is any fault.
    """
    if not faults:
        return
    shown = faults[:MOST_FAULTS]
    if len(faults) > MOST_FAULTS:
        shown.append(f"and {len(faults) - MOST_FAULTS:,} more")
    raise CatalogueError("; ".join(shown), folder.name, "Mend the files named")


@contextmanager
def many_values() -> Iterator[None]:
    """Pause the garbage collector while very many long-lived values are made."""
    was_enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_enabled:
            gc.enable()
