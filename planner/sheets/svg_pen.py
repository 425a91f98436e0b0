"""Drawing an SVG in millimetres from the lower left corner, with the strokes of the PDF's pen.

Text stays text, so that it can be searched, read aloud and edited; where the sheets' font is missing, each line is
set to the width that it has here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape, quoteattr

import numpy as np
import shapely

from planner.sheets import fonts
from planner.sheets.family_inks import Rgb, mixed
from planner.sheets.fonts import MM
from planner.sheets.growth_marks import mark
from planner.sheets.hatches import HATCHES, Hatch, HatchName, hatch_sheet
from planner.sheets.pen import HAIR, INK, Align
from planner.sheets.stamps import (
    DOT,
    HATCH_DOT,
    HATCH_LINE,
    HATCH_SHARE,
    LEAST_MARK,
    hatch_side,
    mark_weight,
    told_apart,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Fonts that text asks for, the first that is there.
_FAMILY = "IBM Plex Sans, DejaVu Sans, Noto Sans, sans-serif"
_WEIGHTS = {"regular": "", "bold": ' font-weight="600"', "italic": ' font-style="italic"'}
_ANCHORS = {"left": "", "middle": ' text-anchor="middle"', "right": ' text-anchor="end"'}
#: What XML has no place for.
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class SvgPen:
    """Draws an SVG as :class:`planner.sheets.pen.Pen` draws a PDF.

    Lengths in the file are points, so that small text is not below what programs draw; its size is in millimetres.

    Parameters
    ----------
    width, height : float
        [mm]
    title, description : str
        Said of the picture by programs that list or read it.
    """

    def __init__(self, width: float, height: float, title: str, description: str) -> None:
        self._width, self._height = width, height
        self._head = (
            f"<title>{_escaped(title)}</title>",
            f"<desc>{_escaped(description)}</desc>",
        )
        self._defs: list[str] = []
        self._parts: list[str] = []
        self._names: dict[tuple[object, ...], str] = {}
        self._clips = 0

    def document(self) -> str:
        """The whole file."""
        wide, high = _number(self._width * MM), _number(self._height * MM)
        return "\n".join(
            (
                '<?xml version="1.0" encoding="UTF-8"?>',
                '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" '
                f'width="{_number(self._width)}mm" height="{_number(self._height)}mm" viewBox="0 0 {wide} {high}" '
                f"font-family={quoteattr(_FAMILY)}>",
                *self._head,
                "<defs>",
                *self._defs,
                "</defs>",
                *self._parts,
                "</svg>",
                "",
            )
        )

    # -- lines and grounds ------------------------------------------------------------------

    def line(
        self,
        x0: float,
        y0: float,
        x1: float,
        y1: float,
        rgb: Rgb = INK,
        weight: float = 0.2,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a line; see :meth:`planner.sheets.pen.Pen.line`."""
        (ax, ay), (bx, by) = self._at(x0, y0), self._at(x1, y1)
        self._parts.append(f'<path d="M{ax} {ay}L{bx} {by}" fill="none"{_stroke(rgb, weight, dash)}/>')

    def polyline(
        self,
        places: Sequence[tuple[float, float]],
        rgb: Rgb = INK,
        weight: float = 0.2,
        dash: Sequence[float] = (),
    ) -> None:
        """Draw a line through several places; see :meth:`planner.sheets.pen.Pen.polyline`."""
        path = "L".join(" ".join(self._at(x, y)) for x, y in places)
        self._parts.append(f'<path d="M{path}" fill="none"{_stroke(rgb, weight, dash)}/>')

    def box(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        *,
        fill: Rgb | None = None,
        rgb: Rgb | None = INK,
        weight: float = 0.2,
    ) -> None:
        """Draw a rectangle; see :meth:`planner.sheets.pen.Pen.box`."""
        self.shape(shapely.box(x, y, x + width, y + height), fill=fill, rgb=rgb, weight=weight)

    def shape(
        self,
        geometry: shapely.Geometry,
        *,
        fill: Rgb | None = None,
        rgb: Rgb | None = None,
        weight: float = 0.2,
        dash: Sequence[float] = (),
        opacity: float = 1.0,
    ) -> None:
        """Draw polygons; see :meth:`planner.sheets.pen.Pen.shape`."""
        path = self._path(geometry)
        if not path:
            return
        area = f' fill="{_colour(fill)}"' if fill is not None else ' fill="none"'
        area += f' fill-opacity="{_number(opacity)}"' if fill is not None and opacity < 1.0 else ""
        line = _stroke(rgb, weight, dash) if rgb is not None else ""
        self._parts.append(f'<path d="{path}" fill-rule="evenodd"{area}{line}/>')

    @contextmanager
    def clipped(self, geometry: shapely.Geometry) -> Iterator[None]:
        """Draw only inside some polygons."""
        path = self._path(geometry)
        name = f"c{self._clips}"
        self._clips += 1
        self._defs.append(f'<clipPath id="{name}"><path d="{path}" clip-rule="evenodd"/></clipPath>')
        self._parts.append(f'<g clip-path="url(#{name})">')
        yield
        self._parts.append("</g>")

    @contextmanager
    def group(self, name: str) -> Iterator[None]:
        """Draw what belongs together, as a layer that programs can show and hide.

        Parameters
        ----------
        name : str
            What it is; each once in a picture.
        """
        self._parts.append(f"<g id={quoteattr(name)}>")
        yield
        self._parts.append("</g>")

    # -- text -------------------------------------------------------------------------------

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float = 8.0,
        style: fonts.Style = "regular",
        rgb: Rgb = INK,
        align: Align = "left",
        turn: float = 0.0,
    ) -> None:
        """Draw a line of text on its base line; see :meth:`planner.sheets.pen.Pen.text`."""
        if not text.strip():
            return
        across, down = self._at(x, y)
        turned = f' transform="rotate({_number(-turn)} {across} {down})"' if turn else ""
        length = _number(fonts.width(text, size, style) * MM)
        self._parts.append(
            f'<text x="{across}" y="{down}" font-size="{_number(size)}" fill="{_colour(rgb)}"{_WEIGHTS[style]}'
            f'{_ANCHORS[align]}{turned} textLength="{length}" lengthAdjust="spacingAndGlyphs">{_escaped(text)}</text>'
        )

    # -- marks and hatches ------------------------------------------------------------------

    def marks(self, points: NDArray[np.float64], form: str, radius: float, rgb: Rgb) -> None:
        """Draw a growth form's mark at every point; see :meth:`planner.sheets.pen.Pen.marks`."""
        if not len(points):
            return
        name = self._mark(form, round(radius, 2), rgb)
        for x, y in told_apart(points).tolist():
            across, down = self._at(x, y)
            self._parts.append(f'<use xlink:href="#{name}" x="{across}" y="{down}"/>')

    def hatch(self, geometry: shapely.Geometry, name: HatchName, tint: Rgb, line: Rgb) -> None:
        """Hatch polygons; see :meth:`planner.sheets.pen.Pen.hatch`."""
        if geometry.is_empty:
            return
        hatch, rgb = HATCHES[name], mixed(line, tint, HATCH_SHARE)
        path = self._hatch_path(hatch, geometry)
        if hatch.angles:
            self._parts.append(f'<path d="{path}" fill="none"{_stroke(rgb, HATCH_LINE, ())}/>')
        else:  # dots are lines of no length with round ends
            stroke = f'{_stroke(rgb, HATCH_DOT, ())} stroke-linecap="round"'
            self._parts.append(f'<path d="{path}" fill="none"{stroke}/>')

    def _hatch_path(self, hatch: Hatch, geometry: shapely.Geometry) -> str:
        """Lines or dots of a hatch on polygons, cut to them: programs are slow to clip many lines."""
        left, low, right, high = (float(value) for value in shapely.bounds(geometry))
        side = hatch_side(right - left, high - low)
        sheet, corner = np.array(hatch_sheet(hatch, side)).reshape(-1, 2, 2), np.array([left, low])
        if not hatch.angles:
            sheet = sheet[sheet[:, 0, 1] <= high - low, 0]
            along = np.arange(int((right - left) / hatch.gap) + 1) * hatch.gap
            dots = np.array([(x + step, y) for x, y in sheet.tolist() for step in along.tolist()])
            inside = dots.reshape(-1, 2) + corner
            inside = inside[shapely.contains_xy(geometry, inside)] if len(inside) else inside
            return "".join("M{0} {1}L{0} {1}".format(*self._at(x, y)) for x, y in inside.tolist())
        lines = shapely.linestrings(sheet + corner)
        cut = shapely.intersection(shapely.clip_by_rect(lines, left, low, right, high), geometry)
        pieces = shapely.get_parts(shapely.get_parts(cut))
        ends = [
            [self._at(x, y) for x, y in shapely.get_coordinates(piece).tolist()]
            for piece in pieces
            if piece.geom_type == "LineString" and not piece.is_empty
        ]
        return "".join(f"M{' '.join(begin)}L{' '.join(end)}" for begin, *_, end in ends)

    def _mark(self, form: str, radius: float, rgb: Rgb) -> str:
        """Name of a growth form's mark about the origin, made at its first use."""
        key = (form, radius, rgb)
        if key not in self._names:
            name = self._names[key] = f"m{len(self._names)}"
            if radius < LEAST_MARK:
                dot = f'<circle r="{_number(DOT * radius * MM)}" fill="{_colour(rgb)}"/>'
                self._defs.append(f'<g id="{name}">{dot}</g>')
            else:
                self._defs.append(f'<g id="{name}">{_mark_paths(form, radius, rgb)}</g>')
        return self._names[key]

    def _at(self, x: float, y: float) -> tuple[str, str]:
        """A place in the file. [points, from the upper left]"""
        return _number(x * MM), _number((self._height - y) * MM)

    def _path(self, geometry: shapely.Geometry) -> str:
        fine = shapely.simplify(geometry, HAIR)
        found = []
        for ring in shapely.get_rings(shapely.get_parts(fine)):
            if not ring.is_empty:
                corners = (" ".join(self._at(x, y)) for x, y in shapely.get_coordinates(ring)[:-1].tolist())
                found.append(f"M{'L'.join(corners)}Z")
        return "".join(found)


def _number(value: float) -> str:
    """A number with as many of three decimals as it needs."""
    return f"{value:z.3f}".rstrip("0").rstrip(".")


def _colour(rgb: Rgb) -> str:
    return "#" + "".join(f"{round(255 * share):02x}" for share in rgb)


def _escaped(text: str) -> str:
    return escape(_NOT_XML.sub(" ", text))


def _stroke(rgb: Rgb, weight: float, dash: Sequence[float]) -> str:
    dashes = f' stroke-dasharray="{" ".join(_number(part * MM) for part in dash)}"' if dash else ""
    return f' stroke="{_colour(rgb)}" stroke-width="{_number(weight * MM)}"{dashes}'


def _mark_paths(form: str, radius: float, rgb: Rgb) -> str:
    """The strokes of a growth form's mark about the origin."""
    found = []
    for stroke in mark(form):
        corners = (f"{_number(x * radius * MM)} {_number(-y * radius * MM)}" for x, y in stroke.points)
        path = f"M{'L'.join(corners)}{'Z' if stroke.closed else ''}"
        if stroke.filled:
            found.append(f'<path d="{path}" fill="{_colour(rgb)}"/>')
        else:
            line = _stroke(rgb, mark_weight(radius), ())
            found.append(
                f'<path d="{path}" fill="none"{line} stroke-linecap="round" stroke-linejoin="round"/>'
            )
    return "".join(found)
