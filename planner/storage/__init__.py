"""Garden files: read, written, migrated; nothing overwritten that could not be read."""

from planner.storage.document import dump, garden_schema, parse
from planner.storage.file_error import FileError
from planner.storage.file_state import ChangedOnDiskError, GardenFile
from planner.storage.files import load, read, read_content, save

__all__ = [
    "ChangedOnDiskError",
    "FileError",
    "GardenFile",
    "dump",
    "garden_schema",
    "load",
    "parse",
    "read",
    "read_content",
    "save",
]
