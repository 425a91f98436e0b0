"""A file that brings beds, plantings or outlines, whatever its kind: what it says of itself, what it would bring, and taking it.

The window and ``bedwright take`` both go through here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import PurePath
from typing import Literal

from planner.crops import Catalogue
from planner.garden import Bed, Garden, Planting, Structure
from planner.importing import ground_table, outlines
from planner.importing.delimited_text import Record
from planner.importing.dxf_shapes import DxfDrawing
from planner.importing.ground_columns import column_of
from planner.importing.ground_table import GroundPreview, Row
from planner.importing.outlines import BED, OutlinePreview, OutlineRow
from planner.importing.table_text import MOST_BYTES
from planner.importing.workbook_rows import is_workbook, workbook_sheets
from planner.plain_file import open_plain
from planner.words import join_list, say, say_count

FileKind = Literal["table", "svg", "dxf", "map"]
Preview = GroundPreview | OutlinePreview
#: Endings of the files, by what they are; all else is a table.
ENDINGS: dict[FileKind, tuple[str, ...]] = {
    "table": (".csv", ".tsv", ".txt", ".xlsx"),
    "svg": (".svg",),
    "dxf": (".dxf",),
    "map": (".geojson", ".json"),
}
#: Metres of the units that the numbers of a drawing may be in.
UNITS = {"m": 1.0, "cm": 0.01, "mm": 0.001, "ft": 0.3048, "in": 0.0254}


@dataclass(frozen=True)
class Wishes:
    """How a file is to be read; what does not concern its kind is passed over.

    Attributes
    ----------
    year : int
        Growing year of plantings that say neither year nor day.
    columns : mapping of str to str
        Columns of a table by heading; an empty one passes its heading over.
    sheet : str
        Of a workbook; the first where empty.
    kind : str
        What outlines become: ``bed``, or the kind of a structure.
    unit : float or None
        Ground of one unit of a drawing. [m]
    scale : float or None
        One on paper to so many on the ground.
    """

    year: int
    columns: Mapping[str, str] = field(default_factory=dict)
    sheet: str = ""
    kind: str = BED
    unit: float | None = None
    scale: float | None = None


@dataclass(frozen=True)
class Heading:
    """A heading of a table.

    Attributes
    ----------
    text : str
        As it is written.
    means : str
        The column that its words mean; empty for none.
    first : str
        The first cell below it that holds anything.
    """

    text: str
    means: str
    first: str


class TakenFile:
    """A file that was opened.

    Parameters
    ----------
    path : str
    data : bytes
        Its content.

    Attributes
    ----------
    kind : {"table", "svg", "dxf", "map"}
        By its ending.
    sheets : tuple of str
        Of a workbook.

    Raises
    ------
    TableError
        Where a workbook or a DXF cannot be read at all.
    """

    def __init__(self, path: str, data: bytes) -> None:
        self.path, self._data = path, data
        self.kind = file_kind(path)
        self._drawing = DxfDrawing(data) if self.kind == "dxf" else None
        self.sheets = workbook_sheets(data) if self.kind == "table" and is_workbook(data) else ()

    @property
    def unit(self) -> float | None:
        """Metres of the unit that a DXF names; None for all else."""
        return self._drawing.unit if self._drawing is not None else None

    def headings(self, sheet: str = "") -> tuple[Heading, ...]:
        """The headings of a table, each once.

        Parameters
        ----------
        sheet : str
            Of a workbook; the first where empty.

        Raises
        ------
        TableError
            Where it is no table.
        """
        head, *below = ground_table.ground_records(self._data, {}, sheet)
        found: dict[str, Heading] = {}
        for number, text in enumerate(head.cells):
            if text.strip():
                heading = Heading(text.strip(), column_of(text).means, _first(below, number))
                found.setdefault(text.strip().casefold(), heading)
        return tuple(found.values())

    def preview(self, garden: Garden, catalogue: Catalogue, wishes: Wishes) -> Preview:
        """What taking it would do, without changing anything.

        Parameters
        ----------
        garden : Garden
        catalogue : Catalogue
        wishes : Wishes

        Raises
        ------
        BedwrightError
            Where it cannot be read so.
        """
        if self.kind == "map":
            return outlines.preview_geojson(self._data, garden, wishes.kind)
        if self._drawing is not None:
            return outlines.preview_dxf(self._drawing, garden, wishes.kind, unit=wishes.unit)
        if self.kind == "svg":
            return outlines.preview_svg(self._data, garden, wishes.kind, unit=wishes.unit, scale=wishes.scale)
        return ground_table.preview(self._data, garden, catalogue, wishes.year, wishes.columns, wishes.sheet)


def file_kind(path: str) -> FileKind:
    """What a file is, by its ending.

    Examples
    --------
    >>> file_kind("a/plan.DXF"), file_kind("beds")
    ('dxf', 'table')
    """
    ending = PurePath(path).suffix.casefold()
    return next((kind for kind, endings in ENDINGS.items() if ending in endings), "table")


def open_taken(path: str) -> TakenFile:
    """Open a file, of a large one no more than is refused.

    Raises
    ------
    OSError
        Where it cannot be read.
    TableError
        Where it cannot be read as what its ending says.
    """
    with open_plain(path) as file:
        return TakenFile(path, file.read(MOST_BYTES + 1))


def take_preview(garden: Garden, found: Preview) -> Garden:
    """The garden with all that a preview makes: one edit.

    Parameters
    ----------
    garden : Garden
        That of the preview.
    found : GroundPreview or OutlinePreview

    Returns
    -------
    Garden
        The very same garden where nothing can be taken.
    """
    if isinstance(found, GroundPreview):
        return ground_table.take(garden, found)
    return outlines.take_outlines(garden, found)


def made_words(found: Preview) -> str:
    """What a preview makes, in words: ``2 beds and 5 plantings``; empty for nothing."""
    if isinstance(found, GroundPreview):
        beds, plantings, structures = len(found.beds), len(found.plantings), 0
    else:
        beds, plantings, structures = len(found.beds), 0, len(found.structures)
    parts = (
        say_count("{count} bed", "{count} beds", beds) if beds else "",
        say_count("{count} planting", "{count} plantings", plantings) if plantings else "",
        say_count("{count} structure", "{count} structures", structures) if structures else "",
    )
    return join_list(part for part in parts if part)


def lost_words(found: Preview) -> str:
    """How much of a file could not be read, in words; empty where all could."""
    lost = len(found.bad) if isinstance(found, GroundPreview) else found.lost
    return say_count("{count} could not be read", "{count} could not be read", lost) if lost else ""


def row_lines(found: Preview) -> Iterator[str]:
    """Lines about rows and shapes that could not be read, and about how others were understood."""
    for row in found.rows:
        yield from _row_lines(row, (_wrong(row), *row.notes))


def lost_lines(found: Preview) -> Iterator[str]:
    """Lines about rows and shapes that could not be read."""
    for row in found.bad:
        yield from _row_lines(row, (_wrong(row),))


def things_of(row: Row | OutlineRow) -> tuple[Bed | Structure | Planting, ...]:
    """What a row makes: a bed, a planting, both, or a structure."""
    made = (row.bed, row.planting) if isinstance(row, Row) else (row.made,)
    return tuple(one for one in made if one is not None)


def place_of(row: Row | OutlineRow) -> str:
    """Where in the file a row is, in words."""
    return say("line {line}", line=row.line) if isinstance(row, Row) else row.where


def _row_lines(row: Row | OutlineRow, words: Iterable[str]) -> Iterator[str]:
    for what in words:
        if what:
            yield say("{where}: {what}", where=place_of(row), what=what)


def _wrong(row: Row | OutlineRow) -> str:
    """Why a row could not be read, and what to do; empty for one that could."""
    parts = (row.error, row.mend) if isinstance(row, Row) else (row.error,)
    return " ".join(_ended(part) for part in parts if part)


def _ended(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else f"{sentence}."


def _first(records: list[Record], number: int) -> str:
    cells = (record.cells[number].strip() for record in records if number < len(record.cells))
    return next((cell for cell in cells if cell), "")
