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
    undated : bool
        It prints no year.
    uncertain : str
        What of its identity is not certain, as an author believed but not shown; empty where all is.
    read_in : str
        The transcription, copy or quotation in which it was read; empty where the publication itself was read.
    table : str
        Table, page or section that prints the figures.
    note : str
        Reservations about the figures (second hand, printing errors).
    """

    title: str
    author: str = ""
    agency: str = ""
    year: int | None = None
    undated: bool = False
    uncertain: str = ""
    read_in: str = ""
    table: str = ""
    note: str = ""

    @property
    def in_brief(self) -> str:
        """Who published it and when: publisher or author and year; the title where neither is known."""
        who = self.agency or self.author or self.title
        return f"{who} {self.year}" if self.year and f"{self.year}" not in who else who

    @property
    def citation(self) -> str:
        """Citation in one line: author, year, title, agency, table."""
        year = f"{self.year}" if self.year else ""
        head = " ".join(part for part in (self.author, year) if part)
        parts = [head, self.title, self.agency, self.table]
        return ". ".join(part for part in parts if part)
