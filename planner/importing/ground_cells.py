"""Cells of a table of beds and plantings: lengths, days, years, ways to start."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from typing import Any, get_args

from planner.crops import Catalogue
from planner.garden import Garden, Rectangle
from planner.garden.beds import BedKind
from planner.garden.edits import checked
from planner.garden.planting import Start
from planner.garden.units import LengthError, month_first, parse_length
from planner.importing.ground_columns import SMALL_LENGTHS
from planner.importing.stock_cells import CellError, crop_of_cell
from planner.season.spans import growing_year, year_span
from planner.words import join_list, say
from planner.words.typed_days import YEARS, DayError, date_as_typed

#: Other words for ways to start.
_STARTS = {
    "direct": "sown", "direct sown": "sown", "seed": "sown", "transplant": "raised", "transplanted": "raised", "plants": "bought",
    "plugs": "bought", "bought in": "bought", "direktsaat": "sown", "gesät": "sown", "saat": "sown", "aussaat": "sown",
    "vorkultur": "raised", "vorgezogen": "raised", "voranzucht": "raised", "jungpflanzen": "bought", "gekauft": "bought",
    "knollen": "tubers", "zehen": "cloves", "steckzwiebeln": "sets",
}  # fmt: skip

#: German words for kinds of beds.
_BED_KINDS = {
    "offen": "open", "freiland": "open", "hochbeet": "raised", "kübel": "container", "kasten": "container", "topf": "container",
    "unter glas": "under glass", "gewächshaus": "under glass",
}  # fmt: skip


class RowCells:
    """The cells of a row by column, and how they are read in a garden.

    Parameters
    ----------
    given : mapping of str to str
        What is missing is left out or empty.
    units : mapping of str to str
        Units that headings name, by column.
    garden : Garden
        For its units, and for the order of day and month.
    catalogue : Catalogue
    year : int
        Growing year of a planting that says none.
    """

    def __init__(
        self,
        given: Mapping[str, str],
        units: Mapping[str, str],
        garden: Garden,
        catalogue: Catalogue,
        year: int,
    ) -> None:
        self._given, self._units = given, units
        self._garden, self._catalogue, self._year = garden, catalogue, year
        self.notes: list[str] = []

    def text(self, column: str) -> str:
        """The text of a cell; empty where there is none."""
        return self._given.get(column, "")

    def length(self, column: str) -> float | None:
        """A length; None where none is given. [m]"""
        text = self.text(column)
        if not text:
            return None
        unit = self._units.get(column, "")
        typed = f"{text} {unit}" if unit and re.fullmatch(r"[-+−\d.,/ ]+", text) else text
        try:
            return parse_length(typed, self._garden.site.units, small=column in SMALL_LENGTHS)
        except LengthError as error:
            raise CellError(error.what, fix=error.fix) from None

    def whole(self, column: str) -> int | None:
        """A whole number; None where none is given."""
        text = self.text(column)
        if not text:
            return None
        if not text.isascii() or not text.isdigit():
            raise CellError(say("'{text}' is no whole number", text=text), fix=say("Write one such as 4"))
        return int(text)

    def rectangle(self, middle: tuple[float, float]) -> Rectangle | None:
        """Outline of a bed about a middle, where the row gives none itself; None where it has no size.

        Parameters
        ----------
        middle : tuple of float
            [m]
        """
        length, width = self.length("length"), self.length("width")
        if length is None and width is None:
            return None
        if length is None or width is None:
            raise CellError(say("a bed needs a length and a width"), fix=say("Write both, or neither"))
        x, y = self.length("x"), self.length("y")
        center = middle if x is None or y is None else (x, y)
        turn = self.text("turn").removesuffix("°").strip().replace(",", ".")
        try:
            degrees = float(turn or 0)
        except ValueError:
            raise CellError(
                say("'{text}' is no angle", text=turn), fix=say("Write degrees, such as 30")
            ) from None
        return checked(
            lambda: Rectangle(center=center, length=length, width=width, turn=degrees), self.text("bed")
        )

    @property
    def has_place(self) -> bool:
        """Whether the row says where its bed lies."""
        return bool(self.text("x") and self.text("y"))

    def bed_kind(self) -> dict[str, Any]:
        """The field of a bed's kind, where it is given."""
        text = self.text("bed kind").casefold()
        text = _BED_KINDS.get(text, text)
        if not text:
            return {}
        kinds = get_args(BedKind)
        if text not in kinds:
            raise CellError(
                say("'{text}' is no kind of bed", text=text),
                fix=say("Kinds are {kinds}", kinds=join_list(kinds)),
            )
        return {"kind": text}

    def planting(self) -> dict[str, Any]:
        """Fields of the planting, without its bed, plot and arrangement.

        Raises
        ------
        CellError
            For the first cell that is not understood.
        """
        crop = crop_of_cell(self.text("crop"), self._catalogue, self.notes)
        days = {column: self._day(column) for column in ("sown", "set out", "first harvest", "last")}
        known = [day for day in (days["set out"], days["sown"], days["first harvest"]) if day is not None]
        fields: dict[str, Any] = {
            "crop": crop,
            "variety": self.text("variety"),
            "year": self._growing_year(known[0] if known else None),
            "tended_by": self.text("tended by"),
            "notes": self.text("notes"),
            "last": days["last"],
        }
        pins = {"sow": days["sown"], "set_out": days["set out"], "first_harvest": days["first harvest"]}
        fields["pinned_dates"] = {name: day for name, day in pins.items() if day is not None}
        start = self._start(sown=days["sown"] is not None, set_out=days["set out"] is not None)
        if start:
            fields["start"] = start
        return fields

    def _day(self, column: str) -> dt.date | None:
        text = self.text(column)
        if not text:
            return None
        site = self._garden.site
        begins = year_span(site, self.whole("year") or self._year).first
        try:
            return date_as_typed(text, begins, month_first=month_first(site.units))
        except DayError as error:
            raise CellError(error.what, fix=error.fix) from None

    def _growing_year(self, day: dt.date | None) -> int:
        year = self.whole("year")
        if year is not None:
            if not YEARS[0] <= year <= YEARS[1]:
                raise CellError(
                    say("{year} is no year of a garden", year=year),
                    fix=say("Take one from {first} to {last}", first=YEARS[0], last=YEARS[1]),
                )
            return year
        return self._year if day is None else growing_year(self._garden.site, day)

    def _start(self, *, sown: bool, set_out: bool) -> str:
        """How the planting starts: as written, else raised where it is sown and set out; empty for the usual way."""
        text = self.text("start").casefold()
        text = _STARTS.get(text, text)
        if text and text not in get_args(Start):
            raise CellError(
                say("'{text}' is no way to start a planting", text=text),
                fix=say("Write one of {ways}", ways=join_list(get_args(Start))),
            )
        return text or ("raised" if sown and set_out else "")
