"""A line of text as it is drawn: pieces of one font each, from left to right, joined and ordered as their script does it.

Scripts whose letters join, change places or carry marks are shaped by HarfBuzz; text from right to left is put into the
order of the line by the Unicode bidirectional algorithm first.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from planner.sheets.direction import levels_of
from planner.sheets.font_files import Style, font_for, loaded_font, script_of, shaping_font, signs_of

#: Printed for a sign that no font has.
MISSING = "\ufffd"
#: Joiners, which tell how letters join: shown by no glyph of their own.
_JOINERS = "\u200c\u200d"
#: Combining class of the signs that join two consonants of an Indic script.
_VIRAMA = 9
#: Invisible signs: joiners, direction marks, variation selectors, skin tones.
_INVISIBLE = re.compile("[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufe00-\ufe0f\ufeff\U0001f3fb-\U0001f3ff]")
_DIRECTIONS = re.compile(
    "[\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\ufe00-\ufe0f\ufeff\U0001f3fb-\U0001f3ff]"
)
#: Combining marks, Hebrew to Tibetan, Myanmar, Khmer, Mongolian and its neighbours, their presentation forms.
_SHAPED = re.compile(
    "[\u0300-\u036f\u0590-\u109f\u1200-\u139f\u1700-\u18af\u1900-\u1cff\u1dc0-\u1dff\u20d0-\u20ff\u2d80-\u2ddf"
    "\ua800-\uabff\ufb1d-\ufdff\ufe20-\ufe2f\ufe70-\ufefc\U00010800-\U00011fff\U0001e800-\U0001efff]"
)


class Glyph(NamedTuple):
    """A glyph of shaped text: what it is drawn as, and where it stands."""

    #: Character that is drawn as it.
    char: str
    #: How far the next is on. [thousandths of the size]
    advance: float
    #: How far it is moved itself. [thousandths of the size]
    right: float
    up: float


class Cluster(NamedTuple):
    """Glyphs that stand for some signs together."""

    glyphs: tuple[Glyph, ...]
    #: What they say, where the characters they are drawn as do not.
    said: str


@dataclass(frozen=True)
class Piece:
    """Some signs of one font.

    Attributes
    ----------
    key : str
        Of the font.
    text : str
        What is drawn, from left to right; of shaped text what is read.
    width : float
        [thousandths of the size]
    clusters : tuple of Cluster
        Of shaped text, from left to right; empty where signs stand one after the other.
    right_to_left : bool
        How it is read.
    """

    key: str
    text: str
    width: float
    clusters: tuple[Cluster, ...] = ()
    right_to_left: bool = False


class _Letter(NamedTuple):
    """A letter with its marks: its font, what it is drawn as, its level (odd from right to left), its script."""

    key: str
    text: str
    level: int
    script: str


@lru_cache(maxsize=8192)
def pieces(text: str, style: Style = "regular") -> tuple[Piece, ...]:
    """Divide one line into pieces, from left to right.

    A sign that no font has is shown as the replacement sign.

    Parameters
    ----------
    text : str
    style : {"regular", "bold", "italic"}
    """
    if text.isascii() or not _SHAPED.search(text := unicodedata.normalize("NFC", text)):
        return tuple(_plain(text, style))
    return tuple(_shaped(text, style))


def missing_signs(text: str, style: Style = "regular") -> str:
    """The signs of a text that no font has, each once."""
    if text.isascii():
        return ""
    known, found = signs_of(style), dict[str, None]()
    for _, letter in _letters(unicodedata.normalize("NFC", text), _INVISIBLE):
        control = unicodedata.category(letter[0]) == "Cc"  # printed as a space
        if not control and not {ord(char) for char in letter} <= known and font_for(letter, style) is None:
            found |= dict.fromkeys(char for char in letter if font_for(char, style) is None)
    return "".join(found)


def _plain(text: str, style: Style) -> Iterator[Piece]:
    """Pieces of text whose signs stand one after the other."""
    found: list[tuple[str, str]] = []
    known = signs_of(style)
    for char in text if text.isascii() else _INVISIBLE.sub("", text):
        if unicodedata.category(char) == "Cc":
            char = " "
        key = style if char == " " or ord(char) in known else font_for(char, style)
        if key is None:
            key, char = "wide", MISSING
        if found and found[-1][0] == key:
            found[-1] = (key, found[-1][1] + char)
        else:
            found.append((key, char))
    for key, part in found:
        yield Piece(key, part, float(loaded_font(key).stringWidth(part, 1000.0)))


def _shaped(text: str, style: Style) -> Iterator[Piece]:
    runs: list[list[_Letter]] = []
    levels = levels_of(text)
    for at, letter in _letters(text, _DIRECTIONS):
        one = _letter(letter, style, levels[at])
        if runs and runs[-1][-1][::2] == one[::2] and (runs[-1][-1].script == one.script or not one.script):
            runs[-1].append(one._replace(script=runs[-1][-1].script))
        else:
            runs.append([one])
    for run in _in_visual_order(runs):
        yield _shape(run[0].key, "".join(one.text for one in run), right_to_left=run[0].level % 2 == 1)


def _letter(letter: str, style: Style, level: int) -> _Letter:
    script = script_of(letter[0])
    if letter[0] == " " or unicodedata.category(letter[0]) == "Cc":
        return _Letter(style, " ", level, script)
    shown = letter.strip(_JOINERS) or letter
    key = font_for(shown.replace("\u200c", "").replace("\u200d", "") or " ", style)
    if key is not None:
        return _Letter(key, letter, level, script)
    key = font_for(letter[0], style)
    if key is None:
        return _Letter("wide", MISSING, level, "")
    known = signs_of(key)
    return _Letter(
        key, "".join(char for char in letter if ord(char) in known or char in _JOINERS), level, script
    )


def belongs_to_letter(text: str, at: int) -> bool:
    """Whether a sign of a text is a mark of the letter before, or joined with it: no line breaks before it."""
    before = text[at - 1]
    joined = before in _JOINERS or (unicodedata.combining(before) == _VIRAMA and text[at].isalpha())
    return unicodedata.category(text[at])[0] == "M" or text[at] in _JOINERS or joined


def _letters(text: str, left_out: re.Pattern[str]) -> Iterator[tuple[int, str]]:
    """Letters with the marks that belong to them, and where in the text they begin."""
    begin, letter = 0, ""
    for at, char in enumerate(text):
        if left_out.match(char):
            continue
        if letter.strip() and (unicodedata.category(char)[0] == "M" or char in _JOINERS):
            letter += char
            continue
        if letter:
            yield begin, letter
        begin, letter = at, char
    if letter:
        yield begin, letter


def _in_visual_order(runs: list[list[_Letter]]) -> list[list[_Letter]]:
    """Runs from left to right: from the highest level down, all next to each other that reach it are turned about."""
    order = list(runs)
    for level in range(max((run[0].level for run in runs), default=0), 0, -1):
        begin = None
        for at, run in enumerate([*order, None]):
            reaches = run is not None and run[0].level >= level
            if reaches and begin is None:
                begin = at
            elif not reaches and begin is not None:
                order[begin:at] = order[begin:at][::-1]
                begin = None
    return order


def _shape(key: str, text: str, *, right_to_left: bool) -> Piece:
    """A run of one font, script and direction as glyphs from left to right."""
    import uharfbuzz

    font, sheet_font = shaping_font(key), loaded_font(key)
    buffer = uharfbuzz.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    buffer.direction = "rtl" if right_to_left else "ltr"
    uharfbuzz.shape(font, buffer)
    each = 1000.0 / font.face.upem
    glyphs: dict[int, list[tuple[int, float, float, float]]] = {}
    for info, position in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        moved = (position.x_advance * each, position.x_offset * each, position.y_offset * each)
        glyphs.setdefault(info.cluster, []).append((info.codepoint, *moved))
    begins = sorted(glyphs)
    ends = dict(zip(begins, [*begins[1:], len(text)], strict=True))
    clusters = []
    for begin, of_cluster in glyphs.items():
        said = text[begin : ends[begin]]
        if right_to_left and unicodedata.mirrored(said[0]):
            said = ""  # a bracket is read as the one it is drawn as: readers turn none about
        alone = said if len(of_cluster) == 1 else ""
        drawn = tuple(
            Glyph(sheet_font.char_of(number, alone, font.get_glyph_h_advance(number) * each), *moved)
            for number, *moved in of_cluster
        )
        own = alone or "".join(glyph.char for glyph in drawn)
        clusters.append(Cluster(drawn, "" if own == said else said))
    width = sum(glyph.advance for cluster in clusters for glyph in cluster.glyphs)
    return Piece(key, text, width, tuple(clusters), right_to_left)
