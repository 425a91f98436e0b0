"""The publications the figures come from."""

from __future__ import annotations

from planner.crops.figures import Value


class Source(Value):
    """One publication.

    Attributes
    ----------
    title : str
        Title, with table or page where one was used.
    author, agency : str
        Author and publisher.
    year : int or None
        Year of publication.
    table : str
        Table, page or section that prints the figures.
    note : str
        Reservations about the figures (second hand, printing errors).
    """

    title: str
    author: str = ""
    agency: str = ""
    year: int | None = None
    table: str = ""
    note: str = ""

    @property
    def citation(self) -> str:
        """Citation in one line: author, year, title, agency, table."""
        year = f"{self.year}" if self.year else ""
        head = " ".join(part for part in (self.author, year) if part)
        parts = [head, self.title, self.agency, self.table]
        return ". ".join(part for part in parts if part)
