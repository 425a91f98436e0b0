"""The error of garden files."""

from __future__ import annotations

from planner.errors import BedwrightError


class FileError(BedwrightError):
    """A garden file that cannot be read or written."""
