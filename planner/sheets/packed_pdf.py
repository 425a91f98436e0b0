"""The bytes of a PDF, its small objects packed together.

reportlab writes each object by itself, uncompressed.  The tree that tells headings and tables apart has thousands of small
ones, which would double a file: here all but streams go into compressed object streams (ISO 32000-1, 7.5.7), found
through a compressed cross-reference stream (7.5.8).
"""

from __future__ import annotations

import hashlib
import zlib
from typing import Any

#: Objects packed into one stream.
_TOGETHER = 500
#: Bytes of the fields of a cross-reference entry: kind, place, index.
_FIELDS = (1, 4, 2)


def packed_pdf(document: Any, canvas: Any) -> bytes:
    """Write a reportlab document.

    Parameters
    ----------
    document : reportlab.pdfbase.pdfdoc.PDFDocument
    canvas : reportlab.pdfgen.canvas.Canvas
        Of the document, its last page ended.
    """
    from reportlab.pdfbase import pdfdoc

    for font in document.delayedFonts:
        font.addObjects(document)
    root, info = document.Reference(document.Catalog), document.Reference(document.info)
    document.Outlines.prepare(document, canvas)
    if document.Outlines.ready < 0:
        document.Catalog.Outlines = None
    parts = [b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"]
    entries: dict[int, tuple[int, int, int]] = {}
    small: list[tuple[int, bytes]] = []
    offset, number = len(parts[0]), 1

    def add(number: int, body: bytes) -> None:
        nonlocal offset
        entries[number] = (1, offset, 0)
        parts.append(b"%d 0 obj\n%s\nendobj\n" % (number, body))
        offset += len(parts[-1])

    # Objects are found while others are written: numbers grow under way.
    while number in document.numberToId:
        thing = document.idToObject[document.numberToId[number]]
        body = pdfdoc.format(thing, document, toplevel=1).strip()
        if body.endswith(b"endstream"):
            add(number, body)
        else:
            small.append((number, body))
        number += 1
    for begin in range(0, len(small), _TOGETHER):
        together = small[begin : begin + _TOGETHER]
        entries |= {one: (2, number, index) for index, (one, _) in enumerate(together)}
        add(number, _object_stream(together))
        number += 1
    entries[number] = (1, offset, 0)
    fingerprint = hashlib.md5(b"".join(parts), usedforsecurity=False).hexdigest().encode()
    trailer = b"/Root %s/Info %s/ID[<%s><%s>]" % (
        root.format(document), info.format(document), fingerprint, fingerprint,
    )  # fmt: skip
    parts.append(b"%d 0 obj\n%s\nendobj\n" % (number, _cross_references(entries, trailer)))
    parts.append(b"startxref\n%d\n%%%%EOF\n" % offset)
    return b"".join(parts)


def _object_stream(objects: list[tuple[int, bytes]]) -> bytes:
    heads, offset = [], 0
    for number, body in objects:
        heads.append(b"%d %d" % (number, offset))
        offset += len(body) + 1
    head = b" ".join(heads) + b"\n"
    about = b"/Type/ObjStm/N %d/First %d" % (len(objects), len(head))
    return _stream(about, head + b"\n".join(body for _, body in objects))


def _cross_references(entries: dict[int, tuple[int, int, int]], trailer: bytes) -> bytes:
    """The cross-reference stream; each row is written as its difference from the one before, which packs small."""
    size = max(entries) + 1
    wide = sum(_FIELDS)
    before, rows = bytes(wide), []
    for number in range(size):
        kind, place, index = entries.get(number, (0, 0, 65535))
        row = b"".join(
            value.to_bytes(field, "big") for value, field in zip((kind, place, index), _FIELDS, strict=True)
        )
        rows.append(b"\x02" + bytes((new - old) & 0xFF for new, old in zip(row, before, strict=True)))
        before = row
    about = b"/Type/XRef/Size %d/W[%d %d %d]%s/DecodeParms<</Predictor 12/Columns %d>>" % (
        size, *_FIELDS, trailer, wide,
    )  # fmt: skip
    return _stream(about, b"".join(rows))


def _stream(about: bytes, content: bytes) -> bytes:
    small = zlib.compress(content)
    return b"<<%s/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream" % (about, len(small), small)
