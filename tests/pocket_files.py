"""Files of notes as the pocket page saves them, for tests."""

from __future__ import annotations

import json
from typing import Any

from planner.garden import Garden
from planner.garden.pocket_notes import NOTES_FORMAT, NOTES_VERSION, garden_key


def note_id(number: int) -> str:
    """An id such as the page makes."""
    return f"note-{number:032x}"


def note(number: int, kind: str, day: str, **fields: Any) -> dict[str, Any]:
    """A note as the page writes it."""
    return {"id": note_id(number), "kind": kind, "day": day, **fields}


def notes_content(document: Garden, /, *notes: Any, **fields: Any) -> dict[str, Any]:
    """A file's content."""
    of = {"key": garden_key(document.site), "name": document.site.name}
    return {"format": NOTES_FORMAT, "version": NOTES_VERSION, "garden": of, "notes": list(notes), **fields}


def notes_data(document: Garden, /, *notes: Any, **fields: Any) -> bytes:
    """A file of notes."""
    return json.dumps(notes_content(document, *notes, **fields)).encode()
