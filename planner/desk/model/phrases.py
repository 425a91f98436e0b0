"""Phrases that many parts of the window use."""

from __future__ import annotations

from pathlib import Path


def many(number: int, word: str) -> str:
    """A number with its word: ``1 bed``, ``2 beds``."""
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def with_variety(name: str, variety: str) -> str:
    """A crop with its variety, where it has one: ``Carrot ‘Nantes’``."""
    return f"{name} ‘{variety}’" if variety else name


def cannot_be_written(path: Path | str, error: OSError) -> str:
    """A file that cannot be written, why, and what to do."""
    return f"{path} cannot be written: {error.strerror}. Choose another name or folder."
