"""The manual as a book: chapters in one language, places by name, and a search of words."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from planner.errors import BedwrightError
from planner.manual.marks import filled, first_bold, heading, names_in, plain
from planner.manual.words import LANGUAGES, ManualWords
from planner.resources import resource

#: Chapters in their order: names of files in ``resources/manual/LANGUAGE``.
CHAPTERS = (
    "start", "words", "pages", "draw", "plant", "details", "year", "records", "outside", "proposal", "amounts",
    "harvest", "sheets", "checks", "figures", "safety", "files", "menus", "commands", "format", "sources", "new",
)  # fmt: skip
#: Chapters whose places are made of code, by how their names begin.
GENERATED = {"rule": "checks", "command": "commands", "format": "format"}
#: Chapters that tell of fields of the window.
FIELDS = ("details", "pages")
#: Chapters that are tables to look things up in: a search names them last.
TABLES = ("format", "sources")
#: Most places that a search names.
MOST_FOUND = 40

#: Text that is made of code and tables, from the words of the manual and the word behind the mark.
Generator = Callable[[ManualWords, str], str]


class ManualError(BedwrightError):
    """A manual that cannot be read or written."""


@dataclass(frozen=True)
class Section:
    """A place in the manual: what stands under a heading, or one entry of a list that has a name of its own.

    Attributes
    ----------
    chapter : str
        Name of its chapter.
    level : int
        Of its heading; 0 for an entry.
    title : str
    names : tuple of str
        By which it is found; the first is the one to go to.
    text : str
        What it says, without marks.
    """

    chapter: str
    level: int
    title: str
    names: tuple[str, ...]
    text: str


@dataclass(frozen=True)
class Chapter:
    """A chapter.

    Attributes
    ----------
    name, title : str
    written : str
        As it is written, with marks.
    fill : callable
        What the program has to say, from the kind of a mark and its word.
    """

    name: str
    title: str
    written: str
    fill: Callable[[str, str], str] = field(compare=False)

    @cached_property
    def markdown(self) -> str:
        """With everything filled in but pictures, and with names of places."""
        return filled(self.written, self.fill)

    @cached_property
    def written_names(self) -> frozenset[str]:
        """Names of the places that are written and not generated."""
        return frozenset((self.name, *names_in(self.written)))

    @cached_property
    def sections(self) -> tuple[Section, ...]:
        """Its places, in their order."""
        return tuple(_sections(self.name, self.markdown))


@dataclass(frozen=True)
class Book:
    """The manual in one language.

    Attributes
    ----------
    language : str
    chapters : tuple of Chapter
    """

    language: str
    chapters: tuple[Chapter, ...]
    words: ManualWords = field(compare=False)

    @cached_property
    def places(self) -> Mapping[str, Section]:
        """All places by name."""
        return {
            name: section
            for chapter in self.chapters
            for section in chapter.sections
            for name in section.names
        }

    def chapter(self, name: str) -> Chapter:
        """A chapter by its name."""
        return next(chapter for chapter in self.chapters if chapter.name == name)

    def __contains__(self, name: str) -> bool:
        return self.chapter_of(name) is not None

    def chapter_of(self, name: str) -> Chapter | None:
        """The chapter that has a place; None for no place.  Fills in no more than it must."""
        for chapter in self.chapters:
            if name in chapter.written_names:
                return chapter
        generated = self.chapter(GENERATED[kind]) if (kind := name.split(".")[0]) in GENERATED else None
        if generated is not None and any(name in section.names for section in generated.sections):
            return generated
        return None

    def section(self, name: str) -> Section:
        """A place by its name."""
        chapter = self.chapter_of(name)
        assert chapter is not None, name
        return next(section for section in chapter.sections if name in section.names)

    def nearest(self, name: str) -> str:
        """The name of the place that tells most of something: its own, or that of what it belongs to.

        ``planting.variety`` belongs to ``planting``; what has no place at all is at the beginning.
        """
        while name not in self and "." in name:
            name = name.rpartition(".")[0]
        return name if name in self else CHAPTERS[0]

    def found(self, words: str) -> list[Section]:
        """Places in which all words are, those that have them in their title first.

        Parameters
        ----------
        words : str
            Parts of words, whatever their case and accents.
        """
        wanted = _folded(words).split()
        if not wanted:
            return []
        ranked = []
        for number, section in enumerate(one for chapter in self.chapters for one in chapter.sections):
            title, text = self._searched[number]
            if all(word in text for word in wanted):
                in_title = sum(word in title for word in wanted)
                whole = sum(re.search(rf"\b{re.escape(word)}\b", title) is not None for word in wanted)
                ranked.append(
                    (section.chapter in TABLES, -whole, -in_title, section.level == 0, number, section)
                )
        return [section for *_, section in sorted(ranked, key=lambda one: one[:5])][:MOST_FOUND]

    @cached_property
    def _searched(self) -> list[tuple[str, str]]:
        return [
            (_folded(section.title), _folded(f"{section.title} {section.text}"))
            for chapter in self.chapters
            for section in chapter.sections
        ]


def read_book(language: str, generators: Mapping[str, Generator]) -> Book:
    """Read the manual, and fill in what the program has to say.

    Parameters
    ----------
    language : str
        ``en``, ``de``; English for any other.
    generators : mapping
        By the kind of their mark: ``action``, ``value``, or by the first word of ``generated``.
    """
    language = language.replace("_", "-").split("-")[0]
    words = ManualWords(language if language in LANGUAGES else "en")

    def fill(kind: str, word: str) -> str:
        if kind == "picture":
            return f"{{picture:{word}}}"
        if kind == "generated":
            kind, _, word = word.partition(" ")
        return generators[kind](words, word)

    chapters = []
    for name in CHAPTERS:
        text = chapter_text(words.language, name)
        if not words.is_spoken and name in FIELDS:
            text = with_words_on_screen(text, chapter_text("en", name))
        level, title = heading(text.split("\n", 1)[0])
        if level != 1:
            raise ManualError("does not begin with its title", f"{words.language}/{name}.md")
        chapters.append(Chapter(name, title, text, fill))
    return Book(words.language, tuple(chapters), words)


def chapter_text(language: str, name: str) -> str:
    """A chapter as it is written.

    Raises
    ------
    ManualError
        Where it is not there.
    """
    path = resource("manual", language, f"{name}.md")
    try:
        return path.read_text("utf-8")
    except OSError as error:
        raise ManualError(
            "a chapter of the manual cannot be read", str(path), "Install the program again"
        ) from error


def with_words_on_screen(text: str, english: str) -> str:
    """A chapter in which each field has the words that it has in the window as well, which speaks English.

    Parameters
    ----------
    text, english : str
        The chapter, and the same in English.

    Examples
    --------
    >>> with_words_on_screen("- {#bed.name} **Beetname**: wie es heißt.", "- {#bed.name} **Name**: what it is called.")
    '- {#bed.name} **Beetname** (*Name*): wie es heißt.'
    """
    words = {
        names: bold
        for line in english.split("\n")
        if (names := names_in(line)) and (bold := first_bold(line))
    }
    lines = []
    for line in text.split("\n"):
        own, there = first_bold(line), words.get(names_in(line), "")
        if line.startswith("- {#") and there and own != there:
            line = line.replace(f"**{own}**", f"**{own}** (*{there}*)", 1)
        lines.append(line)
    return "\n".join(lines)


def _sections(chapter: str, text: str) -> Iterator[Section]:
    """Parts of a text: what is under each heading, and each named entry below it."""
    level, title, names, lines = 0, "", (), []  # type: int, str, tuple[str, ...], list[str]
    entries: list[Section] = []

    def whole() -> Iterator[Section]:
        if title:
            said = " ".join(part for line in lines if (part := plain(line)))
            own = names or ((chapter,) if level == 1 else ())
            yield Section(chapter, level, title, own, said)
        yield from entries
        entries.clear()

    for block in _blocks(text):
        first = block[0]
        deep, words = heading(first)
        if deep:
            yield from whole()
            level, title, names, lines = deep, words, names_in(first), []
            if deep == 1:
                names = (chapter, *(name for name in names if name != chapter))
            continue
        own = names_in(" ".join(block))
        said = " ".join(part for line in block if (part := plain(line)))
        if own:
            entries.append(Section(chapter, 0, first_bold(block[0]) or said[:60], own, said))
        else:
            lines += block
    yield from whole()


def _blocks(text: str) -> Iterator[list[str]]:
    """Headings, entries of lists with their further lines, and other paragraphs."""
    block: list[str] = []
    for line in text.split("\n"):
        begins = not line.strip() or line.startswith(("#", "- ", "|")) or re.match(r"\d+\. ", line)
        if begins and block:
            yield block
            block = []
        if line.strip():
            block.append(line)
    if block:
        yield block


def _folded(text: str) -> str:
    """A text for searching: without case and accents."""
    parted = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in parted if not unicodedata.combining(sign))
