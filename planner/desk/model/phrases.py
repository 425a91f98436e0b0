"""Phrases that many parts of the window use."""

from __future__ import annotations

from pathlib import Path

from planner.words import say, say_count


def beds_words(count: int) -> str:
    """``1 bed``, ``2 beds``."""
    return say_count("{count} bed", "{count} beds", count)


def plantings_words(count: int) -> str:
    """``1 planting``, ``2 plantings``."""
    return say_count("{count} planting", "{count} plantings", count)


def structures_words(count: int) -> str:
    """``1 structure``, ``2 structures``."""
    return say_count("{count} structure", "{count} structures", count)


def plants_words(count: int) -> str:
    """``1 plant``, ``2 plants``."""
    return say_count("{count} plant", "{count} plants", count)


def rows_words(count: int) -> str:
    """``1 row``, ``2 rows``."""
    return say_count("{count} row", "{count} rows", count)


def with_variety(name: str, variety: str) -> str:
    """A crop with its variety, where it has one: ``Carrot ‘Nantes’``."""
    return say("{crop} ‘{variety}’", crop=name, variety=variety) if variety else name


def cannot_be_written(path: Path | str, error: OSError) -> str:
    """A file that cannot be written, why, and what to do."""
    return say(
        "{file} cannot be written: {why}. Choose another name or folder.", file=str(path), why=error.strerror
    )
