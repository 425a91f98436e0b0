"""Tables as files and as text: amounts by planting, CSV, aligned columns."""

from __future__ import annotations

import csv
import io
import unicodedata
from collections.abc import Collection, Iterable, Mapping, Sequence

from planner.amounts import Amount

#: What a spreadsheet takes for the beginning of a formula.
_FORMULA = tuple("=+-@|%＝＋－＠")

#: Columns of :func:`amount_rows`.
AMOUNT_COLUMNS = (
    "bed", "bed_id", "planting_id", "year", "crop", "crop_name", "variety", "start", "sowing", "plants",
    "rows", "seeds_per_station", "thinned_from", "seeds", "seed_grams", "raise", "acquire", "germination",
    "area_m2", "missing", "problem",
)  # fmt: skip


def amount_rows(parts: Iterable[Amount]) -> list[dict[str, object]]:
    """Amounts, one mapping a planting, ready for JSON or CSV.

    Names of columns carry their unit. ``crop`` is the key as the garden file has it, ``crop_name``
    the name shown; None stands for what is not known, and ``missing`` says why.
    """
    return [
        {
            "bed": part.bed.name,
            "bed_id": part.bed.id,
            "planting_id": part.planting.id,
            "year": part.planting.year,
            "crop": part.planting.crop,
            "crop_name": part.crop,
            "variety": part.variety,
            "start": part.start,
            "sowing": part.sowing,
            "plants": part.plants,
            "rows": part.rows,
            "seeds_per_station": part.seeds_per_station,
            "thinned_from": part.thinned_from,
            "seeds": part.seeds,
            "seed_grams": part.seed_grams,
            "raise": part.raise_,
            "acquire": part.acquire,
            "germination": part.germination,
            "area_m2": round(part.area, 9),
            "missing": list(part.missing),
            "problem": part.problem,
        }
        for part in parts
    ]


def csv_text(rows: Sequence[Mapping[str, object]], columns: Sequence[str]) -> str:
    """A table after RFC 4180: a header, commas, CR LF; no cell a spreadsheet would compute.

    Parameters
    ----------
    rows : sequence of mappings
        By column. Lists are joined with semicolons; None is an empty cell.
    columns : sequence of str
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    for row in rows:
        writer.writerow([_cell(row[column]) for column in columns])
    return text.getvalue()


def _cell(value: object) -> object:
    if isinstance(value, (list, tuple)):
        value = "; ".join(str(part) for part in value)
    return safe_text(value) if isinstance(value, str) else value


def safe_text(text: str) -> str:
    """A text that a spreadsheet shows as it is: with an apostrophe before what might be a formula."""
    begins = text.lstrip().startswith(_FORMULA) or text.startswith(("\t", "\r", "\n"))
    return f"'{text}" if begins else text


def aligned(
    headers: Sequence[str], rows: Sequence[Sequence[str]], right: Collection[int] = (), indent: str = "  "
) -> list[str]:
    """Lines of a table in columns as wide as their widest cell.

    Parameters
    ----------
    headers : sequence of str
    rows : sequence of sequences of str
    right : collection of int
        Columns that are set to the right.
    """
    table = [list(headers), *[list(row) for row in rows]]
    widths = [max(width(row[column]) for row in table) for column in range(len(headers))]
    lines = []
    for row in table:
        cells = []
        for column, text in enumerate(row):
            space = " " * (widths[column] - width(text))
            cells.append(space + text if column in right else text + space)
        lines.append((indent + "  ".join(cells)).rstrip())
    return lines


def width(text: str) -> int:
    """Columns a text takes on a terminal: marks none, wide signs two."""
    total = 0
    for sign in text:
        if unicodedata.combining(sign) or unicodedata.category(sign) in ("Cf", "Me", "Mn"):
            continue
        total += 2 if unicodedata.east_asian_width(sign) in ("W", "F") else 1
    return total
