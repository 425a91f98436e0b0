"""Tables, workbooks, drawings and maps changed by bytes: each is taken in, told of line by line, or refused in one line."""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from random import Random

import openpyxl

from planner.crops import load_catalogue
from planner.errors import BedwrightError
from planner.garden import Garden, Site
from planner.importing.ground_table import preview, take
from planner.importing.outlines import preview_geojson, preview_svg, take_outlines

#: What is put among bytes.
PIECES = (
    b"1e999", b"-", b"\x00", b"NaN", b"99999999999999999999", b'"', b"{", b"[", b"null", b"<g>", b"A", b",", b"0", b"-1e-300", b"<!ENTITY a 'b'>",
    b"%", b"1e308", b";", b"\r",
)  # fmt: skip
SITE = Garden(site=Site(latitude=50.0, longitude=5.0))
RING = [[5.0, 50.0], [5.0001, 50.0], [5.0001, 50.0001], [5.0, 50.0001], [5.0, 50.0]]
TABLE = b"Bed;Length (cm);Width;Crop;Sown;From;To;Spacing;Turn;Year\nA;480;1,2;carrot;10.4.2026;0;2,4;5;30;2026\nA;;;pea;;;;;;\n"
DRAWING = b"""<svg width="100mm" viewBox="0 0 200 200"><g transform="translate(3 4) rotate(30)"><rect width="60" height="40" transform="scale(1.2 .8)"/>
<path d="M20 100C20 20 120 20 120 100S60 160 20 100z"/><path d="M40 90a40 40 0 0180 0 40 40 0 01-80 0z"/></g>
<polygon points="10,10 150,20 90,120"/><ellipse cx="9" cy="9" rx="5" ry="2"/><polyline points="0,0 4,0 4,4 0,0"/></svg>"""
MAP = json.dumps(
    {
        "type": "FeatureCollection",
        "features": [
            {"type": "Feature", "geometry": {"type": kind, "coordinates": ring}, "properties": {"thing": thing, "kind": "wall", "height_m": 1}}
            for kind, ring, thing in (("Polygon", [RING], "bed"), ("MultiPolygon", [[RING], [RING]], "structure"))
        ],
    }
).encode()  # fmt: skip


def _workbook() -> bytes:
    book = openpyxl.Workbook()
    for row in TABLE.decode().splitlines():
        book.active.append(row.split(";"))
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


WORKBOOK = _workbook()


def _table(data: bytes) -> Garden:
    return take(Garden(), preview(data, Garden(), load_catalogue(), 2026))


#: Files, and what takes each in.
FILES: tuple[tuple[bytes, Callable[[bytes], Garden]], ...] = (
    (TABLE, _table),
    (WORKBOOK, _table),
    (DRAWING, lambda data: take_outlines(Garden(), preview_svg(data, Garden(), unit=0.01))),
    (MAP, lambda data: take_outlines(SITE, preview_geojson(data, SITE))),
)


def changed(rng: Random, data: bytes) -> bytes:
    """A file with some bytes changed, removed, put in or doubled."""
    found = bytearray(data)
    for _ in range(rng.choice((1, 1, 2, 5, 20))):
        at = rng.randrange(len(found))
        match rng.randrange(4):
            case 0:
                found[at] = rng.randrange(256)
            case 1:
                del found[at : at + rng.randrange(1, 9)]
            case 2:
                found[at:at] = rng.choice(PIECES)
            case _:
                begin = rng.randrange(len(found))
                found[at:at] = found[begin : begin + 20]
    return bytes(found)


def taken_in(rng: Random) -> str:
    """Take a changed file in."""
    data, taking = rng.choice(FILES)
    try:
        taking(changed(rng, data))
    except BedwrightError as error:
        return f"an error that is no line: {error}" if "\n" in str(error) else ""
    return ""


ATTACKS = {"tables, drawings and maps taken in": taken_in}
