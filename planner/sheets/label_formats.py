"""Sheets of labels: how many labels a sheet has, how large they are, and where they lie on it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from planner import resources
from planner.crops.reading import read_toml, refuse
from planner.errors import BedwrightError
from planner.sheets.page_chrome import PAPERS, Paper, UnknownPaperError, paper_named
from planner.words import join_list, say, say_count

#: How far labels may reach over the edge of their paper: sheets whose labels fill it are cut a little larger. [mm]
_OVER_EDGE = 0.5
#: The own geometry of a sheet: ``a4 3x8 70x37`` or ``a4 3x7 63.5x38.1 2.5x0``.
_OWN = re.compile(r"(\S+)\s+(\d+)x(\d+)\s+([\d.]+)x([\d.]+)(?:\s+([\d.]+)x([\d.]+))?")

Millimetres = Annotated[float, Field(ge=0, le=500)]


def plain_number(value: float) -> str:
    """A number of millimetres without an end of zeros."""
    return f"{value:g}"


class LabelFormatError(BedwrightError):
    """A sheet of labels that is not known, or that does not fit its paper."""


class LabelFormat(BaseModel):
    """A sheet of labels.

    Attributes
    ----------
    paper : str
        ``a4`` or ``letter``.
    across, down : int
        Labels beside and below each other.
    width, height : float
        Of a label. [mm]
    gap_across, gap_down : float
        Between labels. [mm]
    left, top : float or None
        From the edges of the paper to the first label; where None, the labels lie in its middle. [mm]
    strips : bool
        Whether they are cut from plain paper, along lines that are printed.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    paper: str
    across: int = Field(ge=1, le=50)
    down: int = Field(ge=1, le=100)
    width: float = Field(ge=15, le=300)
    height: float = Field(ge=8, le=300)
    gap_across: Millimetres = 0.0
    gap_down: Millimetres = 0.0
    left: Millimetres | None = None
    top: Millimetres | None = None
    strips: bool = False

    @property
    def on(self) -> Paper:
        """Its paper."""
        return paper_named(self.paper)

    @property
    def number(self) -> int:
        """Labels of a sheet."""
        return self.across * self.down

    @property
    def words(self) -> str:
        """What it is: ``24 labels of 70 x 37 mm on A4``."""
        wide, high, paper = plain_number(self.width), plain_number(self.height), self.on.name
        if self.strips:
            return say_count(
                "{count} strip of {wide} x {high} mm on {paper}",
                "{count} strips of {wide} x {high} mm on {paper}",
                self.number,
                wide=wide,
                high=high,
                paper=paper,
            )
        return say_count(
            "{count} label of {wide} x {high} mm on {paper}",
            "{count} labels of {wide} x {high} mm on {paper}",
            self.number,
            wide=wide,
            high=high,
            paper=paper,
        )

    @property
    def block(self) -> tuple[float, float]:
        """Width and height of all labels with their gaps. [mm]"""
        wide = self.across * self.width + (self.across - 1) * self.gap_across
        return wide, self.down * self.height + (self.down - 1) * self.gap_down

    def corner(self, number: int) -> tuple[float, float]:
        """The lower left corner of a label, counted from 0 along the rows, from the paper's lower left corner. [mm]"""
        paper, (wide, high) = self.on, self.block
        left = self.left if self.left is not None else (paper.width - wide) / 2
        top = self.top if self.top is not None else (paper.height - high) / 2
        row, column = divmod(number, self.across)
        x = left + column * (self.width + self.gap_across)
        return x, paper.height - top - (row + 1) * self.height - row * self.gap_down


@cache
def label_formats() -> Mapping[str, LabelFormat]:
    """The sheets of labels that are known, by their names."""
    faults: list[str] = []
    path = resources.resource("label_formats.toml")
    table = read_toml(path, faults)
    refuse(faults, path.parent)
    return {name: LabelFormat.model_validate(fields) for name, fields in table.items()}


def label_format(words: str) -> LabelFormat:
    """A sheet of labels by its name, or by its own measures.

    Parameters
    ----------
    words : str
        A name of :func:`label_formats`, or paper, labels across and down, width and height of one and, where there are
        any, the gaps, in millimetres: ``a4 3x7 63.5x38.1 2.5x0``.

    Raises
    ------
    LabelFormatError
        For anything else, and where the labels do not fit the paper.
    """
    known = label_formats()
    name = words.strip().casefold()
    if name in known:
        return known[name]
    own = _OWN.fullmatch(name)
    if own is None:
        raise LabelFormatError(
            say("no sheet of labels '{words}'", words=words),
            fix=say(
                "Choose {names}; or give its measures in millimetres, as 'a4 3x7 63.5x38.1 2.5x0': paper, labels across and"
                " down, size of one, gaps",
                names=join_list(known),
            ),
        )
    return _checked(own, words)


def _checked(own: re.Match[str], words: str) -> LabelFormat:
    paper, across, down, width, height, gap_across, gap_down = own.groups()
    try:
        found = LabelFormat(
            paper=paper,
            across=int(across),
            down=int(down),
            width=float(width),
            height=float(height),
            gap_across=float(gap_across or 0),
            gap_down=float(gap_down or 0),
        )
        wide, high = found.block
        fits = wide <= found.on.width + _OVER_EDGE and high <= found.on.height + _OVER_EDGE
    except (ValidationError, ValueError, UnknownPaperError):
        raise LabelFormatError(
            say("labels '{words}' cannot be printed", words=words),
            fix=say(
                "Give a paper ({papers}), and labels of 15 x 8 mm at the least",
                papers=join_list(sorted(PAPERS)),
            ),
        ) from None
    if not fits:
        raise LabelFormatError(
            say("labels '{words}' are larger than their paper", words=words),
            fix=say(
                "They take {wide} x {high} mm together: count and measure them again",
                wide=plain_number(wide),
                high=plain_number(high),
            ),
        )
    return found
