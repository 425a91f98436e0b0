"""Lines of text as operators of a PDF page.

Written here: reportlab makes an object of each string, which takes longer than everything else that is drawn.
"""

from __future__ import annotations

from typing import Any

from planner.sheets.font_files import loaded_font
from planner.sheets.text_pieces import Cluster, Piece

_ESCAPED = {byte: f"\\{byte:03o}" for byte in (*range(32), *range(127, 256))} | {
    ord(char): f"\\{char}" for char in "()\\"
}


def line_of_text(
    document: Any,
    parts: tuple[Piece, ...],
    text: str,
    x: float,
    y: float,
    size: float,
    *,
    spaced: bool = False,
) -> str:
    """Return the operators that draw a line of text.

    Where glyphs are no characters of their own, what they say is told beside them (``ActualText``), for what copies,
    searches or reads aloud.  Of text from right to left it is told a few glyphs at a time: readers put the order of the
    line right themselves.

    Parameters
    ----------
    document : reportlab.pdfbase.pdfdoc.PDFDocument
    parts : tuple of Piece
    text : str
        What they say, in the order it is read.
    x, y : float
        Beginning of its base line. [points]
    size : float
        [points]
    spaced : bool
        Whether a space follows, which keeps words of two lines apart for what reads them.
    """
    code = [f"BT 1 0 0 1 {x:.3f} {y:.3f} Tm"]
    turned = any(part.right_to_left for part in parts)
    spaced = spaced and not turned and bool(parts) and not parts[-1].clusters and parts[-1].key != "cjk"
    for number, part in enumerate(parts, 1):
        if part.clusters:
            for cluster in part.clusters:
                drawn = _glyphs(document, part.key, cluster, size)
                code.append(_read_as(cluster.said, drawn) if turned and cluster.said else drawn)
        else:
            words = f"{part.text} " if spaced and number == len(parts) else part.text
            code += _plain(document, part.key, words, size)
    code.append("ET")
    line = " ".join(code)
    if turned or not any(cluster.said for part in parts for cluster in part.clusters):
        return line
    return _read_as(text, line)


def _read_as(text: str, code: str) -> str:
    said = text.encode("utf-16-be", "replace").hex().upper()
    return f"/Span <</ActualText <FEFF{said}>>> BDC {code} EMC"


def _plain(document: Any, key: str, words: str, size: float) -> list[str]:
    font = loaded_font(key)
    return [
        f"{font.getSubsetInternalName(subset, document)} {size:.6g} Tf ({_escaped(codes)}) Tj"
        for subset, codes in font.splitString(words, document)
    ]


def _glyphs(document: Any, key: str, cluster: Cluster, size: float) -> str:
    """Glyphs that stand for some signs together, each moved and followed as its script wants it."""
    font = loaded_font(key)
    code: list[str] = []
    for char, advance, right, up in cluster.glyphs:
        ((subset, codes),) = font.splitString(char, document)
        code.append(f"{font.getSubsetInternalName(subset, document)} {size:.6g} Tf")
        after = font.face.getCharWidth(ord(char)) - advance + right
        glyph = f"[{-right:.5g} ({_escaped(codes)}) {after:.5g}] TJ"
        code.append(f"{up * size / 1000:.4g} Ts {glyph} 0 Ts" if up else glyph)
    return " ".join(code)


def _escaped(codes: bytes) -> str:
    return codes.decode("latin-1").translate(_ESCAPED)
