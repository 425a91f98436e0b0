"""The publications the figures come from."""

from __future__ import annotations

import re

from planner.crops.figures import Value
from planner.words import say

#: Author of a work whose copy shows none.
ANONYMOUS = "Anon."
#: Volume and page of a journal, as 109:183-195 or 14(3):e0213071.
_VOLUME = re.compile(r"\d+(\(\d+\))?:\w")
#: Initials behind a surname, and what stands in brackets there.
_INITIALS = re.compile(r"( [A-Z]{1,4})?( \(.*\))?$")


class Source(Value):
    """One publication.

    Attributes
    ----------
    title : str
        The title alone.
    author, agency : str
        Authors as "Lindgren DT; Browning SJ", "Anon." where the copy shows none; publisher, institution, or journal with
        volume and pages.  At least one of the two.
    year : int or None
        Year of publication.
    undated : bool
        It prints no year.
    uncertain : str
        What of its identity is not certain, as an author believed but not shown; empty where all is.
    read_in : str
        The transcription, copy or quotation in which it was read, in words and never as an address; empty where the
        publication itself was read.
    table : str
        Table, page, chapter or section that prints the figures.
    note : str
        Reservations about the figures (second hand, printing errors).

    Examples
    --------
    >>> guide = Source(
    ...     title="Vegetable Garden Seed Storage and Germination Requirements",
    ...     author="Lindgren DT; Browning SJ",
    ...     agency="University of Nebraska-Lincoln Extension, NebGuide G2090",
    ...     year=2011,
    ...     table="Tables I and II",
    ...     read_in="a transcription on GitHub",
    ... )
    >>> print(guide.citation)
    Lindgren DT; Browning SJ 2011. Vegetable Garden Seed Storage and Germination Requirements. University of \
Nebraska-Lincoln Extension, NebGuide G2090. Tables I and II. Read in a transcription on GitHub
    >>> guide.in_brief
    'University of Nebraska-Lincoln Extension 2011'
    >>> Source(title="Is it time to plant?", agency="Cornell University", undated=True).citation
    'Cornell University n.d. Is it time to plant?'
    >>> paper = Source(title="Temperature effects", author="Baker JT; Reddy VR", agency="Ann. Bot. 87:605-613", year=2001)
    >>> paper.in_brief
    'Baker and Reddy 2001'
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
        """Who published it and when: publisher, or authors of a paper or book, and year; the title where neither is known."""
        paper = self.author and (not self.agency or _VOLUME.search(self.agency))
        who = self._authors_in_brief if paper else self._publisher
        who = who or self.title
        return f"{who} {self.year}" if self.year and f"{self.year}" not in who else who

    @property
    def _authors_in_brief(self) -> str:
        """Surnames of the authors; empty of a work whose copy shows none."""
        listed = self.author.removesuffix(" et al.")
        names = [_INITIALS.sub("", name) for name in listed.split("; ") if name != ANONYMOUS]
        if len(names) > 2 or listed != self.author:
            return say("{name} and others", name=names[0])
        return say("{names} and {last}", names=names[0], last=names[1]) if len(names) == 2 else "".join(names)

    @property
    def _publisher(self) -> str:
        """The agency without number and date of the publication."""
        name, _, rest = self.agency.partition(", ")
        return name if re.search(r"\d", rest) else self.agency

    @property
    def citation(self) -> str:
        """Citation in one line: author or agency, year or n.d., title, agency, table, where it was read, what is uncertain."""
        year = f"{self.year}" if self.year else say("n.d.") if self.undated else ""
        who = self.author or self.agency
        if year in who.split():  # of a newspaper that is known by its day
            year = ""
        parts = [
            " ".join(part for part in (who, year) if part),
            self.title,
            self.agency if self.author else "",
            self.table,
            say("Read in {place}", place=self.read_in) if self.read_in else "",
            say("Uncertain: {what}", what=self.uncertain) if self.uncertain else "",
        ]
        line = ""
        for part in filter(None, parts):
            line += f"{'' if not line else ' ' if line.endswith(('.', '?', '!')) else '. '}{part}"
        return line
