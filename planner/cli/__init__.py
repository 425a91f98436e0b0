"""The command line: one file a command."""

from planner.cli.command_line import main

__all__ = ["main"]
