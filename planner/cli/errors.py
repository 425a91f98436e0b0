"""Errors of the command line itself."""

from __future__ import annotations

from planner.errors import BedwrightError


class UsageError(BedwrightError):
    """A command line that is not understood, or cannot be carried out."""


class OutputError(BedwrightError):
    """Output that cannot be written."""
