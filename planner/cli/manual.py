"""``bedwright manual``: the manual as a page or a PDF, with pictures that the program makes of itself."""

from __future__ import annotations

import argparse
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import partial
from gettext import NullTranslations
from pathlib import Path
from typing import TYPE_CHECKING

from planner.cli.command_words import command_text
from planner.cli.errors import UsageError
from planner.cli.output import print_lines, write_out
from planner.listings.export_files import PDF, ExportKind, export_target
from planner.manual.words import LANGUAGES
from planner.words import say, say_count, spoken_language, use_language, use_translations

if TYPE_CHECKING:
    from planner.desk.manual_pictures import Screen
    from planner.manual.book import Book, Generator

NAME = "manual"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Write the manual as one page (HTML) or as PDF")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the file to write, the language, and whether there are pictures."""
    parser.add_argument(
        "-o", "--output", metavar="OUT", help=say("the manual to write, by its ending: .html or .pdf")
    )
    parser.add_argument(
        "--language",
        choices=tuple(LANGUAGES),
        help=say("the language of the manual; that of the program where not given"),
    )
    parser.add_argument(
        "--no-pictures", action="store_true", help=say("leave the pictures out: quicker, and smaller")
    )
    parser.add_argument(
        "--pictures", metavar="FOLDER", help=say("write the pictures alone, each a PNG in this folder")
    )


def run(args: argparse.Namespace) -> int:
    """Write the manual, or its pictures."""
    if (args.output is None) == (args.pictures is None):
        raise UsageError(say("say what to write"), NAME, say("Name a file with -o, as -o manual.html"))
    if args.pictures is not None:
        return _write_pictures(Path(args.pictures))
    suffix = Path(args.output).suffix.casefold()
    if suffix not in (".html", ".pdf"):
        raise UsageError(
            say("the manual is a page or a PDF"), args.output, say("End its name with .html or .pdf")
        )
    export_target(args.output, _kind(suffix))  # before the window is opened for it
    language = args.language or spoken_language()
    with _speaking(language):
        screen = _screen(not args.no_pictures)
        book = read(args.program, language, screen.generators)
    _write(book, suffix, args.output, screen.pictures)
    return 0


@contextmanager
def _speaking(language: str) -> Iterator[None]:
    """Let the program speak a language, so that commands and pictures are in that of the manual where it can."""
    before = use_translations(NullTranslations())
    use_language(language)
    try:
        yield
    finally:
        use_translations(before)


def read(program: argparse.ArgumentParser, language: str, of_menus: Mapping[str, Generator]) -> Book:
    """The manual in a language, with the commands of a parser and those of the menus."""
    from planner.manual.book import read_book
    from planner.manual.generated import generators

    return read_book(language, generators({"commands": partial(command_text, program), **of_menus}))


def _kind(suffix: str) -> ExportKind:
    from planner.manual.html import MANUAL_PAGE

    return PDF if suffix == ".pdf" else MANUAL_PAGE


def _write(book: Book, suffix: str, output: str, pictures: Mapping[str, bytes]) -> None:
    if suffix == ".pdf":
        from planner.manual.pdf import book_pdf

        content: str | bytes = book_pdf(book, pictures)
    else:
        from planner.manual.html import book_html

        content = book_html(book, pictures)
    write_out(content, output, "", _kind(suffix))
    print_lines(
        say_count(
            "{file}: {count} chapter of the manual",
            "{file}: {count} chapters of the manual",
            len(book.chapters),
            file=output,
        )
    )


def _screen(with_pictures: bool) -> Screen:
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # the window is never seen
    os.environ.setdefault("QT_LOGGING_RULES", "default.warning=false")  # nor what that platform cannot do
    try:
        from planner.desk.manual_pictures import screen
    except ImportError as error:
        raise UsageError(
            say("the window's parts do not load ({error}), and the manual shows them", error=str(error)),
            fix=say("Run: python3 planner/bootstrap.py run"),
        ) from None
    return screen(with_pictures)


def _write_pictures(folder: Path) -> int:
    from planner.atomic_write import write_whole

    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in _screen(True).pictures.items():
            write_whole(folder / f"{name}.png", data)
    except OSError as error:
        raise UsageError(
            say("the pictures cannot be written ({reason})", reason=(error.strerror or str(error)).lower()),
            str(folder),
            say("Name a folder you may write to"),
        ) from error
    return 0
