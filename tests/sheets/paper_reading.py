"""What is really on the pages of a PDF, read with pypdfium2, which we did not write."""

from __future__ import annotations

import ctypes
import datetime as dt
import io
import math
from typing import Any

import numpy as np
import pypdfium2
import pypdfium2.raw as raw

from planner.garden import Garden
from planner.plan import Plan
from planner.sheets.bed_sheets import write_bed_sheets

MM = 25.4 / 72
#: Objects of a form no larger than this are marks, larger ones hatching. [mm]
LARGEST_MARK = 9.0
TODAY = dt.date(2026, 3, 1)


def pdf_of(garden: Garden, *beds: str, paper: str = "a4", catalogue: Any = None) -> bytes:
    """The sheets of a garden in 2026."""
    stream = io.BytesIO()
    write_bed_sheets(Plan(garden, 2026, catalogue), stream, beds or None, paper, TODAY)
    return stream.getvalue()


class Paper:
    """A PDF, read."""

    def __init__(self, data: bytes) -> None:
        self.document = pypdfium2.PdfDocument(data)

    def __enter__(self) -> Paper:
        return self

    def __exit__(self, *_: object) -> None:
        self.document.close()

    def __len__(self) -> int:
        return len(self.document)

    def text(self, number: int) -> str:
        """All words of a page, spaces and line ends as one space."""
        page = self.document[number].get_textpage()
        return " ".join(page.get_text_bounded().replace("\u00a0", " ").split())

    def texts(self) -> str:
        """All words of all pages."""
        return " ".join(self.text(k) for k in range(len(self)))

    def marks(self, number: int) -> np.ndarray:
        """Places of the marks of a page (n, 2). [mm]"""
        found = []
        for thing in self.document[number].get_objects(filter=[raw.FPDF_PAGEOBJ_FORM], max_depth=1):
            left, low, right, high = thing.get_bounds()
            if max(right - left, high - low) * MM <= LARGEST_MARK:
                matrix = thing.get_matrix()
                found.append((matrix.e * MM, matrix.f * MM))
        return np.array(found).reshape(-1, 2)

    def paths(self, number: int) -> np.ndarray:
        """Bounds of the paths of a page (n, 4): left, low, right, high. [mm]"""
        things = self.document[number].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=1)
        return np.array([thing.get_bounds() for thing in things]).reshape(-1, 4) * MM

    def lines(self, number: int) -> np.ndarray:
        """Ends of the plain lines of a page (n, 4): x, y, x, y. [mm]"""
        found = []
        for thing in self.document[number].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=1):
            if raw.FPDFPath_CountSegments(thing.raw) != 2:
                continue
            ends: list[float] = []
            for k in range(2):
                x, y = ctypes.c_float(), ctypes.c_float()
                raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(thing.raw, k), x, y)
                ends += [x.value * MM, y.value * MM]
            found.append(ends)
        return np.array(found).reshape(-1, 4)

    def outline(self, number: int, wide: float, high: float) -> tuple[float, float]:
        """Lower left corner of the first rectangle or ring of this size, filled or drawn by a line of 0.3 or 0.45 mm. [mm]"""
        for left, low, right, top in self.paths(number):
            for line in (0.0, 0.6, 0.9):  # pdfium adds the line on both sides
                if abs(right - left - wide - line) < 0.1 and abs(top - low - high - line) < 0.1:
                    return float(left) + line / 2, float(low) + line / 2
        raise AssertionError(f"no outline of {wide} x {high} mm on page {number + 1}")

    def picture(self, number: int) -> np.ndarray:
        """The page as grey values, 10 to the mm or so."""
        return np.asarray(self.document[number].render(scale=2).to_numpy()).min(axis=2)

    def sizes(self, number: int) -> dict[str, float]:
        """Sizes of all texts of a page as they are on paper, whatever turns or shrinks them. [points]"""
        page, found = self.document[number], {}
        reader = page.get_textpage()
        for thing in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT], max_depth=5):
            size, matrix = ctypes.c_float(), thing.get_matrix()
            raw.FPDFTextObj_GetFontSize(thing.raw, size)
            length = raw.FPDFTextObj_GetText(thing.raw, reader.raw, None, 0)
            letters = (ctypes.c_ushort * (length // 2))()
            raw.FPDFTextObj_GetText(thing.raw, reader.raw, letters, length)
            words = "".join(map(chr, letters)).rstrip("\0")
            found[words] = min(found.get(words, 99.0), size.value * math.hypot(matrix.b, matrix.d))
        return found

    def fonts_embedded(self) -> bool:
        """Whether every font of every text carries its own file."""
        for page in self.document:
            for thing in page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT], max_depth=2):
                if not raw.FPDFFont_GetIsEmbedded(raw.FPDFTextObj_GetFont(thing.raw)):
                    return False
        return True
