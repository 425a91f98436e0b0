"""Names in any script on paper.

Yardsticks: Qt's text layout, which has its own copy of HarfBuzz and its own bidirectional algorithm, for which glyphs are
drawn and how far apart; the font files inside the PDF, taken out with pikepdf, for which glyphs the page really draws;
PDFium for what is read where text is copied or searched.
"""

from __future__ import annotations

import io
import shutil

import pikepdf
import pytest
import uharfbuzz
from PySide6.QtCore import QPointF
from PySide6.QtGui import QFont, QFontDatabase, QTextLayout
from PySide6.QtWidgets import QApplication

from planner import resources
from planner.desk.app import application
from planner.garden import Garden, Site
from planner.plan import Plan
from planner.sheets import font_files, fonts, text_pieces
from planner.sheets.missing_signs import missing_in, missing_words
from planner.sheets.output import new_canvas
from planner.sheets.page_chrome import PAPERS
from planner.sheets.pen import Pen
from planner.sheets.text_pieces import missing_signs, pieces
from tests.making import bed, planting
from tests.sheets.paper_reading import Paper

#: Words of one font each: Devanagari, Bengali, Gujarati, Gurmukhi, Tamil, Telugu, Kannada, Malayalam, Sinhala, Thai, Lao,
#: Khmer, Myanmar, Ethiopic, Arabic with and without vowels, Persian with a joiner, Hebrew with and without points.
WORDS = {
    "DEVANAGARI": ("क्षेत्र", "हिन्दी", "र्क्यारी", "श्री"),
    "BENGALI": ("ক্ষেত্র", "শ্রী", "বেগুন"),
    "GUJARATI": ("ક્યારી",),
    "GURMUKHI": ("ਕਿਆਰੀ",),
    "TAMIL": ("தக்காளி", "கொ"),
    "TELUGU": ("క్షేత్రం",),
    "KANNADA": ("ಕ್ಷೇತ್ರ",),
    "MALAYALAM": ("ക്ഷേത്രം",),
    "SINHALA": ("ක්ෂේත්‍ර",),
    "THAI": ("น้ำ", "ที่", "ป่า", "ฐี"),
    "LAO": ("ນ້ຳ",),
    "KHMER": ("ត្រសក់",),
    "MYANMAR": ("ကြက်သွန်",),
    "ETHIOPIC": ("ቲማቲም",),
    "wide": ("بيت", "عَرَبِيّ", "نمی‌خواهم", "שלום", "שָׁלוֹם"),
}
CASES = [(key, word) for key, words in WORDS.items() for word in words]
#: Whole names that are read as they were written.
READ = [
    "टमाटर क्षेत्र की क्यारी ‘पूसा रूबी’",
    "แปลงผัก น้ำ ที่ ป่า",
    "菜园 番茄 トマト",
    "Кабачок ‘Грибовский’ № 7",
    "Κολοκύθι ‘Λευκό’",
    "ערוגת עגבניות (מזרח) 12",
    "بيت الطماطم",
    "Bed 🥕 q\u030c",
]


def on_paper(text: str) -> bytes:
    stream = io.BytesIO()
    with new_canvas(stream, PAPERS["a4"], "Names") as canvas:
        Pen(canvas).text(20.0, 200.0, text, 20.0)
        canvas.showPage()
    return stream.getvalue()


def laid_out_by_qt(key: str, word: str) -> list[tuple[int, float, float]]:
    """Numbers of the glyphs of a word from left to right, and where each stands. [thousandths of the size]"""
    added = QFontDatabase.addApplicationFont(str(font_files.font_path(key)))
    try:  # other tests measure windows in the usual fonts
        return _laid_out(QFontDatabase.applicationFontFamilies(added)[0], word)
    finally:
        QFontDatabase.removeApplicationFont(added)


def _laid_out(family: str, word: str) -> list[tuple[int, float, float]]:
    font = QFont(family)
    font.setPixelSize(1000)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    font.setStyleStrategy(QFont.StyleStrategy.NoFontMerging)
    layout = QTextLayout(word, font)
    layout.beginLayout()
    layout.createLine().setPosition(QPointF(0, 0))
    layout.endLayout()
    found = []
    for run in layout.glyphRuns():
        found += [
            (number, at.x(), -at.y()) for number, at in zip(run.glyphIndexes(), run.positions(), strict=True)
        ]
    return sorted(found, key=lambda one: (round(one[1]), one[0]))


def ours(word: str) -> list[tuple[int, float, float]]:
    found, at = [], 0.0
    (piece,) = pieces(word)
    known = font_files.loaded_font(piece.key).face.charToGlyph
    for cluster in piece.clusters:
        for char, advance, right, up in cluster.glyphs:
            found.append((known[ord(char)], at + right, up))
            at += advance
    return sorted(found, key=lambda one: (round(one[1]), one[0]))


@pytest.fixture(scope="module")
def qapp() -> QApplication:
    """The program's own: tests of the window in the same process measure in its style and fonts."""
    return application()


@pytest.mark.parametrize(("key", "word"), CASES)
def test_the_glyphs_are_those_that_qt_lays_out(qapp, key, word):
    shown = [one for one in ours(word) if one[0] != blank(key)]
    wanted = [one for one in laid_out_by_qt(key, word) if one[0] not in (blank(key), 0xFFFFFF)]
    assert [number for number, *_ in shown] == [number for number, *_ in wanted]
    base = wanted[0][2] - shown[0][2]
    for (_, x, y), (_, there_x, there_y) in zip(shown, wanted, strict=True):
        assert x == pytest.approx(there_x, abs=3.0)  # Qt rounds to 1/64 pixel, and at times to whole pixels
        assert y == pytest.approx(there_y - base, abs=3.0)


def blank(key: str) -> int | None:
    """The empty glyph that stands for a joiner."""
    return font_files.shaping_font(key).get_nominal_glyph(ord(" "))


class Strokes:
    """Takes down the outline of a glyph."""

    def __init__(self) -> None:
        self.found: list[tuple[str, tuple[object, ...]]] = []

    def __getattr__(self, name: str):
        return lambda *points: self.found.append((name, points))


def outline(font: uharfbuzz.Font, glyph: int) -> list[tuple[str, tuple[object, ...]]]:
    strokes = Strokes()
    font.draw_glyph_with_pen(glyph, strokes)
    return strokes.found


@pytest.mark.parametrize("word", ["क्षेत्र", "ක්ෂේත්‍ර", "عَرَبِيّ", "שָׁלוֹם", "น้ำ"])
def test_the_page_draws_the_glyphs_of_the_font(word):
    (piece,) = pieces(word)
    whole = font_files.shaping_font(piece.key)
    buffer = uharfbuzz.Buffer()
    buffer.add_str(word)
    buffer.guess_segment_properties()
    uharfbuzz.shape(whole, buffer)
    wanted = [outline(whole, info.codepoint) for info in buffer.glyph_infos]
    with pikepdf.open(io.BytesIO(on_paper(word))) as pdf:
        page, drawn = pdf.pages[0], []
        inside: dict[str, uharfbuzz.Font] = {}
        for operands, operator in pikepdf.parse_content_stream(page):
            if str(operator) == "Tf":
                name = str(operands[0])
                if name not in inside:
                    data = page.Resources.Font[name].FontDescriptor.FontFile2.read_bytes()
                    inside[name] = uharfbuzz.Font(uharfbuzz.Face(uharfbuzz.Blob(data)))
                font = inside[name]
            elif str(operator) == "TJ":
                for part in operands[0]:
                    if isinstance(part, pikepdf.String):
                        codes = bytes(part)
                        drawn += [outline(font, glyph_of(font, code)) for code in codes]
    assert drawn == wanted


def glyph_of(font: uharfbuzz.Font, code: int) -> int:
    glyph = font.get_nominal_glyph(code)
    return glyph if glyph is not None else font.get_nominal_glyph(0xF000 + code)


@pytest.mark.parametrize("name", READ)
def test_names_are_read_as_they_were_written(name):
    with Paper(on_paper(name)) as paper:
        assert paper.text(0) == name
        assert paper.fonts_embedded()


@pytest.mark.parametrize("name", [*READ, *(word for _, word in CASES)])
def test_a_name_is_as_wide_as_it_is_drawn(name):
    """What is drawn ends where its width says, give or take a stroke that overhangs."""
    dark = (Paper(on_paper(name)).picture(0) < 128).any(axis=0).nonzero()[0] * 25.4 / 144
    assert dark[0] == pytest.approx(20.0, abs=1.5)
    assert dark[-1] == pytest.approx(20.0 + fonts.width(name, 20.0), abs=2.0)


def test_signs_without_a_font_are_told():
    assert missing_signs("टमाटर 菜园 שלום Кабачок") == ""
    assert missing_signs("Bed \U00012000\U00012000\U00012001") == "\U00012000\U00012001"
    site = Site(name="Garden \U00012000")
    beds = (bed("a", name="Bed ꨀꨁ"), bed("b", name="畑"))
    plan = Plan(Garden(site=site, beds=beds, plantings=(planting("p", "a", variety="ꨀ"),)), 2026)
    found = missing_in(plan)
    assert [(one.text, one.signs) for one in found] == [
        ("Garden \U00012000", "\U00012000"),
        ("Bed ꨀꨁ", "ꨀꨁ"),
        ("ꨀ", "ꨀ"),
    ]
    assert missing_words(found) == [
        "No font has all signs of “Garden \U00012000” (\U00012000 U+12000); they are printed as \ufffd. "
        "Install a TrueType font (.ttf) for Cuneiform.",
        "No font has all signs of “Bed ꨀꨁ” (ꨀ U+AA00, ꨁ U+AA01) and “ꨀ” (ꨀ U+AA00); they are printed as \ufffd. "
        "Install a TrueType font (.ttf) for Cham.",
    ]


@pytest.fixture
def folder_of_fonts(tmp_path, monkeypatch):
    """A computer with no fonts but those of a folder, for a program that has none for Thai and Khmer."""
    cached = [
        font_files._computer_fonts,
        font_files._font_of_the_computer,
        text_pieces.pieces,
        fonts._unit_width,
        fonts.wrap,
    ]

    def forget():
        for function in cached:
            function.cache_clear()

    monkeypatch.setattr(font_files, "font_folders", lambda: (tmp_path, tmp_path / "none"))
    monkeypatch.setattr(font_files, "_OF_SCRIPTS", font_files._OF_SCRIPTS - {"THAI", "KHMER"})
    forget()
    yield tmp_path
    forget()


def test_fonts_of_the_computer_are_used_where_ours_lack_signs(folder_of_fonts):
    (folder_of_fonts / "Broken.ttf").write_bytes(b"no font")
    (folder_of_fonts / "deep").mkdir()
    shutil.copy(
        resources.resource("fonts", "NotoSansThai-Regular.ttf"), folder_of_fonts / "deep" / "Thai.TTF"
    )
    assert missing_signs("น้ำ") == ""
    assert missing_signs("ក") == "ក"
    (piece,) = pieces("น้ำ")
    assert piece.key == str(folder_of_fonts / "deep" / "Thai.TTF")
    with pikepdf.open(io.BytesIO(on_paper("น้ำ"))) as pdf:
        bases = [str(font.BaseFont) for font in pdf.pages[0].Resources.Font.values()]
        assert any(base.endswith("+NotoSansThai-Regular") for base in bases)


def test_fonts_that_may_not_be_embedded_are_left_alone(folder_of_fonts):
    data = bytearray(resources.resource("fonts", "NotoSansThai-Regular.ttf").read_bytes())
    tables = {bytes(data[at : at + 4]): data[at + 8 : at + 12] for at in range(12, 12 + 16 * data[5], 16)}
    rights = int.from_bytes(tables[b"OS/2"], "big") + 8
    data[rights : rights + 2] = b"\x00\x02"
    (folder_of_fonts / "Locked.ttf").write_bytes(data)
    assert missing_signs("ก") == "ก"
