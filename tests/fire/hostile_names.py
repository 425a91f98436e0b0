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
from xml.etree import ElementTree

import icalendar
from making import bed, garden, planting, rectangle

from planner.cli import main
from planner.crops import load_catalogue
from planner.crops.search import find
from planner.garden import Garden, Lot
from planner.importing.stock_cells import unguarded
from planner.importing.stock_table import preview
from planner.listings.formulas import might_be_computed
from planner.listings.stock import stock_csv
from planner.storage import load, save

PIECES = (
    "=1+1", "+1+1", "-1", "@SUM(A1)", "x;=1+1", "x\u00a0;+2", "a,b", 'say "hi"', "<b>bold</b>", "<img src=x>", "&amp;",
    "%s", "{0}", "{name}", "\\N", "\\n", "\\,;", "BEGIN:VEVENT", "🥕", "גן", "حديقة", "a\u202eb", "'", "`", "$(x)",
    "..", "/", "C:\\", "--help", "-o", "\u0301", "\u200b", "ß", "İ", "·", "—", "|", "\u3000",
)  # fmt: skip
#: What notes may hold besides.
CONTROL = ("\x00", "\x07", "\x1b[31m", "\r", "\r\n", "\n", "\t", "\x7f", "\x85", "\u2028")


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
        planting("p1", "b1", crop="carrot", variety=names[2], notes=rng.choice(CONTROL).join(names[3:6])),
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
            or _calendar(document, _output("tasks", file, *year, "--ics", "-"))
            or _lines(_output("amounts", file, *year))
            or _lines(_output("tasks", file, *year))
            or _lines(_output("check", file, *year, "--no-light"))
            or _pdf(_output("sheets", file, *year, "-o", "-"))
            or _svg(document, _output("draw", file, *year, "-o", "-"))
        )


def _svg(document: Garden, data: bytes) -> str:
    """What is wrong with a drawing."""
    try:
        tree = ElementTree.fromstring(data)
    except ElementTree.ParseError as error:
        return f"the drawing is no XML: {error}"
    texts = {"".join(one.itertext()) for one in tree.iter("{http://www.w3.org/2000/svg}text")}
    missing = [one.name for one in document.beds if one.name.strip() and one.name not in texts]
    return f"the drawing does not name {missing}" if missing else ""


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
                if might_be_computed(cell) and not _is_number(cell):
                    return f"a formula when read with {delimiter!r}: {cell!r}"
    beds = {unguarded(row["bed"]) for row in csv.DictReader(io.StringIO(text))}
    wanted = {unguarded(one.name) for one in document.beds}
    return "" if wanted <= beds else f"{wanted} became {beds}"


def _is_number(text: str) -> bool:
    with contextlib.suppress(ValueError):
        float(text)
        return True
    return False


def _calendar(document: Garden, data: bytes) -> str:
    events = icalendar.Calendar.from_ical(data).walk("VEVENT")
    starts = data.decode().count("\r\nBEGIN:VEVENT\r\n")
    if len(events) != starts:
        return f"{starts} events written, {len(events)} read"
    odd = {str(event["LOCATION"]) for event in events} - {one.name for one in document.beds}
    return f"beds that are not in the garden: {odd}" if odd else ""


def through_the_table_of_stock(rng: Random) -> str:
    """What is written as a table of stock is read again as it was; odd names are no crops."""
    catalogue = load_catalogue()
    signs = [piece for piece in PIECES if not any(sign.isalpha() for sign in piece)]
    for text in rng.sample(signs, 4):
        if found := find(catalogue, text):
            return f"{text!r} is taken for {found[0].name}"
    lots = tuple(
        Lot(
            id=f"l{n}",
            crop=rng.choice(("carrot", "leek")),
            variety=name_of(rng).strip(),
            notes=rng.choice(CONTROL).join((name_of(rng), name_of(rng))).strip(),
        )
        for n in range(3)
    )
    read = preview(stock_csv(lots, catalogue).encode(), catalogue)
    if bad := read.bad:
        return f"a row is not read again: {bad[0]}"
    again = [(row.lot.crop, row.lot.variety, row.lot.notes) for row in read.good if row.lot is not None]
    wanted = [(lot.crop, lot.variety, lot.notes) for lot in lots]
    return "" if again == wanted else f"{wanted} became {again}"


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


ATTACKS = {
    "hostile names on the command line": through_the_command_line,
    "hostile names in tables of stock": through_the_table_of_stock,
}
