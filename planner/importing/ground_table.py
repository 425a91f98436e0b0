"""Beds and plantings from a table: a preview row by row first, the garden with them afterwards.

A row names a bed.  With a length and a width it makes the bed, where there is none of the name; with a crop it makes a
planting in it; it may do both.  Beds without a place on the plan are laid out to the right of what is there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import shapely

from planner.crops import Catalogue
from planner.garden import Bed, Garden, Planting, Rectangle
from planner.garden.arrangements import Rows
from planner.garden.edits import EditError, checked, fresh_id
from planner.garden.edits.common import put
from planner.garden.named_beds import beds_called
from planner.garden.own_catalogue import own_catalogue
from planner.garden.planting_figures import figures_of
from planner.garden.plots import Plot, Stretch, Whole
from planner.ground.bed_spacing import usual_arrangement
from planner.ground.shapes import plan_polygon
from planner.importing.beside import beside
from planner.importing.delimited_text import Record
from planner.importing.ground_cells import RowCells
from planner.importing.ground_columns import Column, chosen_columns, column_of
from planner.importing.stock_cells import CellError, unguarded
from planner.importing.table_text import QUOTES, TableError, rows_below, table_records, too_many_cells
from planner.importing.workbook_rows import is_workbook, workbook_records
from planner.words import say

#: Most rows that are read.
MOST_ROWS = 10_000
#: Gap between beds that are laid out. [m]
_GAP = 1.0
#: Beds are laid out below each other until they take so much. [m]
_MOST_DOWN = 20.0


@dataclass(frozen=True)
class Row:
    """One row of the table.

    Attributes
    ----------
    line : int
        Line of the file, or row of the sheet, from 1.
    bed : Bed or None
        The bed that it makes.
    planting : Planting or None
        The planting that it makes.
    error, mend : str
        What is wrong, and what to do; empty for a good row.
    notes : tuple of str
        How it was understood, where that may not be what was meant.
    """

    line: int
    bed: Bed | None = None
    planting: Planting | None = None
    error: str = ""
    mend: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class GroundPreview:
    """What taking a table in would do.

    Attributes
    ----------
    columns : tuple of Column
        The headings, and what they are taken for.
    rows : tuple of Row
        In the table's order; empty rows are left out.
    """

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    @property
    def beds(self) -> tuple[Bed, ...]:
        """Beds that would be made."""
        return tuple(row.bed for row in self.rows if row.bed is not None)

    @property
    def plantings(self) -> tuple[Planting, ...]:
        """Plantings that would be made."""
        return tuple(row.planting for row in self.rows if row.planting is not None)

    @property
    def bad(self) -> tuple[Row, ...]:
        """Rows that could not be read."""
        return tuple(row for row in self.rows if row.error)


def preview(
    data: bytes,
    garden: Garden,
    catalogue: Catalogue,
    year: int,
    choice: Mapping[str, str] | None = None,
    sheet: str = "",
) -> GroundPreview:
    """Read a table of beds and plantings, row by row, without changing anything.

    Parameters
    ----------
    data : bytes
        Content of a CSV file or a workbook (XLSX).
    garden : Garden
        For its beds and units.
    catalogue : Catalogue
    year : int
        Growing year of plantings that say neither year nor day.
    choice : mapping of str to str, optional
        Columns by heading, for headings whose words do not say what they mean.
    sheet : str
        Of a workbook; the first where empty.

    Raises
    ------
    TableError
        Where the file is no table, is too large, or no heading means the bed.
    """
    choice = choice or {}
    found = ground_records(data, choice, sheet)
    columns = chosen_columns(found[0].cells, choice)
    reader = _Reader(garden, own_catalogue(catalogue, garden), year, columns)
    return GroundPreview(columns, tuple(reader.row(record) for record in rows_below(found, MOST_ROWS)))


def ground_records(data: bytes, choice: Mapping[str, str], sheet: str = "") -> list[Record]:
    """The records of a table of beds and plantings, the headings first.

    Parameters
    ----------
    data : bytes
        Content of a CSV file or a workbook (XLSX).
    choice : mapping of str to str
        Columns by heading: headings that are chosen are known, and so tell what separates them.
    sheet : str
        Of a workbook; the first where empty.

    Raises
    ------
    TableError
        Where the file is no table, or is too large.
    """
    if is_workbook(data):
        _, found = workbook_records(data, sheet)
        if not found:
            raise TableError(say("the sheet is empty"), fix=say("Choose another sheet"))
        return found
    chosen = {heading.strip().casefold() for heading in choice}
    _, _, found = table_records(
        data,
        lambda cell: bool(column_of(cell).means) or cell.strip().casefold() in chosen,
        "bed, length, width, crop",
    )
    return found


def take(garden: Garden, found: GroundPreview) -> Garden:
    """The garden with all that a preview makes: one edit.

    Parameters
    ----------
    garden : Garden
        That of the preview.
    found : GroundPreview

    Returns
    -------
    Garden
        The very same garden where no row is good.
    """
    if not found.beds and not found.plantings:
        return garden
    return put(garden, beds=(*garden.beds, *found.beds), plantings=(*garden.plantings, *found.plantings))


class _Reader:
    """Reads rows one after another: beds of earlier rows are there for later ones."""

    def __init__(self, garden: Garden, catalogue: Catalogue, year: int, columns: tuple[Column, ...]) -> None:
        self._garden, self._catalogue, self._year, self._columns = garden, catalogue, year, columns
        self._beds = list(garden.beds)
        self._next_bed, self._next_planting = (int(fresh_id(garden, letter)[1:]) for letter in "bp")
        self._present = {_content(planting) for planting in garden.plantings}
        self._left, self._top = beside(garden)
        self._used, self._widest = 0.0, 0.0

    def row(self, record: Record) -> Row:
        """What a record makes."""
        line = record.line
        if record.fault:
            return Row(line, error=record.fault, mend=say(QUOTES))
        if (wrong := too_many_cells(record, len(self._columns))) is not None:
            return Row(line, error=wrong[0], mend=wrong[1])
        given = {
            column.means: unguarded(cell.strip())
            for column, cell in zip(self._columns, record.cells, strict=False)
            if column.means
        }
        units = {column.means: column.unit for column in self._columns if column.unit}
        cells = RowCells(given, units, self._garden, self._catalogue, self._year)
        try:
            return self._made(line, cells)
        except (CellError, EditError) as fault:
            return Row(line, error=fault.what, mend=fault.fix or say("Change the cell"))

    def _made(self, line: int, cells: RowCells) -> Row:
        name = cells.text("bed")
        if not name:
            raise CellError(say("no bed is named"), fix=say("Write the name of a bed"))
        there = beds_called(self._beds, name)
        if len(there) > 1:
            raise CellError(
                say("several beds are called '{name}'", name=name), fix=say("Write the id of one of them")
            )
        outline = cells.rectangle((0.0, 0.0))
        made = None
        if there:
            bed = there[0]
            if outline is not None and not _same_size(bed, outline):
                cells.notes.append(say("{bed} is there already and keeps its size", bed=bed.name))
        elif outline is None:
            raise CellError(
                say("there is no bed '{name}'", name=name),
                fix=say("Write its length and width too, or draw it first"),
            )
        else:
            bed = made = checked(
                lambda: Bed(id=f"b{self._next_bed}", name=name, outline=outline, **cells.bed_kind()), name
            )
        planting = self._planting(bed, cells) if cells.text("crop") else None
        if made is not None:
            made = self._placed(made, has_place=cells.has_place)
        if planting is not None:
            self._next_planting += 1
            self._present.add(_content(planting))
        return Row(line, made, planting, notes=tuple(cells.notes))

    def _placed(self, bed: Bed, *, has_place: bool) -> Bed:
        """A new bed at its place on the plan: where its row says, else below the last, or in a new column."""
        self._next_bed += 1
        if not has_place:
            left, low, right, high = (float(v) for v in shapely.bounds(plan_polygon(bed.outline)))
            if self._used and self._used + high - low > _MOST_DOWN:
                self._left, self._used, self._widest = self._left + self._widest + _GAP, 0.0, 0.0
            middle = (self._left + (right - left) / 2, self._top - self._used - (high - low) / 2)
            center = (round(middle[0], 6), round(middle[1], 6))
            bed = bed.with_(outline=bed.outline.with_(center=center))
            self._used += high - low + _GAP
            self._widest = max(self._widest, right - left)
        self._beds.append(bed)
        return bed

    def _planting(self, bed: Bed, cells: RowCells) -> Planting:
        fields = cells.planting()
        plot = _plot(cells)
        key = f"p{self._next_planting}"
        planting = checked(lambda: Planting(id=key, bed=bed.id, plot=plot, **fields), bed.name)
        apart, rows_apart, rows = cells.length("spacing"), cells.length("row spacing"), cells.whole("rows")
        if apart is None and rows_apart is None and rows is None:
            arrangement = usual_arrangement(bed, figures_of(self._garden, self._catalogue, planting))
        else:
            arrangement = checked(
                lambda: Rows(in_row_spacing=apart, row_spacing=rows_apart, rows=rows), bed.name
            )
        if _content(planting) in self._present:
            cells.notes.append(say("there is such a planting already; it would stand there twice"))
        return planting.with_(arrangement=arrangement)


def _plot(cells: RowCells) -> Plot:
    """The whole bed, or a stretch of it."""
    begin, end = cells.length("from"), cells.length("to")
    if begin is None and end is None:
        return Whole()
    if begin is None or end is None:
        raise CellError(say("a stretch of a bed needs both its ends"), fix=say("Write both, or neither"))
    return checked(lambda: Stretch(start=begin, end=end), "")


def _same_size(bed: Bed, outline: Rectangle) -> bool:
    """Whether a bed is a rectangle of a size, to a centimetre."""
    if bed.outline.shape != "rectangle":
        return False
    there, given = (sorted((one.length, one.width)) for one in (bed.outline, outline))
    return all(abs(a - b) < 0.01 for a, b in zip(there, given, strict=True))


def _content(planting: Planting) -> object:
    """What tells one planting from another."""
    return (planting.bed, planting.crop, planting.variety.casefold(), planting.year, planting.plot)
