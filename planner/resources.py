"""Paths of the files that ship with the program.

In a checkout they are in the folders ``resources/`` and ``sample_gardens/`` beside the package, in an installed
wheel in the same folders inside it.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


@cache
def _folder(name: str) -> Path:
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def resource(*parts: str) -> Path:
    """Path of a file or folder below ``resources/``."""
    return _folder("resources").joinpath(*parts)


def sample_folder() -> Path:
    """Folder of the sample gardens."""
    return _folder("sample_gardens")
