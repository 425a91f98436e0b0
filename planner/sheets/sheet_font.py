"""A font of a PDF whose glyphs can be drawn by their numbers; imported when the first sheet is made."""

from __future__ import annotations

import threading
from typing import Any

from reportlab.pdfbase import pdfdoc
from reportlab.pdfbase.ttfonts import SUBSETN, TTFont

#: reportlab draws characters.  A glyph that is no character's own, as a joined letter, is drawn as one for private use.
PRIVATE = 0xF0000
#: Entries of one section of a character map (Adobe Technical Note 5411).
_SECTION = 100


class SheetFont(TTFont):  # type: ignore[misc] # reportlab has no types
    """A TrueType font, of which each PDF carries the glyphs it uses.

    Parameters
    ----------
    name : str
        For reportlab.
    path : str
    """

    def __init__(self, name: str, path: str) -> None:
        super().__init__(name, path, asciiReadable=False)
        self._codes: dict[tuple[int, str], int] = {}
        self._texts: dict[int, str] = {}
        self._lock = threading.Lock()

    def char_of(self, glyph: int, text: str, advance: float) -> str:
        """Return a character that is drawn as a glyph, and is read as a text where the PDF is copied or searched.

        Parameters
        ----------
        glyph : int
            Its number in the font.
        text : str
            What it is read as; empty where others say it.
        advance : float
            [thousandths of the size]
        """
        face = self.face
        if len(text) == 1 and face.charToGlyph.get(ord(text)) == glyph:
            return text
        if not text and glyph in face.glyphToChar:
            return chr(face.glyphToChar[glyph][0])
        with self._lock:
            code = self._codes.get((glyph, text))
            if code is None:
                code = self._codes[glyph, text] = PRIVATE + len(self._codes)
                self._texts[code] = text
                face.charToGlyph[code] = glyph
                face.charWidths[code] = advance
        return chr(code)

    def addObjects(self, doc: Any) -> None:  # noqa: N802
        """Write the font into a document.

        As reportlab does it, but for the map from codes to text: reportlab's gives characters beyond the first 65,536
        five digits, which no reader understands.
        """
        state = self.state[doc]
        state.frozen = 1
        fonts = doc.idToObject["BasicFonts"].dict
        for number, subset in enumerate(state.subsets):
            name = self.getSubsetInternalName(number, doc)[1:]
            base = (SUBSETN(number) + b"+" + self.face.name + self.face.subfontNameX).decode("pdfdoc")
            font = pdfdoc.PDFTrueTypeFont()
            font.Name, font.BaseFont = name, base
            font.FirstChar, font.LastChar = 0, len(subset) - 1
            font.Widths = pdfdoc.PDFArray([self.face.getCharWidth(code) for code in subset])
            chars = pdfdoc.PDFStream(content=self._to_unicode(subset), filters=[pdfdoc.PDFZCompress])
            font.ToUnicode = doc.Reference(chars, f"toUnicodeCMap:{base}")
            font.FontDescriptor = self.face.addSubsetObjects(doc, base, subset)
            doc.Reference(font, name)
            fonts[name] = font
        del self.state[doc]

    def _to_unicode(self, subset: list[int]) -> bytes:
        """The map from codes to the texts they are read as."""
        texts = [self._texts[code] if code in self._texts else chr(code) for code in subset]
        lines = ["/CIDInit /ProcSet findresource begin", "12 dict begin", "begincmap", "/CMapType 2 def"]
        lines += ["/CMapName /Sheet-UCS def", "1 begincodespacerange", "<00> <FF>", "endcodespacerange"]
        entries = [
            f"<{number:02X}> <{text.encode('utf-16-be').hex().upper()}>"
            for number, text in enumerate(texts)
            if text > "\0"
        ]
        for begin in range(0, len(entries), _SECTION):
            part = entries[begin : begin + _SECTION]
            lines += [f"{len(part)} beginbfchar", *part, "endbfchar"]
        lines += ["endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end"]
        return "\n".join(lines).encode()
