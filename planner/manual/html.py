"""The manual as HTML: a chapter for the window, or the whole book as one file."""

from __future__ import annotations

import base64
import re
from collections.abc import Callable, Mapping
from functools import cache
from html import escape

from markdown_it import MarkdownIt

from planner.listings.export_files import ExportKind
from planner.manual.book import Book
from planner.manual.marks import with_anchors
from planner.words import later

#: How the file begins, by which an older one is told from any other page.
MANUAL_PAGE = ExportKind(".html", "<!doctype html><!-- Bedwright manual -->")
TITLE = later("Bedwright: the manual")
_CONTENTS = later("Contents")
_PICTURE = re.compile(r"\{picture:([\w-]+) ?([^{}]*)\}")
_STYLE = """
:root { color-scheme: light dark; --paper: #fbf8ef; --ink: #22211e; --second: #68645a; --line: #d8d1bb; --link: #1463b8; }
@media (prefers-color-scheme: dark) {
  :root { --paper: #1e1f1d; --ink: #e9e4d6; --second: #a39d8c; --line: #45463f; --link: #6fb1f5; } }
body { background: var(--paper); color: var(--ink); font: 16px/1.55 "IBM Plex Sans", system-ui, sans-serif; margin: 0; }
main, nav { max-width: 46rem; margin: 0 auto; padding: 1rem 1.25rem; }
h1 { font-size: 1.8rem; margin: 3rem 0 .5rem; border-bottom: 1px solid var(--line); }
h2 { font-size: 1.3rem; margin: 2rem 0 .3rem; } h3 { font-size: 1.05rem; margin: 1.4rem 0 .2rem; }
a { color: var(--link); } nav ol { columns: 2; } li { margin: .25rem 0; }
img { max-width: 100%; border: 1px solid var(--line); } figure { margin: 1rem 0; }
figcaption { color: var(--second); font-size: .9rem; }
table { border-collapse: collapse; width: 100%; } th, td { border-bottom: 1px solid var(--line); text-align: left;
  padding: .2rem .6rem .2rem 0; vertical-align: top; } pre, code { font-size: .9em; white-space: pre-wrap; overflow-wrap: anywhere; }
:target { background: color-mix(in srgb, var(--link) 18%, transparent); }
"""


@cache
def parser() -> MarkdownIt:
    """The reader of Markdown: the standard, tables, and our anchors."""
    return MarkdownIt("commonmark", {"html": True}).enable("table")


def chapter_html(markdown: str, picture: Callable[[str, str], str]) -> str:
    """A chapter as HTML.

    Parameters
    ----------
    markdown : str
    picture : callable
        From the name of a picture and its words to HTML.
    """
    text = _PICTURE.sub(lambda found: picture(found.group(1), escape(found.group(2))), markdown)
    return str(parser().render(with_anchors(text)))


def pictures_of(markdown: str) -> tuple[str, ...]:
    """Names of the pictures in a chapter."""
    return tuple(found.group(1) for found in _PICTURE.finditer(markdown))


def book_html(book: Book, pictures: Mapping[str, bytes]) -> str:
    """The whole manual as one page, with its pictures in it; those that are not there are left out.

    Parameters
    ----------
    book : Book
    pictures : mapping
        PNG files by name.
    """

    def picture(name: str, words: str) -> str:
        if name not in pictures:
            return ""
        data = base64.b64encode(pictures[name]).decode("ascii")
        return (
            f'<figure><img alt="{words}" src="data:image/png;base64,{data}">'
            f"<figcaption>{words}</figcaption></figure>"
        )

    title = escape(book.words.say(TITLE))
    contents = "\n".join(
        f'<li><a href="#{chapter.name}">{escape(chapter.title)}</a></li>' for chapter in book.chapters
    )
    chapters = "\n".join(
        f'<section><a id="{chapter.name}"></a>{chapter_html(chapter.markdown, picture)}</section>'
        for chapter in book.chapters
    )
    return (
        f'{MANUAL_PAGE.begins}\n<html lang="{book.language}"><head><meta charset="utf-8">'
        f'<meta name="viewport" content="width=device-width"><title>{title}</title><style>{_STYLE}</style></head>\n'
        f"<body><nav><h1>{title}</h1><h2>{escape(book.words.say(_CONTENTS))}</h2><ol>\n{contents}\n</ol></nav>\n"
        f"<main>\n{chapters}\n</main></body></html>\n"
    )
