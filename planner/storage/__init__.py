"""Garden files: read, written, migrated; nothing overwritten that could not be read."""

from planner.storage.document import FileError, dump, garden_schema, parse
from planner.storage.files import load, save

__all__ = ["FileError", "dump", "garden_schema", "load", "parse", "save"]
