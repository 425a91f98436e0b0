"""Garden files: read, written, migrated; nothing overwritten that could not be read."""

from planner.storage.document import FileError, dump, garden_schema, parse
from planner.storage.file_state import GardenFile
from planner.storage.files import load, read, save

__all__ = ["FileError", "GardenFile", "dump", "garden_schema", "load", "parse", "read", "save"]
