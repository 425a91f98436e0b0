"""Garden files: read, written, migrated; nothing overwritten that could not be read."""

from planner.storage.files import FileError, dump, garden_schema, load, parse, save

__all__ = ["FileError", "dump", "garden_schema", "load", "parse", "save"]
