"""Parse the TOML files of the catalogue and describe their faults.

``rtoml`` is ten times as fast as the standard library's ``tomllib``; a file that it refuses is parsed again
with ``tomllib``, whose messages are better.
"""

from __future__ import annotations

import gc
import re
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
    content = read_bytes(path, faults)
    return parse_toml(path.name, content, faults) if content is not None else {}


def read_bytes(path: Path, faults: list[str]) -> bytes | None:
    """Read a file; None with a line more in ``faults`` where it cannot be read."""
    try:
        return path.read_bytes()
    except FileNotFoundError:
        faults.append(f"{path.name}: is missing")
    except OSError as error:
        faults.append(f"{path.name}: cannot be read: {error.strerror or error}")
    return None


def parse_toml(name: str, content: bytes, faults: list[str]) -> dict[str, Any]:
    """The tables of a file's content; none with a line more in ``faults`` where it is not TOML."""
    try:
        text = content.decode("utf-8")
        try:
            tables: dict[str, Any] = rtoml.loads(text)
            return tables
        except rtoml.TomlParsingError:
            return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError) as error:
        faults.append(f"{name}: is not TOML: {error}")
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


def names_given(content: bytes, field: str) -> frozenset[str]:
    """Every text that a file gives for a field, anywhere in it: much faster than asking each table.

    Parameters
    ----------
    content : bytes
        Of a TOML file.
    field : str

    Returns
    -------
    frozenset of str
        Also what stands like that within another text.

    Examples
    --------
    >>> sorted(names_given(b'a = { source = "book", other = [ { source = "page" } ] }', "source"))
    ['book', 'page']
    """
    given = re.compile(rf"""\b{field}\s*=\s*["']([^"'\n]*)""".encode())
    return frozenset(key.decode("utf-8", "replace") for key in set(given.findall(content)))


@contextmanager
def many_values(keep: bool = False) -> Iterator[None]:
    """Pause the garbage collector while very many long-lived values are made.

    Parameters
    ----------
    keep : bool
        Never look at them again afterwards: they live as long as the program.
    """
    was_enabled = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if keep:
            gc.freeze()
        if was_enabled:
            gc.enable()
