"""The parsed files of the shipped catalogue, kept beside Python's own compiled files.

TOML takes five times as long to parse as JSON.  What was read without a fault is kept as JSON under a digest of the files, so
that a changed file is never met with the old content; where nothing can be written, the files are parsed each time.
"""

from __future__ import annotations

import contextlib
import hashlib
import importlib.util
import json
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from pydantic_core import from_json

from planner.atomic_write import write_whole

_PREFIX = "catalogue-"

#: Tables of each file, by its name.
Tables = dict[str, dict[str, Any]]


def digest_of(contents: Mapping[str, bytes]) -> str:
    """A digest of files and their names.

    Examples
    --------
    >>> digest_of({"a": b"1"}) == digest_of({"a": b"1"}) != digest_of({"a": b"2"})
    True
    """
    found = hashlib.blake2b(digest_size=16)
    for name, content in sorted(contents.items()):
        found.update(f"{name} {len(content)}\n".encode())
        found.update(content)
    return found.hexdigest()


def kept_folder() -> Path:
    """Folder in which they are kept: that of Python's compiled files."""
    return Path(importlib.util.cache_from_source(__file__)).parent


def kept_tables(digest: str, names: Sequence[str], folder: Path | None = None) -> Tables | None:
    """The tables that were kept for files of this digest; None where there are none, or not of all these files.

    Parameters
    ----------
    digest : str
    names : sequence of str
        Names of the files.
    folder : Path, optional
        :func:`kept_folder` by default.
    """
    try:
        found = from_json(((folder or kept_folder()) / f"{_PREFIX}{digest}.json").read_bytes())
    except (OSError, ValueError):
        return None
    whole = isinstance(found, dict) and set(found) == set(names)
    return found if whole and all(isinstance(tables, dict) for tables in found.values()) else None


def keep_tables(digest: str, tables: Tables, folder: Path | None = None) -> None:
    """Keep tables that were read without a fault, and drop those of other files; does nothing where it cannot write."""
    if sys.dont_write_bytecode:
        return
    where = folder or kept_folder()
    with contextlib.suppress(OSError, ValueError, TypeError):
        where.mkdir(parents=True, exist_ok=True)
        write_whole(where / f"{_PREFIX}{digest}.json", json.dumps(tables, ensure_ascii=False).encode())
        for old in where.glob(f"{_PREFIX}*.json"):
            if old.name != f"{_PREFIX}{digest}.json":
                old.unlink(missing_ok=True)
