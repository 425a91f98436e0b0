"""Notes on growing years."""

from __future__ import annotations

from planner.garden.edits.common import checked, put
from planner.garden.garden import Garden, YearNote


def put_year_note(garden: Garden, year: int, text: str) -> Garden:
    """Write the note on a growing year anew; an empty one goes.

    Several notes on a year, as of gardens that were joined, become one.

    Parameters
    ----------
    garden : Garden
    year : int
        The growing year.
    text : str

    Raises
    ------
    EditError
        Where it is too long, or the year is none.
    """
    if text.strip() == year_note(garden, year):
        return garden
    others = tuple(note for note in garden.notes if note.year != year)
    if not text.strip():
        return put(garden, notes=others)
    new = checked(lambda: YearNote(year=year, text=text.strip()), f"{year}")
    return put(garden, notes=tuple(sorted((*others, new), key=lambda note: note.year)))


def year_note(garden: Garden, year: int) -> str:
    """The note on a growing year; empty where there is none."""
    return "\n".join(note.text for note in garden.notes if note.year == year)
