"""The publications the figures come from."""

from __future__ import annotations

from planner.crops.figures import Value


class Source(Value):
    """One publication, or one of the two keys that are none (``practice``, ``estimate``).

    Attributes
    ----------
    title : str
        Title, with table or page where one was used.
    author, agency : str
        Who wrote it, who published it.
    year : int or None
        Year of publication.
    table : str
        Table, page or section the figures stand in.
    note : str
        Anything a reader of the figures must know (second hand, printing errors).
    """

    title: str
    author: str = ""
    agency: str = ""
    year: int | None = None
    table: str = ""
    note: str = ""

    @property
    def citation(self) -> str:
        """One line: author, year, title, agency, table."""
        year = f"{self.year}" if self.year else ""
        head = " ".join(part for part in (self.author, year) if part)
        parts = [head, self.title, self.agency, self.table]
        return ". ".join(part for part in parts if part)
