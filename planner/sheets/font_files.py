"""The fonts of sheets: those that come with the program, then those of the computer, each for the signs it has.

A font is known by a key: that of a font of ours, or the path of one of the computer's.
"""

from __future__ import annotations

import os
import sys
import unicodedata
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from planner import resources

if TYPE_CHECKING:
    import uharfbuzz

    from planner.sheets.sheet_font import SheetFont

Style = Literal["regular", "bold", "italic"]

_OURS = {
    "regular": "IBMPlexSans-Regular",
    "bold": "IBMPlexSans-SemiBold",
    "italic": "IBMPlexSans-Italic",
    "wide": "DejaVuSans",
    "emoji": "NotoEmoji-Regular",
    "cjk": "DroidSansFallbackFull",
}
#: Fonts for signs that the text's own font has not, the first that has them.
_FALLBACKS = ("wide", "emoji", "cjk")
#: Fonts of one script each, by the first word of the names of its signs.
_OF_SCRIPTS = {
    "BENGALI", "DEVANAGARI", "ETHIOPIC", "GUJARATI", "GURMUKHI", "KANNADA", "KHMER", "LAO", "MALAYALAM", "MYANMAR",
    "ORIYA", "SINHALA", "TAMIL", "TELUGU", "THAI",
}  # fmt: skip
#: Folders of the computer are looked through up to this number of fonts.
_MOST_FONTS = 3000
#: A font whose makers forbid embedding is left alone (OpenType, OS/2 fsType).
_NO_EMBEDDING = 0x0002


def script_of(char: str) -> str:
    """Return the script of a sign, by the first word of its name; empty for what belongs to several."""
    if unicodedata.category(char)[0] in "PZSNC":
        return ""
    return unicodedata.name(char, "").partition(" ")[0]


@cache
def loaded_font(key: str) -> SheetFont:
    """Load a font for PDFs, at its first use."""
    from reportlab.pdfbase import pdfmetrics

    from planner.sheets.sheet_font import SheetFont

    path = font_path(key)
    font = SheetFont(f"Sheet-{path.stem}", str(path))
    pdfmetrics.registerFont(font)
    return font


def font_path(key: str) -> Path:
    """Where the file of a font is."""
    if key in _OURS:
        return resources.resource("fonts", f"{_OURS[key]}.ttf")
    if key in _OF_SCRIPTS:
        return resources.resource("fonts", f"NotoSans{key.capitalize()}-Regular.ttf")
    return Path(key)


@cache
def shaping_font(key: str) -> uharfbuzz.Font:
    """A font as HarfBuzz has it."""
    import uharfbuzz

    return uharfbuzz.Font(uharfbuzz.Face(uharfbuzz.Blob.from_file_path(str(font_path(key)))))


@cache
def signs_of(key: str) -> frozenset[int]:
    """Code points of the signs that a font has."""
    return frozenset(shaping_font(key).face.unicodes)


def font_for(text: str, style: Style) -> str | None:
    """Return the font in which some signs are set; None where no font has them all.

    Parameters
    ----------
    text : str
        A letter with its marks.
    style : {"regular", "bold", "italic"}
    """
    codes = {ord(char) for char in text}
    return next((key for key in _chain(script_of(text[0]), style) if codes <= signs_of(key)), None) or (
        _font_of_the_computer(frozenset(codes))
    )


def _chain(script: str, style: Style) -> Iterator[str]:
    yield style
    if script in _OF_SCRIPTS:
        yield script
    yield from _FALLBACKS


@cache
def _font_of_the_computer(codes: frozenset[int]) -> str | None:
    return next((key for key, has in _computer_fonts() if codes <= has), None)


@cache
def _computer_fonts() -> tuple[tuple[str, frozenset[int]], ...]:
    """The TrueType fonts of the computer that may be embedded, and their signs; upright ones without serifs first."""
    found = []
    for path in sorted(_font_files(), key=_rank)[:_MOST_FONTS]:
        try:
            face: Any = shaping_font(str(path)).face
            if "glyf" in face.table_tags and not _is_locked(face):
                found.append((str(path), signs_of(str(path))))
        except Exception:  # a broken font of another program must not keep sheets from being printed
            continue
    return tuple(found)


def _is_locked(face: Any) -> bool:
    table = bytes(face.reference_table("OS/2").data)
    return len(table) >= 10 and int.from_bytes(table[8:10], "big") & 0x000F == _NO_EMBEDDING


def _rank(path: Path) -> tuple[bool, bool, str]:
    name = path.stem.casefold()
    plain = "sans" in name and "mono" not in name
    upright = not any(word in name for word in ("bold", "italic", "oblique", "light", "thin", "black"))
    return not upright, not plain, name


def _font_files() -> Iterator[Path]:
    for folder in font_folders():
        if folder.is_dir():
            yield from (path for path in folder.rglob("*") if path.suffix.casefold() == ".ttf")


def font_folders() -> tuple[Path, ...]:
    """Where this kind of computer keeps fonts."""
    home = Path.home()
    if sys.platform == "win32":
        own = Path(os.environ.get("LOCALAPPDATA", str(home))) / "Microsoft" / "Windows" / "Fonts"
        return (Path(os.environ.get("WINDIR", r"C:\Windows")) / "Fonts", own)
    if sys.platform == "darwin":
        return (Path("/System/Library/Fonts"), Path("/Library/Fonts"), home / "Library" / "Fonts")
    own = Path(os.environ.get("XDG_DATA_HOME") or home / ".local" / "share") / "fonts"
    return (Path("/usr/share/fonts"), Path("/usr/local/share/fonts"), own, home / ".fonts")
