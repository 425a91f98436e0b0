"""The manual as a PDF: chapters begin on pages of their own, with bookmarks and links."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator, Mapping
from html import escape
from typing import Any

from markdown_it.token import Token
from reportlab.lib import colors
from reportlab.lib.pagesizes import A4
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.utils import ImageReader
from reportlab.platypus import (
    BaseDocTemplate,
    Flowable,
    Frame,
    Image,
    ListFlowable,
    ListItem,
    PageBreak,
    PageTemplate,
    Paragraph,
    Spacer,
    Table,
    TableStyle,
)

from planner.manual.book import Book
from planner.manual.html import TITLE, parser
from planner.manual.marks import heading, names_in
from planner.manual.marks import with_anchors as anchored
from planner.sheets.fonts import MM, font_name
from planner.words import later

_CONTENTS = later("Contents")
#: Margins, and height of a picture at most. [mm]
MARGIN, TALLEST = 20.0, 150.0
_INK, _SECOND, _LINE, _LINK = (colors.HexColor(one) for one in ("#22211e", "#68645a", "#d8d1bb", "#1463b8"))
#: Lists longer than this are set as paragraphs: a long list in one piece takes a long time to be divided.
_LONG_LIST = 60


def book_pdf(book: Book, pictures: Mapping[str, bytes]) -> bytes:
    """The whole manual as a PDF on A4.

    Parameters
    ----------
    book : Book
    pictures : mapping
        PNG files by name; those that are not there are left out.
    """
    stream = io.BytesIO()
    title = book.words.say(TITLE)
    template = _Template(stream, title, book.language)
    styles = _styles()
    story: list[Flowable] = [Spacer(1, 60 * MM), Paragraph(escape(title), styles["title"]), PageBreak()]
    story.append(Paragraph(escape(book.words.say(_CONTENTS)), styles["h1"]))
    for chapter in book.chapters:
        line = f'<link href="#{chapter.name}" color="#1463b8">{escape(chapter.title)}</link>'
        story.append(Paragraph(line, styles["contents"]))
    for chapter in book.chapters:
        story.append(PageBreak())
        story += _Setting(styles, pictures, set(book.places)).flowables(chapter.name, chapter.markdown)
    template.build(story)
    return stream.getvalue()


class _Template(BaseDocTemplate):  # type: ignore[misc]  # reportlab has no types
    """Pages with their number, and headings as bookmarks."""

    def __init__(self, stream: io.BytesIO, title: str, language: str) -> None:
        super().__init__(
            stream,
            pagesize=A4,
            title=title,
            lang=language,
            creator="Bedwright",
            invariant=1,
            leftMargin=MARGIN * MM,
            rightMargin=MARGIN * MM,
            topMargin=MARGIN * MM,
            bottomMargin=MARGIN * MM,
        )
        frame = Frame(self.leftMargin, self.bottomMargin, self.width, self.height, id="text", showBoundary=0)
        self.addPageTemplates([PageTemplate("page", [frame], onPage=self._foot)])
        self._marks = 0

    def _foot(self, canvas: Any, _document: Any) -> None:
        if canvas.getPageNumber() > 1:
            canvas.setFont(font_name("regular"), 9)
            canvas.setFillColor(_SECOND)
            canvas.drawCentredString(A4[0] / 2, 11 * MM, str(canvas.getPageNumber()))

    def afterFlowable(self, flowable: Flowable) -> None:  # noqa: N802  # name of reportlab's method
        level = getattr(flowable, "outline_level", None)
        if level is not None:
            self._marks += 1
            key = f"outline-{self._marks}"
            self.canv.bookmarkPage(key)
            self.canv.addOutlineEntry(flowable.outline_words, key, level, closed=level == 0)


def _styles() -> dict[str, ParagraphStyle]:
    regular, bold, italic = font_name("regular"), font_name("bold"), font_name("italic")
    text = ParagraphStyle("text", fontName=regular, fontSize=10, leading=14, textColor=_INK, spaceAfter=6)
    return {
        "text": text,
        "item": ParagraphStyle("item", parent=text, spaceAfter=3),
        "cell": ParagraphStyle("cell", parent=text, fontSize=9, leading=12, spaceAfter=0),
        "small": ParagraphStyle("small", parent=text, fontSize=8.5, leading=11.5, spaceAfter=2, leftIndent=8, firstLineIndent=-8),
        "code": ParagraphStyle("code", parent=text, fontSize=9, leading=12.5, backColor=colors.HexColor("#f3efe3"), borderPadding=4, spaceBefore=4, spaceAfter=10),
        "caption": ParagraphStyle("caption", parent=text, fontName=italic, fontSize=9, textColor=_SECOND, spaceAfter=10),
        "contents": ParagraphStyle("contents", parent=text, fontSize=11, leading=17, spaceAfter=0),
        "title": ParagraphStyle("title", parent=text, fontName=bold, fontSize=28, leading=34),
        "h1": ParagraphStyle("h1", parent=text, fontName=bold, fontSize=20, leading=25, spaceAfter=10),
        "h2": ParagraphStyle("h2", parent=text, fontName=bold, fontSize=14, leading=18, spaceBefore=12, spaceAfter=4, keepWithNext=1),
        "h3": ParagraphStyle("h3", parent=text, fontName=bold, fontSize=11, leading=15, spaceBefore=8, spaceAfter=3, keepWithNext=1),
    }  # fmt: skip


class _Setting:
    """Sets a chapter: its tokens become paragraphs, lists, tables and pictures."""

    def __init__(
        self, styles: dict[str, ParagraphStyle], pictures: Mapping[str, bytes], places: set[str]
    ) -> None:
        self._styles, self._pictures, self._places = styles, pictures, places
        self._set: set[str] = set()

    def flowables(self, chapter: str, markdown: str) -> list[Flowable]:
        """The chapter, with its name as a place that can be linked to."""
        first, rest = markdown.split("\n", 1)
        names = " ".join(f"#{name}" for name in (chapter, *names_in(first)))
        _, title = heading(first)
        self._tokens = parser().parse(anchored(f"# {title} {{{names}}}\n{rest}"))
        self._at = 0
        return list(self._blocks(lambda token: False))

    def _next(self) -> Token:
        token = self._tokens[self._at]
        self._at += 1
        return token

    def _blocks(self, ends: Callable[[Token], bool]) -> Iterator[Flowable]:
        while self._at < len(self._tokens):
            token = self._next()
            if ends(token):
                return
            match token.type:
                case "heading_open":
                    yield self._heading(token.tag, self._next())
                case "paragraph_open":
                    yield from self._paragraph(self._next(), "text")
                case "bullet_list_open" | "ordered_list_open":
                    yield from self._list(token)
                case "table_open":
                    yield self._table()
                case "fence" | "code_block":
                    lines = escape(token.content.rstrip("\n")).replace(" ", "&nbsp;")
                    yield Paragraph(lines.replace("\n", "<br/>"), self._styles["code"])
                case _:
                    pass

    def _heading(self, tag: str, inline: Token) -> Flowable:
        made = Paragraph(self._inline(inline), self._styles[tag if tag in self._styles else "h3"])
        level = {"h1": 0, "h2": 1}.get(tag)
        if level is not None:
            made.outline_level = level
            made.outline_words = "".join(
                one.content for one in inline.children or () if one.type == "text"
            ).strip()
        return made

    def _paragraph(self, inline: Token, style: str) -> Iterator[Flowable]:
        text = inline.content
        if text.startswith("{picture:"):
            yield from self._picture(text)
        else:
            yield Paragraph(self._inline(inline), self._styles[style])

    def _picture(self, mark: str) -> Iterator[Flowable]:
        name, _, words = mark.removeprefix("{picture:").rstrip("}").partition(" ")
        if name not in self._pictures:
            return
        wide, high = ImageReader(io.BytesIO(self._pictures[name])).getSize()
        room = A4[0] - 2 * MARGIN * MM - 12
        scale = min(room / wide, TALLEST * MM / high)
        yield Image(io.BytesIO(self._pictures[name]), wide * scale, high * scale, hAlign="LEFT")
        yield Paragraph(escape(words), self._styles["caption"])

    def _list(self, opening: Token) -> Iterator[Flowable]:
        closing = opening.type.replace("open", "close")
        items: list[list[Flowable]] = []
        while (token := self._next()).type != closing:
            if token.type == "list_item_open":
                items.append(list(self._items()))
        if len(items) > _LONG_LIST:
            for item in items:
                for one in item:
                    if isinstance(one, Paragraph):
                        one = Paragraph(f"· {one.text}", self._styles["small"])
                    yield one
            return
        yield ListFlowable(
            [ListItem(item, leftIndent=14) for item in items],
            bulletType="1" if opening.type.startswith("ordered") else "bullet",
            bulletFontName=font_name("regular"),
            bulletFontSize=10 if opening.type.startswith("ordered") else 7,
            bulletOffsetY=0 if opening.type.startswith("ordered") else -2,
            leftIndent=14,
        )

    def _items(self) -> Iterator[Flowable]:
        while self._tokens[self._at].type != "list_item_close":
            token = self._next()
            if token.type == "paragraph_open":
                yield from self._paragraph(self._next(), "item")
            elif token.type in ("bullet_list_open", "ordered_list_open"):
                yield from self._list(token)
        self._at += 1

    def _table(self) -> Flowable:
        rows: list[list[Flowable]] = []
        while (token := self._next()).type != "table_close":
            if token.type == "tr_open":
                rows.append([])
            elif token.type == "inline":
                rows[-1].append(Paragraph(self._inline(token), self._styles["cell"]))
        columns = max(len(row) for row in rows)
        room = A4[0] - 2 * MARGIN * MM - 12
        shares = (0.28, 0.4, 0.32) if columns == 3 else (1 / columns,) * columns
        table = Table(rows, [room * share for share in shares], repeatRows=1, hAlign="LEFT")
        table.setStyle(
            TableStyle(
                [
                    ("LINEBELOW", (0, 0), (-1, -1), 0.4, _LINE),
                    ("VALIGN", (0, 0), (-1, -1), "TOP"),
                    ("LEFTPADDING", (0, 0), (-1, -1), 0),
                    ("TOPPADDING", (0, 0), (-1, -1), 2),
                    ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
                ]
            )
        )
        return table

    def _inline(self, inline: Token) -> str:
        """A line as reportlab's paragraphs take it."""
        bold, italic = font_name("bold"), font_name("italic")
        parts, linked = [], False
        for token in inline.children or ():
            match token.type:
                case "text":
                    parts.append(escape(token.content))
                case "code_inline":
                    parts.append(f'<font name="{bold}">{escape(token.content)}</font>')
                case "strong_open":
                    parts.append(f'<font name="{bold}">')
                case "em_open":
                    parts.append(f'<font name="{italic}">')
                case "strong_close" | "em_close":
                    parts.append("</font>")
                case "link_open":
                    target = str(token.attrs.get("href", ""))
                    linked = target.removeprefix("#") in self._places
                    if linked:
                        parts.append(f'<link href="{escape(target)}" color="#1463b8">')
                case "link_close" if linked:
                    parts.append("</link>")
                case "softbreak":
                    parts.append(" ")
                case "hardbreak":
                    parts.append("<br/>")
                case "html_inline" if token.content.startswith('<a id="'):
                    name = token.content.split('"')[1]
                    if name not in self._set:  # a place is one, whatever leads to it
                        self._set.add(name)
                        parts.append(f'<a name="{name}"/>')
                case _:
                    pass
        return "".join(parts).strip()
