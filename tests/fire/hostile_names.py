"""Names that look like markup, formulas, codes or other lines, through everything that leaves the program."""

from __future__ import annotations

import contextlib
import csv
import io
import json
import tempfile
import unicodedata
from pathlib import Path
from random import Random

import icalendar
from making import bed, garden, planting, rectangle

from planner.cli import main
from planner.garden import Garden
from planner.importing.stock_cells import unguarded
from planner.storage import load, save

PIECES = (
    "=1+1", "+1+1", "-1", "@SUM(A1)", "x;=1+1", "x\u00a0;+2", "a,b", 'say "hi"', "<b>bold</b>", "<img src=x>", "&amp;",
    "%s", "{0}", "{name}", "\\N", "\\n", "\\,;", "BEGIN:VEVENT", "🥕", "גן", "حديقة", "a\u202eb", "'", "`", "$(x)",
    "..", "/", "C:\\", "--help", "-o", "\u0301", "\u200b", "ß", "İ", "·", "—", "|", "\u3000",
)  # fmt: skip
#: Signs with which a spreadsheet takes a cell for a formula.
FORMULA = ("=", "+", "-", "@")


_FROST = {"risk_10": "05-24", "risk_50": "05-06", "risk_90": "04-18"}
_FROST_AGAIN = {"risk_10": "09-27", "risk_50": "10-17", "risk_90": "11-06"}


def name_of(rng: Random) -> str:
    """A name of some pieces."""
    return rng.choice(("", " ")).join(rng.sample(PIECES, rng.choice((1, 1, 2, 3))))


def _hostile(rng: Random) -> Garden:
    names = [name_of(rng) for _ in range(8)]
    return garden(
        bed("b1", rectangle(), name=names[0]),
        bed("b2", rectangle(center=(0, 4)), name=names[1]),
        planting("p1", "b1", crop="carrot", variety=names[2], notes=names[3] + "\n" + names[4]),
        planting("p3", "b2", crop="leek", variety=names[1]),
        planting("p2", "b2", crop=names[5], variety=names[6], tended_by=names[7]),
        site={"name": names[0], "latitude": 56.0},
        climate={"last_frost": _FROST, "first_frost": _FROST_AGAIN},
    )


def through_the_command_line(rng: Random) -> str:
    """Every command's output can be read by what it is meant for, and holds the names as they are."""
    document = _hostile(rng)
    with tempfile.TemporaryDirectory() as folder:
        file = str(Path(folder) / "plot.bedwright")
        save(document, file)
        if load(file) != document:
            return "the file holds another garden"
        year = ["--year", "2026"]
        return (
            _json(document, _output("amounts", file, *year, "--json"))
            or _csv(document, _output("amounts", file, *year, "--csv", "-"))
            or _calendar(_output("tasks", file, *year, "--ics", "-"))
            or _lines(_output("amounts", file, *year))
            or _lines(_output("tasks", file, *year))
            or _lines(_output("check", file, *year, "--no-light"))
            or _pdf(_output("sheets", file, *year, "-o", "-"))
        )


def _output(*arguments: str) -> bytes:
    stream = io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="")
    with contextlib.redirect_stdout(stream), contextlib.redirect_stderr(io.StringIO()) as errors:
        code = main(arguments)
    if code not in (0, 1):
        raise AssertionError(f"{arguments[0]} ended with {code}: {errors.getvalue()}")
    stream.flush()
    return stream.buffer.getvalue()  # type: ignore[attr-defined]  # a BytesIO


def _json(document: Garden, data: bytes) -> str:
    rows = json.dumps(json.loads(data), ensure_ascii=False)
    names = {json.dumps(one.name, ensure_ascii=False) for one in document.beds}
    return "" if all(name in rows for name in names) else "a name is not in the JSON as it is"


def _csv(document: Garden, data: bytes) -> str:
    text = data.decode()
    for delimiter in (",", ";", "\t"):
        for row in csv.reader(io.StringIO(text), delimiter=delimiter):
            for cell in row:
                if cell.lstrip().startswith(FORMULA) and not _is_number(cell):
                    return f"a formula when read with {delimiter!r}: {cell!r}"
    beds = {unguarded(row["bed"]) for row in csv.DictReader(io.StringIO(text))}
    wanted = {unguarded(one.name) for one in document.beds}
    return "" if wanted <= beds else f"{wanted} became {beds}"


def _is_number(text: str) -> bool:
    with contextlib.suppress(ValueError):
        float(text)
        return True
    return False


def _calendar(data: bytes) -> str:
    events = icalendar.Calendar.from_ical(data).walk("VEVENT")
    starts = data.decode().count("\r\nBEGIN:VEVENT\r\n")
    return "" if len(events) == starts else f"{starts} events written, {len(events)} read"


def _lines(data: bytes) -> str:
    odd = {sign for sign in data.decode() if unicodedata.category(sign) == "Cc" and sign != "\n"}
    turned = {sign for sign in data.decode() if sign in "\u202a\u202b\u202d\u202e\u2066\u2067\u2068"}
    return f"control signs: {odd | turned!r}" if odd | turned else ""


def _pdf(data: bytes) -> str:
    import pypdfium2

    pages = pypdfium2.PdfDocument(data)
    number = len(pages)
    pages.close()
    return "" if number >= 2 else f"{number} pages of 2 beds"


ATTACKS = {"hostile names on the command line": through_the_command_line}
